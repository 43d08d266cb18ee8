"""Rates learned from a shop's own outcomes: a table's rate as Beta counts, updated by what came true.

A rate from the tables with mean m is taken as a Beta distribution with a = m s and b = (1 - m) s, as if it rested
on s outcomes. After h hits and k misses it is Beta(a + h, b + k), with the mean (a + h) / (s + h + k); this is the
conjugate update of a binomial rate found in any text on Bayesian statistics.

>>> update = beta_update(0.9, 20, hits=26, misses=5)
>>> update.shown
'table 0.90, your shop 0.84 from 31'
>>> round(update.mean, 3)
0.863
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import TYPE_CHECKING, NamedTuple

from triage.model.verdict import CAUSES, Cause

if TYPE_CHECKING:
    from triage.store.rows import Outcome

#: A table's rate weighs as much as this many outcomes (project's own choice: a shop that disagrees for a month or
#: two is believed, one bad week is not).
STRENGTH = 20.0


class Counts(NamedTuple):
    """Outcomes that spoke for (``hits``) and against (``misses``) a rate."""

    hits: int
    misses: int

    @property
    def total(self) -> int:
        """All outcomes that spoke of the rate."""
        return self.hits + self.misses


class UpdatedRate(NamedTuple):
    """A rate after the shop's outcomes. ``mean`` is the value to reckon with, ``spread`` its standard deviation."""

    table: float
    strength: float
    counts: Counts
    mean: float
    spread: float

    @property
    def shown(self) -> str:
        """The table's rate beside the shop's own share of hits; never one without the other."""
        if not self.counts.total:
            return f"table {self.table:.2f}, no outcome of your shop yet"
        share = self.counts.hits / self.counts.total
        return f"table {self.table:.2f}, your shop {share:.2f} from {self.counts.total}"

    @property
    def used(self) -> str:
        """What the two come to."""
        return f"{self.mean:.2f} is used"


def beta_update(table: float, strength: float = STRENGTH, hits: int = 0, misses: int = 0) -> UpdatedRate:
    """The rate ``table`` (0..1, worth ``strength`` outcomes) after ``hits`` and ``misses``.

    Raises ValueError for a rate outside 0..1, a strength that is not above 0, or a negative count.
    """
    if not (0.0 <= table <= 1.0 and strength > 0.0 and math.isfinite(strength) and hits >= 0 and misses >= 0):
        raise ValueError(f"no such rate: mean {table}, strength {strength}, hits {hits}, misses {misses}")
    a, b = table * strength + hits, (1.0 - table) * strength + misses
    total = a + b
    spread = math.sqrt(a * b / (total * total * (total + 1.0)))
    return UpdatedRate(table, strength, Counts(hits, misses), a / total, spread)


def prior_keys(kind: str, found_cause: Cause) -> dict[str, bool]:
    """What a found cause says of the priors of a kind of code: for that cause, against the other four.

    All five get the same count and the same strength, so their updated means still add up to 1. Only faults that
    somebody looked into have outcomes, and those are mostly the ones that turned out real: a prior learned from
    them alone is too high. Record the outcome of every fault of a session, or leave the priors as they are.
    """
    return {f"prior.{kind}.{cause}": cause == found_cause for cause in CAUSES}


def forecasts(outcomes: Iterable[Outcome]) -> list[tuple[float, bool]]:
    """Pairs of the probability said and whether the fault was there, one a fault: the outcome recorded last counts.

    Outcomes without a verdict, or that do not tell whether the fault was there, are left out.
    """
    last: dict[tuple[str, str, str, str | None], tuple[float, bool] | None] = {}
    for outcome in outcomes:
        there, said = outcome.was_there, outcome.said
        if there is not None and said is not None:
            last[outcome.session, outcome.module, outcome.code, outcome.failure_type] = (said, there)
    return [pair for pair in last.values() if pair is not None]
