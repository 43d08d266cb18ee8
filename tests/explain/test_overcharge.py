"""An engine that overcharges is not run for a test, and the first look is at its regulator (common practice)."""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import FLAT, HELD, job, scan, snapshot, tables

from triage.assess import assess
from triage.model.session import Vehicle

ALONE: dict[str, Any] = {"engine": "running", "outside_supply": "none", "ran_minutes": 10}


@pytest.mark.parametrize(("volts", "readings"), [
    (16.4, []), (15.4, []), (14.9, [{"name": "voltage running, at 2000 rpm", "value": 16.4, "unit": "V"}])])
def test_too_much_is_not_too_little(volts: float, readings: list[dict[str, Any]]) -> None:
    held = scan("engine control", "P0118"), scan("body control")
    page = assess(job(snapshot("before-clear", *held, **FLAT), snapshot("after-clear", *held, **HELD),
                      snapshot("after-run", *held, volts=volts, readings=readings, **ALONE)), tables())
    steps = [check["do"] for check in page.next_checks]
    assert "measure at the battery posts, then check the control line and the regulator" in steps
    assert not any(step.startswith(("run the engine", "drive", "look at the belt")) for step in steps)


def test_a_run_has_an_upper_limit_too() -> None:
    held = scan("engine control", "P0171"), scan("body control")
    clean = scan("engine control"), scan("body control")
    page = assess(job(snapshot("before-clear", *held, **FLAT), snapshot("after-clear", *clean, **HELD)), tables())
    run = next(check for check in page.next_checks if check["do"].startswith("run the engine"))
    assert run["passes_if"] == "charging holds 13.5 to 15.0 V and the codes stay away"


def test_a_flat_battery_is_no_matter_of_a_torque_sensor() -> None:
    held = scan("power steering", {"code": "C0545", "status": "current"})
    made = job(*(snapshot(phase, held, scan("body control"), volts=12.4, engine="off", outside_supply="none")
                 for phase in ("before-clear", "after-clear")))
    page = assess(made.model_copy(update={"vehicle": Vehicle(complaint="battery flat twice this week")}), tables())
    assert page.complaint == ("battery flat twice this week. Look first at battery, charging and key-off draw, not "
                              "tested yet")
