"""Limits of the supply as the tables hold them, for the system voltage at hand."""

from __future__ import annotations

import itertools
from functools import lru_cache

from code_tables import Limit, load
from triage.errors import TableError


def system_of(nominal: float) -> int:
    """12 or 24: the system whose limits a vehicle of ``nominal`` volts goes by."""
    return 24 if nominal >= 18.0 else 12


@lru_cache(maxsize=512)
def row(key: str, system: int = 12) -> Limit:
    """The row of ``key`` for a 12 or 24 V system; a 24 V figure no row gives is twice the 12 V one.

    Raises TableError for a key that no row has.
    """
    tables = load()
    try:
        found = tables.limit_row(key, system)
    except TableError:
        if system != 24:
            raise
        half = tables.limit_row(key, 12)
        doubled = half.value * 2.0 if half.unit.startswith("V") else half.value
        return Limit(doubled, half.unit, half.source, f"twice the 12 V figure; {half.note}".rstrip("; "), None, 24)
    return found


def limit(key: str, system: int = 12) -> float:
    """The figure of ``key`` for a 12 or 24 V system, in the unit of its row."""
    return row(key, system).value


@lru_cache(maxsize=64)
def series(key: str) -> tuple[tuple[float, float], ...]:
    """The rising (at, value) pairs of a series, for a 12 V battery."""
    return load().series(key)


def cite(*keys: str, system: int = 12) -> str:
    """Where the figures of ``keys`` come from, each source once."""
    return "; ".join(dict.fromkeys(load().cite(row(key, system).source) for key in keys))


def interpolate(pairs: tuple[tuple[float, float], ...], at: float) -> float:
    """The value of a rising series at ``at``, straight between its points and held beyond its ends."""
    if at <= pairs[0][0]:
        return pairs[0][1]
    for (low, below), (high, above) in itertools.pairwise(pairs):
        if at <= high:
            return below + (above - below) * (at - low) / (high - low)
    return pairs[-1][1]
