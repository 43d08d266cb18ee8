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

from triage.intake.lines.layouts import Cell, Row
from triage.intake.naming.heads import role_of
from triage.intake.said import phases
from triage.intake.said.answers import answer_of_cell
from triage.intake.said.near import small
from triage.intake.tidying.scancells import NOTHING, holds_scans, is_label, names_a_scan, of_the_scan, row_like

_BESIDE = ("code", "description", "other")
#: The first cell of a row stands so near to the head of its column.
_SLACK = 2
#: So many rows may head one table.
_MOST_HEADS = 6


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
    #: By column: what rows of the head, or of the table, tell of the scan itself.
    told: dict[int, list[str]]
    #: The row above the head tells of the scans too.
    above: bool


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
            if table.above:
                found.pop()
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
    above = _of_the_scans(rows[at - 1], head, starts, told) if at else None
    more = {column: [text] for column, text in (above or {}).items()}
    while last < len(rows):
        row = rows[last]
        if row.blank and not rows[last - 1].blank and (not body or _is_whole(rows, last + 1, head, starts, told)):
            last += 1
            continue
        if (body or last - at > _MOST_HEADS) and _told_columns(row):
            # Another table.
            break
        if (of_scans := _of_the_scans(row, head, starts, told)) is not None:
            for column, text in of_scans.items():
                more.setdefault(column, []).append(text)
            last += 1
            continue
        own = _own_cells(row, head, starts) if row.kind != "rule" else []
        if own and body and not own[0].text and row.finds.codes:
            # One more code of the module above.
            own[0] = body[-1][0]
        if own is None or (row.kind != "rule" and (len(own) <= min(told) or not own[0].text)):
            break
        if row.kind != "rule":
            body.append(own)
            used.append(row)
        last += 1
    roles = [role_of(small(name)) for name in names]
    below = {column: [own[column] for own in body if column < len(own)] for column in range(1, len(names))}
    scans = [column for column in below if column in told or (roles[column] is None and holds_scans(below[column]))]
    others = [column for column in below if column not in scans and names[column]]
    if not body or len(scans) < 2 or any(roles[column] not in _BESIDE for column in others):
        return None
    if head.kind == "gap" and "code" not in roles and any(
            holds_scans(below[column]) is None for column in scans):
        return None
    return _Table(head, starts, scans, names, body, used, last, more, above is not None)


def _is_whole(rows: Sequence[Row], at: int, head: Row, starts: Sequence[int], scans: set[int]) -> bool:
    """Whether the row behind a blank one fills the columns of the table above it."""
    cells = rows[at].cells if at < len(rows) and rows[at].kind == head.kind else None
    return cells is not None and len(cells) == len(starts) and bool(cells[0].text) and all(
        holds_scans([cells[column]]) is not None for column in scans) and (
        head.kind != "gap" or abs(rows[at].start + cells[-1].start - starts[-1]) <= _SLACK)


def _of_the_scans(row: Row, head: Row, starts: Sequence[int], scans: set[int]) -> dict[int, str] | None:
    """What a row tells of the scans by their columns ("      11.4 V    12.9 V", "Battery | 11.4 V | 12.9 V"); None
    for a row about a module."""
    if row.blank or row.kind == "rule" or row.finds.codes or (row.kind != head.kind and row.cells is not None):
        return None
    if row.kind == head.kind and head.kind != "gap":
        placed = dict(enumerate(row.cells or ()))
    elif head.kind == "gap":
        cells = row.cells or [Cell(0, len(row.text), row.text, row.low)]
        placed = {}
        for cell in cells:
            place = row.start + cell.start
            placed.setdefault(min(range(len(starts)), key=lambda at: (abs(starts[at] - place), at)), cell)
        if len(placed) < len(cells):
            return None
    else:
        return None
    label = placed.pop(0).low if 0 in placed else ""
    filled = {column: cell for column, cell in placed.items() if cell.text}
    if not filled or not is_label(label) or not filled.keys() <= scans:
        return None
    found = {column: of_the_scan(label, cell.low) for column, cell in filled.items()}
    return None if None in found.values() else {column: text for column, text in found.items() if text is not None}


def _told_columns(row: Row) -> set[int]:
    """The columns of a head that name a scan; none where it is no such head."""
    cells = row.cells or []
    if row.kind == "rule" or len(cells) < 2 or row.finds.codes or row.blank:
        return set()
    if not cells[0].text or role_of(cells[0].low) in ("module", "scan"):
        return {at for at, cell in enumerate(cells) if at and names_a_scan(cell.low)} if len(cells) > 2 else set()
    # The column of the modules may have no head where gaps part the columns.
    return set(range(len(cells))) if row.kind == "gap" and all(names_a_scan(cell.low) for cell in cells) else set()


def _own_cells(row: Row, head: Row, starts: Sequence[int]) -> list[Cell] | None:
    """The cells of a row by the columns of its head; None where it is none of its rows."""
    cells = row.cells
    if head.kind == "gap" and cells is None and row.finds.codes and not row.finds.codes[0].start:
        cells = [Cell(0, len(row.text), row.text, row.low)]
    elif row.blank or row.kind != head.kind or cells is None:
        return None
    if head.kind != "gap" or len(cells) == len(starts):
        return list(cells)
    # Some are empty, or hold a wide gap of their own: each stands below the head that it is nearest to.
    found = [Cell(0, 0, "", "") for _ in starts]
    for cell in cells:
        place = row.start + cell.start
        column = min(range(len(starts)), key=lambda at: (abs(starts[at] - place), at))
        if not cell.start and abs(starts[column] - place) > _SLACK:
            column = 0
        have = found[column]
        if have.text:
            cell = Cell(have.start, cell.end, row.text[have.start : cell.end], row.low[have.start : cell.end])
        found[column] = cell
    return found


def _scans(table: _Table) -> list[Row]:
    """One heading and the rows of each column; a code in a column of its own goes with the status of the scan."""
    code_at = next((at for at, name in enumerate(table.names) if at and role_of(small(name)) == "code"), None)
    told = [phases.find(small(", ".join([table.names[column], *table.told.get(column, ())]))) for column in table.scans]
    several = len({hit.phase for hit in told if hit is not None}) == len(told)
    found: list[Row] = []
    for number, column in enumerate(table.scans, start=1):
        name = table.names[column]
        # Where not each is of another phase only a number parts them.
        head = name if several else f"Scan {number}: {name}" if name else f"Scan {number}"
        found.append(row_like(table.head, ", ".join([head, *table.told.get(column, ())])))
        listed: dict[str, bool] = {}
        for row, own in zip(table.rows, table.body, strict=True):
            if column >= len(own) or (row.kind == "gap" and code_at is None and not own[column].text):
                continue
            name, said = own[0].text, own[column]
            code = own[code_at].text if code_at is not None and code_at < len(own) else ""
            text = _told(said, code)
            listed[name] = listed.get(name, False) or text is not None
            if text is not None:
                found.append(row_like(row, f"{name}: {text}"))
        found += [row_like(table.head, f"{name}: no codes") for name, any_told in listed.items() if not any_told]
    return found


def _told(cell: Cell, code: str) -> str | None:
    """What the cell of one scan says, with the code of its row; None where it says that nothing was there."""
    low = cell.low.strip()
    if not code:
        return None if low in NOTHING or not low else cell.text
    if not low or low in NOTHING or answer_of_cell(low) is not None:
        return cell.text if answer_of_cell(low) in ("silent", "not fitted", "not scanned") else None
    return f"{code} {cell.text}"


__all__ = ["unfolded"]
