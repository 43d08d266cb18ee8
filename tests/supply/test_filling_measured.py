"""A voltage log beside the scans proves or fails parts of the supply, and adds nothing where it can't tell."""

from __future__ import annotations

from datetime import UTC, datetime

import numpy as np
from made_sessions import Json, job, scan, snapshot, tables
from trace_fixtures import FOLDER

from triage.assess import verdicts
from triage.model.session import Session
from triage.supply.filling import with_trace
from triage.supply.trace import Trace, make_trace, read_trace


def fixture(name: str) -> Trace:
    trace, _ = read_trace((FOLDER / name).read_text(encoding="utf-8"))
    assert trace is not None
    return trace


def session(before: str, after: str, *, first: str = "none", second: str = "none") -> Session:
    def shot(phase: str, clock: str, outside: str, engine: str) -> Json:
        return snapshot(phase, scan("engine control"), scan("body control"), at=f"2025-03-03T{clock}", engine=engine,
                        outside_supply=outside)
    return job(shot("before-clear", before, first, "off"), shot("after-run", after, second, "running"))


def names(filled: Session) -> list[str]:
    return [reading.name for shot in filled.snapshots for reading in shot.readings or []]


def supply(filled: Session) -> dict[str, tuple[str, str]]:
    return {part["part"]: (part["state"], part["why"]) for part in verdicts([filled], tables())[0]["supply"]}


def test_plateau_and_charging_level_are_measured() -> None:
    filled, _ = with_trace(session("14:30:05", "14:32:00"), fixture("charging_after_start.tsv"))
    assert names(filled) == ["crank plateau on the log, nothing connected",
                             "running voltage on the log, nothing connected"]
    found = supply(filled)
    assert found["charging"][0] == "proven"
    assert "10.3 V while cranking, above the 9.6 V" in found["battery"][1]


def test_with_the_pack_on_nothing_is_measured_and_off_it_fails() -> None:
    on, _ = with_trace(session("08:00:10", "08:04:30", first="jump pack", second="jump pack"),
                       fixture("jump_pack_pulsing.csv"))
    assert names(on) == []
    assert supply(on)["charging"][0] == "not tested"
    off, _ = with_trace(session("08:00:10", "08:04:00", first="jump pack"), fixture("jump_pack_pulsing.csv"))
    assert names(off) == ["running voltage on the log, nothing connected"]
    assert supply(off)["charging"][0] == "failed"


def test_where_nobody_said_what_was_connected_nothing_is_measured() -> None:
    filled, _ = with_trace(session("14:30:05", "14:32:00", first="unknown", second="unknown"),
                           fixture("charging_after_start.tsv"))
    assert names(filled) == []


def test_a_night_at_rest_tells_the_charge() -> None:
    rng = np.random.default_rng(9)
    seconds = np.arange(0.0, 7.5 * 3600.0, 5.0)
    trace = make_trace(seconds, 12.25 + 0.01 * rng.standard_normal(len(seconds)),
                       start=datetime(2025, 3, 3, 0, 0, tzinfo=UTC))
    filled, _ = with_trace(session("00:05:00", "07:25:00"), trace)
    assert names(filled)[0].startswith("rested voltage after 7.5 h")
    assert "about half charged" in supply(filled)["battery"][1]
