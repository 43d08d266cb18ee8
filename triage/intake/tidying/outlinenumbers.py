"""Outlines whose lines bear their place, "2.1.3 P0562" below "2.1 Brakes" below "2 Body bus", or "(i)" below "a)" below
"1.": the lines without it, each as far in as its level. Behind such a place a maker's own number is a code, and an
answer is one.

>>> from triage.intake.plain.characters import lines
>>> text = "1 Bus A\\n1.1 ABS\\n1.1.1 C0035 low\\n1.2 Radio\\n1.2.1 0 codes\\n12.1 V at rest"
>>> [line.text for line in unnumbered(lines(text))]
['Bus A', '  ABS', '    C0035 low', '  Radio', '    0 codes', '12.1 V at rest']
>>> [line.text for line in unnumbered(lines("1. Bus A\\n a) ABS\\n  (i) C0035\\n  (ii) 04907 low\\n b) Radio: ok"))]
['Bus A', '  ABS', '    C0035', '    04907 low', '  Radio: ok']
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily

#: A place of several numbers or of one, of a letter, or of a Roman number; units of amounts are none.
_PLACE = lazily(
    r"\s*(?:([0-9]{1,3}(?:\.[0-9]{1,3}){0,4})[.)]?|[(]?([a-z])[)]|[(]?([ivx]{1,5})[.)])\s+(?=[^\s\-/.:=])"
    r"(?!(?:v|volts?|km|mi|miles|bar|ohms?|amps?|a|min|h)(?![a-z]))"
)
_ROMAN = ("i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x", "xi", "xii", "xiii", "xiv", "xv", "xvi")
_FEWEST, _SHARE = 2, 0.8
Place = tuple[int, ...]


def unnumbered(found: Sequence[Line]) -> Sequence[Line]:
    """The lines without their places in such an outline. Linear."""
    told = {at: match for at, line in enumerate(found) if line.text.strip() and (match := _PLACE.match(line.low))}
    dotted = sum("." in (match[1] or "") for match in told.values())
    lettered = sum(match[1] is None for match in told.values())
    if max(dotted, lettered) < _FEWEST:
        return found
    ends: dict[int, tuple[int, int]] = {}
    path: Place = ()
    deep = missed = 0
    places = list(told)
    for step, (at, match) in enumerate(told.items()):
        place = _place(match, path)
        if place is None and match[1] is not None and "." not in match[1] and step + 1 < len(places):
            # A list may begin, or go on, with any number that others stand below.
            below = told[places[step + 1]]
            place = (int(match[1]),) if _is_first_below(below, match[1]) else None
        if place is None:
            missed += match[1] is None or "." in match[1]
            continue
        path = place
        deep += len(place) > 1
        ends[at] = match.end(), len(place) - 1
    if deep < _FEWEST or deep < _SHARE * (deep + missed):
        return found
    kept = list(found)
    for at, (end, level) in ends.items():
        kept[at] = reworded(found[at], 0, end, "  " * level)
    return kept


def _place(match: re.Match[str], path: Place) -> Place | None:
    """The place that a line bears, where it follows the one above; None for a number that has another sense."""
    number, letter, roman = match.groups()
    if number is not None:
        place = tuple(map(int, number.split(".")))
        return place if place == (1,) or _follows(place, path) else None
    ways = [(2, _ROMAN.index(each) + 1) for each in (roman, letter) if each in _ROMAN]
    ways += [(1, ord(letter) - ord("a") + 1)] if letter is not None else []
    for level, value in ways:
        place = (*path[:level], value)
        if len(path) >= level and _follows(place, path):
            return place
    return None


def _is_first_below(match: re.Match[str], number: str) -> bool:
    """Whether a line bears the first place below a number."""
    return match[1] == f"{number}.1" or match[2] == "a" or match[3] == "i" or match[2] == "i"


def _follows(place: Place, path: Place) -> bool:
    """Whether a place is the first below the one above, or the next of its own level."""
    if len(place) > len(path):
        return place == (*path, 1)
    return place[:-1] == path[: len(place) - 1] and place[-1] == path[len(place) - 1] + 1


__all__ = ["unnumbered"]
