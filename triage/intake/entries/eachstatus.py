"""Rows of codes with the modules that hold them behind, each with a status of its own."""

from __future__ import annotations

from triage.intake.codes.pieces import Details
from triage.intake.entries.coderow import add
from triage.intake.lines import namelist, ownstatus
from triage.intake.lines.row import Row
from triage.intake.naming.linking import strip_links
from triage.intake.naming.names import tidy
from triage.intake.scan.context import Context


def read(context: Context, row: Row) -> bool:
    """Such a row; whether it is one. Below the name of a module all behind the codes must be names, or they are a
    description."""
    text = row.text
    if not ("," in text or ")" in text or "]" in text) or strip_links(row.text[: row.finds.codes[0].start]):
        return False
    is_name = namelist.known(context.names)
    found = ownstatus.told(row, is_name, context.translated, 1.0 if context.under_heading else 0.5)
    for start, end, _ in found:
        inside = context.names.find(row.low[start:end])
        if inside and inside[0][0] and not is_name(tidy(row.text[start:end])):
            # "Lost comms ECM (stored)" is a description.
            return False
    for start, end, status in found:
        context.under_heading = False
        module = context.builder.name_module(tidy(row.text[start:end]), row.line, row.start + start, row.start + end)
        for code in row.finds.codes:
            add(context, module, row, code, Details(status=status))
    if found:
        context.refuse(row)
        context.open_code = context.open_row = None
    return bool(found)


__all__ = ["read"]
