"""Which mark parts the columns of a voltage log, which column is the time and which the voltage.

Decided from the first few hundred lines alone: from what the cells are (numbers, clock times, dates), how they run
(a time rises), where they lie (a supply is some 5 to 60 V) and, where there is one, from the heading in any
language. Nothing here looks at the rest of the text.
"""

from __future__ import annotations

import csv
import itertools
import re
import unicodedata
from collections import Counter
from collections.abc import Sequence
from datetime import datetime
from statistics import median
from typing import Literal, NamedTuple

from triage.supply.clock import Stamp, could_be_either, read_clock, read_date, read_stamp, split_stamp

TimeKind = Literal["number", "clock", "stamp", "none"]
#: Separators tried, the likelier first; None is any run of blanks.
SEPARATORS: tuple[str | None, ...] = ("\t", ";", ",", "|", None)
_HEAD_CHARS, _HEAD_LINES = 65536, 400
_BLANK_WORDS = frozenset({"", "nan", "na", "n/a", "null", "none", "-", "--", "---"})
_TIME_WORDS = re.compile(
    r"^(time|times|timestamp|zeit|zeitstempel|temps|hora|tiempo|tempo|tijd|czas|cas|tid|время|时间|時間|sec|secs"
    r"|seconds?|sekunden?|secondes?|segundos?|t|s|ms|us|millis|msec|milliseconds?|millisekunden|clock|uhrzeit"
    r"|heure|elapsed|min|minutes?|minuten)$")
_VOLT_WORDS = re.compile(
    r"^(volts?|voltages?|spannung|bordspannung|batteriespannung|tension|voltaje|voltaggio|tensione|tensao|spanning"
    r"|napiecie|napeti|spenning|spanning|jannite|feszultseg|gerilim|напряжение|电压|電圧|v|mv|u|millivolts?)$")
_BATTERY_WORDS = re.compile(
    r"^(batt?|batter(y|ie|ia)|bateria|accu|akku|batterie\w*|ubatt?|vbatt?|kl30|supply|bordnetz)$")
_OTHER_WORDS = re.compile(
    r"^(current|strom|courant|corriente|corrente|amps?|ampere|a|ma|temp\w*|rpm|speed|soc|load|percent|ref\w*|sensor"
    r"|index|count|nr|no|id|sample)$")
_SCALES = {"ms": 1e-3, "msec": 1e-3, "millis": 1e-3, "millisecond": 1e-3, "milliseconds": 1e-3,
           "millisekunden": 1e-3, "us": 1e-6, "µs": 1e-6, "min": 60.0, "minutes": 60.0, "minuten": 60.0}
_MILLIVOLT = frozenset({"mv", "millivolt", "millivolts"})
_UNIT_TAIL = re.compile(r"([ \u00a0\u202f]?)(mV|mv|MV|V|v|volts?|Volts?|s|sec|ms)$")


class Layout(NamedTuple):
    """How to read a row. Columns count from 0; ``first_line`` is the line, from 0, on which the data begin.

    ``colons``: how many a time cell holds. ``joined``: both separator and decimal mark are a comma, so that a value
    takes two cells.
    """

    separator: str | None
    decimal: str
    first_line: int
    names: tuple[str, ...]
    time: int
    volts: int
    kind: TimeKind
    date: int | None = None
    time_scale: float = 1.0
    volt_scale: float = 1.0
    month_first: bool = False
    joined: bool = False
    unit_known: bool = False
    doubt: tuple[str, ...] = ()
    start: datetime | None = None
    colons: int = 0


def cells_of(line: str, separator: str | None) -> list[str]:
    """The cells of one line, blanks and quotes taken off."""
    if separator is None:
        return line.split()
    if '"' in line:
        try:
            return [cell.strip() for cell in next(csv.reader([line], delimiter=separator, skipinitialspace=True))]
        except (csv.Error, StopIteration):
            pass
    cells = [cell.strip() for cell in line.split(separator)]
    if separator == "|" and len(cells) > 2 and not cells[0] and not cells[-1]:
        return cells[1:-1]
    return cells


