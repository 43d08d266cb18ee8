"""Modules that were silent at the same times: one feed, fuse, ground, branch or gateway is a smaller story than each.

Those that stay silent are held together where every scan at a good supply that asked them found them alike; so are
those that fell silent at a good supply, while others answered, and answer again. A module with a cause of its own
(measured at its connector, renewed, on a branch that is told already) stays apart. Common practice.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

import numpy as np

from triage.model.casebook import ANSWERS, LOST, NOT_ASKED, SEEN, SILENT, Casebook, Links, Story, Timeline
from triage.model.shared_silence import OF_TRAILER, SHARED, SharedSilence
from triage.relations.answers import WITH_KEY
from triage.relations.network_wires import wires_read

if TYPE_CHECKING:
    from code_tables import Tables
    from triage.model.casebook import Bools

#: So many modules make a group.
LEAST = 2
#: So many others answer meanwhile, before a silence that ended says anything.
ANSWERING = 2
#: What a pin that was found good at one of them rules out for all.
RULED_OUT = {"feed": ("feed", "fuse"), "ground": ("ground",)}


def shared_silences(book: Casebook, line: Timeline, link: Links, tables: Tables) -> dict[int, list[SharedSilence]]:
    """Session -> its groups of modules that were silent at the same times."""
    good = line.read_at_least(book.volts, tables.rate("supply.good"))
    found: dict[int, list[SharedSilence]] = {}
    silent_once = np.asarray((book.state == SILENT).any(axis=1))
    for place in sorted(set(book.module_session[silent_once].tolist())):
        groups = _staying(book, line, link, tables, place, good[place])
        if book.sessions[place].snapshots[1:]:
            groups += _back(book, line, link, place, good[place])
        if groups:
            found[place] = groups
    return found


def _staying(
    book: Casebook, line: Timeline, link: Links, tables: Tables, place: int, good: Bools,
) -> list[SharedSilence]:
    """The groups among the modules that are silent at last."""
    alone = [story for story in link.stories.get(place, ()) if story.kind == "silent module"
             and not (story.pins is not None and story.pins.lost and not story.pins.fuse)
             and not line.new_module[story.modules[0]].any()]
    groups = []
    for members in _alike(book, ((story.modules[0], story) for story in alone), good):
        modules = _safety_first(book, [story.modules[0] for story in members])
        trailer = book.module_facts[modules[0]].awake == "trailer"
        groups.append(SharedSilence(
            modules, sorted({reporter for story in members for reporter in story.reporters}),
            _left(members, OF_TRAILER if trailer else SHARED), *_wires(book, tables, place),
            low=not any((book.state[module] == SILENT)[good].any() for module in modules),
            fuse=_fuse(members[0]), read=members[0].pins.words if _fuse(members[0]) and members[0].pins else ""))
    return groups


def _alike(book: Casebook, told: Iterable[tuple[int, Story]], good: Bools) -> list[list[Story]]:
    """The stories whose modules no scan at a good supply tells apart, and that wake with the same."""
    groups: list[list[Story]] = []
    for module, story in told:
        home = next((group for group in groups if all(
            _same(book, module, other.modules[0], good) and _fuse(other) == _fuse(story) for other in group)), None)
        if home is None:
            groups.append([story])
        else:
            home.append(story)
    return [group for group in groups if len(group) >= LEAST]


def _fuse(story: Story) -> str:
    """The open fuse that the module of a story hangs on, empty where none is told."""
    return story.pins.fuse if story.pins is not None else ""


def _same(book: Casebook, module: int, other: int, good: Bools) -> bool:
    """Whether two modules wake with the same and answered alike in each scan at a good supply that asked both."""
    kinds = {"key" if facts.awake in WITH_KEY else facts.awake
             for facts in (book.module_facts[module], book.module_facts[other])}
    both = good & (book.state[module] != NOT_ASKED) & (book.state[other] != NOT_ASKED)
    return len(kinds) == 1 and bool((book.state[module] == book.state[other])[both].all())


def _left(members: list[Story], shared: tuple[str, ...]) -> tuple[str, ...]:
    """What modules may share, without what was found good at the connector of one of them."""
    out = {part for story in members if story.pins is not None for pin in story.pins.sound for part in RULED_OUT[pin]}
    return tuple(part for part in shared if part not in out)


def _wires(book: Casebook, tables: Tables, place: int) -> tuple[str, bool]:
    """What was measured between the wires of a network that is not whole, empty where nobody did or it is, and whether
    it is open."""
    read = wires_read(book, tables, place)
    return ("", False) if read is None or read.whole else (read.words, read.above)


def _back(book: Casebook, line: Timeline, link: Links, place: int, good: Bools) -> list[SharedSilence]:
    """The groups that were silent at a good supply, others answering, and answer again with no work in between."""
    first, last = int(book.first_module[place]), int(book.first_module[place + 1])
    enough = good & ((book.state[first:last] == ANSWERS).sum(axis=0) >= ANSWERING)
    groups: dict[tuple[int, ...], list[int]] = {}
    for module in range(first, last):
        row = book.state[module]
        silent = np.flatnonzero((row == SILENT) & enough)
        asked = np.flatnonzero(row != NOT_ASKED)
        if not silent.size or row[asked[-1]] != ANSWERS or book.module_facts[module].awake not in WITH_KEY:
            continue
        # Silent from the first scan on and not since work was done: that ended it.
        again = int(np.flatnonzero((row == ANSWERS) & (np.arange(row.size) > silent[-1]))[0])
        if not (line.work | line.repaired | line.new_module)[module, silent[-1] + 1:again + 1].any():
            groups.setdefault(tuple(row.tolist()), []).append(module)
    told = []
    for pattern, modules in groups.items():
        if len(modules) < LEAST:
            continue
        row = np.array(pattern)
        runs = book.engine_on[place]
        wakes = bool((runs[row == SILENT] == 0.0).all() and (runs[row == ANSWERS] == 1.0).all())
        column = int(np.flatnonzero((row == SILENT) & enough)[-1])
        told.append(SharedSilence(
            _safety_first(book, modules), _reporters(book, link, modules), SHARED,
            back=f"in snapshot {column + 1} at {float(book.volts[place, column]):.1f} V", wakes=wakes))
    return told


def _reporters(book: Casebook, link: Links, modules: list[int]) -> list[int]:
    """Modules that report the loss of one of ``modules`` in any scan."""
    faults = np.flatnonzero(np.isin(link.target, modules) & (link.relation == LOST) & (book.seen == SEEN).any(axis=1))
    return sorted(set(book.fault_module[faults].tolist()))


def _safety_first(book: Casebook, modules: list[int]) -> list[int]:
    return sorted(modules, key=lambda module: book.module_facts[module].safety is None)


__all__ = ["shared_silences"]
