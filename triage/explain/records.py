"""Stored records of a crash among the faults: an event of the past that no clear takes and no run tells anything of."""

from __future__ import annotations

import numpy as np

from triage.model.casebook import Bools, Casebook
from triage.model.crash import crash_record


def crash_records(book: Casebook) -> Bools:
    """N: codes of restraints, by the code or by the module that holds it, which are the stored record of a crash."""
    restraints = book.flags(lambda facts: facts.safety == "restraints")
    bags = np.array([facts.safety == "restraints" for facts in book.module_facts], dtype=bool)
    found = np.zeros(book.faults, dtype=bool)
    for fault in np.flatnonzero(restraints | bags[book.fault_module]).tolist():
        found[fault] = crash_record(book.facts[fault], book.texts.get(fault, ()))
    return found


def is_record(book: Casebook, fault: int) -> bool:
    """Whether one fault is such a record."""
    concerned = "restraints" in (book.facts[fault].safety, book.module_facts[book.fault_module[fault]].safety)
    return concerned and crash_record(book.facts[fault], book.texts.get(fault, ()))


__all__ = ["crash_records", "is_record"]
