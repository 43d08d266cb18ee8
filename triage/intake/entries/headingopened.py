"""A heading that was found: the module that the lines below it belong to."""

from __future__ import annotations

from triage.intake.entries import overview
from triage.intake.entries.headings import lead_of, nameable, section
from triage.intake.entries.headname import Heading, name_in
from triage.intake.lines import outline
from triage.intake.lines.row import Row
from triage.intake.said import phases
from triage.intake.said.answers import spoken
from triage.intake.scan.context import Context


def above_a_list(context: Context, row: Row) -> bool:
    """Read the name in a row that stands above a list as all headings of the text do; whether it can be one."""
    if phases.find(row.low) is not None or spoken(row.low) or section(context, row) is not None:
        return False
    heading = name_in(context, row, row.text[: outline.count_at(row.text)])
    before = row.text[: heading.end].lstrip(" =") if heading is not None else ""
    if heading is None or ":" in before or "=" in before:
        return False
    named = context.names.score(heading.printed) >= 60.0 or nameable(heading.printed)
    if named:
        open_heading(context, row, heading)
    return named


def open_heading(context: Context, row: Row, heading: Heading, *, guessed: bool = False) -> None:
    """Make the module of a heading the one that the lines below belong to."""
    if context.blanks:
        context.headings_after_blank += 1
    else:
        context.headings_direct += 1
    builder = context.builder
    above, section_above = builder.module, (context.section, context.section_of_module)
    context.close_module()
    printed = overview.as_counted(context, heading.printed, heading.count)
    module = builder.name_module(printed, row.line, row.start + heading.start, row.start + heading.end, guessed)
    if module is above and (heading.again or _begins_page(context)):
        # So does the list of a status that the page broke.
        context.section, context.section_of_module = section_above
    context.under_heading = True
    context.heading_indent, context.heading_lead = row.line.indent, lead_of(row)
    context.heading_ruled = any(below.kind == "rule" for below in context.rows[context.at + 1 : context.at + 2])
    context.live_data = False
    context.list_of = None
    context.blanks = 0
    if heading.count is not None:
        module.stated = (heading.count, row.line, row.start, row.start + len(row.text))
        if heading.count == 0 and module.answer is None:
            module.answer = "clean"
    if heading.volts is not None and module.volts is None:
        from triage.intake.entries.voltplaces import plausible

        if plausible(context, row, heading.volts):
            module.volts = heading.volts.value


def _begins_page(context: Context) -> bool:
    """Whether nothing stands between the row being read and the foot or head of a page above it."""
    above = next((row for row in reversed(context.rows[max(0, context.at - 4) : context.at]) if not row.blank), None)
    return above is not None and above.line.number in context.page_marks


__all__ = ["above_a_list", "open_heading"]
