"""Rows of a printed table whose cells were wrapped each for itself, put together cell by cell, below a head of columns:
read line by line, the end of a status ("not yet | confirmed") would be a status of its own and say the contrary.

>>> from triage.intake.plain.characters import lines
>>> text = ("Code   Text           Status\\nC0035  Sensor left,   not yet\\n       open circuit   confirmed\\nC0040  Open"
...         "           stored\\nPage 1\\nCode   Text           Status\\nC0051  Sensor angle   no longer\\nPage 2\\n"
...         "Code   Text           Status\\n                      active")
>>> for line in joined(lines(text)):
...     print(line.text)
Code   Text                       Status
C0035  Sensor left, open circuit  not yet confirmed
C0040  Open                       stored
Page 1
Code   Text                       Status
C0051  Sensor angle               no longer active
Page 2
Code   Text                       Status
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from triage.intake.lines.glue import Part, together
from triage.intake.lines.pages import is_page_count
from triage.intake.naming.heads import role_of
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, indent_of
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.intake.said.answers import answer_of_cell

_SIGN = signs.of_words(lambda word: role_of(word, exactly=True) == "code")
_PIECE = lazily(r"[^\s]+(?: [^\s]+)*")
_FEWEST, _MOST_HEADS, _LONGEST, _MOST_BETWEEN, _MOST_RESTS = 3, 8, 240, 6, 8
#: The cells of a line by their columns: where each stands.
Cells = dict[int, tuple[int, int]]


class _Grid:
    """The columns of a head: where they begin, and what they hold."""

    def __init__(self, starts: Sequence[int], roles: Sequence[str | None]) -> None:
        self.starts = tuple(starts)
        self.status = roles.index("status")
        self.code = roles.index("code")

    def cells(self, line: Line) -> Cells | None:
        """The cells of a line that is cut as the head is; None for any other line."""
        if not line.text.strip() or len(line.text) > _LONGEST or "\t" in line.text:
            return None
        found: Cells = {}
        pieces = [piece.span() for piece in _PIECE.finditer(line.text)]
        for begin, end in pieces:
            if begin not in self.starts:
                return None
            # A cell as wide as its column has one blank behind it; a heading may have one there as well.
            cuts = [at for at in self.starts if begin < at < end and line.text[at - 1] == " "]
            cuts = cuts if begin or len(pieces) > 1 else []
            for start, stop in zip([begin, *cuts], [*(at - 1 for at in cuts), end], strict=True):
                found[self.starts.index(start)] = start, stop
        return found


def joined(found: Sequence[Line]) -> Sequence[Line]:
    """The lines, the rows of tables with a status or an answer that was wrapped in one line each. Linear."""
    heads = {at: grid for at in signs.places(found, _SIGN) if (grid := _grid(found[at])) is not None}
    if not heads:
        return found
    # What stands above the first head may be cut as it is: pages were copied without theirs.
    grids: list[_Grid] = []
    grid = next(iter(heads.values()))
    for at in range(len(found)):
        grid = heads.get(at, grid)
        grids.append(grid)
    cells = [heads[at].cells(line) if at in heads else grids[at].cells(line) for at, line in enumerate(found)]
    chains = dict(_chains(found, cells, grids, heads))
    torn = {grids[at].starts for at, rests in chains.items() if _is_torn(found, cells, at, rests, grids[at])}
    if not torn:
        return found
    taken = {rest for at, rests in chains.items() if grids[at].starts in torn for rest in rests}
    rows: dict[int, dict[int, list[Part]]] = {}
    for at, own in enumerate(cells):
        if own is None or at in taken or grids[at].starts not in torn or not (at in chains or at in heads):
            continue
        parts: dict[int, list[Part]] = {}
        for place in (at, *chains.get(at, ())):
            for column, span in (cells[place] or {}).items():
                parts.setdefault(column, []).append((found[place], *span))
        rows[at] = parts
    begins = {starts: _starts([row for at, row in rows.items() if grids[at].starts == starts], len(starts))
              for starts in torn}
    return [_laid_out(rows[at], begins[grids[at].starts]) if at in rows else line
            for at, line in enumerate(found) if at not in taken]


def _grid(line: Line) -> _Grid | None:
    """The columns of a head that names a code, a status and more, parted by blanks."""
    if len(line.text) > _LONGEST or "  " not in line.text.strip() or "\t" in line.text:
        return None
    pieces = list(_PIECE.finditer(line.low))
    if not _FEWEST <= len(pieces) <= _MOST_HEADS:
        return None
    roles = [role_of(piece[0], exactly=True) for piece in pieces]
    if roles.count("code") != 1 or roles.count("status") != 1 or roles.count(None) > 1:
        return None
    return _Grid([piece.start() for piece in pieces], roles)


def _chains(
    found: Sequence[Line], cells: Sequence[Cells | None], grids: Sequence[_Grid], heads: Mapping[int, _Grid]
) -> Iterator[tuple[int, list[int]]]:
    """The places of the rows, each with those of the lines in which it goes on: a page may end between."""
    for at, own in enumerate(cells):
        if at in heads or own is None or not _begins(own, grids[at]):
            continue
        rests: list[int] = []
        place = at + 1
        while place < len(found) and len(rests) < _MOST_RESTS:
            if place not in heads and _is_rest(cells[place], grids[at]) and grids[place].starts == grids[at].starts:
                rests.append(place)
                place += 1
                continue
            beyond = _beyond_page(found, heads, place)
            if beyond == place or beyond >= len(found) or grids[beyond].starts != grids[at].starts or not _is_rest(
                    cells[beyond], grids[at]):
                break
            place = beyond
        yield at, rests


def _begins(cells: Cells, grid: _Grid) -> bool:
    """Whether a row begins with what a line holds: something in its first columns, and more behind."""
    return len(cells) > 1 and any(column <= grid.code for column in cells)


def _is_rest(cells: Cells | None, grid: _Grid) -> bool:
    """Whether a line holds nothing but what cells behind that of the code go on with."""
    return bool(cells) and min(cells or (0,)) > grid.code


def _beyond_page(found: Sequence[Line], heads: Mapping[int, _Grid], at: int) -> int:
    """The place behind the foot of a page, which stands at a place, and the head of the next; that place where none
    does."""
    below = [place for place in range(at, min(len(found), at + _MOST_BETWEEN)) if found[place].text.strip()]
    if not below or not is_page_count(found[below[0]].low.strip()):
        return at
    second = min(grid.starts[1] for grid in heads.values())
    for place in below[1:]:
        if place in heads:
            return place + 1
        if found[place].indent >= second and not is_page_count(found[place].low.strip()):
            return place
    return at


def _is_torn(
    found: Sequence[Line], cells: Sequence[Cells | None], at: int, rests: Sequence[int], grid: _Grid
) -> bool:
    """Whether the status of a row, or the answer of a module, is whole only with the lines in which it goes on."""
    for column in range(grid.code + 1, len(grid.starts)):
        texts = [found[place].low[slice(*span)] for place in (at, *rests)
                 if (span := (cells[place] or {}).get(column)) is not None]
        whole = " ".join(texts)
        if len(texts) < 2 or len(whole) > _LONGEST:
            continue
        if column == grid.status and states.of_cell(whole) is not None:
            return True
        if grid.code not in (cells[at] or {}) and answer_of_cell(whole) is not None:
            return True
    return False


def _starts(rows: Sequence[Mapping[int, Sequence[Part]]], columns: int) -> list[int]:
    """Where each column begins that has room for its cells whole, two blanks behind the widest."""
    found = [0]
    for column in range(columns - 1):
        widest = max(_size(row.get(column, ())) for row in rows)
        found.append(found[-1] + widest + 2 * (widest > 0))
    return found


def _size(parts: Sequence[Part]) -> int:
    """How wide a cell is, its parts with a blank between."""
    return sum(end - start + 1 for _, start, end in parts) - bool(parts)


def _laid_out(row: Mapping[int, Sequence[Part]], starts: Sequence[int]) -> Line:
    """A row with its cells whole, each where its column begins."""
    pieces: list[Part | str] = []
    length = 0
    for column, start in enumerate(starts):
        parts = row.get(column, ())
        if not parts:
            continue
        pieces.append(" " * (start - length))
        for at, part in enumerate(parts):
            pieces += [" ", part] if at else [part]
        length = start + _size(parts)
    line = together(*pieces)
    line.indent = indent_of(line.text)
    return line


__all__ = ["joined"]
