"""A lowest supply that stays high across a start missed the dip; it is taken as not read, and told."""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import FLAT, HELD, job, tables, van

from triage.assess import verdicts

NOISE: dict[str, list[Any]] = {"engine control": ["P0562", "P0118"], "body control": ["B1A04", "B1234"]}
STARTED: dict[str, Any] = {"volts": 14.1, "engine": "running", "ran_minutes": 10, "outside_supply": "none"}


def verdict(lowest: float | None, vehicle: dict[str, Any] | None = None, **state: Any) -> dict[str, Any]:
    shots = [van("before-clear", NOISE, **FLAT), van("after-clear", {}, **HELD),
             van("after-run", {"body control": ["B1234"]}, **STARTED | {"lowest_volts": lowest} | state)]
    found: Any = verdicts([job(*shots, **({"vehicle": vehicle} if vehicle else {}))], tables())[0]
    return dict(found)


def hard(found: dict[str, Any]) -> float:
    causes = next(fault for fault in found["faults"] if fault["code"] == "B1234")["causes"]
    return float(causes["hard"] + causes["intermittent"])


def told(found: dict[str, Any]) -> list[str]:
    return [notice["message"] for notice in found["notices"] if "missed the dip" in notice["message"]]


def test_a_lowest_above_what_cranking_leaves_counts_as_not_read() -> None:
    # Measured on one car: a third of the starts show no reading below 11.8 V to slow polling.
    assert hard(verdict(13.9)) == pytest.approx(hard(verdict(None)), abs=0.02)
    assert told(verdict(13.9)) == [
        "snapshot 3: a lowest supply of 13.9 V across a start: cranking pulls it below 11.8 V, so a slow meter missed "
        "the dip; the lowest counts as not known"]


def test_a_lowest_that_a_start_can_leave_is_used() -> None:
    assert hard(verdict(11.6)) != pytest.approx(hard(verdict(None)), abs=0.02)
    assert told(verdict(11.6)) == []


@pytest.mark.parametrize(("vehicle", "state"), [
    ({"drive": "electric"}, {}), (None, {"engine": "ready"}), (None, {"engine": "off", "ran_minutes": 0})])
def test_without_cranking_there_is_no_dip_to_miss(vehicle: dict[str, Any] | None, state: dict[str, Any]) -> None:
    assert told(verdict(13.9, vehicle, **state)) == []


def test_a_24_volt_system_has_its_own_level() -> None:
    (message,) = told(verdict(25.0, {"nominal_volts": 24}, volts=28.0))
    assert "25 V" in message
    assert "below 23.6 V" in message
