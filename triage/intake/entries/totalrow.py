"""A line that counts the codes of a module or of all of them: it is held against what was read, at the end."""

from __future__ import annotations

from triage.intake.entries.headname import Heading
from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.said.counts import stated_count
from triage.intake.scan.context import Context

#: Words of a count of all codes of a scan.
TOTAL = lazily(
    r"(?<![a-z])(?:total|in total|overall|altogether|insgesamt|gesamt|summe|au total|en total|sum)(?![a-z])"
)


def read(context: Context, row: Row) -> bool:
    """A count of all codes, checked at the end."""
    stated = stated_count(row.low)
    if stated is None or (
        context.builder.module is not None
        and context.under_heading
        and not TOTAL.search(row.low)
        and row.line.indent > context.heading_indent
    ):
        if stated is not None and context.builder.module is not None and not row.low[: stated[1]].strip(" :-*"):
            context.builder.module.stated = (stated[0], row.line, row.start, row.start + len(row.text))
            return True
        return False
    if TOTAL.search(row.low):
        context.builder.restated.append((stated[0], row.line, row.start + stated[1], row.start + stated[2]))
        return True
    above = context.builder.module is not None and context.under_heading and context.blanks == 0
    if above and context.builder.module is not None and not row.low[: stated[1]].strip(" :-*"):
        context.builder.module.stated = (stated[0], row.line, row.start, row.start + len(row.text))
        return True
    return False


def counts_all(context: Context, row: Row, heading: Heading) -> bool:
    """Whether a row with a name counts all codes: a word for that is no part of the name ("SUM (Level control): 2")."""
    total = TOTAL.search(row.low) if heading.count is not None else None
    return total is not None and not (context.names.sure(heading.printed) and context.names.listed(total[0]))


def is_total(low: str) -> bool:
    """Whether a line counts all codes and says nothing else.

    >>> is_total("total: 0 codes"), is_total("0 faults in total."), is_total("total loss: 0 codes")
    (True, True, False)
    """
    stated = stated_count(low)
    if stated is None or TOTAL.search(low) is None:
        return False
    rest = (low[: stated[1]] + low[stated[2] :]).strip(" :=-.*")
    return not rest or TOTAL.fullmatch(rest) is not None


__all__ = ["TOTAL", "counts_all", "is_total", "read"]
