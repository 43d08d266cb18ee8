"""Rows: the lines of a text as the reader sees them, and the cells they were cut into."""

from __future__ import annotations

from dataclasses import dataclass

from triage.intake.codes.finds import NOTHING, Finds
from triage.intake.codes.found import find, with_own
from triage.intake.plain.characters import Line
from triage.intake.said.near import small


def finds_of(line: Line, text: str, low: str) -> Finds:
    """The codes of a text of a line, with the makers' own numbers that the whole text tells to be codes."""
    finds = find(text, low)
    return with_own(finds, text, low, line.own) if line.own else finds


#: Boxes and circles with no tick in them, which are bullets in plain characters.
_EMPTY_BOXES = frozenset("\u2610\u25a1\u25cb\u25e6\u25ab")


@dataclass(slots=True)
class Cell:
    """One cell: its place in the line's text, and its text without outer spaces and quotes."""

    start: int
    end: int
    text: str
    low: str


@dataclass(slots=True)
class Row:
    """One line as the reader sees it: without bullet, number or quote mark before it (``start`` is where the rest
    begins). ``cells`` where it was cut; ``roles`` where a head above names the columns; ``kind`` is the mark."""

    line: Line
    text: str
    start: int
    low: str = ""
    finds: Finds = NOTHING
    cells: list[Cell] | None = None
    roles: tuple[str | None, ...] | None = None
    kind: str = ""
    head: bool = False
    blank: bool = False
    shape: tuple[str, int, bool] | None = None
    #: A count or a distance that was taken off the end of a line with codes.
    behind: str = ""
    #: The names of modules with the voltages that were taken off behind them.
    own_volts: tuple[tuple[str, float], ...] = ()
    #: The number of codes that stood behind the name of its module.
    counted: int | None = None
    #: The time that stood before it is so much later than the one above that a module named again is in another scan.
    later: bool = False
    #: It says which scan the module named next is of: scans may take turns.
    turns: bool = False
    #: The name of the scan that it says what follows is of, and where it goes on behind that.
    names_scan: tuple[str, int] | None = None
    #: For each of its codes the places of the module's name, of the description before it and of what is behind it.
    described: tuple[tuple[int, int], ...] = ()
    #: The place of the module's name in a line of a list that begins with its code.
    named: tuple[int, int] | None = None
    #: It is in a list below the name of its module, and one above such lists, as all through the text.
    entry: bool = False
    heads: bool = False
    #: The last row of a table that was put together from other lines: the heads do not hold below it.
    closes: bool = False
    #: The places of the codes that it tells of another time than that of the scan; None for any other row.
    aside: tuple[tuple[int, int], ...] | None = None
    #: A note that somebody put between the lines: it tells of no module.
    note: bool = False
    #: A key and a value that were stored with the code above.
    stored: bool = False

    def __post_init__(self) -> None:
        text = self.text
        if not text:
            self.blank = True
        elif not self.low:
            low = self.line.low
            self.low = low if len(low) == len(text) else low[self.start : self.start + len(text)]
            self.finds = finds_of(self.line, text, self.low)

    def part(self, start: int, end: int | None = None) -> Row:
        """A part of the text as a row of its own, with the makers' own numbers that the rest told to be codes."""
        row = Row(self.line, self.text[start:end].rstrip(), self.start + start, entry=self.entry)
        known = {code.start for code in row.finds.codes}
        kept = [
            code._replace(start=code.start - start, end=code.end - start, bare=code.bare - start)
            for code in self.finds.codes
            if code.kind == "own" and code.start >= start and code.end - start <= len(row.text)
        ]
        if kept := [code for code in kept if code.start not in known]:
            codes = sorted((*row.finds.codes, *kept), key=lambda code: code.start)
            row.finds = row.finds._replace(codes=tuple(codes))
        return row

    def saying(self, text: str, finds: Finds | None = None) -> Row:
        """The row with another text in the place of its own. ``finds``: where its codes stand, if that is known."""
        low = small(text)
        return Row(self.line, text, self.start, low, finds or finds_of(self.line, text, low), behind=self.behind,
                   entry=self.entry, heads=self.heads)

    def cells_text(self) -> list[str]:
        """The texts of the cells."""
        return [cell.text for cell in self.cells or ()]


def is_empty_box(row: Row, cell: Cell) -> bool:
    """Whether what stands in a cell was pasted as a box or a circle with no tick in it."""
    if cell.text != "\u2022":
        return False
    start, end = row.line.span(row.start + cell.start, row.start + cell.end)
    return row.line.raw[start:end] in _EMPTY_BOXES
