"""A monitor that needs minutes of warm driving is not set by a dip between two scans at good supply, and counters that
were read weeks after a clear say nothing against it (40 CFR 86.1806-05; SAE J1979, PID 30 and 31). Invented vehicles.
"""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import FLAT, Json, job, scan, snapshot, tables

from triage.assess import assess

CLEAN: Json = {"volts": 14.3, "engine": "running"}
NOW: Json = {"volts": 12.6, "engine": "off"}


def lean(code: str, **last: Any) -> Any:
    made = job(snapshot("before-clear", scan("engine control", code, "P0562"), **FLAT),
               snapshot("after-repair", scan("engine control"), **CLEAN),
               snapshot("after-run", scan("engine control", {"code": code, "status": "pending"}), **(NOW | last)),
               events=[{"what": "cleared", "answer": "accepted"}])
    return assess(made, tables())


@pytest.mark.parametrize("code", ["P0171", "P0420"])
def test_a_slow_monitor_is_not_set_by_a_dip(code: str) -> None:
    fault = next(entry for entry in lean(code).verdict["faults"] if entry["code"] == code)
    assert fault["causes"]["low-voltage"] < 0.5
    assert fault["decibans"] > 0.0


def test_no_dip_is_made_up() -> None:
    found = lean("P0171")
    assert not any("dip that nobody noted" in why for group in found.unsettled for line in group.lines
                   for why in line.why)


def test_counters_of_weeks_do_not_refute_the_clear() -> None:
    told = [notice.message for notice in lean("P0171", since_clear={"warm_ups": 9, "distance_km": 212.0}).notices]
    assert not any("did not reach the module" in message for message in told)


@pytest.mark.parametrize(("hours", "refuted"), [(1, True), (500, False)])
def test_counters_refute_a_clear_of_the_same_day(hours: int, refuted: bool) -> None:
    counted = {"since_clear": {"warm_ups": 9}}
    at = [f"2025-03-{3 + h // 24:02d}T{8 + h % 24 % 12:02d}:00:00+00:00" for h in (0, hours)]
    made = job(snapshot("before-clear", scan("engine control", "P0171"), **(FLAT | {"at": at[0]})),
               snapshot("after-clear", scan("engine control"), **(NOW | counted | {"at": at[1]})))
    assert any("did not reach" in notice.message for notice in assess(made, tables()).notices) is refuted
