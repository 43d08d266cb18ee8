"""The record of a crash is an event of the past: no low supply writes one, no run settles it (common practice)."""

from __future__ import annotations

from made_sessions import FLAT, HELD, RUNS, job, scan, snapshot, tables

from triage.assess import assess
from triage.reports.view import view

RECORD = {"code": "B1193", "text": "Crash event stored, deployment record", "status": "permanent"}
FAULT = {"code": "B0028", "status": "current"}


def test_it_is_told_as_a_record_and_no_step_waits_for_it() -> None:
    holds = scan("restraints", RECORD, FAULT)
    made = job(*(snapshot(phase, holds, scan("body control"), scan("engine control"), **supply) for phase, supply in (
        ("before-clear", FLAT), ("after-clear", HELD), ("after-run", RUNS))))
    page = assess(made, tables())
    line = next(line for group in page.unsettled for line in group.lines if line.verdict["code"] == "B1193")
    assert line.record
    assert "a record of an event, not weighed as a fault: no low supply writes one" in line.why
    assert not any("dip" in reason for reason in line.why)
    assert not any("B1193" in fault for check in page.next_checks for fault in check["settles"])
    shown = [found.sure for group in view(page).unsettled for found in group.lines if found.code == "B1193"]
    assert shown[0].startswith("stored record of a crash; as a fault of its own")
