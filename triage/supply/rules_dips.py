"""Brief dips of a supply that charges, and a night's log: what wakes again and again while the battery runs down.

A running generator holds its battery's voltage from below as well: what falls under it for a moment is a contact that
opens, or a load heavier than both; and a battery that falls all night in steps of one rhythm has a module that wakes
(common practice).
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from triage.supply.finding import Finding
from triage.supply.segments import Segment
from triage.supply.view import View, span_figures

#: So many dips are told as one, and so many wake-ups make a rhythm.
LEAST, LEAST_WAKES = 2, 3
#: A rhythm keeps its interval to this share.
_EVEN = 0.2
#: A log is long enough from this much behind the surface charge on, s; project's own choice.
_NIGHT = 2.0 * 3600.0


def dips_rule(view: View) -> list[Finding]:
    """The brief dips of one drive between charging levels, told as one; their single lines are left out."""
    return [found for drive in view.drives() if (found := _of_drive(view, drive)) is not None]


def _of_drive(view: View, drive: tuple[Segment, ...]) -> Finding | None:
    """What the dips of ``drive`` below the battery's own voltage are told as; None where they are too few."""
    own, longest, low = view.limit("not charging below"), view.limit("dip longest"), view.limit("undercharge below")
    levels = [part for before, part, after in zip(drive, drive[1:], drive[2:], strict=False)
              if before.kind == after.kind == "charging" and part.kind in ("sag", "load") and before.volts >= low
              and part.volts < own and part.end_s - part.start_s <= longest and part.start_s not in view.covered]
    within = [dip for part in drive if part.kind == "charging" and part.volts >= low
              for dip in _within(view, part, own) if dip.end_s - dip.start_s <= longest]
    dips = sorted((*levels, *within), key=lambda dip: dip.start_s)
    if len(dips) < LEAST:
        return None
    view.covered.update(part.start_s for part in levels)
    spans = sorted(part.end_s - part.start_s for part in dips)
    deepest = min(dips, key=lambda part: part.volts)
    level = float(np.median([part.volts for part in drive if part.kind == "charging"]))
    each = f"{spans[0]:.1f} to {spans[-1]:.1f} s each" if f"{spans[0]:.1f}" != f"{spans[-1]:.1f}" else (
        f"{spans[0]:.1f} s each")
    contact = "a contact that opens for a moment (post, clamp, ground, main fuse, the meter's own leads)"
    heavy = deepest.volts >= view.limit("crank spike sound lowest")
    load = ", or a load heavier than battery and generator" if heavy else ""
    text = (f"dips: {len(dips)} times from {level:.2f} V, {each}, down to {deepest.volts:.2f} V, below what the "
            f"battery has by itself: {contact}{load}; codes for lost communication or low supply set in this time may "
            "come from it")
    whole = Segment("charging", dips[0].start_s, dips[-1].end_s, deepest.volts)
    return Finding("dips", text, span_figures(whole, count=len(dips), longest_s=round(spans[-1], 3)),
                   view.cite("not charging below", "dip longest"), "cables and grounds", "not tested")


def _within(view: View, level: Segment, own: float) -> list[Segment]:
    """The stretches of a charging level below ``own`` V that are too short to be levels: single readings, often."""
    first, last = (int(place) for place in np.searchsorted(view.trace.seconds, [level.start_s, level.end_s]))
    below = np.concatenate(([False], view.trace.volts[first:last] < own, [False]))
    edges = np.flatnonzero(below[1:] != below[:-1])
    return [Segment("sag", float(view.trace.seconds[first + start]),
                    float(view.trace.seconds[first + end - 1]) + view.trace.interval,
                    float(view.trace.volts[first + start:first + end].min()))
            for start, end in zip(edges[::2], edges[1::2], strict=True)
            # What stands at the edge of a level is the way to the next one.
            if start > 0 and first + end < last]


class Wakes(NamedTuple):
    """Wake-ups of one rhythm: how often and how long each time, in s, and how many."""

    every: float
    lasts: float
    times: int


def wakes(view: View) -> Wakes | None:
    """The rhythm of short falls of a resting supply; None where they have none."""
    loads = view.of("load", "sag")
    if len(loads) < LEAST_WAKES or view.of("crank", "charging", "running", "cycling"):
        return None
    gaps = np.diff([part.start_s for part in loads])
    every = float(np.median(gaps))
    lasts = float(np.median([part.end_s - part.start_s for part in loads]))
    even = float(np.mean(np.abs(gaps - every) <= _EVEN * every))
    return Wakes(every, lasts, len(loads)) if even >= 0.75 and lasts < 0.5 * every else None


def night(view: View) -> Finding | None:
    """A log of hours with nothing running that falls, long after surface charge is gone, in the levels between the
    wake-ups of one rhythm: something draws."""
    rests, seconds, found = view.of("rest"), view.trace.seconds, wakes(view)
    if not rests or found is None:
        return None
    begin = float(seconds[0]) + 3600.0 * max(0.0, view.limit("rest hours least") - (view.context.rested_hours or 0.0))
    lasted = float(seconds[-1]) - begin
    if lasted < _NIGHT:
        return None
    if any(view.feed(part)[0] == "connected" for part in rests):
        return None
    tenth = begin + 0.1 * lasted, float(seconds[-1]) - 0.1 * lasted
    high = float(np.quantile(view.trace.volts[(seconds >= begin) & (seconds <= tenth[0])], 0.75))
    low = float(np.quantile(view.trace.volts[seconds >= tenth[1]], 0.75))
    if high - low < view.limit("falling rest least"):
        return None
    text = (f"falling at rest: {high:.2f} V to {low:.2f} V in the last {lasted / 3600.0:.1f} h, nothing running; "
            f"something wakes every {found.every / 60.0:.0f} min for {found.lasts / 60.0:.0f} min "
            f"({found.times} times)")
    figures = span_figures(Segment("rest", begin, float(seconds[-1]), low), high_volts=round(high, 3),
                           low_volts=round(low, 3), hours=round(lasted / 3600.0, 2),
                           wakes_every_s=round(found.every, 1), wakes_for_s=round(found.lasts, 1))
    view.covered.update(part.start_s for part in view.of("load", "sag"))
    return Finding("falling rest", f"{text}: something draws from the battery, or it loses its charge by itself; no "
                   "estimate of charge from a falling voltage", figures,
                   view.cite("rest hours least", "falling rest least"), "key-off draw", "not tested")


__all__ = ["Wakes", "dips_rule", "night", "wakes"]
