"""Where a voltage changes: the positions at which one straight stretch of a signal ends and the next begins.

Two steps. Moving windows of many widths propose positions at which the mean to the left and to the right differ by
more than noise explains (a moving-sum test; Eichinger and Kirch, "A MOSUM procedure for the estimation of multiple
random change points", 2018). Among the proposals the best set is then found exactly, by dynamic programming over the
penalised squared error with pruning (Killick, Fearnhead and Eckley, "Optimal detection of changepoints with a linear
computational cost", 2012). A stretch is a level, or a slope where that is worth its own penalty.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Indices = NDArray[np.int64]

#: One change costs this many times the noise variance times log(n): the usual information criterion asks for about
#: 3 (level, place), more keeps ripple and drift from being cut up. A slope costs three changes more.
PENALTY, SLOPE_PENALTY = 6.0, 3.0
_ALL_BELOW = 300
_MOST = 20_000


def noise_of(values: Array) -> float:
    """The standard deviation of the noise of a piecewise straight signal (from the median absolute difference)."""
    if len(values) < 3:
        return 0.0
    return float(np.median(np.abs(np.diff(values))) * 1.4826 / math.sqrt(2.0))


def proposals(values: Array, noise: float, least: float) -> Indices:
    """Positions at which ``values``, shape (n,), may change.

    ``noise`` is a standard deviation and ``least`` the smallest change of level that matters, in the unit of values.
    A position p parts values[:p] from values[p:]. All inner positions for a short signal.
    """
    count = len(values)
    if count <= _ALL_BELOW:
        return np.arange(1, count, dtype=np.int64)
    sums = np.concatenate(([0.0], np.cumsum(values - values[0])))
    found: list[Indices] = []
    weights: list[Array] = []
    width = 1
    while width <= min(count // 2, 4096):
        jump = np.abs(sums[2 * width:] - 2.0 * sums[width:-width] + sums[:-2 * width]) / width
        over = np.flatnonzero(jump > max(least, 4.0 * noise * math.sqrt(2.0 / width)))
        if len(over):
            peaks = _peaks(over, jump[over], max(1, width // 2))
            found.append(peaks + width)
            weights.append(jump[peaks] * math.sqrt(width))
        width *= 2
    if not found:
        return np.empty(0, dtype=np.int64)
    places, weight = np.concatenate(found), np.concatenate(weights)
    if len(places) > _MOST:
        places = places[np.argsort(weight)[-_MOST:]]
    return np.unique(places)


def _peaks(places: Indices, heights: Array, width: int) -> Indices:
    """The highest place in each cell of ``width``."""
    order = np.lexsort((heights, places // width))
    cells = places[order] // width
    last = np.flatnonzero(np.append(cells[1:] != cells[:-1], True))
    return np.asarray(places[order[last]], dtype=np.int64)


class Fit:
    """Squared errors of levels and slopes over stretches of one signal, each in constant time."""

    def __init__(self, values: Array) -> None:
        centred = values - (float(np.median(values)) if len(values) else 0.0)
        self._sum = np.concatenate(([0.0], np.cumsum(centred)))
        self._square = np.concatenate(([0.0], np.cumsum(centred * centred)))
        self._moment = np.concatenate(([0.0], np.cumsum(centred * np.arange(len(values)))))

    def cost(self, starts: Indices, end: int, slope_penalty: float) -> Array:
        """The squared error of the stretches from each of ``starts`` to ``end`` (excluded)."""
        length = (end - starts).astype(np.float64)
        total = self._sum[end] - self._sum[starts]
        level = np.maximum(self._square[end] - self._square[starts] - total * total / length, 0.0)
        product = self._moment[end] - self._moment[starts] - 0.5 * (starts + (end - 1)) * total
        spread = length * (length * length - 1.0) / 12.0
        with np.errstate(divide="ignore", invalid="ignore"):
            sloped = np.maximum(level - product * product / spread, 0.0) + slope_penalty
        return np.asarray(np.where(length < 4, level, np.minimum(level, sloped)))


def best_changes(values: Array, places: Indices, noise: float) -> list[int]:
    """The subset of ``places`` that parts ``values`` best, rising; exact for the penalised squared error.

    ``noise``: standard deviation, greater than 0.
    """
    count = len(values)
    if count < 2 or not len(places):
        return []
    penalty = PENALTY * noise * noise * math.log(max(count, 3))
    slope = SLOPE_PENALTY * penalty
    fit = Fit(values)
    ends = np.append(places, count)
    best = np.zeros(len(ends) + 1)
    best[0] = -penalty
    starts_at = np.concatenate(([0], ends)).astype(np.int64)
    before = np.zeros(len(ends) + 1, dtype=np.int64)
    alive = np.zeros(1, dtype=np.int64)
    for step, end in enumerate(ends, start=1):
        costs = best[alive] + fit.cost(starts_at[alive], int(end), slope)
        least = int(np.argmin(costs))
        best[step] = costs[least] + penalty
        before[step] = alive[least]
        # A start stays as long as it could still win; the slope's price is the slack that the rule needs.
        alive = np.append(alive[costs - slope <= best[step]], step)
    changes: list[int] = []
    step = int(before[len(ends)])
    while step > 0:
        changes.append(int(starts_at[step]))
        step = int(before[step])
    return changes[::-1]


def changes_of(values: Array, *, least: float = 0.06, floor: float = 0.02) -> list[int]:
    """The positions at which ``values``, shape (n,), changes level or slope.

    ``least``: smallest change of level that matters; ``floor``: noise is never taken as less (both in the unit of
    ``values``, volts here), so that a perfectly quiet signal isn't cut at the last digit of its logger.
    """
    noise = max(noise_of(values), floor)
    return best_changes(values, proposals(values, noise, least), noise)