def number(cell: str) -> float | None:
    """The number in a cell with a point or a comma for decimals, a unit behind it or not; millivolts come as volts.

    >>> number("12,4 V"), number("12400 mV"), number("12.4.5"), number("1e3")
    (12.4, 12.4, None, 1000.0)
    """
    try:
        return float(cell)
    except ValueError:
        pass
    if len(cell) > 60:
        return None
    scale = 1.0
    match = _UNIT_TAIL.search(cell)
    if match is not None:
        scale = 1e-3 if match[2].lower() == "mv" else 1.0
        cell = cell[:match.start()]
    if cell.count(",") == 1 and "." not in cell:
        cell = cell.replace(",", ".")
    try:
        return float(cell.replace("\u2212", "-")) * scale
    except ValueError:
        return None


def words_of(name: str) -> list[str]:
    """The words of a column head, folded: small letters, no accents, signs as blanks."""
    flat = "".join(c for c in unicodedata.normalize("NFKD", name.lower()) if not unicodedata.combining(c))
    return re.findall(r"[^\W\d_]+", flat)


def find_layout(text: str) -> Layout | None:
    """The layout of a log, or None where no column of plausible voltages can be found."""
    head = text[:_HEAD_CHARS]
    lines = head.splitlines()
    if len(text) > _HEAD_CHARS and len(lines) > 1:
        lines.pop()
    lines = lines[:_HEAD_LINES]
    best: tuple[float, str | None, list[tuple[int, list[str]]]] | None = None
    for separator in SEPARATORS:
        rows, score = _data_rows(lines, separator)
        if rows and (best is None or score > best[0] + 1e-9):
            best = (score, separator, rows)
    if best is None:
        return None
    return _choose(lines, best[1], best[2])


def _kind(cell: str) -> str:
    """``n`` number, ``t`` clock time, ``s`` stamp with a date, ``d`` date, ``e`` empty, ``x`` anything else."""
    if cell.lower() in _BLANK_WORDS:
        return "e"
    if number(cell) is not None:
        return "n"
    if read_clock(cell) is not None:
        return "t"
    if read_date(cell) is not None:
        return "d"
    return "s" if split_stamp(cell) is not None and read_stamp(cell) is not None else "x"


def _data_rows(lines: Sequence[str], separator: str | None) -> tuple[list[tuple[int, list[str]]], float]:
    """The rows that look like data, and how well this separator explains the lines."""
    rows: list[tuple[int, list[str], str]] = []
    for place, line in enumerate(lines):
        if not line.strip() or len(line) > 5000 or (separator is not None and separator not in line):
            continue
        cells = cells_of(line, separator)
        kinds = "".join(_kind(cell) for cell in cells)
        if "n" in kinds and sum(kinds.count(k) for k in "ntsd") >= 2:
            rows.append((place, cells, kinds))
    if not rows:
        singles = [(place, [line.strip()]) for place, line in enumerate(lines)
                   if separator is None and _kind(line.strip()) == "n"]
        return singles, 0.25 * len(singles)
    width = Counter(len(cells) for _, cells, _ in rows).most_common(1)[0][0]
    score = sum(1.0 - 0.5 * kinds.count("x") / len(kinds) for _, cells, kinds in rows if len(cells) == width)
    return [(place, cells) for place, cells, _ in rows], score


