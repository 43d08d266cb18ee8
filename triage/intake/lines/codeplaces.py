"""Where the codes of a text stand in its rows: behind a name, at the start, in a column; and what is beside them."""

from __future__ import annotations

from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.naming.linking import strip_links


def column(row: Row) -> tuple[str, int]:
    """The kind of a row cut into cells, and the cell that its code fills from the start; -1 where it is not cut."""
    code = row.finds.codes[0]
    for at, cell in enumerate(row.cells or ()):
        if row.kind != "rule" and cell.start == code.start:
            return row.kind, at
    return "", -1


def label_role(row: Row, at: int) -> str | None:
    """The role of what stands in the cell before the one at a place, as a key."""
    return role_of((row.cells or ())[at - 1].low) if at > 0 else None


def manner(row: Row, end: int) -> str:
    """What stands behind a code at the start of its line: a mark, "in", or a letter."""
    rest = row.low[end:].lstrip()
    if rest[:3] in ("in ", "im "):
        return "in"
    return rest[:1] if rest[:1] and not rest[:1].isalnum() else "a" if rest else ""


def mark_before(row: Row) -> str:
    """The mark between a name and the first code of a row, "" for none; "?" where no name stands before it."""
    before = row.text[: row.finds.codes[0].start].rstrip()
    if not strip_links(before):
        return "?"
    return before[-1:] if before[-1:] in "]:-/>|=;,\t" else ""
