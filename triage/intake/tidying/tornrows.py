"""Rows of cells that were wrapped: lines too short by as many marks as the next ones hold, put together; and lines
that begin with their code without the bracket with words in which the others end.

>>> from triage.intake.plain.characters import lines
>>> said = "C0035;open;ABS;stored\\nC0040;lost;ABS;stored\\nC0900;supply\\n   low;SRS;active\\nC0051;lost;ABS;stored"
>>> [line.text for line in joined(lines(said))][2:]
['C0900;supply low;SRS;active', 'C0051;lost;ABS;stored']
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from triage.intake.codes.found import find
from triage.intake.lines.glue import lines_glued
from triage.intake.plain.characters import Line
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.model import codes as model_codes

#: Commas stand in descriptions as well.
_MARKS = ";|\t"
#: So many rows have so many marks each, a row is wrapped into so many lines at most.
_FEWEST, _FEWEST_MARKS, _MOST = 3, 2, 4
_NUMBER = lazily(r"[0-9]{1,4} ?[x%]?")
#: A dash between two pieces, and what no row ends with.
_DASH, _ENDS_NOT = lazily(r"(?<=\s)-(?!\S)"), ("-", ":")
#: A line that a number leads, or a bullet, begins something else.
_LED = lazily(r"\s*(?:(?=\S*[0-9])\S{1,4}[.)]?\s(?=-\s)|[-*>]\s|[0-9]{1,3}[.)]\s)")
#: Words in a bracket at the end of a line.
_END = lazily(r"\s[(\[](?=[^()\[\]]*[^\W\d_]{2})([^()\[\]]{2,40}(?:\([^()]{1,12}\))?)[)\]]\s*$")


def joined(found: Sequence[Line]) -> Sequence[Line]:
    """The lines, such rows in one line each. Linear."""
    for mark in _MARKS:
        counts = [line.text.count(mark) for line in found]
        (most, many), *_ = Counter(filter(None, counts)).most_common(1) or [(0, 0)]
        if many >= _FEWEST and most >= _FEWEST_MARKS and (
                any(0 < count < most for count in counts) or any(_NUMBER.fullmatch(line.text) for line in found)):
            found = _joined(found, mark, counts, most)
    return _closed(_dashed(found))


def _dashed(found: Sequence[Line]) -> Sequence[Line]:
    """The lines that begin with their code and part their pieces by dashes, each with the lines in which it goes on:
    those with too few dashes, and those that end with one or with a colon.

    >>> from triage.intake.plain.characters import lines
    >>> said = ("C0035 - open - active - count: 3\\nC0040 - pressure\\nlost - stored - count: 4\\n"
    ...         "C0051 - low - stored - count: 1\\nU0100 - lost - stored -\\ncount: 2\\nU0121 - no - active - count: 2")
    >>> [line.text for line in _dashed(lines(said))][1::2]
    ['C0040 - pressure lost - stored - count: 4', 'U0100 - lost - stored - count: 2']
    """
    starts = {at: len(_DASH.findall(line.text)) for at, line in enumerate(found)
              if " - " in line.text and _starts(line)}
    whole = [at for at in starts if found[at].text.rstrip()[-1:] not in _ENDS_NOT]
    (most, many), *_ = Counter(starts[at] for at in whole).most_common(1) or [(0, 0)]
    if many < _FEWEST or most < _FEWEST_MARKS or len(whole) == len(starts) == many:
        return found
    kept, at = list[Line](), 0
    while at < len(found):
        row, stop, held = found[at], at + 1, starts.get(at, most)
        while stop < min(len(found), at + _MOST) and (text := found[stop].text).strip() and (
                held < most or row.text.rstrip()[-1:] in _ENDS_NOT) and not _starts(found[stop]) and (
                text.startswith("- ") or _LED.match(text) is None):
            held += len(_DASH.findall(f" {text}"))
            row, stop = lines_glued(row, found[stop], " ", start=len(text) - len(text.lstrip())), stop + 1
        joined_up = held == most and at in starts and row.text.rstrip()[-1:] not in _ENDS_NOT
        kept.append(row if joined_up else found[at])
        at = stop if joined_up else at + 1
    return kept


def _closed(found: Sequence[Line]) -> Sequence[Line]:
    """The lines that begin with their code, each with the lines in which it goes on up to the bracket with words in
    which most of them end.

    >>> from triage.intake.plain.characters import lines
    >>> said = "C0035  open  [ABS]\\nC0040  pressure\\nlost  [ABS]\\nC0051  low  [Radio]\\nU0100  lost  [Radio]"
    >>> [line.text for line in _closed(lines(said))][1]
    'C0040  pressure lost  [ABS]'
    """
    ends = {at: match[1] for at, line in enumerate(found) if line.text.rstrip()[-1:] in ("]", ")") and (
        match := _END.search(line.low)) is not None and states.of_cell(match[1]) is None}
    starts = {at for at, line in enumerate(found) if _starts(line)} if len(ends) >= _FEWEST else set()
    ended = starts.intersection(ends)
    if len(ended) < _FEWEST or 2 * len(ended) < len(starts) or ended == starts:
        return found
    if len({ends[at] for at in ended}) == len(ended) or any(
            starts.isdisjoint(range(at - _MOST + 1, at + 1)) or at - 1 in ended for at in ends if at not in starts):
        # Headings have brackets as well.
        return found
    kept, at = list[Line](), 0
    while at < len(found):
        row, stop = found[at], at + 1
        if at in starts and at not in ended:
            while stop < min(len(found), at + _MOST) and found[stop].text.strip() and stop not in starts:
                text = found[stop].text
                row, stop = lines_glued(row, found[stop], " ", start=len(text) - len(text.lstrip())), stop + 1
                if stop - 1 in ends:
                    break
            row, stop = (row, stop) if stop - 1 in ends else (found[at], at + 1)
        kept.append(row)
        at = stop
    return kept


def _starts(line: Line) -> bool:
    """Whether a line begins with a code, a maker's own number perhaps."""
    return _cell(line, "|") == 0 and "|" not in line.text[:2]


