"""Whether the digits that a line explains stand for statuses, or count and number things.

>>> told = [("1", True), ("0", True)]
>>> [may_be_statuses(told, "1: stored; 0: pending", led, NOWHERE) for led in (True, False)]
[True, False]
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.plain.patterns import lazily

_CODE_EDGE = " \t,;|()[]\"'"
_CELLS = lazily(r"[;|\t^\u2502]|\s{2,}|,\s")
_DIGIT_BEHIND = lazily(r"(?:[ -][0-9A-Fa-f]{2})?\s?[(\[]([0-9])[)\]]")


class Places(NamedTuple):
    """The digits in the places of statuses, and whether these are brackets behind codes."""

    digits: frozenset[str]
    enclosed: bool


NOWHERE = Places(frozenset(), False)


def may_be_statuses(told: Sequence[tuple[str, bool]], low: str, led: bool, places: Places) -> bool:
    """Whether the letters of a line, with whether brackets are around each or "=" or ":" behind it, may be statuses if
    digits are among them: all are, behind a word for a legend (``led``) or one after the other, or all that stand in
    the places of statuses; "3 - stored, 2 - pending" counts."""
    letters = [letter for letter, _ in told]
    digits = sum(letter.isdigit() for letter in letters)
    several, marked = len(letters) > 1, all(sign for _, sign in told)
    if several and places.digits and places.digits <= set(letters) and (marked or places.enclosed):
        return True
    # With a sign behind each letter a dash stands within what it means.
    sure = led and (not several or " - " not in low or marked)
    if not digits or (sure and ("=" in low or digits == len(letters))):
        return True
    first = min(letters)
    listed = first in ("0", "1") and "".join(letters) == "".join(map(str, range(int(first), int(first) + len(letters))))
    return listed and (len(letters) > 2 or ("=" in low and several))


def placed(rows: Sequence[Row]) -> Places:
    """The digits that stand in brackets behind codes; where none does, those that fill cells behind the first code of
    rows, if nothing but digits from 0 to 9 fills those of them that hold numbers."""
    found = {match[1] for row in rows for code in row.finds.codes
             if (match := _DIGIT_BEHIND.match(row.text, code.end)) is not None}
    if found:
        return Places(frozenset(found), True)
    cells = [cell for row in rows if row.finds.codes for cell in _behind(row)]
    numbers = {cell for cell in cells if cell.isdigit()}
    return Places(frozenset(numbers), False) if all(len(number) == 1 for number in numbers) else NOWHERE


def _behind(row: Row) -> list[str]:
    """What fills the cells of a row behind its first code."""
    return [cell.strip(_CODE_EDGE) for cell in _CELLS.split(row.low[row.finds.codes[0].end :])[1:]]


def is_a_status(rows: Sequence[Row], told: int, digit: str) -> bool:
    """Whether a digit that a line by itself explains stands in the places of statuses: alone behind a key for them, or
    in a cell of its own in the lines with codes. The line stands above or below all of these."""
    coded = [at for at, row in enumerate(rows) if row.finds.codes]
    if not coded or coded[0] < told < coded[-1]:
        return False
    keyed = (row.low.rpartition(mark) for row in rows for mark in ":=" if row.low.endswith(digit) and mark in row.low)
    if any(value.strip() == digit and role_of(key.strip()) == "status" for key, _, value in keyed):
        return True
    cells = [{cell.strip(_CODE_EDGE) for cell in _CELLS.split(rows[at].low)} for at in coded]
    return told != coded[-1] + 1 and any(digit in each for each in cells)


__all__ = ["NOWHERE", "Places", "is_a_status", "may_be_statuses", "placed"]
