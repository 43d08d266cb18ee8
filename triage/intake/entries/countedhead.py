"""A sentence that counts the codes of one module, above them: "There are two codes in the ABS." heads what follows."""

from __future__ import annotations

from triage.intake.entries.headingopened import open_heading
from triage.intake.entries.headname import Heading
from triage.intake.lines.row import Row
from triage.intake.naming.names import tidy
from triage.intake.said.counts import counts_codes
from triage.intake.scan.context import Context

_LONGEST = 100


def read(context: Context, row: Row, at: int) -> bool:
    """Such a row, right above a line that begins with a code; whether it is one."""
    below = context.rows[at + 1] if at + 1 < len(context.rows) else None
    if below is None or not below.finds.codes or below.finds.codes[0].start or len(row.text) > _LONGEST:
        return False
    if not counts_codes(row.low) or len(names := context.names.find(row.low)) != 1:
        return False
    start, end, _ = names[0]
    printed = tidy(row.text[start:end])
    open_heading(context, row, Heading(printed, start, start + len(printed)))
    return True


__all__ = ["read"]
