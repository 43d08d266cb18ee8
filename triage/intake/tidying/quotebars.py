"""Lines that a mail program quoted with a stroke before each: it is the mark of a quote, not the border of a table.

>>> from triage.intake.plain.characters import lines
>>> [line.text for line in told(lines("he wrote:\\n| ABS: C0035\\n|\\n| ECM: no codes"))]
['he wrote:', 'ABS: C0035', '', 'ECM: no codes']
>>> [line.text for line in told(lines("| ABS | C0035 |\\n| ECM | none |"))]
['| ABS | C0035 |', '| ECM | none |']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.plain.characters import Line, reworded

_BAR, _MARK = "|", ">"
#: Fewer lines with a mark may be items of a list.
_FEWEST = 3
#: How often a text may have been quoted.
_DEEPEST = 4
#: What is quoted is set in no farther.
_WIDEST = 12


def told(found: Sequence[Line]) -> Sequence[Line]:
    """The lines without the marks of a quote; those of parts of one in the common form. Linear."""
    for _ in range(_DEEPEST):
        found = _with_one_mark(found)
        bare = _bare(found)
        if bare is found:
            break
        found = bare
    return found


def _bare(found: Sequence[Line]) -> Sequence[Line]:
    """The lines without the mark of a quote, if all from the first to the last with one have it."""
    marked = [at for at, line in enumerate(found) if line.text.lstrip()[:1] == _MARK]
    if len(marked) < _FEWEST or any(line.text.strip() and line.text.lstrip()[0] != _MARK
                                    for line in found[marked[0] : marked[-1]]):
        return found
    kept = list(found)
    for at in marked:
        start = kept[at].text.index(_MARK)
        kept[at] = reworded(kept[at], 0, start + 1 + (kept[at].text[start + 1 : start + 2] == " "), "")
    return kept


def _with_one_mark(found: Sequence[Line]) -> Sequence[Line]:
    """The lines, those quoted with a stroke with the common mark of a quote."""
    if not any(_BAR in line.text for line in found):
        return found
    barred = [line for line in found if _is_barred(line)]
    if not barred or not _quotes([line.text.strip() for line in barred]):
        return found
    return [_quoted(line) if _is_barred(line) else line for line in found]


def _is_barred(line: Line) -> bool:
    """Whether a line begins with a stroke; one farther to the right is drawn between the columns of a page."""
    return line.text.lstrip().startswith(_BAR) and line.text.index(_BAR) <= _WIDEST


def _quotes(texts: Sequence[str]) -> bool:
    """Whether the strokes before lines are marks of quotes: no other stands in them, or some have nothing behind them
    and none ends with one."""
    if all(text.count(_BAR) == 1 for text in texts):
        return True
    return _BAR in texts and not any(len(text) > 1 and text.endswith(_BAR) for text in texts)


def _quoted(line: Line) -> Line:
    """A line with the common mark in the place of its first stroke."""
    at = line.text.index(_BAR)
    return reworded(line, at, at + 1, _MARK)


__all__ = ["told"]
