"""A code that a line says is not there: no code of the scan, and no module of that name."""

from __future__ import annotations

from triage.intake.entries import plainrow
from triage.intake.lines.row import Row
from triage.intake.said import denied
from triage.intake.scan.context import Context

#: What parts it from what else the line tells.
_MARKS = " \t,;.:-()"


def read(context: Context, row: Row, at: int) -> bool:
    """A line that says this of a code, and perhaps that its module is else ok; whether it is one."""
    end = denied.end_of(row.low) if not row.finds.codes else 0
    if not end:
        return False
    rest = row.part(end + len(row.text[end:]) - len(row.text[end:].lstrip(_MARKS)))
    module, names = context.builder.module, context.names.find(rest.low)
    above = context.names.match(module.printed).canonical if module is not None else None
    if rest.low.strip() and any(context.names.match(rest.text[name[0] : name[1]]).canonical != above for name in names):
        plainrow.read(context, rest, at)
    return True


__all__ = ["read"]
