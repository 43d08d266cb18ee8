"""The supply events of every session, from codes and readings, for the lists of faults."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

import numpy as np

from triage.model.casebook import SEEN, Bools, Casebook, Ints, Timeline
from triage.model.chargers import charger_says
from triage.model.fed import alone
from triage.model.measured_words import is_drop
from triage.model.not_charged import Levels, not_charged
from triage.model.supply_event import SupplyEvents, judge_events
from triage.model.told_low import told_low

if TYPE_CHECKING:
    from code_tables import Tables

#: So many modules that answer are peers enough to tell one module's feed from the supply of all.
LONE_PEERS = 3
#: A supply nobody can have read is left to the notices.
_MOST = 100.0


def supply_events(book: Casebook, line: Timeline, holders: Ints, peers: Ints, tables: Tables) -> list[SupplyEvents]:
    """One entry a session; ``holders`` and ``peers`` (S x K): modules with a low-supply code, modules that answered."""
    count = len(book.sessions)
    if not count:
        return []
    scale = line.scale[:, None]
    lowest = np.fmin(book.volts, book.lowest)
    runs = (book.engine_on == 1.0) & ~np.isnan(book.volts)
    # So much is too much whoever feeds it: what nobody said blocks a good verdict, never a bad one.
    by_itself = runs & ((book.outside == 0) | ((book.outside < 0) & (
        book.volts > tables.limit("charging cold highest") * scale)))
    last = by_itself.shape[1] - 1 - np.argmax(by_itself[:, ::-1], axis=1)
    running = np.where(by_itself.any(axis=1), book.volts[np.arange(count), last], np.nan) / line.scale
    fails = running < tables.rate("charging.none")
    # What only lies too low by itself has failed where the generator or converter says so in that very scan.
    under = tables.limit("undercharge below")
    said = np.zeros(count, dtype=bool)
    said[book.fault_session[charger_says(book, last)]] = True
    fails |= (running < under) & said
    levels = Levels(tables.limit("commanded charging lowest"), tables.limit("charged battery highest"))
    for place in np.flatnonzero(~fails & (running < levels.charged)).tolist():
        # Nor does commanded charging hold what falls, or lies where the battery had it by itself.
        times = float(line.scale[place])
        shots = [book.sessions[place].snapshots[at] for at in book.order[place]]
        fails[place] = not_charged(shots, int(last[place]), Levels(*(times * volts for volts in levels))) is not None
    unfed = _inferred(book, line, runs & (book.outside < 0) & ~fails[:, None], levels)
    exceeds = (running > tables.rate("charging.over")) & (running < _MOST)
    is_low: list[bool] = ((lowest < tables.rate("supply.event") * scale).any(axis=1) | fails).tolist()
    top = tables.limit("overvoltage above") * scale
    is_high: list[bool] = (((book.volts > top) & (book.volts < _MOST)).any(axis=1) | exceeds).tolist()
    is_read = np.asarray((book.volts < _MOST).any(axis=1)).tolist()
    most, among, high = holders.max(axis=1), peers.max(axis=1).tolist(), _high_holders(book)
    local = local_drops(book, line, tables)
    read_flat = np.asarray(((holders > 0) & (book.volts < tables.rate("battery.flat") * scale)).any(axis=1)).tolist()
    found = []
    for session in range(count):
        lasting: Literal["low", "high"] | None = "low" if fails[session] else "high" if exceeds[session] else None
        low, overvoltage, lone = judge_events(
            0 if local[session] else int(most[session]), among[session], high[session],
            is_low=is_low[session] or (not local[session] and told_low(
                book.sessions[session], helped=int(most[session]) > 0) is not None),
            is_high=is_high[session], is_read=is_read[session])
        flat = lone and read_flat[session]
        found.append(SupplyEvents(
            low or flat, overvoltage, lone and not flat, lasting, int(last[session]) if lasting else -1,
            local[session], int(last[session]) if fails[session] else unfed.get(session, -1), flat))
    return found


def _inferred(book: Casebook, line: Timeline, asked: Bools, levels: Levels) -> dict[int, int]:
    """Session -> the last scan that ran on its own, by what was done before, and that nothing charged."""
    found = {}
    for place, column in np.argwhere(asked & (book.volts < levels.charged * line.scale[:, None])).tolist():
        one, times = book.sessions[place], float(line.scale[place])
        shots = [one.snapshots[at] for at in book.order[place]]
        if alone(one, shots[column]) and not_charged(shots, column, Levels(*(times * volts for volts in levels))):
            found[place] = column
    return found


def local_drops(book: Casebook, line: Timeline, tables: Tables) -> list[bool]:
    """S: a drop on a ground or feed was measured as too much while every reading of the supply was good: the low-supply
    codes speak of what hangs on that path, not of the supply of all."""
    seen_low = tables.rate("supply.event_seen") * line.scale[:, None]
    lowest = np.fmin(book.volts, book.lowest)
    good = np.asarray(~np.isnan(lowest).all(axis=1) & ~(lowest < seen_low).any(axis=1)).tolist()
    most = tables.limit("drop positive path")
    return [bool(good[place]) and any(is_drop(reading) and abs(reading.value) > most for snapshot in session.snapshots
                                for reading in snapshot.readings or ())
            for place, session in enumerate(book.sessions)]


def lone_holders(book: Casebook, line: Timeline, holders: Ints, peers: Ints, tables: Tables) -> Ints:
    """N x K: 1 where a low-supply code is seen since the clear in a snapshot in which several modules answered and none
    but its own holds one, 2 where the supply was read as full there: what sags is the feed or ground of that module,
    not the supply of all."""
    session = book.fault_session
    supply = book.flags(lambda facts: facts.supply in ("low", "fault"))
    # In a module that refused the clear an entry from before it says nothing of now.
    kept = np.asarray(line.refused.any(axis=1) & ~(line.clear >= 0.5).any(axis=1))
    since = (supply & ~kept[book.fault_module])[:, None] & (book.phase > 0)[session] & (book.seen == SEEN)
    alone = since & (peers >= LONE_PEERS)[session] & ~(since & (holders >= 2)[session]).any(axis=1)[:, None]
    full = line.read_at_least(book.volts, tables.rate("level.most"))
    return np.where(alone, 1 + full[session], 0)


def _high_holders(book: Casebook) -> list[int]:
    """S: modules that ever held an overvoltage code."""
    held: dict[int, set[int]] = {}
    for fault in np.flatnonzero(book.flags(lambda facts: facts.supply == "high")).tolist():
        held.setdefault(int(book.fault_session[fault]), set()).add(int(book.fault_module[fault]))
    return [len(held.get(session, ())) for session in range(len(book.sessions))]


__all__ = ["lone_holders", "supply_events"]
