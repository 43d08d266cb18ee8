"""Lines that a mail program quoted with a stroke before each: it is the mark of a quote, not the border of a table.

>>> from triage.intake.plain.characters import lines
>>> [line.text for line in told(lines("he wrote:\\n| ABS: C0035\\n|\\n| ECM: no codes"))]
['he wrote:', '> ABS: C0035', '>', '> ECM: no codes']
>>> [line.text for line in told(lines("| ABS | C0035 |\\n| ECM | none |"))]
['| ABS | C0035 |', '| ECM | none |']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.plain.characters import Line, reworded

_BAR = "|"


def told(found: Sequence[Line]) -> Sequence[Line]:
    """The lines, those quoted so with the common mark of a quote."""
    if not any(_BAR in line.text for line in found):
        return found
    barred = [line for line in found if line.text.lstrip().startswith(_BAR)]
    if not barred or not _quotes([line.text.strip() for line in barred]):
        return found
    return [_quoted(line) if line.text.lstrip().startswith(_BAR) else line for line in found]


def _quotes(texts: Sequence[str]) -> bool:
    """Whether the strokes before lines are marks of quotes: no other stands in them, or some have nothing behind them
    and none ends with one."""
    if all(text.count(_BAR) == 1 for text in texts):
        return True
    return _BAR in texts and not any(len(text) > 1 and text.endswith(_BAR) for text in texts)


def _quoted(line: Line) -> Line:
    """A line with the common mark in the place of its first stroke."""
    at = line.text.index(_BAR)
    return reworded(line, at, at + 1, ">")


__all__ = ["told"]
