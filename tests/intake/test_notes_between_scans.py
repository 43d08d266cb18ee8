"""What was noted between two scans and the heading of the next: each keeps its own voltage, supply and day.

All invented; wordings: common practice.
"""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import Reading, read_text

FIRST = "Before clear 2026-04-07 08:00, key on engine off, 11.1 V\nEngine: P0110 stored\nABS: C0040 stored\n"
MODULES = "\nEngine: P0110 current\nABS: no codes\n"


def read(*between: str, vehicle: str = "12 V") -> Reading:
    """A first scan, what stands between, of which the last line heads the second scan."""
    lines = "\n".join(between)
    return read_text(f"Vehicle: box van, {vehicle}\n{FIRST}{lines}{MODULES}", load())


@pytest.mark.parametrize(("note", "head", "kept"), [
    ("Battery on charge all night, 13.0 V by breakfast", "After clear 2026-04-08 09:10, engine off, 12.7 V", 13.0),
    ("Battery on charge all night, 13.0 V by breakfast", "2026-04-08 09:10, key on engine off, 12.7 V", 13.0),
    ("Then on a donor vehicle, 14.3 V, started\nCleared 09:00",
     "After clear 2026-04-07 09:10, 12.7 V, nothing connected", 14.3),
    ("Danach Starthilfe 13,9 V, Motor gestartet\nFehler um 9:00 gelöscht",
     "Nach dem Löschen 07.04.2026 09:10, 12,7 V, nichts angeschlossen", 13.9),
])
def test_the_heading_of_a_scan_has_its_voltage(note: str, head: str, kept: float) -> None:
    second = read(note, head).snapshots[1]
    assert second.volts == 12.7
    assert [reading.value for reading in second.readings or ()] == [kept]
    if "nothing" in head or "nichts" in head:
        assert second.outside_supply == "none"


def test_without_a_voltage_of_its_own_a_scan_has_that_of_the_note() -> None:
    found = read("Battery on charge all night, 13.0 V by breakfast", "After clear 2026-04-08 09:10, engine off")
    assert [scan.volts for scan in found.snapshots] == [11.1, 13.0]


@pytest.mark.parametrize("note", [
    "Both charged. Front battery 12.8 V, rear battery 12.2 V",
    "Charged, battery A 12.8 V, battery B 12.2 V. Load test 19.9 V passed",
])
def test_one_battery_is_no_supply_of_two(note: str) -> None:
    text = FIRST.replace("11.1 V", "22.4 V")
    found = read_text(f"Vehicle: tractor 24 V\n{text}{note}\nAfter clear 2026-04-07 09:10, 25.1 V{MODULES}", load())
    assert [scan.volts for scan in found.snapshots] == [22.4, 25.1]
    halves = [reading.value for reading in found.snapshots[1].readings or () if reading.value < 20]
    assert halves == [12.8, 12.2]


@pytest.mark.parametrize(("line", "answer"), [
    ("programmed: ABS, 2026-04-07 08:30, aborted", "refused"),
    ("Coded: engine, 2026-04-07 08:30, interrupted", "refused"),
    ("programmiert: ABS, 07.04.2026 08:30, abgebrochen", "refused"),
    ("reprogrammé : ABS, 07.04.2026, échoué", "refused"),
    ("programado: ABS, 07.04.2026 08:30, interrumpido", "refused"), ("programmed: ABS, 2026-04-07 08:30", None),
])
def test_a_programming_that_broke_off_leaves_its_module_in_the_scan(line: str, answer: str | None) -> None:
    found = read(line, "After clear 2026-04-07 09:10, 12.7 V")
    assert [(event.what, event.answer) for event in found.events] == [("programmed", answer)]
    assert not found.notices
    assert all(len(scan.modules) == 2 for scan in found.snapshots)


@pytest.mark.parametrize(("line", "note"), [
    ("ABS programmed 2026-04-01 with the supply held at 13.7 V", "supply 13.7 V"),
    ("Programming of the ABS broke off, supply only 11.2 V", "supply 11.2 V"),
    ("ABS programmiert bei 13,5 V", "supply 13.5 V"), ("ABS programmed", None),
])
def test_the_supply_of_a_programming_is_told_of_that(line: str, note: str | None) -> None:
    found = read(line, "After clear 2026-04-07 09:10")
    (event,) = [event for event in found.events if event.what == "programmed"]
    assert event.note == note
    assert found.snapshots[1].volts is None


@pytest.mark.parametrize("note", [
    "replaced: battery on 2026-03-20", "ABS programmed 2025-11-02", "Batterie am 20.03.2026 ersetzt"])
def test_work_of_an_earlier_day_moves_no_other(note: str) -> None:
    found = read(note, "Cleared 09:00", "After clear 2026-04-07 09:10, 12.7 V")
    cleared = next(event for event in found.events if event.what == "cleared")
    assert str(cleared.at) == "2026-04-07 09:00:00"
    assert [str(scan.at) for scan in found.snapshots] == ["2026-04-07 08:00:00", "2026-04-07 09:10:00"]
    assert str(found.events[0].at) < str(cleared.at)


@pytest.mark.parametrize(("note", "module"), [
    ("Unplugged ABS: engine starts again", "anti-lock brakes"),
    ("Sprayed the rear arch plug with water at 08:40", None),
    ("Shook the harness at the bulkhead: nothing", None), ("Stecker am Radhaus mit Wasser besprüht", None),
    ("Connecteur du passage de roue arrosé", None), ("Conector del paso de rueda rociado con agua", None),
])
def test_what_was_tried_is_noted(note: str, module: str | None) -> None:
    found = read(note, "After clear 2026-04-07 09:10, 12.7 V")
    assert [(event.what, event.module, event.note) for event in found.events] == [("other", module, note)]
    assert not found.notices
    assert all(len(scan.modules) == 2 for scan in found.snapshots)


@pytest.mark.parametrize("note", [
    "Moved to bay 3", "Heated seat module: no codes", "ABS unplugged? not yet", "next: unplug the ABS"])
def test_what_was_not_tried_is_no_event(note: str) -> None:
    assert not read("Cleared 09:00", "After clear 2026-04-07 09:10, 12.7 V" + MODULES + note).events[1:]


@pytest.mark.parametrize("note", [
    "Owner fitted a battery on 20.03.2026", "Kunde hat am 20.03.2026 eine Batterie eingebaut",
    "Le client a monté une batterie le 20.03.2026", "El cliente montó una batería el 20.03.2026",
    "The battery was fitted by the owner on 20.03.2026",
])
def test_a_battery_that_somebody_fitted_is_a_new_one(note: str) -> None:
    fitted, cleared = read(note, "Cleared 09:00", "After clear 2026-04-07 09:10, 12.7 V").events
    assert (fitted.what, fitted.note, str(fitted.at)) == ("replaced", "battery", "2026-03-20 00:00:00")
    assert (cleared.what, str(cleared.at)) == ("cleared", "2026-04-07 09:00:00")


def test_a_day_long_before_the_scan_begins_none() -> None:
    found = read("last inspection was on 20.03.2026, no remarks", "Cleared 09:00", "After clear, 12.7 V")
    assert [len(scan.modules) for scan in found.snapshots] == [2, 2]
    assert [str(event.at) for event in found.events] == ["2026-04-07 09:00:00"]
