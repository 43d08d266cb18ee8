"""Which scan a row is of, where rows of several take turns: a column says it, or the words beside a module's name."""

from __future__ import annotations

from triage.intake.entries import metarow
from triage.intake.lines.row import Row
from triage.intake.said import phases
from triage.intake.scan.context import Context


def turn(context: Context, low: str) -> None:
    """Go on in the scan that a text names; a new one where it changes to one not seen before."""
    hit = phases.find(low)
    key = hit.phase if hit is not None else low
    known = context.scans.get(key)
    builder = context.builder
    if known is not None and known is not builder.snapshot:
        # Rows of several scans may take turns: the scan named goes on.
        builder.snapshots.remove(known)
        builder.snapshots.append(known)
        builder.module = builder.code = None
    elif known is None:
        if context.scans or builder.snapshot.phase not in (None, hit.phase if hit else None):
            builder.new_snapshot()
        if hit is not None:
            builder.snapshot.phase = hit.phase
        context.scans[key] = builder.snapshot


def read(context: Context, row: Row) -> None:
    """A row about the scan that stood beside the name of a module."""
    context.close_module()
    metarow.flush(context)
    if context.builder.snapshot.phase is None and not context.builder.snapshot.empty:
        # What stands above is of a scan that the text does not name.
        context.builder.new_snapshot()
    turn(context, row.low)
    metarow.apply(context, row, top=True)
