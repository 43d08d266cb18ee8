"""Lists side by side, each with columns of its own ("Module | Codes | Module | Codes"), put one below the other.

A title above each says which scan it is; lists without a title that name the same modules are scans as well, and others
are one list set in columns.

>>> from triage.intake.lines.layouts import split_rows
>>> from triage.intake.lines.rows import rows_of
>>> found = rows_of("Before clear | | After clear |\\nModule | Codes | Module | Codes\\nECM | P0562 | ECM | none")
>>> split_rows(found)
>>> [row.text for row in unfolded(found, lambda low: []) if row.text]
['Before clear', '| Module | Codes |', '| ECM | P0562 |', 'After clear', '| Module | Codes |', '| ECM | none |']
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from triage.intake.codes.found import find
from triage.intake.lines.row import Cell, Row
from triage.intake.naming.heads import role_of
from triage.intake.said import phases
from triage.intake.said.answers import answer_of_cell, spoken
from triage.intake.said.near import small
from triage.intake.tidying.scancells import names_a_scan, of_the_scan, row_like

_TELLING = frozenset(("code", "spn", "count_of_codes", "answer", "status"))
#: So many rows above the head may tell of the scans.
_MOST_ABOVE = 3
#: A cell may stand so much left of its head.
_SLACK = 2
_MOST_SPACES = 4
Find = Callable[[str], Sequence[tuple[int, int, bool]]]


@dataclass(slots=True)
class _Lists:
    """Lists side by side: the row of their heads or their titles, how many columns each has (0: as many as its titles
    leave room for), where each starts, and what is told of each above its columns."""

    head: Row
    size: int
    starts: list[int]
    titles: list[list[str]]
    #: The rows above the head that told of the scans.
    above: int = 0
    rows: list[list[tuple[Row, list[Cell]]]] = field(default_factory=list)
    last: int = 0


def unfolded(rows: list[Row], names: Find) -> list[Row]:
    """The rows, lists that stand side by side one below the other; the same list where there are none. ``names`` finds
    the names of modules in a text."""
    if not any(row.cells is not None and len(row.cells) > 1 and _may_head(row) for row in rows):
        return rows
    found: list[Row] = []
    at = changed = 0
    while at < len(rows):
        lists = _lists(rows, at, names) if rows[at].cells is not None and _may_head(rows[at]) else None
        if lists is None:
            found.append(rows[at])
            at += 1
            continue
        for _ in range(lists.above):
            found.pop()
        found += _written(lists)
        at, changed = lists.last, changed + 1
    return found if changed else rows


def _may_head(row: Row) -> bool:
    """Whether a row may be the heads or the titles of such lists."""
    cells = row.cells or []
    if len(cells) < 2 or row.finds.codes or row.blank or row.kind == "rule":
        return False
    filled = [cell for cell in cells if cell.text]
    if len(filled) >= 4 and sum(_role(cell) == "module" for cell in filled) >= 2:
        return True
    return len(filled) >= 2 and all(names_a_scan(cell.low) for cell in filled)


def _role(cell: Cell) -> str | None:
    """What a head names; "codes before" is one of codes."""
    role = role_of(cell.low)
    if role is None and (hit := phases.find(cell.low)) is not None and len(cell.low) <= 40:
        rest = f"{cell.low[: hit.start]} {cell.low[hit.end :]}".strip(" ,-")
        role = role_of(rest) if rest else "code"
    return role


def _lists(rows: Sequence[Row], at: int, names: Find) -> _Lists | None:
    """The lists whose heads, or whose titles where no column has a head, stand at a place."""
    lists = _headed(rows, at) or _titled(rows[at])
    if lists is None:
        return None
    last = at + 1
    while last < len(rows):
        row = rows[last]
        if row.kind != "rule":
            if row.blank and _goes_on(rows, last + 1, lists, names):
                last += 1
                continue
            cells = None if _may_head(row) else _parts(lists, row, names)
            if cells is None:
                break
            if not _is_of_the_scans(lists, cells):
                lists.rows.append([(row, own) for own in cells])
        last += 1
    lists.last = last
    if not lists.rows or (not lists.size and not _all_named(lists, names)):
        return None
    return lists


def _is_of_the_scans(lists: _Lists, cells: Sequence[Sequence[Cell]]) -> bool:
    """Whether a row tells of the scans alone ("11.4 V      12.9 V"); what it tells is then taken."""
    texts = [" ".join(cell.text for cell in own if cell.text) for own in cells]
    if not any(texts) or any(text and of_the_scan("", small(text)) is None for text in texts):
        return False
    for titles, text in zip(lists.titles, texts, strict=True):
        titles += [text] if text else []
    return True


def _goes_on(rows: Sequence[Row], at: int, lists: _Lists, names: Find) -> bool:
    """Whether the row behind a blank one is of the lists above it."""
    cells = _parts(lists, rows[at], names) if lists.rows and at < len(rows) else None
    if cells is None:
        return False
    places = [rows[at].start + own[0].start - start for own, start in zip(cells, lists.starts, strict=True) if own]
    return rows[at].kind != "gap" or (len(places) > 1 and all(abs(place) <= _SLACK for place in places))


def _headed(rows: Sequence[Row], at: int) -> _Lists | None:
    """Lists whose columns have heads, the same in each, with the titles above them."""
    head = rows[at]
    cells = head.cells or []
    roles = [_role(cell) for cell in cells]
    for count in (2, 3, 4):
        size = len(cells) // count
        if size < 2 or len(cells) % count or roles[:size] * count != roles:
            continue
        if roles[:size].count("module") != 1 or _TELLING.isdisjoint(roles[:size]):
            continue
        starts = [head.start + cells[place].start for place in range(0, len(cells), size)]
        own = [next((cell.text for cell in cells[place : place + size] if names_a_scan(cell.low)), "")
               for place in range(0, len(cells), size)]
        lists = _Lists(head, size, starts, [[text] if text else [] for text in own])
        _take_titles(rows, at, lists)
        return lists
    return None


def _take_titles(rows: Sequence[Row], at: int, lists: _Lists) -> None:
    """Take what the rows above the heads tell of each list."""
    for above, row in enumerate(reversed(rows[max(0, at - _MOST_ABOVE) : at]), start=1):
        if row.kind == "rule" or row.blank:
            continue
        told = _titles(row, lists)
        if told is None:
            return
        for titles, texts in zip(lists.titles, told, strict=True):
            titles[:0] = texts
        lists.above = above


def _titles(row: Row, lists: _Lists) -> list[list[str]] | None:
    """What a row above the heads tells of each list; None where it tells of anything else."""
    filled = [cell for cell in row.cells or () if cell.text]
    count = len(lists.starts)
    if not filled or any(of_the_scan("", cell.low) is None for cell in filled):
        return None
    found: list[list[str]] = [[] for _ in range(count)]
    whole = len(row.cells or ()) == count * lists.size
    for at, cell in enumerate(row.cells if whole and row.cells else filled):
        place = row.start + cell.start
        number = at // lists.size if whole else at
        if row.kind == "gap" and len(filled) != count:
            number = max((each for each, start in enumerate(lists.starts) if start <= place + _SLACK), default=0)
        if number >= count:
            return None
        if cell.text and cell.text not in found[number]:
            found[number].append(cell.text)
    return found if all(found) else None


def _titled(row: Row) -> _Lists | None:
    """Lists of which only the titles stand above: "Before clear      After clear"."""
    filled = [cell for cell in row.cells or () if cell.text]
    if len(filled) < 2 or len({cell.low for cell in filled}) < len(filled):
        return None
    return _Lists(row, 0, [row.start + cell.start for cell in filled], [[cell.text] for cell in filled])


def _alone(lists: _Lists, row: Row, names: Find) -> list[Cell] | None:
    """A row of one list where the others end: it fits in its column and is a name, a code or an answer."""
    if lists.head.kind != "gap" or row.cells is not None or row.kind or row.blank:
        return None
    stop = next((start for start in lists.starts if start > row.start + _SLACK), row.start + len(row.text) + 1)
    found = names(row.low)
    coded = bool(row.finds.codes) and not row.finds.codes[0].start
    told = coded or answer_of_cell(row.low) is not None or (bool(found) and not found[0][0])
    fits = row.start + len(row.text) < stop and row.text.count(" ") <= _MOST_SPACES
    return [Cell(0, len(row.text), row.text, row.low)] if told and fits else None


def _parts(lists: _Lists, row: Row, names: Find) -> list[list[Cell]] | None:
    """The cells of a row by the lists they belong to; None where it is none of their rows."""
    count = len(lists.starts)
    cells = row.cells if row.kind == lists.head.kind else _alone(lists, row, names)
    if row.blank or cells is None:
        return None
    if lists.head.kind != "gap":
        size = lists.size or (len(cells) // count if len(cells) % count == 0 else 0)
        return [cells[size * number : size * (number + 1)] for number in range(count)] if size else None
    found: list[list[Cell]] = [[] for _ in range(count)]
    for cell in cells:
        place = row.start + cell.start
        number = max((at for at, start in enumerate(lists.starts) if start <= place + _SLACK), default=-1)
        if number < 0:
            return None
        found[number].append(cell)
    return found


def _all_named(lists: _Lists, names: Find) -> bool:
    """Whether every row of each list begins with the name of a module or is what one said, and both stand there."""
    for number in range(len(lists.starts)):
        own = [row[number][1] for row in lists.rows]
        texts = [" ".join(cell.low for cell in cells if cell.text) for cells in own]
        named = told = 0
        for text in filter(None, texts):
            found = names(text)
            begins = bool(found) and not found[0][0]
            coded = find(text, text).codes
            said = bool(coded) or bool(spoken(text)) or (begins and not text[found[0][1] :].strip(" :-"))
            if not begins and not (coded and not coded[0].start) and answer_of_cell(text) is None:
                return False
            named, told = named + begins, told + said
        if not named or not told:
            return False
    return True


def _written(lists: _Lists) -> list[Row]:
    """The lists one below the other."""
    titles = [", ".join(told) for told in lists.titles]
    firsts = [{(own[number][1][0].low if own[number][1] else "") for own in lists.rows} - {""}
              for number in range(len(titles))]
    if not any(titles) and any(2 * len(firsts[0] & other) >= min(len(firsts[0]), len(other)) for other in firsts[1:]):
        titles = [f"Scan {number}" for number in range(1, len(titles) + 1)]
    found: list[Row] = []
    for number, title in enumerate(titles):
        if title:
            found += [Row(lists.head.line, "", 0), row_like(lists.head, title)]
        if lists.size and (title or not number):
            heads = (lists.head.cells or [])[lists.size * number : lists.size * (number + 1)]
            found.append(row_like(lists.head, _line(heads, lists)))
        for row in lists.rows:
            line, cells = row[number]
            if any(cell.text.strip(" -") for cell in cells):
                found.append(_row(lists, line, cells, number))
    found.append(Row(lists.head.line, "", 0))
    return found


def _row(lists: _Lists, row: Row, cells: list[Cell], number: int) -> Row:
    """One row of a list; where its columns have no heads, set in as far as it was."""
    if lists.size or lists.head.kind != "gap":
        return row_like(row, _line(_under(cells, row, lists, number), lists))
    text = row.text[cells[0].start : cells[-1].end]
    found = row_like(row, text)
    found.line.indent = max(0, row.start + cells[0].start - lists.starts[number])
    return found


def _under(cells: list[Cell], row: Row, lists: _Lists, number: int) -> list[Cell]:
    """The cells of a list in one row, each in its column."""
    if lists.head.kind != "gap" or not lists.size or len(cells) == lists.size:
        return cells
    heads = (lists.head.cells or [])[lists.size * number : lists.size * (number + 1)]
    found = [Cell(0, 0, "", "") for _ in heads]
    for cell in cells:
        place = row.start + cell.start
        column = min(range(len(heads)), key=lambda at: abs(lists.head.start + heads[at].start - place))
        have = found[column]
        text = f"{have.text} {cell.text}".strip()
        found[column] = Cell(cell.start, cell.end, text, small(text))
    return found


def _line(cells: Sequence[Cell], lists: _Lists) -> str:
    """The cells of a list as a line of a table, or of text where its columns have no heads."""
    texts = [cell.text for cell in cells]
    if lists.size:
        return f"| {' | '.join(texts)} |"
    name, rest = texts[0], " ".join(text for text in texts[1:] if text)
    return f"{name}: {rest}" if rest else name


__all__ = ["unfolded"]
