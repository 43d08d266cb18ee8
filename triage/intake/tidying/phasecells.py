"""A column without a head that says which scan each row is of: "ABS | C0035 | stored | before clear".

What it says becomes a row of its own where it changes, in front of the modules; scans may take turns so.

>>> from triage.intake.lines.rows import rows_of
>>> text = "ABS | C0035 | before clear\\nTCM | ok | before clear\\nABS | ok | after run\\nTCM | ok | after run"
>>> [(row.text, row.turns) for row in parted(rows_of(text))][:3]
[('before clear', True), ('ABS | C0035', False), ('TCM | ok', False)]
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from triage.intake.lines.recut import is_as_pasted
from triage.intake.lines.row import Row
from triage.intake.naming.heads import is_head
from triage.intake.plain import signs
from triage.intake.said import phases
from triage.intake.words.phase_ways import PHASE_WORDS

_MARKS = ("|", ";", "\t")
_FEWEST_ROWS, _FEWEST_CELLS, _LONGEST = 4, 3, 40


def parted(rows: Sequence[Row]) -> list[Row]:
    """The rows, those of such tables without that column. Linear."""
    found: list[Row] = []
    if not any(signs.of(row.low) & PHASE_WORDS for row in rows):
        return list(rows)
    headed: set[tuple[str, int]] = set()
    for mark, group in groupby(rows, key=_mark):
        table = list(group)
        headed |= {(mark, row.text.count(mark)) for row in table if mark and is_head(_cells(row, mark))}
        # A remark may stand between the head of a table and its rows.
        is_headed = (mark, table[0].text.count(mark) if mark else 0) in headed
        place = _column(table, mark) if mark and not is_headed and len(table) >= _FEWEST_ROWS else None
        found += table if place is None else _told(table, mark, place)
    return found


def _mark(row: Row) -> str:
    """The mark between the cells of a row; "" for a row that is no part of a table."""
    mark = next((mark for mark in _MARKS if mark in row.text), "")
    return mark if mark and row.text.count(mark) + 1 >= _FEWEST_CELLS and is_as_pasted(row) else ""


def _cells(row: Row, mark: str) -> list[str]:
    """The cells of a row in small letters."""
    return [cell.strip() for cell in row.low.split(mark)]


def _column(table: Sequence[Row], mark: str) -> int | None:
    """The first or the last column, where it names the scans; None where neither does."""
    cells = [_cells(row, mark) for row in table]
    # Of a row that ends with empty cells the last one is gone.
    for place in (-1, 0) if len({len(row) for row in cells}) == 1 else (0,):
        held = [row[place] for row in cells]
        unsaid = sum(len(low) > _LONGEST or phases.find(low) is None for low in held)
        if len(set(held)) > 1 and 10 * unsaid <= len(held):
            return place
    return None


def _told(table: Sequence[Row], mark: str, place: int) -> list[Row]:
    """The rows of a table without the column of scans, with what it says above the rows where it changes."""
    found: list[Row] = []
    said = ""
    for row in table:
        cut = row.text.rfind(mark) if place else row.text.find(mark)
        scan, rest = (row.part(cut + 1), row.part(0, cut)) if place else (row.part(0, cut), row.part(cut + 1))
        scan, rest = (_stripped(part) for part in (scan, rest))
        if scan.low != said and phases.find(scan.low) is not None:
            said, scan.turns = scan.low, True
            found.append(scan)
        found.append(rest)
    return found


def _stripped(row: Row) -> Row:
    """The row without blanks before it."""
    return row.part(len(row.text) - len(row.text.lstrip())) if row.text[:1].isspace() else row


__all__ = ["parted"]
