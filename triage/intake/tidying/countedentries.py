"""Entries with a piece in each line below headings that tell how many there are, or that have the key of a module: what
stands between a code and the next is told of that code, whatever its words are, with the foot and the head of pages
between its parts left out. A status heads the codes below it where each list begins with one.

>>> from triage.intake.lines.rows import rows_of
>>> said = "Body (2 faults)\\nCodes active now\\nU0164\\nLost\\nclimate\\nU0100\\nOpen\\nABS (1 fault)\\nOld faults\\n"
>>> said += "C0035\\nLeft"
>>> [row.text for row in joined(rows_of(said), lambda name: False)][2:]
['U0164 Lost climate', 'U0100 Open', 'ABS (1 fault)', 'Old faults', 'C0035 Left']
>>> said = "Body: 2 faults\\nU0164\\npassive\\nEngine\\nU0100\\nactive\\nRadio\\nABS: 1 fault\\nC0035\\n"
>>> said += "active\\nPump\\nmotor"
>>> [row.text for row in joined(rows_of(said), lambda name: False)]
['Body: 2 faults', 'U0164 Engine [passive]', 'U0100 Radio [active]', 'ABS: 1 fault', 'C0035 Pump motor [active]']
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import NamedTuple

from triage.intake.codes.pieces import stored_values
from triage.intake.lines import idents
from triage.intake.lines.pages import is_page_count, page_marks, with_blanks
from triage.intake.lines.row import Row
from triage.intake.naming import IsName
from triage.intake.naming.heads import role_of
from triage.intake.naming.names import tidy
from triage.intake.plain.patterns import lazily
from triage.intake.said import listheads, phases, states, volts
from triage.intake.said.answers import answer_of_cell, spoken
from triage.intake.said.counts import stated_count
from triage.intake.tidying import entrylines

_KEY = lazily(r"[\W_0-9]*([a-z][a-z /.-]{1,24}?)\s?[:=]\s*(?=\S)")
_WORDS = lazily(r"[a-z]{3}")
#: The number by which a module tells its part or its software.
_NUMBER = lazily(r"[0-9]{3}")
_EDGE = " -=*_:"
_FEWEST, _MOST, _LONGEST = 2, 6, 100


class _List(NamedTuple):
    """The codes below one heading, the first place behind them, and whether a status stands above the first."""

    codes: list[int]
    end: int
    headed: bool


def joined(rows: Sequence[Row], is_name: IsName) -> list[Row]:
    """The rows, those of such entries put together, what stands of pages between them behind. ``is_name``: listed
    names. Linear."""
    heads = [at for at, row in enumerate(rows) if _expected(row) is not None]
    if not heads:
        return list(rows)
    bare = {at: token for at, row in enumerate(rows) if at > heads[0] and (token := entrylines.token(row))}
    if len(bare) < _FEWEST:
        return list(rows)
    marks = page_marks(rows, is_name)
    pages = with_blanks([row.blank for row in rows], {at for at, row in enumerate(rows) if row.line.number in marks})
    letters = entrylines.marks_below(rows, bare, is_name)
    pages = _without_told(rows, pages, bare, letters)
    lists = [found for at, end in zip(heads, [*heads[1:], len(rows)], strict=True)
             if (found := _list(rows, at, end, bare, pages, letters)) is not None]
    told = sum(len(each.codes) for each in lists)
    if told < _FEWEST or 2 * told < len(bare) or len({each.headed for each in lists}) > 1:
        return list(rows)
    rests = {at: rest for each in lists for at, rest in _rests(rows, each, pages, letters, is_name).items()}
    if any(not rest for rest in rests.values()):
        # A code without a word may be the last of those that the line above or below names.
        return list(rows)
    taken = {place for rest in rests.values() for place in rest}
    return [entrylines.one([row, *map(rows.__getitem__, rests[at])], letters) if at in rests else row
            for at, row in enumerate(rows) if at not in taken]


def _without_told(rows: Sequence[Row], pages: set[int], bare: dict[int, str], letters: set[str]) -> set[int]:
    """The places of pages' heads and feet without those that tell of a code: a status, and what stands right below a
    code or its status and is no line that pages repeat."""
    often = Counter(rows[at].low for at in pages)
    told = {place for at in bare for place in (at + 1, at + 2) if place in pages and often[rows[place].low] == 1
            and not rows[place].blank and not is_page_count(rows[place].low)
            and (place == at + 1 or entrylines.status(rows[place - 1], letters))}
    below = {rows[at + 1].low for at in bare if at + 1 < len(rows) and at + 1 not in pages}
    return {at for at in pages if rows[at].blank or not (
        at in told or rows[at].low in below or entrylines.status(rows[at], letters))}


def _expected(row: Row) -> int | None:
    """How many codes a heading says that stand below it, 0 for one that has the key of a module alone; None for any
    other row."""
    if row.blank or row.finds.codes or len(row.text) > _LONGEST or row.roles:
        return None
    count = stated_count(row.low)
    if count is not None:
        return count[0] if count[0] and _WORDS.search(row.low[: count[1]]) else None
    key = _KEY.match(row.low)
    return 0 if key is not None and role_of(key[1], exactly=True) == "module" else None


def _list(
    rows: Sequence[Row], head: int, end: int, bare: dict[int, str], pages: set[int], letters: set[str]
) -> _List | None:
    """The codes below a heading, where each stands alone in its line, there are as many as it says, and no line but the
    numbers of the module and a status stands above the first; None for any other list."""
    codes = [at for at in range(head + 1, end) if at in bare]
    count = _expected(rows[head])
    if not codes or (count and count != len(codes)) or any(
            rows[at].finds.codes and at not in bare for at in range(head + 1, end)):
        return None
    above = [at for at in range(head + 1, codes[0]) if at not in pages]
    headed = bool(above) and _heads(rows[above[-1]], letters)
    if any(_NUMBER.search(rows[at].low) is None for at in (above[:-1] if headed else above)):
        return None
    return _List(codes, end, headed)


def _heads(row: Row, letters: set[str]) -> bool:
    """Whether a row is a status, or the head of the codes that have it: "Faults now present"."""
    head = row.low.rstrip(_EDGE)
    return bool(entrylines.status(row, letters)) or listheads.status_of_head(head, True)[0] is not None


def _rests(
    rows: Sequence[Row], of: _List, pages: set[int], letters: set[str], is_name: IsName
) -> dict[int, list[int]]:
    """By the codes of a list the places of the lines that tell of each."""
    found: dict[int, list[int]] = {}
    for at, stop in zip(of.codes, [*of.codes[1:], of.end], strict=True):
        rest: list[int] = []
        words = rated = 0
        for place in range(at + 1, stop):
            if place in pages:
                continue
            row = rows[place]
            if of.headed and _heads(row, letters):
                break
            if not of.headed and entrylines.status(row, letters):
                if rated or len(rest) == _MOST:
                    break
                rated += 1
            elif not _may_tell(rows[at], row, not words) or len(rest) == _MOST or (
                    words and stop == of.end and _is_another(row, is_name)):
                # Behind the last code of a list the next module may stand.
                break
            else:
                words += 1
            rest.append(place)
        found[at] = rest
    return found


def _is_another(row: Row, is_name: IsName) -> bool:
    """Whether a row tells of another module than the one above it: a name alone, an answer."""
    said = [row.low, *(row.low[hit.start : hit.end] for hit in spoken(row.low))]
    return is_name(tidy(row.text)) or any(
        answer_of_cell(each) is not None and states.of_cell(each) is None for each in said)


def _may_tell(code: Row, row: Row, first: bool) -> bool:
    """Whether a row may be a part of what a code means, the ``first`` perhaps: no key, no count, no value."""
    if row.blank or row.finds.codes or row.roles or row.head or row.kind == "rule" or is_page_count(row.low):
        return False
    if len(row.text) > _LONGEST or row.text.endswith(":") or row.line.indent < code.line.indent:
        return False
    key = _KEY.match(row.low)
    if key is not None and role_of(key[1]) is not None:
        return False
    if first:
        return True
    if stated_count(row.low) is not None or stored_values(row.low) or volts.find(row.low):
        return False
    return phases.scan_head(row.low) is None and idents.before_idents(row.low) > 0


__all__ = ["joined"]
