"""Rows whose codes stand behind their descriptions, as :mod:`triage.intake.tidying.described` found them."""

from __future__ import annotations

from triage.intake.entries import coderow
from triage.intake.lines.row import Row
from triage.intake.naming.names import tidy
from triage.intake.scan.assembly import ModuleDraft
from triage.intake.scan.context import Context


def read(context: Context, row: Row) -> None:
    """One row: each code goes to the module named before it, in the row or above, with the words in front of it."""
    context.refuse(row)
    module: ModuleDraft | None = None
    spans = row.described
    for at, code in enumerate(row.finds.codes):
        name, told, tail = spans[3 * at : 3 * at + 3]
        if name != (0, 0):
            printed = context.names.bare(tidy(row.text[name[0] : name[1]]))
            context.under_heading = False
            module = context.builder.name_module(printed, row.line, row.start + name[0], row.start + name[1])
        elif module is None:
            module = coderow.module_for(context, row, code)
        behind = row.text[tail[0] : tail[1]]
        if behind.count(")") > behind.count("("):
            behind = behind.replace(")", " ", 1)
        if behind.count("]") > behind.count("["):
            behind = behind.replace("]", " ", 1)
        details = coderow.details_of(context, [behind], code.failure_type is not None)
        draft = coderow.add(context, module, row, code, details)
        words = tidy(row.text[told[0] : told[1]])
        draft.text = f"{words} {draft.text}" if draft.text and draft.text != words else words
        context.open_code, context.open_row, context.tail = draft, row, ""
