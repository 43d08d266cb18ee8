"""Snapshots and events on the time line of a trace."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta, timezone

import numpy as np
import pytest

from triage.model.session import Event, Vehicle
from triage.model.snapshot import Snapshot
from triage.supply.moments import at_times, context_for, outside_spans, seconds_at
from triage.supply.trace import make_trace

BEGIN = datetime(2025, 3, 3, 8, 0, tzinfo=UTC)
AT = np.arange(0.0, 600.0, 0.1)
#: 12.4 V, a dip to 9.0 V from 100 to 103 s, 14.1 V from 300 s on.
VOLTS = np.where((AT >= 100) & (AT < 103), 9.0, np.where(AT >= 300, 14.1, 12.4))
TRACE = make_trace(AT, VOLTS, start=BEGIN)


def test_a_snapshot_picks_up_its_supply_and_the_lowest_before_it() -> None:
    first, second, third = at_times(TRACE, [BEGIN + timedelta(seconds=s) for s in (50, 200, 400)])
    assert first is not None
    assert second is not None
    assert third is not None
    assert (first.volts, second.volts, third.volts) == (12.4, 12.4, 14.1)
    assert (first.lowest_volts, second.lowest_volts, third.lowest_volts) == (12.4, 9.0, 12.4)
    assert second.low_seconds == pytest.approx(3.0, abs=0.15)
    assert third.low_seconds == 0.0
    assert first.interval_s == pytest.approx(0.1)


def test_the_order_asked_does_not_matter() -> None:
    late, early = at_times(TRACE, [400.0, 50.0])
    assert late is not None
    assert early is not None
    assert late.lowest_volts == 9.0
    assert early.lowest_volts == 12.4


def test_what_is_not_on_the_trace_is_none() -> None:
    gap = make_trace(np.concatenate([AT[:100], AT[100:] + 500.0]), VOLTS, start=BEGIN)
    assert at_times(gap, [None, BEGIN + timedelta(hours=9), BEGIN - timedelta(hours=1), 200.0]) == [None] * 4
    assert at_times(make_trace(AT, VOLTS), [BEGIN]) == [None]


def test_time_zones() -> None:
    other = datetime(2025, 3, 3, 9, 0, 10, tzinfo=timezone(timedelta(hours=1)))
    assert seconds_at(TRACE, other) == 10.0
    assert seconds_at(TRACE, datetime(2025, 3, 3, 8, 0, 10)) == 10.0  # no zone: taken as the trace's


def test_a_clock_without_a_date() -> None:
    night = make_trace(AT, VOLTS, clock=23 * 3600 + 55 * 60)
    assert seconds_at(night, datetime(2025, 3, 3, 23, 56)) == 60.0
    assert seconds_at(night, datetime(2025, 3, 4, 0, 1)) == 360.0


def test_outside_supply_by_events() -> None:
    def event(what: str, seconds: float | None, note: str = "jump pack") -> Event:
        at = None if seconds is None else BEGIN + timedelta(seconds=seconds)
        return Event.model_validate({"at": at, "what": what, "note": note})

    spans = outside_spans(TRACE, [event("outside supply on", 60), event("outside supply off", 250),
                                  event("outside supply on", 400, "charger")])
    assert spans is not None
    assert [(span.start_s, span.end_s, span.what) for span in spans] == [
        (60.0, 250.0, "jump pack"), (400.0, None, "charger")]
    only_off = outside_spans(TRACE, [event("outside supply off", 250)])
    assert only_off is not None
    assert (only_off[0].start_s, only_off[0].end_s) == (float("-inf"), 250.0)
    assert outside_spans(TRACE, []) is None
    assert outside_spans(TRACE, [event("outside supply on", None)]) is None


def test_the_context_of_a_session() -> None:
    none = Snapshot.model_validate({"phase": None, "outside_supply": "none", "modules": []})
    pack = Snapshot.model_validate({"phase": None, "outside_supply": "jump pack", "modules": []})
    context = context_for(TRACE, Vehicle(battery="AGM", nominal_volts=24), (), [none])
    assert (context.nominal, context.battery, context.outside, context.system) == (24.0, "AGM", (), 24)
    assert context_for(TRACE, None, (), [none, pack]).outside is None
    assert context_for(TRACE).feed(0, 10) == ("unknown", "")
