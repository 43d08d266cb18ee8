"""Codes that point at another module whose list shows no reason: a finding of its own.

A module asks for the lamp on behalf of another, or says that it gets invalid data from it, while that one answers and
holds no code (or was never read): its list is to be read again before anybody looks at the module that points.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from triage.model.casebook import ANSWERS, INVALID, POINTER, SEEN, Casebook, Links

#: Findings told of one session.
MOST = 3


@dataclass(frozen=True, slots=True)
class EmptyPointer:
    """``target``: the module pointed at, -1 where no scan read it; ``name``: as the scan or the tables name it."""

    fault: int
    target: int
    name: str


def empty_pointers(book: Casebook, link: Links, session: int) -> list[EmptyPointer]:
    """The pointing codes of ``session`` that were read at last while their target showed nothing.

    Invalid data counts after a clear only: before it, it is mostly noise of a low supply.
    """
    first, last = int(book.first_fault[session]), int(book.first_fault[session + 1])
    kinds = link.relation[first:last]
    found = []
    for fault in (first + np.flatnonzero((kinds == POINTER) | (kinds == INVALID))).tolist():
        readable = np.flatnonzero(book.seen[fault] >= 0)
        if not readable.size or book.seen[fault, readable[-1]] != SEEN:
            continue
        column, target = int(readable[-1]), int(link.target[fault])
        if link.relation[fault] == INVALID and book.phase[session, column] <= 0:
            continue
        if target < 0:
            names = book.facts[fault].targets
            # Invalid data from a module that nobody scanned is told by its own line.
            if names and link.relation[fault] == POINTER:
                found.append(EmptyPointer(fault, -1, names[0]))
        elif link.target_state[fault, column] == ANSWERS and link.target_active[fault, column] == 0:
            found.append(EmptyPointer(fault, target, book.module_name[target]))
    return found


def pointer_words(book: Casebook, link: Links, one: EmptyPointer, shown: Mapping[str, str]) -> str:
    """The finding in a sentence."""
    module = book.module_name[book.fault_module[one.fault]]
    kind = book.failure_type[one.fault]
    code = f"{shown.get(module, module)} {book.code[one.fault]}{'-' + kind if kind else ''}"
    target = shown.get(one.name, one.name)
    if link.relation[one.fault] == INVALID:
        return f"{code} says that data from {target} is invalid, but {target} shows nothing: read it again"
    if one.target < 0:
        return f"{code} asks for the lamp on behalf of {target}, which no scan has read: read it"
    return f"{code} asks for the lamp, but its target {target} shows nothing: read it again"


__all__ = ["MOST", "EmptyPointer", "empty_pointers", "pointer_words"]
