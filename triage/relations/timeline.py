"""What was done between the snapshots: clears and their answers, work, repairs, another module in the place.

An event with a time stands between the snapshots by their times; one without stands where its kind belongs:
a clear before each after-clear snapshot, work and repairs before the after-repair snapshot (or before the last).
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import numpy as np

from triage.model.casebook import NOT_READABLE, NOT_SEEN, SEEN, Casebook, Timeline
from triage.model.notices import Notice
from triage.model.parts import names_part, of_part, says_mended, says_unplugged
from triage.model.session import REFUSED_BY_ONE, Event, Session, stamp
from triage.relations.unplugged import part_test, renewed

if TYPE_CHECKING:
    from code_tables import Tables

WORK = {"replaced", "programmed", "paired", "calibrated", "battery disconnected", "actuator test"}
#: What takes a key cycle, or is one.
CYCLES = {"key cycle", "drove", "programmed", "replaced", "battery disconnected"}
BEFORE, AFTER_CLEAR, AFTER_RUN, AFTER_REPAIR = 0, 1, 2, 3


def timeline(book: Casebook, tables: Tables, canonical: Callable[[str], str] = str) -> Timeline:
    """The timeline of ``book``; the chances of a clear that nobody noted come from ``tables``.

    ``canonical`` resolves the name an event gives to a module, as a person writes it.
    """
    by_session = cleared_with_repair(book, clear_by_phase(book.phase, tables), tables)
    shape = book.state.shape
    line = Timeline(
        clear=by_session[book.module_session] if shape[0] else np.zeros(shape),
        refused=np.zeros(shape, dtype=bool), accepted=np.zeros(shape, dtype=bool),
        said_taken=np.zeros(shape, dtype=bool), work=np.zeros(shape, dtype=bool),
        repaired=np.zeros(shape, dtype=bool), new_module=np.zeros(shape, dtype=bool),
        cycled=np.zeros(book.exists.shape, dtype=bool), scale=nominal_scale(book),
    )
    for place, session in enumerate(book.sessions):
        if session.events:
            _take_events(book, line, place, session, canonical, tables)
        _check_counters(book, line, place, session, tables)
    return line


def clear_by_phase(phase: np.ndarray, tables: Tables) -> np.ndarray:
    """S x K chance of a clear before each snapshot, from the phases alone."""
    chance = np.zeros(phase.shape)
    cleared_before = phase[:, 0] > BEFORE
    # A session that starts after the clear: the clear came before its first snapshot.
    chance[:, 0] = cleared_before
    for column in range(1, phase.shape[1]):
        now, last = phase[:, column], phase[:, column - 1]
        first_after = (now > BEFORE) & ~cleared_before
        again = (now == AFTER_CLEAR) & (last > BEFORE)
        repair = (now == AFTER_REPAIR) & (last != AFTER_REPAIR)
        chance[:, column] = np.where(
            first_after | again, 1.0, np.where(repair, tables.rate("clear.with_repair"), 0.0))
        # A before-clear scan after a later one is a new start: the next scan after it was cleared anew.
        cleared_before = (cleared_before | (now > BEFORE)) & (now != BEFORE)
    return chance


def cleared_with_repair(book: Casebook, chance: np.ndarray, tables: Tables) -> np.ndarray:
    """``chance`` (S x K) where it is open whether a repair was followed by a clear: the lists tell. Codes that went
    speak for it, codes that stayed a little against it."""
    open_cells = (chance > 0.0) & (chance < 1.0)
    if not open_cells.any() or not book.faults:
        return chance
    held = np.zeros(book.faults, dtype=bool)
    log_odds = np.zeros(chance.shape)
    went, stayed = np.log(tables.rate("clear.repair_went")), np.log(tables.rate("clear.repair_stayed"))
    for column in range(chance.shape[1]):
        now = book.seen[:, column]
        told = np.where(held & (now == NOT_SEEN), went, np.where(held & (now == SEEN), stayed, 0.0))
        log_odds[:, column] = np.bincount(book.fault_session, weights=told, minlength=chance.shape[0])
        held = np.where(now == NOT_READABLE, held, now == SEEN)
    # The codes of one session go together.
    log_odds = np.clip(log_odds * tables.rate("votes.temper"), -4.0, 4.0)
    odds = np.divide(chance, 1.0 - chance, out=np.ones(chance.shape), where=open_cells) * np.exp(log_odds)
    return np.where(open_cells, odds / (1.0 + odds), chance)


def nominal_scale(book: Casebook) -> np.ndarray:
    """S: nominal volts / 12. Unsaid: 24 V where any supply reading is above 18 V, else 12 V."""
    scale = np.ones(len(book.sessions))
    above: list[bool] = np.asarray((book.volts > 18.0).any(axis=1)).tolist()
    for place, session in enumerate(book.sessions):
        said = session.vehicle.nominal_volts if session.vehicle else None
        if said is not None and said > 0:
            scale[place] = 2.0 if said > 18 else 1.0
        elif above[place]:
            scale[place] = 2.0
            book.notices[place].append(Notice(
                "note", "the supply reads above 18 V: taken as a 24 V system; give nominal_volts to settle it"))
    return scale


def _take_events(
    book: Casebook, line: Timeline, place: int, session: Session, canonical: Callable[[str], str], tables: Tables,
) -> None:
    columns = len(book.order[place])
    first, last = int(book.first_module[place]), int(book.first_module[place + 1])
    names: dict[str, list[int]] = {}
    stamps: list[float] = []
    if any(event.at is not None for event in session.events or []):
        times = [session.snapshots[at].at for at in book.order[place]]
        stamps = [stamp(time) for time in times if time is not None]
    told: list[tuple[Event, list[int]]] = []
    for event in session.events or []:
        modules: slice | list[int] = slice(first, last)
        if event.module is not None:
            names = names or _by_name(book, first, last)
            modules = names.get(event.module) or names.get(canonical(event.module), [])
            if not modules and not names_part(event.module):
                book.notices[place].append(Notice(
                    "warning", f"event {event.what!r}: no scan of the session holds a module {event.module!r}; the "
                               "event is not used: write the module as a scan prints it"))
        timed = stamps if event.at is not None and len(stamps) == columns else None
        told.append((event, event_columns(event, timed, book.phase[place, :columns].tolist())))
        about = renewed(book, place, event, canonical(event.module) if event.module else None)
        for column in told[-1][1]:
            line.renewed.update(dict.fromkeys(about, column))
            if event.what == "cleared" and event.note == REFUSED_BY_ONE:
                rate = tables.rate("clear.refused_by_one")
                line.clear[modules, column] = np.minimum(line.clear[modules, column], rate)
            elif event.what == "cleared":
                _take_clear(line, event, modules, column)
            _take_event(line, event, modules, column)
            line.cycled[place, column] |= event.what in CYCLES
    if (test := part_test(book, place, told)) is not None:
        line.tests[place] = test


def _by_name(book: Casebook, first: int, last: int) -> dict[str, list[int]]:
    """The modules of a session by each name they go by."""
    names: dict[str, list[int]] = {}
    for module in range(first, last):
        names.setdefault(book.module_facts[module].name, []).append(module)
        names.setdefault(book.module_name[module], []).append(module)
    return names


def _take_clear(line: Timeline, event: Event, modules: slice | list[int], column: int) -> None:
    """A clear with its answer.

    A module's own answer beats what was said of the whole vehicle. A second try may be refused after the first was
    taken; that does not undo the first.
    """
    before = line.clear[modules, column]
    if event.answer == "refused":
        line.refused[modules, column] = True
        taken = line.accepted[modules, column]
        if event.module is None:
            taken = taken | line.said_taken[modules, column]
        line.clear[modules, column] = np.where(taken, before, 0.02)
    elif event.answer == "accepted" and event.module is not None:
        line.accepted[modules, column] = True
        line.clear[modules, column] = 1.0
    elif event.answer == "accepted":
        line.said_taken[modules, column] = True
        line.clear[modules, column] = np.where(line.refused[modules, column], before, 1.0)
    else:
        # "Airbag refused, all else cleared": what is said of all is not said of the one that refused.
        kept = line.refused[modules, column] & (event.module is None)
        line.clear[modules, column] = np.where(kept, before, np.maximum(before, 0.97))


def _take_event(line: Timeline, event: Event, modules: slice | list[int], column: int) -> None:
    if event.what in WORK or says_unplugged(event):
        line.work[modules, column] = True
    # What nobody ascribes to a module (a new battery, say) mends no fault of all of them.
    if event.module is not None and (event.what == "replaced" or event.part is not None or says_mended(event)):
        line.repaired[modules, column] = True
    if event.what == "replaced" and event.module is not None and not of_part(event):
        line.new_module[modules, column] = True
    if event.what in ("programmed", "paired", "calibrated"):
        line.repaired[modules, column] |= event.module is not None and event.answer != "refused"
        # Programming erases diagnostic data (40 CFR 86.010-18 (k)(4)(viii)(B)).
        line.clear[modules, column] = np.maximum(line.clear[modules, column], 0.7)
    if event.what == "battery disconnected":
        line.clear[modules, column] = np.maximum(line.clear[modules, column], 0.3)


def event_columns(event: Event, stamps: list[float] | None, phase: list[int]) -> list[int]:
    """Snapshot columns that ``event`` stands right before (empty: after the last snapshot).

    ``stamps``: times of the snapshots in seconds, where they and the event have one; ``phase``: their phases.
    """
    columns = len(phase)
    # Of scans of one day with no time of day nobody knows by that which the event stands before.
    day = event.at is not None and (event.at.hour, event.at.minute) == (0, 0) and stamps is not None and (
        stamps.count(stamp(event.at)) > 1)
    if event.at is not None and stamps is not None and not day:
        moment = stamp(event.at)
        return [at for at, time in enumerate(stamps) if time > moment][:1]
    if event.what == "cleared":
        return [at for at in range(columns) if phase[at] == AFTER_CLEAR] or [
            at for at in range(columns) if phase[at] > BEFORE][:1]
    if event.what in ("drove", "key cycle"):
        run = [at for at in range(columns) if phase[at] == AFTER_RUN][:1]
        return run or [at for at in range(columns) if phase[at] == AFTER_CLEAR and event.what == "key cycle"][:1]
    repaired = [at for at in range(columns) if phase[at] == AFTER_REPAIR]
    return repaired[:1] or ([columns - 1] if columns else [])


def _right_after(book: Casebook, place: int, session: Session, column: int, most: float) -> bool:
    """Whether a scan was made so soon after the clear that counters must be low: the first scan after it, or within
    ``most`` minutes of the last before it. A vehicle that was driven since has counted."""
    before = [at for at in range(column) if book.phase[place, at] <= BEFORE]
    times = [session.snapshots[book.order[place][at]].at for at in (*before[-1:], column)]
    if len(times) == 2 and times[0] is not None and times[1] is not None:
        return (stamp(times[1]) - stamp(times[0])) / 60.0 <= most
    return bool(book.phase[place, column] == AFTER_CLEAR)


def _check_counters(book: Casebook, line: Timeline, place: int, session: Session, tables: Tables) -> None:
    """Counters since the last clear that are too high refute the clear; fresh ones confirm it."""
    for column, at in enumerate(book.order[place]):
        since = session.snapshots[at].since_clear
        if since is None or column == 0 or book.phase[place, column] <= BEFORE or not _right_after(
                book, place, session, column, tables.rate("clear.counters_span")):
            continue
        many = (since.warm_ups or 0) > tables.rate("clear.warm_ups_most") or (
            (since.distance_km or 0.0) > tables.rate("clear.distance_most")) or (
            (since.minutes or 0.0) > tables.rate("clear.minutes_most"))
        if many:
            seen = ", ".join(text for text in (
                f"{since.warm_ups} warm-ups" if since.warm_ups is not None else "",
                f"{since.distance_km:g} km" if since.distance_km is not None else "",
                f"{since.minutes:g} min" if since.minutes is not None else "") if text)
            book.notices[place].append(Notice(
                "warning", f"snapshot {column + 1}: the counters say {seen} since the last clear, so the clear before "
                           "it did not reach the module that counts; clear again and read the answer"))
            engine = [m for m in range(int(book.first_module[place]), int(book.first_module[place + 1]))
                      if book.module_facts[m].name == "engine control"]
            line.clear[engine, column] = np.minimum(line.clear[engine, column], 0.05)
