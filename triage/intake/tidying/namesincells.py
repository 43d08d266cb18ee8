"""Codes with a delimiter behind them and, in the cell of their text, the name of the module in brackets at its end: the
name gets a cell of its own.

>>> from triage.intake.plain.characters import lines
>>> text = ("C0035 (11); Left, open (ABS); stored\\nB1000; Short (Radio); active, x4\\n"
...         "U0100  Lost (ABS)  active\\nU0101; low (ABS)")
>>> for line in parted(lines(text), lambda name: name in ("ABS", "Radio")):
...     print(line.text)
C0035 (11); Left, open; ABS; stored
B1000; Short; Radio; active, x4
U0100; Lost; ABS; active
U0101; low; ABS
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import NamedTuple

from triage.intake.codes.found import find
from triage.intake.codes.ownnumbers import TOKEN
from triage.intake.lines.glue import together
from triage.intake.naming import IsName
from triage.intake.naming.heads import role_of
from triage.intake.plain.characters import Line, has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.intake.said.answers import spoken

_BULLET = lazily(r"\s*(?:[-*\u2022>+]\s{1,3}|[0-9]{1,2}[.)]\s{1,3})?")
_OWN = lazily(rf"{TOKEN}(?![\w-])")
#: Between a code and its text, and between the name and what stands behind that.
_MARK = lazily(r"\s*[;|\t]\s*|\s+/\s+|\s+[-\u2013\u2014]+\s+|\s{2,}|\s*,\s+")
_CELLS = lazily(r"[;|\t]|\s/\s")
_DELIMITER = lazily(r"\s*[;|\t]|\s+/\s")
#: A name in brackets may hold an abbreviation in brackets.
_NAME = lazily(r"\s?\(([^()]{2,50}(?:\([^()]{1,12}\))?)\)")
#: What may follow a name: how often the code was seen, its status.
_COUNT = lazily(r"\s*(?:x\s?[0-9]{1,4}|[0-9]{1,4}\s?x)?\s*$")
_FEWEST, _MOST, _LONGEST = 3, 0.6, 300


class _Row(NamedTuple):
    """Such a line: where its code, its text, its name and what follows that begin and end; whether a delimiter stands
    behind the code."""

    code: tuple[int, int]
    text: tuple[int, int]
    name: tuple[int, int]
    rest: tuple[int, int]
    marked: bool


def parted(found: Sequence[Line], is_name: IsName) -> Sequence[Line]:
    """The lines, such names in cells of their own, where most lines that begin with a code and a delimiter have one.
    Linear."""
    coded = {at: begin for at, line in enumerate(found) if (begin := _code(line)) is not None}
    if len(coded) < _FEWEST or any(_names_column(line) for line in found[: min(coded)]):
        return found
    rows = {at: row for at, begin in coded.items() if (row := _row(found[at], begin)) is not None
            and not is_name(found[at].text[slice(*row.text)].strip())}
    marked = [at for at, row in rows.items() if row.marked]
    delimited = sum(_DELIMITER.match(found[at].text, end) is not None for at, (_, end) in coded.items())
    if len(marked) < _FEWEST or len(marked) < _MOST * delimited:
        return found
    named = Counter(found[at].text[slice(*rows[at].name)] for at in marked)
    known = sum(often for name, often in named.items() if is_name(name))
    if known < _MOST * len(marked) and not (known and len(named) <= _MOST * len(marked)):
        return found
    return [_written(line, rows[at]) if at in rows else line for at, line in enumerate(found)]


def _names_column(line: Line) -> bool:
    """Whether a line is the head of a table with a column of modules."""
    cells = _CELLS.split(line.low) if len(line.text) <= _LONGEST else []
    return len(cells) > 2 and "module" in [role_of(cell.strip(), exactly=True) for cell in cells]


def _code(line: Line) -> tuple[int, int] | None:
    """Where the code that a line begins with stands, with its failure type; None where it begins with none."""
    if len(line.text) > _LONGEST or "(" not in line.text:
        return None
    start = _BULLET.match(line.text).end()  # type: ignore[union-attr]
    codes = find(line.text).codes
    if codes and codes[0].start == start:
        return start, codes[0].end
    own = _OWN.match(line.text, start)
    return None if own is None or codes else (start, own.end())


def _row(line: Line, code: tuple[int, int]) -> _Row | None:
    """The parts of a line that begins with a code and holds a name in brackets behind its text; None for any other."""
    mark = _MARK.match(line.text, code[1])
    if mark is None:
        return None
    for name in reversed([*_NAME.finditer(line.text, mark.end())]):
        rest = line.text[name.end() :]
        behind = _MARK.match(rest)
        begin = name.end() + (behind.end() if behind is not None else 0)
        told = line.low[name.start(1) : name.end(1)]
        if states.of_cell(told) is not None or not has_letter(told) or spoken(told):
            continue
        if behind is None and _COUNT.match(rest) is None:
            continue
        text = line.text[mark.end() : name.start()]
        if text.strip() and _CELLS.search(text) is None:
            return _Row(code, (mark.end(), name.start()), name.span(1), (begin, len(line.text.rstrip())),
                        _DELIMITER.match(mark[0]) is not None)
    return None


def _written(line: Line, row: _Row) -> Line:
    """A line in cells: its code, its text, the name, what follows."""
    text = line.text[slice(*row.text)]
    # A delimiter within the text would be one too many.
    cut = row.text[0] + len(text.rstrip(" ;|\t,"))
    cells = [row.code, (row.text[0], cut), row.name, *([row.rest] if row.rest[0] < row.rest[1] else [])]
    pieces: list[str | tuple[Line, int, int]] = []
    for cell in cells:
        pieces += ["; ", (line, *cell)] if pieces else [(line, *cell)]
    whole = together(*pieces)
    whole.indent = line.indent
    return whole


__all__ = ["parted"]
