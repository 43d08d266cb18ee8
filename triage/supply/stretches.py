"""Pieces put together to stretches: levels, rises and falls, before anything is named."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from triage.supply.pieces import Piece, Signal

#: A slope counts as one where it runs 0.3 V (12 V system) and faster than 0.2 V a minute.
_RAMP, _RATE = 0.3, 0.2 / 60.0


@dataclass(slots=True)
class Stretch:
    """Samples ``start`` to ``end`` (excluded). ``ramp`` 0: a level, 1: a rise, -1: a fall.

    ``level`` is the median, ``first`` and ``last`` the levels at the two ends (volts).
    """

    start: int
    end: int
    level: float
    first: float
    last: float
    ramp: int = 0

    @property
    def count(self) -> int:
        """Samples."""
        return self.end - self.start


def stretches_of(pieces: list[Piece], signal: Signal) -> list[Stretch]:
    """The levels, rises and falls that a row of adjoining pieces makes up."""
    rows = _join_steps([_stretch(piece, signal) for piece in pieces], signal)
    step = signal.limit("load step least")
    result: list[Stretch] = []
    for row in rows:
        last = result[-1] if result else None
        if last is not None and _is_one(last, row, step):
            total = last.count + row.count
            last.level = (last.level * last.count + row.level * row.count) / total
            last.end, last.last = row.end, row.last
            continue
        result.append(row)
    for row in result:
        row.level = float(np.median(signal.means(row.start, row.end)))
    return result


def _stretch(piece: Piece, signal: Signal) -> Stretch:
    """A piece as a stretch of its own."""
    span = signal.span(piece.start, piece.end)
    steep = abs(piece.rise) >= max(_RAMP * signal.unit, _RATE * signal.unit * span)
    ramp = 0 if not steep else 1 if piece.rise > 0 else -1
    return Stretch(piece.start, piece.end, piece.level, piece.first, piece.last, ramp)


def _is_one(last: Stretch, row: Stretch, step: float) -> bool:
    """Whether two neighbours are one stretch: slopes that go on, or levels that differ too little to matter."""
    sharp = abs(last.last - row.first) >= step
    if last.ramp or row.ramp:
        return last.ramp == row.ramp and not sharp
    return abs(last.level - row.level) < step


def _join_steps(rows: list[Stretch], signal: Signal) -> list[Stretch]:
    """Crumbs of one or two blocks: several one way are a slope, single ones go to the nearer neighbour."""
    most = 2 * signal.size
    result: list[Stretch] = []
    at = 0
    while at < len(rows):
        row = rows[at]
        if row.count > most or not result or at + 1 >= len(rows):
            result.append(row)
            at += 1
            continue
        end = _same_way(rows, at, result[-1], most)
        if end - at >= 2:
            result.append(_slope(rows[at:end], result[-1]))
        else:
            _attach(row, result[-1], rows[at + 1])
        at = max(end, at + 1)
    return result


def _same_way(rows: list[Stretch], at: int, before: Stretch, most: int) -> int:
    """The end (excluded) of the crumbs from ``at`` on that step one way, seen from the stretch before."""
    sign = 1.0 if rows[at].level > before.last else -1.0
    end = at + 1
    while end < len(rows) and rows[end].count <= most and sign * (rows[end].level - rows[end - 1].level) > 0:
        end += 1
    return end


def _slope(crumbs: list[Stretch], before: Stretch) -> Stretch:
    """Crumbs that step one way as one slope."""
    ramp = 1 if crumbs[-1].level > crumbs[0].level else -1
    middle = crumbs[len(crumbs) // 2].level
    return Stretch(crumbs[0].start, crumbs[-1].end, middle, crumbs[0].level, crumbs[-1].level, ramp)


def _attach(crumb: Stretch, before: Stretch, after: Stretch) -> None:
    """Gives the samples of a crumb to the neighbour whose level is nearer."""
    if abs(crumb.level - before.last) <= abs(crumb.level - after.first):
        before.end = crumb.end
    else:
        after.start = crumb.start
