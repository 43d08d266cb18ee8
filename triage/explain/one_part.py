"""Circuits of several modules that run through one part: the spiral cable under the steering wheel.

The igniters of the driver's airbag, the horn, the switches on the wheel and its heating leave the wheel through one
spiral cable (common practice): when several of them fail together, that cable comes before each of them, whatever
module reports them. The angle sensor of the steering stands beside the cable, not behind it.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

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
PART = "the spiral cable of the steering wheel"


def through_wheel(title: str) -> bool:
    """Whether a code is about a circuit that runs through the spiral cable, by its title or printed text.

    >>> [through_wheel(title) for title in ("driver front airbag, stage 1", "horn switch circuit open",
    ...     "steering wheel position sensor", "cruise multi-function input A circuit", "horn switch stuck")]
    [True, True, False, True, False]
    """
    return _IN_THE_WHEEL.search(title) is not None and _BY_ITSELF.search(title) is None


def one_part(titles: Sequence[str]) -> str | None:
    """The part that all circuits with these titles run through; None where there is none, or one circuit alone."""
    return PART if len(titles) >= LEAST and all(through_wheel(title) for title in titles) else None


__all__ = ["LEAST", "PART", "one_part", "through_wheel"]
