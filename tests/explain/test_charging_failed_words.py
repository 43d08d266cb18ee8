"""A scan made while nothing charged is no good supply: what came in it speaks of the charging first (common practice).
All invented."""

from __future__ import annotations

from typing import Any

from made_sessions import FLAT, HELD, RUNS, code, job, scan, snapshot, tables

from triage.assess import assess
from triage.model.assessment import Assessment, FaultLine

EPS = [code("C1604", "16", status="pending")]


def page(volts: float, *, kind: str | None = "16") -> Assessment:
    """Steering that was clean after the clear and holds a code in the run that reads ``volts``."""
    held = [code("C1604", kind, status="pending")]

    def shot(phase: str, steering: list[Any], motor: list[Any], **state: Any) -> Any:
        return snapshot(phase, scan("power steering", *steering), scan("engine control", *motor), scan("body control"),
                        scan("anti-lock brakes"), **state)

    return assess(job(shot("before-clear", held, ["P0562", "P0620"], **FLAT), shot("after-clear", [], [], **HELD),
                      shot("after-run", [], [], **RUNS | {"outside_supply": "charger"}),
                      shot("after-run", held, ["P0620"], **RUNS | {"volts": volts, "lowest_volts": volts})), tables())


def line(found: Assessment) -> FaultLine:
    return next(line for group in found.unsettled for line in group.lines if line.verdict["code"] == "C1604")


def test_it_came_while_the_charging_failed() -> None:
    found = line(page(11.7))
    assert not found.came_back
    assert ("it came while the charging failed, 11.7 V read, and its type speaks of a voltage: mend that, clear and "
            "read again") in found.why
    assert not any("good supply" in why for why in found.why)


def test_no_circuit_is_wetted_for_it_before_the_charging_is_mended() -> None:
    assert not any("C1604" in check["do"] for check in page(11.7).next_checks)


def test_at_a_supply_that_holds_it_came_back() -> None:
    found = page(14.0)
    assert not any("while the charging failed" in why for group in found.unsettled for one in group.lines
                   for why in one.why)
    assert any("C1604" in name for check in found.next_checks for name in check["settles"])
