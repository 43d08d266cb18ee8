"""Readiness: which monitors have run since the clear, in a line of its own or in lines below a heading."""

from __future__ import annotations

from triage.intake.lines.row import Row
from triage.intake.said import readiness
from triage.intake.scan.context import Context

#: So many lines below its heading the list of monitors may go on.
_NEAR = 2


def read(context: Context, row: Row) -> bool:
    """Keep what a line tells of the readiness, for the scan; whether it tells of that."""
    if row.finds.codes:
        return False
    if readiness.heads(row.low):
        context.readiness = context.at
        return True
    headed = context.readiness is not None and context.readiness < context.at <= context.readiness + _NEAR
    found = readiness.below(row.low) if headed else readiness.told(row.low)
    if not found:
        return False
    if headed:
        context.readiness = context.at
    draft = context.builder.snapshot
    draft.readiness = {**(draft.readiness or {}), **found}
    return True


__all__ = ["read"]
