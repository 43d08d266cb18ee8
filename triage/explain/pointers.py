"""Codes that point at another module whose list shows no reason: a finding of its own.

A module asks for the lamp on behalf of another, or says that it gets invalid data from it, while that one answers and
holds no code (or was never read): its list is to be read again before anybody looks at the module that points.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

import numpy as np

from triage.model.casebook import ANSWERS, INVALID, POINTER, SEEN, Casebook, Links

#: Findings told of one session.
MOST = 3


class EmptyPointer(NamedTuple):
    """``target``: the module pointed at, -1 where no scan read it; ``name``: as the scan or the tables name it."""

    fault: int
    target: int
    name: str


def empty_pointers(book: Casebook, link: Links) -> dict[int, list[EmptyPointer]]:
    """Session -> its pointing codes that were read at last while their target showed nothing.

    Invalid data counts after a clear only: before it, it is mostly noise of a low supply.
    """
    invalid = link.relation == INVALID
    rows = np.flatnonzero(invalid | (link.relation == POINTER))
    # The last snapshot that could read the fault.
    column = book.seen.shape[1] - 1 - np.argmax(book.seen[rows, ::-1] >= 0, axis=1)
    session, target, invalid = book.fault_session[rows], link.target[rows], invalid[rows]
    shows = (book.seen[rows, column] == SEEN) & ~(invalid & (book.phase[session, column] <= 0))
    quiet = (link.target_state[rows, column] == ANSWERS) & (link.target_active[rows, column] == 0)
    # Invalid data from a module that nobody scanned is told by its own line.
    told = np.flatnonzero(shows & np.where(target >= 0, quiet, ~invalid))
    found: dict[int, list[EmptyPointer]] = {}
    for fault, at, where in zip(rows[told].tolist(), target[told].tolist(), session[told].tolist(), strict=True):
        if at >= 0:
            found.setdefault(where, []).append(EmptyPointer(fault, at, book.module_name[at]))
        elif names := [name for name in book.facts[fault].targets
                       if name != book.module_facts[book.fault_module[fault]].name]:
            # A module that asks on its own behalf sends nobody anywhere.
            found.setdefault(where, []).append(EmptyPointer(fault, -1, names[0]))
    return found


def pointer_words(book: Casebook, link: Links, one: EmptyPointer, shown: Mapping[str, str]) -> str:
    """The finding in a sentence."""
    module = book.module_name[book.fault_module[one.fault]]
    kind = book.failure_type[one.fault]
    code = f"{shown.get(module, module)} {book.code[one.fault]}{'-' + kind if kind else ''}"
    target = shown.get(one.name, one.name)
    if link.relation[one.fault] == INVALID:
        return f"{code} says that data from {target} is invalid, but {target} shows nothing: read it again"
    asks = book.facts[one.fault].known  # by its printed text alone a code may point in other ways
    if one.target < 0:
        points = "asks for the lamp on behalf of" if asks else "points at"
        return f"{code} {points} {target}, which no scan has read: read it"
    points = f"asks for the lamp, but its target {target}" if asks else f"points at {target}, which"
    return f"{code} {points} shows nothing: read it again"


__all__ = ["MOST", "EmptyPointer", "empty_pointers", "pointer_words"]
