"""Numbered sections and outlines, "3 Units", "3.2 ABS", "3.2.1 C0035", or "(i)" below "a)" below "1.": what stands
under what is told by the places alone. They are taken off, and each line is set in as deep as its place has parts;
lines without one belong to the place above. Behind a place a maker's own number is a code, and an answer is one.

>>> from triage.intake.plain.characters import lines
>>> text = "1. Vehicle\\n1.1 Kiel van\\n2. Units\\n2.1 ABS\\na) C0035\\nlow\\n2.2 Radio: none\\n2.3 Dash\\n2.3.1 04907"
>>> for line in set_in(lines(text)):
...     print(line.text)
Vehicle
  Kiel van
Units
  ABS:
    C0035
      low
  Radio: none
  Dash
    04907
>>> [line.text for line in set_in(lines("1. Bus A\\n a) ABS\\n  (i) C0035\\n  (ii) 04907 low\\n b) Radio: ok"))]
['Bus A', '  ABS:', '    C0035', '    04907 low', '  Radio: ok']
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from triage.intake.codes.found import find
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily

#: "3.2", "3.2.1)", "B.2:", "Section 3.2 -", "2.", "a)", "(ii)"; units of amounts are none.
_PLACE = lazily(
    r"\s*(?:(?:section|abschnitt|punkt|point|punto|§)\s?)?(?:([a-z](?=\.[0-9])|[0-9]{1,3})((?:\.[0-9]{1,3}){0,4})([.):]?)"
    r"|[(]?([a-z])[)]|[(]?([ivx]{1,5})[.)])(?:\s+-+)?\s+(?=[^\s\-/.:=])"
    r"(?!(?:v|volts?|voltios|l|k?m|mi|miles|mm|s|min|h|bar|ohms?|amps?|ah?|mv)(?![a-z0-9]))")
_ROMAN = ("i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x", "xi", "xii", "xiii", "xiv", "xv", "xvi")
_STEP = "  "
#: So many places of several parts tell that a text has them; so far off may the next be, where lines were lost.
_FEWEST, _SHARE = 3, 0.8
_MOST_LOST = {"1": 30, "a": 3, "i": 3}

#: Of each part the kind ("1", "a" or "i") and the number.
Place = tuple[tuple[str, int], ...]


def set_in(found: Sequence[Line]) -> Sequence[Line]:
    """The lines without the places of sections, each as deep as its own. Linear."""
    told = [(at, match) for at, line in enumerate(found) if line.text.strip() and (match := _PLACE.match(line.low))]
    parted = sum(not _is_alone(match) for _, match in told)
    if parted < _FEWEST:
        return found
    run = _run(told)
    deep = sum(len(place) > 1 for place, _ in run.values())
    if deep < _FEWEST or deep < _SHARE * parted:
        return found
    laid: list[Line] = []
    depth = 0
    for at, line in enumerate(found):
        if at in run:
            place, end = run[at]
            depth = len(place)
            laid.append(_at(line, end, depth - 1))
        elif depth and line.text.strip():
            laid.append(_at(line, len(line.text) - len(line.text.lstrip()), depth))
        else:
            laid.append(line)
    return [_heading(line, laid[at + 1 : at + 3]) if found[at] is not line else line for at, line in enumerate(laid)]


def _heading(line: Line, below: Sequence[Line]) -> Line:
    """A line that stands right above one with a code that is set in further, with the colon of a heading."""
    entry = next((other for other in below if other.text.strip()), None)
    text = line.text.rstrip()
    if entry is None or entry.indent <= line.indent or ":" in text or not (text[-1:].isalnum() or text[-1:] == ")"):
        return line
    # Of one part is the title of the sections below it.
    if not line.indent or find(text).codes or not find(entry.text).codes:
        return line
    return reworded(line, len(text) - 1, len(line.text), f"{text[-1]}:")


def _at(line: Line, start: int, depth: int) -> Line:
    """A line from a place on, set in."""
    if not start:
        return reworded(line, 0, 1, _STEP * depth + line.text[0])
    return reworded(line, 0, start, _STEP * depth)


def _is_alone(match: re.Match[str]) -> bool:
    """Whether a place is a number alone, which may count anything."""
    return match[1] is not None and not match[2]


def _run(told: Sequence[tuple[int, re.Match[str]]]) -> dict[int, tuple[Place, int]]:
    """By the places of lines: the places that follow one another, with where they end."""
    run: dict[int, tuple[Place, int]] = {}
    path: Place = ()
    # A list that is counted may stand within a section.
    deep: Place = ()
    # Whether titles bear numbers without a mark: "2 Brakes".
    bare = False
    for step, (at, match) in enumerate(told):
        ways = _ways(match, path)
        place = next((way for way in ways if not path or _follows(path, way) or _follows(deep, way)), None)
        if _is_alone(match):
            # A section has others below it; the title of one without comes next, or begins anew, and tells no code.
            alone = (("1", int(match[1])),)
            ways = _ways(told[step + 1][1], alone) if step + 1 < len(told) else []
            is_title = path and (match[3] or bare) and alone[0][1] in (1, path[0][1] + 1) and (
                not find(match.string).codes)
            place = alone if is_title or any(way[:1] == alone and _follows(alone, way) for way in ways) else None
            bare = bare or (place is not None and not match[3])
        if place:
            run[at] = place, match.end()
            path = place
            deep = place if len(place) > 1 else deep
    return run


def _ways(match: re.Match[str], path: Place) -> list[Place]:
    """The places that one may be below a path; letters and Roman numbers tell their own part alone."""
    number, more, _, letter, roman = match.groups()
    if number is not None:
        first = int(number) if number.isdigit() else ord(number) - ord("a") + 1
        return [(("1", first), *(("1", int(part)) for part in more.split(".")[1:]))]
    own = [("a", ord(letter) - ord("a") + 1)] if letter else []
    own += [("i", _ROMAN.index(each) + 1) for each in (letter, roman) if each in _ROMAN]
    kinds = [kind for kind, _ in path]
    return [(*path[: kinds.index(part[0]) if part[0] in kinds else len(path)], part) for part in own if path]


def _follows(path: Place, place: Place) -> bool:
    """Whether a place may come next: the first below, or the next of its own level or of one above."""
    same = next((at for at, (one, two) in enumerate(zip(path, place, strict=False)) if one != two), None)
    if same is None:
        return len(place) > len(path) and all(part == 1 for _, part in place[len(path) :])
    kind, number = place[same]
    return 0 < number - path[same][1] <= _MOST_LOST[kind] and all(part == 1 for _, part in place[same + 1 :])


__all__ = ["set_in"]
