"""Shapes: what rows with codes have in common."""

from __future__ import annotations

from triage.intake.lines.behind import may_name
from triage.intake.lines.row import Row
from triage.intake.naming.linking import strip_links
from triage.intake.naming.names import tidy
from triage.intake.said import states
from triage.intake.said.near import small

#: Kind of the row, index of the code's cell (-1: no cells), whether text stands before the code.
Shape = tuple[str, int, bool]


def shape_of(row: Row) -> Shape:
    """The shape of a row with a code; worked out once."""
    if row.shape is None:
        row.shape = _shape_of(row)
    return row.shape


def _shape_of(row: Row) -> Shape:
    """The shape of a row with a code."""
    code = row.finds.codes[0]
    if row.cells and row.kind != "rule":
        for at, cell in enumerate(row.cells):
            if cell.start <= code.start < max(cell.end, cell.start + 1):
                inside = tidy(_named(row.text[cell.start : code.start]))
                before = bool(inside) or any(may_name(other.text) for other in row.cells[:at])
                return row.kind, at, before
    return "", -1, bool(_named(row.text[: code.start]))


def _named(text: str) -> str:
    """What of the text before a code may be a name: "stored P0562 - ECM" has none there."""
    if not text or text.isspace() or states.of_cell(small(text)) is not None:
        return ""
    kept = strip_links(text)
    return kept if not kept or states.of_cell(small(kept)) is None else ""
