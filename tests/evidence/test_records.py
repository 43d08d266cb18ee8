"""A record that reads the same after a clear was not written anew: the module kept its list."""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import FLAT, HELD, RUNS, code, job, tables, van

from triage.assess import verdicts


def old(before: dict[str, Any], after: dict[str, Any], **more: Any) -> float:
    """The chance that the code of the restraints is not there any more, by its record in two scans."""
    shots = [van("before-clear", {"restraints": [code("B1197", **before), *more.get("first", [])]}, **FLAT),
             van("after-clear", {"restraints": [code("B1197", **after), *more.get("then", [])]}, **HELD),
             van("after-run", {"restraints": [code("B1197", **after), *more.get("then", [])]}, **RUNS)]
    causes = next(fault for fault in verdicts([job(*shots)], tables())[0]["faults"] if fault["code"] == "B1197")
    return float(causes["causes"]["history"] + causes["causes"]["low-voltage"])


def frame(volts: float, speed: float = 0, rpm: float = 0) -> dict[str, Any]:
    return {"freeze_frame": {"volts": volts, "speed_kmh": speed, "engine_rpm": rpm}}


def test_the_very_same_freeze_frame_says_that_the_list_was_kept() -> None:
    # Common practice: a clear erases the freeze frame; a new one is of a new moment.
    assert old(frame(13.9, 62, 1900), frame(13.9, 62, 1900)) > 2 * old(frame(13.9, 62, 1900), frame(13.6, 0, 800))


def test_the_more_of_the_frame_is_the_same_the_more_it_says() -> None:
    assert old(frame(13.9, 62, 1900), frame(13.9, 62, 1900)) > old(frame(13.9), frame(13.9)) > old(
        frame(13.9), frame(13.6))


def test_a_byte_with_a_failure_and_none_since_the_clear_is_of_before() -> None:
    # ISO 14229-1, status of DTC: bit 5 is set by the first failure after a clear and stays until the next.
    kept = {"first": [code("B1198", status_byte=0x2F)], "then": [code("B1198", status_byte=0x2F)]}
    before = {"status_byte": 0x28}
    assert 1 - old(before, {"status_byte": 0x28}, **kept) > 1.5 * (1 - old(before, {"status_byte": 0x08}, **kept))


def test_a_module_that_never_shows_the_bit_is_not_judged_by_it() -> None:
    assert old({"status_byte": 0x08}, {"status_byte": 0x08}) == pytest.approx(
        old({"status_byte": 0x08}, {"status_byte": 0x08, "count": 1}), abs=0.1)
