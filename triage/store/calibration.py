"""What was said against what came true: reliability bins and the Brier score.

The Brier score is the mean of (said - came true)^2 (G. W. Brier, "Verification of forecasts expressed in terms of
probability", Monthly Weather Review 78, 1950, in the halved form for yes or no); 0 is perfect, and saying the
share of all outcomes every time scores that share times one minus it.

>>> brier([(0.9, True), (0.2, False)])
0.025
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

#: Percentages are shown from this many outcomes on, bands before (project's own choice: with 30 outcomes the share
#: of a bin of ten is known to about 15 points).
ENOUGH = 30
BINS = 10
#: Lowest probability of each band and its words; 0.95 and 0.01 are the limits of the standings.
BANDS = (
    (0.95, "almost surely there"), (0.75, "probably there"), (0.25, "open"), (0.01, "probably not there"),
    (0.0, "almost surely not there"),
)


@dataclass(frozen=True, slots=True)
class ReliabilityBin:
    """Forecasts above ``low`` up to and with ``high``: how many, mean said, share that came true."""

    low: float
    high: float
    count: int
    said: float
    came_true: float


@dataclass(frozen=True, slots=True)
class Calibration:
    """How far what was said can be trusted. ``brier`` and ``share`` (that came true) None without outcomes."""

    count: int
    brier: float | None
    share: float | None
    bins: tuple[ReliabilityBin, ...]

    @property
    def enough(self) -> bool:
        """Whether percentages may be shown."""
        return self.count >= ENOUGH

    @property
    def shown(self) -> str:
        """One line for a page."""
        if self.brier is None or self.share is None:
            return f"no outcomes yet: bands are shown until {ENOUGH} are recorded"
        base = self.share * (1.0 - self.share)
        line = (f"{self.count} outcome{'' if self.count == 1 else 's'}, Brier score {self.brier:.3f} "
                f"(0 is perfect; always saying {100 * self.share:.0f} % scores {base:.3f})")
        return line if self.enough else f"{line}; bands are shown until {ENOUGH} are recorded"

    def rows(self) -> list[tuple[str, int, int]]:
        """What was said, of how many faults, and how many of them were there; in bands until there are enough."""
        rows: dict[str, list[int]] = {}
        for part in self.bins:
            row = rows.setdefault(self.show(part.said), [0, 0])
            row[0] += part.count
            row[1] += round(part.came_true * part.count)
        return [(said, count, there) for said, (count, there) in rows.items()]

    def show(self, probability: float) -> str:
        """The probability that a fault persists, as a percentage or, with too few outcomes, as a band."""
        return percentage(probability) if self.enough else band(probability)


def brier(forecasts: Sequence[tuple[float, bool]]) -> float:
    """The Brier score, 0..1, of pairs of probability said and whether it came true. At least one is needed."""
    return math.fsum((said - came) ** 2 for said, came in forecasts) / len(forecasts)


def reliability(forecasts: Iterable[tuple[float, bool]], bins: int = BINS) -> tuple[ReliabilityBin, ...]:
    """The bins of equal width that hold a forecast; a probability on an edge belongs to the bin below it."""
    edges = [at / bins for at in range(bins + 1)]
    sorted_in: list[list[tuple[float, bool]]] = [[] for _ in range(bins)]
    for said, came in forecasts:
        sorted_in[sum(said > edge for edge in edges[1:-1])].append((said, came))
    return tuple(
        ReliabilityBin(low, high, len(inside), math.fsum(said for said, _ in inside) / len(inside),
                       sum(came for _, came in inside) / len(inside))
        for low, high, inside in zip(edges, edges[1:], sorted_in, strict=False) if inside)


def calibration(forecasts: Iterable[tuple[float, bool]], bins: int = BINS) -> Calibration:
    """What pairs of probability said and whether it came true amount to."""
    pairs = list(forecasts)
    if not pairs:
        return Calibration(0, None, None, ())
    share = sum(came for _, came in pairs) / len(pairs)
    return Calibration(len(pairs), brier(pairs), share, reliability(pairs, bins))


def band(probability: float) -> str:
    """Words for a probability (0..1)."""
    return next(words for low, words in BANDS if probability >= low or low == 0.0)


def percentage(probability: float) -> str:
    """A whole percentage that never claims certainty.

    >>> percentage(0.84), percentage(0.9999), percentage(0.001)
    ('84 %', 'over 99 %', 'under 1 %')
    """
    if probability > 0.99:
        return "over 99 %"
    return "under 1 %" if probability < 0.01 else f"{100 * probability:.0f} %"
