"""The rows of a log, by a layout already found, as two arrays.

The text goes through in pieces of some megabytes. A piece that is numbers throughout is read by the pandas parser
(clock times split into hours, minutes and seconds first, so that they are numbers too); a piece with anything else
in it is read line by line, so that a remark can name the line. Both ways must agree, and a test holds them together.
"""

from __future__ import annotations

import io
import warnings
from array import array
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from triage.model.notices import Notice
from triage.supply.clock import DAY, read_clock, read_date, read_stamp
from triage.supply.layout import Layout, cells_of, join_cells, number

Array = NDArray[np.float64]
_PIECE = 4_000_000
#: Texts up to this long are read line by line: sooner done than pandas is imported (0.1 s against 0.5 s).
_SMALL = 300_000
_MOST_NOTICES = 5
_EMPTY = frozenset({"", "nan", "na", "n/a", "null", "none", "-", "--", "---"})


@dataclass(slots=True)
class Rows:
    """What the rows hold: ``seconds`` and ``volts``, shape (n,), NaN where a cell is empty; notices with lines."""

    seconds: Array
    volts: Array
    notices: list[Notice] = field(default_factory=list)


def read_rows(text: str, layout: Layout, source: str | None) -> Rows:
    """All rows of ``text`` from the first data line on; rows that can't be read are counted and the first named."""
    reader = _LineReader(layout, source)
    times: list[Array] = []
    volts: list[Array] = []
    line, counted = layout.first_line, _begin(text, layout.first_line)
    for place, end in _pieces(text, counted):
        piece = text[place:end]
        arrays = _fast(piece, layout) if len(text) > _SMALL and not layout.joined else None
        if arrays is None:
            line += text.count("\n", counted, place)
            counted = place
            arrays = reader.read(piece, line)
        times.append(arrays[0])
        volts.append(arrays[1])
    if layout.kind == "none":
        times = [np.arange(sum(len(part) for part in volts), dtype=np.float64)]
    return Rows(np.concatenate(times), np.concatenate(volts), reader.notices())


def _begin(text: str, first_line: int) -> int:
    """Where line ``first_line`` (from 0) begins."""
    head = text[:200_000].splitlines(keepends=True) if first_line else []
    return sum(len(line) for line in head[:first_line])


def _pieces(text: str, place: int) -> Iterator[tuple[int, int]]:
    """Begin and end of the pieces of the text from ``place`` on, each ending with a line."""
    while place < len(text):
        end = text.find("\n", place + _PIECE)
        end = len(text) if end < 0 else end + 1
        yield place, end
        place = end


class _Plan(NamedTuple):
    """Where things stand once clock times are parted: columns of the clock (or the seconds), volts and date."""

    clock: tuple[int, ...]
    volts: int
    day: int | None


def _plan(layout: Layout) -> _Plan:
    """The columns of a piece in which every part of a time has its own."""
    stamp, timed = layout.kind == "stamp", layout.kind in ("clock", "stamp")
    shift = 2 * timed + stamp
    volts = layout.volts + shift * (layout.volts > layout.time >= 0)
    day = layout.time if stamp else None
    if layout.date is not None:
        day = layout.date + shift * (layout.date > layout.time)
    first = layout.time + stamp
    clock = tuple(range(first, first + 3)) if timed else (layout.time,) * (layout.time >= 0)
    return _Plan(clock, volts, day)


def _parted(piece: str, layout: Layout) -> str:
    """The piece with dates, hours, minutes and seconds as columns of their own."""
    mark = layout.separator or " "
    if layout.kind == "stamp":
        piece = piece.replace("T", mark).replace("Z", "")
        piece = piece if layout.separator is None else piece.replace(" ", mark)
    return piece.replace(":", mark) if layout.kind in ("clock", "stamp") else piece


def _fast(piece: str, layout: Layout) -> tuple[Array, Array] | None:
    """The piece by the pandas parser; None where it isn't numbers throughout."""
    import pandas as pd

    if layout.separator == "|" and piece.lstrip().startswith("|"):
        return None  # a bar before the first column would count as one
    timed = layout.kind in ("clock", "stamp")
    if timed and layout.colons != 2:
        return None
    plan = _plan(layout)
    kinds = dict.fromkeys([*plan.clock, plan.volts], "float64")
    if plan.day is not None:
        kinds[plan.day] = "category"
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error")  # mixed columns and the like: read such a piece line by line
            frame = pd.read_csv(io.BytesIO(_parted(piece, layout).encode("utf-8", "replace")), header=None,
                                usecols=sorted(kinds), dtype=kinds, decimal=layout.decimal, skipinitialspace=True,
                                sep=r"\s+" if layout.separator is None else layout.separator)
    except (ValueError, Warning, OverflowError):
        return None
    if frame.empty:
        return np.empty(0), np.empty(0)
    if any(column not in frame.columns for column in kinds):
        return None  # rows too short
    if timed and piece.count(":") != 2 * len(frame):
        return None  # times in other places too
    columns = {column: np.asarray(frame[column], dtype=np.float64) for column in (*plan.clock, plan.volts)}
    if any(bool(np.isnan(values).any()) for values in columns.values()):
        return None  # empty cells and short rows
    seconds = _clock_seconds(columns, plan.clock)
    days = None if plan.day is None else _days(frame[plan.day], layout)
    if seconds is None or (days is None and plan.day is not None):
        return None
    return seconds if days is None else seconds + days, columns[plan.volts]


