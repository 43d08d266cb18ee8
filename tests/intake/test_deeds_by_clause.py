"""What was done is kept wherever it stands in a line: beside a complaint, the supply, or the answers of modules. All
invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text

_SCAN = "\nBCM: U0300 active\nECM: U0140 stored\nEPS: none\n"


@pytest.mark.parametrize(("line", "module"), [
    ("BCM swapped new 2 days ago by other garage, not coded I think. Does not crank. batt 12.5 rested nothing on.",
     "body control"),
    ("BCM replaced yesterday. wont start. 12.5 V", "body control"),
    ("Steuergerät BCM getauscht, springt nicht an. 12,5 V", "body control"),
    ("BCM remplacé hier, ne démarre pas. 12,5 V", "body control"),
    ("Car does not crank. ECM replaced. 12.5 V", "engine control"),
])
def test_work_beside_a_complaint_and_the_supply(line: str, module: str) -> None:
    reading = read_text(line + _SCAN, load())
    assert [(event.what, event.module) for event in reading.events] == [("replaced", module)]
    assert [scan.volts for scan in reading.snapshots] == [12.5]
    assert [module.printed for module in reading.snapshots[0].modules] == ["BCM", "ECM", "EPS"]


@pytest.mark.parametrize(("line", "module"), [
    ("BCM swapped, ABS silent", "body control"), ("replaced the BCM, now the ABS does not answer", "body control"),
    ("cluster replaced yesterday, ABS does not answer", "instrument cluster"),
    ("BCM getauscht, ABS antwortet nicht", "body control"),
])
def test_work_beside_what_another_module_answered(line: str, module: str) -> None:
    reading = read_text(line + _SCAN, load())
    assert [(event.what, event.module) for event in reading.events] == [("replaced", module)]
    assert {scan.printed: scan.responds for scan in reading.snapshots[0].modules} == {
        "ABS": False, "BCM": True, "ECM": True, "EPS": True}


def test_a_rested_battery_with_nothing_on_it_has_no_outside_supply() -> None:
    reading = read_text(f"batt 12.5 rested nothing on.{_SCAN}", load())
    assert (reading.snapshots[0].volts, reading.snapshots[0].outside_supply) == (12.5, "none")


def test_a_module_with_nothing_on_is_still_clean() -> None:
    reading = read_text(f"before clear 12.5 V{_SCAN}ABS nothing on\n", load())
    assert next(not scan.codes for scan in reading.snapshots[0].modules if scan.printed == "ABS")
