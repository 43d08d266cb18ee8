"""A trace cut into straight pieces: the change points found on short averages, each edge then placed to the sample."""

from __future__ import annotations

import itertools
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from triage.supply.changepoints import changes_of, noise_of
from triage.supply.limits import limit
from triage.supply.trace import Trace

Array = NDArray[np.float64]
#: Change points are looked for on averages this long: short against the first dip of a crank (50 ms and more).
BLOCK_SECONDS = 0.01


@dataclass(slots=True)
class Piece:
    """Samples ``start`` to ``end`` (excluded): the median, and the levels at both ends (volts)."""

    start: int
    end: int
    level: float
    first: float
    last: float

    @property
    def rise(self) -> float:
        """Volts gained from its beginning to its end."""
        return self.last - self.first


@dataclass(slots=True)
class Signal:
    """A trace with what the cutting needs: block averages of ``size`` samples, noise of samples and of blocks.

    ``system`` is 12 or 24; ``unit`` is 1 or 2, the factor for figures that only serve the cutting.
    """

    trace: Trace
    system: int
    size: int
    blocks: Array
    noise: float
    block_noise: float
    resolution: float

    @property
    def unit(self) -> float:
        """1 for a 12 V system, 2 for 24 V."""
        return self.system / 12.0

    def limit(self, key: str) -> float:
        """The figure ``key`` of the limits table for this system."""
        return limit(key, self.system)

    @property
    def volts(self) -> Array:
        """All samples, volts."""
        return self.trace.volts

    def time(self, index: int) -> float:
        """Seconds of sample ``index``; the end of the trace for an index past the last sample."""
        seconds = self.trace.seconds
        return float(seconds[index] if index < len(seconds) else seconds[-1])

    def span(self, start: int, end: int) -> float:
        """Seconds that samples ``start`` to ``end`` (excluded) stand for; one sample stands for one interval."""
        return max(self.time(end) - self.time(start), (end - start) * 0.5 * self.trace.interval)

    def means(self, start: int, end: int) -> Array:
        """Block averages within samples ``start`` to ``end``; the samples themselves where they hold no whole block."""
        if self.size == 1:
            return self.blocks[start:end]
        low, high = -(-start // self.size), end // self.size
        return self.blocks[low:high] if high > low else self.volts[start:end]


def signal_of(trace: Trace, system: int) -> Signal:
    """Block averages and noise of a trace with two samples or more."""
    interval = trace.interval
    size = max(1, round(BLOCK_SECONDS / interval)) if interval > 0 else 1
    volts = trace.volts
    if size == 1:
        blocks = volts
    else:
        whole = len(volts) // size * size
        blocks = volts[:whole].reshape(-1, size).mean(axis=1)
        if whole < len(volts):
            blocks = np.append(blocks, volts[whole:].mean())
    sample = volts if len(volts) <= 400_000 else np.concatenate(
        [volts[k:k + 20_000] for k in np.linspace(0, len(volts) - 20_000, 20).astype(int)])
    return Signal(trace, system, size, blocks, noise_of(sample), noise_of(blocks), resolution_of(blocks))


def resolution_of(values: Array) -> float:
    """The last digit of a logger: the smallest difference between two of its readings, volts."""
    steps = np.diff(np.unique(np.round(values[:20_000], 6)))
    return float(steps.min()) if len(steps) else 0.0


def pieces_of(signal: Signal) -> list[Piece]:
    """The straight pieces of a signal, in order."""
    cuts = changes_of(signal.blocks, least=0.06 * signal.unit, floor=max(0.02 * signal.unit, 0.5 * signal.resolution))
    edges = [0, *(cut * signal.size for cut in _without_halves(cuts, signal)), len(signal.volts)]
    placed = [0]
    for left, cut, right in zip(edges, edges[1:], edges[2:], strict=False):
        place = _place(signal, max(left, placed[-1]), cut, right)
        if place > placed[-1]:
            placed.append(place)
    placed.append(len(signal.volts))
    pieces = [make_piece(signal, a, b) for a, b in itertools.pairwise(placed)]
    return _hinged(pieces, signal)


def _without_halves(cuts: list[int], signal: Signal) -> list[int]:
    """Cuts on both sides of one block that lies between its neighbours are one edge inside that block."""
    if signal.size == 1:
        return cuts
    kept: list[int] = []
    for cut in cuts:
        if kept and cut == kept[-1] + 1 and 1 < cut < len(signal.blocks):
            before, half, after = (float(v) for v in signal.blocks[cut - 2:cut + 1])
            if min(before, after) < half < max(before, after):
                continue
        kept.append(cut)
    return kept


def _hinged(pieces: list[Piece], signal: Signal) -> list[Piece]:
    """Borders without a jump moved to where the two straight lines meet."""
    for last, piece in itertools.pairwise(pieces):
        gap = last.last - piece.first
        if abs(gap) >= 0.15 * signal.unit or last.rise == piece.rise == 0.0:
            continue
        turn = piece.rise / (piece.end - piece.start) - last.rise / (last.end - last.start)
        if turn == 0.0:
            continue
        reach = 0.3 * min(last.end - last.start, piece.end - piece.start)
        border = last.end + round(max(-reach, min(reach, gap / turn)))
        last.end = piece.start = border
    return pieces


def make_piece(signal: Signal, start: int, end: int) -> Piece:
    """The piece of samples ``start`` to ``end`` with its levels."""
    values = signal.means(start, end)
    level = float(np.median(values))
    count = len(values)
    if count < 4:
        return Piece(start, end, level, level, level)
    place = np.arange(count) - 0.5 * (count - 1)
    mean = float(values.mean())
    slope = float((place * (values - mean)).sum()) * 12.0 / (count * (count * count - 1.0))
    half = 0.5 * (count - 1) * slope
    if 2.0 * abs(half) < max(0.1 * signal.unit, 3.0 * signal.block_noise / np.sqrt(count)):
        return Piece(start, end, level, level, level)
    return Piece(start, end, level, mean - half, mean + half)


def _place(signal: Signal, left: int, cut: int, right: int) -> int:
    """The sample at which the level left of ``cut`` is first departed from."""
    size, volts = signal.size, signal.volts
    reach = 2 * size
    low, high = max(left + 1, cut - reach), min(right, cut + reach)
    if high - low < 1:
        return cut
    if size == 1:
        before, after = volts[max(left, cut - 6):cut], volts[cut:min(right, cut + 6)]
    else:
        before = volts[max(left, low - 6 * size):low]
        after = volts[min(right - 1, cut + size):min(right, cut + 7 * size)]
    a, c = float(np.median(before)), float(np.median(after))
    if abs(c - a) < max(0.06 * signal.unit, 1e-9):
        return cut
    place = cut
    if size > 1:
        window = volts[low:high]
        # Samples up to a split belong to a, those behind it to c: the split with the least squared error.
        gain = np.cumsum((window - a) ** 2 - (window - c) ** 2)
        place = low + int(np.argmin(np.concatenate(([0.0], gain))))
    limit = max(4.0 * signal.noise, 0.15 * abs(c - a))
    sign = 1.0 if c > a else -1.0
    floor = max(left + 1, place - max(reach, 3))
    while place > floor and sign * (volts[place - 1] - a) > limit:
        place -= 1
    return place


def drop_strays(pieces: list[Piece], signal: Signal) -> list[Piece]:
    """The pieces without readings that stand alone: up, or down too briefly to be a crank, and back to the level."""
    kept: list[Piece] = []
    index = 0
    # Readings that stray upwards say that those downwards are the logger's too.
    both_ways = any(b.level - max(a.last, c.first) >= 0.8 * signal.unit and b.end - b.start <= 2
                    for a, b, c in zip(pieces, pieces[1:], pieces[2:], strict=False))
    while index < len(pieces):
        piece = pieces[index]
        last, after = (kept[-1] if kept else None), (pieces[index + 1] if index + 1 < len(pieces) else None)
        if last is not None and after is not None and _is_stray(last, piece, after, signal, both_ways):
            kept[-1] = make_piece(signal, last.start, after.end)
            index += 2
            continue
        kept.append(piece)
        index += 1
    return kept


def _is_stray(last: Piece, piece: Piece, after: Piece, signal: Signal, both_ways: bool) -> bool:
    """Whether ``piece`` is a stray between two pieces of one level."""
    count = piece.end - piece.start
    if count > 2 or abs(last.last - after.first) > max(0.2 * signal.unit, 3.0 * signal.block_noise):
        return False
    if min(last.end - last.start, after.end - after.start) < 3:
        return False
    slow = signal.span(piece.start, piece.end) >= 0.3
    dip = last.last - piece.level
    return both_ways or not (slow and dip >= 0.8 * signal.unit and piece.level >= 3.0 * signal.unit)