def _clock_seconds(columns: dict[int, Array], clock: tuple[int, ...]) -> Array | None:
    """Seconds from one column of them or from hours, minutes and seconds; None where those can't be a clock."""
    if len(clock) < 3:
        return columns[clock[0]] if clock else np.empty(0)
    hours, minutes, seconds = (columns[k] for k in clock)
    with np.errstate(invalid="ignore"):
        sound = (hours >= 0) & (minutes >= 0) & (minutes < 60) & (seconds >= 0) & (seconds < 61)
        sound &= (hours == np.floor(hours)) & (minutes == np.floor(minutes))
    if not bool(sound.all()):
        return None
    return np.asarray(hours * 3600.0 + minutes * 60.0 + seconds)


def _days(column: object, layout: Layout) -> Array | None:
    """Seconds since day 1 for a categorical column of dates; None where one is no date."""
    import pandas as pd

    assert isinstance(column, pd.Series)
    days = [read_date(str(name), month_first=layout.month_first) for name in column.cat.categories]
    codes = np.asarray(column.cat.codes)
    if any(day is None for day in days) or bool((codes < 0).any()):
        return None
    seconds = np.asarray([day.toordinal() * DAY for day in days if day is not None], dtype=np.float64)
    return np.asarray(seconds[codes])


class _LineReader:
    """Reads a piece line by line and keeps what it could not read."""

    def __init__(self, layout: Layout, source: str | None) -> None:
        self.layout, self.source = layout, source
        self.bad: list[Notice] = []
        self.count = 0
        self.dates: dict[str, float | None] = {}

    def read(self, piece: str, line: int) -> tuple[Array, Array]:
        """Seconds and volts of the lines of ``piece``, which begins at line ``line`` (from 0)."""
        seconds, volts = array("d"), array("d")
        for offset, text in enumerate(io.StringIO(piece, newline="\n")):
            row = text.rstrip("\r\n")
            if not row.strip():
                continue
            pair = self._row(row)
            if pair is None:
                self._refuse(row, line + offset + 1)
                continue
            seconds.append(pair[0])
            volts.append(pair[1])
        if self.layout.kind == "none":
            return np.empty(0), np.asarray(volts, dtype=np.float64)
        return np.asarray(seconds, dtype=np.float64), np.asarray(volts, dtype=np.float64)

    def _row(self, row: str) -> tuple[float, float] | None:
        """Seconds and volts of one row; NaN volts for an empty cell; None where it can't be read."""
        layout = self.layout
        cells = cells_of(row, layout.separator)
        if layout.joined:
            cells = join_cells(cells)
        if len(cells) <= max(layout.time, layout.volts):
            return None
        cell = cells[layout.volts]
        volts = number(cell)
        if volts is None:
            if cell.lower() not in _EMPTY:
                return None
            volts = float("nan")
        seconds = self._seconds(cells)
        return None if seconds is None else (seconds, volts)

    def _seconds(self, cells: list[str]) -> float | None:
        """The time of one row in seconds (before any scale)."""
        layout = self.layout
        if layout.kind == "none":
            return 0.0
        cell = cells[layout.time]
        if layout.kind == "number":
            return number(cell)
        if cell.count(":") != layout.colons:
            return None
        if layout.kind == "clock":
            clock = read_clock(cell)
            if clock is None or layout.date is None:
                return clock
            name = cells[layout.date] if layout.date < len(cells) else ""
            if name not in self.dates:
                day = read_date(name, month_first=layout.month_first)
                self.dates[name] = None if day is None else day.toordinal() * DAY
            base = self.dates[name]
            return None if base is None else base + clock
        stamp = read_stamp(cell, month_first=layout.month_first)
        if stamp is None or stamp.date is None:
            return None
        return stamp.date.toordinal() * DAY + stamp.seconds - 60.0 * (stamp.offset or 0)

    def _refuse(self, row: str, line: int) -> None:
        """Counts a row that can't be read and names it while it is among the first."""
        self.count += 1
        if len(self.bad) < _MOST_NOTICES:
            self.bad.append(Notice("note", "not a row of time and volts; left out", self.source, line, 0,
                                   min(len(row), 200), row[:200]))

    def notices(self) -> list[Notice]:
        """The rows that could not be read: the first few with their line, the rest as a count."""
        if self.count > len(self.bad):
            return [*self.bad, Notice("note", f"{self.count - len(self.bad)} more rows can't be read; left out",
                                      self.source)]
        return self.bad
