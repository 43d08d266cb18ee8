"""Modules behind a code, each with a status of its own: "U0100: TCM (stored), BCM (active) and EPS: pending".

>>> from triage.intake.lines.rows import rows_of
>>> row = rows_of("U0100: Transfer case (stored), TCM - active, EPS pending, BCM (not present)")[0]
>>> [(row.text[start:end], status) for start, end, status in told(row, lambda name: name in ("TCM", "EPS", "BCM"))]
[('Transfer case', 'stored'), ('TCM', 'current'), ('EPS', 'pending'), ('BCM', 'stored')]
"""

from __future__ import annotations

from typing import NamedTuple

from triage.intake.lines.row import Row
from triage.intake.naming import IsName
from triage.intake.naming.linking import trailing_status
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import plain_words
from triage.intake.said import states
from triage.intake.words.vocabulary import STATES
from triage.model.snapshot import StatusWord

#: From a code to the first of its modules.
_LEAD = lazily(
    r"\s*(?:[-=]*>|[:;=|]|-+(?=\s))?\s*(?:(?:in|im|dans|en|from|aus|bei)\s+)?(?:(?:the|dem|der|le|la|el)\s+|l')?"
)
_JOINT = lazily(
    r"\s*[,;]\s*(?:(?:and|und|et|y)\s+)?|(?<=[)\]])\s*/?\s+(?:(?:and|und|et|y)\s+)?(?=[^\s(\[])|\s+(?:and|und|et|y)\s+"
)
_IN_BRACKETS = lazily(r"(.*\S)\s*[(\[]([^()\[\]]{2,40})[)\]]")
_SET_OFF = lazily(r"(.*\S)\s*(?::|\s-|=)\s*([^:=]{2,40})")
#: What parts modules, and what sets a status off from its module.
_SIGNS, _MARKS = frozenset(",;)]"), frozenset("()[]:=-")
#: What every joint has in it, which is slow to look for.
_MAY_JOIN = lazily(r"[,;]|[)\]]\s*/?\s|\s(?:and|und|et|y)\s")
_MOST_WORDS, _LONGEST, _MOST = 6, 400, 30


class Told(NamedTuple):
    """The place of a name, and the status that its code has in that module."""

    start: int
    end: int
    status: StatusWord | None


def told(row: Row, is_name: IsName, translated: bool = False, least: float = 0.5) -> list[Told]:
    """The modules behind the codes at the start of a row, two or more, where each has its own status, or all are known
    and others than the last have; else none.
    ``is_name``: whether a text is the name of a module; where less than ``least`` of them are, it is no such list."""
    codes = row.finds.codes
    if not codes or len(row.text) > _LONGEST or _SIGNS.isdisjoint(row.text):
        return []
    if _MAY_JOIN.search(row.text, codes[-1].end - 1) is None:
        return []
    lead = _LEAD.match(row.low, codes[-1].end)
    begin = lead.end() if lead is not None else codes[-1].end
    pieces = _pieces(row, begin)
    if not 2 <= len(pieces) <= _MOST:
        return []
    before_last = row.low[begin : pieces[-1][0]]
    if _MARKS.isdisjoint(before_last) and STATES.starts.isdisjoint(plain_words(before_last)):
        return []
    ends = [_name_and_status(row, start, end, translated) for start, end in pieces[:-1]]
    if not any(status for _, status, _ in ends):
        # The last alone tells nothing of the others; and no name need be looked up.
        return []
    ends.append(_name_and_status(row, *pieces[-1], translated))
    found: list[Told] = []
    for (start, end), (name_end, status, apart) in zip(pieces, ends, strict=True):
        text = row.text[start:end]
        one = _named(text, start, name_end, status) if apart or is_name(tidy(text[:name_end])) else None
        if one is None:
            return []
        found.append(one)
    known = sum(is_name(tidy(row.text[one.start : one.end])) for one in found)
    if not all(one.status for one in found):
        # "TCM, BCM (stored)" tells the status of both.
        least = 1.0
    return found if known >= least * len(found) else []


def _pieces(row: Row, begin: int) -> list[tuple[int, int]]:
    """The places between commas and the like, from a place on."""
    found: list[tuple[int, int]] = []
    end = len(row.text.rstrip(" .;,"))
    for match in _JOINT.finditer(row.text, begin, end):
        found.append((begin, match.start()))
        begin = match.end()
    return [*found, (begin, end)]


def _name_and_status(row: Row, start: int, end: int, translated: bool) -> tuple[int, StatusWord | None, bool]:
    """Where the name ends in a piece, counted from its start; the status behind it; whether marks set that apart."""
    text = row.text[start:end]
    for form, marks in ((_IN_BRACKETS, ")]"), (_SET_OFF, ":=-")):
        match = form.fullmatch(text) if any(mark in text for mark in marks) else None
        status = states.of_cell(row.low[start + match.start(2) : start + match.end(2)], translated) if match else None
        if match is not None and status is not None:
            return match.end(1), status, True
    kept, meaning = trailing_status(text)
    status = states.of_cell(row.low[start + len(kept) : end], translated) if meaning is not None else None
    return (len(kept.rstrip()) if status is not None else len(text.rstrip())), status, False


def name_end(low: str, translated: bool = False) -> int:
    """Where the name ends in a cell: before a status in brackets.

    >>> name_end("eps (stored)"), name_end("eps (steering)"), name_end("eps")
    (3, 14, 3)
    """
    match = _IN_BRACKETS.fullmatch(low) if low.endswith((")", "]")) else None
    return match.end(1) if match is not None and states.of_cell(match[2], translated) is not None else len(low)


def _named(text: str, start: int, end: int, status: StatusWord | None) -> Told | None:
    """The name that a piece begins with; None where that is none."""
    name = text[:end].strip()
    if ("(" in name or ")" in name) and not (name.endswith(")") and name.count("(") == 1):
        return None
    begin = start + len(text[:end]) - len(text[:end].lstrip())
    if not has_letter(name) or len(name.split()) > _MOST_WORDS or any(mark in name for mark in "[]:;=|\t"):
        return None
    return Told(begin, begin + len(name), status)


__all__ = ["Told", "name_end", "told"]
