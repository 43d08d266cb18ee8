"""A module that several others report lost and that no scan lists, told once: it was never asked.

A tester that reads the units of one maker alone leaves out just the one that is missed. Who misses it tells that it is
silent, not that they are at fault: it is asked with a tester that reads it before anybody looks at those (common
practice).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

import numpy as np

from triage.explain.case import FEED, UNREAD_LIST, WIRES, Case, gate_of
from triage.explain.printed_conflict import conflicts
from triage.explain.silent_together import listed
from triage.model.assessment import FaultLine, Root
from triage.model.casebook import LOST, SEEN, Casebook, Links
from triage.model.verdict import NextCheck

if TYPE_CHECKING:
    from triage.model.casebook import Bools, Floats, Ints

#: How the title begins of a standard code for a module that is not heard; its name follows.
LOST_TITLE = "lost communication, "
#: So many modules that miss one speak of that one; a lone one may be at fault itself.
LEAST = 2
#: How the reason ends that tells of a module reported lost and never asked.
NOT_ASKED = "which it reports lost, was not asked"
#: The strictest class comes first in the gate of a check for several.
_STRICTEST = ("restraints", "high voltage", "brakes", "steering")


def unasked(book: Casebook, link: Links, persists: Bools) -> dict[int, str]:
    """Fault -> the name of the module it reports lost, for reports that persist (N), were seen since a clear or in the
    last scan, are made by several modules, and name one that no scan lists, nor one of its kind."""
    chosen = np.flatnonzero((link.relation == LOST) & (link.target < 0) & persists)
    by_name: dict[tuple[int, str], list[int]] = {}
    for fault in chosen.tolist():
        facts, session = book.facts[fault], int(book.fault_session[fault])
        seen = book.seen[fault] == SEEN
        last = int(np.flatnonzero(book.exists[session])[-1])
        if not facts.known or not facts.title.startswith(LOST_TITLE) or not facts.targets or not (
                seen[last] or (seen & (book.phase[session] > 0)).any()) or any(
                conflicts(facts.title, text) for text in book.texts.get(fault, ())):
            continue
        there = range(int(book.first_module[session]), int(book.first_module[session + 1]))
        if any(not {book.module_facts[module].name, book.module_facts[module].instance_of}.isdisjoint(facts.targets)
               for module in there):
            continue
        by_name.setdefault((session, facts.title.removeprefix(LOST_TITLE)), []).append(fault)
    return {fault: name for (_, name), faults in by_name.items()
            if len(set(book.fault_module[faults].tolist())) >= LEAST for fault in faults}


def heads_of(
    book: Casebook, missed: Mapping[int, str], standing: Ints, decibans: Floats,
) -> Iterator[tuple[int, int]]:
    """(report, head) for each of the reports of one module but the surest, the head that the list tells them with."""
    groups: dict[tuple[int, str], list[int]] = {}
    for fault, name in missed.items():
        groups.setdefault((int(book.fault_session[fault]), name), []).append(fault)
    for faults in groups.values():
        head, *rest = sorted(faults, key=lambda fault: (standing[fault], -float(decibans[fault])))
        yield from ((fault, head) for fault in rest)


def unasked_root(lines: list[FaultLine]) -> Root | None:
    """The root of a module that was never asked and whose loss ``lines`` report; None of any other."""
    tail = f", {NOT_ASKED}"
    name = next((reason.removesuffix(tail) for line in lines for reason in line.why if reason.endswith(tail)), None)
    if name is None:
        return None
    reporters = sorted({line.printed for line in lines})
    why = [f"{len(reporters)} {'module reports' if len(reporters) == 1 else 'modules report'} its loss: "
           f"{', '.join(reporters)}", "no scan lists it by a name that is known here",
           "what it holds was not read: nothing says that it is sound"]
    safety = next((line.safety for line in lines if line.safety), None)
    return Root(f"{name} is reported lost and was not asked: ask it with a tester that reads it, before the modules "
                "that complain", "network", safety, max((line.verdict["decibans"] for line in lines), default=math.nan),
                why, "repair", lines)


def unasked_checks(
    book: Casebook, case: Case, told: Mapping[int, str], bits: Floats, names: list[str],
) -> list[NextCheck]:
    """One step for all that were never asked: one tester may read them all. ``told``: fault -> module, of all."""
    faults = [fault for fault in case.open if fault in told]
    if not faults:
        return []
    missed = list(dict.fromkeys(told[fault] for fault in faults))
    it, its, stays = ("it", "its", "it stays") if len(missed) == 1 else ("them", "their", "they stay")
    classes = {book.facts[fault].safety for fault in faults}
    return [{
        "do": f"ask {listed(missed, 6)} with a tester that reads {it}; if {stays} silent, check {its} feed, fuse, "
              "ground and branch",
        "where": f"diagnostic connector, supply held, key on; then the connector of {listed(missed, 6)}",
        "minutes": 20.0,
        "passes_if": f"{'it answers' if len(missed) == 1 else 'each answers'} and nobody reports {it} lost after a "
                     f"clear; {FEED}, {WIRES}",
        "settles": [names[fault] for fault in faults],
        "gain_bits": round(UNREAD_LIST * len(missed) + float(bits[faults].sum()) * 0.8, 2),
        "gate": gate_of(next((name for name in _STRICTEST if name in classes), None))}]


__all__ = ["NOT_ASKED", "heads_of", "unasked", "unasked_checks", "unasked_root"]
