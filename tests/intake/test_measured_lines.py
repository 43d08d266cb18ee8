"""Measurements in ordinary words become readings of the scan, with how they were taken. Wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.assess import verdicts
from triage.intake.entries.measuredline import measured_in
from triage.intake.gather import Part, gather
from triage.intake.plain.characters import low
from triage.intake.read import read_text
from triage.model.measured_words import is_drop, path_of
from triage.supply.named import measured


@pytest.mark.parametrize(("line", "expected"), [
    ("Key-off current 22 mA after 40 min", [("draw", 22.0, 40 / 60)]),
    ("parasitic draw 0.4 A", [("draw", 400.0, None)]),
    ("Ruhestrom nach 1 h: 35 mA", [("draw", 35.0, 1.0)]),
    ("measured voltage drop battery minus to engine block 0.05 V", [("drop", 0.05, None)]),
    ("voltage drop, battery minus to engine block, cranking: 0,9 V", [("drop", 0.9, None)]),
    ("Volt drop ground 50 mV, feed 0.3 V", [("drop", 0.05, None), ("drop", 0.3, None)]),
    ("chute de tension masse 0,1 V", [("drop", 0.1, None)]),
])
def test_a_measurement_in_words(line: str, expected: list[tuple[str, float, float | None]]) -> None:
    reading, = read_text(f"12.6 V\nABS: C0035 stored\n\n{line}\n", load()).snapshots
    assert reading.phase is None
    assert [module.printed for module in reading.modules] == ["ABS"]
    found = [measured(one) for one in reading.readings or []]
    assert [(one.kind, pytest.approx(one.value), one.hours) for one in found if one is not None] == [
        (kind, value, hours if hours is None else pytest.approx(hours)) for kind, value, hours in expected]


@pytest.mark.parametrize("line", [
    "voltage drop should be below 0.2 V", "max key-off current 50 mA", "parasitic draw not measured, 12.4 V",
    "drop the trailer, 12.1 V", "voltage drop", "quiescent current test at 12.5 V",
])
def test_what_was_not_measured(line: str) -> None:
    assert measured_in(line, low(line)) == []


@pytest.mark.parametrize(("line", "state"), [
    ("Battery test: passed", "proven"), ("battery tested good, 680/700 CCA", "proven"),
    ("Batterietest: gut", "proven"), ("battery A 180 A of 650 replace", "failed"),
    ("battery tester: good - recharge", "not tested"),
])
def test_what_a_battery_tester_said(line: str, state: str) -> None:
    reading = read_text(f"ABS: C0035 stored\nBCM: no codes\n\n{line}\n", load())
    assert [len(scan.modules) for scan in reading.snapshots] == [2]
    session, _ = gather("van", [Part("van", reading.snapshots, events=reading.events)])
    battery = next(part for part in verdicts([session], load())[0]["supply"] if part["part"] == "battery")
    assert battery["state"] == state


def test_what_was_done_beside_a_test_is_read() -> None:
    reading = read_text("battery tested ok, cleared all codes\nABS: C0035 stored\nBCM: no codes\n", load())
    assert [event.what for event in reading.events] == ["other", "cleared"]
    assert [scan.phase for scan in reading.snapshots] == ["after-clear"]


@pytest.mark.parametrize(("line", "lost"), [
    ("main link 12.1 V one side, 0.0 V other", 12.1),
    ("jumped with the leads the wrong way round. Fusible link: battery side 12.4 V, load side 0 V", 12.4),
    ("12.4 V into the 80A fuse, 0.2 V out", 12.2),
    ("Hauptsicherung 12,3 V Eingang, 0,0 V Ausgang", 12.3),
    ("fusible F1 12,2 V en amont et 0 V en aval", 12.2),
    ("fusible 3: 12,2 V antes, 0 V después", 12.2),
])
def test_a_part_with_a_voltage_on_one_side_only_is_open(line: str, lost: float) -> None:
    reading, = read_text(f"12.4 V\nABS: C0035 stored\n\n{line}\n", load()).snapshots
    assert (reading.volts, [module.printed for module in reading.modules]) == (12.4, ["ABS"])
    drop, = (measured(one) for one in reading.readings or [])
    assert drop is not None
    assert (drop.kind, drop.value, drop.path) == ("drop", pytest.approx(lost), "positive")


@pytest.mark.parametrize("line", [
    "F12: 12.4 V in, 12.3 V out", "12.6 V before, 11.9 V after", "fuse box feed 12.4 V", "F12 10 A",
])
def test_a_sound_part_and_a_supply_that_changed_are_no_drop(line: str) -> None:
    assert measured_in(line, low(line)) == []


@pytest.mark.parametrize(("line", "found"), [
    ("volt drop alt case to batt neg 0.02 V; exciter wire L 0 V plug off ign on should be batt",
     [("exciter wire L, plug off ign on", 0.0), ("volt drop alt case to batt neg", 0.02)]),
    ("exciter wire: 0.3 V", [("exciter wire", 0.3)]), ("D+ 12.1 V key on", [("D+, key on", 12.1)]),
    ("resistance J1939 at diag socket C-D: 120 ohm", [("J1939 H to L", 120.0)]),
    ("120 ohm between CAN H and CAN L at the diagnostic socket", [("CAN H to L", 120.0)]),
])
def test_the_wire_that_excites_the_generator_and_the_lines_of_a_bus(line: str, found: list[tuple[str, float]]) -> None:
    text = f"Before clear, battery 11.2 V\nEngine: P0562 stored\nABS: no codes\n{line}\n"
    shot = read_text(text, load()).snapshots[0]
    assert (shot.volts, [module.printed for module in shot.modules]) == (11.2, ["Engine", "ABS"])
    assert sorted((one.name, one.value) for one in shot.readings or []) == sorted(found)


@pytest.mark.parametrize(("first", "second"), [
    ("Before clearing 14/03/2024 07:40", "After replacing the battery (14/03/2024 10:15)"),
    ("Vor dem Löschen 14.03.2024 07:40", "Nach Tausch der Batterie (14.03.2024 10:15)"),
    ("Avant effacement 14/03/2024 07:40", "Après remplacement batterie 14/03/2024 10:15"),
    ("Antes de borrar 14/03/2024 07:40", "Tras cambiar la batería - 14/03/2024 10:15"),
])
def test_a_date_gives_no_figures_of_a_battery(first: str, second: str) -> None:
    reading = read_text(f"{first}\nABS: C0035 stored\nBCM: P0562\n{second}\nABS: C0040\nBCM: C0051\n", load())
    assert [scan.phase for scan in reading.snapshots] == ["before-clear", "after-repair"]
    assert not reading.events


@pytest.mark.parametrize("line", ["Battery test 14/03/2024: passed", "Battery 310/640 A on 14/03/2024"])
def test_what_a_tester_said_on_a_day(line: str) -> None:
    reading = read_text(f"ABS: C0035 stored\nBCM: no codes\n\n{line}\n", load())
    assert [(event.what, event.note) for event in reading.events] == [("other", line)]


@pytest.mark.parametrize(("line", "path"), [
    ("Ground EPS to battery neg 0.1V", "ground"), ("battery neg to EPS ground 0.1 V", "ground"),
    ("Masse EPS gegen Batterie minus 0,1 V", "ground"), ("masse EPS vers moins batterie 0,1 V", "ground"),
    ("masa EPS a negativo batería 0,1 V", "ground"), ("B+ to EPS feed 0.1 V drop", "positive"),
    ("battery plus to EPS plug 0.1 V under load", "positive")])
def test_a_path_from_a_post_to_a_module_is_a_drop(line: str, path: str) -> None:
    (shot,) = read_text(f"After clear 12.5 V\nEPS: C1A44 current\n\n{line}\n", load()).snapshots
    (reading,) = shot.readings
    assert is_drop(reading)
    assert path_of(reading.name.lower()) == path
    assert (reading.value, reading.module) == (0.1, None)


def test_the_voltage_at_a_plug_is_no_drop() -> None:
    (shot,) = read_text("After clear 12.5 V\nEPS: C1A44 current\n\nEPS plug 10.9 V, battery 13.8 V\n",
                        load()).snapshots
    assert not any(is_drop(reading) for reading in shot.readings)
