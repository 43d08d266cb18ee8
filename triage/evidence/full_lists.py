"""Full lists: a module keeps so many codes and no more; while its list is full, a code that is not in it is unknown.

No scan prints the limit. A module that lists the same number of codes in two scans, and not the same codes, while it
never lists more, is taken to be at its limit in both: without one, both numbers would meet by chance alone.
"""

from __future__ import annotations

import numpy as np

from triage.model.casebook import NOT_READABLE, NOT_SEEN, SEEN, Bools, Casebook
from triage.model.notices import Notice

#: Shorter lists are of the same length by chance too often (project's own choice).
LEAST = 8


def mark_full_lists(book: Casebook) -> None:
    """Turn "not seen" into "not readable" where the module's list is full, and say so in the notices."""
    full = full_lists(book)
    if not full.any():
        return
    unknown = full[book.fault_module] & (book.seen == NOT_SEEN)
    book.seen[unknown] = NOT_READABLE
    for module in np.flatnonzero(full.any(axis=1)).tolist():
        columns = np.flatnonzero(full[module]).tolist()
        listed = int(((book.seen[:, columns[0]] == SEEN) & (book.fault_module == module)).sum())
        scans = " and ".join(str(column + 1) for column in columns)
        book.notices[int(book.module_session[module])].append(Notice(
            "note", f"{book.module_name[module]} lists {listed} codes in snapshots {scans}, not the same ones, and "
                    "never more: its list may be full, so a code that is not in it counts as not readable there"))


def full_lists(book: Casebook) -> Bools:
    """M x K: the module's list is at its limit."""
    shape = (len(book.module_name), book.seen.shape[1])
    full = np.zeros(shape, dtype=bool)
    if not book.faults:
        return full
    seen = book.seen == SEEN
    held = np.zeros(shape, dtype=np.int64)
    np.add.at(held, book.fault_module, seen.astype(np.int64))
    most = held.max(axis=1)
    same = (held == most[:, None]) & (most >= LEAST)[:, None]
    doubtful = np.flatnonzero(same.sum(axis=1) >= 2)
    for module in doubtful.tolist():
        mine = seen[book.fault_module == module][:, same[module]]
        if (mine != mine[:, :1]).any():
            full[module] = same[module]
    return full


__all__ = ["LEAST", "full_lists", "mark_full_lists"]
