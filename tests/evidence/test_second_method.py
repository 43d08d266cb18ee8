"""The evidence arrays must agree to 1e-9 with the same model in plain loops (support/slow_model.py)."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from made_sessions import FLAT, HELD, RUNS, code, job, session_jobs, tables, van
from slow_model import Slow

from triage.assess import Worked
from triage.evidence.parameters import KINDS, parameters
from triage.model.session import Session, session_from


def agree(sessions: list[Session]) -> None:
    work = Worked(sessions, tables())
    for slow, fast in zip(Slow(work).causes(), work.evidence.causes.tolist(), strict=True):
        assert slow == pytest.approx(fast, abs=1e-9)


def test_told_sessions_agree() -> None:
    noise: dict[str, list[Any]] = {
        "engine control": ["P0562", "P0700", "P0118"], "instrument cluster": ["U0100", "U0121", "U0155"],
        "restraints": [code("B0001", "68"), "B1234"], "transmission control": ["P0715"]}
    back: dict[str, list[Any]] = {
        "engine control": [code("P0118", status_byte=0x2F), "P0700"], "transmission control": ["P0715"],
        "restraints": [code("B0001", "68"), "B1234"]}
    bare = {key: value for key, value in RUNS.items() if key != "lowest_volts"}
    agree([
        job(van("before-clear", noise, **FLAT), van("after-clear", back, **HELD), van("after-run", back, **RUNS)),
        job(van("before-clear", noise, **FLAT), van("after-clear", back, volts=12.6), van("after-run", back, **bare)),
        job(van("before-clear", noise, silent=["anti-lock brakes"], **FLAT),
            van("after-clear", {"instrument cluster": ["U0121"]}, silent=["anti-lock brakes"], volts=12.6),
            van("after-repair", {}, **bare), events=[{"what": "replaced", "module": "anti-lock brakes"}]),
        job(van("before-clear", counted(5, 4), **FLAT), van("after-clear", counted(1, 6), **HELD),
            van("after-repair", counted(2, 7), **bare)),
    ])


def counted(first: int, second: int) -> dict[str, list[Any]]:
    frame = {"volts": 9.1}
    return {"engine control": [code("P0118", count=first, freeze_frame=frame, status="current"),
                               code("P0335", count=second, status="stored"), code("P0504", count=second)]}


@given(session_jobs(most_snapshots=4), session_jobs(most_snapshots=4))
@settings(max_examples=15, deadline=None)
def test_any_sessions_agree(first: dict[str, Any], second: dict[str, Any]) -> None:
    sessions = [session_from(first), session_from(second)]
    if sum(len(scan.codes) for session in sessions for shot in session.snapshots for scan in shot.modules):
        agree(sessions)


def test_the_prior_of_each_kind_is_its_row_of_the_table() -> None:
    params = parameters(tables())
    for place, kind in enumerate(KINDS):
        row = [tables().rate(f"prior.{kind}.{cause}") for cause in (
            "hard", "intermittent", "low-voltage", "history", "echo")]
        assert params.prior[place].tolist() == pytest.approx([value / sum(row) for value in row])
