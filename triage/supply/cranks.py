"""Cranks: the starter's dip, from the first fall to the moment the voltage leaves its plateau.

The first spike (50 to 300 ms) is the starter standing still and says little; what counts is the plateau behind it.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from triage.supply.pieces import Piece, Signal

#: The dip's first part, in which only the spike may be seen (seconds).
SPIKE_SECONDS = 0.3


class Crank(NamedTuple):
    """Pieces ``first`` to ``last`` (included) of a list; ``plateau`` is the median behind the spike, volts."""

    first: int
    last: int
    plateau: float


def find_cranks(pieces: list[Piece], signal: Signal, *, running: bool = False) -> list[Crank]:
    """Every crank in a row of pieces, in order; ``running``: an engine has run before them."""
    cranks: list[Crank] = []
    at = 0
    while at < len(pieces):
        before = pieces[at - 1] if at else None
        crank = _crank_at(pieces, at, before, signal, running)
        if crank is None:
            running = running or _charges(pieces[at], signal)
            at += 1
            continue
        cranks.append(crank)
        at = crank.last + 1
    return cranks


def _charges(piece: Piece, signal: Signal) -> bool:
    """Whether a piece lies at a charging level for long enough to tell that something feeds the battery."""
    return piece.level >= signal.limit("charging lowest") and signal.span(piece.start, piece.end) >= 2.0


def plateau_of(signal: Signal, start: int, end: int) -> float:
    """The median of the dip of samples ``start`` to ``end``, the first spike left out where enough is left."""
    span = signal.span(start, end)
    skip = min(SPIKE_SECONDS, 0.3 * span)
    begin = start + int(np.searchsorted(signal.trace.seconds[start:end], signal.time(start) + skip))
    values = signal.volts[begin:end] if begin < end else signal.volts[start:end]
    return float(np.median(values))


def _crank_at(pieces: list[Piece], at: int, before: Piece | None, signal: Signal, running: bool) -> Crank | None:
    """The crank whose fall is the beginning of piece ``at``."""
    if before is None:
        return None
    level, drop = before.last, signal.limit("crank drop least")
    lowest = min(pieces[at].level, pieces[at].first)
    if level - lowest < drop and not _falls_on(pieces, at, level, drop, signal):
        return None
    last = _last_piece(pieces, at, level, signal)
    if last < at:
        return None
    start, end = pieces[at].start, pieces[last].end
    span = signal.span(start, end)
    if not signal.limit("crank shortest") <= span <= signal.limit("crank longest"):
        return None
    plateau = plateau_of(signal, start, end)
    if plateau > signal.limit("crank plateau highest") or level - plateau < 0.6 * drop:
        return None
    after = pieces[last + 1] if last + 1 < len(pieces) else None
    if after is None and span < 0.3:
        return None
    if after is not None and abs(after.first - level) <= 0.2 * signal.unit and not _looks_cranked(
            signal, start, end, plateau) and (span > 5.0 or plateau > 10.8 * signal.unit):
        return None  # a flat dip that is long or shallow, and back to the level: a consumer
    if running and level - plateau < 1.5 * drop and (
            end - start < 4 * signal.size or not _looks_cranked(signal, start, end, plateau)):
        return None  # an engine has run: without a starter's shape it takes a starter's depth
    back = after is not None and max(after.level, after.last) >= signal.limit("undercharge below")
    fed = level >= signal.limit("charging lowest") and (back or after is None)
    if fed and (running or not _looks_cranked(signal, start, end, plateau)):
        return None
    return Crank(at, last, plateau)


def _falls_on(pieces: list[Piece], at: int, level: float, drop: float, signal: Signal) -> bool:
    """Whether the fall takes a few samples: a short piece on the way down, the dip behind it."""
    piece = pieces[at]
    if at + 1 >= len(pieces) or signal.span(piece.start, piece.end) > 0.1:
        return False
    return level - piece.level >= 0.25 * drop and level - pieces[at + 1].level >= drop


def _last_piece(pieces: list[Piece], at: int, level: float, signal: Signal) -> int:
    """The last piece of the dip; less than ``at`` where a plateau on the way says that the crank begins later."""
    unit = signal.unit
    last = at
    while last + 1 < len(pieces):
        start, end = pieces[at].start, pieces[last].end
        plateau = plateau_of(signal, start, end)
        span = signal.span(start, end)
        piece = pieces[last + 1]
        if piece.level <= plateau - 0.7 * unit and _is_key_on(signal, start, end, plateau):
            return at - 1
        # While only the spike may be seen, nothing but a clear return ends the dip.
        spike = span < SPIKE_SECONDS + 0.05 or end - start < 2
        out = min(level - 0.15 * (level - plateau), level - 0.5 * unit) if spike else 0.5 * (level + plateau)
        if max(piece.level, piece.first) >= out:
            break
        last += 1
    return last


def _is_key_on(signal: Signal, start: int, end: int, plateau: float) -> bool:
    """Whether what came so far is a quiet level (heater plugs, lamps) rather than a turning starter."""
    if signal.span(start, end) < 0.3 or plateau < 10.0 * signal.unit:
        return False
    values = signal.means(start, end)
    return bool(plateau - float(values.min()) < max(0.3 * signal.unit, 5.0 * signal.block_noise))


def _looks_cranked(signal: Signal, start: int, end: int, plateau: float) -> bool:
    """Whether a dip from a fed level shows a starter: a first spike, or the ripple of compressions."""
    values = signal.means(start, end)
    if len(values) < 4:
        return plateau < 11.0 * signal.unit
    blocks = round(SPIKE_SECONDS / max(signal.trace.interval * signal.size, 1e-9))
    front = values[:max(1, min(len(values) // 3, blocks))]
    spike = plateau - float(front.min()) >= 0.4 * signal.unit
    ripple = float(np.std(values)) >= max(0.12 * signal.unit, 4.0 * signal.block_noise)
    return spike or ripple
