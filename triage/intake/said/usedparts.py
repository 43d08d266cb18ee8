"""A part out of another vehicle that was put in: "fitted a BCM from a breaker", "gebrauchtes Steuergerät eingebaut".

Such a module may bring another vehicle's codes, identity and crash record, so that it was put in matters even where
nobody says that something was replaced.

>>> import re
>>> [re.search(FITTED, low) is not None for low in (
...     "a body control module from a breaker fitted", "fitted a second-hand bcm", "used codes: none", "bcm fitted")]
[True, True, False, False]
>>> [part_of(low) for low in ("fitted a bcm from a breaker", "new bcm", "bcm rebuilt", "bcm replaced")]
['used', 'new', 'repaired', None]
"""

from __future__ import annotations

import re
from typing import Literal

from triage.intake.plain.patterns import lazily

_YARD = (
    r"(?:breaker(?:'?s(?: yard)?)?|scrap ?yard|scrapped \w+|salvage(?: yard)?|wrecker'?s?|dismantler'?s?|junk ?yard|"
    r"donor (?:car|vehicle|van|truck)|another (?:car|vehicle|van|truck))"
)
_OUT_OF = (
    rf"(?:from (?:a |the |an )?{_YARD}|(?:vom|aus (?:dem |einem )?) ?(?:verwerter|schrott\w*|spenderfahrzeug\w*|"
    r"anderen \w+)|"
    r"de la casse|d'une casse|d'un autre vehicule|(?:de|del) desguace|de otro (?:vehiculo|coche))"
)
_OLD = (
    r"(?:used|second[ -]?hand|pre-?owned|gebraucht(?:e[nmrs]?)?|d'occasion|de segunda mano|usad[oa])"
)
_PUT_IN = (
    r"(?:fitted|installed|put in|eingebaut|verbaut|montiert|(?:monte|pose|installe)e?|montad[oa]|instalad[oa]|"
    r"puest[oa]|monto|instalo|puso)"
)
_WORDS = r"(?:[a-z0-9/-]+ ){0,5}?"
#: That such a part was put in, in small letters without accents; no word of it stands before or behind.
FITTED = (
    rf"(?:{_PUT_IN},? {_WORDS}(?:{_OUT_OF}|{_OLD}(?= [a-z])|d'occasion)|{_OLD} {_WORDS}{_PUT_IN}|"
    rf"{_OUT_OF},? (?:(?:was|were|wurde|a ete|fue) )?{_PUT_IN})"
)
_KINDS: tuple[tuple[Literal["new", "used", "repaired"], re.Pattern[str]], ...] = (
    ("used", lazily(rf"(?<![a-z])(?:{_OLD}|occasion|{_OUT_OF})(?![a-z])")),
    ("new", lazily(r"(?<![a-z])(?:new|neue?[nrs]?|neuf|neuve|nuev[oa])(?![a-z])")),
    ("repaired", lazily(r"(?<![a-z])(?:repaired|rebuilt|refurbished|repariert\w*|reparee?|reparad[oa])(?![a-z])")),
)


_FITTED = lazily(rf"(?<![a-z]){FITTED}(?![a-z])")


def put_in(low: str) -> bool:
    """Whether a part out of another vehicle was put in."""
    return _FITTED.search(low) is not None


def part_of(low: str) -> Literal["new", "used", "repaired"] | None:
    """Whether the part put in was new, used or repaired."""
    return next((kind for kind, pattern in _KINDS if pattern.search(low)), None)


__all__ = ["FITTED", "part_of", "put_in"]
