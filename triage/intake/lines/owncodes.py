"""Makers' own numbers in the places of codes: where other lines, or other cells of a column, have a standard code.

>>> from triage.intake.lines.rows import rows_of
>>> found = rows_of("P0562 low\\n2AAF pump\\nU0100 lost\\n10000 km since then")
>>> adopt(found, lambda name: False)
>>> [[code.text for code in row.finds.codes] for row in found]
[['P0562'], ['2AAF'], ['U0100'], []]
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Collection, Sequence
from copy import copy
from functools import cached_property
from typing import Any

from triage.intake.codes.finds import Finds, Found
from triage.intake.codes.ownnumbers import SIGN, TOKEN
from triage.intake.lines import alikenumbers, amongcodes, ledcodes, namelist, shortnumbers
from triage.intake.lines.codeplaces import Shapes, address_end, behind_name, manner
from triage.intake.lines.outline import Level, level_of
from triage.intake.lines.ownevidence import (
    goes_on,
    has_status,
    is_head,
    measured,
    of_other_use,
    own_at,
    put,
    tells_status,
)
from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.naming.names import tidy
from triage.intake.plain import signs
from triage.intake.plain.characters import has_digit, has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.said.happenings import is_aside
from triage.intake.said.near import small

_FIRST = lazily(rf"({TOKEN})")
_BEHIND_NAME = behind_name(TOKEN)
#: Numbers with letters that no standard code with a slip in it looks like.
_LETTERS = lazily(rf"(?<![\w./-])(?![PCBUpcbu][0-9])(?=[0-9]*[A-Za-z]){TOKEN}")
#: Another number in the line of a first one.
_FURTHER = lazily(rf"(?:[;,|]|\s/)\s+({TOKEN})(?=\s+(?:[-|:]\s+)?[^\W\d]|\s*[-(\[:,])")
#: A name between two marks behind a number, and what is told behind it: "18927; Brake control [0x714]; internal fault".
_NAME_NEXT = lazily(
    r"\s*(?P<mark>::|[;|/,]|->)\s*(?P<name>[^\W\d][^;|/,\[(\t]{1,50}?)\s*(?:[\[(][^;|\[\]()]{1,24}[\])]\s*)?"
    r"(?P=mark)\s*[^\W\d]"
)
#: A key and a number.
_PAIR = lazily(rf"([^\W\d][^:=]{{0,24}}?)\s*[:=]\s*({TOKEN})")
#: What stands before a mark in a line; a description behind a number.
_NAME_LEADS = lazily(r"([^\W\d][^:=>|;\t]{1,60}?)\s*(:|->|=>?|\|)\s")
_WORDS = lazily(r"\s+[^\W\d]{2}")
#: So many lines that start with a code tell how the others are to be read.
_FEW = 2
#: A name that nobody knows has no more letters than this.
_LONGEST_NAME = 30
#: A row with a name, a number and more is one of a table.
_FEWEST_CELLS = 3
#: Of each code that is described before it.
_PLACES = 3


def adopt(rows: Sequence[Row], is_name: Callable[[str], bool], letters: Collection[str] = ()) -> None:
    """Give the rows whose place of a code holds a maker's own number that number as their code, beside those that the
    whole text told. ``letters``: those that the text explained to stand for statuses."""
    told = [(row, row.finds) for row in rows if row.line.own and {code.kind for code in row.finds.codes} == {"own"}]
    known = _Known([(row, row.finds) for row in rows if row.finds.codes and not row.head])
    for row, finds in told:
        row.finds = finds._replace(codes=())
    _adopt(rows, is_name, known, letters)
    for row, finds in told:
        _put(row, finds.codes)
        # In a cell of its own a number may as well be a distance.
        others = further(row, row.finds.codes[0].end) if not row.roles else []
        if row.kind in ("|", "\t"):
            others = [other for other in others if has_letter(other.text)]
        for other in others:
            row.finds = row.finds.allowed(other.start, other.end)
        _put(row, others)
        if len(row.described) != _PLACES * len(row.finds.codes):
            # What was taken for the description of one holds another.
            row.described = ()


class _Known(Sequence[Row]):
    """Rows with the codes that they had before any was added; few texts ask for them."""

    def __init__(self, told: Sequence[tuple[Row, Finds]]) -> None:
        self._told = told

    @cached_property
    def _rows(self) -> list[Row]:
        found = [copy(row) for row, _ in self._told]
        for row, (_, finds) in zip(found, self._told, strict=True):
            row.finds = finds
        return found

    def __getitem__(self, at: Any) -> Any:
        return self._rows[at]

    def __len__(self) -> int:
        return len(self._told)


def _put(row: Row, others: Sequence[Found]) -> None:
    """Put further codes into a row, in their order, each once."""
    known = {code.start for code in row.finds.codes}
    codes = [*row.finds.codes, *(code for code in others if code.start not in known)]
    row.finds = row.finds._replace(codes=tuple(sorted(codes, key=lambda code: code.start)))


def _adopt(rows: Sequence[Row], is_name: Callable[[str], bool], known: Sequence[Row], letters: Collection[str],
           ) -> None:
    """The same for rows without a code. ``known``: those with one, however it was found."""
    _doubt_one(rows)
    bare = [
        at for at, row in enumerate(rows)
        if not row.blank and not row.finds.codes and not row.roles and not row.head and has_digit(row.low)
        and not is_aside(row.low)
    ]
    amongcodes.adopt([row for row in rows if row.finds.codes and not row.head], is_name)
    if not bare:
        return
    shapes = Shapes(known)
    behind: list[tuple[Row, re.Match[str]]] = []
    unknown: list[tuple[Row, re.Match[str]]] = []
    doubtful: list[tuple[Row, re.Match[str]]] = []
    for at in bare:
        before, row, after = rows[at - 1] if at else None, rows[at], rows[at + 1] if at + 1 < len(rows) else None
        beside = any(_starts(other, row) for other in (before, after)) or (
            row.text[2:3] == "-" and before is not None and is_head(before, is_name)
        )
        if _in_column(row, shapes) or _at_the_start(row, shapes, is_name, beside) or _led(row, is_name):
            continue
        match = _BEHIND_NAME.match(row.text, address_end(row)) if signs.of(row.low) & SIGN else None
        if match is None or of_other_use(row, *match.span(4)):
            continue
        if is_name(tidy(match[1])) or _in_a_list(row, match, shapes.marks):
            behind.append((row, match))
        elif (match.start() and match[1].isupper()) or _is_pointed_at(row, match):
            unknown.append((row, match))
        elif _may_be_alike(row, match):
            doubtful.append((row, match))
    if len(behind) > len(unknown):
        # Behind its address, or before an arrow, what nobody knows is a name as those of other lines are.
        behind += unknown
    likes = _named_alike(rows, is_name) if behind or doubtful else Counter()
    behind += [(row, match) for row, match in doubtful if likes[level_of(row), match[2].strip()[-1:]] > _FEW]
    for row, match in behind:
        if row.finds.codes:
            continue
        often = max(len(behind), likes[level_of(row), match[2].strip()[-1:]])
        listed = often > _FEW and "-" not in match[4]
        if shapes.marks[match[2].strip()[-1:]] >= 1 or listed or match[3] is not None or has_status(row, match.end()):
            put(row, match.start(4), match[4])
    _like_the_others(rows, bare)
    alikenumbers.adopt_alone(rows)
    alikenumbers.adopt([rows[at] for at in bare], is_name, known, rows, letters)
    alikenumbers.adopt_likewise(rows)
    shortnumbers.adopt(rows, is_name)
    for row in (rows[at] for at in bare):
        if row.finds.codes:
            row.finds = row.finds._replace(codes=(*row.finds.codes, *further(row, row.finds.codes[-1].end)))
    _before_others(rows, Counter(match[2].strip() for row, match in behind if row.finds.codes))


def _before_others(rows: Sequence[Row], marks: Counter[str]) -> None:
    """Give the rows with standard codes the numbers that stand before those, right behind the name and the mark behind
    which other rows have theirs."""
    for row in rows if max(marks.values(), default=0) >= _FEW else ():
        if not row.finds.codes or row.head or row.roles or row.finds.codes[0].kind == "own":
            continue
        match = _BEHIND_NAME.match(row.text, address_end(row)) if signs.of(row.low) & SIGN else None
        if match is None or match.end() > row.finds.codes[0].start or marks[match[2].strip() or " "] < _FEW:
            continue
        first = own_at(row, match.start(4), match[4])
        if first is not None and not of_other_use(row, *match.span(4)):
            between = [own for own in further(row, first.end) if own.end <= row.finds.codes[0].start]
            _put(row, [first, *between])


def _is_pointed_at(row: Row, match: re.Match[str]) -> bool:
    """Whether an arrow leads from a name to a number with words behind it."""
    return match[2].strip().endswith(">") and has_letter(row.text[match.end() : match.end() + 3])


def _like_the_others(rows: Sequence[Row], bare: Sequence[int]) -> None:
    """Give the rows that are left the number in the column in which those found so far stand, behind whatever name."""
    left = [rows[at] for at in bare if not rows[at].finds.codes and len(rows[at].cells or ()) >= _FEWEST_CELLS]
    found = [rows[at] for at in bare if rows[at].finds.codes]
    if left and len(found) >= _FEW:
        shapes = Shapes(found)
        for row in left:
            _in_column(row, shapes)
    for at in bare:
        row, above = rows[at], rows[at - 1] if at else None
        if above is None or row.finds.codes or not above.finds.codes or above.finds.codes[0].kind != "own":
            continue
        match = _FIRST.match(row.text)
        if match is not None and row.start == above.start + above.finds.codes[0].start and has_status(row, match.end()):
            # Below the number of the module above, set in as far: another of that module.
            put(row, 0, match[1])


def _may_be_alike(row: Row, match: re.Match[str]) -> bool:
    """Whether a name that nobody knows may stand before a mark, a number and its description, in a line with a bullet,
    or before several of them."""
    if not match[2].strip() or role_of(small(match[1])) is not None or has_digit(match[1]) or (
            _WORDS.match(row.text, match.end()) is None):
        return False
    return bool(level_of(row)[1]) or bool(further(row, match.end()))


def _named_alike(rows: Sequence[Row], is_name: Callable[[str], bool]) -> Counter[tuple[Level, str]]:
    """How many lines of a level begin with the name of a module and a mark, whatever is told behind it."""
    found: Counter[tuple[Level, str]] = Counter()
    for row in rows:
        match = _NAME_LEADS.match(row.text, address_end(row)) if not (row.blank or row.head or row.roles) else None
        if match is not None and is_name(tidy(match[1])):
            found[level_of(row), match[2][-1]] += 1
    return found


def _in_a_list(row: Row, match: re.Match[str], marks: Counter[str]) -> bool:
    """Whether a name that nobody knows stands as those of other lines do before their codes, a status told behind."""
    mark, name = match[2].strip()[-1:], match[1]
    if not has_status(row, match.end()) or role_of(small(name)) is not None or has_digit(name):
        return False
    if not mark:
        # Nothing but a gap: "PACKER     E204 hopper switch active".
        apart = row.text[match.end(2) : match.start(4)]
        return name.isupper() and marks[mark] >= 1 and (len(apart) > 1 or "\t" in apart)
    return marks[mark] >= _FEW and (name.isupper() or len(name) <= _LONGEST_NAME)


def _doubt_one(rows: Sequence[Row]) -> None:
    """A single number that a standard code with a slip in its letter would look like ("X0300") is told and not taken
    for a maker's own number, if the text has no other that must be one."""
    refused = {row.text[each.start : each.end].upper() for row in rows for each in row.finds.refusals if each.own}
    if len(refused) != 1 or next(iter(refused))[1] not in "0123":
        return
    if any(match[0].upper() not in refused for row in rows for match in _LETTERS.finditer(row.text)):
        return
    for row in rows:
        if row.finds.refusals:
            row.finds = row.finds._replace(refusals=tuple(each._replace(own=False) for each in row.finds.refusals))


