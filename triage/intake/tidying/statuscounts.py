"""The number of codes before a status that leads a list of them, or in brackets behind it: "2 history only: B0010 and
U0100; 1 pending: B0051", "ABS - active (1): C0035".

The codes are counted by themselves; with the number the status looks like the name of a module.

>>> from triage.intake.plain.characters import lines
>>> [line.text for line in left_out(lines("hvac: 2 active now: b1000, b1251; 1 pending: b1241\\nRadio 2 active: P1"))]
['hvac: active: b1000, b1251; pending: b1241', 'Radio 2 active: P1']
>>> [line.text for line in left_out(lines("ABS (2) -> prev. active (1): C0035 // pending (1): U0100\\nECM: P1 (2)"))]
['ABS (2) -> prev. active: C0035 // pending: U0100', 'ECM: P1 (2)']
>>> [line.text for line in left_out(lines("ABS = C0035: fugitif compteur 2, U0100\\nU0155 dans compteur 2"))]
['ABS = C0035: fugitif count 2, U0100', 'U0155 dans compteur 2']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.plain.characters import Line, has_digit, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said import states

#: Behind a mark or a verb; behind a plain name it may be the name's own number.
_COUNT = lazily(
    r"(?:^\s*|[:;,(]\s*|\s-+\s|(?:has|had|got|gave|shows?|showed|with|holds?|hat|zeigt|tiene|a)\s)"
    r"([0-9]{1,2}\s+)([a-z][a-z' -]{3,40}?)\s?:(?=\s)"
)
#: The same in brackets, behind a status that stands behind a mark, or first in its line.
_BEHIND = lazily(
    r"(?:[:;,>|/=\])]\s*|\s-+\s|\s\.{2,3}\s|^\s*|:[0-5][0-9]\s+)([a-z][a-z' .-]{3,40}?)"
    r"(\s?[(\[]\s?[0-9]{1,3}\s?[)\]])\s?:\s?"
    r"(?=[a-z]?[ -]?[0-9]|spn)"
)
#: How often a code was seen, behind its status, in a word that names a module as well: "C0035: fugitif compteur 2, ".
_SEEN = lazily(r"(?<![a-z])([a-z][a-z' .-]{2,40}?)[)\]]?\s(compteur)(?=\s[0-9]{1,3}\s*(?:[,;/|)\]]|$))")
_WORDS = {"current": "active"}


def left_out(found: Sequence[Line]) -> list[Line]:
    """The lines without such numbers, each character still tied to its place. Linear."""
    found = [_one(line) if ":" in line.text and has_digit(line.low) else line for line in found]
    return [_seen(line) if "compteur" in line.low and has_digit(line.low) else line for line in found]


def _seen(line: Line) -> Line:
    """A line with the usual word for the count behind a status; a name is no status."""
    for match in reversed(list(_SEEN.finditer(line.low))):
        if states.of_cell(match[1]) is not None:
            line = reworded(line, *match.span(2), "count")
    return line


def _one(line: Line) -> Line:
    for match in reversed(list(_COUNT.finditer(line.low))):
        status = states.of_cell(match[2])
        if status is not None:
            # Of several words for a status one may be taken for another: "failing right now: P0562".
            line = reworded(line, match.start(1), match.end(2), _WORDS.get(status, status))
    for match in reversed(list(_BEHIND.finditer(line.low))):
        if states.of_cell(match[1]) is not None:
            line = reworded(line, *match.span(2), "")
    return line


__all__ = ["left_out"]
