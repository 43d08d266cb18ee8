"""What stands before the lines of a text: whether codes are set in below their headings, where long lines go on, and
whether every heading has its number."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Sequence
from itertools import pairwise

from triage.intake.lines.row import Row
from triage.intake.naming import IsName
from triage.intake.naming.names import LONGEST_NAME, tidy
from triage.intake.plain.patterns import lazily
from triage.intake.said import volts
from triage.intake.said.answers import spoken
from triage.intake.said.counts import stated_count

#: The number or the address of a module before its name.
NUMBER_BEFORE = lazily(
    r"\s*[(#\[]?(?:0x|\$)?(?=[0-9a-f]{0,2}[0-9])[0-9a-f]{1,3}h?(?:[.:)\]]\s*|\s[-:]\s|\s+)", re.IGNORECASE)
#: The address of a module in brackets behind its name, and what it answered.
_ADDRESS_BEHIND = lazily(
    r"[^\W_][^()\[\]<>:|\t]{1,48}?(?:\s\([^()\d]{2,24}\))?\s?(?P<mark>[(\[<](?:0x|\$)?(?=[0-9a-f]{0,2}[0-9]|[a-f]{2}[)\]>])"
    r"[0-9a-f]{2,3}h?[)\]>])(?=\s*:?\s*$|\s{2,}|\s?[:.-])")
_NUMBER_ANYHOW = lazily(
    r"[\s|.>*\u00b7-]{0,8}(?:[\[(#](?:0x|\$)?[0-9A-Fa-f]{1,3}h?[\])]?|(?:0x|\$)?[0-9A-F]{2}h?)[.:]?\s+(?:-+\s+)?(?=[^\W\d])")
_BEHIND_NAME = lazily(r"\s{2,}|\s-+\s|\s?:\s|\s?\.{3}")
#: So many headings at least tell how they are marked where rows without a mark may be names; so far above a row the
#: code stands that it may tell of.
_NAMED, _FEWEST, _FARTHEST = 0.6, 3, 5


def flat(all_rows: Sequence[Row]) -> bool:
    """Whether indentation says nothing: no code stands further right than other lines do."""
    coded = [row.line.indent for row in all_rows if row.finds.codes]
    plain = [row.line.indent for row in all_rows if not row.finds.codes and not row.blank]
    return bool(coded) and bool(plain) and min(plain) >= min(coded)


def hanging(all_rows: Sequence[Row]) -> bool:
    """Whether long lines go on further right than their codes: twice or more, and more often than right below them."""
    right = left = 0
    for before, row in pairwise(all_rows):
        if before.finds.codes and not row.finds.codes and not row.blank:
            right += row.line.indent > before.line.indent
            left += row.line.indent == before.line.indent
    return right >= 2 and right > 2 * left


def is_numbered(row: Row) -> bool:
    """Whether a number was taken off before a row."""
    return row.start > 0 and NUMBER_BEFORE.fullmatch(row.line.text, 0, row.start) is not None


def bears_number(row: Row) -> bool:
    """Whether a number, or an address of two letters, stands before a row, whatever specks are before that."""
    return is_numbered(row) or _NUMBER_ANYHOW.match(row.line.text) is not None


def is_addressed(row: Row) -> bool:
    """Whether an address in brackets stands behind the first words of a row: "Airbag (8E)", "Radio (0x12) - ok"."""
    match = _ADDRESS_BEHIND.match(row.low)
    return match is not None and not any(code.start < match.end() for code in row.finds.codes)


def marks_of_headings(
    all_rows: Sequence[Row], is_name: IsName, page_marks: Collection[int]
) -> tuple[bool, Callable[[Row], bool] | None]:
    """Whether the headings of a text are numbered, and what else marks all of them behind their names."""
    return numbered(all_rows, is_name, page_marks), mark_behind(all_rows, is_name, page_marks)


def numbered(all_rows: Sequence[Row], is_name: IsName, page_marks: Collection[int] = ()) -> bool:
    """Whether the headings of a text are numbered and nothing else is: most of several rows with a number name a
    module, no row without one does but below a code, whose description may go on in it, and none with one holds a
    code; nor does one above the first of them."""
    return _all_marked(all_rows, is_name, page_marks, is_numbered, bears_number)


def is_counted(row: Row) -> bool:
    """Whether a row tells the number of codes of the module it names, or its answer: "Wipers - 2 faults"."""
    if row.finds.codes:
        return False
    return bool(_name_of(row)) if stated_count(row.low) is not None else bool(spoken(row.low))


def mark_behind(
    all_rows: Sequence[Row], is_name: IsName, page_marks: Collection[int] = ()
) -> Callable[[Row], bool] | None:
    """What tells the headings of a text that all have an address behind the name, or all the number of their codes;
    None for any other text."""
    return next((told for told in (is_addressed, is_counted) if _all_marked(all_rows, is_name, page_marks, told, told)
                 and (told is is_addressed or _stand_over_codes(all_rows))), None)


def _stand_over_codes(all_rows: Sequence[Row]) -> bool:
    """Whether most rows that count the codes of a module have these below them: no overview of modules does."""
    counted = [at for at, row in enumerate(all_rows) if not row.finds.codes and (
        stated := stated_count(row.low)) is not None and stated[0] > 0]
    over = sum(any(below.finds.codes for below in all_rows[at + 1 : at + 3]) for at in counted)
    return over > _NAMED * len(counted)


def _all_marked(
    all_rows: Sequence[Row], is_name: IsName, page_marks: Collection[int], is_marked: Callable[[Row], bool],
    may_be: Callable[[Row], bool],
) -> bool:
    """Whether all headings of a text bear such a mark; ``may_be``: a row bears it, though none that is one."""
    heads = [at for at, row in enumerate(all_rows) if is_marked(row)]
    if len(heads) < 2 or any(row.finds.codes for row in (*all_rows[: heads[0]], *(all_rows[at] for at in heads))):
        return False
    if sum(is_name(_name_of(all_rows[at])) for at in heads) < _NAMED * len(heads):
        return False
    bare = [at for at in range(heads[0], len(all_rows)) if (row := all_rows[at]) and not (
        row.blank or row.finds.codes or len(row.text) > LONGEST_NAME or may_be(row)
        or row.line.number in page_marks) and is_name(tidy(row.text)) and not (
            volts.find(row.low) or _heads_page(all_rows, at, page_marks))]
    return not bare or (len(heads) >= _FEWEST and all(
        _may_end(all_rows, at, is_marked, page_marks) for at in bare))


def _heads_page(all_rows: Sequence[Row], at: int, page_marks: Collection[int]) -> bool:
    """Whether a row stands right behind the foot of a page."""
    above = next((row for row in reversed(all_rows[max(0, at - _FARTHEST) : at]) if not row.blank), None)
    return above is not None and above.line.number in page_marks


def _name_of(row: Row) -> str:
    """The name of a heading with what stands behind it left out."""
    text = row.text[: match.start("mark")] if (match := _ADDRESS_BEHIND.match(row.low)) is not None else row.text
    stated = stated_count(row.low)
    text = text if stated is None else text[: stated[1]]
    return tidy(_BEHIND_NAME.split(text, maxsplit=1)[0])


def _may_end(
    all_rows: Sequence[Row], at: int, is_marked: Callable[[Row], bool], page_marks: Collection[int],
) -> bool:
    """Whether a row may end the description of a code: that stands in one of the rows right above, the ends of pages
    left out, and no heading between."""
    parted = False
    for row in reversed(all_rows[max(0, at - _FARTHEST) : at]):
        if row.finds.codes or is_marked(row):
            return bool(row.finds.codes) and not parted
        parted = row.line.number not in page_marks and (parted or row.blank)
    return False


__all__ = [
    "NUMBER_BEFORE", "bears_number", "flat", "hanging", "is_addressed", "is_counted", "is_numbered", "mark_behind",
    "marks_of_headings", "numbered",
]
