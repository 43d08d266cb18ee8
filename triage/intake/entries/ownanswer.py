"""An answer that names no module: one that speaks of "the module", and a remark that is nothing but an answer. It is of
the module whose name stands above it."""

from __future__ import annotations

from triage.intake.entries import continuation
from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.plain.patterns import lazily
from triage.intake.said.answers import answer_of_cell, answer_of_it, spoken
from triage.intake.scan.context import Context

#: The key of a remark.
_KEY = lazily(r"([^\W\d_]{4,15})\s*(?:[:=]|-+>)\s*")
#: Behind the answer: what was tried, or looked at.
_MORE = lazily(r"\s*[.;,(]\s|\s-\s|\s\(")


def read(context: Context, row: Row, at: int) -> bool:
    """Give such an answer to the module above, of which nothing was said yet, or below which it is set in; whether
    the row was one."""
    module = context.builder.module
    if module is None or not context.under_heading or context.in_freeze_frame or len(row.low) > 120:
        return False
    inset = row.line.indent > context.heading_indent
    remarked = _remarked(row)
    if not inset and (module.answer is not None or module.codes):
        return remarked is not None
    answer = remarked or _answer(context, row.low)
    if answer is None or _heads(context, row, at):
        return False
    if module.codes:
        # The rest of a description: "U0140", and below it "no communication with module".
        continuation.go_on(context, row)
        return True
    context.builder.answer(module, answer)
    context.open_code = context.open_row = None
    return True


def _remarked(row: Row) -> str | None:
    """The answer that is the whole of a remark below a name: "Remark: no codes", below "Module: radio" or "[radio]"."""
    key = _KEY.match(row.low)
    if key is None or role_of(key[1]) != "description":
        return None
    return answer_of_cell(row.low[key.end() :])


def _answer(context: Context, low: str) -> str | None:
    """The answer of the line, or of its first clause where the rest speaks of no module and gives no answer."""
    whole = answer_of_it(low)
    more = _MORE.search(low) if whole is None else None
    if more is None:
        return whole
    rest = low[more.end() :]
    return None if spoken(rest) or context.names.find(rest) else answer_of_it(low[: more.start()])


def _heads(context: Context, row: Row, at: int) -> bool:
    """Whether names stand below the row and further right: it heads them."""
    below = next((other for other in context.rows[at + 1 : at + 3] if not other.blank), None)
    return (
        below is not None
        and not below.finds.codes
        and below.line.indent > row.line.indent
        and bool(context.names.find(below.low))
    )
