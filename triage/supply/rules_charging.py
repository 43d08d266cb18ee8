"""Rules about what charges the battery: charging, cycling, overvoltage, ripple."""

from __future__ import annotations

import itertools
import re
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from triage.model.not_charged import FALLS
from triage.supply.finding import Finding
from triage.supply.measurements import ripple, running_voltage
from triage.supply.rules_drive import drives_rule
from triage.supply.segments import Segment
from triage.supply.view import View, seconds_text, span_figures, when

if TYPE_CHECKING:
    from triage.model.snapshot import OutsideSupply

_FIGURE = re.compile(r"\d+(?:\.\d+)?")
#: A level is cut where the outside supply changes in its midst, unless a part shorter than this would be left, s.
_CUT = 2.0
#: A level that falls is one that lasts this long, s; project's own choice.
_FALLS_FOR = 60.0
#: So long above all charging before a level is no step up to it, s; project's own choice.
_ROSE_FOR = 5.0
#: The scatter of a slow log is taken within this many readings.
_WINDOW = 20


def charging_rule(view: View) -> list[Finding]:
    """Every level at which an engine may run, judged by what was connected and how long after the start."""
    drives = drives_rule(view)
    view.covered.update(*(one.covers for one in drives))
    levels = []
    for segment in view.of("charging", "running"):
        if segment.start_s in view.covered:
            continue
        found = [_level(view, part) for part in _alone(view, segment)]
        for drive in drives:
            found = [drive.limits(one) if drive.takes(segment) else one for one in found]
        levels += found
    told = [*_once(levels, 0.1 * view.system / 12), *(one.finding for one in drives)]
    return sorted(told, key=lambda finding: float(finding.figures["start_s"] or 0.0))


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
    engine = view.context.engine_in(segment.start_s, segment.end_s)
    runs = engine in ("running", "ready")
    figures = span_figures(segment, outside_supply=what or feed)
    source = view.cite("charging lowest", "charging highest", "undercharge below", "not charging below")
    name = f"{segment.volts:.2f} V {when(segment)}"
    if feed == "connected":
        return Finding("charging", f"{name} with a {what} connected: nothing is concluded about the vehicle's own "
                       "charging", figures, source, "charging", "not tested")
    if engine == "off":
        text = f"{name} with the engine off: an outside supply, or surface charge" if segment.kind == "charging" else \
            f"{name} with the engine off: the battery under load"
        return Finding("charging", text, figures, source, "charging", "not tested")
    said: OutsideSupply | None = "none" if feed == "none" else None
    found = running_voltage(segment.volts, outside=said, temperature_c=view.context.temperature_c,
                            commanded=view.context.charging_commanded, nominal=view.context.nominal,
                            seconds_since_start=view.after_start(segment), said=name)
    text, state = found.text, found.state
    if found.kind in ("undercharge", "charging") and state == "not tested" and (fall := _falls(view, segment)):
        text, state = f"{name}: {fall}", "failed"
    if found.kind == "overvoltage":
        text += _over_since(view, segment)
    if segment.kind == "running" and not runs and state == "failed":
        # A trace can't tell a running engine from a try that failed.
        text += "; provided the engine ran"
        state = "failed" if view.taken_off_before(segment) else "not tested"
    elif segment.kind == "charging" and not runs and not view.of("crank") and state == "proven":
        text += "; no start is seen in the trace, so make sure that the engine ran"
        state = "not tested"
    if view.taken_off_before(segment):
        text += "; the outside supply had been taken off before"
    return Finding(found.kind, text, figures | {"seconds_after_start": view.after_start(segment)}, source, found.part,
                   state)


def _over_since(view: View, segment: Segment) -> str:
    """Since when a level above all charging was on its way there, where it rose slowly; empty where it did not."""
    watch = view.limit("overvoltage watch above")
    before = int(np.searchsorted(view.trace.seconds, segment.start_s))
    step = max(1, round(1.0 / max(view.trace.interval, 1e-3)))
    first = before
    while first >= step and float(np.median(view.trace.volts[first - step:first])) > watch:
        first -= step
    if first == before or segment.start_s - float(view.trace.seconds[first]) < _ROSE_FOR:
        return ""
    return f"; above {watch:.0f} V from {seconds_text(float(view.trace.seconds[first]))} s on"


