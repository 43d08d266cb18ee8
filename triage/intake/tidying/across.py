"""Modules across: a table with a module in every column, and below each its codes or its answer. It is turned round,
so that each row is of one module.

>>> from triage.intake.lines.layouts import split_rows
>>> from triage.intake.lines.rows import rows_of
>>> found = rows_of("GW;EPS;TCM\\nno codes;U0415-49 (current);no response\\n;C0051 (stored);")
>>> split_rows(found)
>>> for row in turned(found, lambda name: name in ("GW", "EPS", "TCM")):
...     print(row.text)
ecu | kode
GW | no codes
EPS | U0415-49 (current)
EPS | C0051 (stored)
TCM | no response
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import groupby

from triage.intake.codes.found import find
from triage.intake.lines.row import Row
from triage.intake.lines.stretches import MOST_BLANKS, QUOTED
from triage.intake.naming import IsName
from triage.intake.naming.heads import role_of
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import has_digit, has_letter
from triage.intake.plain.characters import low as small
from triage.intake.said import phases, states, volts
from triage.intake.said.answers import answer_of_cell, spoken
from triage.intake.tidying.scancells import row_like

_LONGEST_NAME, _LONGEST_CELL, _LONGEST_HEAD, _MOST_NAMES, _MOST_ROWS = 60, 120, 2000, 60, 200
#: Cells in which no code stands.
_NOTHING = frozenset({"", "-", "--", "---", "."})
#: What a label in front of a row may say of its cells, and the head that each gets.
_HEAD_OF = {"code": "kode", "status": "stat", "description": "desc", "failure_type": "ftb", "volts": "volts",
          "answer": "result", "reply": "reply", "count_of_codes": "# codes"}
#: Heads of the column of labels.
_LABELS = ("module", "scan")


@dataclass(slots=True)
class _Table:
    """The names of the modules with the places of their columns, and below each the cells by the role of their row;
    ``labelled``: a column of labels stands before them; ``outer``: each line begins and ends with a bar."""

    mark: str
    outer: bool
    names: list[str]
    starts: list[int]
    labelled: bool
    rows: list[tuple[Row, str, list[str]]] = field(default_factory=list)


def turned(rows: list[Row], is_name: IsName) -> list[Row]:
    """The rows, tables of modules across turned round; the same list where there is none. Linear."""
    found: list[Row] = []
    at = tables = 0
    while at < len(rows):
        table, last = _table(rows, at, is_name, tables > 0)
        if table is None:
            found.append(rows[at])
            at += 1
        else:
            found += _by_module(rows[at], table)
            at, tables = last, tables + 1
    return found if tables else rows


def _table(rows: Sequence[Row], at: int, is_name: IsName, goes_on: bool) -> tuple[_Table | None, int]:
    """The table whose head stands at a place and where it ends, or None. ``goes_on``: another stands above it, of which
    it may be the last column."""
    for table in _heads(rows[at]):
        last = _fill(table, rows, at)
        labels = _labels(table)
        if not table.rows or (table.labelled and not _are_labels(table, labels, rows[at])):
            continue
        if table.labelled and _is_keyed(table, labels, rows[at]):
            # The labels tell what the columns are of, whatever the modules are called.
            if len(table.names) > 1 or goes_on:
                return table, last
            continue
        named = [is_name(tidy(name)) for name in table.names]
        if len(named) > 1 and _is_told(table):
            return (table if sum(named) >= max(2, 0.6 * len(named)) else None), last
        if len(named) > 1 and all(named) and all(
                answer_of_cell(small(text)) is not None for text in table.rows[0][2]):
            # No module holds a code.
            return table, last
    return None, at


def _labels(table: _Table) -> list[str]:
    """What stands in front of each row."""
    return [small(_cells(row, table.mark, table.outer)[0][1]).strip(" .:#") for row, _, _ in table.rows]


def _over(table: _Table, head: Row) -> str | None:
    """What the cell over the labels is for."""
    return role_of(small(_cells(head, table.mark, table.outer)[0][1]))


def _is_keyed(table: _Table, labels: Sequence[str], head: Row) -> bool:
    """Whether "Module" stands over the labels, and each of them is a key: "Result", "Code 1"."""
    roles = {role_of(label) for label in labels}
    return _over(table, head) == "module" and None not in roles and not roles.isdisjoint(("code", "answer"))


def _are_labels(table: _Table, labels: Sequence[str], head: Row) -> bool:
    """Whether the first column is of labels by its head, or by what stands in it."""
    over = _cells(head, table.mark, table.outer)[0][1]
    return not over or _over(table, head) in _LABELS or all(
        role_of(label) is not None and answer_of_cell(label) is None for label in labels)


def _fill(table: _Table, rows: Sequence[Row], at: int) -> int:
    """Add the rows below a head at a place; where they end."""
    last = at + 1
    blanks = 0
    for place in range(at + 1, min(len(rows), at + _MOST_ROWS)):
        row = rows[place]
        blanks = blanks + 1 if row.blank else 0
        if blanks > MOST_BLANKS or not (row.blank or row.kind == "rule" or _takes(table, row)):
            break
        if not row.blank:
            last = place + 1
    return last


def _heads(row: Row) -> list[_Table]:
    """A row of names that differ as the head of a table: with a column of labels in front, or without."""
    if row.blank or row.finds.codes or row.kind == "rule" or len(row.low) > _LONGEST_HEAD:
        return []
    text = row.text
    mark = "|" if "|" in text else "\t" if "\t" in text else ";" if ";" in text else "," if "," in text else ""
    mark = mark or ("gap" if row.kind == "gap" else "")
    if not mark or (mark == "," and ", " in row.text):
        return []
    outer = mark == "|" and row.text[0] == row.text[-1] == "|"
    cells = _cells(row, mark, outer)
    found = []
    if len(cells) > 1:
        found.append(_Table(mark, outer, [text for _, text in cells[1:]], [start for start, _ in cells], True))
    found.append(_Table(mark, outer, [text for _, text in cells], [start for start, _ in cells], False))
    found = [table for table in found if _may_be_names(table)]
    return found if found and not spoken(row.low) else []


def _may_be_names(table: _Table) -> bool:
    """Whether nothing in a head speaks against names: all differ, and none is a status, a phase, a head of a column."""
    lows = [small(name) for name in table.names]
    fewest = 3 if table.mark == "," else 1 if table.labelled else 2
    if not fewest <= len(lows) <= _MOST_NAMES or len({*lows}) < len(lows):
        return False
    # "ECU" is the engine's as often as any.
    heads = [role for low in lows if (role := role_of(low)) is not None]
    return heads in ([], ["module"]) and all(
        has_letter(low) and len(low) <= _LONGEST_NAME and states.of_cell(low) is None and phases.find(low) is None
        for low in lows
    )


def _cells(row: Row, mark: str, outer: bool) -> list[tuple[int, str]]:
    """Where the cells of a line begin, or their number, and their texts."""
    if mark == "gap":
        return [(row.start + cell.start, cell.text) for cell in row.cells or ()] or [(row.start, row.text)]
    text = row.line.text.rstrip("\r\n")
    if '"' in text:
        text = QUOTED.sub(lambda match: match[1].replace(mark, " "), text)
    parts = text.split(mark)
    if outer and len(parts) > 2 and not parts[0].strip():
        parts = parts[1 : -1 if not parts[-1].strip() else None]
    return [(at, part.strip()) for at, part in enumerate(parts)]


def _takes(table: _Table, row: Row) -> bool:
    """Add a row below the head; False where it is none of the table."""
    if table.mark != "gap" and table.mark not in row.line.text:
        return False
    texts = _under(table, row)
    if texts is None:
        return False
    role = "code"
    if table.labelled:
        label = small(texts.pop(0)).strip(" .:#")
        role = role_of(label) or "" if label and not label.isdigit() else "code"
        role = "code" if role == "count_of_codes" and not _are_counts(texts) else role
    else:
        role = _role_of_row(table, texts)
    if role == "other":
        return True
    if role not in _HEAD_OF or any(len(text) > _LONGEST_CELL for text in texts):
        return False
    if role == "volts" and (not any(texts[1:]) or not all(map(has_digit, filter(None, texts)))):
        # It tells of the vehicle's supply.
        return False
    said = [_is_said(small(text)) or (table.labelled and bool(label) and has_digit(text.split()[0]))
            for text in texts if text]
    sure = table.rows or (table.labelled and label and any(find(text).codes for text in texts))
    if role == "code" and not (all(said) if not sure else said and 2 * sum(said) >= len(said)):
        # Below a first row that is sure, or in one with a label, a cell that says nothing known will be asked about.
        return False
    table.rows.append((row, role, texts))
    return True


def _role_of_row(table: _Table, texts: list[str]) -> str:
    """What a row without a label is by its cells: statuses, counts, numbers of parts, descriptions; else codes."""
    lows = [small(text) for text in texts if text]
    if not lows or any(find(low).codes for low in lows):
        return "code"
    if all(states.of_cell(low) is not None for low in lows):
        return "status"
    if _are_counts(lows) and not table.rows:
        return "count_of_codes"
    if any(_is_said(low) for low in lows):
        return "code"
    if all(map(has_digit, lows)) and len(lows) == len(texts):
        return "volts" if all(volts.find(low) for low in lows) else "other"
    # Each text stands below a code.
    above: list[str] = next((over for _, role, over in reversed(table.rows) if role == "code"), [])
    covered = bool(above) and all(over or not text for over, text in zip(above, texts, strict=False))
    return "description" if covered and table.rows[-1][1] in ("code", "status") else "code"


def _are_counts(texts: Sequence[str]) -> bool:
    return any(texts) and all(not text or (text.isdigit() and len(text) <= 2) for text in texts)


def _under(table: _Table, row: Row) -> list[str] | None:
    """The texts of a row below each column; None where they can't be told."""
    width = len(table.starts)
    cells = _cells(row, table.mark, table.outer)
    if table.mark != "gap":
        texts = [text for _, text in cells]
        return texts + [""] * (width - len(texts)) if len(texts) <= width else None
    texts = [""] * width
    for start, text in cells:
        at = min(range(width), key=lambda at: abs(table.starts[at] - start))
        if abs(table.starts[at] - start) > 1 or texts[at]:
            return None
        texts[at] = text
    return texts


