"""What no step of now settles says what will, and what has to be done before: nobody drives with the brakes in doubt,
nor on a battery that is not charged (common practice)."""

from __future__ import annotations

from made_sessions import FLAT, HELD, job, scan, snapshot, tables

from triage.assess import assess
from triage.model.session import Session

CURRENT = {"code": "C0031", "status": "current"}


def heads(session: Session) -> dict[str, list[str]]:
    groups = assess(session, tables()).unsettled
    return {group.head: [line.verdict["code"] for line in group.lines] for group in groups}


def test_a_road_test_waits_for_the_brakes() -> None:
    told = heads(job(
        snapshot("before-clear", scan("ABS", CURRENT), scan("engine control", "P0500"), **FLAT),
        snapshot("after-clear", scan("ABS", CURRENT), scan("engine control"), **HELD)))
    assert told == {"once ABS C0031 is mended: drive 20 minutes of mixed road, then read confirmed and pending codes":
                    ["P0500"]}


def test_a_road_test_waits_for_the_charging() -> None:
    flat = {"volts": 11.4, "engine": "running", "outside_supply": "none", "ran_minutes": 10}
    told = heads(job(
        snapshot("before-clear", scan("engine control", "P0500"), scan("body control"), **FLAT),
        snapshot("after-clear", scan("engine control"), scan("body control"), **HELD),
        snapshot("after-run", scan("engine control"), scan("body control"), **flat)))
    assert any(title.startswith("once it charges by itself: drive") and codes == ["P0500"]
               for title, codes in told.items())
