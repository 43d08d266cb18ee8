"""Statuses cut short with a full stop ("pend.", "interm."): it ends no sentence where that goes on.

>>> from triage.intake.lines.rows import rows_of
>>> told(rows_of("U0100 pend. in the ABS, U0140 interm., U0131 pend. In the radio"))[0].low
'u0100 pend  in the abs, u0140 interm , u0131 pend. in the radio'
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from copy import copy

from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.words.saying_words import VERBS

#: Small letters behind the stop, or a comma: the sentence goes on.
_SHORT = lazily(
    r"(?<![A-Za-z])(?:pend|perm|perman|hist|curr?|conf|cnf|stor|interm?|intermitt|act|inact|pres|mem|prev|spor|sporad|"
    r"occ|gesp|akt|vorh|best|bestat|enreg|alm)(\.)"
    r"(?=\s?[,;)]|\s+(?:in|im|from|out of|and|und|et|y|dans|en|aus|von|vom)\s)",
    re.IGNORECASE,
)
#: The same between a verb of saying and the code that it leads to: "BCM gives conf. U0073".
_LEADING = lazily(
    r"(?<![a-z])([a-z]+)(?: (?:up|with|a|an|one|only|also)){0,3} (?:pend|perm|hist|curr?|conf|cnf|interm?|act|inact|"
    r"mem|gesp|akt|best|enreg|alm)(\.)(?=\s+(?:[pcbu] ?[0-3o][0-9a-fo]|spn))"
)
_VERBS = VERBS | word_set("has have had shows show showing with hat haben zeigt meldet affiche montre tiene tienen in")
_MARKS = (". ", ".,", ".;", ".)")
_NEXT_WORD = lazily(r"\s+[A-Z]")


def told(rows: Sequence[Row]) -> list[Row]:
    """The rows; in the small letters of those with such a status no stop stands behind it."""
    return [_without(row) if row.finds.codes and "." in row.text and _may_hold(row.text) else row for row in rows]


def _may_hold(text: str) -> bool:
    """Whether a stop stands behind a word; asked of lines that hold one."""
    return any(mark in text for mark in _MARKS)


def _without(row: Row) -> Row:
    """The row without those stops in its small letters."""
    places = [match.start(1) for match in _SHORT.finditer(row.text) if not _NEXT_WORD.match(row.text, match.end())]
    places += [match.start(2) for match in _LEADING.finditer(row.low) if match[1] in _VERBS]
    if not places:
        return row
    found = copy(row)
    found.line = copy(row.line)
    found.line.low = _blanked(row.line.low, [row.start + place for place in places])
    found.low = _blanked(row.low, places)
    return found


def _blanked(low: str, places: Sequence[int]) -> str:
    """The text with spaces at those places."""
    letters = list(low)
    for place in places:
        letters[place] = " "
    return "".join(letters)


__all__ = ["told"]
