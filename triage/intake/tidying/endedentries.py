"""Entries that end with their status, whatever lines they were broken into: a code, and the lines below it up to the
first that ends with a status, where the codes of a text are so written. A line between them is no heading, whatever its
words are, and what a page's foot and head stand between is one entry.

>>> from triage.intake.lines.rows import rows_of
>>> said = "ABS\\nU0100 Lost link to\\nengine control - see\\nwiring Stored\\nC0035 Sensor left\\nActive\\nRadio"
>>> [row.text for row in joined(rows_of(said), ("ABS", "Radio").__contains__)]
['ABS', 'U0100 Lost link to engine control - see wiring Stored', 'C0035 Sensor left Active', 'Radio']
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import reduce

from triage.intake.codes.ownnumbers import SIGN, TOKEN
from triage.intake.codes.pieces import stored_values
from triage.intake.lines import goingon
from triage.intake.lines.glue import glued
from triage.intake.lines.outline import level_of
from triage.intake.lines.ownevidence import of_other_use, own_at
from triage.intake.lines.pages import is_page_count, page_marks, with_blanks
from triage.intake.lines.row import Row
from triage.intake.naming import IsName
from triage.intake.naming.heads import role_of
from triage.intake.naming.names import tidy
from triage.intake.plain import signs
from triage.intake.plain.patterns import lazily
from triage.intake.said import phases, states, volts
from triage.intake.said.answers import spoken
from triage.intake.said.counts import stated_count

#: A maker's own number before its words.
_OWN = lazily(rf"({TOKEN})\s+(?:-\s+)?(?=[^\W\d]{{3}})")
#: What parts the cells of a row.
_CELLS = frozenset("|;\t")
_EDGE = " \t-()[]"
#: So many lines an entry goes on in, so many of a text must, and so large a part of its codes must end with a status.
_MOST, _FEWEST, _SHARE = 4, 2, 0.8
_LONGEST = 100


def joined(rows: Sequence[Row], is_name: IsName) -> list[Row]:
    """The rows, those of such entries put together, what stands of pages between them behind. ``is_name``: listed
    names. Linear."""
    coded = [at for at, row in enumerate(rows) if (row.finds.codes or signs.of(row.low) & SIGN) and _begins(row)]
    if len(coded) < _FEWEST:
        return list(rows)
    marks = page_marks(rows, is_name)
    pages = with_blanks([row.blank for row in rows], {at for at, row in enumerate(rows) if row.line.number in marks})
    heads = set(coded)
    rests = {at: rest for at in coded if (rest := _rest(rows, at, pages, heads))}
    if len(rests) < _FEWEST:
        return list(rows)
    ended = sum(at not in rests and goingon.ends_with_status(rows[at].low, True) for at in coded)
    if len(rests) + ended < _SHARE * len(coded) or _are_otherwise(rows, coded[0], rests, is_name):
        return list(rows)
    taken = {place for rest in rests.values() for place in rest}
    found: list[Row] = []
    for at, row in enumerate(rows):
        if at in rests:
            found.append(reduce(glued, (_whole(rows[place]) for place in rests[at]), row))
        elif at not in taken:
            found.append(row)
    return found


def _begins(row: Row) -> bool:
    """Whether a row begins with a code, or a maker's own number, and holds no other one."""
    if row.blank or row.roles or not _CELLS.isdisjoint(row.text):
        return False
    if row.finds.codes:
        return len(row.finds.codes) == 1 and not row.finds.codes[0].start
    own = _OWN.match(row.text)
    return own is not None and own_at(row, 0, own[1]) is not None and not of_other_use(row, *own.span(1))


def _rest(rows: Sequence[Row], at: int, pages: set[int], heads: set[int]) -> list[int]:
    """The places of the lines in which an entry goes on up to its status; none where it ends in its own line, or
    without one."""
    found: list[int] = []
    said = rows[at].low
    for place in range(at + 1, len(rows)):
        if place in pages:
            continue
        row = rows[place]
        goes_on = place not in heads and len(found) < _MOST and _may_go_on(rows[at], row)
        if not goes_on and not found:
            return []
        ended = goingon.ends_with_status(said, True)
        if not goes_on or (ended and not _spans(said, row.low)):
            return found if ended else []
        found.append(place)
        said = f"{said} {row.low}"
    return found if goingon.ends_with_status(said, True) else []


def _spans(said: str, low: str) -> bool:
    """Whether a status begins in what was said so far and ends with a line."""
    told = states.in_text(f"{said} {low}", True)
    return bool(told) and told[-1].start < len(said) and goingon.ends_with_status(f"{said} {low}", True)


def _may_go_on(code: Row, row: Row) -> bool:
    """Whether a line may be the rest of the entry of a code: no other code, heading, answer, key or value."""
    if row.blank or row.finds.codes or row.finds.refusals or row.roles or row.head or row.kind == "rule":
        return False
    if len(row.text) > _LONGEST or row.text.endswith(":") or row.line.indent < code.line.indent or (
            not _CELLS.isdisjoint(row.text)):
        return False
    level = level_of(row)
    if (level[1] and level == level_of(code)) or (
            ":" in row.low and role_of(row.low.partition(":")[0]) is not None):
        return False
    told = states.in_text(row.low, True)
    status = told[-1].start if told and goingon.ends_with_status(row.low, True) else -1
    if any(hit.end > status and states.of_cell(row.low[hit.start : hit.end]) is None for hit in spoken(row.low)):
        return False
    if is_page_count(row.low) or stated_count(row.low) is not None or stored_values(row.low) or volts.find(row.low):
        return False
    return phases.find(row.low) is None or status >= 0


def _are_otherwise(rows: Sequence[Row], first: int, rests: dict[int, list[int]], is_name: IsName) -> bool:
    """Whether a text is written in another way: a status heads the codes below it, or names stand below the codes."""
    above = next((row for row in reversed(rows[:first]) if not row.blank), None)
    if above is not None and states.of_cell(above.low.strip(_EDGE)) is not None:
        return True
    named = 0
    for at, rest in rests.items():
        below = rows[rest[0]]
        told = states.in_text(below.low, True)
        name = below.text[: told[-1].start] if told and goingon.ends_with_status(below.low, True) else below.text
        named += goingon.last_word(rows[at].low) not in goingon.LINKS and (
            is_name(tidy(name)) or is_name(tidy(name.partition("(")[0])))
    return 3 * named >= len(rests)


def _whole(row: Row) -> Row:
    """A row with the hyphen before it, which is no bullet here."""
    before = row.line.text[: row.start]
    if before.strip() != "-":
        return row
    start = before.index("-")
    return replace(row, text=row.line.text[start:].rstrip(), start=start) if row.line.text[row.start :].rstrip() == (
        row.text.rstrip()) else row


__all__ = ["joined"]
