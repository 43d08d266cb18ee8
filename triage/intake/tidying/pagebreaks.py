"""Entries that a page break parts: the rest of a description, or its status, moved up to the code it goes on with.

>>> from triage.intake.lines.rows import rows_of
>>> text = "BCM\\n  P0700  Transmission\\n\\nPage 1 of 2\\n\\n     request  pending\\n  U3003  Battery"
>>> [row.text for row in joined(rows_of(text), {4}, lambda name: False)]
['BCM', 'P0700  Transmission', 'request  pending', '', 'Page 1 of 2', '', 'U3003  Battery']
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from copy import copy
from itertools import takewhile

from triage.intake.codes.ownnumbers import TOKEN
from triage.intake.lines.goingon import LINKS, ends_with_status, last_word
from triage.intake.lines.ownevidence import of_other_use, put
from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.naming.names import tidy
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.intake.said.answers import answer_of_cell, spoken

#: A page's foot and the next one's head hold so many lines at most.
_MOST = 12
#: So many lines of them may be neither counted nor told twice, and so many lines of an entry may stand behind them.
_UNKNOWN, _LINES = 3, 4
#: A maker's own number before its words.
_OWN = lazily(rf"({TOKEN})\s+(?:-\s+)?(?=[^\W\d]{{3}})")
#: So many lines hold a code that was wrapped.
_WRAPPED = 3
#: What keys below a code tell of it.
_OF_A_CODE = frozenset(("status", "failure_type", "description", "status_byte", "count"))
_LONGEST = 100


def joined(rows: Sequence[Row], marks: set[int], is_module: Callable[[str], bool]) -> list[Row]:
    """The rows, those that go on with the last entry of a page set behind it, before the page's foot. ``marks``: the
    numbers of the lines that are a page's foot or head, to which those are added that stand there. Linear."""
    found = list(rows)
    ended = bool(marks) and _ends_so(rows)
    at = 0
    while marks and at < len(found):
        if found[at].line.number not in marks or found[at].blank:
            at += 1
            continue
        first, last = _block(found, at, marks, is_module)
        code = _entry(found, first)
        if code is not None:
            stop = last + _ends_description(found, first, last)
            while stop < min(len(found), last + _LINES) and _goes_on(found, stop, code, ended, is_module):
                stop += 1
            if stop > last:
                # What stands between the parts of an entry is the page's, though nothing else tells that.
                marks.update(row.line.number for row in found[first:last] if not row.blank)
            found[first:stop] = found[last:stop] + found[first:last]
        at = max(last, at + 1)
    return found


def _block(rows: Sequence[Row], at: int, marks: set[int], is_module: Callable[[str], bool]) -> tuple[int, int]:
    """Where the foot and the head of pages around a mark begin, and where the text goes on behind them."""
    first = at
    while first > max(0, at - _MOST) and (
        rows[first - 1].blank or rows[first - 1].kind == "rule" or rows[first - 1].line.number in marks
    ):
        first -= 1
    last, unknown = at + 1, 0
    while last < min(len(rows), at + _MOST):
        row = rows[last]
        if not (row.blank or row.kind == "rule" or row.head or row.line.number in marks):
            unknown += 1
            if unknown > _UNKNOWN or row.line.indent or row.finds.codes or is_module(tidy(row.text)):
                break
            if states.of_cell(row.low) is not None or answer_of_cell(row.low) is not None:
                break
        last += 1
    while last > at + 1 and unknown and not rows[last - 1].blank and rows[last - 1].line.number not in marks:
        # What stands right above the next line may head it.
        if rows[last - 1].kind == "rule" or rows[last - 1].head:
            break
        last -= 1
    return first, last


def _entry(rows: Sequence[Row], first: int) -> Row | None:
    """The code whose entry stands right above a place and lacks its status; None where none does."""
    for at in range(first - 1, max(-1, first - 1 - _LINES), -1):
        row = rows[at]
        if row.blank or ends_with_status(row.low):
            return None
        if row.finds.codes:
            return row if len(row.finds.codes) == 1 else None
        if (own := _OWN.match(row.text)) is not None and not of_other_use(row, *own.span(1)):
            # The numbers of makers below a name are told from others where the rows are read.
            row = copy(row)
            return row if put(row, 0, own[1]) else None
    return None


