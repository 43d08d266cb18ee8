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
    Ints,
    Links,
    Timeline,
)
from triage.relations.readings import read_against_codes
from triage.relations.stories import last_state, stories
from triage.units import to_probability

if TYPE_CHECKING:
    from code_tables import Tables
    from triage.relations.stories import Topology

RELATION_INDEX = {name: place + 1 for place, name in enumerate(RELATIONS)}


def links(book: Casebook, line: Timeline, tables: Tables, topology: Topology | None = None) -> Links:
    """The links of ``book``; what counts as good supply comes from ``tables``."""
    relation = np.array([RELATION_INDEX.get(facts.relation or "", 0) for facts in book.facts], dtype=np.int64)
    target = find_targets(book)
    shape = book.seen.shape
    own = active_modules(book, relation)
    has = target >= 0
    state = np.full(shape, NOT_ASKED)
    active = np.full(shape, -1)
    state[has] = book.state[target[has]]
    active[has] = own[target[has]]
    holders, peers = supply_codes(book)
    link = Links(
        relation=relation, target=target, target_state=state, target_active=active, lost=np.zeros(book.faults),
        proven=np.zeros(book.faults, dtype=bool),
        silent=np.zeros(len(book.module_name)), supply_codes=holders, supply_peers=peers,
    )
    _tell_stories(book, line, link, tables, topology)
    read_against_codes(book, line, link, tables)
    return link


def _tell_stories(book: Casebook, line: Timeline, link: Links, tables: Tables, topology: Topology | None) -> None:
    """Weigh the silence of every module that is silent at last, in the sessions that have one."""
    quiet = silent_at_last(book)
    good = good_supply(book, line, tables)
    proven = np.zeros(len(book.module_name), dtype=bool)
    for session in np.unique(book.module_session[quiet]).tolist():
        told = stories(book, line, link, tables, session, topology)
        link.stories[session] = told
        for story in told:
            for module in story.modules:
                link.silent[module] = to_probability(story.decibans)
                _, column = last_state(book, module)
                if story.reporters and good[session, column]:
                    # Silent while its supply is good and partners miss it: the reports are true.
                    least = "lost.silent_hard" if len(story.reporters) > 1 else "lost.silent_lone"
                    link.silent[module] = max(link.silent[module], tables.rate(least))
                    proven[module] = True
    lost = (link.relation == LOST) & (link.target >= 0)
    link.lost[lost] = link.silent[link.target[lost]]
    link.proven[lost] = proven[link.target[lost]]


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


def silent_at_last(book: Casebook) -> np.ndarray:
    """M: silent in the last snapshot that asked the module."""
    if not book.module_name:
        return np.zeros(0, dtype=bool)
    asked = book.state != NOT_ASKED
    last = asked.shape[1] - 1 - np.argmax(asked[:, ::-1], axis=1)
    return np.asarray((book.state[np.arange(last.size), last] == SILENT) & asked.any(axis=1))


def good_supply(book: Casebook, line: Timeline, tables: Tables) -> np.ndarray:
    """S x K: the supply while scanning was known and good enough to trust silence."""
    level = tables.rate("supply.good") * line.scale[:, None]
    return np.asarray(np.nan_to_num(book.volts, nan=0.0) >= level)


def supply_codes(book: Casebook) -> tuple[Ints, Ints]:
    """S x K: how many modules hold a low-supply code, and how many answered."""
    shape = book.exists.shape
    holders, peers = np.zeros(shape, dtype=np.int64), np.zeros(shape, dtype=np.int64)
    np.add.at(peers, book.module_session, (book.state == ANSWERS).astype(np.int64))
    supply = np.array([facts.supply in ("low", "fault") for facts in book.facts], dtype=bool)
    if supply.any():
        held = np.zeros(book.state.shape, dtype=bool)
        np.logical_or.at(held, book.fault_module[supply], book.seen[supply] == SEEN)
        np.add.at(holders, book.module_session, held.astype(np.int64))
    return holders, peers



