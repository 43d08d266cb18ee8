"""Ripple that a slow logger read: readings that swing between two heights and are on the way as often as there.

A generator's ripple is faster than most loggers. Readings taken too seldom fold it down to a slow wave (aliasing)
that never was on the battery. A consumer that switches goes from level to level at once and stays there; a wave is
always on its way. So it is one level that scatters, and neither loads nor sags.
"""

from __future__ import annotations

import numpy as np

from triage.supply.cycling import phases_of, run_of
from triage.supply.pieces import Piece, Signal

#: Turns a wave has at least, and the least share of its time on the way between its heights; project's own choice.
_TURNS, _ON_THE_WAY = 7, 0.15


def without_waves(pieces: list[Piece], signal: Signal) -> list[Piece]:
    """``pieces`` with each wave of a charging level as one piece; unchanged where ripple can be seen as what it is."""
    charging = signal.limit("undercharge below")
    if signal.trace.interval <= signal.limit("trace interval for ripple") or len(pieces) < _TURNS:
        return pieces
    phases = phases_of(pieces, 2.0 * signal.limit("load step least"))
    result, at, done = [], 0, 0
    while at + _TURNS <= len(phases):
        end = run_of(phases, at, signal)
        inner = phases[at:end]
        row = pieces[inner[0].first:inner[-1].last + 1]
        if len(inner) < _TURNS or min(phase.level for phase in inner) < charging or not _on_the_way(row, signal):
            at += 1
            continue
        result += [*pieces[done:inner[0].first], _level(row, signal)]
        at, done = end, inner[-1].last + 1
    return [*result, *pieces[done:]]


def _on_the_way(row: list[Piece], signal: Signal) -> bool:
    """Whether enough of a row is sloped, or too short to be a level anything is held at."""
    least = 2.0 * signal.limit("load step least")
    way = sum(piece.end - piece.start for piece in row if abs(piece.rise) >= 0.5 * least
              or piece.end - piece.start <= 3 * signal.size)
    return way >= _ON_THE_WAY * (row[-1].end - row[0].start)


def _level(row: list[Piece], signal: Signal) -> Piece:
    """A row of pieces as one level, its median."""
    level = float(np.median(signal.means(row[0].start, row[-1].end)))
    return Piece(row[0].start, row[-1].end, level, level, level)
