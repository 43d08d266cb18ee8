"""Tables with a sign between their cells that no text is written with: "Module^Code^Status". It is read as a bar.

>>> from triage.intake.plain.characters import lines
>>> table = lines("Unit^Code^State\\nABS^C0035^stored\\nEPS^^no codes")
>>> [line.text for line in barred(table)]
['Unit|Code|State', 'ABS|C0035|stored', 'EPS||no codes']
>>> barred(lines("ABS ^ C0035\\nEPS ^ C0545")) == lines("ABS ^ C0035\\nEPS ^ C0545")
True
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from triage.intake.plain.characters import Line

_MARKS = "^~#!$&\u00a7"
#: So many lines with as many marks each make a table, if they are so much of the lines with any.
_FEWEST, _SHARE = 3, 0.7
#: Fewer marks in a line are found in any text.
_CELLS = 2
_FEWEST_BOXED = 4


def barred(lines: Sequence[Line]) -> list[Line]:
    """The lines with bars for the mark that parts the cells of a table, if one does. Linear in the text."""
    for mark in _MARKS:
        # "### Airbag" and "~~~~" are headings and rules.
        told = [line.text.count(mark) for line in lines if mark in line.text and mark * 2 not in line.text.lstrip()[:2]]
        if len(told) < _FEWEST:
            continue
        count, often = Counter(told).most_common(1)[0]
        if count >= _CELLS and often >= _FEWEST and often >= _SHARE * len(told):
            return [
                replace(line, text=line.text.replace(mark, "|"), low=line.low.replace(mark, "|"))
                if line.text.count(mark) == count else line
                for line in lines
            ]
    return list(lines)


def unboxed(lines: Sequence[Line]) -> list[Line]:
    """The lines without the sides of a box that is drawn around them, which part no cells. Linear."""
    bare = [line.text.strip() for line in lines]
    boxed = [at for at, text in enumerate(bare) if len(text) > 1 and text[0] == text[-1] == "|"]
    if len(boxed) < _FEWEST_BOXED or any(lines[at].text.count("|") != 2 for at in boxed):
        return list(lines)
    kept = list(lines)
    for at in boxed:
        line = lines[at]
        kept[at] = replace(line, text=line.text.replace("|", " "), low=line.low.replace("|", " "),
                           indent=line.text.index("|") + _indent(line.text))
    return kept


def _indent(text: str) -> int:
    """How far what a box holds is set in."""
    inside = text.strip().strip("|")
    return 1 + len(inside) - len(inside.lstrip())


__all__ = ["barred", "unboxed"]
