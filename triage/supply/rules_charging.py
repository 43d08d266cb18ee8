"""Rules about what charges the battery: charging, cycling, overvoltage, ripple."""

from __future__ import annotations

import itertools
import re
from typing import TYPE_CHECKING

import numpy as np

from triage.supply.finding import Finding
from triage.supply.measurements import ripple, running_voltage
from triage.supply.segments import Segment
from triage.supply.view import View, span_figures, when

if TYPE_CHECKING:
    from triage.model.snapshot import OutsideSupply

_FIGURE = re.compile(r"\d+(?:\.\d+)?")
#: A level is cut where the outside supply changes in its midst, unless a part shorter than this would be left, s.
_CUT = 2.0


def charging_rule(view: View) -> list[Finding]:
    """Every level at which an engine may run, judged by what was connected and how long after the start."""
    return _once([_level(view, part) for segment in view.of("charging", "running") for part in _alone(view, segment)])


def _alone(view: View, segment: Segment) -> list[Segment]:
    """``segment``, cut where an outside supply was put on or taken off in its midst."""
    edges = [edge for span in view.context.outside or () for edge in (span.start_s, span.end_s) if edge is not None
             and segment.start_s + _CUT <= edge <= segment.end_s - _CUT]
    cuts = [segment.start_s, *sorted(set(edges)), segment.end_s]
    if len(cuts) == 2:
        return [segment]
    parts = []
    for start, end in itertools.pairwise(cuts):
        first, last = (int(place) for place in np.searchsorted(view.trace.seconds, [start, end]))
        if last > first:
            parts.append(Segment(segment.kind, start, end, float(np.median(view.trace.volts[first:last]))))
    return parts


def _level(view: View, segment: Segment) -> Finding:
    """One charging or running segment."""
    feed, what = view.feed(segment)
    runs = view.context.engine in ("running", "ready")
    figures = span_figures(segment, outside_supply=what or feed)
    source = view.cite("charging lowest", "charging highest", "undercharge below", "not charging below")
    name = f"{segment.volts:.2f} V {when(segment)}"
    if feed == "connected":
        return Finding("charging", f"{name} with a {what} connected: nothing is concluded about the vehicle's own "
                       "charging", figures, source, "charging", "not tested")
    if view.context.engine == "off":
        text = f"{name} with the engine off: an outside supply, or surface charge" if segment.kind == "charging" else \
            f"{name} with the engine off: the battery under load"
        return Finding("charging", text, figures, source, "charging", "not tested")
    said: OutsideSupply | None = "none" if feed == "none" else None
    found = running_voltage(segment.volts, outside=said, temperature_c=view.context.temperature_c,
                            commanded=view.context.charging_commanded, nominal=view.context.nominal,
                            seconds_since_start=view.after_start(segment), said=name)
    text, state = found.text, found.state
    if segment.kind == "running" and not runs and state == "failed":
        # A trace can't tell a running engine from a try that failed.
        text += "; provided the engine ran"
        state = "failed" if _after_outside(view, segment) else "not tested"
    elif segment.kind == "charging" and not runs and not view.of("crank") and state == "proven":
        text += "; no start is seen in the trace, so make sure that the engine ran"
        state = "not tested"
    if _after_outside(view, segment):
        text += "; the outside supply had been taken off before"
    return Finding(found.kind, text, figures | {"seconds_after_start": view.after_start(segment)}, source, found.part,
                   state)


def _after_outside(view: View, segment: Segment) -> bool:
    """Whether an outside supply was taken off before a segment, with no crank in between."""
    ends = [span.end_s for span in view.context.outside or () if span.end_s is not None
            and span.end_s <= segment.start_s + 2.0 * view.trace.interval]
    if not ends:
        return False
    return not any(ends[-1] <= crank.start_s <= segment.start_s for crank in view.of("crank"))


def _once(found: list[Finding]) -> list[Finding]:
    """Levels of which the same is said but for the figures (parted by load steps) told once, by the longest."""
    longest: dict[tuple[object, ...], Finding] = {}
    for finding in found:
        key = (finding.kind, finding.state, finding.figures["outside_supply"], _FIGURE.sub("", _verdict(finding)))
        other = longest.get(key)
        if other is None or _length(finding) > _length(other):
            longest[key] = finding
    return sorted(longest.values(), key=lambda finding: float(finding.figures["start_s"] or 0.0))


def _verdict(finding: Finding) -> str:
    """What is said of a level, behind its place."""
    return finding.text.partition(": ")[2]


def _length(finding: Finding) -> float:
    """Seconds that a finding's segment lasts."""
    return float(finding.figures["end_s"] or 0.0) - float(finding.figures["start_s"] or 0.0)


