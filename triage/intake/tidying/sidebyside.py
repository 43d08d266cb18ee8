"""Scans side by side: a table with a scan in every column ("Module | Before clear | After clear"), turned into one
scan below the other.

>>> from triage.intake.lines.layouts import split_rows
>>> from triage.intake.lines.rows import rows_of
>>> found = rows_of("Module | Before clear | After clear\\nECM | P0562 active | clean\\nABS | silent | C0035 stored")
>>> split_rows(found)
>>> for row in unfolded(found):
...     print(row.text)
Before clear
Module | kode
ECM | P0562 active
ABS | silent
After clear
Module | kode
ECM | clean
ABS | C0035 stored
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import NamedTuple

from triage.intake.codes.found import find
from triage.intake.lines.row import Cell, Row
from triage.intake.lines.stretches import MOST_BLANKS
from triage.intake.naming.dittocells import is_ditto
from triage.intake.naming.heads import role_of
from triage.intake.said import phases, states, volts
from triage.intake.said.answers import answer_of_cell
from triage.intake.said.near import small
from triage.intake.tidying import gonecells
from triage.intake.tidying.firstcolumn import EMPTY, HEADS, heads_rows, module_first, uncounted, with_code_column
from triage.intake.tidying.scancells import (
    NOTHING,
    holds_scans,
    in_full,
    is_label,
    may_name_a_scan,
    names_a_scan,
    of_the_scan,
    row_like,
    side_by_side,
)
from triage.model.snapshot import StatusWord

#: A cell that says no more than that the code of its row was there.
_MARKS = frozenset({"x", "xx", "yes", "y", "ja", "j", "oui", "si", "true", "1", "+", "\u2713", "\u2022", "*",
                    "set", "there", "back"})
#: Columns beside the code that go with it into each scan, and others that may stand there.
_WITH_CODE = ("failure_type", "description")
_BESIDE = ("code", "other", "count", "date", "odometer", *_WITH_CODE)
#: The first cell of a row stands so near to the head of its column.
_SLACK = 2
_NO_LEGEND: Mapping[str, StatusWord] = MappingProxyType({})
#: So many rows may head one table.
_MOST_HEADS = 6


class _Table(NamedTuple):
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


def unfolded(rows: list[Row], legend: Mapping[str, StatusWord] = _NO_LEGEND) -> list[Row]:
    """The rows, those of tables with a scan in every column as scans one below the other; the same list else.
    ``legend``: the statuses that letters and digits stand for."""
    pasted, rows = rows, uncounted(rows)
    if not any(_told_columns(row) for row in rows if row.cells and not row.finds.codes):
        return pasted
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
            found += _scans(table, legend)
            at, tables = table.last, tables + 1
    return found if tables else pasted


def _table(rows: Sequence[Row], at: int) -> _Table | None:
    """The table whose head stands at a place, or None."""
    head = rows[at]
    told = _told_columns(head)
    if not told:
        return None
    cells = _head_cells(head)
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
        if row.blank and not rows[last - 1].blank and not body:
            last += 1
            continue
        again = _is_again(row, head)
        if body and (again or (row.blank and _goes_on(rows, last, head, starts, told))):
            last += 1
            continue
        if again or ((body or last - at > _MOST_HEADS) and _told_columns(row)):
            # Another table.
            break
        if (of_scans := _of_the_scans(row, head, starts, told)) is not None:
            for column, text in of_scans.items():
                more.setdefault(column, []).append(text)
            last += 1
            continue
        if not body and row.cells is None and heads_rows(row.low):
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
    return _judged(_Table(head, starts, [], names, body, used, last, more, above is not None), told)


def _judged(table: _Table, told: set[int]) -> _Table | None:
    """A table whose ``told`` columns are scans by their heads with all that are; None where it is none of scans."""
    head, more, used = table.head, table.told, table.rows
    names, starts, body = module_first(table.names, table.starts, table.body)
    if body and (parted := with_code_column(names, body)) is not None:
        # From here on a column stands elsewhere than its head.
        names, body, starts = parted[0], parted[1], [starts[0], *[starts[0]] * 2, *starts[1:]]
        told, more = {column + 2 for column in told}, {column + 2: text for column, text in more.items()}
    roles = [role_of(small(name)) for name in names]
    below = {column: [own[column] for own in body if column < len(own)] for column in range(1, len(names))}
    if roles[0] == "code":
        return None
    coded = "code" in roles
    known = {cell.low.strip() for column in told for cell in below.get(column, ())} if coded else set()
    scans = [column for column in below if column in told or (roles[column] is None and (
        _holds_statuses(below[column], known) if coded else holds_scans(below[column])))]
    others = [column for column in below if column not in scans and names[column]]
    if not body or len(scans) < 2 or any(roles[column] not in _BESIDE for column in others):
        return None
    if not any(cell.text for column in scans for cell in below[column]):
        return None  # "=== 03.04.  Before clearing ===" heads one list, and no two columns
    if head.kind == "gap" and not coded and not _lines_up(used, starts) and any(
            holds_scans(below[column]) is None for column in scans):
        return None
    return table._replace(starts=starts, scans=scans, names=names, body=body, told=more)


def _lines_up(rows: Sequence[Row], starts: Sequence[int]) -> bool:
    """Whether each row between gaps has a cell right below the start of each head."""
    return all([row.start + cell.start for cell in row.cells or ()] == list(starts) for row in rows)


def _goes_on(rows: Sequence[Row], at: int, head: Row, starts: Sequence[int], told: set[int]) -> bool:
    """Whether the row behind a blank one is still of the table: something is said in the columns of the scans, and
    nothing that scans do not say."""
    below = next((row for row in rows[at : at + MOST_BLANKS + 1] if not row.blank), None)
    if below is None or below.kind != head.kind or not below.cells:
        return False
    if _is_again(below, head):
        return True
    own = _own_cells(below, head, starts)
    if below.head or own is None or not min(told) < len(own) <= len(starts):
        return False
    if head.kind == "gap":
        places = [below.start + cell.start for cell in below.cells[1:]]
        if any(min(abs(place - start) for start in starts[1:]) > 1 for place in places):
            return False
    said = [own[column].low.strip() for column in told if column < len(own)]
    return any(said) and all(_may_be_said(low) for low in said)


def _may_be_said(low: str) -> bool:
    """Whether a cell may be that of one scan."""
    return (
        low in NOTHING or low in _MARKS or low in gonecells.GONE or gonecells.surely(low) or not low or low.isdigit()
        or answer_of_cell(low) is not None
        or states.of_cell(low) is not None or bool(volts.find(low)) or bool(find(low).codes)
    )


def _holds_statuses(cells: Sequence[Cell], known: set[str]) -> bool:
    """Whether the cells of a column say what became of the code of their row in one scan; ``known``: what the columns
    of scans say."""
    filled = [cell.low.strip() for cell in cells if cell.text]
    # A column of marks alone may tell of anything: whether the lamp was on, whether the part is ordered.
    telling = any(states.of_cell(low) is not None or answer_of_cell(low) is not None for low in filled)
    return telling and all(low in known or _may_be_said(low) for low in filled)


def _is_again(row: Row, head: Row) -> bool:
    """Whether a row says the heads of the columns once more."""
    return bool(row.cells) and [cell.low for cell in row.cells or ()] == [cell.low for cell in head.cells or ()]


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
    if row.kind == "rule" or len(row.cells or ()) < 2 or row.finds.codes or row.blank:
        return set()
    cells = _head_cells(row)
    if not cells[0].text or role_of(cells[0].low) in ("module", "scan", "code") or heads_rows(cells[0].low):
        # A time or a day names a scan where others beside it do.
        sure = {at for at, cell in enumerate(cells) if at and names_a_scan(cell.low)} if len(cells) > 2 else set()
        return side_by_side(row) if cells == row.cells and side_by_side(row) > sure else sure
    # The column of the modules may have no head where gaps part the columns.
    return set(range(len(cells))) if row.kind == "gap" and all(may_name_a_scan(cell.low) for cell in cells) else set()


def _head_cells(row: Row) -> list[Cell]:
    """The cells of a head; one of two words with two spaces between them is one ("after 5 min  running")."""
    cells = row.cells or []
    if row.kind != "gap" or not any(names_a_scan(cell.low) for cell in cells):
        return cells
    found = cells[:1]
    for cell in cells[1:]:
        above = found[-1]
        torn = cell.start - above.end == 2 and names_a_scan(above.low) and role_of(cell.low) is None
        if torn and not names_a_scan(cell.low):
            found[-1] = Cell(above.start, cell.end, row.text[above.start : cell.end], row.low[above.start : cell.end])
        else:
            found.append(cell)
    return found


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


def _scans(table: _Table, legend: Mapping[str, StatusWord]) -> list[Row]:
    """One heading and the rows of each column, as a table of its own."""
    roles = [role_of(small(name)) for name in table.names]
    code_at = next((at for at, role in enumerate(roles) if at and role == "code"), None)
    beside = [at for at, role in enumerate(roles) if role in _WITH_CODE] if code_at is not None else []
    names = [in_full(name) for name in table.names]
    told = [phases.find(small(", ".join([names[column], *table.told.get(column, ())]))) for column in table.scans]
    several = len({hit.phase for hit in told if hit is not None}) == len(told)
    kinds = [("module", 0), ("code", code_at), *((str(roles[at]), at) for at in beside)]
    heads = [_head_of(table, role, at) for role, at in kinds] + ([HEADS["status"]] if code_at is not None else [])
    found: list[Row] = []
    for number, column in enumerate(table.scans, start=1):
        name = names[column]
        # Where not each is of another phase only a number parts them.
        title = name if several else f"Scan {number}: {name}" if name else f"Scan {number}"
        found.append(row_like(table.head, ", ".join([title, *table.told.get(column, ())])))
        loose, cells = _of_scan(table, column, code_at, beside, legend)
        found += loose
        if cells:
            found += [row_like(table.head, " | ".join(heads))]
            found += [row_like(row, " | ".join(text.replace("|", "/") for text in texts)) for row, texts in cells]
            found[-1].closes = True
    return found


def _head_of(table: _Table, role: str, at: int | None) -> str:
    """The head of a column as the table has it where that is sure to be read again."""
    name = table.names[at] if at is not None else ""
    return name if role_of(small(name), exactly=True) == role else HEADS[role]


def _of_scan(
    table: _Table, column: int, code_at: int | None, beside: Sequence[int], legend: Mapping[str, StatusWord]
) -> tuple[list[Row], list[tuple[Row, list[str]]]]:
    """What one column says: lines that name no code and no answer (the supply), and the cells of rows that do."""
    loose: list[Row] = []
    cells: list[tuple[Row, list[str]]] = []
    listed: dict[str, bool] = {}
    width = 2 + len(beside) + (code_at is not None)
    name = ""
    for row, own in zip(table.rows, table.body, strict=True):
        name = name if is_ditto(own[0].low) or not own[0].text else own[0].text
        if column >= len(own) and row.kind != "gap":
            own = [*own, *[EMPTY] * (column + 1 - len(own))]
        if column >= len(own) or (row.kind == "gap" and code_at is None and not own[column].text):
            continue
        code = own[code_at].text if code_at is not None and code_at < len(own) else ""
        # "0" may be said of a code that is not there, or be the legend's digit for a status.
        status = legend.get(own[column].low.strip(" .()[]")) if code else None
        text = status or _told(own[column], code)
        if text is not None or not _of_the_supply(name, own):
            listed[name] = listed.get(name, False) or text is not None
        if text is None:
            continue
        answer = answer_of_cell(own[column].low)
        if code and (answer in (None, "clean") or states.of_cell(own[column].low) is not None):
            cells.append((row, [name, code, *(own[at].text if at < len(own) else "" for at in beside), text]))
        elif answer is not None or find(text).codes:
            cells.append((row, [name, *[""] * (width - 2), text]))
        else:
            loose.append(row_like(row, f"{name}: {text}"))
    cells += [(table.head, [name, *[""] * (width - 2), "no codes"]) for name, any_told in listed.items()
              if not any_told]
    return loose, cells


def _of_the_supply(name: str, own: Sequence[Cell]) -> bool:
    """Whether a row is for a voltage: where none was measured, no module is clean."""
    return role_of(small(name)) in ("volts", "lowest_volts") and not any(
        find(cell.text).codes or answer_of_cell(cell.low) for cell in own[1:])


def _told(cell: Cell, code: str) -> str | None:
    """What the cell of one scan says, with the code of its row; None where it says that nothing was there."""
    low = cell.low.strip()
    if low in NOTHING or not low:
        return None
    if not code:
        return cell.text
    if low.strip(" .()[]") in _MARKS:
        return ""
    if gonecells.surely(low):
        return None
    if states.of_cell(low) is not None:
        # "Not present" is said of the code.
        return cell.text
    if low in gonecells.GONE or answer_of_cell(low) == "clean":
        return None
    return cell.text


__all__ = ["unfolded"]
