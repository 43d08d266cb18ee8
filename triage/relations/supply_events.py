"""The supply events of every session, from codes and readings, for the lists of faults."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

import numpy as np

from triage.model.casebook import Casebook, Ints, Timeline
from triage.model.supply_event import SupplyEvents, judge_events

if TYPE_CHECKING:
    from code_tables import Tables

#: A supply nobody can have read is left to the notices.
_MOST = 100.0


def supply_events(book: Casebook, line: Timeline, holders: Ints, peers: Ints, tables: Tables) -> list[SupplyEvents]:
    """One entry a session; ``holders`` and ``peers`` (S x K): modules with a low-supply code, modules that answered."""
    count = len(book.sessions)
    if not count:
        return []
    scale = line.scale[:, None]
    lowest = np.fmin(book.volts, book.lowest)
    alone = (book.engine_on == 1.0) & (book.outside == 0) & ~np.isnan(book.volts)
    last = alone.shape[1] - 1 - np.argmax(alone[:, ::-1], axis=1)
    running = np.where(alone.any(axis=1), book.volts[np.arange(count), last], np.nan) / line.scale
    fails = running < tables.rate("charging.none")
    exceeds = (running > tables.rate("charging.over")) & (running < _MOST)
    is_low: list[bool] = ((lowest < tables.rate("supply.event") * scale).any(axis=1) | fails).tolist()
    top = tables.limit("overvoltage above") * scale
    is_high: list[bool] = (((book.volts > top) & (book.volts < _MOST)).any(axis=1) | exceeds).tolist()
    most, among, high = holders.max(axis=1).tolist(), peers.max(axis=1).tolist(), _high_holders(book)
    found = []
    for session in range(count):
        lasting: Literal["low", "high"] | None = "low" if fails[session] else "high" if exceeds[session] else None
        low, overvoltage, lone = judge_events(
            most[session], among[session], high[session], is_low=is_low[session], is_high=is_high[session])
        found.append(SupplyEvents(low, overvoltage, lone, lasting, int(last[session]) if lasting else -1))
    return found


def _high_holders(book: Casebook) -> list[int]:
    """S: modules that ever held an overvoltage code."""
    held: dict[int, set[int]] = {}
    for fault in np.flatnonzero(book.flags(lambda facts: facts.supply == "high")).tolist():
        held.setdefault(int(book.fault_session[fault]), set()).add(int(book.fault_module[fault]))
    return [len(held.get(session, ())) for session in range(len(book.sessions))]


__all__ = ["supply_events"]
