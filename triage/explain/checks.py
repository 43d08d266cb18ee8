"""What to do next: candidate steps ranked by the uncertainty they are expected to remove, per minute.

The uncertainty of a fault is the entropy of "it persists" in bits. A step that runs the fault's monitor removes
the share of it that its opportunity and its chance to answer right leave. Steps that share one access (a key
cycle, a run, a drive) are counted once for all the faults they test. Of a fault that persists it is not known
whether connector, wiring or part is to blame: that doubt is what the test of its circuit removes.

While charging has failed nobody is sent to run or drive the vehicle on its own battery, nor to run it at all while the
generator is cut off from that; an isolation fault is settled by a measurement alone.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from triage.explain.bad_path import ground_first, set_by_ground, with_held
from triage.explain.case import Case, Figures
from triage.explain.circuit_checks import (
    circuit_checks,
    isolation_fault,
)
from triage.explain.common_steps import (
    COLD,
    COMMON,
    left_out,
    monitors,
    not_driven,
)
from triage.explain.damage import damages, looked_over
from triage.explain.fitness import (
    CLOSED_ONCE,
    LIVE,
    before_a_start,
    doubted,
    keeps_live,
    says_live,
    standing_checks,
    starved,
    stuck_closed,
    unfit_to_drive,
    worked_standing,
)
from triage.explain.fuse_checks import fuse_checks
from triage.explain.general_steps import Open, common_checks, without
from triage.explain.meaning import is_cold_start, wants_procedure
from triage.explain.module_checks import (
    ISOLATED,
    clear_again_checks,
    feed_checks,
    feed_loss_checks,
    inspected,
    pointer_checks,
    program_checks,
    to_program,
)
from triage.explain.order import behind_isolation, in_order
from triage.explain.part_tests import apart, part_checks, renewed_checks, unproved
from triage.explain.pointers import EmptyPointer, empty_pointers
from triage.explain.records import crash_records
from triage.explain.recovery import behind, recovery_checks, unfinished
from triage.explain.shared import drop_outs
from triage.explain.silence_checks import asked_again, drop_out_checks, silent_checks
from triage.explain.silent_together import drop_groups
from triage.explain.standing import ASIDE, HARD, INTERMITTENT, SHORT, Standings, persisting
from triage.explain.supply_checks import draws_first, failed_checks, untested_checks
from triage.explain.there import called_now, there_now, to_look_at
from triage.explain.unasked import unasked_checks
from triage.model.casebook import LOST, Bools, Casebook, Links, Timeline
from triage.model.drive import is_electric
from triage.model.session import Session
from triage.model.shared_silence import SharedSilence
from triage.model.triggers import trigger_of
from triage.model.verdict import NextCheck, SupplyVerdict

if TYPE_CHECKING:
    from code_tables import CodeFacts, Tables
    from triage.model.casebook import Floats

#: Chance that a cold start brings what it works to a result; project's own choice.
COLD_RIGHT = 0.9
#: Places where a circuit can be at fault: connector, wiring, part.
PLACES = 3
#: A fault that is less likely to persist is read again before anybody takes a circuit apart for it.
TAKEN_APART = 0.4
#: A fault this likely that is called current now is looked for before anything is only run again: even odds.
LOOKED_FOR = 0.5
#: From here on a fault that was seen last is looked for, not run again: odds of nine to one; project's own choice.
LIKELY = 0.9
#: Below this a fault hardly persists: -15 dB; its own step waits for those of what is established (common practice).
FAINT = 0.0307


def next_checks(
    book: Casebook, line: Timeline, link: Links, standing: Standings, causes: Floats, decibans: Floats,
    supplies: Sequence[Sequence[SupplyVerdict]], tables: Tables, names: list[str],
    back: Bools,
) -> list[list[NextCheck]]:
    """The ranked steps of each session; ``names`` are the faults as they are shown ("engine control P0118").

    ``back`` (N): those that came back; ``supplies``: for each session what is said of the parts of its supply.
    """
    chance = 1.0 / (1.0 + 10.0 ** (-np.clip(decibans, -60, 60) / 10.0))
    bits = -(chance * np.log2(chance) + (1 - chance) * np.log2(1 - chance))
    monitor = monitors(book)
    measured = book.flags(lambda facts: isolation_fault(facts.title))
    right = tables.rate("check.answers_right")
    recorded = crash_records(book)
    open_faults = (standing.standing != ASIDE) & ~measured & ~standing.lasts & ~recorded & ~_stays_silent(link)
    for test in line.tests.values():
        open_faults[[*test.went, *test.made]] = False
    open_faults &= ~(procedure := _asks_for_procedure(book, chance)) & ~_goes_with_another(book, standing, names)
    gains = [bits * np.array(step.runs)[monitor] * right for step in COMMON] if bits.size else []
    # What heats a cold engine is worked by a cold start alone.
    glows = book.flags(lambda facts: is_cold_start(facts.title))
    gains = [np.where(glows, bits * right * COLD_RIGHT if step is COLD else 0.0, gain)
             for step, gain in zip(COMMON, gains, strict=False)]
    # What is there is not run again to see whether it is: a run tells no more of it than the last scan did.
    there = there_now(book, chance, LIKELY)
    # Nor is it cleared while it can be looked at: at rest it may stay away, and its freeze frame is gone.
    now, again = (found & (chance >= TAKEN_APART) for found in to_look_at(book, line, link, tables, back))
    kept = now | again
    worth = [np.where((gain > 0.02) & open_faults & ~out, gain, 0.0).tolist()
             for gain, out in zip(gains, left_out(book, standing, there | now, monitor, kept), strict=False)]
    # What came back at a good supply is looked for, however quiet the runs since: a quiet run only tells how seldom.
    back = back & open_faults
    unfit = unfit_to_drive(book, standing, chance, back)
    sought = (back & standing.safety) | (open_faults & not_driven(book, standing, unfit, chance, monitor))
    live = keeps_live(book, standing, chance, TAKEN_APART)
    where = np.where((chance >= 0.5) | sought, np.maximum(chance, 0.5) * np.log2(PLACES), 0.0)
    doubt = (bits + where) * right
    likely = np.where(standing.standing == SHORT, 4.0 + chance, np.where(chance >= TAKEN_APART, bits, 0.0))
    isolation = measured & (standing.standing != ASIDE)
    likely = np.where(isolation | live, 6.0, np.where(sought, np.maximum(likely, bits), likely)).tolist()
    flickers = (back & sought & (chance < LIKELY)) | (causes[:, INTERMITTENT] > causes[:, HARD])
    figures = Figures(names, doubt.tolist(), np.where(sought, np.maximum(chance, TAKEN_APART), chance).tolist(),
                      flickers.tolist(),
                      link.relation.tolist(), book.fault_module.tolist())
    batch = _Batch(
        book, line, link, standing, tables, names, supplies, bits, worth, likely, figures, procedure, isolation,
        unfit, live, stuck_closed(book, standing),
        (called_now(book, line, tables) & (chance >= LOOKED_FOR)) | kept, _record_holders(book, recorded),
        empty_pointers(book, link), drop_groups(book, link, drop_outs(book, link, persisting(causes))),
        book.flags(_speaks_of_charging).tolist(), set(np.flatnonzero(line.new_module.any(axis=1)).tolist()))
    return [_of_session(batch, place) for place in range(len(book.sessions))]


class _Batch(NamedTuple):
    """What is known of all faults (N) at once, for the steps of each session. ``worth``: bits that each common step
    removes; ``renewed``: modules that were replaced; ``with_record``: session -> modules with a crash record."""

    book: Casebook
    line: Timeline
    link: Links
    standing: Standings
    tables: Tables
    names: list[str]
    supplies: Sequence[Sequence[SupplyVerdict]]
    bits: Floats
    worth: list[list[float]]
    likely: list[float]
    figures: Figures
    procedure: Bools
    isolation: Bools
    unfit: Bools
    live: Bools
    closed: Bools
    now: Bools
    with_record: dict[int, set[str]]
    pointers: dict[int, list[EmptyPointer]]
    lost: dict[int, list[SharedSilence]]
    speaks: list[bool]
    renewed: set[int]


def _case(batch: _Batch, place: int, modules: range) -> Case:
    """What the checks of one session have to know."""
    book, session, supply = batch.book, batch.book.sessions[place], batch.supplies[place]
    faults = range(int(book.first_fault[place]), int(book.first_fault[place + 1]))
    places = batch.standing.standing[faults.start:faults.stop].tolist()
    return Case(
        place, faults.start, faults.stop,
        [fault for fault, where in zip(faults, places, strict=True) if where != ASIDE],
        [fault for fault, where in zip(faults, places, strict=True) if where == SHORT], supply,
        is_electric(session, (book.module_facts[module].name for module in modules)),
        bool(batch.unfit[place] or doubted(_complaint(session))) or starved(book, modules, supply), book.printed[place],
        frozenset([(entry["part"], entry["state"]) for entry in supply]),
        trigger_of(_complaint(session)))


def _complaint(session: Session) -> str | None:
    return session.vehicle.complaint if session.vehicle else None


def _of_session(batch: _Batch, place: int) -> list[NextCheck]:
    """The ranked steps of one session."""
    book, link, tables, names, bits = batch.book, batch.link, batch.tables, batch.names, batch.bits
    session, scale = book.sessions[place], float(batch.line.scale[place])
    modules = range(int(book.first_module[place]), int(book.first_module[place + 1]))
    case = _case(batch, place, modules)
    mine, electric = slice(case.first, case.last), case.electric
    witnesses = [fault for fault in case.open if batch.speaks[fault]]
    unset = to_program(book, case, modules, batch.renewed)
    broken = [module for module in unfinished(book, case, modules) if module not in unset]
    # What other modules say of configuration, VIN or key may only follow from one that is not set up yet.
    judged = (~np.isin(book.fault_module[mine], [*unset, *broken]) & ~(batch.procedure[mine] & bool(unset))
              ).tolist() if unset or broken else None
    records = sorted(case.shown.get(name, name) for name in batch.with_record.get(place, ()))
    never_cleared = not len(modules) or float(batch.line.clear[modules.start:modules.stop].max()) < 0.5
    general = common_checks(
        case, batch.worth, scale, names, records, witnesses, _proved_first(batch, mine), judged,
        before_a_start(session, scale, tables.rate("battery.flat"), electric=electric), session,
        Open(batch.figures.comes_and_goes[mine], batch.standing.safety[mine].tolist(), never_cleared,
             _shows_in_ready(book, case)))
    held = [fault for fault in set_by_ground(book, link, place, case.supply) if fault in case.open]
    failed = with_held(asked_again(book, link, case, failed_checks(
        case.supply, scale, electric, [names[fault] for fault in witnesses], tables)), held, book, case, names)
    gain = math.log2(PLACES) * tables.rate("check.answers_right")
    first = (standing_checks(_complaint(session), case.open, batch.standing.dangers, names, gain)
             + recovery_checks(book, case, broken, bits, names, records))
    sure = [*failed, *program_checks(book, case, unset, bits, names, records, batch.procedure)]
    sure += [*silent_checks(book, link, case, bits, names), *drop_out_checks(book, link, case, batch.lost.get(
        place, ()), bits, names), *unasked_checks(book, case, batch.standing.unasked, bits, names)]
    sure += fuse_checks(book, link, case) + feed_loss_checks(book, link, case, bits, names)
    others = untested_checks(case.supply, scale, electric, tables, session, damaged=bool(damages(book, place)))
    again = [module for module in modules if module not in broken]
    others += behind(clear_again_checks(book, batch.line, case, again, bits, names, records, batch.now), case, book,
                     broken)
    others += pointer_checks(batch.pointers.get(place, ()), case, batch.standing, bits, names)
    single = feed_checks(book, link, case, bits, names, held)
    test = batch.line.tests.get(place)
    sure += part_checks(book, test, case, batch.standing.dangers, bits, names)
    told = apart(case, test, unproved(book, batch.line, case))
    others += renewed_checks(book, batch.line, case, bits, names)
    likely = [value if case.first + at in told.open and case.first + at not in held else 0.0
              for at, value in enumerate(without(batch.likely[mine], judged))]
    single += circuit_checks(book, link, told, batch.standing, likely, batch.figures)
    established = {names[fault] for fault in case.listed} | {names[fault] for fault in case.open if batch.now[fault]}
    for check in single:
        # What is established, or shared by several, is looked for before anything is only run again.
        known = len(check["settles"]) > 1 or not established.isdisjoint(check["settles"])
        (sure if known else others).append(check)
    if ISOLATED in _proved_first(batch, mine):
        sure, others = behind_isolation(sure), behind_isolation(others)
    live = {names[fault] for fault in case.open if batch.live[fault]}
    faint = {names[fault] for fault in case.open if batch.figures.chance[fault] < FAINT and not (
        batch.live[fault] or batch.isolation[fault])}
    general = behind(general, case, book, broken)
    others += worked_standing(book, case, batch.standing.dangers, bits, names, (*general, *sure, *others, *first))
    found = first + in_order(general, sure, others, never_cleared=never_cleared and not inspected(session),
                             failed=failed, live=live, faint=faint, drawn=draws_first(session, case.supply),
                             safe={names[fault] for fault in case.open if batch.standing.safety[fault]},
                             ready_first=_shows_in_ready(book, case), listed={names[fault] for fault in case.listed})
    return looked_over(ground_first(found, case.supply), damages(book, place), test)


def _speaks_of_charging(facts: CodeFacts) -> bool:
    """Whether a code is of the generator, the converter or the supply."""
    return "DC/DC converter" in facts.title or (
        bool(facts.supply or "generator" in facts.title) and facts.safety != "high voltage")


def _shows_in_ready(book: Casebook, case: Case) -> bool:
    """Whether a contactor or an interlock is among the open faults."""
    return any(book.facts[fault].safety == "high voltage" and says_live(book.facts[fault].title) for fault in case.open)


def _proved_first(batch: _Batch, mine: slice) -> list[str]:
    """What a qualified person has to prove before the drive is enabled or the vehicle driven."""
    told = [words for found, words in ((batch.isolation, ISOLATED), (batch.live, LIVE)) if found[mine].any()]
    # Seen even once, at a supply that was low: nobody trusts "off" before a qualified person has looked.
    return [*told, CLOSED_ONCE] if LIVE not in told and batch.closed[mine].any() else told


def _stays_silent(link: Links) -> Bools:
    """N: reports of a module that stays silent: it is asked again at its connector, and no run tells more of it."""
    return np.asarray((link.relation == LOST) & (link.lost >= 0.5))


def _asks_for_procedure(book: Casebook, chance: Floats) -> Bools:
    """N: likely faults that ask for programming or learning: reading them once more tells nothing new."""
    found = np.zeros(book.faults, dtype=bool)
    for fault in np.flatnonzero(chance >= TAKEN_APART).tolist():
        found[fault] = wants_procedure(book.facts[fault], book.texts.get(fault, ()))
    return found


def _goes_with_another(book: Casebook, standing: Standings, names: list[str]) -> Bools:
    """N: faults that only repeat one of the short list: that is mended first, no step settles them before."""
    found = np.zeros(book.faults, dtype=bool)
    listed = np.flatnonzero(standing.standing == SHORT).tolist()
    sessions = book.fault_session.tolist()
    roots = {(sessions[fault], names[fault]) for fault in listed}
    for fault, why in enumerate(standing.explained_by):
        if why is not None and (sessions[fault], why) in roots:
            found[fault] = True
    return found


def _record_holders(book: Casebook, recorded: Bools) -> dict[int, set[str]]:
    """Session -> its modules that hold a stored crash record: nobody clears them."""
    holders: dict[int, set[str]] = {}
    for fault in np.flatnonzero(recorded).tolist():
        holders.setdefault(int(book.fault_session[fault]), set()).add(book.module_name[book.fault_module[fault]])
    return holders
