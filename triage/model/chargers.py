"""What charges the 12 or 24 V battery, where it says itself that it fails."""

from __future__ import annotations

import numpy as np

from triage.model.casebook import SEEN, Bools, Casebook, Ints
from triage.model.snapshot import STATUS_WORDS

#: Codes of what charges, by words of their titles.
CHARGERS = ("generator", "DC/DC converter")
CURRENT = STATUS_WORDS.index("current")


def charger_says(book: Casebook, last: Ints) -> Bools:
    """N: codes of the generator or the converter that are listed as failing now in the scan at place ``last`` (S), or
    that a run since the clear brought back."""
    speaks = book.flags(lambda facts: any(word in facts.title for word in CHARGERS))
    place, rows = last[book.fault_session], np.arange(book.faults)
    now = (book.status[rows, place] == CURRENT) | (book.phase[book.fault_session, place] > 1)
    return np.asarray(speaks & (book.seen[rows, place] == SEEN) & now & (place >= 0))


__all__ = ["CHARGERS", "charger_says"]