def further(row: Row, at: int) -> list[Found]:
    """The makers' own numbers that stand behind a first one, which ends at a place of the row."""
    found = []
    for match in _FURTHER.finditer(row.text, at):
        own = own_at(row, match.start(1), match[1])
        if own is not None and not measured(row, match.end()):
            found.append(own)
    return found


def _led(row: Row, is_name: Callable[[str], bool]) -> bool:
    """A number behind the name of a module and a word for a code, or behind a key for codes in the first of several
    cells: "code1=9BC8|Pump stuck|stored"."""
    led = ledcodes.behind_name(row, is_name) or _keyed(row)
    return led is not None and put(row, *led, few=True)


def _keyed(row: Row) -> tuple[int, str] | None:
    """The number, with its place, that is the value of a key for codes in the first of several cells."""
    if row.cells is None or len(row.cells) < _FEW:
        return None
    pair = _PAIR.fullmatch(first := row.cells[0].text)
    if pair is None or role_of(small(pair[1]), exactly=True) != "code":
        return None
    return row.text.index(first) + pair.start(2), pair[2]


def _in_column(row: Row, shapes: Shapes) -> bool:
    """A number in the column of the other codes."""
    place = shapes.in_column(row, _FIRST)
    return place is not None and put(row, *place)


def _starts(row: Row | None, beside: Row) -> bool:
    """Whether a row starts with a code, as far right as the one beside it."""
    coded = row is not None and bool(row.finds.codes) and not row.finds.codes[0].start
    return coded and row is not None and row.line.indent == beside.line.indent


