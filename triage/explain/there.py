"""What is there to be looked at: codes that the last scan that could show them holds, or calls failing now."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from triage.model.casebook import NOT_READABLE, SEEN, Bools, Casebook, Links, Timeline
from triage.model.snapshot import STATUS_WORDS

if TYPE_CHECKING:
    from code_tables import Tables
    from triage.model.casebook import Floats

CURRENT = STATUS_WORDS.index("current")


def there_now(book: Casebook, chance: Floats, likely: float) -> Bools:
    """N: faults seen in the last scan since a clear that could show them, of a monitor that runs with the key on, or
    likely to persist."""
    standing_still = book.flags(lambda facts: facts.monitor in ("key on", "network", "event"))
    since = (book.phase > 0)[book.fault_session] & (book.seen != NOT_READABLE)
    last = since.shape[1] - 1 - np.argmax(since[:, ::-1], axis=1) if since.size else np.zeros(0, dtype=int)
    seen = book.seen[np.arange(book.faults), last] == SEEN
    return np.asarray((standing_still | (chance >= likely)) & since.any(axis=1) & seen)


def called_now(book: Casebook, line: Timeline, tables: Tables) -> Bools:
    """N: called current in the last scan since a clear, at a good supply: no run tells more of it."""
    good = line.read_at_least(book.volts, tables.rate("supply.good"))
    since = ((book.phase > 0) & good)[book.fault_session] & (book.seen != NOT_READABLE)
    last = since.shape[1] - 1 - np.argmax(since[:, ::-1], axis=1) if since.size else np.zeros(0, dtype=int)
    return np.asarray(since.any(axis=1) & (book.status[np.arange(book.faults), last] == CURRENT))


def to_look_at(
    book: Casebook, line: Timeline, link: Links, tables: Tables, back: Bools,
) -> tuple[Bools, Bools]:
    """N, twice: called current in the last scan that could show it, at a good supply or one that nobody read in a
    session that shows no low one; and ``back`` and still seen there. Both are looked at where they sit, by plug, wire
    and live value, and cleared last; no run tells more of the first (common practice)."""
    volts = book.volts / line.scale[:, None]
    quiet = ~np.array([events.low for events in link.events], dtype=bool)[:, None]
    good = (np.nan_to_num(volts, nan=0.0) >= tables.rate("supply.good")) | (np.isnan(volts) & quiet)
    read = book.seen != NOT_READABLE
    last = read.shape[1] - 1 - np.argmax(read[:, ::-1], axis=1) if read.size else np.zeros(0, dtype=int)
    rows = np.arange(book.faults)
    now = (book.status[rows, last] == CURRENT) | (book.byte_word[rows, last] == 0)
    seen = (book.seen[rows, last] == SEEN) & book.flags(lambda facts: facts.supply is None)
    return np.asarray(seen & now & good[book.fault_session, last]), np.asarray(seen & back)


__all__ = ["called_now", "there_now", "to_look_at"]
