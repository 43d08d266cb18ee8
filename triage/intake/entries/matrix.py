"""Tables with a module in every column and a code in every row; in the cells stands the status, or nothing.

>>> from triage.intake.lines.layouts import split_rows
>>> from triage.intake.lines.rows import rows_of
>>> found = rows_of("DTC    ECM     ABS\\nP0562  stored  -\\nU0100          current")
>>> split_rows(found)
>>> sorted(columns(found, lambda name: name in ("ECM", "ABS")))
[1, 2]
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from triage.intake.codes.pieces import Details
from triage.intake.entries.coderow import add
from triage.intake.lines.row import Cell, Row
from triage.intake.lines.stretches import MOST_BLANKS
from triage.intake.naming.heads import role_of
from triage.intake.naming.names import tidy
from triage.intake.said import states
from triage.intake.scan.context import Context

_MARKS = frozenset({"x", "yes", "ja", "oui", "si", "1", "\u2713", "\u2022"})
_NOTHING = frozenset({"", "-", "--", "0", "no", "nein", "non", "o", "n/a", "."})


class Column(NamedTuple):
    """A module's column: the row of its name and the cell."""

    head: Row
    cell: Cell


def columns(rows: Sequence[Row], is_name: Callable[[str], bool]) -> dict[int, list[Column]]:
    """By the place of a row with a code: the columns of the head it stands under."""
    found: dict[int, list[Column]] = {}
    head: list[Column] = []
    blanks = 0
    for at, row in enumerate(rows):
        if row.blank or row.kind == "rule":
            blanks += row.blank
            continue
        if blanks > MOST_BLANKS or (blanks and head and not _is_like(row, head)) or row.cells is None:
            head = []
        blanks = 0
        if row.cells is None:
            continue
        if not row.finds.codes:
            head = _head(row, is_name)
        elif head and row.finds.codes[0].start <= row.cells[0].end and _fits(row, head):
            found[at] = head
        else:
            head = []
    return found


def _is_like(row: Row, head: Sequence[Column]) -> bool:
    """Whether a row behind a blank line has the mark of the table above it, and no more columns."""
    above = head[0].head
    return row.kind == above.kind and (row.kind == "gap" or len(row.cells or ()) <= len(above.cells or ()))


def _head(row: Row, is_name: Callable[[str], bool]) -> list[Column]:
    """The columns of a row that holds at least two names of modules and nothing else but a head for the codes."""
    cells = [cell for cell in row.cells or () if cell.text]
    named = [Column(row, cell) for cell in cells if is_name(tidy(cell.text))]
    others = [cell for cell in cells if not is_name(tidy(cell.text))]
    heads = all(role_of(cell.low) in ("code", "description", "other") for cell in others)
    return named if len(named) >= 2 and len(others) <= 2 and heads else []


def _fits(row: Row, head: list[Column]) -> bool:
    """Whether what stands right of the code are statuses, marks and dashes."""
    told = [_told(low) for low, _ in _cells(row, head)]
    return bool(told) and all(said is not None for said in told) and any(told)


def _told(low: str) -> str | None:
    """A status, "set" for a mark, "" for nothing; None for any other text."""
    low = low.strip()
    if low in _NOTHING:
        return ""
    return "set" if low in _MARKS else states.of_cell(low)


def read(context: Context, row: Row, head: list[Column]) -> None:
    """One row: its code in every module whose cell holds a status or a mark."""
    code = row.finds.codes[0]
    for low, column in _cells(row, head):
        told = _told(low)
        if not told:
            continue
        named = column.cell
        start = column.head.start + named.start
        module = context.builder.name_module(tidy(named.text), column.head.line, start, start + len(named.text))
        status = None if told == "set" else states.of_cell(low, context.translated, context.legend)
        add(context, module, row, code, Details(status=status))
    context.under_heading = False
    context.open_code = context.open_row = None


def _cells(row: Row, head: list[Column]) -> list[tuple[str, Column]]:
    """What stands in each column: the same cell between bars, the place below the name between gaps."""
    cells = row.cells or []
    if row.kind != "gap":
        places = [(_index(column), column) for column in head]
        return [(cells[at].low, column) for at, column in places if at < len(cells)]
    starts = [column.head.start + column.cell.start for column in head]
    found = []
    for column, start, stop in zip(head, starts, [*starts[1:], len(row.line.low) + 1], strict=True):
        # A status may start a little left of the name above it.
        found.append((row.line.low[max(start - 1, row.start + row.finds.codes[0].end) : stop - 1], column))
    return found


def _index(column: Column) -> int:
    """The number of a column among the cells of its head."""
    return next(at for at, cell in enumerate(column.head.cells or ()) if cell is column.cell)