def _choose(lines: Sequence[str], separator: str | None, rows: list[tuple[int, list[str]]]) -> Layout | None:
    """Time and voltage columns of the rows that have the usual number of cells."""
    first = rows[0][0]
    heads = [cells_of(line, separator) for line in lines[max(0, first - 4):first] if line.strip()]
    joined = _is_joined(separator, heads, [cells for _, cells in rows])
    if joined:
        rows = [(place, join_cells(cells)) for place, cells in rows]
    width = Counter(len(cells) for _, cells in rows).most_common(1)[0][0]
    table = [cells for _, cells in rows if len(cells) == width]
    first = next(place for place, cells in rows if len(cells) == width)
    kept = [head for head in heads if len(head) == width]
    names = tuple(" ".join(head[k] for head in kept) for k in range(width))
    if not kept and heads:  # a head that splits otherwise (blanks in names) still tells the unit of time
        names = (" ".join(" ".join(head) for head in heads),) if width == 1 else names
    columns = [[cells[k] for cells in table] for k in range(width)]
    kinds = [Counter(_kind(cell) for cell in column).most_common(1)[0][0] for column in columns]
    time, kind = _time_column(columns, kinds, names)
    volts, doubt = _volts_column(columns, kinds, names, time)
    if volts is None:
        return None
    stamped = [k for k in range(width) if kinds[k] == "d"]
    dates = [cell for k in stamped for cell in columns[k]]
    dates += [pair[0] for k in range(width) if kinds[k] == "s" for cell in columns[k] if (pair := split_stamp(cell))]
    month_first = any(re.search(r"[ap]\.?m", " ".join(cells), re.IGNORECASE) for cells in table[:5]) \
        and any(could_be_either(cell) is not None for cell in dates[:5])
    scale, known = _time_scale(names, time, kind, heads)
    words = words_of(names[volts]) if names else []
    date = stamped[0] if stamped and kind == "clock" else None
    doubtful = doubt + (("the order of day and month",) if any(could_be_either(d) for d in dates) and kind != "number"
                        and not month_first else ())
    chosen = [columns[volts]] + ([columns[time]] if kind == "number" else [])
    comma = any("," in cell for column in chosen for cell in column)
    return Layout(separator, "," if comma else ".", first, names, time, volts, kind, date, scale,
                  1e-3 if _MILLIVOLT & set(words) else 1.0, month_first, joined, known, doubtful,
                  _first_moment(columns, kinds, month_first) or _head_moment(lines[:first]),
                  Counter(cell.count(":") for cell in columns[time]).most_common(1)[0][0] if time >= 0 else 0)


def _is_joined(separator: str | None, heads: list[list[str]], table: list[list[str]]) -> bool:
    """Whether comma parts both cells and decimals: two names, three or four whole numbers a row."""
    if separator != "," or not heads or len(heads[-1]) != 2:
        return False
    return all(len(cells) in (3, 4) and all(cell.lstrip("+-").isdigit() for cell in cells) for cells in table)


def join_cells(cells: list[str]) -> list[str]:
    """``0,1,12,4`` as the two values it stands for: ``0,1`` and ``12,4``."""
    return [",".join(cells[:-2]), ",".join(cells[-2:])] if len(cells) >= 3 else cells


def _rising(column: list[str]) -> bool:
    """Whether the numbers of a column never fall (nearly) and rise over all."""
    values = [value for cell in column if (value := number(cell)) is not None]
    if len(values) < 2 or values[-1] <= values[0]:
        return False
    steps = [b - a for a, b in itertools.pairwise(values)]
    return sum(step >= 0 for step in steps) >= 0.9 * len(steps) and sum(step > 0 for step in steps) >= 0.3 * len(steps)


