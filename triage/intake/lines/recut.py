"""A row without a part of its text, each character still tied to its place as pasted."""

from __future__ import annotations

from dataclasses import replace

from triage.intake.lines.row import Row
from triage.intake.lines.spacing import with_places

_CLOSING = {"[": "]", "(": ")"}


def is_as_pasted(row: Row) -> bool:
    """Whether the text of a row stands so in its line; what was written out or put together can't be cut."""
    return row.line.text[row.start : row.start + len(row.text)] == row.text


def without(row: Row, *parts: tuple[int, int]) -> Row:
    """The row without parts of its text; what was taken off it before is kept.

    >>> from triage.intake.lines.rows import rows_of
    >>> row = without(rows_of("  ABS (11.4 V): C0035")[0], (3, 12))
    >>> row.text, row.line.text, row.line.span(2, 5), row.line.span(7, 12)
    ('ABS: C0035', '  ABS: C0035', (2, 5), (16, 21))
    """
    gone = {row.start + at for start, end in parts for at in range(start, end)}
    line = with_places(row.line, [at for at in range(len(row.line.text)) if at not in gone])
    text = line.text[row.start : row.start + len(row.text) - len(gone)].rstrip()
    return replace(row, line=line, text=text, low="", shape=None)


def behind_number(row: Row, end: int) -> Row:
    """A row from the name on that stands behind a number, without the bracket round both.

    >>> from triage.intake.lines.rows import rows_of
    >>> [behind_number(row, 5).text for row in rows_of("[ 01 Engine ]\\n[01] Engine [ECM]")]
    ['Engine', 'Engine [ECM]']
    """
    closing = _CLOSING.get(row.text[:1], "")
    both = closing and closing not in row.text[:end] and row.text.endswith(closing) and (
        row.text[0] not in row.text[end:])
    return Row(row.line, row.text[end:-1].rstrip() if both else row.text[end:], row.start + end)


__all__ = ["behind_number", "is_as_pasted", "without"]
