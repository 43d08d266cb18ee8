"""A fault that an earlier session of the vehicle held too: it speaks for one that persists, never against one.

What was likely to persist then and is here again was not repaired, or the repair did not hold. What was set aside
then and is here again may be an intermittent that had its pause; where nothing was low this time, it is one that comes
again. Low supply can bring back the same noise as well, so the odds rise by a few times only, and absence in either
session never lowers them.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

import numpy as np

from triage.model.casebook import SEEN, Bools, Casebook, Links, Recurrence, Timeline
from triage.model.earlier import EarlierFault
from triage.model.snapshot import STATUS_WORDS

if TYPE_CHECKING:
    from code_tables import Tables

PERMANENT = STATUS_WORDS.index("permanent")


def recurrences(
    book: Casebook, line: Timeline, link: Links, earlier: Sequence[EarlierFault], tables: Tables,
    canonical: Callable[[str], str],
) -> dict[int, Recurrence]:
    """Fault of the one session of ``book`` -> what the earlier sessions, oldest first, say of it."""
    past: dict[tuple[str, str], list[EarlierFault]] = {}
    for entry in earlier:
        past.setdefault((canonical(entry.module), entry.code.upper()), []).append(entry)
    most, aside = tables.rate("earlier.persisted"), tables.rate("earlier.returned")
    again = _again_fed(book, line, link, tables)
    told: dict[int, Recurrence] = {}
    for fault in range(book.faults):
        name = canonical(book.module_name[book.fault_module[fault]])
        kind = book.failure_type[fault]
        same = [entry for entry in past.get((name, book.code[fault].upper()), ())
                if None in (kind, entry.failure_type) or kind == entry.failure_type]
        if same:
            likeliest = max(same, key=lambda entry: entry.persists)
            hard = 1.0 + (most - 1.0) * likeliest.persists
            fed = tables.rate("earlier.again_fed") if again[fault] else 1.0
            told[fault] = Recurrence(
                f"the session of {likeliest.session} held it too"
                f"{'' if likeliest.persists >= 0.5 else ', and thought it gone'}"
                f"{'; it is here again, at a good supply' if again[fault] else ''}",
                max(hard, fed), max(hard, aside, fed))
    return told


def _again_fed(book: Casebook, line: Timeline, link: Links, tables: Tables) -> Bools:
    """N: here again in a session that shows no low supply, in a scan at a good one: low supply does not bring back the
    same noise then."""
    good = line.read_at_least(book.volts, tables.rate("supply.event_seen"))
    good &= ~np.array([events.low for events in link.events], dtype=bool)[:, None]
    seen = (book.seen == SEEN) & good[book.fault_session] & (book.status != PERMANENT)
    return np.asarray(seen.any(axis=1) & book.flags(lambda facts: facts.supply is None))

