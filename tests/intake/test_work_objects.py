"""What a deed was done to: the module in its own words, never one that another sentence, or the state of the engine,
names. All invented; wordings: common practice."""

from __future__ import annotations

import pytest
from reads import modules_of

from code_tables import load
from triage.intake.read import read_text

_SCAN = "\nEngine: no codes\nABS: no codes\n"


def _done(line: str) -> list[tuple[str, str | None, str | None]]:
    return [(event.what, event.module, event.note) for event in read_text(line + _SCAN, load()).events
            if event.what != "cleared"]


@pytest.mark.parametrize("line", [
    "New battery fitted. Engine running warm, 14.2 V, no charger",
    "Battery replaced, engine running, 14.2 V",
    "Batería nueva, 12,7 V. Averías borradas a las 9:20. Motor en marcha, 14,2 V",
    "Neue Batterie eingebaut. Motor läuft, 14,2 V",
    "Batterie neuve, moteur tournant 14,2 V",
])
def test_a_new_battery_is_the_battery(line: str) -> None:
    assert _done(line) == [("replaced", None, "battery")]


@pytest.mark.parametrize("line", [
    "Earth strap replaced. ABS lamp off. 12.6 V", "Replaced the fuse. Cluster lamp still on. 12.6 V",
    "Fuse of the radio replaced, 12.6 V", "hose between air meter and throttle replaced",
    "Mass air flow meter replaced. 12.6 V", "Neue Sicherung eingebaut, Motor läuft. 14,1 V",
])
def test_a_part_is_no_module_named_elsewhere(line: str) -> None:
    assert [done[:2] for done in _done(line)] == [("replaced", None)]


@pytest.mark.parametrize("line", [
    "cleared ok with A/C pressure sensor left unplugged", "Cleared all with ABS sensor connected. 12.6 V",
    "cleared ok with A/C pressure sensor left unplugged, then ran 15 min, 14.1 V, test drive ok",
    "Gelöscht mit abgestecktem Radio. 12,6 V",
])
def test_how_things_stood_at_a_clear_is_not_what_was_cleared(line: str) -> None:
    reading = read_text(line + _SCAN, load())
    assert [event.module for event in reading.events if event.what == "cleared"] == [None]
    assert [module.module for scan in reading.snapshots for module in scan.modules] == [
        "engine control", "anti-lock brakes"]


@pytest.mark.parametrize(("line", "volts"), [
    ("Batt 12.4V, no charger on it. Complaint: limp mode, no power.", 12.4),
    ("Batterie 12,4 V, kein Ladegerät. Beanstandung: Notlauf", 12.4), ("Complaint: limp mode. Batt 12.4 V.", 12.4),
    ("Complaint: went flat at 11 V.", None),
])
def test_a_complaint_in_the_line_hides_no_voltage(line: str, volts: float | None) -> None:
    (scan,) = read_text(line + _SCAN, load()).snapshots
    assert scan.volts == volts


@pytest.mark.parametrize(("line", "done"), [
    ("ABS module swapped. Programmed and calibrated today.", ["replaced", "programmed", "calibrated"]),
    ("ABS module replaced. Engine running 14.1 V", ["replaced"]), ("ABS, battery replaced", ["replaced"]),
    ("ABS: all codes read. New one fitted.", ["replaced"]),
])
def test_a_sentence_without_an_object_goes_on_about_the_one_before(line: str, done: list[str]) -> None:
    assert _done(line) == [(what, "anti-lock brakes", None) for what in done]


def test_what_is_told_to_hold_no_codes_is_a_module() -> None:
    assert modules_of("ABS - no codes\ntyre pressures - no codes\nRadio - no answer\n") == {
        "anti-lock brakes": ["clean"], "tyre pressure": ["clean"], "radio": ["silent"]}
    assert list(modules_of("ABS - no codes\ntyre pressures - ok\nRadio - no answer\n")) == ["anti-lock brakes", "radio"]
