"""What each stretch of a trace is called, from its level, its shape and what stands before and behind it.

A trace alone can't tell who feeds it: ``charging`` names a level at which something charges the battery, the
vehicle's own generator or an outside supply. ``running`` is a level below that behind a crank: an engine that may run
and is not seen to charge.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from triage.supply.pieces import Signal
from triage.supply.stretches import Stretch

Kind = Literal["rest", "key on", "crank", "recovery", "charging", "sag", "load", "running", "cycling"]
State = Literal["off", "started"]


@dataclass(slots=True)
class Named:
    """Samples ``start`` to ``end`` (excluded) under one name; ``level`` in volts."""

    kind: Kind
    start: int
    end: int
    level: float


@dataclass(slots=True)
class Around:
    """What stands before and behind a row of stretches; ``state`` is updated as they are named.

    ``failed_try``: the level before a crank that hardly turned; an engine that stays at it or below has not started.
    """

    state: State = "off"
    after_crank: bool = False
    before_crank: bool = False
    rest_level: float | None = None
    has_charged: bool = False
    failed_try: float | None = None


def name_all(rows: list[Stretch], around: Around, signal: Signal) -> list[Named]:
    """Names for a row of adjoining stretches between two events (crank, cycling, end of the trace)."""
    named: list[Named] = []
    at = 0
    if around.after_crank:
        at = _name_recovery(rows, around, signal, named)
    levels: list[tuple[float, Kind]] = []
    while at < len(rows):
        kind = _name_one(rows, at, levels, around, signal)
        named.append(Named(kind, rows[at].start, rows[at].end, rows[at].level))
        at += 1
    return named


def _name_recovery(rows: list[Stretch], around: Around, signal: Signal, named: list[Named]) -> int:
    """Names the way up from a crank; the index of the first stretch that is settled."""
    charging = signal.limit("undercharge below")
    if not rows:
        return 0
    start = rows[0].start
    within = [k for k, row in enumerate(rows)
              if signal.time(row.start) - signal.time(start) <= signal.limit("charging reached longest") * 1.5]
    target = next((k for k in within if not rows[k].ramp and rows[k].level >= charging
                   and not _goes_on_rising(rows, k, signal)), None)
    if target is None:
        target = 0
        while target < len(rows) and (rows[target].ramp > 0 or _goes_on_rising(rows, target, signal)):
            target += 1
    if around.before_crank and target >= len(rows):
        target = max(0, len(rows) - 1)
    if target:
        end = rows[target - 1].end
        if target < len(rows) and rows[target - 1].ramp > 0:
            end = rows[target].start = _settled(rows[target], signal)
        named.append(Named("recovery", start, end, rows[target - 1].level))
    return target


def _settled(row: Stretch, signal: Signal) -> int:
    """The sample from which a level reached on a curve keeps within 0.1 V (12 V system) of its median.

    The straight pieces stop following a curve some tenths of a volt below; a straight rise ends at the level's start.
    """
    size = signal.size
    first = -(-row.start // size)
    last = min(row.end // size, first + max(10, int(30.0 / max(signal.trace.interval * size, 1e-6))))
    width = int(min(9.0, max(1.0, (40.0 * signal.block_noise / signal.unit) ** 2)))
    values = signal.blocks[first:last]
    if len(values) <= 2 * width:
        return row.start
    if width > 1:
        values = np.convolve(values, np.full(width, 1.0 / width), mode="valid")
    low = np.flatnonzero(values < row.level - 0.1 * signal.unit)
    if not len(low) or low[-1] >= len(values) - 2:
        return row.start
    return min((first + int(low[-1]) + width // 2 + 1) * size, row.end - 1)


def _goes_on_rising(rows: list[Stretch], at: int, signal: Signal) -> bool:
    """Whether a short level is only a stop on the way up."""
    row = rows[at]
    brief = max(3.0, 4.0 * signal.trace.interval)
    return (at + 1 < len(rows) and signal.span(row.start, row.end) < brief
            and max(rows[at + 1].level, rows[at + 1].last) >= row.level + signal.limit("load step least"))


def _name_one(rows: list[Stretch], at: int, levels: list[tuple[float, Kind]], around: Around, signal: Signal) -> Kind:
    """The name of stretch ``at``. ``levels`` holds the level it stands on and those above that it fell from."""
    row = rows[at]
    charging = signal.limit("undercharge below")
    if row.ramp:
        return _name_ramp(rows, at, levels, around, signal)
    if row.level >= charging and around.state == "off" and _goes_on_rising(rows, at, signal):
        return "recovery"
    if not levels:
        kind = _name_base(row, around, signal)
        levels.append((row.level, kind))
        return kind
    step = signal.limit("load step least")
    back = False
    while len(levels) > 1 and row.level >= levels[-2][0] - 0.4 * (levels[-2][0] - levels[-1][0]):
        levels.pop()
        back = True
    drop = levels[-1][0] - row.level
    if back or drop < step:
        kind = levels[-1][1] if len(levels) > 1 else _name_base(row, around, signal)
        levels[-1] = (row.level, kind)
        return kind
    before = levels[-1][0]
    if _returns(rows, at, before - 0.4 * drop):
        deep = drop >= signal.limit("sag drop least") and row.level < charging
        kind = "sag" if deep else "load"
    else:
        kind = _name_lasting(row, levels, around, signal)
    levels.append((row.level, kind))
    return kind


def _returns(rows: list[Stretch], at: int, level: float) -> bool:
    """Whether a later stretch comes back to ``level``."""
    return any(row.last >= level or row.level >= level for row in rows[at + 1:])


def _name_base(row: Stretch, around: Around, signal: Signal) -> Kind:
    """The name of a level that no drop leads to."""
    if row.level >= signal.limit("undercharge below"):
        around.has_charged = True
        around.state = "started"
        return "charging"
    if around.state == "off":
        around.rest_level = row.level if around.rest_level is None else max(around.rest_level, row.level)
        return "rest"
    if around.before_crank and not around.has_charged:
        near = around.rest_level is not None and row.level >= around.rest_level - 0.1 * signal.unit
        return "rest" if near and not around.after_crank else "key on"
    if around.failed_try is not None and row.level <= around.failed_try + 0.05 * signal.unit:
        return "key on"
    if around.has_charged and row.level >= signal.limit("not charging below"):
        around.state = "off"
        around.rest_level = row.level
        return "rest"
    return "running"


def _name_lasting(row: Stretch, levels: list[tuple[float, Kind]], around: Around, signal: Signal) -> Kind:
    """The name of a drop that nothing comes back from before the next event."""
    charging, deep = signal.limit("undercharge below"), signal.limit("sag drop least")
    before = levels[-1][0]
    drop = before - row.level
    if around.state == "started" and before >= charging:
        if row.level >= charging:
            return "load"
        levels.clear()
        if row.level >= signal.limit("not charging below"):
            around.state = "off"
            around.rest_level = row.level
            return "rest"
        return "running"
    if around.state == "off" and len(levels) == 1:
        if signal.span(row.start, row.end) > 3600.0 * signal.limit("key on longest"):
            around.rest_level = row.level
            levels.clear()  # what falls further stands on that
            return "rest"
        if around.before_crank:
            return "key on" if drop < 2.0 * deep else "sag"
        return "key on" if drop < deep else "sag"
    return "load" if drop < deep else "sag"


def _name_ramp(rows: list[Stretch], at: int, levels: list[tuple[float, Kind]], around: Around, signal: Signal) -> Kind:
    """The name of a slope."""
    row = rows[at]
    charging = signal.limit("undercharge below")
    after = rows[at + 1] if at + 1 < len(rows) else None
    end = after.level if after is not None and not after.ramp else row.last
    if row.ramp > 0:
        if not levels:
            levels.append((row.first, "rest"))
        slow = signal.span(row.start, row.end) > 1.5 * signal.limit("charging reached longest")
        return "charging" if end >= charging and slow and not around.after_crank else "recovery"
    if levels and levels[0][0] >= charging and end >= signal.limit("not charging below") \
            and not _returns(rows, at, charging) and row.last < charging:
        return "rest"
    if not levels:
        levels.append((row.first, "rest"))
    return "sag"
