"""Headings as people write them: charged and cleared in one line, the vehicle's nominal voltage beside what was read,
"all modules" before the phase, and what the vehicle does above it. All invented; wordings: common practice."""

from __future__ import annotations

import pytest
from reads import scans

from code_tables import load
from triage.intake.read import read_text
from triage.intake.said import volts

FIRST = "before clear, 10.6 V\nECM: P0562, P0118\nABS: C0031, U0100\n"
AGAIN = "\nECM: P0118\nABS: none\n"


@pytest.mark.parametrize(("head", "supply", "outside"), [
    ("Battery charged 12.7 V, cleared what answers", 12.7, None),
    ("13.0 V charger on, cleared, key on", 13.0, "charger"),
    ("10:40 stabilised supply 13.5 V, cleared", 13.5, "charger"),
    ("12V charged, 12.8 V, charger off, cleared", 12.8, "none"), ("12 V battery charged, 12.7 V, cleared", 12.7, None),
    ("Batterie geladen, Ladegerät ab, 12,7 V, alles gelöscht", 12.7, "none"),
    ("batterie chargée, chargeur débranché, 12,7 V, tout effacé", 12.7, "none"),
])
def test_a_line_with_a_clear_and_a_voltage_heads_the_next_scan(head: str, supply: float, outside: str | None) -> None:
    before, after = read_text(FIRST + head + AGAIN, load()).snapshots
    assert (before.volts, before.outside_supply) == (10.6, None)
    assert (after.phase, after.volts, after.outside_supply) == ("after-clear", supply, outside)


def test_the_battery_beside_a_clear_is_not_what_was_cleared() -> None:
    events = read_text(FIRST + "12 V battery charged, 12.7 V, cleared" + AGAIN, load()).events
    assert [(event.what, event.module) for event in events] == [("cleared", None)]
    events = read_text(FIRST + "ABS cleared, 12.7 V" + AGAIN, load()).events
    assert [(event.what, event.module) for event in events] == [("cleared", "anti-lock brakes")]


@pytest.mark.parametrize("low", ["12 v charged on the bench, 12.7 v", "12v flat again, 12.7 v", "12 v geladen, 12,7 v",
                                 "12 v system charged, 12.7 v", "batterie 12 v chargee, 12,7 v",
                                 "12 v cargada, 12,7 v"])
def test_a_round_voltage_before_what_was_done_is_nominal(low: str) -> None:
    assert [(volt.value, volt.of == "nominal") for volt in volts.find(low)] == [(12.0, True), (12.7, False)]


def test_a_voltage_with_a_decimal_is_read_there() -> None:
    assert [(volt.value, volt.of) for volt in volts.find("12.0 v charged")] == [(12.0, "bare")]


@pytest.mark.parametrize(("head", "phase"), [
    ("all modules before clear:", "before-clear"), ("all modules after clear, 12.6 V", "after-clear"),
])
def test_all_modules_beside_a_phase_are_not_clean(head: str, phase: str) -> None:
    reading = read_text(f"{head}\nECM P0671\nABS C0034\n", load())
    assert [scan.phase for scan in reading.snapshots] == [phase]
    assert reading.notices == []


def test_all_other_modules_clear_is_an_answer() -> None:
    text = "before clear\nECM P0671\nABS C0034\n\nafter clear 12.6 V\nECM P0671\nall other modules clear\n"
    assert scans(text)[1] == "after-clear 12.6 V | ECM: P0671; ABS: clean"


@pytest.mark.parametrize("story", [
    "Supermini, diesel, stood three weeks at the airport, dead as a doornail", "Petrol hatch, dead as a doornail",
    "Work van, dead every second morning and the wipers do nothing", "Kombi, die Scheibenwischer machen nichts",
    "Break, les essuie-glaces ne font rien", "Key on, standing in the bay",
])
def test_what_the_vehicle_does_is_no_answer_of_a_module(story: str) -> None:
    found = scans(f"{story}\nbefore clear 10.1 V\nECM P0562\nABS none\n")
    assert found == ["before-clear 10.1 V | ECM: P0562; ABS: clean"]


@pytest.mark.parametrize(("line", "held"), [("Wipers: nothing", "clean"), ("Wipers dead as a doornail", "silent")])
def test_what_a_module_answers_is_one(line: str, held: str) -> None:
    assert scans(f"before clear 10.1 V\nECM P0562\n{line}\n") == [f"before-clear 10.1 V | ECM: P0562; Wipers: {held}"]


@pytest.mark.parametrize(("head", "drove"), [
    ("AFTER DRIVE 8 km (14.3 V)", True), ("after the drive, 14.3 V", True), ("after driving 14.3 V", True),
    ("after 10 min at idle, 14.3 V", False), ("after run 14.3 V", None),
])
def test_a_scan_behind_a_drive_was_driven(head: str, drove: bool | None) -> None:
    (scan,) = read_text(f"{head}\nECM P0562\nABS none\n", load()).snapshots
    assert (scan.phase, scan.drove) == ("after-run", drove)