def cycling_rule(view: View) -> list[Finding]:
    """Square waves: an outside supply pulsing, a regulator cutting in and out, or a consumer that switches."""
    return [_cycling(view, segment) for segment in view.of("cycling")]


def _cycling(view: View, segment: Segment) -> Finding:
    """One cycling segment."""
    low, high = segment.low_volts or 0.0, segment.high_volts or 0.0
    period, duty, edges = segment.period_s or 0.0, segment.duty or 0.0, segment.edges or ()
    feed, what = view.feed(segment)
    figures = span_figures(segment, low_volts=round(low, 3), high_volts=round(high, 3), period_s=round(period, 4),
                           duty=round(duty, 3), edges=len(edges), outside_supply=what or feed)
    source = view.cite("undercharge below", "cycling swing least")
    text = (f"cycling {when(segment)} between {low:.2f} and {high:.2f} V, period {period:.3g} s, high "
            f"{100 * duty:.0f} % of the time, {len(edges)} edges")
    charging = view.limit("undercharge below")
    if not low < charging <= high:
        return Finding("cycling", f"{text}: both levels on one side of {charging:.1f} V, a consumer that switches",
                       figures, source)
    lost = view.limit("crank plateau warm")
    if low < lost and feed != "connected":
        # A battery that is connected holds more than this, whether it is charged or not.
        text += (f": no battery that is connected falls below {lost:.1f} V between two charging levels: look for a "
                 "loose terminal, a broken ground or a loose lead of the meter before the charging is judged")
        return Finding("cycling", text, figures, view.cite("undercharge below", "crank plateau warm"), "charging",
                       "not tested")
    if feed == "connected":
        text += (f": the {what} pulses; it says nothing about the vehicle's own charging until the {what} is taken off "
                 "and the voltage measured again")
    elif feed == "none":
        text += ": with nothing connected the vehicle's own charging cuts in and out; check its regulator and cables"
    else:
        text += (": a trace alone can't tell an outside supply that pulses from the vehicle's own charging cutting in "
                 "and out; take off what is connected and measure again")
    return Finding("cycling", text, figures, source, "charging", "failed" if feed == "none" else "not tested")


def overvoltage_rule(view: View) -> list[Finding]:
    """Levels above what modules are built for; with an outside supply it is that supply's."""
    found = []
    over, watch = view.limit("overvoltage above"), view.limit("overvoltage watch above")
    wrong = view.limit("24 V supply on a 12 V vehicle above")
    spoken = {f.figures.get("start_s") for f in view.found if f.kind == "overvoltage"}
    for segment in view.segments:
        level = segment.high_volts if segment.high_volts is not None else segment.volts
        feed, what = view.feed(segment)
        told = round(segment.start_s, 4) in spoken
        if told or level <= watch or (level <= over and feed != "connected"):
            continue  # the charging rule speaks of it
        text = f"{level:.2f} V {when(segment)}: above {over if level > over else watch:.1f} V"
        if view.system == 12 and level > wrong:
            text += ", as from a 24 V supply: no 12 V module is bound to work there, tests hold it for 60 s at most"
        if feed == "connected":
            text += f"; a {what} was connected, so it is that supply's"
        found.append(Finding("overvoltage", text, span_figures(segment, limit_volts=over, outside_supply=what or feed),
                             view.cite("overvoltage above", "ISO 16750-2 long overvoltage"),
                             "charging" if feed != "connected" else None, "failed" if feed == "none" else None))
    return found


def ripple_rule(view: View) -> list[Finding]:
    """The alternating part of the longest charging level, where it was read fast enough to show."""
    levels = [segment for segment in view.of("charging", "running") if segment.end_s - segment.start_s >= 1.0]
    if not levels or view.trace.interval > view.limit("trace interval for ripple"):
        return []
    segment = max(levels, key=lambda level: level.end_s - level.start_s)
    values = view.values(segment)
    count = max(2, round(0.1 / view.trace.interval))
    whole = min(len(values) // count, 20_000) * count
    if not whole:
        return []
    rows = values[:whole].reshape(-1, count)
    volts_ac = float(np.sqrt(np.median(rows.var(axis=1))))
    found = ripple(volts_ac, nominal=view.context.nominal)
    rate = 1.0 / view.trace.interval
    text = f"{found.text}; from {rate:.0f} readings a second {when(segment)}, faster ripple is not in it"
    figures = span_figures(segment) | dict(found.figures)
    return [Finding(found.kind, text, figures, found.source, found.part, found.state)]