def _is_said(low: str) -> bool:
    """Whether a cell holds codes, or the whole answer of a module, or nothing."""
    return low in _NOTHING or bool(find(low).codes) or answer_of_cell(low) is not None


def _is_told(table: _Table) -> bool:
    """Whether a code stands below a name, and the first row of codes leaves no more than a few columns empty, or the
    table says what they answered."""
    coded = [texts for _, role, texts in table.rows if role == "code"]
    if not coded or not any(find(text).codes for texts in coded for text in texts):
        return False
    answered = table.labelled and any(role in ("answer", "reply") for _, role, _ in table.rows)
    return answered or 2 * sum(bool(text) for text in coded[0]) > len(table.names)


def _by_module(head: Row, table: _Table) -> list[Row]:
    """The rows of a table with a module a row: a head, then those of each module."""
    roles = [role for role in _HEAD_OF if any(role == told for _, told, _ in table.rows)]
    found = [_row(head, ["ecu", *(_HEAD_OF[role] for role in roles)])]
    # What is told below a code is of that.
    groups: list[list[tuple[Row, str, list[str]]]] = []
    for is_code, group in groupby(table.rows, key=lambda each: each[1] == "code"):
        if is_code:
            groups += [[each] for each in group]
        elif groups:
            groups[-1] += group
        else:
            groups.append(list(group))
    for column, name in enumerate(table.names):
        told = False
        for number, rows in enumerate(groups):
            cells = {role: texts[column] for _, role, texts in rows if texts[column]}
            if any(text not in _NOTHING for text in cells.values()) or (cells and not number):
                found.append(_row(rows[0][0], [name, *(cells.get(role, "") for role in roles)]))
                told = True
        if not told:
            found.append(_row(head, [name, *[""] * len(roles)]))
    found[-1].closes = True
    return found


def _row(like: Row, cells: Sequence[str]) -> Row:
    """A row of cells at the line of another."""
    return row_like(like, " | ".join(cell.replace("|", "/") for cell in cells))


__all__ = ["turned"]
