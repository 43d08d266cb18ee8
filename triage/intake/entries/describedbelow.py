"""The description of a code in the line below it, where it sounds like an answer: below "U0155  stored", "no
communication with the cluster" says what that code means. Where most lines of a code and no more are followed by such a
line, no module is silent by it."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from triage.intake.entries import ownlines
from triage.intake.lines.row import Row
from triage.intake.naming.names import tidy
from triage.intake.said import states
from triage.intake.said.answers import answer_of_cell, spoken
from triage.intake.scan.context import Context

_KEY = "described below"
_FEWEST = 2
_LEADS = (" -", ":", " |", " >")
_EDGE = " \t-:;,|/()[]<>*\u2022\u2013\u2014"


def read(context: Context, row: Row, at: int) -> bool:
    """A row right below the code that it describes, in words of which answers are made too; whether it is one."""
    draft, above = context.open_code, context.open_row
    if draft is None or draft.text is not None or above is None or context.blanks or ":" in row.text or (
            above.line.number != context.rows[at - 1].line.number or row.line.indent < above.line.indent):
        return False
    hits = spoken(row.low)
    if not hits or any(hit.answer != "silent" for hit in hits) or states.in_text(row.low) or (
            answer_of_cell(row.low) is not None or not _is_bare(above)
            or context.names.score(tidy(row.text[: hits[0].start])) >= 60.0):
        # "ABS no response" is an answer wherever it stands.
        return False
    if _KEY not in context.marked:
        context.marked[_KEY] = _are_described(context.rows)
    if not context.marked[_KEY]:
        return False
    context.refuse(row)
    draft.text = row.text
    return True


def _are_described(rows: Sequence[Row]) -> bool:
    """Whether most codes that stand alone in their lines, or with their status, have a line of words below them, one at
    least with no answer in it."""
    bare = described = plain = 0
    for above, below in pairwise(rows):
        if above.blank or not _is_bare(above):
            continue
        bare += 1
        if below.blank or below.finds.codes or ":" in below.text or below.line.indent < above.line.indent or (
                ownlines.begins(below) is not None or answer_of_cell(below.low) is not None
                or states.of_cell(below.low) is not None):
            continue
        described += 1
        plain += not spoken(below.low)
    return plain > 0 and described >= max(_FEWEST, 0.75 * bare)


def _is_bare(row: Row) -> bool:
    """Whether a row holds one code, or a maker's own number, and nothing else but its status; the name of its module
    may lead to the code ("Radio - U0155 stored")."""
    if len(row.finds.codes) == 1:
        start, end = row.finds.codes[0].start, row.finds.codes[0].end
    elif not row.finds.codes and (begun := ownlines.begins(row)) is not None:
        start, end = begun[0].span(1)
    else:
        return False
    lead = row.text[:start]
    if row.finds.codes and lead.rstrip().endswith(_LEADS) and lead[-1:].isspace():
        start = 0
    rest = f"{row.low[:start].strip(_EDGE)} {row.low[end:].strip(_EDGE)}".strip()
    return not rest or states.of_cell(rest) is not None


__all__ = ["read"]
