"""Scans side by side: a table with a scan in every column ("Module | Before clear | After clear"), turned into one
scan below the other.

>>> from triage.intake.lines.layouts import split_rows
>>> from triage.intake.lines.rows import rows_of
>>> found = rows_of("Module | Before clear | After clear\\nECM | P0562 active | clean\\nABS | silent | C0035 stored")
>>> split_rows(found)
>>> [row.text for row in unfolded(found)]
['Before clear', 'ECM: P0562 active', 'ABS: silent', 'After clear', 'ECM: clean', 'ABS: C0035 stored']
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from triage.intake.codes.found import find
from triage.intake.lines.layouts import Cell, Row
from triage.intake.naming.heads import role_of
from triage.intake.plain.characters import line_of
from triage.intake.said import dates, phases, volts
from triage.intake.said.answers import answer_of_cell
from triage.intake.said.near import small

#: A cell that says nothing was there.
_NOTHING = frozenset({"-", "--", "0", "/", "none", "."})
_LONGEST_HEAD = 60
_BESIDE = ("code", "description", "other")


@dataclass(frozen=True, slots=True)
class _Table:
    """A head, the places of its columns (that of the modules first), which of them are scans, and its rows."""

    head: Row
    starts: list[int]
    scans: list[int]
    names: list[str]
    body: list[list[Cell]]
    rows: list[Row]
    last: int


def unfolded(rows: list[Row]) -> list[Row]:
    """The rows, those of tables with a scan in every column as scans one below the other; the same list else."""
    if not any(_told_columns(row) for row in rows if row.cells and not row.finds.codes):
        return rows
    found: list[Row] = []
    at = tables = 0
    while at < len(rows):
        table = _table(rows, at) if rows[at].cells else None
        if table is None:
            found.append(rows[at])
            at += 1
        else:
            found += _scans(table)
            at, tables = table.last, tables + 1
    return found if tables else rows


def _table(rows: Sequence[Row], at: int) -> _Table | None:
    """The table whose head stands at a place, or None."""
    head = rows[at]
    told = _told_columns(head)
    if not told:
        return None
    cells = head.cells or []
    names, starts = [cell.text for cell in cells], [head.start + cell.start for cell in cells]
    if 0 in told:
        # No head stands over the modules.
        names, starts, told = ["", *names], [-1, *starts], {column + 1 for column in told}
    body: list[list[Cell]] = []
    used: list[Row] = []
    last = at + 1
    while last < len(rows):
        row = rows[last]
        if row.blank and last == at + 1:
            last += 1
            continue
        own = _own_cells(row, head, starts) if row.kind != "rule" else []
        if own is None or (row.kind != "rule" and (len(own) <= min(told) or not own[0].text)):
            break
        if row.kind != "rule":
            body.append(own)
            used.append(row)
        last += 1
    roles = [role_of(small(name)) for name in names]
    below = {column: [own[column] for own in body if column < len(own)] for column in range(1, len(names))}
    scans = [column for column in below if column in told or (roles[column] is None and _holds_scans(below[column]))]
    others = [column for column in below if column not in scans and names[column]]
    if not body or len(scans) < 2 or any(roles[column] not in _BESIDE for column in others):
        return None
    if head.kind == "gap" and "code" not in roles and any(
            _holds_scans(below[column]) is None for column in scans):
        return None
    return _Table(head, starts, scans, names, body, used, last)


def _told_columns(row: Row) -> set[int]:
    """The columns of a head that name a scan; none where it is no such head."""
    cells = row.cells or []
    if row.kind == "rule" or len(cells) < 2 or row.finds.codes or row.blank:
        return set()
    if not cells[0].text or role_of(cells[0].low) == "module":
        return {at for at, cell in enumerate(cells) if at and _names_a_scan(cell.low)} if len(cells) > 2 else set()
    # The column of the modules may have no head where gaps part the columns.
    return set(range(len(cells))) if row.kind == "gap" and all(_names_a_scan(cell.low) for cell in cells) else set()


def _names_a_scan(low: str) -> bool:
    """Whether the head of a column says which scan stands below it: its phase, its number or its date."""
    if len(low) > _LONGEST_HEAD:
        return False
    if phases.find(low) is not None:
        return True
    head = phases.scan_head(low)
    return (head is not None and head.end() >= len(low) - 1) or any(
        stamp.end - stamp.start >= len(low) - 3 for stamp in dates.find(low))


def _own_cells(row: Row, head: Row, starts: Sequence[int]) -> list[Cell] | None:
    """The cells of a row by the columns of its head; None where it is none of its rows."""
    cells = row.cells
    if row.blank or row.kind != head.kind or cells is None:
        return None
    if row.kind != "gap" or len(cells) == len(starts):
        return cells
    # Some are empty, or hold a wide gap of their own: each stands below the head that it is nearest to.
    found = [Cell(0, 0, "", "") for _ in starts]
    for cell in cells:
        place = row.start + cell.start
        column = min(range(len(starts)), key=lambda at: (abs(starts[at] - place), at)) if cell.start else 0
        have = found[column]
        if have.text:
            cell = Cell(have.start, cell.end, row.text[have.start : cell.end], row.low[have.start : cell.end])
        found[column] = cell
    return found


def _holds_scans(cells: Sequence[Cell]) -> bool | None:
    """Whether the cells of a column are what modules said in one scan: codes, answers, nothing, the supply. None where
    one says something else."""
    said = 0
    for cell in cells:
        low = cell.low.strip()
        if answer_of_cell(low) is not None or find(cell.text, cell.low).codes:
            said += 1
        elif low and low not in _NOTHING and not volts.find(low):
            return None
    return said > 0


def _scans(table: _Table) -> list[Row]:
    """One heading and the rows of each column; a code in a column of its own goes with the status of the scan."""
    code_at = next((at for at, name in enumerate(table.names) if at and role_of(small(name)) == "code"), None)
    told = [phases.find(small(table.names[column])) for column in table.scans]
    several = len({hit.phase for hit in told if hit is not None}) == len(told)
    found: list[Row] = []
    for number, column in enumerate(table.scans, start=1):
        name = table.names[column]
        # Where not each is of another phase only a number parts them.
        found.append(_row(table.head, name if several else f"Scan {number}: {name}" if name else f"Scan {number}"))
        listed: dict[str, bool] = {}
        for row, own in zip(table.rows, table.body, strict=True):
            if column >= len(own) or (row.kind == "gap" and code_at is None and not own[column].text):
                continue
            name, said = own[0].text, own[column]
            code = own[code_at].text if code_at is not None and code_at < len(own) else ""
            text = _told(said, code)
            listed[name] = listed.get(name, False) or text is not None
            if text is not None:
                found.append(_row(row, f"{name}: {text}"))
        found += [_row(table.head, f"{name}: no codes") for name, any_told in listed.items() if not any_told]
    return found


def _told(cell: Cell, code: str) -> str | None:
    """What the cell of one scan says, with the code of its row; None where it says that nothing was there."""
    low = cell.low.strip()
    if not code:
        return None if low in _NOTHING or not low else cell.text
    if not low or low in _NOTHING or answer_of_cell(low) is not None:
        return cell.text if answer_of_cell(low) in ("silent", "not fitted", "not scanned") else None
    return f"{code} {cell.text}"


def _row(like: Row, text: str) -> Row:
    """A row of ``text`` at the line of another."""
    low = small(text)
    return Row(line_of(like.line.number, text, text), text, 0, low, find(text, low))


__all__ = ["unfolded"]
