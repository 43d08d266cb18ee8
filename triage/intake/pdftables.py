"""Pages of a PDF with ruled tables: what stands in each cell, by the lines drawn around it.

Text alone does not tell which cell a word is in where a cell spans several rows or its text goes over several lines;
the lines do. Each row becomes a line of cells between bars, a cell that spans several rows is told in each of them.

A PDF is measured from the lower left corner of its page, in points (1/72 inch).

>>> words = [Text(12, 70, 8, "ABS"), Text(62, 80, 8, "C0035-"), Text(62, 72, 8, "11"), Text(62, 52, 8, "C0040")]
>>> across = [(x, 40.0, 90.0) for x in (10.0, 60.0, 110.0)]
>>> down = [(90.0, 10.0, 110.0), (65.0, 60.0, 110.0), (40.0, 10.0, 110.0)]
>>> for line in written(words, across, down): print(line)
| ABS | C0035-11 |
| ABS | C0040 |
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from statistics import median
from typing import Any, NamedTuple

from triage.intake.codes.found import find
from triage.intake.plain.patterns import lazily

#: A line that is drawn: where it stands, and from where to where it goes.
Segment = tuple[float, float, float]

#: Lines are thinner than this, in points; what meets may miss by so much.
_THIN, _MISS = 2.5, 2.5
#: A page with more lines drawn than this is a drawing, one with more words no list.
_MOST_SEGMENTS, _MOST_TEXTS = 6000, 20000
#: A character is about so wide, against the size of its letters.
_WIDE = 0.5
#: The characters of a code without its failure type; a code that breaks off within that, whose rest is so short.
_BARE, _SHORT = 5, 2
_BROKEN = lazily(r"[PCBUpcbu][0-3][0-9A-Fa-f]{3}[-:][0-9A-Fa-f]?$")
_STROKED, _FILLED = frozenset((b"S", b"s", b"B", b"B*", b"b", b"b*")), frozenset((b"f", b"F", b"f*"))
_ENDS = _STROKED | _FILLED | {b"n"}


class Text(NamedTuple):
    """A run of text: where it begins, its base line, the size of its letters, all in points, and what it says."""

    x: float
    y: float
    size: float
    text: str


class _Cell(NamedTuple):
    """The lines around a cell."""

    left: float
    right: float
    low: float
    top: float


@dataclass(slots=True)
class _Drawn:
    """What a page shows: its texts, the upright and the level lines on it."""

    texts: list[Text] = field(default_factory=list)
    upright: list[Segment] = field(default_factory=list)
    level: list[Segment] = field(default_factory=list)
    path: list[tuple[float, float, float, float]] = field(default_factory=list)
    at: tuple[float, float] = (0.0, 0.0)
    begun: tuple[float, float] = (0.0, 0.0)

    def text(self, text: str, cm: Sequence[float], tm: Sequence[float], font: Any, size: float) -> None:
        """Take a run of text; ``cm`` and ``tm`` are the matrices of the page and of the text."""
        if text.strip():
            x, y = _placed(tm[4], tm[5], cm)
            high = abs(size * tm[3] * cm[3]) or abs(size) or 1.0
            for down, line in enumerate(text.strip("\n").split("\n")):
                if line.strip():
                    self.texts.append(Text(x, y - down * high, high, line.strip()))

    def operator(self, name: bytes, args: Sequence[Any], cm: Sequence[float], tm: Sequence[float]) -> None:
        """Take an operator that draws."""
        if name == b"re":
            x, y, wide, high = (float(arg) for arg in args[:4])
            (left, low), (right, top) = _placed(x, y, cm), _placed(x + wide, y + high, cm)
            self.path.append((min(left, right), min(low, top), max(left, right), max(low, top)))
        elif name == b"m":
            self.at = self.begun = _placed(float(args[0]), float(args[1]), cm)
        elif name == b"l":
            self._go(_placed(float(args[0]), float(args[1]), cm))
        elif name == b"h":
            self._go(self.begun)
        elif name in _ENDS:
            for left, low, right, top in self.path if name != b"n" else ():
                self._draw(left, low, right, top, name in _STROKED)
            self.path.clear()

    def _go(self, at: tuple[float, float]) -> None:
        """Take a stroke to a place."""
        (left, right), (low, top) = sorted((at[0], self.at[0])), sorted((at[1], self.at[1]))
        self.path.append((left, low, right, top))
        self.at = at

    def _draw(self, left: float, low: float, right: float, top: float, stroked: bool) -> None:
        """Take a box: a line where it is thin, its four sides where these are drawn."""
        if right - left <= _THIN:
            self.upright.append(((left + right) / 2, low, top))
        elif top - low <= _THIN:
            self.level.append(((low + top) / 2, left, right))
        elif stroked:
            self.upright += [(left, low, top), (right, low, top)]
            self.level += [(low, left, right), (top, left, right)]


def _placed(x: float, y: float, matrix: Sequence[float]) -> tuple[float, float]:
    """A place on the page."""
    return x * matrix[0] + y * matrix[2] + matrix[4], x * matrix[1] + y * matrix[3] + matrix[5]


def text_of(page: Any, plain: str) -> str:
    """The text of a page of pypdf with its ruled tables cell by cell; ``plain``, its text in columns, where it has
    none, or where a code would be lost."""
    drawn = _Drawn()
    page.extract_text(visitor_text=drawn.text, visitor_operand_before=drawn.operator)
    if not drawn.level or len(drawn.upright) + len(drawn.level) > _MOST_SEGMENTS or len(drawn.texts) > _MOST_TEXTS:
        return plain
    lines = written(drawn.texts, drawn.upright, drawn.level)
    text = "\n".join(lines)
    kept = {text[found.start : found.end][:_BARE] for found in find(text).codes}
    lost = any(plain[found.start : found.end][:_BARE] not in kept for found in find(plain).codes)
    return plain if not lines or lost else text


def written(texts: Sequence[Text], upright: Sequence[Segment], level: Sequence[Segment]) -> list[str]:
    """The lines of a page, those of its tables between bars; none where no table is drawn on it."""
    cells: dict[_Cell, list[Text]] = {}
    outside: list[Text] = []
    for text in texts:
        cell = _around(text, upright, level)
        if cell is None:
            outside.append(text)
        else:
            cells.setdefault(cell, []).append(text)
    tables = [table for table in _tables(list(cells)) if _is_table(table)]
    kept = {cell for table in tables for cell in table}
    outside += [text for cell, own in cells.items() if cell not in kept for text in own]
    beside = any(min(cell.low for cell in table) < text.y < table[0].top for table in tables for text in outside)
    if not tables or beside:
        # Beside a table that is ruled in part nobody knows what belongs to which row.
        return []
    placed = [(table[0].top, _rows(table, cells)) for table in tables] + _loose(outside)
    return [line for _, lines in sorted(placed, key=lambda each: -each[0]) for line in lines]


def _around(text: Text, upright: Sequence[Segment], level: Sequence[Segment]) -> _Cell | None:
    """The cell that a text stands in; None where no lines are drawn around it. Where its page ends a cell may be open:
    it goes as far as the line on its left."""
    x, y = text.x + text.size / 4, text.y + text.size / 4
    left = max((line for line in upright if line[0] <= x and line[1] <= y <= line[2]), default=None)
    right = min((at for at, low, top in upright if at > x and low <= y <= top), default=None)
    low = max((at for at, start, end in level if at <= y and start <= x <= end), default=None)
    top = min((at for at, start, end in level if at > y and start <= x <= end), default=None)
    if left is None or right is None or (low is None and top is None):
        return None
    return _Cell(left[0], right, left[1] if low is None else low, left[2] if top is None else top)


def _tables(cells: Sequence[_Cell]) -> list[list[_Cell]]:
    """Cells by the tables they are of, from the top down: between two tables the page is free."""
    tables: list[list[_Cell]] = []
    reach = 0.0
    for cell in sorted(cells, key=lambda cell: (-cell.top, cell.left)):
        if not tables or cell.top < reach - _MISS:
            tables.append([])
            reach = cell.low
        tables[-1].append(cell)
        reach = min(reach, cell.low)
    return tables


def _is_table(table: Sequence[_Cell]) -> bool:
    """Whether some cells stand in rows and columns: a frame around text is no table."""
    return len(_edges([cell.left for cell in table])) > 1 and len(_edges([cell.top for cell in table])) > 1


def _edges(places: Sequence[float]) -> list[float]:
    """Places from left to right, those that all but meet taken for one."""
    found: list[float] = []
    for place in sorted(places):
        if not found or place - found[-1] > _MISS:
            found.append(place)
    return found


def _rows(table: Sequence[_Cell], cells: dict[_Cell, list[Text]]) -> list[str]:
    """The rows of a table, a line each."""
    columns = _edges([cell.left for cell in table])
    out = []
    tops = _edges([cell.top for cell in table])[::-1]
    for at, top in enumerate(tops):
        below = tops[at + 1] if at + 1 < len(tops) else min(cell.low for cell in table)
        middle = (top + max(below, max(cell.low for cell in table if abs(cell.top - top) <= _MISS))) / 2
        row = [cell for cell in table if cell.low < middle < cell.top + _MISS]
        told = ["".join(_joined(cells[cell]) for cell in row if abs(cell.left - left) <= _MISS) for left in columns]
        out.append(f"| {' | '.join(text.replace('|', '/') for text in told)} |")
    return out


def _joined(texts: Sequence[Text]) -> str:
    """What stands in a cell, as one line: a word that was broken at its hyphen goes on with the number below."""
    whole = ""
    for text in sorted(texts, key=lambda text: (-round(text.y), text.x)):
        broken = _BROKEN.search(whole) is not None and text.text[:1].isalnum() and len(text.text) <= _SHORT
        whole += text.text if broken or not whole else f" {text.text}"
    return whole


def _loose(texts: Sequence[Text]) -> list[tuple[float, list[str]]]:
    """The texts outside of tables as lines, each with its height, what stands apart in it apart."""
    if not texts:
        return []
    wide = max(median(text.size for text in texts) * _WIDE, 1.0)
    lines: list[list[Text]] = []
    for text in sorted(texts, key=lambda text: (-text.y, text.x)):
        if lines and lines[-1][0].y - text.y <= text.size / 2:
            lines[-1].append(text)
        else:
            lines.append([text])
    found = []
    for line in lines:
        out = ""
        for text in sorted(line, key=lambda text: text.x):
            gap = round(text.x / wide) - len(out)
            out += (" " * max(gap, 1) if out else "") + text.text
        found.append((line[0].y, [out]))
    return found


__all__ = ["Text", "text_of", "written"]
