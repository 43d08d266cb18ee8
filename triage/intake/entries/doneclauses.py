"""Clauses that tell of work in a line that tells of other modules' answers as well: "BCM swapped, ABS silent".

What was done is kept, and the module it was done to is none of those that answered, or did not, in the rest.
"""

from __future__ import annotations

from triage.intake.entries import metarow
from triage.intake.lines.row import Row
from triage.intake.said import phases, volts
from triage.intake.said.answers import spoken
from triage.intake.said.doubts import clauses
from triage.intake.scan.context import Context

_WORK = ("replaced", "programmed", "paired", "calibrated")


def apart(context: Context, row: Row) -> Row | None:
    """The row without such clauses at its start, once they are kept; None where it has none."""
    done = [deed for deed in phases.events(row.low) if deed.what in _WORK]
    # "Programmed: ABS, aborted" is all told of the work.
    if row.finds.codes or row.cells or row.roles is not None or not done or any(
            deed.answer == "refused" for deed in done):
        return None
    hits = spoken(row.low)
    end = 0
    for start, stop in clauses(row.low):
        clause = row.low[start:stop]
        if any(start <= hit.start < stop for hit in hits) or phases.find(clause) is not None or volts.find(clause):
            break
        if any(deed.what in _WORK for deed in phases.events(clause)):
            end = stop
    rest = row.low[end:]
    begin = end + len(rest) - len(rest.lstrip(" ,.;!?-"))
    if not end or not hits or begin >= len(row.low):
        return None
    metarow.note_deeds(context, row.part(0, end), work=True)
    return row.part(begin)


__all__ = ["apart"]
