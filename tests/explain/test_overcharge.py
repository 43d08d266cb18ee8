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
    # A battery that was boiled is looked at, and no charger is put on it.
    assert not any(step.startswith("charge the batter") for step in steps)
    assert any("let the battery cool" in step for step in steps)


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


def test_codes_of_a_run_speak_against_a_good_reading() -> None:
    names = ("engine control", "ABS", "body control")
    over = [scan(name, "P0563" if name == "engine control" else "U3003") for name in names]
    over = [{**one, "codes": [{**code, "failure_type": "17"} if code["code"] == "U3003" else code
                              for code in one["codes"]]} for one in over]
    clean = [scan(name) for name in names]
    page = assess(job(snapshot("before-clear", *over, **FLAT), snapshot("after-clear", *clean, **HELD),
                      snapshot("after-run", *over, volts=14.4, **ALONE)), tables())
    charging = next(row for row in page.verdict["supply"] if row["part"] == "charging")
    assert charging["state"] == "not tested"
    assert "3 modules hold an overvoltage code of that run" in charging["why"]


def test_what_was_set_by_too_much_is_not_told_as_too_little() -> None:
    names = ("engine control", "ABS", "body control")
    over = [scan(name, {"code": "U3003", "failure_type": "17"}) for name in names]
    clean = [scan(name) for name in names]
    page = assess(job(snapshot("before-clear", *over, volts=16.8, **ALONE), snapshot("after-clear", *clean, **HELD),
                      snapshot("after-run", *clean, volts=14.2, **ALONE)), tables())
    assert [group.head for group in page.set_aside] == ["set while the supply was too high"]


@pytest.mark.parametrize(("volts", "nominal", "outside", "state"), [
    (16.4, 12.0, None, "failed"), (15.6, 12.0, None, "failed"), (31.5, 24.0, None, "failed"),
    # What cold charging may give proves nothing while nobody said what fed it, nor does anything with a charger on.
    (15.2, 12.0, None, "not tested"), (30.2, 24.0, None, "not tested"), (16.4, 12.0, "charger", "not tested")])
def test_what_nobody_said_blocks_a_good_verdict_and_never_a_bad_one(
    volts: float, nominal: float, outside: Any, state: str,
) -> None:
    held = scan("engine control", {"code": "P0563", "status": "current"}), scan("body control", "B1317")
    made = job(snapshot("before-clear", *held, volts=12.9 * nominal / 12, engine="off"),
               snapshot("after-clear", *held, volts=volts, engine="running", outside_supply=outside))
    page = assess(made.model_copy(update={"vehicle": Vehicle(nominal_volts=nominal)}), tables())
    charging = next(row for row in page.verdict["supply"] if row["part"] == "charging")
    steps = [check["do"] for check in page.next_checks]
    assert charging["state"] == state
    assert any(step.startswith(("run the engine", "drive", "charge the batter")) for step in steps) == (
        state != "failed")
    if state == "failed":
        assert "take off any charger" in charging["why"] and page.short_list
        told = [reason for group in page.unsettled for line in group.lines for reason in line.why]
        assert not any("the supply was good" in reason for reason in told)
        assert all("no support on one that is hot" in (check["gate"] or "") for check in page.next_checks
                   if check["do"].startswith("hold the supply"))


def test_what_was_too_high_is_not_headed_as_low() -> None:
    over = [scan(name, {"code": "U3003", "failure_type": "17"}) for name in ("engine control", "ABS", "body control")]
    page = assess(job(snapshot("before-clear", *over, volts=16.8), snapshot("after-clear", *over, volts=16.8)),
                  tables())
    heads = [group.head for group in page.unsettled]
    assert "witnesses of the overvoltage: prove the charging, then clear and read again" in heads
    assert not any("low supply" in head for head in heads)