def _falls(view: View, segment: Segment) -> str | None:
    """What is said of a level below all charging that falls on: charging would hold it, or raise it."""
    values = view.values(segment)
    part = max(1, len(values) // 10)
    first, middle, last = (float(np.median(values[start:start + part])) for start in (
        0, (len(values) - part) // 2, len(values) - part))
    if segment.end_s - segment.start_s < _FALLS_FOR or last >= view.limit("charged battery highest") or not (
            first >= middle + FALLS / 4 and middle >= last + FALLS / 4 and first >= last + FALLS):
        return None
    return (f"falling from {first:.2f} to {last:.2f} V, where commanded charging would hold a level: nothing charges "
            "the battery")


def _once(found: list[Finding], near: float) -> list[Finding]:
    """Levels of which the same is said but for the figures (parted by load steps) told once, by the longest.

    So are those that lie within ``near`` volts of one another: no two verdicts on one level, the failed one counts.
    """
    longest: dict[tuple[object, ...], Finding] = {}
    for finding in found:
        key = (finding.kind, finding.state, finding.figures["outside_supply"], _FIGURE.sub("", _verdict(finding)))
        other = longest.get(key)
        if other is None or _length(finding) > _length(other):
            longest[key] = finding
    told: list[Finding] = []
    for finding in sorted(longest.values(), key=lambda one: (one.state != "failed", -_length(one))):
        if not any(_is_near(finding, other, near) for other in told):
            told.append(finding)
    return told


def _is_near(finding: Finding, other: Finding, near: float) -> bool:
    """Whether ``other``, which is told, says enough of the level of ``finding``."""
    apart = abs(float(finding.figures["volts"] or 0.0) - float(other.figures["volts"] or 0.0))
    same = finding.figures["outside_supply"] == other.figures["outside_supply"]
    return same and apart < near and other.state in (finding.state, "failed")


def _verdict(finding: Finding) -> str:
    """What is said of a level, behind its place."""
    return finding.text.partition(": ")[2]


def _length(finding: Finding) -> float:
    """Seconds that a finding's segment lasts."""
    return float(finding.figures["end_s"] or 0.0) - float(finding.figures["start_s"] or 0.0)


def cycling_rule(view: View) -> list[Finding]:
    """Square waves: an outside supply pulsing, a regulator cutting in and out, or a consumer that switches."""
    told: list[Finding] = []
    for found in (_cycling(view, segment) for segment in view.of("cycling") if segment.start_s not in view.covered):
        last = told[-1] if told else None
        if last is None or found.part is not None or last.part is not None or not _is_alike(found, last):
            told.append(found)
            continue
        # A consumer that goes on switching while the level under it moves is one.
        more = float(last.figures.get("stretches") or 1) + 1
        text = f"{last.text.partition('; in all')[0]}; in all {more:.0f} such stretches to " \
            f"{float(found.figures['end_s'] or 0.0):.0f} s"
        told[-1] = replace(last, text=text, figures={**last.figures, "stretches": more})
    return told


def _is_alike(found: Finding, other: Finding) -> bool:
    """Whether two cyclings have one period and swing, within a fifth."""
    pairs = [(float(one.figures["period_s"] or 0.0), float(one.figures["high_volts"] or 0.0)
              - float(one.figures["low_volts"] or 0.0)) for one in (found, other)]
    return all(abs(a - b) <= 0.2 * max(a, b) for a, b in zip(*pairs, strict=True))


def _cycling(view: View, segment: Segment) -> Finding:
    """One cycling segment: what is declared says whose it is, the levels only whether charging is in question."""
    low, high = segment.low_volts or 0.0, segment.high_volts or 0.0
    period, duty, edges = segment.period_s or 0.0, segment.duty or 0.0, segment.edges or ()
    feed, what = view.feed(segment)
    figures = span_figures(segment, low_volts=round(low, 3), high_volts=round(high, 3), period_s=round(period, 4),
                           duty=round(duty, 3), edges=len(edges), outside_supply=what or feed)
    source = view.cite("undercharge below", "cycling swing least")
    text = (f"cycling {when(segment)} between {low:.2f} and {high:.2f} V, period {period:.3g} s, high "
            f"{100 * duty:.0f} % of the time, {len(edges)} edges")
    lost, charging = view.limit("crank plateau warm"), view.limit("undercharge below")
    one_side = not low < charging <= high
    if feed == "connected":
        return Finding("cycling", f"{text}: the {what} pulses; it says nothing about the vehicle's own charging until "
                       f"the {what} is taken off and the voltage measured again", figures, source, "charging",
                       "not tested")
    if low < lost <= charging <= high:
        # A battery that is connected holds more than this, whether it is charged or not.
        text += (f": no battery that is connected falls below {lost:.1f} V between two charging levels: look for a "
                 "loose terminal, a broken ground or a loose lead of the meter before the charging is judged")
        return Finding("cycling", text, figures, view.cite("undercharge below", "crank plateau warm"), "charging",
                       "not tested")
    if one_side:
        text += f": both levels on one side of {charging:.1f} V, " + (
            "a consumer that switches" if feed == "none" else "a consumer that switches or an outside supply that "
            "pulses: nobody said whether one was connected")
        if low >= charging and view.trace.interval > view.limit("trace interval for ripple"):
            text += (f"; or faster ripple, read too slowly at every {view.trace.interval:.2g} s to show as what it "
                     "is: measure AC volts")
        return Finding("cycling", text, figures, source)
    if feed == "unknown":
        text += (": a trace alone can't tell an outside supply that pulses from the vehicle's own charging cutting in "
                 "and out; take off what is connected and measure again")
        return Finding("cycling", text, figures, source, "charging", "not tested")
    text += ": with nothing connected the vehicle's own charging cuts in and out"
    if view.may_be_commanded(segment):
        text += ("; stays as long as these may be commanded by the engine module: read the commanded value beside "
                 "the voltage, then check its regulator and cables")
        return Finding("cycling", text, figures | {"steps": len(edges) + 1}, source, "charging", "not tested")
    return Finding("cycling", f"{text}; check its regulator and cables", figures, source, "charging", "failed")


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
    """The alternating part of the longest charging level; what a slow log has of it is no figure for it."""
    levels = [segment for segment in view.of("charging", "running") if segment.end_s - segment.start_s >= 1.0]
    if not levels:
        return []
    segment = max(levels, key=lambda level: level.end_s - level.start_s)
    interval = view.trace.interval
    slow = interval > view.limit("trace interval for ripple")
    count = _WINDOW if slow else max(2, round(0.1 / interval))
    volts_ac = _scatter(view.values(segment), count)
    if volts_ac is None:
        return []
    if slow:
        return _unread(view, segment, volts_ac)
    found = ripple(volts_ac, nominal=view.context.nominal)
    text = f"{found.text}; from {1.0 / interval:.0f} readings a second {when(segment)}, faster ripple is not in it"
    figures = span_figures(segment) | dict(found.figures)
    return [Finding(found.kind, text, figures, found.source, found.part, found.state)]


def _scatter(values: NDArray[np.float64], count: int) -> float | None:
    """The scatter of values within windows of ``count``, volts; None for fewer."""
    whole = min(len(values) // count, 20_000) * count
    return float(np.sqrt(np.median(values[:whole].reshape(-1, count).var(axis=1)))) if whole else None


def _unread(view: View, segment: Segment, scatter: float) -> list[Finding]:
    """A charging level whose readings scatter far more than the logger's at rest: ripple, read too slowly."""
    quiet = [found for rest in view.of("rest", "key on") if (found := _scatter(view.values(rest), _WINDOW)) is not None]
    if scatter < max([view.limit("ripple suspect"), *(3.0 * other for other in quiet)]):
        return []
    rest = f" ({max(quiet):.2f} V at rest)" if quiet else ", or the logger is noisy"
    text = (f"the readings {when(segment)} scatter by {scatter:.2f} V about their level{rest}: ripple, most likely, "
            f"but one reading every {view.trace.interval:.3g} s can't show it as what it is: measure AC volts")
    return [Finding("ripple", text, span_figures(segment, volts_ac=round(scatter, 3),
                                                 suspect_volts_ac=view.limit("ripple suspect")),
                    view.cite("ripple suspect", "trace interval for ripple"), "charging", None)]
