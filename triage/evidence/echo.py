"""Echoes: a code that only repeats a fault of another module shows when that one fault shows, and hardly else.

Which of the target's faults it repeats nobody says, so each pattern of sightings among them is a hypothesis of its own,
beside "any of them".
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from triage.model.casebook import (
    INVALID,
    LOST,
    NOT_READABLE,
    NOT_SEEN,
    POINTER,
    SEEN,
    SILENT,
    Bools,
    Casebook,
    Floats,
    Ints,
    Links,
)

if TYPE_CHECKING:
    from triage.evidence.parameters import Parameters

#: Patterns of the target's faults that are told apart; rarer ones count as "any of them".
MOST_PATTERNS = 4
#: Systems whose own faults the codes of a letter speak of (SAE J2012: powertrain, chassis, body).
OWN_SYSTEMS = {"P": ("engine", "transmission", "high voltage"), "C": ("brakes", "steering", "chassis"),
               "B": ("body", "restraints", "other")}


def echo_chances(book: Casebook, link: Links, params: Parameters) -> tuple[Ints, Floats, Floats]:
    """Rows (n) of the faults that can be echoes, the chance (n x K x h) that each is set, the share (n x h).

    A report of lost communication is one only where its target answers: it then drops out with a fault of its own. The
    report of one that stays silent is hard, under that module's name. A maker's code that nobody has words for may
    point at any other module.
    """
    drops_out = (link.relation == LOST) & (link.target >= 0) & ~(link.target_state == SILENT).any(axis=1)
    told = np.isin(link.relation, (POINTER, INVALID)) | drops_out
    untold = ~told & without_words(book, link)
    rows = np.flatnonzero(told | untold)
    shows, share = _patterns(book, link, rows)
    shows[untold[rows]] = _any_other(book, link, np.flatnonzero(untold))[:, :, None]
    shown = (shows == SEEN) | (link.target_state[rows] == SILENT)[:, :, None]
    chance = np.where(shown, params.rate("echo.follows"), np.where(
        shows == NOT_READABLE, params.rate("echo.target_unread"), params.rate("echo.alone")))
    return rows, chance, share


def without_words(book: Casebook, link: Links) -> Bools:
    """N: a maker's code of which neither a table, nor its failure type, nor the scan says what it is about."""
    unknown = book.flags(lambda facts: not facts.known and facts.supply is None)
    unknown &= (link.relation == 0) & np.array([kind in (None, "00") for kind in book.failure_type], dtype=bool)
    unknown[list(book.texts)] = False
    return np.asarray(unknown)


def in_own_range(book: Casebook) -> Bools:
    """N: the letter of the code is that of its module's own system, not of another whose signals it uses."""
    system = [facts.system for facts in book.module_facts]
    return np.array([system[module] in OWN_SYSTEMS.get(code[:1], ())
                     for code, module in zip(book.code, book.fault_module.tolist(), strict=True)], dtype=bool)


def _any_other(book: Casebook, link: Links, rows: Ints) -> Ints:
    """n x K: SEEN where another module of the session shows a fault of its own, else what can be read."""
    own = np.zeros(book.state.shape, dtype=bool)
    held = np.flatnonzero(link.relation == 0)
    np.logical_or.at(own, book.fault_module[held], book.seen[held] == SEEN)
    active = np.zeros(book.exists.shape, dtype=np.int64)
    np.add.at(active, book.module_session, own.astype(np.int64))
    others = active[book.fault_session[rows]] - own[book.fault_module[rows]]
    return np.asarray(np.where(others > 0, SEEN, NOT_SEEN))


def _patterns(book: Casebook, link: Links, rows: Ints) -> tuple[Ints, Floats]:
    """Sightings (n x K x h) of what each of ``rows`` may repeat, and the share of each: "any of them" counts once."""
    told: dict[int, list[tuple[bytes, int]]] = {}
    own = _own_faults(book, link, set(link.target[rows].tolist()))
    shows = np.repeat(link.target_active[rows][:, :, None], MOST_PATTERNS + 1, axis=2)
    share = np.zeros((rows.size, MOST_PATTERNS + 1))
    share[:, 0] = 1.0
    for place, target in enumerate(link.target[rows].tolist()):
        faults = own.get(target)
        if not faults:
            continue
        if target not in told:
            told[target] = _commonest([book.seen[fault].tobytes() for fault in faults])
        for column, (pattern, count) in enumerate(told[target], start=1):
            shows[place, :, column] = np.frombuffer(pattern, dtype=book.seen.dtype)
            share[place, column] = count
    return shows, share / share.sum(axis=1, keepdims=True)


def _own_faults(book: Casebook, link: Links, targets: set[int]) -> dict[int, list[int]]:
    """Target module -> its faults that point to no other module."""
    found: dict[int, list[int]] = {}
    modules = book.fault_module.tolist()
    for fault in np.flatnonzero(link.relation == 0).tolist():
        if modules[fault] in targets:
            found.setdefault(modules[fault], []).append(fault)
    return found


def _commonest(patterns: list[bytes]) -> list[tuple[bytes, int]]:
    counts: dict[bytes, int] = {}
    for pattern in patterns:
        counts[pattern] = counts.get(pattern, 0) + 1
    return sorted(counts.items(), key=lambda entry: -entry[1])[:MOST_PATTERNS]
