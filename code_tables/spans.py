"""Ranges that nest: a narrow row says what differs from the wide row around it, an empty cell inherits."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Sequence

from triage.errors import TableError

Cells = tuple[str, ...]


class Spans:
    """Looks a number up among nested ranges.

    >>> spans = Spans([(0, 99, ("a", "x")), (10, 19, ("", "y")), (12, 12, ("b", ""))])
    >>> spans.at(5), spans.at(10), spans.at(12), spans.at(20), spans.at(100)
    (('a', 'x'), ('a', 'y'), ('b', 'y'), ('a', 'x'), None)
    """

    __slots__ = ("_starts", "_values")

    def __init__(self, rows: Iterable[tuple[int, int, Cells]], table: str = "ranges") -> None:
        self._starts: list[int] = []
        self._values: list[Cells | None] = []
        open_rows: list[tuple[int, Cells]] = []
        # Sorted by start, the wider first: whatever is still open when a row starts lies around it.
        for low, high, cells in sorted(rows, key=lambda row: (row[0], -row[1])):
            self._close(open_rows, low)
            if open_rows and open_rows[-1][0] < high:
                raise TableError(f"{table}: ranges must nest, seen one from {low} to {high} that crosses the end "
                                 f"{open_rows[-1][0]} of another; split it")
            merged = _over(cells, open_rows[-1][1]) if open_rows else cells
            self._starts.append(low)
            self._values.append(merged)
            open_rows.append((high, merged))
        self._close(open_rows, None)

    def _close(self, open_rows: list[tuple[int, Cells]], before: int | None) -> None:
        """End the rows that end before ``before`` (None: all)."""
        while open_rows and (before is None or open_rows[-1][0] < before):
            end, _ = open_rows.pop()
            self._starts.append(end + 1)
            self._values.append(open_rows[-1][1] if open_rows else None)

    def at(self, number: int) -> Cells | None:
        """The cells at ``number``, or None outside every range."""
        place = bisect_right(self._starts, number) - 1
        return self._values[place] if place >= 0 else None

    def gaps(self, low: int, high: int) -> list[int]:
        """Starts of the stretches of ``low``..``high`` that no row covers."""
        found = [] if self.at(low) is not None else [low]
        pairs = zip(self._starts, self._values, strict=True)
        return found + [start for start, value in pairs
                        if value is None and low < start <= high and self.at(start) is None]


def _over(cells: Sequence[str], below: Sequence[str]) -> Cells:
    """``cells`` with each empty one taken from ``below``."""
    return tuple(upper or lower for upper, lower in zip(cells, below, strict=True))
