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
#: Words in a bracket at the end of a line.
_END = lazily(r"\s[(\[](?=[^()\[\]]*[^\W\d_]{2})([^()\[\]]{2,40}(?:\([^()]{1,12}\))?)[)\]]\s*$")


def joined(found: Sequence[Line]) -> Sequence[Line]:
    """The lines, such rows in one line each. Linear."""
    for mark in _MARKS:
        counts = [line.text.count(mark) for line in found]
        (most, many), *_ = Counter(filter(None, counts)).most_common(1) or [(0, 0)]
        if many >= _FEWEST and most >= _FEWEST_MARKS and any(0 < count < most for count in counts):
            found = _joined(found, mark, counts, most)
    return _closed(found)


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
    kept: list[Line] = []
    at = 0
    while at < len(found):
        row, stop, held = found[at], at + 1, counts[at]
        while 0 < held < most and stop < min(len(found), at + _MOST) and _may_go_on(found[at], found[stop]):
            row = lines_glued(row, found[stop], " ", start=len(found[stop].text) - len(found[stop].text.lstrip(" ")))
            held, stop = held + counts[stop], stop + 1
        whole = held == most and (stop == at + 1 or _cell(row, mark) == usual)
        kept.append(row if whole else found[at])
        at = stop if whole else at + 1
    return kept


def _may_go_on(first: Line, line: Line) -> bool:
    """Whether a line is set in further than the first of a row, or begins in small letters."""
    bare = line.text.lstrip()
    return bool(bare) and (line.indent > first.indent or bare[0].islower())


def _cell(line: Line, mark: str) -> int | None:
    """Which cell of a row its one code begins; None where it is not one, or stands elsewhere."""
    if model_codes.own(first := line.text.partition(mark)[0].split("  ")[0].strip(" \"'-")) and first.isalnum():
        return 0
    codes = find(line.text).codes
    before = line.text[: codes[0].start] if len(codes) == 1 else "none"
    return before.count(mark) if not before.rpartition(mark)[2].strip(" \"'|-") else None


__all__ = ["joined"]
