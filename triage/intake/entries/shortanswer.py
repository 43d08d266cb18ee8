"""A name and a short word for silence with no mark between: "ABS NR", "pass door N/R".

The letters stand for other things as well, so that they are an answer only in a list whose other lines are names with
an answer or a code.
"""

from __future__ import annotations

from triage.intake.lines.layouts import Row
from triage.intake.naming.names import tidy
from triage.intake.plain.patterns import lazily
from triage.intake.said.answers import spoken
from triage.intake.scan.context import Context

_SHORT = lazily(r"\s(?:n/?r|n\.r\.?|no-?rx|t/o|n/resp)\.?$")
#: So many other lines of a text must be those of a list.
_FEWEST, _LONGEST, _SURE = 2, 60, 85.0
_KEY = "short answers"


def read(context: Context, row: Row) -> str | None:
    """The name of a row that is such a line; None for any other."""
    if len(row.low) > _LONGEST or not row.low.rstrip(".").endswith(("r", "rx", "o", "resp")):
        return None
    match = _SHORT.search(row.low)
    if match is None:
        return None
    name = tidy(row.text[: match.start()])
    return name if context.names.score(name) >= _SURE and _is_list(context) else None


def _is_list(context: Context) -> bool:
    """Whether lines of the text begin with a listed name and tell an answer or a code right behind it."""
    if _KEY not in context.marked:
        context.marked[_KEY] = sum(_is_entry(context, row) for row in context.rows[:400])
    return context.marked[_KEY] >= _FEWEST


def _is_entry(context: Context, row: Row) -> bool:
    """Whether a row is a listed name with an answer or a code behind it."""
    if row.blank or len(row.low) > 2 * _LONGEST:
        return False
    told = [code.start for code in row.finds.codes[:1]] or [hit.start for hit in spoken(row.low)[:1]]
    return bool(told) and context.names.sure(tidy(row.text[: told[0]]))


__all__ = ["read"]
