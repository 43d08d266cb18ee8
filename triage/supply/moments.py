"""Moments on a trace: where a snapshot or an event lies on it, and what the supply was there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

import numpy as np

from triage.supply.finding import OutsideSpan, SupplyContext
from triage.supply.limits import limit, system_of
from triage.supply.segments import guess_nominal
from triage.supply.trace import Trace

if TYPE_CHECKING:
    from triage.model.session import Event, Vehicle
    from triage.model.snapshot import Engine, Snapshot

#: The supply "at" a moment is the median of the readings in the seconds that follow.
_WINDOW = 2.0


@dataclass(frozen=True, slots=True)
class SupplyAt:
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


def outside_spans(trace: Trace, events: Sequence[Event]) -> tuple[OutsideSpan, ...] | None:
    """When an outside supply was connected, by the events of a session; None where they don't tell.

    An "off" without an "on" before it means connected from the beginning.
    """
    placed = [(seconds_at(trace, event.at), event) for event in events
              if event.what in ("outside supply on", "outside supply off")]
    if not placed or any(place is None for place, _ in placed):
        return None
    spans: list[OutsideSpan] = []
    since: tuple[float, str] | None = None
    order = sorted((place, number) for number, (place, _) in enumerate(placed) if place is not None)
    for position, (place, number) in enumerate(order):
        event = placed[number][1]
        what = (event.note or "").strip() or "outside supply"
        if event.what == "outside supply on":
            since = since or (place, what)
        else:
            start = since if since is not None else (float("-inf"), what) if position == 0 else None
            if start is not None:
                spans.append(OutsideSpan(start[0], place, start[1]))
            since = None
    if since is not None:
        spans.append(OutsideSpan(since[0], None, since[1]))
    return tuple(spans)


def context_for(trace: Trace, vehicle: Vehicle | None = None, events: Sequence[Event] = (),
                snapshots: Sequence[Snapshot] = (), *, temperature_c: float | None = None,
                engine: Engine | None = None) -> SupplyContext:
    """What a session knows beside the voltages: system, battery, outside supply.

    Without events about it, snapshots on the trace that all say "none" mean that none was connected.
    """
    nominal = vehicle.nominal_volts if vehicle and vehicle.nominal_volts else guess_nominal(trace)
    outside = outside_spans(trace, events)
    if outside is None:
        said = {snapshot.outside_supply for snapshot in snapshots}
        outside = () if said == {"none"} else None
    return SupplyContext(nominal, (vehicle.battery if vehicle else None) or "unknown", outside, temperature_c, engine)
