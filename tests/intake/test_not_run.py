"""A run or a drive that did not take place, or not yet, is none. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text

_SCAN = "\nEngine: no codes\nABS: no codes\n"


@pytest.mark.parametrize("line", [
    "All cleared 12:25, accepted. Not yet driven. 12.6 V", "Codes cleared, has not been driven yet. 12.6 V",
    "Cleared, not road tested. 12.6 V", "Cleared, road test not done yet. 12.6 V",
    "Cleared, road test: pending. 12.6 V",
    "Alle Fehler gelöscht, noch nicht gefahren. 12,6 V", "Gelöscht, Probefahrt steht noch aus. 12,6 V",
    "Défauts effacés, pas encore roulé. 12,6 V", "Effacé, essai routier pas encore fait. 12,6 V",
    "Todo borrado, aún no rodado. 12,6 V",
])
def test_a_drive_not_made_is_no_run(line: str) -> None:
    reading = read_text(line + _SCAN, load())
    (scan,) = reading.snapshots
    assert (scan.phase, scan.volts, scan.drove, scan.ran_minutes) == ("after-clear", 12.6, False, None)
    assert {event.what for event in reading.events} == {"cleared"}
    assert [event.module for event in reading.events] == [None]


@pytest.mark.parametrize("line", [
    "After clear, engine not run for 10 min, 12.6 V", "Cleared, engine not yet run. 12.6 V"])
def test_an_engine_not_run_was_off(line: str) -> None:
    (scan,) = read_text(line + _SCAN, load()).snapshots
    assert (scan.phase, scan.volts, scan.engine, scan.ran_minutes) == ("after-clear", 12.6, "off", None)


@pytest.mark.parametrize("line", ["Cleared, drove 5 km, 14.1 V, lamp not on", "Cleared, road test done, 14.1 V"])
def test_a_drive_is_a_run(line: str) -> None:
    (scan,) = read_text(line + _SCAN, load()).snapshots
    assert (scan.phase, scan.drove) == ("after-run", True)
