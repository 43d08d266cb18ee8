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

from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily

_MARKS = "^~#!$&\u00a7"
#: So many lines with as many marks each make a table, if they are so much of the lines with any.
_FEWEST, _SHARE = 3, 0.7
#: Fewer marks in a line are found in any text.
_CELLS = 2
_STROKES = " // "
#: Of those with the mark once, a key and its value above the table: "Mileage^12000 km".
_PAIRS = frozenset("^~\u00a7")
#: A branch of a tree that is drawn with strokes, or an arrow, before what a line tells.
_BRANCH = lazily(r"\s*(?:\|\s+)*(?:[-=]{1,2}>|[`|+'\\]-{1,2})(?=\s+[\[({`*]{0,3}[^\W_])(?![^|]*\|)")
#: The strokes of a tree before what its branches hold.
_TRUNK = lazily(r"\s*+\|(?:\s++\|)*+(?=\s{2,}[^\s|][^|]*$)")
#: A word or two set as a program's.
_QUOTED = lazily(r"(?<![\w`])`([^`\s](?:[^`]{0,38}[^`\s])?)`(?![\w`])")


def unquoted(lines: Sequence[Line]) -> list[Line]:
    """The lines without the back-ticks around a word or two, as marked-up texts set codes.

    >>> from triage.intake.plain.characters import lines
    >>> [line.text for line in unquoted(lines("- `C0035` stored, doesn`t go, can`t say"))]
    ['- C0035 stored, doesn`t go, can`t say']
    """
    found = list(lines)
    for at, line in enumerate(found):
        if line.text.count("`") < 2:
            continue
        for match in reversed(list(_QUOTED.finditer(line.text))):
            line = reworded(line, match.start(), match.end(), match[1])
        found[at] = line
    return found


def unbranched(lines: Sequence[Line]) -> list[Line]:
    """The lines with the bullet of a list for the branch of a tree, or the arrow, that each begins with. Linear.

    >>> from triage.intake.plain.characters import lines
    >>> [line.text for line in unbranched(lines("ABS\\n|- C0035\\n|  `- stored\\n-> C0040\\n|- C0051 | stored |"))]
    ['ABS', '-  C0035', '   -  stored', '-  C0040', '|- C0051 | stored |']
    >>> [line.text for line in unbranched(lines("|-- ABS\\n|   |-- front\\n|   |     C0035  stored\\n|-- EPS"))]
    ['-   ABS', '    -   front', '          C0035  stored', '-   EPS']
    """
    found = list(lines)
    drawn_at = 0
    for at, line in enumerate(found):
        branch = _BRANCH.match(line.text)
        if branch is not None:
            drawn = len(branch[0]) - len(branch[0].rstrip("`|+'\\->="))
            start, end = branch.end() - drawn, branch.end()
            text = " " * start + "-" + " " * (drawn - 1) + line.text[end:]
            found[at] = replace(line, text=text, low=text[:end] + line.low[end:], indent=start)
            drawn_at += "|-" in branch[0]
    if drawn_at < _FEWEST - 1:
        return found
    for at, line in enumerate(found):
        trunk = _TRUNK.match(line.text) if "|" in line.text else None
        if trunk is not None:
            text = " " * trunk.end() + line.text[trunk.end() :]
            found[at] = replace(line, text=text, low=" " * trunk.end() + line.low[trunk.end() :],
                                indent=len(text) - len(text.lstrip()))
    return found


def barred(lines: Sequence[Line]) -> list[Line]:
    """The lines with bars for the mark that parts the cells of a table, if one does. Linear in the text."""
    for mark in _MARKS:
        # "### Airbag" and "~~~~" are headings and rules.
        told = [line.text.count(mark) for line in lines if mark in line.text and mark * 2 not in line.text.lstrip()[:2]]
        if len(told) < _FEWEST:
            continue
        if mark in _PAIRS and max(told) > 1:
            told = [count for count in told if count > 1]
        count, often = Counter(told).most_common(1)[0]
        if count >= _CELLS and often >= _FEWEST and often >= _SHARE * len(told):
            return [
                replace(line, text=line.text.replace(mark, "|"), low=line.low.replace(mark, "|"))
                if line.text.count(mark) in (count, mark in _PAIRS) else line
                for line in lines
            ]
    return list(lines)


def unstroked(lines: Sequence[Line]) -> list[Line]:
    """The lines with bars for the two strokes between the cells of a table ("ABS // C0035 // stored"). Linear.

    Strokes also part modules of one line, each with its colon, and lead to what somebody remarks.

    >>> from triage.intake.plain.characters import lines
    >>> [line.text for line in unstroked(lines("Code // Unit // State\\nC0035 // ABS // stored\\n2) EPS // no codes"))]
    ['Code | Unit | State', 'C0035 | ABS | stored', '2) EPS | no codes']
    >>> [line.text for line in unstroked(lines("ABS: C0035 // EPS: no codes // TCM: P0700"))]
    ['ABS: C0035 // EPS: no codes // TCM: P0700']
    """
    told = [line.text for line in lines if _STROKES in line.text]
    celled = [text for text in told if text.count(_STROKES) > 1 and ": " not in text]
    if len(told) < _FEWEST or len(celled) < 2 or 2 * len(celled) < len(told) or any("|" in text for text in told):
        return list(lines)
    return [_with_bars(line) if _STROKES in line.text else line for line in lines]


def _with_bars(line: Line) -> Line:
    """The line with a bar for each pair of strokes."""
    at = line.text.rfind(_STROKES)
    while at >= 0:
        line = reworded(line, at + 1, at + 3, "|")
        at = line.text.rfind(_STROKES)
    return line


__all__ = ["barred", "unbranched", "unquoted", "unstroked"]
