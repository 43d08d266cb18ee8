"""What was done to the vehicle, told beside measurements and checks: an event, and no list of any module. All invented;
wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text

_SCAN = "ECM: P0562\nABS: C0035\n\n"


def _done(line: str, behind: str = "") -> list[tuple[str, str | None]]:
    return [(event.what, event.module) for event in read_text(_SCAN + line + behind, load()).events]


@pytest.mark.parametrize("line", [
    "New batt in 09:00", "new battery fitted 09:00", "New battery fitted and tested", "Batterie neu 09:00",
    "batterie neuve posée 9h30",
])
def test_a_part_put_in_is_told_with_its_time(line: str) -> None:
    assert _done(line) == [("replaced", None)]


@pytest.mark.parametrize("line", ["New warning light on 09:00", "new noise on 09:30", "New battery in 2 days"])
def test_what_is_new_and_was_not_put_in_is_no_work(line: str) -> None:
    assert _done(line) == []


@pytest.mark.parametrize(("line", "done"), [
    ("clock spring / SAS replaced, calibrated OK. air filter done too",
     [("replaced", "steering column"), ("replaced", "steering angle sensor"), ("calibrated", "steering column"),
      ("calibrated", "steering angle sensor")]),
    ("BCM replaced, coded OK", [("replaced", "body control"), ("programmed", "body control")]),
    ("Pulled seat, power pin 1 12.7V, CAN ok at the plug. fitted new driver door module 10:40. not coded yet",
     [("replaced", "door, driver")]),
])
def test_an_ok_of_work_is_no_list_without_codes(line: str, done: list[tuple[str, str | None]]) -> None:
    reading = read_text(_SCAN + line, load())
    assert [(event.what, event.module) for event in reading.events] == done
    assert [len(scan.modules) for scan in reading.snapshots] == [2]
    assert reading.snapshots[0].volts is None


@pytest.mark.parametrize("line", [
    "fuse of the BCM 40 A ok on both sides", "BCM earth ok", "Sicherung BCM ok",
])
def test_an_ok_of_a_part_is_no_list_without_codes(line: str) -> None:
    assert [len(scan.modules) for scan in read_text(_SCAN + line, load()).snapshots] == [2]


def test_answers_beside_work_are_answers() -> None:
    reading = read_text(_SCAN + "New battery fitted. BCM ok, radio ok", load())
    assert [len(scan.modules) for scan in reading.snapshots] == [4]


def test_a_clear_of_some_modules_is_an_event_for_each() -> None:
    events = read_text("cleared BCM + IPC 14:30 both accepted, 12.4 V\nBCM: U0199\nIPC: U0164", load()).events
    assert [(event.what, event.module, event.answer) for event in events] == [
        ("cleared", "body control", "accepted"), ("cleared", "instrument cluster", "accepted")]


@pytest.mark.parametrize("line", ["clr all at 13:20 with 12V charger on, OK everywhere", "clr codes 13:20, ok"])
def test_a_clear_in_short(line: str) -> None:
    events = read_text(_SCAN + line, load()).events
    assert [(event.module, event.answer) for event in events if event.what == "cleared"] == [(None, "accepted")]


def test_the_work_of_one_sentence_is_not_that_of_the_clear_in_the_next() -> None:
    assert ("cleared", None) in _done("SAS replaced. codes cleared again 13:30", "\nECM: none\nABS: none")


def test_a_list_of_all_modules_in_a_line_is_of_the_scan_after_the_clear() -> None:
    text = ("ECM P0562\nABS C0035\ncleared all 13:20\n** scan B 13:24 ** 13.4V\nall modules ECM ABS: no faults\n"
            "** scan C 13:48 ** 14.1 V, fuse ABS 40 A ok both sides\nECM P0562\nABS no faults")
    assert [(scan.phase, scan.volts) for scan in read_text(text, load()).snapshots] == [
        ("before-clear", None), ("after-clear", 13.4), (None, 14.1)]
