"""The import law, read from the code itself: one direction, packages that never meet, few that touch the world.

    model <- intake, supply, relations, evidence, explain, store, reports (never one another) <- assess <- cli, web
"""

from __future__ import annotations

import ast
import importlib
import pkgutil
from collections.abc import Iterator
from pathlib import Path

import pytest

import code_tables
import triage

ROOTS = {"triage": Path(triage.__file__).parent, "code_tables": Path(code_tables.__file__).parent}
FILES = sorted(file for root in ROOTS.values() for file in root.rglob("*.py"))
APART = {"intake", "supply", "relations", "evidence", "explain", "store", "reports"}
#: What each part of ``triage`` may import of ``triage``, beside itself.
BASE = {"errors", "units", "collector"}
ALLOWED = {
    "errors": set(), "units": set(), "collector": set(), "model": BASE, **{name: BASE | {"model"} for name in APART},
    "assess": BASE | APART - {"store", "reports"} | {"model"},
    "cli": BASE | APART | {"model", "assess", "cli", "web"}, "__main__": {"cli"},
    "web": BASE | APART | {"model", "assess", "cli"}, "": set(),
}
#: The folders of ``triage/intake``: each may import itself and those of the lines above it; its loose files, all.
LAYERS = (("plain",), ("words",), ("naming", "said"), ("codes",), ("lines",), ("tidying", "scan", "raw"),
          ("speech", "entries"))
#: The parts that may touch files, clock, sockets and streams.
OUTWARD = {"cli", "web", "store", "__main__"}
WORLD = {"os", "sys", "socket", "time", "shutil", "subprocess", "tempfile", "pathlib", "glob", "urllib", "http",
         "asyncio", "signal", "threading", "multiprocessing", "random", "secrets", "sqlite3"}
WORLD_CALLS = {"open", "print", "input", "breakpoint"}  # io.StringIO is no stream of the world
WORLD_METHODS = {"read_text", "read_bytes", "write_text", "write_bytes", "now", "today", "utcnow", "to_csv"}
#: The table loader reads its own CSV files.
LOADERS = {"code_tables/loader.py", "code_tables/reading.py", "code_tables/content.py", "code_tables/__main__.py",
           "code_tables/checker.py"}


def name_of(file: Path) -> str:
    """The file as "triage/model/codes.py"."""
    return next(f"{name}/{file.relative_to(root).as_posix()}" for name, root in ROOTS.items() if root in file.parents)


def part_of(file: Path) -> tuple[str, str]:
    """The package and its part: ("triage", "model")."""
    package, first, *_ = name_of(file).split("/")
    return package, "" if first == "__init__.py" else first.removesuffix(".py")


def imports(file: Path, *, typing_too: bool = True) -> Iterator[tuple[str, int]]:
    """Every dotted name that ``file`` imports, wherever it stands, with its line."""
    tree = ast.parse(file.read_text(encoding="utf-8"))
    skipped: set[ast.AST] = set()
    for node in ast.walk(tree):
        if not typing_too and isinstance(node, ast.If) and ast.unparse(node.test) == "TYPE_CHECKING":
            skipped.update(child for statement in node.body for child in ast.walk(statement))
        if node in skipped:
            continue
        if isinstance(node, ast.Import):
            yield from ((alias.name, node.lineno) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{name_of(file)}:{node.lineno}: a relative import hides its direction"
            for alias in node.names:
                whole = node.module in ("triage", "triage.model", "code_tables")
                yield (f"{node.module}.{alias.name}" if whole else str(node.module), node.lineno)


@pytest.mark.parametrize("file", FILES, ids=name_of)
def test_imports_go_one_way(file: Path) -> None:
    package, part = part_of(file)
    for imported, line in imports(file):
        base, _, rest = imported.partition(".")
        other = rest.partition(".")[0]
        where = f"{name_of(file)}:{line} imports {imported}"
        if package == "code_tables" and base == "triage":
            assert imported.startswith("triage.model.codes") or imported == "triage.errors", where
        if package == "triage" and base == "triage":
            assert other == part or other in ALLOWED[part], where
        if package == "triage" and part in {"model", "errors", "units"} and base == "code_tables":
            # The casebook names the type of its facts; it calls nothing of them.
            assert (imported, line) not in set(imports(file, typing_too=False)), where


@pytest.mark.parametrize("file", [file for file in FILES if name_of(file).startswith("triage/intake/")], ids=name_of)
def test_intake_stands_in_layers(file: Path) -> None:
    _, _, own, *inside = name_of(file).split("/")
    height = {name: at for at, layer in enumerate(LAYERS) for name in layer}
    for imported, line in imports(file):
        if inside and imported.startswith("triage.intake."):
            other = imported.split(".")[2]
            where = f"{name_of(file)}:{line} imports {imported}"
            assert other == own or (other in height and height[other] < height[own]), where


@pytest.mark.parametrize("file", [f for f in FILES if part_of(f)[1] not in OUTWARD and name_of(f) not in LOADERS],
                         ids=name_of)
def test_only_the_rim_touches_the_world(file: Path) -> None:
    for imported, line in imports(file, typing_too=False):
        assert imported.split(".")[0] not in WORLD, f"{name_of(file)}:{line} imports {imported}"
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call):
            called = node.func
            if isinstance(called, ast.Name):
                assert called.id not in WORLD_CALLS, f"{name_of(file)}:{node.lineno} calls {called.id}"
            if isinstance(called, ast.Attribute):
                assert called.attr not in WORLD_METHODS, f"{name_of(file)}:{node.lineno} calls .{called.attr}"


@pytest.mark.parametrize("file", [*FILES, *sorted((Path(__file__).parent / "support").glob("*.py"))],
                         ids=lambda file: file.name if file.parent.name == "support" else name_of(file))
def test_functions_and_modules_stay_short(file: Path) -> None:
    text = file.read_text(encoding="utf-8")
    assert text.count("\n") <= 400, file
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, (ast.FunctionDef, ast.AsyncFunctionDef)):
            length = (node.end_lineno or node.lineno) - node.lineno + 1
            assert length <= 60, f"{file}:{node.lineno} {node.name} has {length} lines"


@pytest.mark.parametrize("file", FILES, ids=name_of)
def test_a_public_face_is_sorted_and_real(file: Path) -> None:
    for node in ast.parse(file.read_text(encoding="utf-8")).body:
        if isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == "__all__":
            face = ast.literal_eval(node.value)
            # Constants, classes, functions: each group in order, as the linter's isort style has it.
            assert face == sorted(face, key=lambda name: (not name.isupper(), not name[0].isupper(), name)), face
            dotted = name_of(file).removesuffix(".py").removesuffix("/__init__").replace("/", ".")
            module = importlib.import_module(dotted)
            assert all(hasattr(module, name) for name in face)


def test_every_package_of_the_tree_is_known_to_the_law() -> None:
    known = set(ALLOWED) - {""}
    found = {module.name for module in pkgutil.iter_modules(triage.__path__)}
    assert found - known <= {"demo"}