def _time_column(columns: list[list[str]], kinds: list[str], names: tuple[str, ...]) -> tuple[int, TimeKind]:
    """The time column and what it holds; -1 and ``none`` where there is none."""
    rising = [k for k, column in enumerate(columns) if kinds[k] == "n" and _rising(column)]
    named = [k for k in range(len(columns)) if kinds[k] == "n" and names and names[k]
             and any(_TIME_WORDS.match(word) for word in words_of(names[k]))
             and not any(_VOLT_WORDS.match(word) for word in words_of(names[k]) if word not in ("t", "s"))]
    both = [k for k in named if k in rising]
    if both:
        return both[0], "number"
    for k, kind in enumerate(kinds):
        if kind in "st":
            return k, "stamp" if kind == "s" else "clock"
    if named and len(columns) > 1:
        return named[0], "number"
    # Without a name: a rising column, unless it is the only one that could be the voltage.
    others = [k for k, kind in enumerate(kinds) if kind == "n"]
    if rising and len(others) > 1:
        return rising[0], "number"
    if len(others) > 1 and others[0] == 0 and not any(names) and not _plausible(columns[0]):
        return 0, "number"
    return -1, "none"


def _plausible(column: list[str]) -> bool:
    """Whether the median of a column could be the supply of a 12 or 24 V vehicle, in volts or millivolts."""
    values = [value for cell in column if (value := number(cell)) is not None]
    if not values:
        return False
    middle = median(values)
    return 4.0 <= middle <= 36.0 or 4000.0 <= middle <= 36000.0


def _volts_column(columns: list[list[str]], kinds: list[str], names: tuple[str, ...],
                  time: int) -> tuple[int | None, tuple[str, ...]]:
    """The voltage column, and a doubt to tell where two would do."""
    scores: list[tuple[float, int]] = []
    for k, column in enumerate(columns):
        if k == time or kinds[k] not in "ne":
            continue
        words = words_of(names[k]) if names else []
        score = 3.0 * any(_VOLT_WORDS.match(w) for w in words) + 2.0 * any(_BATTERY_WORDS.match(w) for w in words)
        score += 4.0 * _plausible(column) - 4.0 * any(_OTHER_WORDS.match(w) for w in words)
        values = [value for cell in column if (value := number(cell)) is not None]
        if values and score > 0:
            scores.append((score, k))
    if not scores:
        return None, ()
    top = max(score for score, _ in scores)
    if top < 3.0:
        return None, ()
    best = [k for score, k in scores if score == top]
    doubt = () if len(best) == 1 else (f"which of columns {', '.join(str(k + 1) for k in best)} is the supply",)
    return best[0], doubt


def _time_scale(names: tuple[str, ...], time: int, kind: TimeKind, heads: list[list[str]]) -> tuple[float, bool]:
    """Seconds in one unit of the time column, and whether the head says so."""
    if kind != "number":
        return 1.0, True
    words = words_of(names[time]) if any(names) else [w for head in heads for cell in head for w in words_of(cell)]
    for word in words:
        if word in _SCALES:
            return _SCALES[word], True
    return 1.0, any(word in ("s", "sec", "secs", "seconds", "sekunden", "secondes", "segundos") for word in words)


def _first_moment(columns: list[list[str]], kinds: list[str], month_first: bool) -> datetime | None:
    """Date and time of the first row, where the row holds both, in one cell or in two."""
    days = [day for k, kind in enumerate(kinds) if kind == "d"
            and (day := read_date(columns[k][0], month_first=month_first)) is not None]
    for k, kind in enumerate(kinds):
        stamp = read_stamp(columns[k][0], month_first=month_first) if kind in "st" else None
        if stamp is not None and stamp.date is None and days:
            stamp = Stamp(stamp.seconds, days[0])
        if stamp is not None and stamp.moment is not None:
            return stamp.moment
    return None


_MOMENT = re.compile(r"(\d{4}-\d\d-\d\d|\d{1,2}\.\d{1,2}\.\d{4})[T ,]{1,2}(\d{1,2}:\d\d(?::\d\d)?(?:Z|[+-]\d\d:\d\d)?)")


def _head_moment(lines: Sequence[str]) -> datetime | None:
    """A date and time in the lines above the data."""
    for line in lines:
        match = _MOMENT.search(line[:500])
        stamp = read_stamp(f"{match[1]} {match[2]}") if match else None
        if stamp is not None:
            return stamp.moment
    return None
