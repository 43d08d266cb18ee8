"""Moments on a trace: where a snapshot or an event lies on it, and what the supply was there."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from triage.supply.finding import Finding, OutsideSpan, SupplyContext
from triage.supply.limits import limit, system_of
from triage.supply.segments import guess_nominal
from triage.supply.trace import Trace

if TYPE_CHECKING:
    from triage.model.session import Event, Vehicle
    from triage.model.snapshot import Engine, Snapshot

#: The supply "at" a moment is the median of the readings in the seconds that follow.
_WINDOW = 2.0


class SupplyAt(NamedTuple):
    """The supply of one snapshot, from a trace.

    ``at_s``: its place on the trace, seconds. ``volts``: median of the two seconds from there on. ``lowest_volts``:
    the lowest reading since the snapshot before (since the trace begins, for the first). ``low_seconds``: how long it
    was below the level at which emission monitors may be off. ``interval_s``: time between readings; a slow one
    misses crank dips, so that the lowest is only an upper bound.
    """

    at_s: float
    volts: float
    lowest_volts: float
    low_seconds: float
    interval_s: float


def seconds_at(trace: Trace, moment: datetime | float | None) -> float | None:
    """The seconds of the trace at ``moment``; None where trace or moment hold no time that the two share.

    A trace with a clock but no date takes the moment's time of day. Where only one of the two knows its time zone,
    both are taken as local.
    """
    if moment is None or isinstance(moment, (int, float)):
        return None if moment is None else float(moment)
    if trace.start is not None:
        start = trace.start
        if (start.tzinfo is None) != (moment.tzinfo is None):
            start, moment = start.replace(tzinfo=None), moment.replace(tzinfo=None)
        return (moment - start).total_seconds()
    if trace.clock is None or not len(trace.seconds):
        return None
    seconds = moment.hour * 3600.0 + moment.minute * 60.0 + moment.second + moment.microsecond / 1e6 - trace.clock
    # The day that puts the moment on the trace, or nearest to it.
    first, last = float(trace.seconds[0]), float(trace.seconds[-1])
    return min((seconds + day * 86400.0 for day in (-1, 0, 1, 2)), key=lambda s: max(first - s, s - last, 0.0))


def at_times(trace: Trace, times: Sequence[datetime | float | None], *,
             nominal: float | None = None) -> list[SupplyAt | None]:
    """The supply at each of ``times`` (moments, or seconds of the trace), in the order given.

    None for a time that is not known, lies beyond the trace or in a gap. ``nominal``: 12 or 24 V, None guesses it.
    """
    places = [seconds_at(trace, moment) for moment in times]
    system = system_of(guess_nominal(trace) if nominal is None else nominal)
    low = limit("OBD monitors may be off below", system)
    known = sorted(place for place in places if place is not None)
    result: list[SupplyAt | None] = []
    for place in places:
        if place is None:
            result.append(None)
            continue
        earlier = [other for other in known if other < place]
        result.append(_supply_at(trace, place, earlier[-1] if earlier else None, low))
    return result


def _supply_at(trace: Trace, place: float, since: float | None, low: float) -> SupplyAt | None:
    """The supply at ``place``; None where no reading is near."""
    seconds, volts = trace.seconds, trace.volts
    if not len(seconds):
        return None
    reach = max(_WINDOW, 2.0 * trace.interval)
    first = int(np.searchsorted(seconds, place))
    last = int(np.searchsorted(seconds, place + reach, side="right"))
    if first == last:  # none in the window: the last reading before, if it is near
        if first == 0 or place - seconds[first - 1] > reach:
            return None
        first -= 1
        last = first + 1
    begin = 0 if since is None else int(np.searchsorted(seconds, since))
    stretch = volts[begin:last]
    steps = np.minimum(np.diff(seconds[begin:last], append=seconds[last - 1] + trace.interval), 5.0 * trace.interval)
    return SupplyAt(place, float(np.median(volts[first:last])), float(stretch.min()),
                    float(steps[stretch < low].sum()), trace.interval)


class _Said(NamedTuple):
    """What was said of the outside supply at one place: ``what`` "" is nothing; ``done``: put on or taken off there."""

    place: float
    what: str
    done: bool


def outside_spans(
    trace: Trace, events: Sequence[Event], snapshots: Sequence[Snapshot] = (),
) -> tuple[OutsideSpan, ...] | None:
    """When an outside supply was connected, by the events and snapshots of a session; None where they don't tell.

    What one says holds to the next that says otherwise. Where nobody noted when it was put on or taken off, it counts
    as connected from the last snapshot without it, or up to the next: nothing wrong is concluded from that.
    """
    said = _said(trace, events, snapshots)
    if not said:
        return None
    spans: list[OutsideSpan] = []
    last = None
    for one in said:
        before = last.what if last is not None else ""
        # Nobody noted the putting on: an "off" without an "on", or a snapshot that finds it connected.
        unnoted = not before and ((one.done and not one.what) or (bool(one.what) and not one.done))
        if before or unnoted:
            start = last.place if last is not None else float("-inf")
            spans.append(OutsideSpan(start, one.place, before or one.what or "outside supply"))
        last = one
    if last is not None and last.what:
        spans.append(OutsideSpan(last.place, None, last.what))
    return _joined(spans)


def _said(trace: Trace, events: Sequence[Event], snapshots: Sequence[Snapshot]) -> list[_Said]:
    """What events and the snapshots on the trace say, in the order of time; empty where they don't tell."""
    switched = [(seconds_at(trace, event.at), event) for event in events
                if event.what in ("outside supply on", "outside supply off")]
    placed = [(place, snapshot.outside_supply) for snapshot in snapshots
              if (place := seconds_at(trace, snapshot.at)) is not None and _on_trace(trace, place)]
    told = all(place is not None for place, _ in switched)
    found = [_Said(place, "" if what == "none" else what, False) for place, what in placed
             if what not in (None, "unknown") and what is not None]
    if switched and told:
        found += [_Said(place, _what(event) if event.what == "outside supply on" else "", True)
                  for place, event in switched if place is not None]
    elif len(found) < len(placed):
        return []
    # At one moment the switching comes first, what a snapshot found second.
    return sorted(found, key=lambda one: (one.place, not one.done))


