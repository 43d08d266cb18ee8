"""The time of the scan in the rows of a table: one column for date and time, or one for each.

>>> from triage.intake.lines.layouts import split_rows
>>> from triage.intake.lines.rows import rows_of
>>> text = "Date;Time;Phase;Module;DTC\\n2025-01-09;08:10;before;ECM;P0562\\n2025-01-09;08:55;after;ECM;P0118"
>>> found = rows_of(text)
>>> split_rows(found)
>>> [at.isoformat() for at in of(found, None, None).values()]
['2025-01-09T08:10:00', '2025-01-09T08:55:00']
"""

from __future__ import annotations

from collections.abc import Sequence, Set
from datetime import date, datetime

from triage.intake.lines.row import Cell, Row
from triage.intake.said import dates, phases

_LEAST, _MOST_TIMES = 3, 12
#: Between two scans lie as many minutes and more.
_APART = 8


def of(
    rows: Sequence[Row], order: dates.Order | None, day: date | None, marks: Set[int] = frozenset(),
) -> dict[int, datetime]:
    """The times in the date columns of a table (the first where no head names one), if many rows share a few, or all
    rows of each scan that a column names: then each is the time of the scan, not that of a fault. ``day`` is that of a
    time of day without a date; where there is none, rows that begin another scan are marked as later. ``marks``: the
    lines that are a page's head or foot, which are dated as the report is."""
    found: dict[int, datetime] = {}
    clocks: dict[int, int] = {}
    scans: dict[str, set[datetime]] = {}
    for at, row in enumerate(rows):
        if not row.cells or row.head or row.kind == "rule" or row.line.number in marks:
            continue
        places = [place for place, role in enumerate(row.roles or ()) if role == "date"] if row.roles else [0]
        cells = [row.cells[place] for place in places if place < len(row.cells)]
        value = _value(cells, order, day)
        if value is None:
            if row.roles and cells and (told := dates.clock(cells[0].low)) is not None:
                clocks[at] = 60 * told[0].hour + told[0].minute
            continue
        found[at] = value
        if row.roles and "scan" in row.roles:
            scans.setdefault(_scan(row), set()).add(value)
        elif not row.roles:
            cells[0].text, cells[0].low = "", ""
    if not found and _are_of_scans(list(clocks.values())):
        _mark_later(rows, clocks)
    if len(scans) > 1 and all(len(values) == 1 for values in scans.values()):
        return found
    return found if _are_of_scans(list(found.values())) else {}


def _are_of_scans(values: Sequence[object]) -> bool:
    """Whether many rows share a few times."""
    distinct = len(set(values))
    return len(values) >= _LEAST and 2 * distinct <= len(values) and distinct <= _MOST_TIMES


def _value(cells: Sequence[Cell], order: dates.Order | None, day: date | None) -> datetime | None:
    """The date and time that the cells of a row's date columns give together."""
    stamp = None
    for cell in cells:
        found = dates.find(cell.text, order) if 8 <= len(cell.text) <= 32 and cell.text[-1:].isalnum() else []
        if len(found) == 1 and found[0].value is not None and found[0].end - found[0].start >= len(cell.text) - 1:
            stamp = found[0]
            break
    clock = next((told for cell in cells if len(cell.text) <= 12 and (told := dates.clock(cell.low)) is not None), None)
    if stamp is not None and stamp.value is not None:
        timed = stamp.timed or clock is None
        return stamp.value if timed or clock is None else datetime.combine(stamp.value.date(), clock[0])
    return datetime.combine(day, clock[0]) if day is not None and clock is not None and cells else None


def _scan(row: Row) -> str:
    """What the column for the scan says in a row."""
    low = next(cell.low for cell, role in zip(row.cells or (), row.roles or (), strict=False) if role == "scan")
    hit = phases.find(low)
    return hit.phase if hit is not None else low


def _mark_later(rows: Sequence[Row], clocks: dict[int, int]) -> None:
    """Mark the rows whose time of day is much later than that of the row above."""
    before = None
    for at, minutes in clocks.items():
        rows[at].later = rows[at].later or (before is not None and minutes - before >= _APART)
        before = minutes


__all__ = ["of"]
