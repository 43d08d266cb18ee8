"""Who points to whom: pointer codes, lost communication and invalid data, joined to the module they name."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

from triage.model.casebook import (
    ANSWERS,
    INVALID,
    LOST,
    NOT_ASKED,
    POINTER,
    RELATIONS,
    SEEN,
    SILENT,
    Casebook,
    Contradiction,
    Ints,
    Links,
    Timeline,
)
from triage.relations.answers import last_answers
from triage.relations.network_wires import read_wires
from triage.relations.own_feed import feed_losses
from triage.relations.readings import count, read_against_codes
from triage.relations.silent_together import shared_silences
from triage.relations.stories import between, expected, fed_share, stories
from triage.relations.supply_events import lone_holders, supply_events
from triage.units import to_probability

if TYPE_CHECKING:
    from code_tables import Tables
    from triage.relations.stories import Topology

#: Words that name one of several modules.
_ONE = {"left", "right", "front", "rear", "driver", "passenger", "1", "2", "3", "4"}
RELATION_INDEX = {name: place + 1 for place, name in enumerate(RELATIONS)}


def links(book: Casebook, line: Timeline, tables: Tables, topology: Topology | None = None) -> Links:
    """The links of ``book``; what counts as good supply comes from ``tables``."""
    relation = book.numbers(lambda facts: RELATION_INDEX.get(facts.relation or "", 0))
    # A failure type alone ("message missing" of a sensor) names no other module: the fault is its module's own.
    own = book.flags(lambda facts: not facts.targets and facts.relation in ("lost communication", "invalid data"))
    relation[own & np.array([code[:1] in tuple("PCB") for code in book.code], dtype=bool)] = 0
    target = find_targets(book)
    shape = book.seen.shape
    own = active_modules(book, relation)
    has = target >= 0
    state = np.full(shape, NOT_ASKED)
    active = np.full(shape, -1)
    state[has] = book.state[target[has]]
    active[has] = own[target[has]]
    _through(book, relation, target, active)
    holders, peers = supply_codes(book)
    link = Links(
        relation=relation, target=target, target_state=state, target_active=active, lost=np.zeros(book.faults),
        proven=np.zeros(book.faults, dtype=bool), unexplained=np.ones(book.faults),
        silent=np.zeros(len(book.module_name)), supply_codes=holders, supply_peers=peers,
        lone=lone_holders(book, line, holders, peers, tables), events=supply_events(book, line, holders, peers, tables),
    )
    _tell_stories(book, line, link, tables, topology)
    link.feed_losses = feed_losses(book, line, link, tables)
    read_against_codes(book, line, link, tables)
    read_wires(book, link, tables)
    link.shared = shared_silences(book, line, link, tables)
    for place, test in line.tests.items():
        if test.went:
            codes = ", ".join(dict.fromkeys(book.code[fault] for fault in test.went))
            link.findings[place] = [f"with {test.part} unplugged {codes} went: that part or its wires make them",
                                    *link.findings.get(place, [])]
    for told in link.stories.values():
        for story in told:
            if story.held and story.head >= 0:
                count(link, story.head, Contradiction(f"measured: {story.held}", "relations: wires in volts",
                                                      tables.rate("network.held")))
    return link


def _tell_stories(book: Casebook, line: Timeline, link: Links, tables: Tables, topology: Topology | None) -> None:
    """Weigh the silence of every module that is silent at last, in the sessions that have one."""
    good = good_supply(book, line, tables)
    answers = last_answers(book, good, missed_while_silent(book, link) | expected(book))
    quiet = np.array(answers.state, dtype=np.int64) == SILENT
    proven = np.zeros(len(book.module_name), dtype=bool)
    unexplained = np.full(len(book.module_name), tables.rate("lost.silent_low"))
    for session in sorted(set(book.module_session[quiet].tolist())):
        told = stories(book, line, link, tables, session, topology, answers)
        link.stories[session] = told
        for story in told:
            for module in story.modules:
                link.silent[module] = to_probability(story.decibans)
                column = answers.column[module]
                if story.reporters:
                    unexplained[module] = between(
                        tables.rate("lost.silent_low"), 1.0, fed_share(book, line, tables, session, column))
                if story.reporters and good[session, column]:
                    # Silent while its supply is good and partners miss it: the reports are true.
                    least = "lost.silent_hard" if len(story.reporters) > 1 else "lost.silent_lone"
                    link.silent[module] = max(link.silent[module], tables.rate(least))
                    proven[module] = True
    lost = (link.relation == LOST) & (link.target >= 0)
    link.lost[lost] = link.silent[link.target[lost]]
    link.proven[lost] = proven[link.target[lost]]
    link.unexplained[lost] = np.where(link.proven[lost], 1.0, unexplained[link.target[lost]])


def missed_while_silent(book: Casebook, link: Links) -> set[int]:
    """Modules that never answered and whose loss two others and more report in a scan after the clear in which they
    are silent: partners do not miss what sleeps by design."""
    faults = np.flatnonzero((link.relation == LOST) & (link.target >= 0))
    reporters: dict[tuple[int, int], set[int]] = {}
    since = book.phase[book.fault_session[faults]] > 0
    told = (book.seen[faults] == SEEN) & (link.target_state[faults] == SILENT) & since
    for place, column in zip(*(found.tolist() for found in np.nonzero(told)), strict=True):
        fault = faults[place]
        reporters.setdefault((int(link.target[fault]), column), set()).add(int(book.fault_module[fault]))
    return {target for (target, _), by in reporters.items()
            if len(by) > 1 and not (book.state[target] == ANSWERS).any()}


def find_targets(book: Casebook) -> np.ndarray:
    """N: the module each fault names, in its own session; -1 where it names none or the session lacks it."""
    target = np.full(book.faults, -1, dtype=np.int64)
    pointing = np.flatnonzero(book.flags(lambda facts: bool(facts.targets))).tolist()
    if not pointing:
        return target
    exact: dict[tuple[int, str], int] = {}
    instances: dict[tuple[int, str], list[int]] = {}
    for module, (session, facts) in enumerate(zip(book.module_session.tolist(), book.module_facts, strict=True)):
        exact.setdefault((session, facts.name), module)
        if facts.instance_of:
            instances.setdefault((session, facts.instance_of), []).append(module)
    sessions = book.fault_session.tolist()
    for fault in pointing:
        session = sessions[fault]
        for name in book.facts[fault].targets:
            module = exact.get((session, name), -1)
            others = instances.get((session, name), ())
            # The exact name wins. A code that names none of several may mean the only one there is; one that names
            # the left or the first never means the right or the second.
            if module < 0 and len(others) == 1 and not names_one(book.facts[fault].title):
                module = others[0]
            if module >= 0 and module != book.fault_module[fault]:
                target[fault] = module
                break
    return target


@lru_cache(maxsize=4096)
def names_one(title: str) -> bool:
    """Whether a code's title names one of several modules: a letter at its end, a side, a seat.

    >>> names_one("lost communication, door module A"), names_one("lost communication, body control module")
    (True, False)
    """
    words = title.lower().replace(",", " ").split()
    return words[-1:] in (["a"], ["b"], ["c"], ["d"], ["e"], ["f"]) or not _ONE.isdisjoint(words)


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


def _through(book: Casebook, relation: np.ndarray, target: np.ndarray, active: np.ndarray) -> None:
    """Mark the target of a pointer or invalid-data code as active, too, where it holds a code that points further.

    The transmission asks for the lamp since it gets invalid data from the brakes: its own list is empty, yet it is no
    empty pointer. A code that points back at the reporter explains nothing.
    """
    further = ((relation == POINTER) | (relation == INVALID)) & (target >= 0)
    asking = np.flatnonzero(further)
    if not asking.size:
        return
    pointing: dict[int, list[int]] = {}
    for fault in np.flatnonzero(further & np.isin(book.fault_module, target[asking])).tolist():
        pointing.setdefault(int(book.fault_module[fault]), []).append(fault)
    for fault in asking.tolist():
        module = int(book.fault_module[fault])
        # Before the clear invalid data is mostly noise of the low supply: it explains no other.
        since = True if relation[fault] == POINTER else book.phase[book.fault_session[fault]] > 0
        for other in pointing.get(int(target[fault]), ()):
            if target[other] != module:
                active[fault] = np.where(since & (active[fault] == 0) & (book.seen[other] == SEEN), 1, active[fault])


def good_supply(book: Casebook, line: Timeline, tables: Tables) -> np.ndarray:
    """S x K: the supply while scanning was known and good enough to trust silence."""
    level = tables.rate("supply.good") * line.scale[:, None]
    return np.asarray(np.nan_to_num(book.volts, nan=0.0) >= level)


def supply_codes(book: Casebook) -> tuple[Ints, Ints]:
    """S x K: how many modules hold a low-supply code, and how many answered."""
    shape = book.exists.shape
    holders, peers = np.zeros(shape, dtype=np.int64), np.zeros(shape, dtype=np.int64)
    np.add.at(peers, book.module_session, (book.state == ANSWERS).astype(np.int64))
    supply = book.flags(lambda facts: facts.supply in ("low", "fault"))
    if supply.any():
        held = np.zeros(book.state.shape, dtype=bool)
        np.logical_or.at(held, book.fault_module[supply], book.seen[supply] == SEEN)
        np.add.at(holders, book.module_session, held.astype(np.int64))
    return holders, peers



