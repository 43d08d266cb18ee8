"""Measurements, drives and deeds in trade writing: what the generator gives and at what speed, a distance without a
verb, wiring that was put back, a device that a word alone says to be off. Four languages; wordings: common practice."""

from __future__ import annotations

import pytest

import code_tables
from triage.intake.read import Reading, read_text
from triage.intake.said.conditions import find

_SCAN = """Van, diesel
Before clear 2026-03-02 08:00 12.1 V engine off
ABS: C0037 active
Engine: no faults
09:00 cleared accepted
After clear 2026-03-02 09:10 12.6 V
ABS: C0037 active
Engine: no faults
"""


def _read(*lines: str) -> Reading:
    return read_text(_SCAN + "\n".join(lines) + "\n", code_tables.load())


def _readings(*lines: str) -> list[tuple[str, float]]:
    return [(one.name, one.value) for one in _read(*lines).snapshots[-1].readings or []]


@pytest.mark.parametrize(("line", "value"), [
    ("Generator 14,3 V bei 2000/min mit allen Verbrauchern", 14.3), ("Alternator 14.2 V at 2000 rpm", 14.2),
    ("LiMa 14,1 V im Leerlauf", 14.1), ("alternateur 14,2 V à 2000 tr/min", 14.2),
    ("alternador 14,2 V a 2000 rpm", 14.2)])
def test_what_the_generator_gives_is_a_measurement_with_the_engine_running(line: str, value: float) -> None:
    ((name, found),) = _readings(line)
    assert name.startswith("generator output, ")
    assert found == value


@pytest.mark.parametrize("line", ["Generator replaced", "Generator 14 V 90 A fitted", "generator lamp on at 12.1 V"])
def test_a_generator_of_which_no_speed_or_load_is_told_gives_nothing(line: str) -> None:
    assert not any(name.startswith("generator output") for name, _ in _readings(line))


@pytest.mark.parametrize(("off", "told"), [
    ("09:30 Ladegerät ab", True), ("Ladegerät weg 09:30", True), ("cargador fuera 09:30", True),
    ("charger off 09:30", True), ("09:30 Ladegerät dran", False), ("charger off 08:30", False)])
def test_nothing_feeds_it_where_the_device_was_taken_off_after_the_scan(off: str, told: bool) -> None:
    ((name, _),) = _readings(off, "Generator 14,3 V bei 2000/min")
    assert name.endswith("nothing connected") is told


@pytest.mark.parametrize(("line", "drove"), [
    ("after run, dry road 40 km, 14.2 v", True), ("after run 14.3 v running, 25 km", True),
    ("nach lauf 14,2 v, 25 km landstrasse", True), ("despues de marcha 14,2 v, 25 km por carretera", True),
    ("after run, 14.3 v, mileage 125 km", None), ("after clear 12.6 v, 25 km", None),
    ("after run, lamp on since 40 km", None)])
def test_a_distance_alone_is_a_drive_in_the_scan_after_a_run(line: str, drove: bool | None) -> None:
    assert find(line).drove is drove


@pytest.mark.parametrize(("line", "note"), [
    ("15:00 ground strap refitted", "ground strap refitted"),
    ("08:20 plug under seat cleaned and pushed together", "plug under seat cleaned and pushed together"),
    ("Masseband wieder angeschraubt", "Masseband wieder angeschraubt"),
    ("tresse de masse remontée", "tresse de masse remontée"),
    ("plug not refitted yet", None), ("plug to be cleaned", None)])
def test_wiring_that_was_put_back_is_something_done(line: str, note: str | None) -> None:
    assert [event.note for event in _read(line).events if event.what == "other"] == ([note] if note else [])


@pytest.mark.parametrize("line", ["deleted 11:00 accepted", "effacé 11:00 accepté", "borrado a las 11:00, aceptado"])
def test_a_clear_with_its_time_is_no_measurement(line: str) -> None:
    reading = _read(line)
    assert not reading.snapshots[-1].readings
    assert [(event.what, event.answer) for event in reading.events][-1] == ("cleared", "accepted")
    assert len(reading.events) == 2