def _joined(found: Sequence[Line], mark: str, counts: Sequence[int], most: int) -> Sequence[Line]:
    """The lines, those with fewer marks than ``most`` put together where that gives a row with its code in the cell in
    which the others have theirs."""
    cells = Counter(_cell(line, mark) for line, count in zip(found, counts, strict=True) if count == most)
    (usual, many), *_ = cells.most_common(1)
    if usual is None or many < _FEWEST or 2 * many < cells.total():
        return found
    full = [line.text.rstrip().endswith(mark) for line, count in zip(found, counts, strict=True) if count == most]
    # Where the last cell of a row is never empty, a line that ends with the mark goes on.
    to_come = mark != "\t" and 2 * sum(full) < len(full)
    kept: list[Line] = []
    at = 0
    while at < len(found):
        row, stop, held = found[at], at + 1, counts[at]
        while (0 < held < most or (to_come and held == most and row.text.rstrip().endswith(mark))) and (
                stop < min(len(found), at + _MOST) and _may_go_on(found[at], found[stop], number=held == most)):
            row = lines_glued(row, found[stop], " ", start=len(found[stop].text) - len(found[stop].text.lstrip(" ")))
            held, stop = held + counts[stop], stop + 1
        whole = held == most and (stop == at + 1 or _cell(row, mark) == usual or _own_in(row, mark, usual))
        kept.append(row if whole else found[at])
        at = stop if whole else at + 1
    return kept


def _may_go_on(first: Line, line: Line, *, number: bool = False) -> bool:
    """Whether a line is set in further than the first of a row, or begins in small letters; the last cell of a row may
    be a ``number``."""
    bare = line.text.lstrip()
    return bool(bare) and (line.indent > first.indent or bare[0].islower() or (
        number and _NUMBER.fullmatch(bare.rstrip()) is not None))


def _own_in(line: Line, mark: str, cell: int) -> bool:
    """Whether that cell of a row, and no code besides, is a maker's own number."""
    cells = line.text.split(mark)
    return not find(line.text).codes and bool(model_codes.own(cells[cell].strip(" \"'")))


def _cell(line: Line, mark: str) -> int | None:
    """Which cell of a row its one code begins; None where it is not one, or stands elsewhere."""
    if model_codes.own(first := line.text.partition(mark)[0].split("  ")[0].strip(" \"'-")) and first.isalnum():
        return 0
    codes = find(line.text).codes
    before = line.text[: codes[0].start] if len(codes) == 1 else "none"
    return before.count(mark) if not before.rpartition(mark)[2].strip(" \"'|-") else None


__all__ = ["joined"]
