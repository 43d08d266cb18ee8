"""A sentence that says the status of all codes of a scan before the first of them: "All of these are passive, none is
active. The ABS has U0100 ...". It heads the codes behind it as a line "Passive codes:" does, and stands in a row of
its own. One that stands behind them is written behind each of the codes before it that are told without a status.

>>> from triage.intake.lines.rows import rows_of
>>> [row.text for row in parted(rows_of("Every code below is stored. The ABS has U0100."))]
['Every code below is stored.', 'The ABS has U0100.']
>>> [row.text for row in parted(rows_of("ABS gave U0100 and C0035. BCM has B1000 pending. All of these are stored."))]
['ABS gave U0100 (stored) and C0035 (stored). BCM has B1000 pending. ']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.lines.recut import is_as_pasted
from triage.intake.lines.row import Row
from triage.intake.plain import signs
from triage.intake.plain.characters import reworded
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import NOT_SHORT
from triage.intake.said import ofall, states
from triage.intake.said.answers import spoken
from triage.intake.said.ofall import ALL

_SIGN = signs.of_words(ALL.__contains__)
_ENDS = lazily(rf"(?:[;!]|:(?=\s)|\.{NOT_SHORT})\s+")
_SENTENCE_ENDS = lazily(rf"[;!?]\s+|\.{NOT_SHORT}(?:\s+|$)")
_MOST = 4


def parted(rows: Sequence[Row]) -> list[Row]:
    """The rows, each in which such a sentence stands before the first code as what is before it, that, and the rest."""
    return [part for row in rows for part in (_parts(_told_behind(row)) if signs.of(row.low) & _SIGN else (row,))]


def _told_behind(row: Row) -> Row:
    """The row, what a sentence says of all codes written behind each one before it whose own sentence tells none."""
    codes = row.finds.codes
    if not codes or row.head or row.roles or not is_as_pasted(row):
        return row
    start, plain = 0, list[int]()
    for end in (*_SENTENCE_ENDS.finditer(row.low), None):
        stop = end.start() if end is not None else len(row.low)
        inside = [code.end for code in codes if start <= code.start < stop]
        if inside and not states.in_text(row.low[start:stop]):
            plain += inside
        said = ofall.told(row.low[start:stop].strip(), True) if not inside and start > codes[0].end else None
        if said is not None and plain:
            after = end.end() if end is not None else len(row.low)
            line = reworded(row.line, row.start + start, row.start + after, "")
            for at in reversed(plain):
                line = reworded(line, row.start + at, row.start + at, f" ({said.status})")
            return Row(line, line.text[row.start : len(line.text) - len(row.line.text) + row.start + len(row.text)],
                       row.start, entry=row.entry)
        start = end.end() if end is not None else stop
    return row


def _parts(row: Row) -> Sequence[Row]:
    stop = row.finds.codes[0].start if row.finds.codes else len(row.low)
    start = 0
    for count, end in enumerate(_ENDS.finditer(row.low, 0, stop)):
        if count == _MOST:
            break
        if ofall.told(row.low[start : end.start()], True) is not None and not spoken(row.low[:start]):
            lead = [row.part(0, start)] if start else []
            return [*lead, row.part(start, end.end()), row.part(end.end())]
        start = end.end()
    return _last_apart(row)


def _last_apart(row: Row) -> Sequence[Row]:
    """A row whose last sentence, behind its codes, says the status of all: that in a row of its own."""
    if not row.finds.codes:
        return (row,)
    ends = [end.end() for end in _ENDS.finditer(row.low, row.finds.codes[-1].end)]
    if not ends or ofall.told(row.low[ends[-1] :], True) is None:
        return (row,)
    return [row.part(0, ends[-1]), row.part(ends[-1])]


__all__ = ["parted"]
