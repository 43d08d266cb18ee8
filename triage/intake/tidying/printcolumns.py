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
from itertools import pairwise
from typing import NamedTuple

from triage.intake.naming.names import tidy
from triage.intake.plain.characters import Line, line_of, low, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said import phases
from triage.intake.said.answers import answer_of_cell

_NAMED = lazily(r"(:|\s-+\s)")
_WIDE = lazily(r"\s{3,}")
_GAP = lazily(r"(?<=\S) {2,}(?=\S)|^ {12,}(?=\S)")
#: Whatever may be a code with slips in it, or a pair of numbers.
_CODE = lazily(r"(?:[-*\u2022] )?(?:[^\W_] ?[0-3oOiIlQ][0-9A-Fa-foOiIlsSzZ]{3}(?![g-zG-Z])|(?i:spn[ :]?\s?[0-9]))")
#: Columns are not narrower; what is set in stands so much behind the left edge of its column at most.
_NARROWEST, _FARTHEST, _SLACK = 14, 12, 1
_FEWEST, _MOST_BLANK, _TRIED = 2, 2, 4
_FEWEST_DRAWN, _MOST_COLUMNS = 3, 4


class _Columns(NamedTuple):
    """Where the lines of two columns begin and end, and where each of them is cut; -1: it has a left part alone."""

    first: int
    last: int
    cuts: list[int]


def below(found: Sequence[Line], is_name: Callable[[str], bool]) -> Sequence[Line]:
    """The lines, those of each further column below the one before; the same lines where there is none. Linear."""
    out = _below(found, is_name)
    bars = {line.text.find("|") for line in found if line.text.count("|") == 1} if out is found else set()
    if 0 < len(bars) <= _SLACK + 1:
        # A bar is drawn between the columns.
        drawn = sum(line.text.count("|") == 1 for line in found) >= _FEWEST_DRAWN
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
    done = tried = last = 0
    for at in gapped:
        if at < done or _cut(found[at], edge) in (None, -1):
            continue
        tried = tried + 1 if at < last else 0
        if tried > _TRIED:
            # A few lines may stand above the columns; else it is a table.
            continue
        columns = _stretch(found, at, done, edge, is_name)
        last = columns.last
        if not _are_lists(found, columns, is_name):
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
    found: Sequence[Line], at: int, done: int, edge: int, is_name: Callable[[str], bool]
) -> _Columns:
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
    # What stands below the end of the second column is of no column, but for the rest of the first one.
    both = max(place for place, cut in enumerate(cuts) if cut >= 0 and found[first + place].text[cut:].strip())
    stop = both + 1
    for place in range(stop, len(cuts)):
        told = found[first + place].text.strip()
        if not told:
            below = found[first + place + 1].text.strip() if place + 1 < len(cuts) else ""
            if _kind(below, is_name) not in ("name", "both", "code"):
                break
        stop = place + 1
    return _Columns(first, first + stop, cuts[:stop])


def _is_left(line: Line, edge: int) -> bool:
    """Whether a line above the first of both columns may be of the left one alone."""
    return _cut(line, edge) == -1


def _are_lists(found: Sequence[Line], columns: _Columns, is_name: Callable[[str], bool]) -> bool:
    """Whether both columns are lists of names with codes or answers below them; the second begins with one."""
    kinds: tuple[list[tuple[str, int]], list[tuple[str, int]]] = ([], [])
    both = 0
    for line, cut in zip(found[columns.first : columns.last], columns.cuts, strict=True):
        sides = (line.text, "") if cut < 0 else (line.text[:cut], line.text[cut:])
        both += all(map(str.strip, sides))
        for own, text in zip(kinds, sides, strict=True):
            indent = len(text) - len(text.lstrip())
            if text.strip() and indent > _FARTHEST:
                return False
            if text.strip():
                own.append((_kind(text.strip(), is_name), indent))
    # What is set in deeper than the codes goes on with their descriptions, whatever it names.
    depths = [min((indent for kind, indent in own if kind == "code"), default=99) for own in kinds]
    left, right = ([kind if kind == "code" or indent <= depth else "" for kind, indent in own]
                   for own, depth in zip(kinds, depths, strict=True))
    whole = [*left, *right]
    if both < _FEWEST or not {"name", "both"} & set(left) or whole.count("code") + whole.count("both") < _FEWEST:
        return False
    # What is said of a module stands right below its name; a column of descriptions names some as well.
    if any(kind == "" and above in ("name", "answer") and below not in ("code", "answer")
           for above, kind, below in zip(right, right[1:], [*right[2:], ""], strict=False)):
        return False
    told = sum(below in ("code", "answer") for kind, below in pairwise(right) if kind == "name")
    return right[0] in ("name", "both", "title") and (told > 0 or "both" in right) and 2 * told >= right.count("name")


def _kind(bare: str, is_name: Callable[[str], bool]) -> str:
    """What a line of a column is: a "code", an "answer", a "name", "both" of a name and what is said of it, the "title"
    of a scan; "" for any other."""
    # Another column may stand behind it.
    bare = _WIDE.split(bare, 1)[0]
    if _CODE.match(bare):
        return "code"
    if answer_of_cell(low(bare)) is not None:
        return "answer"
    name, mark, rest = _NAMED.split(bare, 1) if _NAMED.search(bare) else (bare, "", "")
    if not is_name(tidy(name.rstrip(" :"))):
        return "title" if phases.find(low(bare)) is not None else ""
    return "both" if mark and rest.strip() else "name"


def _parts(line: Line, cut: int) -> tuple[Line, Line]:
    """The two parts of a line."""
    if cut < 0:
        return line, line_of(line.number, line.raw, "", (0,))
    end = len(line.text[:cut].rstrip())
    left = reworded(line, end, len(line.text), "") if end else line_of(line.number, line.raw, "", (0,))
    return left, reworded(line, 0, cut, "") if line.text[cut:].strip() else line_of(line.number, line.raw, "", (0,))


__all__ = ["below"]
