"""Scans side by side: a table with a scan in every column ("Module | Before clear | After clear"), turned into one
scan below the other.

>>> from triage.intake.layouts import split_rows
>>> from triage.intake.rows import rows_of
>>> found = rows_of("Module | Before clear | After clear\\nECM | P0562 active | clean\\nABS | silent | C0035 stored")
>>> split_rows(found)
>>> [row.text for row in unfolded(found)]
['Before clear', 'ECM: P0562 active', 'ABS: silent', 'After clear', 'ECM: clean', 'ABS: C0035 stored']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake import phases
from triage.intake.answers import answer_of_cell
from triage.intake.characters import line_of
from triage.intake.found import find
from triage.intake.heads import role_of
from triage.intake.layouts import Cell, Row
from triage.intake.near import small

#: A cell that says nothing was there.
_NOTHING = frozenset({"-", "--", "0", "/", "none", "."})
_LONGEST_HEAD = 60


def unfolded(rows: list[Row]) -> list[Row]:
    """The rows, those of tables with a scan in every column as scans one below the other; the same list else."""
    if not any(_columns(row) for row in rows if row.cells):
        return rows
    found: list[Row] = []
    at = 0
    while at < len(rows):
        columns = _columns(rows[at])
        last = _body(rows, at, columns) if columns else at
        if last > at + 1:
            found += _scans(rows[at], rows[at + 1 : last], columns)
            at = last
        else:
            found.append(rows[at])
            at += 1
    return found


def _columns(row: Row) -> list[int]:
    """The places of the cells of a head that each name another phase; the first cell is that of the modules."""
    cells = row.cells or []
    if len(cells) < 3 or row.finds.codes or not (cells[0].text == "" or role_of(cells[0].low) == "module"):
        return []
    told = {at: hit.phase for at, cell in enumerate(cells) if at and len(cell.text) <= _LONGEST_HEAD
            and (hit := phases.find(cell.low)) is not None}
    others = [cell for at, cell in enumerate(cells[1:], start=1) if at not in told and cell.text]
    if len(set(told.values())) < 2 or len(set(told.values())) < len(told) or any(
            role_of(cell.low) not in ("code", "description", "other") for cell in others):
        return []
    return list(told)


def _body(rows: Sequence[Row], at: int, columns: Sequence[int]) -> int:
    """Where the rows of the table that starts at ``at`` end."""
    last = at + 1
    while last < len(rows):
        row = rows[last]
        if row.kind != "rule" and (row.blank or row.kind != rows[at].kind or row.cells is None
                                   or len(row.cells) < min(columns) + 1 or not row.cells[0].text):
            break
        last += 1
    return last


def _scans(head: Row, body: Sequence[Row], columns: Sequence[int]) -> list[Row]:
    """One heading and the rows of each column; a code in a column of its own goes with the status of the scan."""
    cells = head.cells or []
    code_at = next((at for at, cell in enumerate(cells) if role_of(cell.low) == "code"), None)
    found: list[Row] = []
    for column in columns:
        found.append(_row(head, cells[column].text))
        listed: dict[str, bool] = {}
        for row in body:
            own = row.cells or []
            if row.kind == "rule" or column >= len(own):
                continue
            name, said = own[0].text, own[column]
            code = own[code_at].text if code_at is not None and code_at < len(own) else ""
            text = _told(said, code)
            listed[name] = listed.get(name, False) or text is not None
            if text is not None:
                found.append(_row(row, f"{name}: {text}"))
        found += [_row(head, f"{name}: no codes") for name, any_told in listed.items() if not any_told]
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
