"""Makers' own numbers whose form says least, four digits as years, counts and prices have them, or letters with two as
connectors and doors have them: read in lists below the name of a module, and in lines of the very shape in which the
other codes of the text stand.

>>> from triage.intake.lines.rows import rows_of
>>> found = rows_of("P0562, stored, low\\n6214, active, pump\\nU0100, stored, lost\\n2019, serviced\\n4500 rpm, idle")
>>> adopt(found, lambda name: False)
>>> [[code.text for code in row.finds.codes] for row in found]
[['P0562'], ['6214'], ['U0100'], [], []]
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from triage.intake.codes.ownnumbers import TOKEN, pattern
from triage.intake.lines import idents
from triage.intake.lines.codeplaces import Shapes, address_end, behind_name, manner
from triage.intake.lines.ownevidence import (
    YEAR,
    IsName,
    has_status,
    is_head,
    is_named,
    of_other_use,
    put,
    tells_name,
    tells_status,
)
from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import has_digit, has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.said import listheads, states
from triage.intake.said.counts import stated_count
from triage.intake.said.near import small

#: A description that ends so goes on in the next line.
_OPEN = word_set("at with of from in than over under below above to by when and or auf bei von mit unter uber und de a "
                 "con en sur avec y et")
_TOKEN = pattern("bare", "weak")
_WHOLE = lazily(_TOKEN)
_ANYWHERE = lazily(rf"(?<![^\s\[(]){_TOKEN}(?![^\s:,;|\])-])")
#: At the start of a line with a text behind, and behind a name.
_START = lazily(rf"({_TOKEN})(?:\s+|\s*[:|;]\s*|,\s+|(?=[\[(]))(?=[^\W\d]{{2}}|[-[(|:;]+\s*[^\W\d]{{2}})")
_NAMED = behind_name(_TOKEN)
#: Another maker's number, which is read in lists by itself.
_OTHER = lazily(rf"{TOKEN}\s*\W?\s*[^\W\d]{{2}}")
_TOLD = lazily(r"\s+[^\W\d]{2}|\s*[-[(,;|:]\s*[^\W\d]{2}|\s+[-|:]\s")
#: A row, and where such a number stands in it.
_Place = tuple[Row, int, str]
_LONGEST, _MOST_BESIDE = 160, 40
#: So many lines of a shape tell how the others of it are to be read.
_FEW = 2


def adopt(rows: Sequence[Row], is_name: IsName) -> None:
    """Give the rows with such a number in the place of a code that number as their code."""
    places = [
        at for at, row in enumerate(rows)
        if not (row.blank or row.finds.codes or row.roles or row.head) and has_digit(row.text)
        and _ANYWHERE.search(row.text)
    ]
    _below_names(rows, places, is_name)
    _alike(rows, places, is_name)


def _blocks(rows: Sequence[Row], places: Iterable[int]) -> Iterator[tuple[int, int]]:
    """Where the blocks begin and end that hold one of the places, which are given in their order; a blank row, a head
    and a rule part blocks."""
    stop = 0
    for place in places:
        if place < stop:
            continue
        first, last = place, place
        while first > stop and not _parts_blocks(rows[first - 1]):
            first -= 1
        while last < len(rows) and not _parts_blocks(rows[last]):
            last += 1
        stop = last
        if first < last:
            yield first, last


def _parts_blocks(row: Row) -> bool:
    return row.blank or row.head or row.kind == "rule"


def _alike(rows: Sequence[Row], places: Sequence[int], is_name: IsName) -> None:
    """Read four digits as a code in lines of the shape in which several others have theirs. ``places``: of the rows
    that hold such a number and no code."""
    if not any(row.finds.codes and not row.head and not row.roles for row in rows):
        return
    shapes = Shapes([row for row in rows if row.finds.codes and not row.roles])
    held = set(places)
    found: list[_Place] = []
    other = 0
    for first, last in _blocks(rows, places):
        block = rows[first:last]
        coded = any(row.finds.codes for row in block)
        for at, row in enumerate(block):
            if first + at not in held or not _may_hold(row):
                continue
            match = _START.match(row.text)
            if match is None:
                place = _inside(row, shapes, is_name) if coded else None
                found.extend([(row, *place)] if place is not None else [])
            elif at and block[at - 1].low.rpartition(" ")[2] in _OPEN:
                continue
            elif not of_other_use(row, *match.span(1)):
                led = _leads(block, at, manner(row, match.end(1)) not in ("", "a"), is_name)
                taken = _is_alike(row, match, shapes, is_name, led) and (coded or led)
                found.extend([(row, 0, match[1])] if taken else [])
                other += not (taken or YEAR.fullmatch(match[1]))
    found = _trusted(found if len(found) > other else [place for place in found if place[1]], is_name)
    plain = any(not YEAR.fullmatch(number) for _, _, number in found)
    for row, start, number in found:
        if plain and (not YEAR.fullmatch(number) or tells_status(row, start + len(number))):
            put(row, start, number, few=True)


def _trusted(found: Sequence[_Place], is_name: IsName, listed: bool = False) -> list[_Place]:
    """The places without numbers of letters that name a module ("ABS 03"), or that a connector or a door has as well,
    where neither another number like it nor a status speaks for a code, nor that codes are ``listed`` there."""
    alike = Counter(map(_letters, {number for _, _, number in found}))
    return [
        (row, start, number) for row, start, number in found
        if number.isdigit() or (not is_named(_letters(number), is_name) and (
            listed or alike[_letters(number)] >= _FEW or tells_status(row, start + len(number))))
    ]


def _letters(number: str) -> str:
    return number.rstrip("0123456789").rstrip(" -")


def _may_hold(row: Row) -> bool:
    """Whether a row without a code may have such a number for one: nothing is priced in it, and it is no aside."""
    if row.finds.codes or row.finds.refusals or row.roles or len(row.text) > _LONGEST:
        return False
    return _ANYWHERE.search(row.text) is not None and not of_other_use(row)


def _is_alike(row: Row, match: re.Match[str], shapes: Shapes, is_name: IsName, led: bool) -> bool:
    """Whether a row that begins with such a number has the marks of the lines that begin with a code. Where a word
    stands right behind it, as behind a year, or where the others tell a status, one or a name is told here too, or the
    row is led by a name or stands among codes. One other line is enough where most is told."""
    after = manner(row, match.end(1))
    status, name = tells_status(row, match.end(1)), tells_name(row, match.end(1), is_name)
    others, told = shapes.firsts[after], shapes.told[after]
    if others < _FEW:
        marked = after not in ("", "a") and told == others
        return bool(others) and ((status and (name or marked)) or (led and after not in ("", "a")))
    sure = after != "a" and told < others
    return sure or led or status or name


def _leads(block: Sequence[Row], at: int, marked: bool, is_name: IsName) -> bool:
    """Whether a row, with others like it, stands between codes, or between the name of a module and codes; or below a
    name, where it is ``marked`` behind its number."""
    above, below = at - 1, at + 1
    # A list of thousands of numbers is no list of codes.
    while above >= max(at - _MOST_BESIDE, 0) and _short_begins(block[above]):
        above -= 1
    while below < min(at + _MOST_BESIDE, len(block)) and _short_begins(block[below]):
        below += 1
    if above < 0 or block[above].line.indent > block[at].line.indent:
        return False
    among = below < len(block) and _begins(block[below])
    if _begins(block[above]):
        return among
    return (among or marked) and is_head(block[above], is_name)


def _short_begins(row: Row) -> bool:
    """Whether a row that has no code begins with such a number."""
    return not row.finds.codes and _START.match(row.text) is not None


def _begins(row: Row) -> bool:
    """Whether a row begins with a code."""
    return bool(row.finds.codes) and row.finds.codes[0].start == 0


def _inside(row: Row, shapes: Shapes, is_name: IsName) -> tuple[int, str] | None:
    """The place of such a number alone in the cell where other rows have their code, or behind a name."""
    place = shapes.in_column(row, _WHOLE)
    if place is not None and _tells_cell(row, place[0], is_name):
        return place
    match = _NAMED.match(row.text, address_end(row))
    if match is None or _TOLD.match(row.text, match.end()) is None or of_other_use(row, *match.span(4)) or (
            not is_name(tidy(match[1]))):
        return None
    mark, status = match[2].strip()[-1:], tells_status(row, match.end())
    likely = shapes.marks[mark] >= (1 if status else _FEW) and (mark or status)
    return (match.start(4), match[4]) if likely else None


def _tells_cell(row: Row, start: int, is_name: IsName) -> bool:
    """Whether another cell of a row than the one at a place is a status or the name of a module."""
    others = [cell for cell in row.cells or () if cell.start != start and has_letter(cell.text)]
    return any(states.of_cell(cell.low) is not None or is_name(tidy(cell.text)) for cell in others)


def _below_names(rows: Sequence[Row], places: Sequence[int], is_name: IsName) -> None:
    """Read four digits beside a text as a maker's own number in lines right below the name of a module: in several of
    them, where the name's line counts its codes or one between says that they follow, or with a status told apart."""
    short = {at: match for at in places if (match := _short(rows[at])) is not None and _is_listed(rows[at], match)}
    found: list[_Place] = []
    listed, others = False, 0
    for first, last in _blocks(rows, short):
        above = _Above()
        for at in range(first, last):
            row, match = rows[at], short.get(at)
            if match is None and not above.goes_on(row):
                above = _Above(row)
            elif match is None:
                others += _OTHER.match(row.text) is not None and all(code.kind == "own" for code in row.finds.codes)
            elif match is not None:
                if not above.is_indented(row):
                    above = _Above()
                elif above.named(is_name):
                    found.append((row, 0, match[1]))
                    listed = listed or above.says
    if not (listed or len(found) + others >= _FEW):
        found = [place for place in found if place[2].isdigit() and has_status(place[0], len(place[2]))]
    if all(YEAR.fullmatch(number) for _, _, number in found):
        return
    for row, start, number in _trusted(found, is_name, listed):
        put(row, start, number, few=True)


