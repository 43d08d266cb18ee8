"""Cells in quotes with a line break inside them, as tables are exported: the row in one line again.

>>> from triage.intake.plain.characters import lines
>>> said = '"ABS";"C0035";"Wheel\\nsensor";"stored"\\n"EPS";"C0545";"Torque";"active"'
>>> [line.text for line in closed(lines(said))]
['"ABS";"C0035";"Wheel sensor";"stored"', '"EPS";"C0545";"Torque";"active"']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.lines.glue import lines_glued
from triage.intake.plain.characters import Line
from triage.intake.plain.patterns import lazily

#: Between two cells in quotes.
_CELLS = lazily(r'"[ \t]?[;,|\t][ \t]?"')
_MOST_LINES, _LONGEST = 4, 2000


def closed(found: Sequence[Line]) -> list[Line]:
    """The lines, those put together that stand between the quotes of one cell of a row that begins with a cell in
    quotes. Linear."""
    kept: list[Line] = []
    at = 0
    while at < len(found):
        end = _end(found, at)
        line = found[at]
        for other in found[at + 1 : end]:
            line = lines_glued(line, other)
        kept.append(line)
        at = end
    return kept


def _end(found: Sequence[Line], at: int) -> int:
    """Behind which line the row ends that begins at a place: that line itself where no cell is left open."""
    text = found[at].text
    if text[:1] != '"' or text.count('"') % 2 == 0 or len(text) > _LONGEST or _CELLS.search(text) is None:
        return at + 1
    for place in range(at + 1, min(at + _MOST_LINES, len(found))):
        below = found[place].text
        if len(below) > _LONGEST or (below[:1] == '"' and below.count('"') % 2 == 0):
            break
        if below.count('"') % 2:
            return place + 1
    return at + 1


__all__ = ["closed"]
