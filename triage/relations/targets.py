"""Who points to whom: pointer codes, lost communication and invalid data, joined to the module they name."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from triage.model.casebook import (
    ANSWERS,
    LOST,
    NOT_ASKED,
    RELATIONS,
    SEEN,
    SILENT,
    Casebook,
    Links,
    Timeline,
)

if TYPE_CHECKING:
    from code_tables import Tables

RELATION_INDEX = {name: place + 1 for place, name in enumerate(RELATIONS)}


def links(book: Casebook, line: Timeline, tables: Tables) -> Links:
    """The links of ``book``; what counts as good supply comes from ``tables``."""
    relation = np.array([RELATION_INDEX.get(facts.relation or "", 0) for facts in book.facts], dtype=np.int64)
    target = find_targets(book)
    silent = silent_modules(book, line, tables)
    shape = book.seen.shape
    own = active_modules(book, relation)
    has = target >= 0
    state = np.full(shape, NOT_ASKED)
    active = np.full(shape, -1)
    state[has] = book.state[target[has]]
    active[has] = own[target[has]]
    return Links(
        relation=relation, target=target, target_state=state, target_active=active,
        target_silent=np.where(has, silent[target], False) & (relation == LOST) if silent.size else has & False,
        silent=silent, **supply_codes(book),
    )


def find_targets(book: Casebook) -> np.ndarray:
    """N: the module each fault names, in its own session; -1 where it names none or the session lacks it."""
    target = np.full(book.faults, -1, dtype=np.int64)
    pointing = [fault for fault, facts in enumerate(book.facts) if facts.targets]
    if not pointing:
        return target
    exact: dict[tuple[int, str], int] = {}
    instance: dict[tuple[int, str], int] = {}
    for module, (session, facts) in enumerate(zip(book.module_session.tolist(), book.module_facts, strict=True)):
        exact.setdefault((session, facts.name), module)
        if facts.instance_of:
            instance.setdefault((session, facts.instance_of), module)
    sessions = book.fault_session.tolist()
    for fault in pointing:
        session = sessions[fault]
        for name in book.facts[fault].targets:
            # The exact name wins over an instance of it ("battery energy control" over "battery energy control B").
            module = exact.get((session, name), instance.get((session, name), -1))
            if module >= 0 and module != book.fault_module[fault]:
                target[fault] = module
                break
    return target


def active_modules(book: Casebook, relation: np.ndarray) -> np.ndarray:
    """M x K: 1 where the module shows a fault of its own (no relation), 0 where none, -1 not readable."""
    shape = book.state.shape
    own = np.where(book.state == ANSWERS, 0, -1)
    if relation.size:
        shows = (book.seen == SEEN) & (relation == 0)[:, None]
        held = np.zeros(shape, dtype=np.int64)
        np.add.at(held, book.fault_module, shows.astype(np.int64))
        own[held > 0] = 1
    return own


def silent_modules(book: Casebook, line: Timeline, tables: Tables) -> np.ndarray:
    """M: silent at good supply in the last snapshot that asked it, and a module that should be awake then."""
    if not book.module_name:
        return np.zeros(0, dtype=bool)
    session = book.module_session
    good = good_supply(book, line, tables)[session]
    silent = (book.state == SILENT) & good
    awake = np.array([facts.awake in ("key", "any") for facts in book.module_facts])
    asked = book.state != NOT_ASKED
    last = np.where(asked.any(axis=1), asked.shape[1] - 1 - np.argmax(asked[:, ::-1], axis=1), 0)
    rows = np.arange(session.size)
    # A module that never answered and that nobody misses may not be fitted; that is told, not concluded here.
    return np.asarray(silent[rows, last] & awake & asked.any(axis=1))


def good_supply(book: Casebook, line: Timeline, tables: Tables) -> np.ndarray:
    """S x K: the supply while scanning was known and good enough to trust silence."""
    level = tables.rate("supply.good") * line.scale[:, None]
    return np.asarray(np.nan_to_num(book.volts, nan=0.0) >= level)


def supply_codes(book: Casebook) -> dict[str, np.ndarray]:
    """S x K: how many modules hold a low-supply code, and how many answered."""
    shape = book.exists.shape
    holders, peers = np.zeros(shape, dtype=np.int64), np.zeros(shape, dtype=np.int64)
    np.add.at(peers, book.module_session, (book.state == ANSWERS).astype(np.int64))
    supply = np.array([facts.supply in ("low", "fault") for facts in book.facts], dtype=bool)
    if supply.any():
        held = np.zeros(book.state.shape, dtype=bool)
        np.logical_or.at(held, book.fault_module[supply], book.seen[supply] == SEEN)
        np.add.at(holders, book.module_session, held.astype(np.int64))
    return {"supply_codes": holders, "supply_peers": peers}



