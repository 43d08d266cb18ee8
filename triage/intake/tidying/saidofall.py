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
#: A colon ends one where no code follows.
_SENTENCE_ENDS = lazily(rf"(?:[;!?]|:(?=\s.{{3,120}}$)(?!.*[0-9]{{3}}))\s+|\.{NOT_SHORT}(?:\s+|$)")
#: The same in a line whose parts strokes part, none of which is a status alone.
_STROKE, _STROKE_ENDS = " / ", lazily(rf"(?:[;!?]|:(?=\s.{{3,120}}$)(?!.*[0-9]{{3}})|\s/)\s+|\.{NOT_SHORT}(?:\s+|$)")
_MOST = 4


def parted(rows: Sequence[Row]) -> list[Row]:
    """The rows, each in which such a sentence stands before the first code as what is before it, that, and the rest."""
    return [part for row in rows
            for part in ([part for each in _told_behind(row) for part in _parts(each)]
                         if signs.of(row.low) & _SIGN else (row,))]


def _told_behind(row: Row) -> Sequence[Row]:
    """The row, what a sentence says of all codes written behind each one before it whose own sentence tells none; such
    a sentence at the end in a row of its own, where there is no such code, none can be written to, or it is a note."""
    codes = row.finds.codes
    start, plain = 0, list[int]()
    stroked = _STROKE in row.low and not any(
        states.of_cell(part) and ofall.told(part.strip(), True) is None for part in row.low.split(_STROKE))
    ends = _STROKE_ENDS if stroked else _SENTENCE_ENDS
    for end in (*ends.finditer(row.low), None) if codes else ():
        stop, after = (end.start(), end.end()) if end is not None else (len(row.low), len(row.low))
        inside = [code.end for code in codes if start <= code.start < stop]
        if inside and not states.in_text(row.low[start:stop]):
            plain += inside
        said = ofall.told(row.low[start:stop].strip(), True) if not inside and start > codes[0].end else None
        is_note = row.low[:start].rstrip()[-1:] == ":"
        if said is not None and plain and not (is_note or row.head or row.roles) and is_as_pasted(row):
            line = reworded(row.line, row.start + start, row.start + after, "")
            for at in reversed(plain):
                line = reworded(line, row.start + at, row.start + at, f" ({said.status})")
            return [Row(line, line.text[row.start : len(line.text) - len(row.line.text) + row.start + len(row.text)],
                        row.start, entry=row.entry)]
        if said is not None and after == len(row.low):
            return [row.part(0, start), row.part(start)]
        start = after
    return (row,)


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
    return (row,)


__all__ = ["parted"]
