"""A notice where somebody isn't sure of what was done or connected, or where it was done long ago: neither is taken for
done between the scans."""

from __future__ import annotations

from triage.intake.lines.row import Row
from triage.intake.said import doubts, longago, phases
from triage.intake.said.outside import outside_supply
from triage.intake.scan.context import Context


def note(context: Context, row: Row) -> bool:
    """Name the clauses of a row that would tell of a deed or of what feeds the vehicle, if they were sure, or of today;
    whether there was one."""
    known = len(context.builder.notices)
    for start, end in doubts.find(row.low):
        told = doubts.said(row.low[start:end])
        supply = outside_supply(told)
        deed = any(one.what in doubts.OF_DEEDS for one in phases.events(told))
        if deed or supply not in (None, "none"):
            what = "done" if deed else "connected"
            context.builder.notice(
                "note", f"{row.text[start:end].strip()}: told with a doubt, so it is not taken as {what}; say "
                "it plainly if it was", row.line, row.start + start, row.start + end)
    for start, end in longago.find(row.low):
        if any(one.what in doubts.OF_DEEDS for one in phases.events(longago.said(row.low[start:end]))):
            context.builder.notice(
                "note", f"{row.text[start:end].strip()}: told of an earlier time, so it is not taken as done between "
                "these scans; give its date if it was", row.line, row.start + start, row.start + end)
    return len(context.builder.notices) > known


__all__ = ["note"]
