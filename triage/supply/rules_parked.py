"""Rules about levels that come and go: a parked vehicle that is topped up, a charging level that swings, a level that
fell after charging while nobody said whether the engine still ran."""

from __future__ import annotations

from itertools import pairwise
from typing import NamedTuple

import numpy as np

from triage.supply.finding import Finding
from triage.supply.segments import Segment
from triage.supply.view import View, seconds_text, span_figures, when

#: The kinds between which a level that charges swings.
_SWINGS = ("charging", "load", "running", "sag")
#: The share of a stretch at either end whose median stands for that end is one in this many.
_END = 10


class _Stays(NamedTuple):
    """How long a cycling stays up and down, seconds, and how often it went up."""

    up: float
    down: float
    times: int


def parked_rule(view: View) -> list[Finding]:
    """What comes and goes while nobody drives; what is told here the rules about charging leave alone."""
    return [*_top_ups(view), *_swings(view), *_fell(view)]


def _top_ups(view: View) -> list[Finding]:
    """A battery that is charged for some minutes every hour or two, with no start between: by the converter of an
    electric drive or by a maintenance charger (common practice). No engine commands its charging so."""
    found: list[Finding] = []
    if view.of("crank"):
        return found
    for segment in view.of("cycling"):
        stays = _stays(segment)
        low, high = segment.low_volts or 0.0, segment.high_volts or 0.0
        if stays is None or not low <= view.limit("charged battery highest") < view.limit("undercharge below") <= high:
            continue
        if stays.up + stays.down < view.limit("top-up period least") or stays.down < 2.0 * stays.up or (
                view.context.engine_in(segment.start_s, segment.end_s) is not None):
            continue
        feed, what = view.feed(segment)
        by = f"the {what} that is connected keeps it charged" if feed == "connected" else (
            "the vehicle is parked and its converter (of an electric drive) keeps the battery charged" + (
                "" if feed == "none" else ", or a maintenance charger does: nobody said which"))
        text = (f"topped up {stays.times} times {when(segment)}: about {stays.up / 60:.0f} min at {high:.2f} V every "
                f"{(stays.up + stays.down) / 60:.0f} min, {low:.2f} V between, with no start: {by}; it says nothing "
                "about charging while driven")
        figures = span_figures(segment, low_volts=round(low, 3), high_volts=round(high, 3), up_s=round(stays.up, 1),
                               down_s=round(stays.down, 1), times=stays.times, outside_supply=what or feed)
        found.append(Finding("topped up", text, figures, view.cite("top-up period least", "charged battery highest"),
                             "charging", "not tested"))
        view.covered.update(part.start_s for part in view.segments if part.end_s <= segment.end_s + 1e-6)
    return found


def _stays(segment: Segment) -> _Stays | None:
    """The stays of a cycling, by its edges; None with too few of them. What is up for the shorter time is the top-up
    where the edges do not say which comes first."""
    edges = segment.edges or ()
    if len(edges) < 4 or segment.duty is None:
        return None
    stays = [after - before for before, after in pairwise(edges)]
    first, second = float(np.median(stays[0::2])), float(np.median(stays[1::2]))
    up, down = sorted((first, second), reverse=segment.duty >= 0.5)
    return _Stays(up, down, (len(edges) + 1) // 2)


def _swings(view: View) -> list[Finding]:
    """A charging level that swings all the while, faster than anybody switches a consumer by hand."""
    found: list[Finding] = []
    for part in _runs(view):
        charged = [one.volts for one in part if one.kind == "charging"]
        loaded = [one.volts for one in part if one.kind in ("load", "sag")]
        span = part[-1].end_s - part[0].start_s
        if min(len(charged), len(loaded)) < view.limit("swings least") or (
                span / len(loaded) > view.limit("swing period longest")):
            continue
        high, low = float(np.median(charged)), float(np.median(loaded))
        whole = part[0]._replace(end_s=part[-1].end_s, volts=0.5 * (high + low))
        feed, what = view.feed(whole)
        text = (f"swings between {low:.2f} and {high:.2f} V {when(whole)}, about every {span / len(loaded):.2g} s "
                f"({len(loaded)} times): no steady charging: the regulator hunts, or a consumer switches all the while "
                "(hazard lights flash every 0.5 to 1 s): switch the consumers off and read again, then look at the "
                "belt, the control line and the regulator")
        text += f"; a {what} was connected: it may be that" if feed == "connected" else ""
        figures = span_figures(whole, low_volts=round(low, 3), high_volts=round(high, 3), times=len(loaded),
                               period_s=round(span / len(loaded), 3), outside_supply=what or feed)
        found.append(Finding("charging", text, figures, view.cite("swings least", "swing period longest"), "charging",
                             "not tested"))
        view.covered.update(one.start_s for one in part)
    return found


def _runs(view: View) -> list[list[Segment]]:
    """The rows of segments between which a charging level can swing."""
    rows: list[list[Segment]] = [[]]
    for segment in view.segments:
        if segment.kind in _SWINGS:
            rows[-1].append(segment)
        elif rows[-1]:
            rows.append([])
    return [row for row in rows if row]


def _fell(view: View) -> list[Finding]:
    """A level that falls on behind charging while nobody said whether the engine still ran."""
    found: list[Finding] = []
    for charged, rest in pairwise(view.segments):
        if charged.kind != "charging" or rest.kind != "rest" or "connected" in (
                view.feed(charged)[0], view.feed(rest)[0]):
            continue
        if view.context.engine_in(rest.start_s, rest.end_s) is not None:
            continue
        values = view.values(rest)
        share = max(1, len(values) // _END)
        first, last = float(np.median(values[:share])), float(np.median(values[-share:]))
        if first - last < 2.0 * view.limit("load step least"):
            continue
        minutes = (rest.end_s - rest.start_s) / 60.0
        text = (f"charging ended at {seconds_text(charged.end_s)} s: {first:.2f} V falling to {last:.2f} V in "
                f"{minutes:.2g} min: the engine was switched off with consumers on, or it ran on and nothing charged: "
                "nobody said which, and that decides")
        figures = span_figures(rest, from_volts=round(first, 3), to_volts=round(last, 3),
                               ended_s=round(charged.end_s, 4))
        found.append(Finding("charging", text, figures, view.cite("load step least"), "charging", "not tested"))
    return found


__all__ = ["parked_rule"]
