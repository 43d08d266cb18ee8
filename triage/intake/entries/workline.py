"""A line that tells of work done, or of what was looked at, and of no module whether it holds codes."""

from __future__ import annotations

from triage.intake.entries import furthervolts, metarow
from triage.intake.lines.row import Row
from triage.intake.said import phases, volts
from triage.intake.scan.context import Context


def read(context: Context, row: Row) -> bool:
    """What such a line tells of the vehicle and of what was done to it; whether it was one."""
    if not row.line.work:
        return False
    context.facts.take(row.text, row.low)
    heads = phases.find(row.low) is not None or phases.scan_head(row.low) is not None
    if heads or any(deed.what == "cleared" for deed in phases.events(row.low)):
        metarow.read(context, row)
    else:
        # "Feed at pin 1 12.7 V, ok" is no supply of a scan; "11.9 V running. Belt ok" is what was read with it running.
        metarow.note_deeds(context, row)
        scan = context.builder.snapshot
        for volt in volts.find(row.low) if scan.volts is not None else ():
            furthervolts.keep(scan, row, volt)
    context.open_code = context.open_row = None
    return True


__all__ = ["read"]
