"""Nothing was cleared yet: said of the vehicle as it stands, wherever in a text. Common practice in all wordings."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import Reading, read_text
from triage.intake.said import phases, uncleared


def read(text: str) -> Reading:
    return read_text(text, load())


@pytest.mark.parametrize("said", [
    "I have cleared nothing yet.", "nothing erased so far", "I have not cleared anything yet.",
    "dont clear anything yet",
    "codes not cleared", "I haven't wiped it yet", "noch nichts gelöscht", "Fehler wurden noch nicht gelöscht",
    "j'ai rien effacé", "je n'ai encore rien effacé", "aún no he borrado nada", "no he borrado nada",
])
def test_nothing_cleared_begins_no_scan(said: str) -> None:
    reading = read(f"ABS: C1142 stored\n{said}\n")
    assert [snapshot.phase for snapshot in reading.snapshots] == ["before-clear"]
    assert reading.snapshots[0].modules[0].codes[0].code == "C1142"


@pytest.mark.parametrize("said", [
    "the code would not clear", "p0420 has not cleared", "could not be cleared", "konnte nicht geloscht werden",
    "p0562 did not clear",
])
def test_a_clear_that_was_tried_was_one(said: str) -> None:
    assert uncleared.span(said) is None


def test_another_day_it_was_cleared() -> None:
    assert [deed.what for deed in phases.events("codes not cleared by the last garage, cleared all codes now")] == [
        "cleared"]


def test_a_later_scan_keeps_its_phase() -> None:
    reading = read("After clear\nABS: C1142 active\nI have cleared nothing since.\n")
    assert [snapshot.phase for snapshot in reading.snapshots] == ["after-clear"]
