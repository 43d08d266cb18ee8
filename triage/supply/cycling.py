"""Cycling: a supply that switches between two levels again and again, as a pulsing jump pack or charger does.

Found from the turning points of the piece levels, then measured on the samples: two levels well apart from the
scatter about them, phases that repeat, edges that are steep.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from triage.supply.pieces import Piece, Signal

Array = NDArray[np.float64]
#: From this share of the time on a level dips, and is no half of a square wave; project's own choice.
_DIPS = 0.92


class Cycle(NamedTuple):
    """Samples ``start`` to ``end`` (excluded) of cycling; levels in volts, seconds, ``duty`` the share of time high."""

    start: int
    end: int
    low: float
    high: float
    period: float
    duty: float
    edges: tuple[int, ...]


@dataclass(slots=True)
class Phase:
    """One stay at a turning level: pieces ``first`` to ``last`` (included)."""

    first: int
    last: int
    level: float
    high: bool


def find_cycles(pieces: list[Piece], signal: Signal) -> list[Cycle]:
    """Every stretch of cycling, in order, not overlapping."""
    phases = phases_of(pieces, signal.limit("cycling swing least"))
    cycles: list[Cycle] = []
    at = 0
    while at + 4 < len(phases):
        end = run_of(phases, at, signal)
        cycle = _measure(pieces, phases[at:end], signal) if end - at >= 5 else None
        if cycle is None:
            at += 1
            continue
        if not _are_dips(cycle, signal):
            cycles.append(cycle)
        at = end - 1
    return _apart(cycles)


def _are_dips(cycle: Cycle, signal: Signal) -> bool:
    """Whether a level that charges only dips for moments, now and then: nothing that pulses holds its level so long."""
    return cycle.high >= signal.limit("undercharge below") and cycle.duty >= _DIPS and (
        cycle.period * (1.0 - cycle.duty) <= signal.limit("dip longest"))


def phases_of(pieces: list[Piece], swing: float) -> list[Phase]:
    """The piece levels as turns up and down of ``swing`` and more (the last phase is what is left)."""
    if not pieces:
        return []
    phases: list[Phase] = []
    start, extreme, rising = 0, 0, None
    for k in range(1, len(pieces)):
        step = pieces[k].level - pieces[extreme].level
        if rising is None:
            if abs(step) >= swing:
                phases.append(_phase(pieces, 0, k - 1, step < 0))
                start, extreme, rising = k, k, step > 0
        elif (step > 0) == rising and step != 0:
            extreme = k
        elif abs(step) >= swing:
            # The turn lies at the first piece that left the extreme's level by half of the step.
            turn = next(j for j in range(extreme + 1, k + 1)
                        if abs(pieces[j].level - pieces[extreme].level) >= 0.5 * abs(step))
            phases.append(_phase(pieces, start, turn - 1, rising))
            start, extreme, rising = turn, k, not rising
    phases.append(_phase(pieces, start, len(pieces) - 1, bool(rising)))
    return phases


def _phase(pieces: list[Piece], first: int, last: int, high: bool) -> Phase:
    """A phase with the level of its longest piece, of those on the side to which it turns."""
    row = pieces[first:last + 1]
    middle = 0.5 * (min(piece.level for piece in row) + max(piece.level for piece in row))
    turned = [piece for piece in row if (piece.level >= middle if high else piece.level <= middle)]
    longest = max(turned, key=lambda piece: piece.end - piece.start)
    return Phase(first, last, longest.level, high)


def run_of(phases: list[Phase], at: int, signal: Signal) -> int:
    """The phase after the last one that belongs to a run from phase ``at`` on.

    The inner phases must keep to two levels; the first and the last only lead in and out, at any level.
    """
    if at + 3 >= len(phases):
        return at
    levels = {phase.high: phase.level for phase in phases[at + 1:at + 3]}
    tolerance = max(0.2 * signal.unit, 0.25 * abs(levels[True] - levels[False]))
    end = at + 3
    while end < len(phases) and abs(phases[end].level - levels[phases[end].high]) <= tolerance:
        end += 1
    return min(end + 1, len(phases))


def _measure(pieces: list[Piece], run: list[Phase], signal: Signal) -> Cycle | None:
    """Levels, edges, period and duty of a run of phases; None where it is no regular square wave."""
    inner = run[1:-1] or run
    lows = [p.level for p in inner if not p.high] or [p.level for p in run if not p.high]
    highs = [p.level for p in inner if p.high] or [p.level for p in run if p.high]
    low, high = float(np.median(lows)), float(np.median(highs))
    middle = 0.5 * (low + high)
    edges = _trimmed(_edges(pieces, run, middle), signal)
    if len(edges) < 4:
        return None
    low, high = _levels(signal.volts, edges, middle)
    if not _two_levels(signal.means(edges[0], edges[-1]), low, high):
        return None
    times = np.array([signal.time(edge) for edge in edges])
    rising_first = float(np.median(signal.volts[edges[0]:edges[1]])) >= middle
    period = _period(times, low, high, signal)
    if period is None or _are_cranks(times, low, high, signal, rising_first):
        return None
    phases = np.diff(times)
    ups, downs = phases[0 if rising_first else 1::2], phases[1 if rising_first else 0::2]
    up, down = float(np.median(ups)), float(np.median(downs))
    start, end = _ends(signal, pieces, run, edges, (low, high), (up, down), rising_first)
    return Cycle(start, end, low, high, period, up / (up + down), tuple(edges))


def _edges(pieces: list[Piece], run: list[Phase], middle: float) -> list[int]:
    """The samples at which one phase ends and the next begins, where the two lie on either side of ``middle``."""
    edges: list[int] = []
    for before, after in pairwise(run):
        high = pieces[before.last].level >= middle
        over = (piece.start for piece in pieces[after.first:after.last + 1] if (piece.level >= middle) != high)
        edges += [place for place in [next(over, None)] if place is not None]
    return edges


def _levels(volts: Array, edges: list[int], middle: float) -> tuple[float, float]:
    """The two levels, from the later part of every stay: a pulse may take a while to reach its own."""
    parts = [volts[start + 2 * (end - start) // 5:max(end - (end - start) // 6, start + 1)]
             for start, end in pairwise(edges)]
    high = [part for part in parts if float(np.median(part)) >= middle]
    low = [part for part in parts if float(np.median(part)) < middle]
    if not low or not high:
        return middle, middle
    return float(np.median(np.concatenate(low))), float(np.median(np.concatenate(high)))


def _trimmed(edges: list[int], signal: Signal) -> list[int]:
    """The edges without those before and after which the level stays far longer than elsewhere.

    A generator that charges for minutes and then begins to cut out has not been cycling all the while.
    """
    stays = np.diff([signal.time(edge) for edge in edges])
    first, last = 0, len(stays)
    while last - first >= 3 and stays[first] > 2.0 * float(np.median(stays[first + 2:last:2])):
        first += 1
    while last - first >= 3 and stays[last - 1] > 2.0 * float(np.median(stays[first:last - 1][::-1][1::2])):
        last -= 1
    return edges[first:last + 1]


def _two_levels(values: Array, low: float, high: float) -> bool:
    """Whether the values keep to two levels: apart by five scatters and more, little in between.

    The scatter of each half is taken about its own median: about the tops of a sine wave it would look too small.
    """
    middle = 0.5 * (low + high)
    below, above = values[values < middle], values[values >= middle]
    if not len(below) or not len(above):
        return False
    low, high = float(np.median(below)), float(np.median(above))
    swing = high - low
    scatter = 1.4826 * max(float(np.median(np.abs(below - low))), float(np.median(np.abs(above - high))))
    between = float(np.mean(np.abs(values - middle) < 0.2 * swing))
    return swing >= 5.0 * scatter and between <= 0.25


def _period(times: Array, low: float, high: float, signal: Signal) -> float | None:
    """The median period in seconds; None where too few or too uneven edges make it none.

    Between a discharged and a charging level two whole periods and a half will do; any other square wave (a fan, a
    flasher on a sound supply) must show three, more evenly. Stays of a sample or two could be stray readings and
    must come back to the sample.
    """
    charging, interval = signal.limit("undercharge below"), signal.trace.interval
    telling = low < charging <= high and high - low >= 0.8 * signal.unit
    brief = float(min(np.median(np.diff(times)[0::2]), np.median(np.diff(times)[1::2]))) <= 2.5 * interval
    if len(times) < (5 if telling and not brief else 6):
        return None
    periods = np.concatenate((np.diff(times[0::2]), np.diff(times[1::2])))
    period = float(np.median(periods))
    off = np.abs(periods - period)
    share = 0.0 if brief else 0.35 if telling else 0.2
    allowed = max(share * period, min(1.01 * interval, 0.35 * period))
    return period if float(np.quantile(off, 0.9 if len(off) >= 8 and not brief else 1.0)) <= allowed else None


def _are_cranks(times: Array, low: float, high: float, signal: Signal, rising_first: bool) -> bool:
    """Whether a few short deep dips are tries to start rather than a supply that pulses."""
    if high >= signal.limit("undercharge below") or low > signal.limit("crank plateau highest"):
        return False
    downs = np.diff(times)[1 if rising_first else 0::2]
    return bool(len(downs) < 8 and np.max(downs) <= signal.limit("crank longest"))


def _ends(signal: Signal, pieces: list[Piece], run: list[Phase], edges: list[int], levels: tuple[float, float],
          stays: tuple[float, float], rising_first: bool) -> tuple[int, int]:
    """First and last sample: the edges, and the stays before and after them that are no longer than the others."""
    rising_last = rising_first == (len(edges) % 2 == 1)
    row = pieces[run[0].first:run[-1].last + 1]
    before = [piece for piece in reversed(row) if piece.start < edges[0]]
    after = [piece for piece in row if piece.end > edges[-1]]
    start = _stay(signal, before, edges[0], not rising_first, levels, stays)
    return start, _stay(signal, after, edges[-1], rising_last, levels, stays)


def _stay(signal: Signal, row: list[Piece], edge: int, high: bool, levels: tuple[float, float],
          stays: tuple[float, float]) -> int:
    """How far from ``edge`` on the pieces of ``row`` belong to the cycling.

    The way between the levels does, and the level itself where it is kept no longer than the other stays.
    """
    level, stay = (levels[1], stays[0]) if high else (levels[0], stays[1])
    way = border = edge
    for piece in row:
        blocks = max(1, (piece.end - piece.start) // signal.size)
        tolerance = max(0.12 * signal.unit, 3.0 * signal.block_noise / float(np.sqrt(blocks)))
        far = piece.start if piece.start < edge else piece.end
        if abs(piece.level - level) <= tolerance:
            border = far
        elif border == edge and _on_the_way(piece, levels, 0.6 * stay, signal):
            way = far
        elif border != edge or piece.end - piece.start > 2 * signal.size:
            break
    first, last = min(border, edge), max(border, edge)
    kept = border != edge and signal.span(first, last) <= 1.25 * stay + 2 * signal.trace.interval
    return border if kept else way


def _on_the_way(piece: Piece, levels: tuple[float, float], longest: float, signal: Signal) -> bool:
    """Whether a piece leads from one level to the other: between them, sloped or very short."""
    span = signal.span(piece.start, piece.end)
    sloped = piece.rise != 0.0 and span <= longest
    return levels[0] < piece.level < levels[1] and (sloped or span <= max(0.2 * longest, 2.5 * signal.trace.interval))


def _apart(cycles: list[Cycle]) -> list[Cycle]:
    """Cycles that don't overlap: one that begins inside the one before is cut there."""
    kept: list[Cycle] = []
    for cycle in cycles:
        if kept and cycle.start < kept[-1].end:
            if cycle.end <= kept[-1].end:
                continue
            cycle = Cycle(kept[-1].end, cycle.end, cycle.low, cycle.high, cycle.period, cycle.duty, cycle.edges)
        kept.append(cycle)
    return kept
