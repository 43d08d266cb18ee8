"""A trace fills in what snapshots do not say: only that, only where the trace can know, and it says so."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import numpy as np
import pytest

from triage.model.session import Session
from triage.model.snapshot import Snapshot
from triage.supply.filling import with_trace
from triage.supply.trace import Trace, make_trace

BEGIN = datetime(2025, 1, 20, 8, 0, tzinfo=UTC)


def log(step: float = 0.01, dips: dict[float, float] | None = None) -> Trace:
    """Ten minutes of a steady supply with dips of 0.2 s at the seconds given."""
    at = np.arange(0.0, 600.0, step)
    volts = np.full(at.size, 12.6)
    for second, low in (dips or {}).items():
        volts[(at >= second) & (at < second + 0.2)] = low
    return make_trace(at, volts, start=BEGIN, source="log.csv")


def session(*seconds: float | None, **said: float) -> Session:
    return Session(job="j", snapshots=[
        Snapshot(phase="before-clear", at=None if second is None else BEGIN + timedelta(seconds=second), modules=[],
                 **said)
        for second in seconds])


def supplies(found: Session) -> list[tuple[float | None, float | None]]:
    return [(snapshot.volts, snapshot.lowest_volts) for snapshot in found.snapshots]


def test_supply_and_lowest_since_the_snapshot_before() -> None:
    found, notices = with_trace(session(10, 300, 500), log(dips={5.0: 9.0, 100.0: 8.2, 400.0: 10.1}))
    assert supplies(found) == [(12.6, 9.0), (12.6, 8.2), (12.6, 10.1)]
    assert notices[1].show() == ("log.csv: note: snapshot 2: supply 12.60 V and lowest supply 8.20 V taken from the "
                                 "trace at 300.0 s")
    assert notices[0].message.endswith("(nobody knows what came before the trace: it may have been lower)")


def test_what_the_scan_says_stays() -> None:
    found, notices = with_trace(session(10, 300, volts=11.0, lowest_volts=9.9), log(dips={100.0: 8.2}))
    assert supplies(found) == [(11.0, 9.9)] * 2
    assert notices == []
    assert supplies(with_trace(session(10, 300, volts=11.0), log(dips={100.0: 8.2}))[0])[1] == (11.0, 8.2)


def test_times_that_are_not_on_the_trace() -> None:
    before = session(None, -3600, 9000)
    found, notices = with_trace(before, log())
    assert found == before
    assert [notice.message.rpartition(": ")[2] for notice in notices] == [
        "it has no time", "its time is not on the trace", "its time is not on the trace"]


@pytest.mark.parametrize(("trace", "first", "why"), [
    (log(step=1.0), 10.0, "read every 1 s, a crank dip can lie between two readings"),
    (log(), None, "nobody knows what came before the trace"),
    (log(), -60.0, "the trace begins after the snapshot before"),
    (make_trace(np.concatenate([np.arange(0, 50, 0.01), np.arange(200, 400, 0.01)]), np.full(25000, 12.6), start=BEGIN),
     10.0, "the trace has a gap there")])
def test_a_good_looking_lowest_that_proves_nothing(trace: Trace, first: float | None, why: str) -> None:
    # Common practice: 41 of 126 starts polled slowly show no reading below 11.8 V.
    seconds = [300.0] if first is None else [first, 300.0]
    found, notices = with_trace(session(*seconds), trace)
    assert supplies(found)[-1] == (12.6, None)
    assert notices[-1].message == (f"snapshot {len(seconds)}: the trace shows no less than 12.60 V, but {why}: the "
                                   "lowest supply stays unknown")


def test_a_low_one_is_taken_even_from_a_slow_trace() -> None:
    # 40 CFR 86.010-18 (i)(5)(iv)(A): below 11.0 V monitors may be off.
    at = np.arange(0.0, 600.0)
    trace = make_trace(at, np.where(at == 100, 10.9, 12.6), start=BEGIN)
    assert supplies(with_trace(session(10, 300), trace)[0])[1] == (12.6, 10.9)
    trace = make_trace(at, np.where(at == 100, 11.0, 12.6), start=BEGIN)
    assert supplies(with_trace(session(10, 300), trace)[0])[1] == (12.6, None)
