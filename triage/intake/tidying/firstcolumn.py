"""The first column of a table with a scan in every column: modules, codes, or modules with a code each.

>>> heads_rows("module / dtc"), heads_rows("engine"), swapped(["DTC", "ECU", "Scan 1"], 1)
(True, False, ['ECU', 'DTC', 'Scan 1'])
"""

from __future__ import annotations

from collections.abc import Sequence
from copy import copy
from typing import TypeVar

from triage.intake.codes.found import find
from triage.intake.lines.row import Cell, Row
from triage.intake.naming.heads import role_of
from triage.intake.plain.patterns import lazily
from triage.intake.said.near import small

T = TypeVar("T")
#: Heads for the columns of a scan where the table has none of its own. No language is told by them.
HEADS = {"module": "ecu", "code": "kode", "failure_type": "ftb", "description": "desc", "status": "stat"}
EMPTY = Cell(0, 0, "", "")
_PARTS = lazily(r"[/,+&:.-]|\s(?:and|und|et|y)\s")
_SHARE = 0.6
#: Heads of a column that counts the rows, which have two scans at least beside their module.
_COUNTS = frozenset(
    ("#", "no", "nr", "n", "num", "pos", "lfd", "lfd nr", "item", "row", "line", "zeile", "ligne", "linea"))
_FEWEST = 3


def heads_rows(low: str) -> bool:
    """Whether a row is but the head of the first column, below what is told of the scans: "Module / DTC"."""
    parts = [part.strip() for part in _PARTS.split(low) if part.strip()]
    return bool(parts) and all(role_of(part) in ("module", "code", "description") for part in parts)


def module_first(names: list[str], starts: list[int], body: Sequence[list[Cell]]) -> tuple[
        list[str], list[int], list[list[Cell]]]:
    """The heads, their places and the rows with the column of the modules in front, where the codes stand before it."""
    roles = [role_of(small(name)) for name in names]
    if roles[0] != "code" or "module" not in roles:
        return names, starts, list(body)
    at = roles.index("module")
    return swapped(names, at), swapped(starts, at), [swapped(own, at) for own in body]


def swapped(cells: list[T], at: int) -> list[T]:
    """The cells of a row with the first one in the place of another, and that in front."""
    return [cells[at], *cells[1:at], cells[0], *cells[at + 1 :]] if at < len(cells) else cells


def with_code_column(names: list[str], body: list[list[Cell]]) -> tuple[list[str], list[list[Cell]]] | None:
    """The heads and the rows of a table whose first column holds modules with a code each ("ABS C0035 wheel speed"),
    with columns of their own for the code and its description; None for any other."""
    finds = [find(own[0].text, own[0].low).codes for own in body]
    named = [bool(codes) and codes[0].start > 1 for codes in finds]
    if sum(named) < max(1, _SHARE * len(body)) or any(len(codes) > 1 for codes in finds):
        return None
    found: list[list[Cell]] = []
    for own, codes in zip(body, finds, strict=True):
        first = own[0]
        if not codes:
            found.append([first, EMPTY, EMPTY, *own[1:]])
            continue
        places = ((0, codes[0].start), (codes[0].start, codes[0].end), (codes[0].end, len(first.text)))
        texts = [first.text[start:end].strip(" -:,/") for start, end in places]
        found.append([*(Cell(first.start, first.end, text, small(text)) for text in texts), *own[1:]])
    module = names[0] if role_of(small(names[0]), exactly=True) == "module" else ""
    return [module, HEADS["code"], HEADS["description"], *names[1:]], found


def uncounted(rows: list[Row]) -> list[Row]:
    """The rows, those of tables without a first column that only counts them: "# | Module | Before | After"."""
    heads = [at for at, row in enumerate(rows) if row.cells and len(row.cells) > _FEWEST and not row.finds.codes
             and row.cells[0].low.strip(" .") in _COUNTS and role_of(row.cells[1].low) in ("module", "code")]
    if not heads:
        return rows
    found = list(rows)
    for head in heads:
        for at in range(head, len(rows)):
            row = rows[at]
            if row.blank or row.kind not in ("rule", rows[head].kind):
                break
            if row.cells and (at == head or row.cells[0].text.strip(" .").isdigit() or not row.cells[0].text):
                found[at] = copy(row)
                found[at].cells = row.cells[1:]
                found[at].roles = row.roles[1:] if row.roles is not None else None
    return found


__all__ = ["EMPTY", "HEADS", "heads_rows", "module_first", "swapped", "uncounted", "with_code_column"]
