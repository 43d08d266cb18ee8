"""Circuits of several modules that run through one part: the spiral cable under the steering wheel, and the parts of
shared_parts.csv that several modules tell of in numbers of their own (a brake pedal switch).

The igniters of the driver's airbag, the horn, the switches on the wheel and its heating leave the wheel through one
spiral cable (common practice): when several of them fail together, that cable comes before each of them, whatever
module reports them. The angle sensor of the steering stands beside the cable, not behind it.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

from code_tables import load
from code_tables.facts import SharedPart

#: Circuits that turn with the wheel, by a title or a printed text, in four languages.
_IN_THE_WHEEL = re.compile(
    r"(?<![a-z])(?:driver(?:'?s)?(?: side)?(?: front(?:al)?)? (?:air ?bag|squib|stage)|fahrer-?airbag|"
    r"airbag (?:fahrer|conducteur|(?:del )?conductor)|"
    r"horn|hupe|signalhorn|klaxon|avertisseur|bocina|claxon|"
    r"(?:steering[- ]?wheel|wheel) (?:switch|button|control|key|audio|heat|paddle)\w*|"
    r"lenkrad-?(?:taste|schalter|heizung|bedien)\w*|"
    r"(?:commandes?|touches?) (?:au|du) volant|(?:mandos?|botones?) (?:en el|del) volante|"
    r"cruise (?:multi-?function input|input circuit|(?:on|off|resume|set|coast|accelerate) signal)|"
    r"clock ?spring|spiral (?:cable|spring)|wickelfeder|contact tournant|contacto espiral)(?![a-z])", re.IGNORECASE)
#: What a circuit shows by itself: a switch that sticks, a speed that is out of its range, an angle.
_BY_ITSELF = re.compile(r"stuck|klemmt|bloqu|angle|position|winkel|relay|relais", re.IGNORECASE)
#: So many circuits share it before the list tells them as one.
LEAST = 2
#: German writes a name in one word with what it is of: "Bremslichtschalter".
_GERMAN_ENDS = ("schalter", "licht")
PART = "the spiral cable of the steering wheel"


def through_wheel(title: str) -> bool:
    """Whether a code is about a circuit that runs through the spiral cable, by its title or printed text.

    >>> [through_wheel(title) for title in ("driver front airbag, stage 1", "horn switch circuit open",
    ...     "steering wheel position sensor", "cruise multi-function input A circuit", "horn switch stuck")]
    [True, True, False, True, False]
    """
    return _IN_THE_WHEEL.search(title) is not None and _BY_ITSELF.search(title) is None


@lru_cache(maxsize=4096)
def part_named(title: str) -> str | None:
    """The part of shared_parts.csv that a title or printed text names; None where it names none.

    >>> part_named("brake switches A and B disagree"), part_named("parking brake switch circuit")
    ('brake pedal switch with its plug and adjustment', None)
    """
    low = title.lower()
    return next((one.part for one in load().shared_parts if _fits(one.words, low)), None)


@lru_cache(maxsize=4096)
def beside_part(title: str) -> str | None:
    """The part that a title goes with where another code names it."""
    low = title.lower()
    return next((one.part for one in load().shared_parts if one.beside and _fits(one.beside, low)), None)


def shared_part(name: str) -> SharedPart | None:
    """The row of a part; None of the spiral cable."""
    return next((one for one in load().shared_parts if one.part == name), None)


def _fits(pattern: str, low: str) -> bool:
    """Whether a text in small letters fits a pattern: "any|of these + and|of these + -none|of these", each from the
    beginning of a word on."""
    for group in pattern.split(" + "):
        words = "|".join(word if word in _GERMAN_ENDS else rf"(?<![^\W\d_]){re.escape(word)}"
                         for word in group.removeprefix("-").split("|"))
        if (re.search(words, low) is not None) is group.startswith("-"):
            return False
    return True


def one_part(titles: Sequence[str]) -> str | None:
    """The part that all circuits with these titles run through or tell of; None where there is none, or one alone."""
    if len(titles) < LEAST:
        return None
    if all(through_wheel(title) for title in titles):
        return PART
    named = {part_named(title) for title in titles} - {None}
    if len(named) != 1:
        return None
    (part,) = named
    return part if all(part in (part_named(title), beside_part(title)) for title in titles) else None


__all__ = ["LEAST", "PART", "beside_part", "one_part", "part_named", "shared_part", "through_wheel"]
