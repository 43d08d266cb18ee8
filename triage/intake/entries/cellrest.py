"""The rest of a description that stands in a column behind a code, perhaps before its status: it goes on at the left
edge of the page, where headings stand.

    U1350-12   Invalid data from     inactive
    instrument
    cluster
"""

from __future__ import annotations

from itertools import pairwise

from triage.intake.lines.goingon import LINKS, last_word
from triage.intake.lines.row import Cell, Row
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.intake.scan.context import Context

#: The columns of a page stand so far apart.
_BETWEEN_COLUMNS = 3
#: In a column of fewer letters nobody sets descriptions.
_NARROWEST = 24
#: "Status 2F".
_BYTE = lazily(r"(?:status\s?)?(?:0x)?[0-9a-f]{2}h?")
#: So many names behind blank lines for one in the place of the rest of a description tell that headings are set apart.
_FEWEST, _TIMES = 2, 3


def goes_on(context: Context, row: Row, at: int, score: float) -> bool:
    """Whether the row at the left edge goes on with the column of the code above: no description ends with the last
    word there, or it had no room for the first word of the row. ``score``: how like a listed name the row is."""
    above = context.open_row
    cells = None if above is None or row.cells else _cells(above)
    if above is None or cells is None:
        return False
    if context.under_heading and row.line.indent <= context.heading_indent < above.line.indent:
        # Codes are set in below their headings, and nothing of a cell stands that far left.
        return False
    told, status = cells
    if row.line.indent < above.line.indent + told.start and _wraps_in_column(context):
        return False
    last, first = context.rows[at - 1], row.text.partition(" ")[0]
    if last is above and (last_word(told.low) in LINKS or first in LINKS):
        return True
    if last is not above and (last.finds.codes or last.cells or last.line.indent != row.line.indent):
        return False
    if status is None and (row.line.indent < above.line.indent or _width(context) < _NARROWEST):
        return False
    room = _width(context) if status is None else status.start - told.start - _BETWEEN_COLUMNS
    if len(f"{told.text if last is above else last.text} {first}") <= room:
        return False
    return score < 90.0 or (row.text[0].islower() and told.text[0].isupper()) or _set_apart(context)


def _cells(row: Row) -> tuple[Cell, Cell | None] | None:
    """The description and the status of a row of two or three columns that a code begins; None for any other row."""
    if row.kind != "gap" or row.roles or not row.cells or len(row.cells) not in (2, 3):
        return None
    code, told = row.cells[:2]
    if not row.finds.codes or row.finds.codes[0].start != code.start or not told.text:
        return None
    if len(row.cells) == 2:
        return (told, None) if len(told.low.split()) > 1 else None
    status = row.cells[2]
    return (told, status) if states.of_cell(status.low) is not None or _BYTE.fullmatch(status.low) else None


def _width(context: Context) -> int:
    """How long the longest description behind a code is in a text without a column of statuses."""
    if context.told_width is None:
        found = [cells[0] for row in context.rows if (cells := _cells(row)) is not None and cells[1] is None]
        context.told_width = max((len(told.text) for told in found), default=0)
    return context.told_width


def _wraps_in_column(context: Context) -> bool:
    """Whether the rest of a description stands below it in this text: then nothing at the left edge is such a rest."""
    if context.wraps_in_column is None:
        context.wraps_in_column = any(
            not (below.blank or below.finds.codes) and (cells := _cells(row)) is not None
            and 0 < below.line.indent == row.line.indent + cells[0].start
            for row, below in pairwise(context.rows))
    return context.wraps_in_column


def _set_apart(context: Context) -> bool:
    """Whether the headings of this text stand behind blank lines: many more names do than stand between codes."""
    if context.set_apart is None:
        apart = between = 0
        for above, row, below in zip(context.rows, context.rows[1:], context.rows[2:], strict=False):
            if row.blank or row.finds.codes or not below.finds.codes or above.line.number in context.page_marks:
                continue
            apart += above.blank
            small = row.text[0].islower() and above.text[0:1].isupper()
            between += not (above.blank or small or row.text[-1] == ":") and context.names.score(row.text) >= 90.0
        context.set_apart = apart >= max(_FEWEST, _TIMES * between)
    return context.set_apart


__all__ = ["goes_on"]
