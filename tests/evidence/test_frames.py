"""What is stored beside a code: odometer, motion and voltage of its freeze frame, its count, its pending bit.

Common practice, but for the bits: a confirmed code is pending no more when a whole operation cycle has passed it
(ISO 14229-1, status of DTC). Vehicles are invented.
"""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import FLAT, HELD, Json, code, job, tables, van

from triage.assess import verdicts
from triage.evidence.sightings import byte_says
from triage.model.verdict import FaultVerdict

BESIDE = [code("U0121", freeze_frame={"volts": 9.2, "distance_km": 84213, "speed_kmh": 0, "engine_rpm": 0}),
          code("U0155", freeze_frame={"volts": 9.0, "distance_km": 84212, "speed_kmh": 0, "engine_rpm": 0})]


def told(beside: Json) -> FaultVerdict:
    """B1325 of the body control, seen before the clear only, with ``beside`` stored."""
    session = job(van("before-clear", {"body control": [*BESIDE, code("B1325", **beside)]}, **FLAT),
                  van("after-clear", **HELD))
    return next(fault for fault in verdicts([session], tables(), ledger=True)[0]["faults"] if fault["code"] == "B1325")


def frame(**values: Any) -> Json:
    return {"freeze_frame": values}


def test_an_old_odometer_makes_an_old_code() -> None:
    today, long_ago = told(frame(distance_km=84210)), told(frame(distance_km=78000))
    assert today["causes"]["history"] < 0.15 < 0.6 < long_ago["causes"]["history"]


def test_a_frame_stored_on_the_road_is_not_low_supply() -> None:
    stood, moved = told(frame(speed_kmh=0, engine_rpm=0)), told(frame(speed_kmh=62, engine_rpm=1900))
    assert moved["causes"]["low-voltage"] < 0.6 * stood["causes"]["low-voltage"]


def test_many_occurrences_are_not_one_flat_battery() -> None:
    assert told({"count": 24})["causes"]["low-voltage"] < told({"count": 1})["causes"]["low-voltage"] - 0.3


@pytest.mark.parametrize(("byte", "mask", "lately"), [
    (0x2F, 0xFF, 1), (0x2C, 0xFF, 1), (0x0A, 0xFF, 1), (0x28, 0xFF, 0), (0x28, 0xFB, -1), (0x50, 0xFF, -1)])
def test_the_byte_tells_whether_it_failed_in_this_cycle_or_the_last(byte: int, mask: int, lately: int) -> None:
    assert byte_says(byte, mask)[3] == lately


def test_a_code_that_a_whole_cycle_passed_is_rather_old_than_of_this_sag() -> None:
    pending, passed = told({"status_byte": 0x2C}), told({"status_byte": 0x28})
    assert passed["causes"]["history"] > pending["causes"]["history"] + 0.2


def test_one_frame_read_again_counts_once() -> None:
    """The same frame in every scan, left out of one of them, is one observation."""
    def causes(*frames: Json) -> dict[str, float]:
        shots = [van("before-clear" if not place else "after-run", {"body control": [code("B1325", **beside)]}, **FLAT)
                 for place, beside in enumerate(frames)]
        return dict(verdicts([job(*shots)], tables())[0]["faults"][0]["causes"])

    shown = frame(volts=14.1)
    assert causes(shown, {}, shown) == causes(shown, {}, {})


def test_a_frame_after_the_dip_never_rules_low_supply_out_by_itself() -> None:
    """Some modules store the frame when the supply has come back."""
    assert told(frame(volts=14.2, speed_kmh=70))["causes"]["low-voltage"] > 0.03


def test_the_ledger_says_what_was_stored() -> None:
    row = told({"count": 3, **frame(volts=9.3, distance_km=84000, speed_kmh=0, engine_rpm=0)})["ledger"][1]["what"]
    assert row.endswith("freeze frame 9.3 V, set at 0 1/min, stored 213 km before the newest freeze frame, "
                        "counted 3 times")


@pytest.mark.parametrize(("volts", "likelier"), [(7.4, True), (11.2, False)])
def test_a_current_code_at_a_low_supply_may_be_low_supply_failing_it_now(volts: float, likelier: bool) -> None:
    """Common practice: while the supply is still down, what it sets is failing now like any other fault."""
    def low(*, status: str) -> float:
        shot = van("before-clear", {"body control": [code("B1325", status=status)]}, **(FLAT | {"volts": volts}))
        return verdicts([job(shot)], tables())[0]["faults"][0]["causes"]["low-voltage"]

    assert (low(status="current") > low(status="stored")) == likelier
