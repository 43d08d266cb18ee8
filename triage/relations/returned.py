"""A fault that was cleared, stayed away and is here again when the vehicle is back, at a good supply that nothing says
was low since: what was set anew then is no noise of the first day (common practice)."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from triage.model.casebook import NOT_SEEN, SEEN, Casebook, Links, Recurrence, Timeline
from triage.model.snapshot import STATUS_WORDS

if TYPE_CHECKING:
    from code_tables import Tables

PERMANENT = STATUS_WORDS.index("permanent")
#: A module took a clear at this chance and more.
CLEARED = 0.6


def returned(book: Casebook, line: Timeline, link: Links, tables: Tables) -> dict[int, int]:
    """Fault -> the column of a later visit that shows it again. Of supplies, of other modules and permanent codes
    none."""
    good, lowest = tables.rate("supply.event_seen"), tables.rate("supply.clean_lowest")
    fed = line.read_at_least(book.volts, good) & (np.nan_to_num(book.lowest / line.scale[:, None], nan=99.0) >= lowest)
    found: dict[int, int] = {}
    for place in np.flatnonzero((book.phase[:, 1:] == 0).any(axis=1)).tolist():
        faults = range(int(book.first_fault[place]), int(book.first_fault[place + 1]))
        low = [fault for fault in faults if book.facts[fault].supply == "low"]
        for column in range(1, len(book.order[place])):
            if book.phase[place, column] != 0 or not fed[place, column] or (
                    book.phase[place, :column].max(initial=0) <= 0) or (book.seen[low, column] == SEEN).any():
                continue
            for fault in faults:
                facts = book.facts[fault]
                if facts.supply is None and facts.relation is None and book.status[fault, column] != PERMANENT and (
                        _anew(book, line, fault, column)):
                    found.setdefault(fault, column)
    return found


def _anew(book: Casebook, line: Timeline, fault: int, column: int) -> bool:
    """Whether a fault that a column shows was cleared since it was seen before, and not there right after."""
    sights = book.seen[fault, :column]
    before = np.flatnonzero(sights == SEEN)
    if book.seen[fault, column] != SEEN or not before.size:
        return False
    gone = np.flatnonzero(sights[before[-1] + 1:] == NOT_SEEN)
    first = int(before[-1]) + 1
    return bool(gone.size) and bool((line.clear[book.fault_module[fault], first:first + int(gone[0]) + 1]
                                     >= CLEARED).any())


def recurred(found: dict[int, int], book: Casebook, tables: Tables) -> dict[int, Recurrence]:
    """What it says of each: in words, and the odds that an earlier session gives too."""
    fed = tables.rate("earlier.again_fed")
    return {fault: Recurrence(f"it was cleared, and is here again {_later(book, fault, column)}", fed, fed)
            for fault, column in found.items()}


def _later(book: Casebook, fault: int, column: int) -> str:
    place = int(book.fault_session[fault])
    volts = float(book.volts[place, column])
    shots, order = book.sessions[place].snapshots, book.order[place]
    now, then = shots[order[column]].at, shots[order[max(
        at for at in range(column) if book.seen[fault, at] == NOT_SEEN)]].at
    days = (now.date() - then.date()).days if now is not None and then is not None else 0
    when = f"{days} days later" if days > 1 else "the day after" if days == 1 else "at a later visit"
    return f"{when} at {volts:.1f} V"


__all__ = ["recurred", "returned"]
