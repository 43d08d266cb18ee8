"""Wide gaps that stand within a line for another mark, or by a slip, where the lines of the text are cut otherwise.

>>> from triage.intake.lines.layouts import split_rows
>>> from triage.intake.lines.rows import rows_of
>>> found = rows_of("B1000 - Door - lock - set\\nB1001 - Roof - motor - set\\nB1002 - Horn - low - set   not now")
>>> split_rows(found)
>>> closed(found)
>>> [row.cells for row in found]
[None, None, None]
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from triage.intake.lines.alikenumbers import shape_between
from triage.intake.lines.codeplaces import manner, typed_end
from triage.intake.lines.row import Row

#: So many lines that are cut by one mark tell where the codes of the others stand.
_FEWEST = 2


def closed(rows: Sequence[Row]) -> None:
    """Take rows with a gap for uncut that have their only code in the very piece, between the same marks, in which
    more others without a gap have theirs."""
    if not any(row.kind == "gap" and row.finds.codes for row in rows):
        return
    coded = [(row, shape) for row in rows if not (row.roles or row.head)
             and (shape := shape_between(row) or _led_by_in(row)) is not None]
    plain = Counter(shape for row, shape in coded if not row.cells)
    apart = Counter(shape for row, shape in coded if row.kind == "gap")
    for row, shape in coded:
        if row.kind == "gap" and shape[0].strip() and plain[shape] >= max(_FEWEST, apart[shape]):
            row.cells, row.kind, row.shape = None, "", None


def _led_by_in(row: Row) -> tuple[str, int] | None:
    """The place of the only code of a row that begins with it and goes on with "in": "U0140 in Radio: lost"."""
    starts = len(row.finds.codes) == 1 and not row.finds.codes[0].start
    return ("in", 0) if starts and manner(row, typed_end(row, row.finds.codes[0])) == "in" else None


__all__ = ["closed"]
