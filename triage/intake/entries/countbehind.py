"""The number of a module's codes between its name and the codes themselves, taken off: "ECM: 2 - P0562, P0301".

It is a count, and no number of the module, where it is the number of the codes that follow, in every such line; behind
a colon or in brackets in one line at least, or with more that speaks for it (:func:`_told`).

>>> from triage.intake.lines.rows import rows_of
>>> known = lambda name: name in ("ECM", "ABS", "TCM", "Door")
>>> [row.text for row in taken_off(rows_of("ECM: 2 - P0562, P0301\\nTCM: 0\\nABS: 1 - C0035"), known)]
['ECM: P0562, P0301', 'TCM: 0', 'ABS: C0035']
>>> [row.text for row in taken_off(rows_of("ECM 2: P0562, P0301\\nTCM 0\\nABS 1: C0035"), known)]
['ECM: P0562, P0301', 'TCM: no codes', 'ABS: C0035']
>>> [row.text for row in taken_off(rows_of("ECM 3 stored P0562 P0301 P0118\\n2 in TCM: P0700, U0100\\nABS 0"), known)]
['ECM stored P0562 P0301 P0118', 'TCM: P0700, U0100', 'ABS: no codes']
>>> [row.text for row in taken_off(rows_of("Door - 1 - U0100\\nDoor - 2 - U0100, U0101"), known)]
['Door - 1 - U0100', 'Door - 2 - U0100, U0101']
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from triage.intake.lines.recut import is_as_pasted, without
from triage.intake.lines.row import Row
from triage.intake.naming import IsName
from triage.intake.naming.heads import role_of
from triage.intake.naming.linking import strip_links, trailing_status
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import has_digit, has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.said import phases
from triage.intake.said.near import small
from triage.intake.scan.context import Context
from triage.intake.words.wordings import CODES

#: A number before the first code, with what parts it from the name and from the code.
_BEFORE = lazily(
    rf"(\s?[:=]\s{{0,3}}|\s-{{1,2}}\s|\s?[(\[]\s?|\s/\s(?=[0-9]{{1,2}}\s?{CODES}\s/)|"
    rf"\s{{1,3}})([0-9]{{1,2}})\s?x?\s?[)\]]?"
    rf"(?:{CODES}\s/\s|\s{{0,3}}(?:[:=>,;(\[-]{{1,2}}\s{{0,3}})?)$"
)
_ZERO = lazily(r"(.{2,40}?)\s{1,40}(?:0|00)$")
#: A name and a number alone in a line, above the codes; a number that counts what is in a module named behind it.
_HEAD = lazily(r"(.{2,40}?)(\s{1,40})([1-9][0-9]?)$")
_IN = lazily(
    rf"([0-9]{{1,2}})\s?x?\s+(?:{CODES}\s+)?((?:in|on|from|for|im|in der|am|aus|dans|sur|en)\s+"
    r"(?:the\s+|der\s+|dem\s+|le\s+|la\s+|el\s+|l')?)?(?=[^\W\d])"
)
_CODE_WORD = lazily(rf"(?<=\s[0-9]\s|[0-9]{{2}}\s)({CODES})\s?[:-]?\s*$")
_REACH = 16
_MOST_WORDS = 5
#: So many modules of a name that no table numbers are the most.
_MOST_UNITS = 2
_FEWEST, _LONGEST = 2, 48


class _Count(NamedTuple):
    """A ``number`` behind ``name``, at a place of a row's text; ``sure`` where a mark sets it off, ``firm`` where that
    is none of those that stand inside names."""

    at: int
    name: str
    start: int
    end: int
    number: int
    codes: int
    sure: bool
    firm: bool
    listed: bool
    #: A status stands between it and the codes.
    worded: bool


class _Lead(NamedTuple):
    """A ``number`` at the start of a row, before ``name``, which begins at ``end``; ``led`` by "in"."""

    at: int
    name: str
    end: int
    number: int
    codes: int
    led: bool


def taken_off(rows: Sequence[Row], is_name: IsName, numbered: IsName = lambda name: False) -> list[Row]:
    """The rows, those that count the codes of a module without the count. ``numbered``: whether a name with its number
    is that of one of several modules. Linear."""
    found = list(rows)
    leading = _leading(rows, found, is_name)
    counts = [
        count for at, row in enumerate(rows)
        if not row.blank and at not in leading and (count := _count(rows, at, is_name)) is not None
    ]
    agree = [count for count in counts if count.number == count.codes]
    loose = any(not count.firm for count in counts if count.number != count.codes)
    zeros = [at for at, row in enumerate(rows) if not row.blank and row.low[-1:] == "0" and _zero(row, is_name)]
    counts = [] if loose or not any(count.listed for count in agree) or _number_modules(rows, counts) else counts
    counts = counts if all(count.sure for count in counts) or _told(counts, bool(zeros), numbered) else []
    for count in counts:
        found[count.at] = _without(rows[count.at], count)
    for at in zeros if counts or leading else ():
        found[at] = rows[at].saying(f"{_zero(rows[at], is_name)}: no codes")
    return found


def _told(counts: Sequence[_Count], zeros: bool, numbered: IsName) -> bool:
    """Whether numbers that nothing sets off from the names count codes: they differ, and a line with none, three lines
    that hold, or the name of a module that no table numbers speaks for it; or they are as many as no vehicle has
    modules of such a name."""
    plain = [count for count in counts if not count.sure and not numbered(f"{count.name} {count.number}")]
    if any(count.number > _MOST_UNITS for count in plain):
        return True
    differ = len({count.number for count in counts}) > 1
    worded = [count for count in plain if count.worded]
    return differ and (zeros or (bool(plain) and len(counts) > 2) or (bool(worded) and len(counts) > 1))


def _leading(rows: Sequence[Row], found: list[Row], is_name: IsName) -> set[int]:
    """The places of rows that begin with the count of what is in the module named behind it ("2 in engine: P0562,
    P0685"); they are put into ``found`` without it. With no "in" between, such numbers must all hold, and differ."""
    told = [lead for at, row in enumerate(rows) if row.text[:1].isdigit() and (lead := _lead(rows, at, is_name))]
    bare = [lead for lead in told if not lead.led]
    differ = len({lead.number for lead in bare}) >= _FEWEST
    if not differ or any(lead.number != lead.codes for lead in bare):
        told = [lead for lead in told if lead.led]
    for lead in told:
        row = rows[lead.at]
        if lead.number:
            found[lead.at] = without(row, (0, lead.end))
            found[lead.at].counted = lead.number
        else:
            found[lead.at] = row.saying(f"{lead.name}: no codes")
    return {lead.at for lead in told}


def _lead(rows: Sequence[Row], at: int, is_name: IsName) -> _Lead | None:
    """The number that a row begins with, before the name of a module and its codes, in the row or below."""
    row = rows[at]
    match = _IN.match(row.low) if not {" ", "x"}.isdisjoint(row.low[1:3]) else None
    if match is None:
        return None
    number, codes = int(match[1]), len(row.finds.codes)
    below = at + 1
    while below < len(rows) and _goes_on(rows[below]):
        codes += len(rows[below].finds.codes)
        below += 1
    stop = row.finds.codes[0].start if row.finds.codes else len(row.text)
    if bool(number) != bool(codes) or stop - match.end() > _LONGEST or not is_as_pasted(row):
        return None
    name = tidy(row.text[match.end() : stop])
    if not is_name(name):
        return None
    return _Lead(at, name, match.end(), number, codes, match[2] is not None)


def _count(rows: Sequence[Row], at: int, is_name: IsName) -> _Count | None:
    """The number between a name and the codes of a row, or of the rows below."""
    row = rows[at]
    if not row.finds.codes:
        return _head(rows, at, is_name)
    first = row.finds.codes[0].start
    if first <= 3 or "|" in row.text or "\t" in row.text or not has_digit(row.text[max(0, first - _REACH) : first]):
        return None
    if not is_as_pasted(row):
        return None
    said = _CODE_WORD.search(row.low, max(0, first - _REACH), first)
    before, status = trailing_status(row.text[:first])
    place = said.start(1) if said is not None else len(before) if status is not None else first
    match = _BEFORE.search(row.low, max(0, place - _REACH), place)
    name = tidy(row.text[: match.start()]) if match is not None else ""
    if match is None or not has_letter(name) or role_of(small(name)) is not None or len(name.split()) > _MOST_WORDS:
        return None
    low = row.low[: match.start()]
    if has_digit(low) or phases.find(low) is not None or phases.scan_head(low) is not None:
        return None
    below = at + 1
    codes = len(row.finds.codes)
    while below < len(rows) and _goes_on(rows[below]):
        codes += len(rows[below].finds.codes)
        below += 1
    sure = bool(match[1].strip()) or said is not None
    firm = match[1].strip() in (":", "=", "(", "[", "/") or said is not None
    listed = is_name(name)
    if not sure and not listed:
        return None
    # The mark that stays is the one before the number; with a bracket or nothing there, the one behind it.
    kept = match.start(2) if match[1].strip() in (":", "=", "-", "--", "/") else match.start()
    behind = row.text[match.end(2) : place].strip(" x)]")
    end = place if kept == match.start(2) or not behind else match.end(2) + row.text[match.end(2) : place].index(behind)
    return _Count(at, name, kept, end, int(match[2]), codes, sure, firm, listed, status is not None)


def _head(rows: Sequence[Row], at: int, is_name: IsName) -> _Count | None:
    """The number behind a name alone in a row, above the rows with its codes."""
    row = rows[at]
    if not row.low[-1:].isdigit() or at + 1 >= len(rows) or not _goes_on(rows[at + 1]) or not is_as_pasted(row):
        return None
    match = _HEAD.fullmatch(row.text)
    name = tidy(match[1]) if match is not None and match[1][-1:].isalnum() else ""
    if match is None or not name or not is_name(name):
        return None
    below = at + 1
    codes = 0
    while below < len(rows) and _goes_on(rows[below]):
        codes += len(rows[below].finds.codes)
        below += 1
    # A column of numbers is none of the names.
    apart = len(match[2]) > 2
    return _Count(at, name, match.end(1), len(row.text), int(match[3]), codes, apart, False, True, False)


def _goes_on(row: Row) -> bool:
    """Whether a row holds more codes of the module above."""
    return bool(row.finds.codes) and not strip_links(row.text[: row.finds.codes[0].start])


def _number_modules(rows: Sequence[Row], counts: Sequence[_Count]) -> bool:
    """Whether one name stands with several numbers in lines that belong together: these tell modules apart."""
    seen: dict[str, int] = {}
    last = 0
    for count in counts:
        between = rows[last : count.at]
        if any(row.blank or (not row.finds.codes and phases.find(row.low) is not None) for row in between):
            seen = {}
        if seen.setdefault(count.name, count.number) != count.number:
            return True
        last = count.at
    return False


def _zero(row: Row, is_name: IsName) -> str:
    """The name in a line of a name and a zero with nothing but a space between them; "" in any other."""
    match = _ZERO.fullmatch(row.text)
    name = tidy(match[1]) if match is not None and match[1][-1:].isalnum() else ""
    return name if name and is_name(name) else ""


def _without(row: Row, count: _Count) -> Row:
    """The row without the number; a space stays where no mark is left."""
    start, end = count.start, count.end
    if row.text[start - 1 : start].isalnum() and row.text[end : end + 1].isalnum():
        end -= 1
    found = without(row, (start, end))
    found.counted = count.number
    return found


def place(context: Context, row: Row) -> None:
    """Keep the count that stood in a row just read, of the module that it named."""
    module = context.builder.module
    if module is not None and module.line is row.line and row.counted is not None:
        module.stated = (row.counted, row.line, row.start, row.start + len(row.text))


__all__ = ["place", "taken_off"]
