"""A name and a short answer with no mark between: "ABS NR", "pass door N/R", in a numbered list "11 heater ok"; or in
brackets.

The letters, and "ok" behind a word that no table lists, stand for other things as well, so that they are an answer only
in a list whose other lines are names with an answer or a code.
"""

from __future__ import annotations

from triage.intake.lines.row import Row
from triage.intake.naming.names import tidy
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set, words
from triage.intake.said.answers import answer_of_cell, spoken
from triage.intake.said.near import small
from triage.intake.scan.context import Context

_BRACKETED = lazily(r"(.{2,50}?)\s*[(\[]([^()\[\]]{2,40})[)\]]")
_SHORT = lazily(r"\s(?:n/?r|n\.r\.?|no-?rx|t/o|n/resp)\.?$")
#: A line of a numbered list that begins with a name.
_NUMBERED = lazily(r"\s*([0-9]{1,3})[.)]?\s{1,3}(?=[a-z])")
#: Words that name no module, though nobody knows them.
_NO_NAME = word_set(
    "all everything rest others other it that this codes code faults dtcs test drive road now still battery batteries "
    "voltage wiring fuse fuses connector connectors ground grounds plug relay cable harness session alles alle rest "
    "batterie spannung tout reste tension todo resto bateria tension")
#: So many other lines of a text must be those of a list.
_FEWEST, _LONGEST, _SURE, _WORDS = 2, 60, 85.0, 3
_KEY = "short answers"


def read(context: Context, row: Row, at: int) -> tuple[str, str] | None:
    """The name and the answer of a row that is such a line; None for any other."""
    if len(row.low) > _LONGEST:
        return None
    if row.text.endswith((")", "]")) and (enclosed := _BRACKETED.fullmatch(row.text)) is not None:
        # "BCM / 0x708 (fault memory empty)": what is in the bracket is told as a whole.
        name, answer = context.names.bare(tidy(enclosed[1])), answer_of_cell(small(enclosed[2]))
        return (name, answer) if answer is not None and context.names.score(name) >= _SURE else None
    if row.line.low.lstrip()[:1].isdigit():
        told = _numbered(context, row, at)
        if told is not None:
            return told
    if not row.low.rstrip(".").endswith(("r", "rx", "o", "resp")):
        return None
    match = _SHORT.search(row.low)
    if match is None:
        return None
    name = tidy(row.text[: match.start()])
    return (name, "silent") if context.names.score(name) >= _SURE and _is_list(context) else None


def _numbered(context: Context, row: Row, at: int) -> tuple[str, str] | None:
    """The name, which no table lists, and the answer of a row in a numbered list whose lines beside it are entries."""
    hits = spoken(row.low)
    match = _NUMBERED.match(row.line.low) if len(hits) == 1 else None
    if match is None or row.low[hits[0].end :].strip(" .") or row.start > match.end():
        return None
    name = tidy(row.text[match.end() - row.start : hits[0].start])
    found = words(small(name))
    if not name.replace(" ", "").isalpha() or not 0 < len(found) <= _WORDS or context.names.score(name) >= 60.0:
        return None
    if any(word in _NO_NAME for word, _, _ in found):
        return None
    beside = [_entry_number(context, other) == int(match[1]) + step
              for step in (-1, 1) if (other := _next(context, at, step)) is not None]
    return (name, hits[0].answer) if len(beside) == 2 and all(beside) else None


def _next(context: Context, at: int, step: int) -> Row | None:
    """The next row that is not blank, up or down."""
    at += step
    while 0 <= at < len(context.rows) and context.rows[at].blank:
        at += step
    return context.rows[at] if 0 <= at < len(context.rows) else None


def _entry_number(context: Context, row: Row) -> int | None:
    """The number before an entry of a list."""
    match = _NUMBERED.match(row.line.low)
    if match is None or not _is_entry(context, Row(row.line, row.line.text[match.end() :], match.end())):
        return None
    return int(match[1])


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
