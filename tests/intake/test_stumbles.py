"""A mistake of the reader costs the line it stumbles over, and never the text (a typed text never raises)."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import pytest

import code_tables
from triage.intake import text as reader
from triage.intake.plain.characters import Line
from triage.intake.read import read_text


def test_what_stands_elsewhere_is_read(monkeypatch: pytest.MonkeyPatch) -> None:
    good = reader.prepare

    def prepare(found: list[Line], *rest: Any) -> Any:
        if any("stumble" in line.low for line in found):
            raise IndexError("made up")
        return good(found, *rest)

    monkeypatch.setattr(reader, "prepare", prepare)
    reading = read_text("ABS\nC0031 stored\n\nstumble\n\nRadio\nU0100 current\n", code_tables.load(), source="a.txt")
    assert [[code.code for module in shot.modules for code in module.codes] for shot in reading.snapshots if any(
        module.codes for module in shot.modules)] == [["C0031"], ["U0100"]]
    assert [(notice.source, notice.line) for notice in reading.notices if reader.NOT_READ in notice.message] == [
        ("a.txt", 4)]


def test_a_row_with_fewer_cells_than_its_table() -> None:
    rows: Sequence[str] = ("Module | Code | Text | before clear | after clear", "ABS | C0031 | sensor | stored | -",
                           "Radio | U0100 | x", "TCM | P0700 | lamp | stored | stored", "ECM | P0118")
    assert read_text("\n".join(rows), code_tables.load()).snapshots


def test_an_installation_without_a_library_reads_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    """Else every text would come out empty, as if the vehicle had no codes."""
    def missing(*_: object) -> None:
        raise ModuleNotFoundError("No module named 'rapidfuzz'")

    monkeypatch.setattr(reader, "prepare", missing)
    with pytest.raises(ModuleNotFoundError):
        read_text("ABS: C0035 stored\nECM: P0562 stored\n", code_tables.load())
