"""Sentences about things without a memory for faults, among others: "Stood five weeks. Alternator belt ok." What was
found of the belt is no answer of the alternator.

>>> from triage.intake.lines.rows import rows_of
>>> [row.low for row in told(rows_of("Alternator belt ok. Radio clean\\nRadio: fuse F12 looks fine"))]
['                    radio clean', 'radio: fuse f12 looks fine']
"""

from __future__ import annotations

from collections.abc import Sequence
from copy import copy

from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered
from triage.intake.said import otherthings
from triage.intake.said.answers import spoken

_END = lazily(r"[.!;](?=\s|$)")


def told(rows: Sequence[Row]) -> list[Row]:
    """The rows; in the small letters of those with such sentences blanks stand for them. Linear."""
    return [_without(row) if ". " in row.text or "; " in row.text else row for row in rows]


def _without(row: Row) -> Row:
    """The row without such sentences in its small letters."""
    spans = _spans(row.low)
    if not spans or row.cells:
        return row
    found = copy(row)
    found.line = copy(row.line)
    for start, end in spans:
        found.low = _blanked(found.low, start, end)
        found.line.low = _blanked(found.line.low, row.start + start, row.start + end)
    return found


@remembered
def _spans(low: str) -> tuple[tuple[int, int], ...]:
    """The places of such sentences in a text of several."""
    found = []
    start = 0
    for end in [*(match.end() for match in _END.finditer(low)), len(low)]:
        sentence = low[start:end].strip(" .!;")
        if 4 < len(sentence) <= 70 and otherthings.alone(sentence) and spoken(sentence):
            found.append((start + len(low[start:end]) - len(low[start:end].lstrip()), end))
        start = end
    return tuple(found)


def _blanked(low: str, start: int, end: int) -> str:
    """The text with blanks in a place of it."""
    return low[:start] + " " * (end - start) + low[end:]


__all__ = ["told"]
