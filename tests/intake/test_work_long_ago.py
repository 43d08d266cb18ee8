"""Work of long ago is none between the scans; a date that is taken back is none; the last try at programming tells how
it ended. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import Reading, read_text

_BEFORE = "before clear 11.4 V\nEngine: P0562 stored\nTCU: no answer\nBCM: U0101\n"
_AFTER = "\nafter clear 13.2 V\nEngine: none\nTCU: none\nBCM: none\n"


def _read(line: str) -> Reading:
    return read_text(_BEFORE + line + _AFTER, load())


@pytest.mark.parametrize("line", [
    "alternator was changed last year", "BCM replaced in 2022", "battery replaced 2 years ago",
    "previous owner replaced the ABS module", "ABS module replaced 6 months ago", "Batterie letztes Jahr ersetzt",
    "Lichtmaschine wurde 2022 getauscht", "alternateur remplacé il y a 2 ans", "alternador cambiado hace dos años",
])
def test_work_of_long_ago_is_none_between_the_scans_and_is_named(line: str) -> None:
    reading = _read(line)
    assert not reading.events
    assert [notice.line for notice in reading.notices if "told of an earlier time" in notice.message] == [5]
    assert [[module.printed for module in scan.modules] for scan in reading.snapshots] == [["Engine", "TCU", "BCM"]] * 2


@pytest.mark.parametrize(("line", "module"), [
    ("BCM swapped new 2 days ago by other garage, not coded I think", "body control"),
    ("BCM replaced 03.02.2026", "body control"), ("BCM replaced, alternator was changed last year", "body control"),
])
def test_work_of_these_days_is_one(line: str, module: str) -> None:
    assert [(event.what, event.module) for event in _read(line).events] == [("replaced", module)]


@pytest.mark.parametrize("line", [
    "10/02/2026? wait its the 13.02.2026, 9:15", "10.02.2026, no sorry 13.02.2026 9:15",
    "am 10.02.2026, nein 13.02.2026 9:15", "le 10.02.2026, non le 13.02.2026 9:15",
])
def test_a_date_that_is_taken_back_is_none(line: str) -> None:
    reading = read_text(f"{line}, 11.4 V\nEngine: P0562 stored\nABS: none\n", load())
    assert [str(scan.at) for scan in reading.snapshots] == ["2026-02-13 09:15:00"]


@pytest.mark.parametrize(("line", "answers"), [
    ("tcu update died halfway at 11.6V. TCU flashed again, said successful", ["refused", "accepted"]),
    ("TCU programming failed at 62%.\nTCU flashed again, said successful", ["refused", "accepted"]),
    ("TCU programming aborted. Second try successful", ["refused", "accepted"]),
    ("TCU Programmierung abgebrochen. Nochmal programmiert, erfolgreich", ["refused", "accepted"]),
    ("TCU programming failed. programmed again, failed", ["refused"]),
])
def test_the_last_try_at_programming_tells_how_it_ended(line: str, answers: list[str]) -> None:
    told = [(event.module, event.answer) for event in _read(line).events if event.what == "programmed"]
    assert told == [("transmission control", answer) for answer in answers]


def test_the_supply_of_a_try_that_broke_off_is_kept_with_it() -> None:
    events = _read("tcu update died halfway at 11.6V because the charger was forgotten").events
    assert [(event.what, event.note) for event in events] == [("programmed", "supply 11.6 V")]


@pytest.mark.parametrize("line", [
    "After charging overnight cleared, 12.7 V", "Nach Ladung über Nacht gelöscht, 12,7 V",
    "Après charge toute la nuit effacé, 12,7 V", "Tras la carga borrado, 12,7 V"])
def test_a_clear_after_a_charge_was_done(line: str) -> None:
    text = f"Before clear 10.9 V\nECM: P0562 stored\nABS: U0100 stored\n{line}\nECM: P0335 current\nABS: no codes\n"
    reading = read_text(text, load())
    assert [event.what for event in reading.events] == ["cleared"]
    assert reading.snapshots[-1].phase == "after-clear"
