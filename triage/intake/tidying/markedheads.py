"""Headings of lists between marks, "== Not present ==", "--- No codes ---", "Pending -->", and lines of a status and a
word for codes below a blank line: written with the colon that other headings of lists end with.

>>> from triage.intake.lines.rows import rows_of
>>> text = "== Faults not present ==\\nABS\\n  C0035\\n\\n== No codes ==\\nRadio\\n\\nPending codes\\nECM - P0562"
>>> [row.text for row in told(rows_of(text)) if row.text.endswith(":")]
['Faults not present:', 'No codes:', 'Pending codes:']
>>> [row.text for row in told(rows_of("ABS\\n== no codes ==\\nRadio\\n== no codes =="))]
['ABS', '== no codes ==', 'Radio', '== no codes ==']
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence

from triage.intake.lines.recut import is_as_pasted
from triage.intake.lines.row import Row
from triage.intake.plain.characters import reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said.answers import answer_of_cell, spoken
from triage.intake.said.listheads import heads_several, status_of_head, without_status
from triage.intake.said.near import small

#: Marks on both sides, or an arrow behind.
_MARKED = lazily(r"(?:(?P<mark>[=#*~_-])(?P=mark){0,9}\s*(?P<both>[^=#*~_|\t:;]{2,60}?)\s*(?P=mark){1,10}|"
                 r"(?P<arrow>[^=#*~_|\t:;>-][^=#*~_|\t:;>]{1,60}?)\s*[-=]{1,3}>+)\s*$")
#: So many headings between the same marks make a heading of another line between them.
_LONGEST, _NEAR, _ALIKE = 80, 3, 2


def told(rows: Sequence[Row]) -> list[Row]:
    """The rows, such headings with a colon in place of their marks. Linear."""
    found = list(rows)
    marked = {at: match for at, row in enumerate(rows) if (match := _marked(row)) is not None}
    sure = Counter(_marks(match) for at, match in marked.items() if _heads(rows, at, small(_text(match))))
    for at, row in enumerate(rows):
        if row.blank or len(row.text) > _LONGEST or row.finds.codes or row.cells or not is_as_pasted(row):
            continue
        match = marked.get(at)
        if match is not None:
            # Between the same marks as other headings it is one as well.
            low, alike = small(_text(match)), sure[_marks(match)] >= _ALIKE
            if _heads(rows, at, low) or (alike and _answers_for_names(rows, at, low)):
                found[at] = _written(row, _text(match))
        elif row.text[-1].isalnum() and _opens(rows, at) and heads_several(row.low) and _coded_below(rows, at):
            found[at] = _written(row, row.text)
    return found


def _marked(row: Row) -> re.Match[str] | None:
    """A row between marks, or with an arrow behind it."""
    if row.blank or len(row.text) > _LONGEST or row.finds.codes or row.cells or not is_as_pasted(row):
        return None
    # What was taken for a bullet may be one of the marks.
    return _MARKED.match(row.line.text[: row.start].strip(" \t>|") + row.text)


def _marks(match: re.Match[str]) -> str:
    """The marks before a heading, or those behind it."""
    return match[0].partition(_text(match))[0].strip() or match[0][match.end("arrow") :].strip()


def _text(match: re.Match[str]) -> str:
    """What stands between the marks."""
    return (match["both"] or match["arrow"]).strip()


def _answers_for_names(rows: Sequence[Row], at: int, low: str) -> bool:
    """Whether words between marks are an answer, and a line without codes and without an answer stands below."""
    below = rows[at + 1] if at + 1 < len(rows) else None
    return answer_of_cell(low) is not None and below is not None and not (
        below.blank or below.finds.codes or spoken(below.low))


def _written(row: Row, text: str) -> Row:
    """A row that is a heading with a colon behind it."""
    line = reworded(row.line, row.start, len(row.line.text), f"{text.strip()}:")
    return Row(line, line.text[row.start :], row.start)


def _opens(rows: Sequence[Row], at: int) -> bool:
    """Whether nothing stands right above a row."""
    return at == 0 or rows[at - 1].blank


def _heads(rows: Sequence[Row], at: int, low: str) -> bool:
    """Whether words between marks are a status over codes, or an answer over the names that it is of."""
    if answer_of_cell(low) is not None and not heads_several(low):
        return _opens(rows, at) and _answers_for_names(rows, at, low)
    return (status_of_head(low, True)[0] is not None or without_status(low)) and _coded_below(rows, at)


def _coded_below(rows: Sequence[Row], at: int) -> bool:
    """Whether a code stands in the next lines: below the name of its module, or with it."""
    below = [row for row in rows[at + 1 : at + 1 + _NEAR] if not row.blank]
    return bool(below) and (bool(below[0].finds.codes) or (len(below) > 1 and bool(below[1].finds.codes)
                                                            and not spoken(below[0].low)))


__all__ = ["told"]