def _ends_so(rows: Sequence[Row]) -> bool:
    """Whether the lines of most codes, or those right below that they go on in, end with their status."""
    coded = [at for at, row in enumerate(rows) if row.finds.codes]
    ended = 0
    for at in coded:
        below = takewhile(lambda row: not (row.blank or row.finds.codes), rows[at + 1 : at + _WRAPPED])
        ended += ends_with_status(rows[at].low) or any(ends_with_status(row.low) for row in below)
    return 2 * ended >= len(coded)


def _is_status(low: str, ended: bool) -> bool:
    """Whether a line is a key that tells of a code with its value, or a status in brackets; or alone, where other codes
    have theirs at their end (``ended``)."""
    key, colon, value = low.partition(":")
    if colon and (role := role_of(key)) in _OF_A_CODE:
        return role != "status" or states.of_cell(value.strip()) is not None
    if states.of_cell(low) is None or low.endswith(":"):
        return False
    return ended or (low[0] in "([" and low[-1] in ")]")


def _is_rest(row: Row, code: Row, is_module: Callable[[str], bool]) -> bool:
    """Whether a line as far left as the code is the rest of its description: in small letters where that has capital
    ones, and no name. Where codes are set in below their headings a name may stand in it."""
    if not row.text[0].islower() or not any(map(str.isupper, code.text[code.finds.codes[0].end :])):
        return False
    if is_module(tidy(row.text)) and not code.line.indent:
        return False
    said = (row.low[hit.start : hit.end] for hit in spoken(row.low))
    return answer_of_cell(row.low) is None and all(map(states.in_text, said))


def _tells_a_bare_code(rows: Sequence[Row], at: int, code: Row, is_module: Callable[[str], bool]) -> bool:
    """Whether a line above a status tells what a code means that stands alone in its line."""
    below = rows[at + 1] if at + 1 < len(rows) else None
    bare = not code.text[code.finds.codes[-1].end :].strip(" :-") and not is_module(tidy(rows[at].text))
    return bare and below is not None and _is_status(below.low, True) and ":" not in rows[at].text


def _ends_description(rows: Sequence[Row], first: int, last: int) -> bool:
    """Whether the line behind a page's head ends what the last line before its foot breaks off: "U0131 No communication
    with" and there "power steering", whatever is called so."""
    if not first or last >= len(rows) or last_word(rows[first - 1].low) not in LINKS:
        return False
    row = rows[last]
    return not (row.blank or row.finds.codes or row.finds.refusals or row.head or row.kind == "rule"
                or ":" in row.text or spoken(row.low) or len(row.text) > _LONGEST)


def _goes_on(rows: Sequence[Row], at: int, code: Row, ended: bool, is_module: Callable[[str], bool]) -> bool:
    """Whether a line stands further right than the codes and tells neither a code nor an answer, or is the status that
    the code lacks."""
    row = rows[at]
    if row.blank or row.finds.codes or row.finds.refusals or row.head or row.kind == "rule":
        return False
    if row.line.indent == code.line.indent and _is_status(row.low, ended):
        return True
    if len(row.text) > _LONGEST or row.text.endswith(":"):
        return False
    if row.line.indent == code.line.indent and _tells_a_bare_code(rows, at, code, is_module):
        return True
    if row.line.indent == code.line.indent and _is_rest(row, code, is_module):
        return True
    if row.line.indent <= code.line.indent:
        return False
    if answer_of_cell(row.low) is not None and states.of_cell(row.low) is None:
        return False
    below = next((other for other in rows[at + 1 : at + 3] if not other.blank), None)
    if is_module(tidy(row.text)):
        # A name alone heads the codes below it, unless they stand as far left as those above; none heads a status.
        if below is not None and not below.finds.codes and below.line.indent == row.line.indent:
            return ends_with_status(below.low) and answer_of_cell(below.low) is None
        return below is not None and bool(below.finds.codes) and below.line.indent == code.line.indent
    return True
