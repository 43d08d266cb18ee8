"""A key of marks behind the codes that bear them, in one line with them: in a line of its own. So is a sentence behind
a key.

>>> from triage.intake.plain.characters import lines
>>> for line in parted(lines("ECM P0562(S); ABS U0100(C). (S)=stored (C)=current\\nABS: a=3, b=stored")):
...     print(line.text)
ECM P0562(S); ABS U0100(C).
(S)=stored (C)=current
ABS: a=3, b=stored
>>> [line.text for line in parted(lines("S = stored, C = current. Supply 12.1 V"))]
['S = stored, C = current.', 'Supply 12.1 V']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.codes.found import find
from triage.intake.plain.characters import Line, line_of
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.intake.said.near import small

#: A mark and its meaning, and what may stand before the first.
_ENTRY = lazily(r"[(\[]?([A-Za-z]{1,2}|[*!#+])[)\]]?\s?=\s?([^\W\d_][^\W\d_ -]*(?:[ -][^\W\d_]+){0,2})")
_BETWEEN = lazily(r"\s*(?:[,;/|]|\s|\b(?:and|und|et|y)\b)\s*")
_WORD = lazily(r"(?:[A-Za-z]{3,12}\s?:\s*)?$")
#: What follows a key in the same line, with a figure in it.
_SENTENCE = lazily(r"\.\s+(?=[^\W\d_][^=]*[0-9][^=]*$)")
_FEWEST, _LONGEST = 2, 2000


def parted(found: Sequence[Line]) -> Sequence[Line]:
    """The lines, such a key in one of its own. Linear."""
    mended: list[Line] = []
    for line in found:
        mended += _of_line(line) if line.text.count("=") >= _FEWEST and len(line.text) <= _LONGEST else [line]
    return mended if len(mended) > len(found) else found


def _of_line(line: Line) -> list[Line]:
    """The line in two, if it ends with a key of marks that stand before it."""
    entries = list(_ENTRY.finditer(line.text))
    if entries and ". " not in line.text[: entries[0].start()] and (
            match := _SENTENCE.match(line.text, entries[-1].end())) is not None:
        end = match.start() + 1
        return [*_of_line(_part(line, 0, end)), _part(line, match.end(), len(line.text))]
    first = len(entries)
    stop = len(line.text.rstrip(" .)]"))
    while first and (stop == entries[first - 1].end() or _BETWEEN.fullmatch(line.text, entries[first - 1].end(), stop)):
        first -= 1
        stop = entries[first].start()
    key = entries[first:]
    if len(key) < _FEWEST or not line.text[:stop].strip():
        return [line]
    before = line.text[:stop]
    told = [entry[1] for entry in key if states.of_cell(small(entry[2])) is not None]
    if len(told) < _FEWEST or not all(mark in before for mark in told) or not find(before):
        return [line]
    lead = _WORD.search(before)
    cut = lead.start() if lead is not None else stop
    return [_part(line, 0, len(before[:cut].rstrip())), _part(line, cut, len(line.text))]


def _part(line: Line, start: int, end: int) -> Line:
    """A line of a part of a line."""
    offsets = line.offsets or tuple(range(len(line.text)))
    return line_of(line.number, line.raw, line.text[start:end], offsets[start:end], line.own)


__all__ = ["parted"]
