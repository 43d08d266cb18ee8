"""What a whole drive says and no single level does: charging that is commanded, charging that ended, a known engine.

A drive is what lies between two cranks. Looked at are the names that the levels got one by one, and put right are
those that the drive as a whole gives the lie to: a generator that dies leaves the battery to the consumers, whose
switching must not make one slow fall into many loads, and is no rest; a generator that is told to stop leaves no sag.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from itertools import groupby, pairwise

import numpy as np

from triage.supply.cycling import Cycle
from triage.supply.labels import Named
from triage.supply.limits import limit
from triage.supply.pieces import Array, Signal

#: The voltage with the loads off is what it is above for a fifth of the time; loads may be on for the rest.
_ENVELOPE = 80.0
#: How many stretches further on a load must have come back: on a slow fall the level before is soon out of reach.
_AHEAD = 4
_QUIET = ("rest", "key on")


def by_drive(named: list[Named], cycles: Mapping[int, Cycle], signal: Signal,
             runs: Sequence[tuple[float, float]] = ()) -> list[Named]:
    """``named`` with the names that only a whole drive tells; ``runs``: seconds in which the engine is known to run.

    ``cycles`` are those of the rows called cycling, by their first sample; the ``level`` of such a row is the high one.
    """
    slow = {start for start, cycle in cycles.items() if may_be_commanded(
        cycle.low, cycle.high, cycle.period * min(cycle.duty, 1.0 - cycle.duty), signal.system)}
    result: list[Named] = []
    cranked = False
    for is_crank, group in groupby(named, lambda row: row.kind == "crank"):
        rows = list(group)
        result += rows if is_crank else _drive(rows, slow, signal, runs, cranked)
        cranked = cranked or is_crank
    return result


def _drive(rows: list[Named], slow: Collection[int], signal: Signal, runs: Sequence[tuple[float, float]],
           cranked: bool) -> list[Named]:
    """The rows between two cranks under their right names."""
    charged = [place for place, row in enumerate(rows) if is_charging(row, signal)]
    if charged:
        _name_commanded(rows[charged[0]:], slow, signal)
    known = max((place for place, row in enumerate(rows) if _in(row, runs, signal)), default=-1)
    first = charged[0] if charged else 0 if cranked else known
    for row in rows[max(first, 0):known + 1]:
        # No battery feeds an engine for as long as a rest takes: the start was missed.
        if row.kind in _QUIET and signal.span(row.start, row.end) < 3600.0 * signal.limit("rest hours least"):
            row.kind = "running"
    if not charged or charged[-1] + 1 == len(rows):
        return rows
    end = _end_of_charging(rows, charged[-1], signal) + 1
    body = end + _fallen(rows[end:], signal)
    return [*rows[:end], *_as_running(rows[end:body], signal), *rows[body:]]


def is_charging(row: Named, signal: Signal) -> bool:
    """Whether something charges the battery in a row (a slope counts for the level it leads to)."""
    return row.kind in ("charging", "load", "cycling") and row.level >= signal.limit("undercharge below")


def _end_of_charging(rows: list[Named], last: int, signal: Signal) -> int:
    """The last row of charging; a brief load behind it is the beginning of the fall."""
    brief = max(signal.limit("charging judged after"), 4.0 * signal.trace.interval)
    while last and rows[last].kind == "load" and is_charging(rows[last - 1], signal) \
            and signal.span(rows[last].start, rows[last].end) < brief:
        last -= 1
    return last


def _in(row: Named, runs: Sequence[tuple[float, float]], signal: Signal) -> bool:
    """Whether the engine is known to run at some time in a row."""
    return any(signal.time(row.start) <= end and begin <= signal.time(row.end) for begin, end in runs)


def may_be_commanded(low: float, high: float, held_s: float, system: int) -> bool:
    """Whether two levels (volts), each held for ``held_s``, may be what a generator was told to give."""
    return (held_s >= limit("commanded step least") and low >= limit("commanded charging lowest", system)
            and high <= limit("commanded charging highest", system) + 0.1 * system / 12.0)


def _name_commanded(rows: list[Named], slow: Collection[int], signal: Signal) -> None:
    """Names steps of commanded charging: levels between its bounds, held and left again, twice and more.

    A consumer's sag is over in seconds or lies deeper; a generator that is told what to give stays for long at
    levels down to that of a full battery and comes back without anybody starting the engine. Where a part of the
    steps is even enough for cycling (``slow``, by first sample), that is part of it.
    """
    rests, held = signal.limit("commanded charging rests to"), signal.limit("commanded step least")
    even = sum(row.start in slow for row in rows)
    stays = [row for row in rows if row.kind != "cycling" and signal.span(row.start, row.end) >= held]
    if any(not may_be_commanded(row.level, row.level, held, signal.system) for row in stays):
        return
    low = [row.level < rests for row in stays]
    if 2 * even + sum(before and not after for before, after in pairwise(low)) < 2:
        return
    for row in stays:
        if row.kind in (*_QUIET, "sag") or row.level < rests:
            row.kind = "charging" if row.level >= signal.limit("undercharge below") else "running"


def _fallen(tail: list[Named], signal: Signal) -> int:
    """How many rows behind the last charging belong to a battery that nothing charges and that is used.

    0 where they may as well be a rest: surface charge fades fast at first and then hardly any more, and ends above
    what a flat battery has. Behind the lowest level a voltage that comes up again is let alone.
    """
    dead, step = signal.limit("not charging below"), signal.limit("load step least")
    body = max((place + 1 for place, row in enumerate(tail) if row.kind != "cycling" and row.level < dead),
               default=len(tail))
    values = signal.means(tail[0].start, tail[body - 1].end)
    if len(values) < 2:
        return body if float(values[-1]) < dead else 0
    early, middle, late = (_envelope(part) for part in np.array_split(values[len(values) // 20:], 3))
    if _envelope(values[-max(1, len(values) // 5):]) < dead:
        return body
    falls = early - late >= 2.0 * step and middle - late >= 0.4 * (early - middle)
    return body if falls and late < signal.limit("commanded charging rests from") else 0


def _envelope(values: Array) -> float:
    """The voltage with the consumers that switch off."""
    return float(np.percentile(values, _ENVELOPE)) if len(values) else float("inf")


def _as_running(rows: list[Named], signal: Signal) -> list[Named]:
    """Rows of a battery in use as one ``running``; loads that stand out and are taken off again stay."""
    step = signal.limit("load step least")
    result: list[Named] = []
    before = None
    for place, row in enumerate(rows):
        last = result[-1] if result else None
        ahead = rows[place + 1:place + 1 + _AHEAD]
        if row.kind == "cycling":
            result.append(row)
        elif before is None and (last is None or last.kind == "sag") and ahead and _slope(row, signal) >= 2.0 * step:
            row.kind = "sag"  # the fall itself
            _append(result, row)
        elif before is not None and before - row.level >= 3.0 * step and any(
                later.level >= before - 0.4 * (before - row.level) for later in ahead):
            row.kind = "sag" if before - row.level >= signal.limit("sag drop least") else "load"
            result.append(row)
        else:
            row.kind = "running"
            _append(result, row)
            before = row.level
    return result


def _slope(row: Named, signal: Signal) -> float:
    """By how many volts a row falls from its first to its last tenth."""
    values = signal.means(row.start, row.end)
    tenth = max(1, len(values) // 10)
    return float(np.median(values[:tenth]) - np.median(values[-tenth:]))


def _append(rows: list[Named], row: Named) -> None:
    """Appends a row; one of the name of the row before makes that longer."""
    if rows and rows[-1].kind == row.kind:
        rows[-1].end = row.end
    else:
        rows.append(row)
