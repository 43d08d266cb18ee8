"""A notice where somebody isn't sure of what was done or connected: neither is taken for said."""

from __future__ import annotations

from triage.intake.lines.row import Row
from triage.intake.said import doubts, phases
from triage.intake.said.outside import outside_supply
from triage.intake.scan.context import Context


def note(context: Context, row: Row) -> None:
    """Name the clauses of a row that would tell of a deed or of what feeds the vehicle, if they were sure."""
    for start, end in doubts.find(row.low):
        told = doubts.said(row.low[start:end])
        supply = outside_supply(told)
        deed = any(one.what in doubts.OF_DEEDS for one in phases.events(told))
        if deed or supply not in (None, "none"):
            what = "done" if deed else "connected"
            context.builder.notice(
                "note", f"{row.text[start:end].strip()}: told with a doubt, so it is not taken as {what}; say "
                "it plainly if it was", row.line, row.start + start, row.start + end)


__all__ = ["note"]