def _what(event: Event) -> str:
    """What was put on."""
    return (event.note or "").strip() or "outside supply"


def _joined(spans: list[OutsideSpan]) -> tuple[OutsideSpan, ...]:
    """Spans that follow on one another without a break as one, named as the first."""
    result: list[OutsideSpan] = []
    for span in spans:
        if result and result[-1].end_s == span.start_s:
            result[-1] = OutsideSpan(result[-1].start_s, span.end_s, result[-1].what)
        else:
            result.append(span)
    return tuple(span for span in result if span.end_s is None or span.end_s > span.start_s)


def _on_trace(trace: Trace, place: float) -> bool:
    """Whether a place lies between the first reading and the last."""
    return bool(len(trace.seconds)) and float(trace.seconds[0]) <= place <= float(trace.seconds[-1])


def context_for(trace: Trace, vehicle: Vehicle | None = None, events: Sequence[Event] = (),
                snapshots: Sequence[Snapshot] = (), *, temperature_c: float | None = None,
                engine: Engine | None = None, rested_hours: float | None = None) -> SupplyContext:
    """What a session knows beside the voltages: system, battery, outside supply, the engine at its snapshots.

    Events and the snapshots on the trace tell what was connected; where neither does, snapshots that all say "none"
    mean that none was.
    """
    nominal = vehicle.nominal_volts if vehicle and vehicle.nominal_volts else guess_nominal(trace)
    outside = outside_spans(trace, events, snapshots)
    if outside is None and {snapshot.outside_supply for snapshot in snapshots} == {"none"}:
        outside = ()
    engine_at = tuple((place, snapshot.engine) for snapshot in snapshots if snapshot.engine not in (None, "unknown")
                      and (place := seconds_at(trace, snapshot.at)) is not None and _on_trace(trace, place))
    return SupplyContext(nominal, (vehicle.battery if vehicle else None) or "unknown", outside, temperature_c, engine,
                         rested_hours, engine_at=engine_at)


def snapshot_findings(trace: Trace, snapshots: Sequence[Snapshot], *, nominal: float | None = None) -> list[Finding]:
    """Each snapshot that lies on the trace, with the supply it had there."""
    found = at_times(trace, [snapshot.at for snapshot in snapshots], nominal=nominal)
    first = min((at.at_s for at in found if at is not None), default=0.0)
    told = []
    for number, (snapshot, at) in enumerate(zip(snapshots, found, strict=True), start=1):
        if at is None:
            continue
        phase = (snapshot.phase or "phase not said").replace("-", " ")
        slow = limit("trace interval for cranks")
        doubt = "" if at.interval_s <= slow else f" (read every {at.interval_s:.3g} s: it may have been lower between)"
        since = "so far" if at.at_s == first else "since the one before"
        told.append(Finding(
            "snapshot", f"snapshot {number}, {phase}, at {at.at_s:.1f} s: {at.volts:.2f} V, lowest {since} "
            f"{at.lowest_volts:.2f} V{doubt}",
            {"number": float(number), "at_s": round(at.at_s, 3), "volts": round(at.volts, 3),
             "lowest_volts": round(at.lowest_volts, 3), "low_seconds": round(at.low_seconds, 3)}))
    return told