def _is_listed(row: Row, match: re.Match[str]) -> bool:
    """Whether a row stands as those of a list do below a name: "0915, car brought in" is told of a time."""
    return row.text[match.end(1)] not in ",;([" or tells_status(row, match.end(1))


def _short(row: Row) -> re.Match[str] | None:
    """Such a number beside a text at the start of a row, if nothing tells that it is of another use."""
    match = _START.match(row.text) if _may_hold(row) else None
    return match if match is not None and not of_other_use(row, *match.span(1)) else None


def begins(row: Row, surely: bool = False) -> str:
    """Such a number with which a row without a code begins, a text behind, as if it were its code; "" if it begins with
    none. ``surely``: a status is told there too.

    >>> from triage.intake.lines.rows import rows_of
    >>> [begins(row) for row in rows_of("6214, pump stuck\\n2019, serviced\\n4500 rpm, idle\\n6214 - 6220")]
    ['6214', '', '', '']
    """
    match = _short(row)
    if match is None:
        return ""
    plain = not surely and match[1].isdigit() and YEAR.fullmatch(match[1]) is None
    return match[1] if plain or tells_status(row, match.end(1)) else ""


@dataclass(slots=True)
class _Above:
    """What stands above a row that may begin with such a number: the line that may name the module, whether it or one
    below says that codes follow, and how far the codes of the list are set in."""

    head: Row | None = None
    says: bool = False
    indent: int | None = None
    is_module: bool | None = None

    def is_indented(self, row: Row) -> bool:
        """Whether a row with a number stands as far right as those before, and no further left than the name."""
        if self.head is None or row.line.indent < self.head.line.indent:
            return False
        self.indent = row.line.indent if self.indent is None else self.indent
        return row.line.indent == self.indent

    def goes_on(self, row: Row) -> bool:
        """Whether a row without such a number is one more code of the list, tells more of the one above it, or says
        that codes follow; part numbers may stand between as well."""
        if self.head is None:
            return False
        if self.indent is not None and row.line.indent > self.indent:
            return True
        if _begins(row) or _OTHER.match(row.text) is not None:
            return self.is_indented(row)
        if listheads.only_counts(row.low):
            self.says = True
            return True
        return idents.alone(row.low)

    def named(self, is_name: IsName) -> bool:
        """Whether the line above all is the name of a module; asked once."""
        if self.is_module is None and self.head is not None:
            stated = stated_count(self.head.low)
            text = self.head.text if stated is None else self.head.text[: stated[1]]
            key, _, value = text.partition(":")
            keyed = bool(value.strip()) and role_of(small(key), exactly=True) == "module"
            self.is_module = keyed or is_name(tidy(text))
            self.says = self.says or stated is not None
        return bool(self.is_module)
