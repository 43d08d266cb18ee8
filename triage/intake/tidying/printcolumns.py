"""Pages set in columns, as a book is: one list goes on in a second one beside it, and each line of both holds a line of
each. They are put one below the other.

Two lists and no table: on both sides of the gap lines begin with codes, and with the names of modules above them.

>>> from triage.intake.plain.characters import lines
>>> text = "ABS                  Radio: no codes\\n  C0035 Wheel\\n    sensor           Gearbox\\n" + \
    "Engine                 P0700 Wrong\\n  P0562 Supply           ratio"
>>> [line.text for line in below(lines(text), ("ABS", "Radio", "Gearbox", "Engine").__contains__)][4:]
['  P0562 Supply', '', 'Radio: no codes', '', 'Gearbox', '  P0700 Wrong', '    ratio']
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import NamedTuple

from triage.intake.naming.names import tidy
from triage.intake.plain.characters import Line, line_of, low, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said.answers import answer_of_cell

_GAP = lazily(r"(?<=\S) {2,}(?=\S)|^ {12,}(?=\S)")
#: Whatever may be a code with slips in it, or a pair of numbers.
_CODE = lazily(r"(?:[-*\u2022] )?(?:[^\W_] ?[0-3oOiIlQ][0-9A-Fa-foOiIlsSzZ]{3}(?![g-zG-Z])|(?i:spn[ :]?\s?[0-9]))")
_NAMED_CODE = lazily(rf"[^:]{{2,40}}:\s+{_CODE.pattern}")
#: Columns are not narrower; what is set in stands so much behind the left edge of its column at most.
_NARROWEST, _FARTHEST, _SLACK = 14, 12, 1
_FEWEST, _MOST_BLANK, _TRIED = 2, 2, 4
_FEWEST_DRAWN, _MOST_COLUMNS = 4, 4


class _Columns(NamedTuple):
    """Where the lines of two columns begin and end, and where each of them is cut; -1: it has a left part alone."""

    first: int
    last: int
    cuts: list[int]


def below(found: Sequence[Line], is_name: Callable[[str], bool]) -> Sequence[Line]:
    """The lines, those of each further column below the one before; the same lines where there is none. Linear."""
    out = _below(found, is_name)
    if out is found and len(bars := Counter(line.text.find("|") for line in found if line.text.count("|") == 1)) <= _SLACK + 1:
        # A bar is drawn between the columns.
        drawn = sum(bars.values()) >= _FEWEST_DRAWN
        bare = [replace(line, text=line.text.replace("|", " "), low=line.low.replace("|", " "))
                for line in found] if drawn else found
        out = _below(bare, is_name)
        return found if out is bare else out
    for _ in range(_MOST_COLUMNS - 2) if out is not found else ():
        out = _below(out, is_name)
    return out


def _below(found: Sequence[Line], is_name: Callable[[str], bool]) -> Sequence[Line]:
    """The lines, those of one further column below the first."""
    starts: Counter[int] = Counter()
    gapped: list[int] = []
    for at, line in enumerate(found):
        if "   " in line.text:
            ends = [match.end() for match in _GAP.finditer(line.text, 0, 400)]
            starts.update(end for end in ends if end >= _NARROWEST)
            gapped += [at] if ends else []
    if len(gapped) < _FEWEST:
        return found
    tried = sorted(start for start, count in starts.most_common(_TRIED) if count >= _FEWEST)
    for edge in tried:
        out = _unfolded(found, gapped, edge, is_name)
        if out is not None:
            return out
    return found


def _unfolded(
    found: Sequence[Line], gapped: Sequence[int], edge: int, is_name: Callable[[str], bool]
) -> list[Line] | None:
    """The lines with the columns that meet at an edge one below the other; None where no two lists do."""
    out: list[Line] = []
    done = 0
    for at in gapped:
        if at < done or _cut(found[at], edge) in (None, -1):
            continue
        columns = _stretch(found, at, done, edge)
        if not _are_lists(found, columns, edge, is_name):
            continue
        out += found[done : columns.first]
        pairs = [_parts(line, cut) for line, cut in zip(found[columns.first : columns.last], columns.cuts, strict=True)]
        out += [left for left, _ in pairs]
        out.append(line_of(pairs[-1][0].number, "", "", (0,)))
        out += [right for _, right in pairs]
        done = columns.last
    return [*out, *found[done:]] if done else None


def _cut(line: Line, edge: int) -> int | None:
    """Where a line is cut at an edge, -1 where it ends before that; None where it goes on across."""
    text = line.text.rstrip()
    if len(text) < edge:
        return -1
    lead = text[: edge + _SLACK]
    bare = lead.rstrip()
    if text[edge - 2 : edge] == "  " or len(lead) - len(bare) > _SLACK + 1:
        return edge if text[edge - 1] == " " else edge - 1
    return edge - 1 if text[edge - 3 : edge - 1] == "  " else None


def _stretch(found: Sequence[Line], at: int, done: int, edge: int) -> _Columns:
    """The lines around one that is cut at an edge that may be of both columns."""
    first = at
    while first > done and found[first - 1].text.strip() and _is_left(found[first - 1], edge):
        first -= 1
    cuts: list[int] = []
    last, blank = first, 0
    while last < len(found) and blank <= _MOST_BLANK and (cut := _cut(found[last], edge)) is not None:
        blank = 0 if found[last].text.strip() else blank + 1
        cuts.append(cut)
        last += 1
    # What stands below the end of the second column is of no column, but for the rest of a block.
    both = max(place for place, cut in enumerate(cuts) if cut >= 0 and found[first + place].text[cut:].strip())
    stop = next((place for place in range(both + 1, len(cuts)) if not found[first + place].text.strip()), len(cuts))
    return _Columns(first, first + stop, cuts[:stop])


def _is_left(line: Line, edge: int) -> bool:
    """Whether a line above the first of both columns may be of the left one alone."""
    return _cut(line, edge) == -1


def _are_lists(found: Sequence[Line], columns: _Columns, edge: int, is_name: Callable[[str], bool]) -> bool:
    """Whether both columns are lists of codes below names."""
    coded, named, answered = [0, 0], [0, 0], [0, 0]
    both = 0
    for line, cut in zip(found[columns.first : columns.last], columns.cuts, strict=True):
        sides = (line.text, "") if cut < 0 else (line.text[:cut], line.text[cut:])
        both += all(map(str.strip, sides))
        for side, text in enumerate(sides):
            bare = text.strip()
            if not bare:
                continue
            if len(text) - len(text.lstrip()) > _FARTHEST:
                return False
            if _CODE.match(bare) or _NAMED_CODE.match(bare):
                coded[side] += 1
            elif answer_of_cell(low(bare)) is not None:
                answered[side] += 1
            elif is_name(tidy(bare.partition(":")[0].rstrip(" :"))):
                named[side] += 1
    return both >= _FEWEST and min(named) > 0 and sum(coded) >= _FEWEST and coded[1] + answered[1] > 0


def _parts(line: Line, cut: int) -> tuple[Line, Line]:
    """The two parts of a line."""
    if cut < 0:
        return line, line_of(line.number, line.raw, "", (0,))
    end = len(line.text[:cut].rstrip())
    left = reworded(line, end, len(line.text), "") if end else line_of(line.number, line.raw, "", (0,))
    return left, reworded(line, 0, cut, "") if line.text[cut:].strip() else line_of(line.number, line.raw, "", (0,))


__all__ = ["below"]
