"""The sheet that the picture is drawn on: its measures, its ink, text and rules, and where a new drawing begins."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from triage.reports.entries import Snap, View
from triage.reports.markup import Markup, element

#: Units of the drawing; at the width of an A4 text column (180 mm) one unit is about 0.24 mm.
WIDTH, LABELS, VERDICT, LEAST_COLUMN = 760.0, 232.0, 144.0, 52.0
INK, GREY, HAIR = "#111111", "#555555", "#bbbbbb"
FONT = "Helvetica, Arial, 'Liberation Sans', 'DejaVu Sans', sans-serif"
#: Share of the type size that a character takes on average, generous so that nothing is cut off.
ADVANCE = 0.57


@dataclass(slots=True)
class Sheet:
    """What is being drawn, and where the next row goes (``y``, in units from the top).

    ``tall``: height after which a new drawing begins, ``begin`` drawing its heads once more; ``done``: the drawings
    before.
    """

    shown: View
    column: float
    tall: float
    prefix: str
    named: bool
    begin: Callable[[Sheet], None]
    y: float = 0.0
    drawn: list[Markup] = field(default_factory=list)
    words: list[str] = field(default_factory=list)  # the text alternative
    done: list[Markup] = field(default_factory=list)

    @property
    def snaps(self) -> tuple[Snap, ...]:
        """The columns."""
        return self.shown.snaps

    @property
    def right(self) -> float:
        """The right edge."""
        return LABELS + self.column * max(1, len(self.snaps)) + VERDICT

    def centre(self, place: int) -> float:
        """The middle of column ``place``."""
        return LABELS + self.column * (place + 0.5)

    def text(self, x: float, y: float, words: str, size: float = 11.0, bold: bool = False, anchor: str = "start",
             colour: str = INK) -> None:
        """One line of text."""
        self.drawn.append(element("text", words, x=x, y=y, font_size=size, font_weight="bold" if bold else None,
                                  text_anchor=None if anchor == "start" else anchor, fill=colour))

    def rule(self, y: float, colour: str = HAIR) -> None:
        """A hairline over the whole width."""
        self.drawn.append(element("line", x1=0.0, x2=self.right, y1=y, y2=y, stroke=colour, stroke_width=0.6))

    def make_room(self, needed: float) -> None:
        """Go on in a new drawing where ``needed`` units would pass the height."""
        if self.y + needed > self.tall:
            self.close("")
            self.open()

    def open(self) -> None:
        """Begin a drawing."""
        self.drawn, self.words = [], []
        self.begin(self)

    def close(self, last: str) -> None:
        """Finish a drawing."""
        name = f"{self.prefix}-{len(self.done) + 1}"
        height = self.y + 6.0
        words = " ".join([*self.words, last]).strip()
        self.done.append(element(
            "svg", element("title", f"{self.shown.title}: what was seen in each snapshot, and the supply",
                           id=f"{name}-title"),
            element("desc", words, id=f"{name}-desc"),
            element("rect", x=0.0, y=0.0, width=self.right, height=height, fill="#ffffff"),
            element("g", self.drawn, font_family=FONT, fill=INK),
            xmlns="http://www.w3.org/2000/svg", viewBox=f"0 0 {self.right:g} {height:g}", role="img",
            width=self.right, height=height, aria_labelledby=f"{name}-title {name}-desc"))


def room(units: float, size: float, bold: bool = False) -> int:
    """Characters that fit into ``units`` at a type size."""
    return max(6, int(units / (size * (ADVANCE + (0.04 if bold else 0.0)))))


__all__ = ["ADVANCE", "FONT", "GREY", "HAIR", "INK", "LABELS", "LEAST_COLUMN", "VERDICT", "WIDTH", "Sheet", "room"]