def _at_the_start(row: Row, shapes: Shapes, is_name: Callable[[str], bool], beside: bool) -> bool:
    """A number at the start of a line as other lines start with their code, or with the name of a module behind it.
    ``beside``: a line right above or below starts with a code, or a name stands above."""
    match = _FIRST.match(row.text) if signs.of(row.low) & SIGN else None
    if match is None or of_other_use(row, *match.span(1)):
        return False
    after = manner(row, match.end())
    apart = row.text[match.end() :].startswith(("  ", "\t"))
    if "-" in match[1] and beside and apart and after in ("a", "("):
        return put(row, 0, match[1])
    doubtful = apart or not beside or goes_on(row.low, match.end())
    if "-" in match[1] and after == "a" and doubtful and not tells_status(row, match.end()):
        # "20-100 in the cold" is a range as well, "27-140  cable" a part of a list.
        return False
    if after and shapes.firsts[after] >= 2:
        return put(row, 0, match[1])
    if after in ("", "a") or not put(row, 0, match[1]):
        return False
    named = namelist.parts(row, is_name)
    if named and all(is_name(tidy(row.text[start:end])) for start, end in named):
        return True
    piece = _NAME_NEXT.match(row.text, match.end())
    between = row.text[match.end() :].split(" - ")
    if (piece is not None and is_name(tidy(piece["name"]))) or (
            len(between) > 2 and not between[0] and is_name(tidy(between[1]))):
        return True
    row.finds = row.finds._replace(codes=())
    return False
