"""Blocks side by side: scans printed next to each other, each with a module in one line and its codes below. They are
set one below the other before anything else is read.

>>> from triage.intake.plain.characters import lines
>>> text = ("Before clear    After clear\\nBatt 10.9 V     Batt 13.2 V\\n\\n"
...         "ABS             ABS\\n  C0031           no codes")
>>> found = [line.text for line in parted(lines(text), lambda name: name == "ABS")]
>>> found[:6]
['Before clear', 'Batt 10.9 V', '', 'ABS', '  C0031', '']
>>> found[6:]
['After clear', 'Batt 13.2 V', '', 'ABS', '  no codes', '']
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from triage.intake.codes.found import find
from triage.intake.naming import IsName
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import Line, indent_of
from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered
from triage.intake.said import volts
from triage.intake.said.answers import answer_of_cell, spoken
from triage.intake.tidying.scancells import names_a_scan

_MARKS = ("|", "\t")
_GAP = lazily(r"\s{2,}")
_RULE = lazily(r"[\s|+=_.~-]*")
_LONGEST_HEAD, _MOST_BLANKS = 60, 2
#: So far left of its head a column may begin.
_SLACK = 1


class _Head(NamedTuple):
    """The line of the titles of scans; ``mark`` parts them, or they begin at ``starts``."""

    mark: str
    starts: tuple[int, ...]


def parted(found: list[Line], is_name: IsName) -> list[Line]:
    """The lines, blocks side by side one below the other; the same list where there are none. Linear."""
    if not any(_head(line.low) for line in found):
        return found
    out: list[Line] = []
    at = tables = 0
    while at < len(found):
        head = _head(found[at].low)
        columns, last = _columns(head, found, at, is_name) if head is not None else ([], at)
        named = [any(is_name(tidy(line.text)) for line in column[1:]) for column in columns]
        if any(named) and all(has or _answers(column[1:]) for has, column in zip(named, columns, strict=True)):
            for number, column in enumerate(columns):
                out += [_blank(found[at]), *column] if number else column
            out.append(_blank(found[at]))
            at, tables = last, tables + 1
        else:
            out.append(found[at])
            at += 1
    return out if tables else found


@remembered
def _head(low: str) -> _Head | None:
    """The head of blocks: titles of scans and nothing else, that differ."""
    if "  " not in low and "|" not in low and "\t" not in low:
        return None
    bare = low.strip()
    mark = next((mark for mark in _MARKS if mark in bare), "")
    if (not mark and "  " not in bare) or len(bare) > 4 * _LONGEST_HEAD:
        return None
    first = bare.strip("|").split(mark, 1)[0] if mark else _GAP.split(bare, 1)[0]
    if not names_a_scan(first.strip(" \t*:=-")):
        return None
    if mark:
        titles = [part.strip(" \t*:=-") for part in bare.strip("|").split(mark)]
        starts: tuple[int, ...] = tuple(range(len(titles)))
    else:
        stops = [len(low) - len(low.lstrip()), *(gap.end() for gap in _GAP.finditer(low.rstrip()) if gap.start())]
        starts = tuple(stops)
        titles = [low[start:stop].strip(" *:=-") for start, stop in zip(stops, [*stops[1:], len(low)], strict=True)]
    if len(titles) < 2 or len(set(titles)) < len(titles) or not all(map(names_a_scan, titles)):
        return None
    return _Head(mark, starts)


def _answers(column: Sequence[Line]) -> bool:
    """Whether a block names no module because one answer is that of all: "no codes in any module"."""
    said = [line.low for line in column if line.text.strip(" -=*_")]
    return any(spoken(low) for low in said) and all(spoken(low) or volts.find(low) for low in said)


def _columns(
    head: _Head, found: Sequence[Line], at: int, is_name: IsName
) -> tuple[list[list[Line]], int]:
    """The lines of each block from a head on, and where they end; none where they stand in no such columns."""
    rows: list[list[Line]] = []
    last = at
    for place in range(at, len(found)):
        line = found[place]
        if not line.text.strip():
            if place - last > _MOST_BLANKS:
                break
            continue
        parts = _parts(head, line) if place == at or _head(line.low) is None else None
        if parts is not None and not any(part.text for part in parts):
            continue
        if parts is None or (place - last > 1 and not _goes_on(parts, is_name)):
            break
        rows += [[_blank(found[each]) for _ in parts] for each in range(last + 1, place)] + [parts]
        last = place
    if len(rows) < 3:
        return [], at
    columns = []
    for column in zip(*rows, strict=True):
        # What stands beside nothing leaves no blank line.
        lines = [line for line, row in zip(column, rows, strict=True) if line.text or not any(o.text for o in row)]
        columns.append(_set_left(lines))
    return columns, last + 1


def _goes_on(parts: Sequence[Line], is_name: IsName) -> bool:
    """Whether a line below a blank one is still of the blocks: it fills several, or tells of a module in one."""
    told = [part for part in parts if part.text]
    if len(told) > 1:
        return True
    text, low = told[0].text.strip(), told[0].low.strip()
    codes = find(text, low).codes
    return (bool(codes) and codes[0].start == 0) or answer_of_cell(low) is not None or is_name(tidy(text))


def _parts(head: _Head, line: Line) -> list[Line] | None:
    """The parts of a line in each column; None where it runs across them."""
    text, count = line.text, len(head.starts)
    if head.mark:
        begin = text.index("|") + 1 if head.mark == "|" and text.lstrip().startswith("|") else 0
        stop = len(text.rstrip()) - (head.mark == "|" and begin > 0 and text.rstrip().endswith("|"))
        cuts = [begin - 1, *(place for place in range(begin, stop) if text[place] == head.mark), stop]
        if len(cuts) - 1 > count or (len(cuts) - 1 < count and (head.mark == "|" or _RULE.fullmatch(text) is None)):
            return [_part(line, 0, len(text))] + [_blank(line)] * (count - 1) if _RULE.fullmatch(text) else None
        return [_part(line, first + 1, second) for first, second in pairwise(cuts)]
    if text[: head.starts[0]].strip():
        return None
    edges = []
    for start in head.starts[1:]:
        edge = next((edge for edge in range(start, start - _SLACK - 1, -1) if not text[edge - 1 : edge].strip()), -1)
        if edge < 0 or text[edge - 2 : edge].strip():
            return None
        edges.append(edge)
    return [_part(line, first, second) for first, second in zip([0, *edges], [*edges, len(text)], strict=True)]


def _part(line: Line, start: int, stop: int) -> Line:
    """A part of a line, tied to its place as pasted."""
    text = line.text[start:stop].rstrip()
    length = len(text)
    offsets = line.offsets[start : start + length] if line.offsets is not None else tuple(range(start, start + length))
    return Line(line.number, line.raw, text, offsets or (0,), line.low[start : start + length], indent_of(text),
                line.own, line.work)


def _blank(line: Line) -> Line:
    return Line(line.number, line.raw, "", (0,), "", 0)


def _set_left(column: Sequence[Line]) -> list[Line]:
    """The lines of a block, set in no further than those within it."""
    least = min((len(line.text) - len(line.text.lstrip()) for line in column if line.text), default=0)
    return [_part_of(line, least) if line.text else line for line in column]


def _part_of(line: Line, start: int) -> Line:
    """A line without its first characters."""
    text = line.text[start:]
    return Line(line.number, line.raw, text, (line.offsets or ())[start:] or (0,), line.low[start:], indent_of(text),
                line.own, line.work)


__all__ = ["parted"]
