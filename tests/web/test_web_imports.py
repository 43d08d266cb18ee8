"""No ring of imports in the store, the web page and the commands: not even one that hides inside a function."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

import triage

ROOT = Path(triage.__file__).parent


def graph(part: str) -> dict[str, set[str]]:
    """Each module of ``triage.part`` with the modules of the same part that it imports, wherever in its text."""
    names = {f"triage.{part}.{file.stem}": file for file in (ROOT / part).glob("*.py") if file.stem != "__init__"}
    found: dict[str, set[str]] = {}
    for name, file in names.items():
        imported: set[str] = set()
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Import):
                imported |= {alias.name for alias in node.names}
            elif isinstance(node, ast.ImportFrom) and node.module:
                imported |= {node.module, *(f"{node.module}.{alias.name}" for alias in node.names)}
        found[name] = imported & set(names)
    return found


def ring(edges: dict[str, set[str]]) -> list[str]:
    """The modules of a ring, or none."""
    done: set[str] = set()

    def walk(name: str, way: list[str]) -> list[str]:
        if name in way:
            return [*way[way.index(name):], name]
        if name not in done:
            for other in sorted(edges[name]):
                found = walk(other, [*way, name])
                if found:
                    return found
            done.add(name)
        return []

    return next((found for name in edges if (found := walk(name, []))), [])


@pytest.mark.parametrize("part", ["web", "store", "cli"])
def test_imports_form_no_ring(part: str) -> None:
    edges = graph(part)
    assert len(edges) > 10
    assert sum(map(len, edges.values())) > len(edges)
    assert ring(edges) == []


def test_a_ring_is_found() -> None:
    assert ring({"a": {"b"}, "b": {"c"}, "c": {"b"}}) == ["b", "c", "b"]
