"""One column of modules and several columns for each scan ("Module | Code | Status | Code | Status" below "Before" and
"After"): the modules are put before the columns of each scan, so that each is a list of its own.

>>> from triage.intake.lines.layouts import split_rows
>>> from triage.intake.lines.rows import rows_of
>>> found = rows_of("| Before | | After |\\nModule | Code | State | Code | State\\nECM | P0562 | stored | none | ")
>>> split_rows(found)
>>> [[cell.text for cell in row.cells or ()] for row in doubled(found)][2]
['ECM', 'P0562', 'stored', 'ECM', 'none', '']
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from triage.intake.lines.row import Cell, Row
from triage.intake.naming.heads import role_of
from triage.intake.tidying.scancells import names_a_scan, of_the_scan

_MOST_ABOVE = 3
_EMPTY, _HEAD = Cell(0, 0, "", ""), Cell(0, 0, "Module", "module")


def doubled(rows: list[Row]) -> list[Row]:
    """The rows, those of such tables with the module before the columns of each scan; the same list where there are
    none. Linear."""
    found = rows
    for at, row in enumerate(rows):
        group = _group(row) if row.cells and len(row.cells) > 3 and not row.finds.codes else 0
        title = _title(rows, at, row, group) if group else -1
        if title < 0:
            continue
        found = list(found) if found is rows else found
        found[title] = replace(rows[title], cells=[cell for cell in rows[title].cells or () if not _is_module(cell)])
        last = at
        while last < len(rows) and (cells := _cells(rows[last], row)) is not None:
            if cells:
                cells[0] = _HEAD if last == at else cells[0]
                new = replace(rows[last], cells=_with_modules(cells, group), kind="|", roles=None, head=False)
                found[last] = new
            last += 1
    return found


def _is_module(cell: Cell) -> bool:
    return role_of(cell.low) == "module"


def _group(head: Row) -> int:
    """The number of columns that each scan has in a head; 0 for any other row."""
    cells = head.cells or []
    roles = [role_of(cell.low) for cell in cells]
    lead = int(bool(cells) and (not cells[0].text or roles[0] == "module"))
    rest = roles[lead:]
    if (not lead and head.kind != "gap") or "module" in rest or "code" not in rest:
        return 0
    for count in (2, 3, 4):
        size = len(rest) // count
        if size > 1 and len(rest) % count == 0 and rest[:size] * count == rest:
            return size
    return 0


def _title(rows: Sequence[Row], at: int, head: Row, group: int) -> int:
    """The place of the row above a head that names a scan for each group of its columns; -1 for none."""
    lead = len(head.cells or ()) % group
    count = (len(head.cells or ()) - lead) // group
    for above in range(at - 1, max(-1, at - 1 - _MOST_ABOVE), -1):
        row = rows[above]
        if row.kind == "rule" or row.blank:
            continue
        filled = [cell for cell in row.cells or () if cell.text and not _is_module(cell)]
        if len(filled) == count and all(names_a_scan(cell.low) for cell in filled):
            return above
        if len(filled) != count or any(of_the_scan("", cell.low) is None for cell in filled):
            return -1
    return -1


def _cells(row: Row, head: Row) -> list[Cell] | None:
    """The cells of a row of a table, the module's first; an empty list for a rule, None for a row of something else."""
    if row.kind == "rule":
        return []
    if row.blank or row.kind != head.kind or row.cells is None:
        return None
    heads = head.cells or []
    lead = not heads[0].text or role_of(heads[0].low) == "module"
    if row.kind != "gap":
        return [*row.cells, *[_EMPTY] * (len(heads) - len(row.cells))][: len(heads)]
    found = [_EMPTY] * (len(heads) + (not lead))
    starts = [*([] if lead else [-1]), *(head.start + cell.start for cell in heads)]
    for cell in row.cells:
        place = row.start + cell.start
        column = min(range(len(starts)), key=lambda at: (abs(starts[at] - place), at))
        found[column] = cell
    return found


def _with_modules(cells: Sequence[Cell], group: int) -> list[Cell]:
    """The cells with the first one before each group."""
    found: list[Cell] = []
    for place in range(1, len(cells), group):
        found += [cells[0], *cells[place : place + group]]
    return found


__all__ = ["doubled"]
