"""A line that says what is wrong with the vehicle, in words that answers have too: "doors dead on Monday"."""

from __future__ import annotations

from triage.intake.entries import answerrow
from triage.intake.lines.row import Row
from triage.intake.said.answers import spoken
from triage.intake.said.near import small
from triage.intake.scan.context import Context


def read(context: Context, row: Row) -> bool:
    """Take no answer out of the complaint, those beside it ("Bus 7, wipers dead on Friday, ABS no answer"); whether
    nothing more is to be read in the line."""
    return is_all(context, row) or _beside(context, row)


def is_all(context: Context, row: Row) -> bool:
    """Whether a line of the vehicle holds no answer but in what it says is wrong; noted where that names a module."""
    complaint = small(context.facts.values.get("complaint", ""))
    hits = spoken(row.low)
    if not all(row.low[hit.start : hit.end] in complaint for hit in hits):
        return False
    if hits and complaint in row.low:
        _note(context, row, complaint)
    return True


def begins_a_list(context: Context, row: Row) -> bool:
    """Whether a line begins with one of several modules that are told to hold nothing, or not to answer: a word for the
    cluster may be that for an estate car ("Kombi, Radio und Airbag haben keine Fehler")."""
    if not (hits := spoken(row.low)) or any(hit.doubtful for hit in hits):
        return False
    names = context.names.find(row.low)
    return len(names) > 1 and not names[0][0] and names[-1][0] < hits[0].start


def _note(context: Context, row: Row, complaint: str) -> None:
    """Tell of a complaint that names a module."""
    if context.names.find(complaint):
        context.builder.notice("note", "taken as the complaint, not as the answer of a module in this scan", row.line,
                               row.start, row.start + len(row.text))


def _beside(context: Context, row: Row) -> bool:
    """Read the answers beside what is wrong in a line; whether that holds an answer's word."""
    complaint = small(context.facts.values.get("complaint", ""))
    start = row.low.find(complaint) if complaint else -1
    end = start + len(complaint)
    if start < 0 or not any(start <= hit.start < end for hit in spoken(row.low)):
        return False
    _note(context, row, complaint)
    for first, text in ((0, row.text[:start]), (end, row.text[end:])):
        begin = first + len(text) - len(text.lstrip(" ,.;-"))
        part = Row(row.line, text.strip(" ,.;-"), row.start + begin)
        if hits := list(spoken(part.low)):
            answerrow.read(context, part, context.at, hits)
    return True


__all__ = ["begins_a_list", "is_all", "read"]
