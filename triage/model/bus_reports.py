"""Reports of one network by several modules: they speak of its wires rather than of any module's own."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from triage.model.casebook import BUS

if TYPE_CHECKING:
    from triage.model.casebook import Bools, Casebook, Links

#: So many modules that report one network speak of its wires.
BUS_LEAST = 2


def bus_groups(book: Casebook, link: Links, chosen: Bools) -> list[list[int]]:
    """The faults of ``chosen`` (N) that report one network, by session and standard code, where several modules do; a
    code with a failure type and without one is one report of its module, and each module has its own failure mode for
    a parameter of SAE J1939."""
    groups: dict[tuple[int, str], list[int]] = {}
    known = book.flags(lambda facts: facts.known)
    for fault in np.flatnonzero((link.relation == BUS) & known & chosen).tolist():
        groups.setdefault((int(book.fault_session[fault]), network_of(book.code[fault])), []).append(fault)
    return [faults for faults in groups.values() if len(set(book.fault_module[faults].tolist())) >= BUS_LEAST]


def network_of(code: str) -> str:
    """The network that a code is about, as a key: the code without its failure mode.

    >>> network_of("SPN 639 FMI 9"), network_of("U0001")
    ('SPN 639', 'U0001')
    """
    return code.partition(" FMI ")[0]


__all__ = ["BUS_LEAST", "bus_groups", "network_of"]
