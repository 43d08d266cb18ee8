"""The number of a module's codes between its name and the codes themselves, taken off: "ECM: 2 - P0562, P0301".

It is a count, and no number of the module, where it is the number of the codes that follow, in every such line; behind
a colon or in brackets in one line at least.

>>> from triage.intake.lines.rows import rows_of
>>> known = lambda name: name in ("ECM", "ABS", "TCM", "Door")
>>> [row.text for row in taken_off(rows_of("ECM: 2 - P0562, P0301\\nTCM: 0\\nABS: 1 - C0035"), known)]
['ECM: P0562, P0301', 'TCM: 0', 'ABS: C0035']
>>> [row.text for row in taken_off(rows_of("ECM 2: P0562, P0301\\nTCM 0\\nABS 1: C0035"), known)]
['ECM: P0562, P0301', 'TCM: no codes', 'ABS: C0035']
>>> [row.text for row in taken_off(rows_of("Door - 1 - U0100\\nDoor - 2 - U0100, U0101"), known)]
['Door - 1 - U0100', 'Door - 2 - U0100, U0101']
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from triage.intake.codes.found import find
from triage.intake.lines.layouts import Row
from triage.intake.lines.recut import is_as_pasted, without
from triage.intake.naming.heads import role_of
from triage.intake.naming.linking import strip_links
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import has_digit, has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.said import phases
from triage.intake.said.near import small
from triage.intake.scan.context import Context
from triage.intake.words.wordings import CODES

#: A number before the first code, with what parts it from the name and from the code.
_BEFORE = lazily(
    rf"(\s?[:=]\s{{0,3}}|\s-{{1,2}}\s|\s?[(\[]\s?|\s/\s(?=[0-9]{{1,2}}\s?{CODES}\s/)|\s{{1,3}})([0-9]{{1,2}})\s?x?\s?[)\]]?"
    rf"(?:{CODES}\s/\s|\s{{0,3}}(?:[:=>,;(\[-]{{1,2}}\s{{0,3}})?)$"
)
_ZERO = lazily(r"(.{2,40}?)\s(?:0|00)$")
_REACH = 16
_MOST_WORDS = 5

IsName = Callable[[str], bool]


@dataclass(frozen=True, slots=True)
class _Count:
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


def taken_off(rows: Sequence[Row], is_name: IsName) -> list[Row]:
    """The rows, those that count the codes of a module behind its name without the count. Linear."""
    counts = [
        count for at, row in enumerate(rows)
        if row.finds.codes and row.finds.codes[0].start > 3 and (count := _count(rows, at, is_name))
    ]
    agree = [count for count in counts if count.number == count.codes]
    loose = any(not count.firm for count in counts if count.number != count.codes)
    if loose or not any(count.listed for count in agree):
        return list(rows)
    zeros = [at for at, row in enumerate(rows) if not row.blank and row.low[-1:] == "0" and _zero(row, is_name)]
    if _number_modules(rows, counts) or not (
        all(count.sure for count in counts) or (zeros and len({count.number for count in counts}) > 1)
    ):
        return list(rows)
    found = list(rows)
    for count in counts:
        found[count.at] = _without(rows[count.at], count)
    for at in zeros:
        text = f"{_zero(rows[at], is_name)}: no codes"
        found[at] = Row(rows[at].line, text, rows[at].start, small(text), find(text))
    return found


def _count(rows: Sequence[Row], at: int, is_name: IsName) -> _Count | None:
    """The number between a name and the codes of a row."""
    row = rows[at]
    first = row.finds.codes[0].start
    if "|" in row.text or "\t" in row.text or not has_digit(row.text[max(0, first - _REACH) : first]):
        return None
    if not is_as_pasted(row):
        return None
    match = _BEFORE.search(row.low, max(0, first - _REACH), first)
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
    sure = bool(match[1].strip())
    firm = match[1].strip() in (":", "=", "(", "[", "/")
    listed = is_name(name)
    if not sure and not listed:
        return None
    # The mark that stays is the one before the number; with a bracket or nothing there, the one behind it.
    kept = match.start(2) if match[1].strip() in (":", "=", "-", "--", "/") else match.start()
    behind = row.text[match.end(2) : first].strip(" x)]")
    end = first if kept == match.start(2) or not behind else match.end(2) + row.text[match.end(2) : first].index(behind)
    return _Count(at, name, kept, end, int(match[2]), codes, sure, firm, listed)


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
