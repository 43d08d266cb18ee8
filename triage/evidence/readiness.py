"""What the readiness of an emission system says of its monitors: not complete since the clear, they have come to no
result; complete, they have (40 CFR 86.010-18 (b)(4); SAE J1979, service 01, PID 01).

A permanent code outlives the clear, so that it says nothing of now; where its monitor has run since and neither a
pending nor a confirmed code stands beside it, the monitor passed.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from triage.evidence.opportunity import LASTING
from triage.model.casebook import NOT_SEEN, SEEN, Bools, Casebook
from triage.model.snapshot import STATUS_WORDS

if TYPE_CHECKING:
    from triage.model.casebook import Floats

_PERMANENT = STATUS_WORDS.index("permanent")
_HEATER, _SENSOR = "O2 sensor heater", "O2 sensor"
#: Emission systems as their readiness calls them, and what the titles of their codes are known by.
_SYSTEMS = (("cat", ("catalyst",)), ("evap", ("evaporative",)), ("heater", (_HEATER,)), ("o2", (_SENSOR,)),
            ("oxygen", (_SENSOR,)), ("egr", ("EGR",)), ("secondary", ("secondary air",)),
            ("all monitors", ("catalyst", "evaporative", _HEATER, _SENSOR, "EGR", "secondary air")))
_RUN = {"incomplete": 0.0, "complete": 0.97}


def by_readiness(book: Casebook, chance: Floats) -> Floats:
    """``chance`` (N x K x h) with what the readiness tells of the faults that were not seen."""
    passed = passed_permanent(book)
    for fault, column, state in _told(book):
        if (book.seen[fault, column] == NOT_SEEN or passed[fault, column]) and state in _RUN:
            chance[fault, column] = _RUN[state]
    return chance


def passed_permanent(book: Casebook) -> Bools:
    """N x K: permanent codes, and nothing else of the fault, whose monitor has run complete since the clear."""
    found = np.zeros(book.seen.shape, dtype=bool)
    for fault, column, state in _told(book):
        if book.seen[fault, column] == SEEN and book.status[fault, column] == _PERMANENT:
            found[fault, column] = state == "complete"
    return found


def _told(book: Casebook) -> Iterator[tuple[int, int, str]]:
    """Fault, snapshot column after the clear and what its own monitor's readiness is there; what is said of one system
    comes behind what is said of all."""
    for place, session in enumerate(book.sessions):
        if not any(shot.readiness for shot in session.snapshots):
            continue
        for column, at in enumerate(book.order[place]):
            said = session.snapshots[at].readiness or {}
            for name, state in said.items() if column and book.phase[place, column] > 0 else ():
                words = next((titles for key, titles in _SYSTEMS if key in name.lower()), ())
                for fault in range(int(book.first_fault[place]), int(book.first_fault[place + 1])):
                    if _of_system(book, fault, words):
                        yield fault, column, state


def _of_system(book: Casebook, fault: int, words: tuple[str, ...]) -> bool:
    """Whether a fault is of a system whose monitor runs to an end; a heater has a monitor of its own."""
    facts = book.facts[fault]
    if _HEATER in facts.title:
        return _HEATER in words
    return facts.monitor in LASTING and any(word in facts.title for word in words)


__all__ = ["by_readiness", "passed_permanent"]
