"""No module imports itself through others, wherever the import stands: a reader can begin at the bottom."""

from __future__ import annotations

import ast
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

import pytest

import triage

ROOT = Path(triage.__file__).parent


def imported(file: Path, known: set[str]) -> set[str]:
    """The modules of ``known`` that ``file`` imports, in functions and for typing too."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom):
            found |= {f"{node.module}.{alias.name}" for alias in node.names} | {str(node.module)}
        elif isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
    return found & known


@pytest.mark.parametrize("package", ["reports", "supply", "relations", "explain", "cli"])
def test_no_package_has_a_cycle(package: str) -> None:
    files = {f"triage.{package}.{file.stem}": file for file in (ROOT / package).glob("*.py") if file.stem != "__init__"}
    graph = {name: imported(file, set(files)) for name, file in files.items()}
    assert any(graph.values())
    try:
        list(TopologicalSorter(graph).static_order())
    except CycleError as error:
        pytest.fail(" -> ".join(error.args[1]))
