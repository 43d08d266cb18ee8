"""A sentence that says the status of all codes of a scan before the first of them, or behind the last: "All of these
are passive, none is active. The ABS has U0100 ...". It heads the codes behind it as a line "Passive codes:" does, and
stands in a row of its own.

>>> from triage.intake.lines.rows import rows_of
>>> [row.text for row in parted(rows_of("Every code below is stored. The ABS has U0100."))]
['Every code below is stored.', 'The ABS has U0100.']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.lines.row import Row
from triage.intake.plain import signs
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import NOT_SHORT
from triage.intake.said.answers import spoken
from triage.intake.said.ofall import ALL, told

_SIGN = signs.of_words(ALL.__contains__)
_ENDS = lazily(rf"(?:[;!]|:(?=\s)|\.{NOT_SHORT})\s+")
_MOST = 4


def parted(rows: Sequence[Row]) -> list[Row]:
    """The rows, each in which such a sentence stands before the first code as what is before it, that, and the rest."""
    return [part for row in rows for part in (_parts(row) if signs.of(row.low) & _SIGN else (row,))]


def _parts(row: Row) -> Sequence[Row]:
    stop = row.finds.codes[0].start if row.finds.codes else len(row.low)
    start = 0
    for count, end in enumerate(_ENDS.finditer(row.low, 0, stop)):
        if count == _MOST:
            break
        if told(row.low[start : end.start()], True) is not None and not spoken(row.low[:start]):
            lead = [row.part(0, start)] if start else []
            return [*lead, row.part(start, end.end()), row.part(end.end())]
        start = end.end()
    return _last_apart(row)


def _last_apart(row: Row) -> Sequence[Row]:
    """A row whose last sentence, behind its codes, says the status of all: that in a row of its own."""
    if not row.finds.codes:
        return (row,)
    ends = [end.end() for end in _ENDS.finditer(row.low, row.finds.codes[-1].end)]
    if not ends or told(row.low[ends[-1] :], True) is None:
        return (row,)
    return [row.part(0, ends[-1]), row.part(ends[-1])]


__all__ = ["parted"]
