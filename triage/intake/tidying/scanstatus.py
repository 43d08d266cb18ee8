"""The status of all codes of a scan, told once in a remark or in the heading of the scan: taken off the line, and kept
with its row for the scan that is read there.

>>> from triage.intake.lines.rows import rows_of
>>> said = "Scan 2 (all stored)\\nNote: all codes in this scan are pending\\nABS: all stored\\nABS C0035"
>>> [(row.text, row.of_all) for row in told(rows_of(said))]
[('Scan 2', 'stored'), ('', 'pending'), ('ABS: all stored', None), ('ABS C0035', None)]
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from triage.intake.lines.row import Row
from triage.intake.said import ofall
from triage.intake.tidying import scanlead
from triage.intake.tidying.hearsay import remark_end

_EDGE = " :;,.-([|"


def told(rows: Sequence[Row]) -> list[Row]:
    """The rows, those that tell of all codes without that. Linear."""
    found = list(rows)
    for at, row in enumerate(rows):
        said = ofall.told(row.low) if not (row.blank or row.finds.codes) else None
        if said is None:
            continue
        start, status = said
        lead = row.low[:start].rstrip(_EDGE)
        if lead and remark_end(row.low) != start and not scanlead.is_lead(lead):
            continue
        kept = "" if remark_end(row.low) == start else row.text[:start].rstrip(_EDGE)
        found[at] = replace(Row(row.line, kept, row.start), of_all=status)
    return found


__all__ = ["told"]
