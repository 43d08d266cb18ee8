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
from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

from triage.intake.codes.found import find
from triage.intake.lines import columnlines
from triage.intake.lines.columnlines import KindOf
from triage.intake.naming import IsName
from triage.intake.plain.characters import Line, line_of, reworded
from triage.intake.plain.patterns import lazily

_GAP = lazily(r"(?<=\S) {2,}(?=\S)|^ {12,}(?=\S)")
#: The mark before the value of a key.
_VALUE = lazily(r"\s*(?:[-=]{1,2}>|[:=>|])\s")
#: Columns are not narrower; what is set in stands so much behind the left edge of its column at most.
_NARROWEST, _FARTHEST, _SLACK = 14, 12, 1
_FEWEST, _MOST_BLANK, _TRIED = 2, 2, 4
_FEWEST_DRAWN, _MOST_COLUMNS = 3, 4
#: So many of the lines at the left edge of a list may be none of those that lists are made of.
_STRANGE = 0.25


class _Columns(NamedTuple):
    """Where the lines of two columns begin and end, and where each of them is cut; -1: it has a left part alone."""

    first: int
    last: int
    cuts: list[int]


def below(found: Sequence[Line], is_name: IsName) -> Sequence[Line]:
    """The lines, those of each further column below the one before; the same lines where there is none. Linear."""
    kind = columnlines.kinds(is_name)
    out = _below(found, kind)
    if out is found:
        bare = _without_bar(found)
        return found if bare is None or (out := _below(bare, kind, drawn=True)) is bare else out
    for _ in range(_MOST_COLUMNS - 2):
        out = _below(out, kind)
    return out


def _without_bar(found: Sequence[Line]) -> Sequence[Line] | None:
    """The lines without the bar that is drawn between two columns; None where none is."""
    bars = Counter(line.text.find("|") for line in found if line.text.count("|") == 1)
    at, often = max(bars.items(), key=lambda bar: bar[1], default=(0, 0))
    if often < _FEWEST_DRAWN:
        return None
    return [replace(line, text=line.text.replace("|", " "), low=line.low.replace("|", " "))
            if line.text.count("|") == 1 and abs(line.text.find("|") - at) <= _SLACK else line for line in found]


def _below(found: Sequence[Line], kind: KindOf, drawn: bool = False) -> Sequence[Line]:
    """The lines, those of one further column below the first. ``drawn``: a bar stood between both."""
    starts: Counter[int] = Counter()
    gapped: list[int] = []
    for at, line in enumerate(found):
        if "   " in line.text:
            ends = [match.end() for match in _GAP.finditer(line.text, 0, 400)]
            starts.update(end for end in ends if end >= _NARROWEST)
            gapped += [at] if ends else []
    if len(gapped) < _FEWEST:
        return found
    tried = {start for start, count in starts.most_common(_TRIED) if count >= _FEWEST}
    # More lines may be set in than begin at the edge.
    tried |= {min(start for start in starts if edge - _FARTHEST <= start <= edge) for edge in tried}
    for edge in sorted(tried):
        out = _unfolded(found, gapped, edge, kind, drawn)
        if out is not None:
            return out
    return found


def _unfolded(
    found: Sequence[Line], gapped: Sequence[int], edge: int, kind: KindOf, drawn: bool
) -> list[Line] | None:
    """The lines with the columns that meet at an edge one below the other; None where no two lists do."""
    out: list[Line] = []
    done = tried = last = 0
    for at in gapped:
        if at < done or _cut(found[at], edge) in (None, -1):
            continue
        tried = tried + 1 if at < last else 0
        if tried > _TRIED:
            # A few lines may stand above the columns; else it is a table.
            continue
        columns = _stretch(found, at, done, edge, kind)
        last = columns.last
        if not _are_lists(found, columns, kind, drawn):
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


def _stretch(
    found: Sequence[Line], at: int, done: int, edge: int, kind: KindOf
) -> _Columns:
    """The lines around one that is cut at an edge that may be of both columns."""
    first = at
    while first > done and found[first - 1].text.strip() and _is_left(found[first - 1], edge):
        first -= 1
    cuts: list[int] = []
    last, blank = first, 0
    while last < len(found) and blank <= _MOST_BLANK and (cut := _cut(found[last], edge)) is not None:
        blank = 0 if found[last].text.strip() else blank + 1
        if cut < 0 and last > at and _heads_scan(found, last):
            break
        cuts.append(cut)
        last += 1
    # What stands below the end of the second column is of no column, but for the rest of the first one.
    both = max(place for place, cut in enumerate(cuts) if cut >= 0 and found[first + place].text[cut:].strip())
    stop = both + 1
    for place in range(stop, len(cuts)):
        told = found[first + place].text.strip()
        if not told:
            below = found[first + place + 1].text.strip() if place + 1 < len(cuts) else ""
            if kind(below) not in ("name", "both", "code"):
                break
        stop = place + 1
    return _Columns(first, first + stop, cuts[:stop])


def _heads_scan(found: Sequence[Line], at: int) -> bool:
    """Whether the title of another scan stands above what follows, behind a blank line."""
    return not found[at - 1].text.strip() and not find(found[at].text).codes and columnlines.heads_scan(found[at].low)


def _is_left(line: Line, edge: int) -> bool:
    """Whether a line above the first of both columns may be of the left one alone."""
    return _cut(line, edge) == -1


def _are_lists(found: Sequence[Line], columns: _Columns, kind: KindOf, drawn: bool) -> bool:
    """Whether both columns are lists of names with codes or answers below them; the second begins with one. Where a bar
    was drawn between them none of the names need be known: in a table one side holds the codes."""
    sides = [(line.text, "") if cut < 0 else (line.text[:cut], line.text[cut:])
             for line, cut in zip(found[columns.first : columns.last], columns.cuts, strict=True)]
    if sum(all(map(str.strip, pair)) for pair in sides) < _FEWEST:
        return False
    right = [side for _, side in sides if side.strip()]
    if 2 * sum(_VALUE.match(side) is not None for side in right) > len(right):
        # Keys and their values: "Module     -> Radio".
        return False
    lists = [columnlines.entries(side, kind) for side in zip(*sides, strict=True)]
    if any(entry.indent > _FARTHEST for own in lists for entry in own):
        return False
    left, other = map(columnlines.weighed, lists)
    if left.said + other.said < _FEWEST or other.first not in ("name", "both", "title"):
        return False
    # What is said of a module stands in its line or right below; columns of tables name some as well.
    told = left.told > 0 and 2 * other.told >= other.names
    unlisted = other.names - other.known
    known = left.known > 0 and other.known >= (max(_FEWEST, unlisted) if unlisted else 1)
    known = known or (drawn and left.said > 0 < other.said and 2 * left.told >= left.names > 0)
    return told and known and other.strange <= _STRANGE * other.edge


def _parts(line: Line, cut: int) -> tuple[Line, Line]:
    """The two parts of a line."""
    if cut < 0:
        return line, line_of(line.number, line.raw, "", (0,))
    end = len(line.text[:cut].rstrip())
    blank = line_of(line.number, line.raw, "", (0,))
    left = replace(reworded(line, end, len(line.text), ""), raw=line.raw[: line.span(0, end)[1]]) if end else blank
    if not line.text[cut:].strip():
        return left, blank
    # Neither the width of the line nor the marks before its text are those of the other column.
    first = line.span(cut, cut)[0]
    return left, replace(reworded(line, 0, cut, ""), raw=" " * first + line.raw[first:])


__all__ = ["below"]
