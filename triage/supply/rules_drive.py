"""Rules about a whole drive: charging that ended and did not come back, steps that look commanded."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from triage.supply.finding import Finding
from triage.supply.measurements import running_voltage
from triage.supply.segments import Segment
from triage.supply.view import View, seconds_text, span_figures, when

if TYPE_CHECKING:
    from triage.model.verdict import SupplyState

#: The share of a stretch at either end whose median stands for that end is one in this many.
_END = 10


class OfDrive(NamedTuple):
    """What a drive says: ``finding``, the segments it speaks for (by their start), and whether it ``ends`` charging."""

    finding: Finding
    covers: frozenset[float]
    ends: bool
    drive: tuple[Segment, ...]

    def takes(self, segment: Segment) -> bool:
        """Whether ``segment`` lies in this drive."""
        return self.drive[0].start_s <= segment.start_s <= self.drive[-1].start_s

    def limits(self, finding: Finding) -> Finding:
        """A finding about a level of this drive, no proof where its charging ended."""
        if not self.ends or finding.state != "proven":
            return finding
        ended = float(self.finding.figures["ended_s"] or 0.0)
        return replace(finding, text=f"{finding.text}; until {seconds_text(ended)} s only", state="not tested")


def drives_rule(view: View) -> list[OfDrive]:
    """What each drive of a trace says as a whole."""
    found = []
    for drive in view.drives():
        charged = [place for place, segment in enumerate(drive) if _charges(view, segment)]
        if not charged:
            continue
        steps = _steps(view, drive, charged)
        found += [one for one in (steps, _ended(view, drive, charged[-1], steps)) if one is not None]
    return found


def _charges(view: View, segment: Segment) -> bool:
    """Whether something charges the battery in a segment."""
    level = segment.volts if segment.high_volts is None else segment.high_volts
    told = segment.start_s in view.covered
    return not told and segment.kind in ("charging", "load", "cycling") and level >= view.limit("undercharge below")


def _steps(view: View, drive: tuple[Segment, ...], charged: list[int]) -> OfDrive | None:
    """Steps down to the level of a full battery and back, with nobody starting the engine: commanded, most likely."""
    low, rests = view.limit("commanded charging lowest"), view.limit("commanded charging rests to")
    held = view.limit("commanded step least")
    first = drive[charged[0]]
    inner = [segment for segment in drive[charged[0]:charged[-1]] if segment.kind == "running"]
    even = [segment for segment in drive[charged[0]:] if segment.kind == "cycling" and view.may_be_commanded(segment)]
    feed, _ = view.context.feed(first.start_s, drive[-1].end_s)
    if len(inner) + 2 * len(even) < 2 or feed == "connected" or any(
            not low <= segment.volts <= rests or segment.end_s - segment.start_s < held for segment in inner):
        return None
    parts = [part for part in drive[charged[0]:] if part in even or (part.volts >= low and (
        part.kind in ("charging", "running") or (part.kind == "load" and part.end_s - part.start_s >= held)))]
    if len(parts) < 2:
        return None  # a cycling alone says it itself
    levels = [level for part in parts for level in (part.low_volts or part.volts, part.high_volts or part.volts)]
    count = sum(len(part.edges or ()) or 1 for part in parts)
    stay = (parts[-1].end_s - parts[0].start_s) / count
    text = (f"{count} steps between {min(levels):.2f} and {max(levels):.2f} V from {seconds_text(parts[0].start_s)} "
            f"to {seconds_text(parts[-1].end_s)} s, each held about {seconds_text(stay)} s: they look commanded by the "
            "engine module; if it did not ask for them, the charging cuts out or is too weak for its loads: read the "
            "commanded value beside the voltage")
    state: SupplyState = "not tested"
    if feed == "unknown":
        text += "; nobody said whether an outside supply was connected"
    elif view.context.charging_commanded and max(levels) >= view.limit("charging lowest") and view.started(parts[0]):
        state = "proven"
    figures = span_figures(parts[0], low_volts=round(min(levels), 3), high_volts=round(max(levels), 3),
                           steps=count, held_s=round(stay, 1), outside_supply=feed)
    figures["end_s"] = round(parts[-1].end_s, 4)
    source = view.cite("commanded charging lowest", "commanded charging rests to", "commanded step least")
    return OfDrive(Finding("charging", text, figures, source, "charging", state),
                   frozenset(part.start_s for part in parts), False, drive)


def _ended(view: View, drive: tuple[Segment, ...], last: int, steps: OfDrive | None) -> OfDrive | None:
    """Charging that ended within a drive and did not come back."""
    rest = [segment for segment in drive[last + 1:] if segment.kind in ("running", "cycling", "sag")]
    while rest and rest[-1].kind == "sag":
        rest.pop()
    if not rest:
        return None
    ended, end = drive[last].end_s, rest[-1].end_s
    feed, _ = view.context.feed(ended, end)
    engine = view.context.engine_in(ended, end)
    if "connected" in (feed, view.feed(drive[last])[0]) or view.taken_off_before(rest[0]) or engine == "off":
        return None  # told level by level: it was that supply's end, or the engine's
    values = view.between(rest[0].start_s, end)
    values = values[int(np.argmax(values < view.limit("undercharge below"))):]
    share = max(1, len(values) // _END)
    high, low = (float(np.median(part)) for part in (values[:share], values[-share:]))
    falls = high - low >= 2.0 * view.limit("load step least")
    if steps is not None and not falls and low >= view.limit("commanded charging lowest"):
        return None
    name = f"charging ended at {seconds_text(ended)} s and did not come back: "
    name += f"{high:.2f} V falling to {low:.2f} V in {(end - ended) / 60.0:.2g} min" if falls else \
        f"{rest[0].volts:.2f} V {when(rest[0])}"
    found = running_voltage(low, outside="none" if feed == "none" else None, temperature_c=view.context.temperature_c,
                            commanded=view.context.charging_commanded, nominal=view.context.nominal,
                            seconds_since_start=view.after_start(rest[-1]), said=name)
    text, state = found.text, found.state
    if falls and found.kind == "undercharge":
        text += "; a commanded level holds and does not go on falling"
    if engine in ("running", "ready"):
        text += "; the engine is known to have run"
    else:
        text += "; provided the engine ran: switched off with consumers on it falls as well"
        state = "not tested"
    figures = span_figures(rest[0], ended_s=round(ended, 4), from_volts=round(high, 3), to_volts=round(low, 3),
                           seconds_after_start=view.after_start(rest[-1]), outside_supply=feed)
    figures["end_s"] = round(end, 4)
    source = view.cite("charging lowest", "undercharge below", "not charging below")
    return OfDrive(Finding(found.kind, text, figures, source, "charging", state),
                   frozenset(segment.start_s for segment in rest), falls or found.kind == "not charging", drive)
