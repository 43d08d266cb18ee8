"""What stands below a line that may be the name of a module: nothing between counts that may stand there as well,
not even the end of a page."""

from __future__ import annotations

from triage.intake.lines import supplyrow
from triage.intake.lines.idents import alone
from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.said import otherthings
from triage.intake.scan.context import Context

#: Where a module is found, in a line below its name.
_ADDRESS = lazily(
    r"(?:addr(?:ess)?\.?|adresse|direccion|(?:can|ecu|node)[ -]?id|id|bus|network|netz|protocol|protokoll)"
    r"\s{0,3}[:=#]?\s{0,3}(?:(?:0x|\$)?[0-9a-f]{1,8}h?|[a-z0-9-]{2,12})"
)
#: What follows a name stands so many lines below it at most, and on the next page at most so far.
_NEAR, _PAGE = 11, 60


def below_of(context: Context, at: int) -> Row | None:
    """The next line that is not blank, a rule, a module's part number or voltage, or a page's head or foot."""
    seen = 0
    for row in context.rows[at + 1 : at + _PAGE]:
        # However many blank lines fill up a page.
        seen = 0 if row.line.number in context.page_marks else seen + 1
        if seen > _NEAR and not row.blank:
            return None
        if row.blank or row.kind == "rule" or row.line.number in context.page_marks:
            continue
        if alone(row.low) or otherthings.is_part(row.low):
            continue
        if row.line.indent > context.rows[at].line.indent and _ADDRESS.fullmatch(row.low):
            continue
        if is_its_voltage(context, at, row):
            continue
        return row
    return None


def is_its_voltage(context: Context, at: int, below: Row) -> bool:
    """Whether a voltage below a row may be that of the module it names: it stands further right, says so, or stands
    in a text with headings before."""
    if not supplyrow.below_a_name(below.low):
        return False
    deeper = below.line.indent > context.rows[at].line.indent
    before = context.headings_direct + context.headings_after_blank
    return deeper or before > 0 or supplyrow.of_the_module(below.low)


__all__ = ["below_of", "is_its_voltage"]
