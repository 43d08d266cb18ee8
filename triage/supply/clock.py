"""Time as loggers write it: clock times, dates, both in one cell; always seconds in the end.

>>> read_clock("08:15:30,250")
29730.25
>>> read_clock("02:15:30 pm")
51330.0
>>> read_stamp("2025-03-03T08:00:00Z").date
datetime.date(2025, 3, 3)
"""

from __future__ import annotations

import re
from datetime import date, datetime, timedelta, timezone
from typing import NamedTuple

_CLOCK = re.compile(
    r"(\d{1,3}):(\d{1,2})(?::(\d{1,2}))?(?:[.,:](\d{1,9}))?[ \u00a0\u202f]?([AaPp])?\.?(?:[Mm]\.?)?$")
_DATE = re.compile(r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$|(\d{1,2})([-/.])(\d{1,2})[-/.](\d{4}|\d{2})\.?$")
_OFFSET = re.compile(r"(Z|z|UTC|GMT|[+-]\d{2}:?\d{2})$")
DAY = 86400.0


class Stamp(NamedTuple):
    """One time cell: ``seconds`` after midnight, ``date`` and ``offset`` (minutes east of UTC) where given."""

    seconds: float
    date: date | None = None
    offset: int | None = None

    @property
    def moment(self) -> datetime | None:
        """The stamp as a datetime, aware where the offset is known; None without a date."""
        if self.date is None:
            return None
        zone = None if self.offset is None else timezone(timedelta(minutes=self.offset))
        return datetime(self.date.year, self.date.month, self.date.day, tzinfo=zone) \
            + timedelta(seconds=self.seconds)


def read_clock(cell: str) -> float | None:
    """Seconds after midnight of ``08:15``, ``08:15:30``, ``08:15:30.25`` or ``01:30.5`` (minutes and seconds)."""
    match = _CLOCK.match(cell.strip()) if len(cell) <= 40 else None
    if match is None:
        return None
    first, second, third, fraction, half = match.groups()
    part = float("0." + fraction) if fraction else 0.0
    if third is None and fraction:
        return int(first) * 60.0 + int(second) + part
    hours, minutes, seconds = int(first), int(second), int(third or 0)
    if minutes > 59 or seconds > 60 or (half and not 1 <= hours <= 12):
        return None
    if half:
        hours = hours % 12 + (12 if half in "pP" else 0)
    return hours * 3600.0 + minutes * 60.0 + seconds + part


def read_date(cell: str, *, month_first: bool = False) -> date | None:
    """The date in ``2025-03-03``, ``03.03.2025``, ``3/3/25``; day first unless ``month_first`` (slashes, dashes)."""
    match = _DATE.match(cell.strip()) if len(cell) <= 40 else None
    if match is None:
        return None
    year, month, day, first, mark, second, short = match.groups()
    if year is None:
        year = short if len(short) == 4 else "20" + short
        swap = (month_first and mark != "." and int(first) <= 12) or int(second) > 12
        day, month = (second, first) if swap else (first, second)
    try:
        return date(int(year), int(month), int(day))
    except ValueError:
        return None


def could_be_either(cell: str) -> bool | None:
    """True: day and month of a dated cell could be swapped; False: they could not; None: no such date.

    >>> could_be_either("03/04/2025"), could_be_either("03/14/2025"), could_be_either("2025-03-04")
    (True, False, None)
    """
    match = _DATE.match(cell.strip()) if len(cell) <= 40 else None
    if match is None or match[4] is None or match[5] == ".":
        return None
    return int(match[4]) <= 12 and int(match[6]) <= 12 and match[4] != match[6]


def split_stamp(cell: str) -> tuple[str, str] | None:
    """Date text and clock text of a cell that holds both."""
    text = cell.strip()
    if not 11 <= len(text) <= 60:
        return None
    for mark in ("T", " ", "t", "_"):
        head, found, tail = text.partition(mark)
        if found and ":" in tail and ":" not in head and _DATE.match(head.rstrip(",")):
            return head.rstrip(","), tail.strip()
    return None


def read_stamp(cell: str, *, month_first: bool = False) -> Stamp | None:
    """The stamp in ``cell``: a clock time, or a date and a clock time with or without an offset from UTC."""
    clock = read_clock(cell)
    if clock is not None:
        return Stamp(clock)
    both = split_stamp(cell)
    if both is None:
        return None
    day = read_date(both[0], month_first=month_first)
    tail, offset = both[1], None
    match = _OFFSET.search(tail)
    if match is not None:
        tail, word = tail[:match.start()].strip(), match[1]
        offset = 0
        if word[0] in "+-":
            offset = (int(word[1:3]) * 60 + int(word[-2:])) * (-1 if word[0] == "-" else 1)
    clock = read_clock(tail)
    if day is None or clock is None or (offset is not None and abs(offset) >= 1440):
        return None
    return Stamp(clock, day, offset)
