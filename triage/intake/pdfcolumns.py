"""Pages of a PDF set in columns, as the list of a long report is: what stands in the second goes below the first.

A page is set so where its lines begin at the same places once more further right, codes among them.

>>> page = ("Van 3, scan of all modules in the workshop\\n\\nABS                    Radio\\n"
...         "C0035  Open  stored    B1000  Open  stored\\nC0040  Open  stored    B1010  Open  stored\\n"
...         "                       Seats\\nGearbox                B1100  Short  stored\\n\\n\\n\\nPage 1")
>>> print(one_below_another(page).replace("\\n\\n", "\\n"))
Van 3, scan of all modules in the workshop
ABS
C0035  Open  stored
C0040  Open  stored
Gearbox
Radio
B1000  Open  stored
B1010  Open  stored
Seats
B1100  Short  stored
Page 1
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import pairwise

from triage.intake.codes.found import find
from triage.intake.plain.patterns import lazily

_PIECE = lazily(r"[^\s]+(?: [^\s]+)*")
#: Columns hold so many codes each at least, and are so wide; what is set a little otherwise begins so near to its
#: place.
_FEWEST, _NARROWEST, _SLACK = 2, 16, 1
#: So many blank lines part what is listed from the foot of its page.
_BLANKS = 3
#: Of the lines between the first and the last of both columns so many go across: headings over all of the page.
_ACROSS = 0.2
#: A page has so many columns at most.
_MOST = 3


def one_below_another(page: str) -> str:
    """The text of a page, that of further columns below the first; the same text where there is none. Linear."""
    lines = page.split("\n")
    for _ in range(_MOST - 1):
        edge = _edge(lines)
        if edge is None:
            break
        lines = _unfolded(lines, edge)
    return "\n".join(lines)


def _edge(lines: Sequence[str]) -> int | None:
    """Where the second column begins; None where the page is set in one."""
    codes, starts = Counter[int](), Counter[int]()
    for line in lines:
        pieces = [match.span() for match in _PIECE.finditer(line)]
        starts.update(start for start, _ in pieces)
        begin = {start for start, _ in pieces}
        codes.update(code.start for code in find(line).codes if code.start in begin)
    places = sorted(place for place, often in codes.items() if often >= _FEWEST)
    often = {place for place, many in starts.items() if many >= _FEWEST}
    for left, right in pairwise(places):
        shift = right - left
        first = min((place for place in often if place <= left), default=left)
        own = [place for place in often if first <= place < first + shift]
        again = [place for place in own if any(place + shift + slip in often for slip in range(-_SLACK, _SLACK + 1))]
        if shift >= _NARROWEST and 2 * len(again) > len(own) and len(again) > 1 and _is_free(lines, first + shift):
            return first + shift
    return None


def _is_free(lines: Sequence[str], edge: int) -> bool:
    """Whether hardly any line goes on across an edge between those that stand on both sides of it."""
    both = [at for at, line in enumerate(lines) if line[edge - _SLACK :].strip()]
    between = [line for line in lines[both[0] : both[-1] + 1] if line.strip()] if both else []
    return sum(_cut(line, edge) is None for line in between) <= _ACROSS * len(between)


def _cut(line: str, edge: int) -> int | None:
    """Where a line is cut at an edge; None where it goes on across."""
    for place in (edge, edge - _SLACK, edge + _SLACK):
        if not line[place - 2 : place].strip() and (len(line) <= place or line[place] != " " or place == edge):
            return place
    return None


def _unfolded(lines: Sequence[str], edge: int) -> list[str]:
    """The lines, in each stretch without one that goes across those right of an edge below those left of it."""
    out: list[str] = []
    stretch: list[tuple[str, str]] = []
    blanks = 0
    for line in lines:
        cut = _cut(line, edge)
        blanks = 0 if line.strip() else blanks + 1
        if cut is None or (blanks == _BLANKS and stretch):
            out += _below(stretch)
            stretch = []
        if cut is None:
            out.append(line)
        else:
            stretch.append((line[:cut].rstrip(), line[cut:].rstrip()))
    return out + _below(stretch)


def _below(stretch: Sequence[tuple[str, str]]) -> list[str]:
    """The left sides of some lines, and the right ones below these where there are any."""
    right = [side for _, side in stretch]
    filled = [at for at, side in enumerate(right) if side]
    left = [side for side, _ in stretch]
    if not filled:
        return left
    while left and not left[-1]:
        left.pop()
    return left + right[filled[0] : filled[-1] + 1]


__all__ = ["one_below_another"]
