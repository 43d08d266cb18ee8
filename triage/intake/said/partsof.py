"""Parts that are called by the module they belong to: "ABS wheel speed sensor", "engine ground strap", "capteur ABS".

The last noun of the words is what is spoken of; a further word for a module makes it one ("sensor control module").

>>> low = "replaced abs wheel speed sensor"
>>> part_at(low, 9, 12)
Part(start=9, end=31, wiring=False)
>>> part_at("hose of the throttle replaced", 12, 20), part_at("abs unit replaced", 0, 3)
(Part(start=0, end=20, wiring=True), None)
"""

from __future__ import annotations

import re
from typing import NamedTuple

from triage.intake.plain.patterns import lazily
from triage.model.parts import CIRCUIT_WORDS, WIRING_WORDS


class Part(NamedTuple):
    """The place of the words for a part, the name of the module among them; ``wiring``: it only leads there."""

    start: int
    end: int
    wiring: bool


_MODULE = r"(?:module|modul|unit|ecu|control|computer|steuergerat|steuergeraet|calculateur|centralita)"
#: Words that no name of a part has in it.
_BREAKS = (rf"(?:and|und|et|y|or|with|for|to|then|also|but|the|its|an?|new|old|is|was|{_MODULE}|replaced|fitted|"
           r"renewed|swapped|changed|installed|ersetzt|erneuert|getauscht|remplacee?|sustituid[oa]|cambiad[oa])")
_BEHIND = tuple(lazily(
    rf"[ -](?:(?!{_BREAKS} )[a-z-]+ ){{0,3}}?(?P<part>{kind})(?![a-z])(?!(?: [a-z]+)? {_MODULE}(?![a-z]))")
    for kind in (WIRING_WORDS, CIRCUIT_WORDS))
_BEFORE = tuple(lazily(
    # "fuse 14 (ABS, 10 A)"
    rf"(?<![a-z]){kind}(?:(?: (?:no\.?|nr\.?))? ?[a-z]?[0-9]{{1,3}}[a-z]?)? ?\($|"
    rf"(?<![a-z]){kind}(?: (?:(?:a|de) |d')[a-z]+)? "
    r"(?:(?:of|for|at|to|on|in|from|near|behind|von|vom|zum|zur|fur|am|an|im|de|du|del|"
    r"(?:between|zwischen|entre)(?: \w+){0,5}?(?: (?:and|und|et|y))?) (?:(?:the|der|die|das|den|dem|la|le|el) |l')?|"
    r"d'|de l')?$")
    for kind in (WIRING_WORDS, CIRCUIT_WORDS))
#: A part with the words that tell which, and no module among them: "new fuse 14", "right front wheel speed sensor".
_ALONE = lazily(
    rf"(?<![a-z0-9-])(?:(?!{_BREAKS} )[a-z]+[ -]){{0,4}}?(?:{WIRING_WORDS}|(?P<circuit>{CIRCUIT_WORDS}))"
    rf"(?:(?: (?:no\.?|nr\.?))? ?[a-z]?[0-9]{{1,3}}[a-z]?)?(?![a-z0-9])(?!(?: [a-z]+)? {_MODULE}(?![a-z]))")
#: Names that modules go by and that are parts when they are put in.
_ONLY_PARTS = lazily(r"(?:[a-z]+ ){0,2}?(?:clock ?springs?|wickelfeder|(?:steering )?racks?)")


def part_at(low: str, start: int, end: int) -> Part | None:
    """The part that a name at a place of a line in small letters only tells the owner of; None for the module."""
    if _ONLY_PARTS.fullmatch(low, start, end):
        return Part(start, end, wiring=False)
    found: list[tuple[re.Match[str], bool]] = []
    for at, pattern in enumerate(_BEHIND):
        match = pattern.match(low, end)
        if match is not None:
            found.append((match, at == 0))
    if found:
        match, wiring = min(found, key=lambda one: one[0].end())
        return Part(start, match.end(), wiring)
    for at, pattern in enumerate(_BEFORE):
        match = pattern.search(low, max(0, start - 60), start)
        if match is not None:
            return Part(match.start(), end, wiring=at == 0)
    return None


def alone(low: str, first: int, last: int) -> Part | None:
    """The first part that a clause of a line in small letters names by itself, with no module's name.

    >>> low = "fitted new fuse 14, replaced the front wheel speed sensor"
    >>> alone(low, 0, 18), alone(low, 19, len(low)), alone("new fuse box module fitted", 0, 26)
    (Part(start=11, end=18, wiring=True), Part(start=33, end=57, wiring=False), None)
    """
    match = _ALONE.search(low, first, last)
    return Part(*match.span(), match["circuit"] is None) if match is not None else None


__all__ = ["Part", "alone", "part_at"]
