"""Conversions between probability, odds and decibans, and of the few physical units that reach a reader.

A deciban is ten times the base-10 logarithm of an odds ratio (I. J. Good, "Weighing Evidence"), so sums of
decibans can be checked by hand: +10 is odds of 10 to 1, +12.8 is 95 %, -20 is 1 %.

>>> round(to_decibans(0.95), 1)
12.8
>>> round(to_decibans(0.01), 1)
-20.0
>>> round(to_probability(10.0), 3)
0.909
"""

from __future__ import annotations

import math

#: Probabilities are kept this far from 0 and 1, so that no sum is ever infinite (1e-6 is -60 dB).
FLOOR = 1e-6


def to_odds(probability: float) -> float:
    """Odds for ``probability`` (0..1, held to FLOOR..1-FLOOR)."""
    p = min(max(probability, FLOOR), 1.0 - FLOOR)
    return p / (1.0 - p)


def to_decibans(probability: float) -> float:
    """Decibans for ``probability`` (0..1, held to FLOOR..1-FLOOR)."""
    return 10.0 * math.log10(to_odds(probability))


def to_probability(decibans: float) -> float:
    """Probability for ``decibans``; any finite or infinite value is taken."""
    if decibans >= 0:
        return 1.0 / (1.0 + math.pow(10.0, -decibans / 10.0))
    odds = math.pow(10.0, decibans / 10.0)
    return odds / (1.0 + odds)


def ratio_to_decibans(ratio: float) -> float:
    """Decibans for an odds or likelihood ratio greater than 0."""
    return 10.0 * math.log10(ratio)


def fahrenheit_to_celsius(degrees: float) -> float:
    """Degrees Celsius for degrees Fahrenheit.

    >>> fahrenheit_to_celsius(14.0)
    -10.0
    """
    return (degrees - 32.0) * 5.0 / 9.0


def miles_to_km(miles: float) -> float:
    """Kilometres for miles (1 mile = 1.609344 km, the international mile of 1959)."""
    return miles * 1.609344
