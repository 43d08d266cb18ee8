"""The rival hypotheses of a fault and, under each, the chance that its code is set between two snapshots.

A hypothesis is a cause together with what is unknown about it: which monitor finds a hard fault, how often an
intermittent one shows, at which supply level a low-voltage code sets. The unknown is the same in every snapshot
of the session, so each value keeps a column of its own and they are summed only at the end.

Hypotheses that only some faults can have (an echo needs a target, a cure a repair) carry the list of those faults.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from triage.evidence.echo import echo_chances
from triage.evidence.opportunity import exposure, opportunities
from triage.evidence.parameters import MONITOR_INDEX, NOISES
from triage.evidence.readiness import by_readiness
from triage.model.casebook import ANSWERS, LOST, NOT_SEEN, SEEN, SILENT, Bools, Casebook, Floats, Ints, Links, Timeline
from triage.model.chargers import CHARGERS
from triage.model.crash import crash_record
from triage.model.triggers import comes_and_goes, told_trigger
from triage.model.verdict import CAUSES

if TYPE_CHECKING:
    from triage.evidence.parameters import Parameters

HARD, INTERMITTENT, LOW_VOLTAGE, HISTORY, ECHO = range(len(CAUSES))
#: A code that should not be set at all is still set with this chance: no likelihood is ever zero.
NEVER = 0.004
LEAST = 1e-4


@dataclass(slots=True)
class Part:
    """One family of hypotheses: ``n`` faults, ``K`` snapshots, ``h`` values of what is unknown."""

    name: str
    cause: int
    rows: Ints           # n: the faults that can have it
    chance: Floats       # n x K x h: the code is set since the snapshot before
    weight: Floats       # n x h: share of the cause's prior
    cured: bool = False  # a hard fault that the repair cured: it no longer persists
    locked: bool = False  # a record that no clear takes


@dataclass(slots=True)
class Hypotheses:
    """All parts, and the opportunity (N x K) of each fault's own monitor."""

    parts: list[Part]
    opportunity: Floats

    @property
    def low_voltage(self) -> Part:
        """The one part that depends on the supply."""
        return next(part for part in self.parts if part.cause == LOW_VOLTAGE)


def hypotheses(
    book: Casebook, line: Timeline, link: Links, reached: Floats, prior: Floats, params: Parameters,
) -> Hypotheses:
    """All hypotheses of all faults. ``reached`` (N x K x levels): chance that the supply fell below each level;
    ``prior``: N x 5."""
    monitors, sure = _monitors(book, params)
    table = opportunities(book, line, params)
    chance = np.moveaxis(table[book.fault_session[:, None], :, monitors], 1, 2)
    chance = chance * (_first_trip(book, params) * _own_supply(book) * _power_up(book, line, params))[:, :, None]
    chance = _tested_by_bits(book, chance * _worked(book, params)[:, :, None])
    chance = by_readiness(book, chance)
    if line.tests:
        chance[line.gone_in_tests(book.seen.shape)] = 0.0
    own = np.einsum("nkm,nm->nk", chance, sure)
    hard = _lost_target(link, chance * params.rate("hard.seen"), params)
    everyone = np.arange(book.faults)
    cures, cured_since = _cures(book, line, link, params)
    starts, started = _work_started(book, line, params)
    begun, cured = np.flatnonzero(starts > 0), np.flatnonzero(cures > 0)
    comes = _flickers(book, params)[book.fault_session] * np.maximum(own, 0.05)[:, :, None]
    comes_weight = _with_trigger(book, params)
    # The sum holds a cured fault against the prior of a hard one.
    more = prior[:, INTERMITTENT] / prior[:, HARD]
    noise = book.numbers(lambda facts: NOISES.index(facts.noise))
    parts = [
        Part("hard", HARD, everyone, hard, sure * ((1.0 - starts) * (1.0 - cures))[:, None]),
        Part("began with the work", HARD, begun, np.where(started[begun, :, None], hard[begun], NEVER),
             sure[begun] * starts[begun, None]),
        Part("cured", HARD, cured, np.where(cured_since[cured, :, None], NEVER, hard[cured]),
             sure[cured] * ((1.0 - starts) * cures)[cured, None], cured=True),
        Part("intermittent", INTERMITTENT, everyone, comes, comes_weight * (1.0 - cures)[:, None]),
        Part("cured, came and went", INTERMITTENT, cured, np.where(cured_since[cured, :, None], NEVER, comes[cured]),
             comes_weight[cured] * (cures * more)[cured, None], cured=True),
        Part("low-voltage", LOW_VOLTAGE, everyone, reached, params.level_weight[noise]),
        *_history(book, line, link, params),
        Part("echo", ECHO, *echo_chances(book, link, params)),
    ]
    for part in parts:
        np.clip(part.chance, LEAST, 1.0 - LEAST, out=part.chance)
    return Hypotheses([part for part in parts if part.rows.size or part.cause == LOW_VOLTAGE], own)


def _flickers(book: Casebook, params: Parameters) -> Floats:
    """S x K x (twice the rates): chance that an intermittent fault shows in the minutes since the snapshot before, at
    each rate; last likewise where it waits for its trigger, which not every run brings: clean minutes without it are
    clean in these conditions only. Before the first snapshot the vehicle was in use in all of them."""
    shows = 1.0 - np.exp(-exposure(book, params)[:, :, None] * params.rates)
    there = np.full(shows.shape[1], params.rate("intermittent.trigger_there"))
    there[0] = 1.0
    return np.concatenate([shows, shows * there[:, None]], axis=2)


def _with_trigger(book: Casebook, params: Parameters) -> Floats:
    """N x (twice the rates): the share of each as in :func:`_flickers`; rows add up to 1. Where the complaint
    says that the fault comes with something, or now and then, or it is told beside the code, it more likely waits than
    not."""
    told = np.array([comes_and_goes(session.vehicle.complaint if session.vehicle else None)
                     for session in book.sessions], dtype=bool)
    waits = np.where(told, params.rate("intermittent.waits_told"), params.rate("intermittent.waits"))
    waits = waits[book.fault_session]
    for fault in (fault for fault, texts in book.texts.items() if told_trigger(texts) is not None):
        waits[fault] = params.rate("intermittent.waits_told")
    waits = waits[:, None]
    return np.concatenate([params.rate_weight * (1.0 - waits), params.rate_weight * waits], axis=1)


def _monitors(book: Casebook, params: Parameters) -> tuple[Ints, Floats]:
    """N x 4 monitor classes that may be at work, likeliest first, and the chance of each."""
    named = book.numbers(lambda facts: MONITOR_INDEX[facts.monitor])
    by_row = book.flags(lambda facts: facts.monitor_named)
    sure = np.where(by_row[:, None], params.confusion[named], params.confusion_range[named])
    # A module watches its own supply as long as it is awake, whatever else it does.
    supply = book.flags(lambda facts: facts.supply is not None and facts.monitor == "key on")
    sure = np.where(supply[:, None], np.where(np.arange(sure.shape[1]) == 0, 0.97, 0.01), sure)
    # An open or shorted circuit is found with the key on, whatever drives the test of the signal's sense.
    circuit = book.flags(lambda facts: facts.noise == "electronic")
    at_key = circuit[:, None] & (params.confused[named] == MONITOR_INDEX["key on"])
    at_key[:, 0] = False
    share = params.rate("monitor.circuit")
    sure = np.where(at_key.any(axis=1, keepdims=True), np.where(at_key, share, sure * (1.0 - share)), sure)
    return params.confused[named], sure / sure.sum(axis=1, keepdims=True)


def _cures(book: Casebook, line: Timeline, link: Links, params: Parameters) -> tuple[Floats, Bools]:
    """N: chance that a repair cured the fault; N x K: the time since that repair.

    A scan after a repair means that something was repaired, in this module or at what it watches, noted or not.
    """
    said, since = repaired_since(book, line)
    lost = (link.lost > 0.0) & (link.target >= 0)
    touched = np.asarray(line.repaired.any(axis=1))[link.target] & lost
    chance = np.where(said | touched, params.rate("repair.cures"), np.where(
        since.any(axis=1), params.rate("repair.cures_unsaid"), 0.0))
    chance = np.where(charges_again(book, line, params) & said, params.rate("repair.cures_proven"), chance)
    # The report of a module that is silent since the repair, and that nobody worked on, was not cured.
    still = lost & ((link.target_state == SILENT) & since).any(axis=1)
    return np.where(still & ~touched, 0.0, chance), since


def charges_again(book: Casebook, line: Timeline, params: Parameters) -> Bools:
    """N: a code of what charges, gone since it was renewed, with a run since that reads as charging well and nothing
    known to feed the vehicle: what the code speaks of was measured as good."""
    mended = np.logical_or.accumulate(line.mended(book), axis=1)
    good = (book.engine_on == 1) & (book.outside != 1)
    good &= line.read_at_least(book.volts, params.rate("charging.good"))
    charger = book.flags(lambda facts: any(word in facts.title for word in CHARGERS))
    return np.asarray(charger & (mended & (book.seen == NOT_SEEN) & good[book.fault_session]).any(axis=1))


def repaired_since(book: Casebook, line: Timeline) -> tuple[Bools, Bools]:
    """N: a repair of the fault's module was noted; N x K: the time since that repair, or since the scan made after
    one where none was noted."""
    noted: Bools = np.asarray(np.maximum.accumulate(line.mended(book), axis=1))
    said = np.asarray(noted.any(axis=1))
    return said, np.where(said[:, None], noted, _repair_scanned(book))


def _work_started(book: Casebook, line: Timeline, params: Parameters) -> tuple[Floats, Bools]:
    """N: chance that a hard fault began with the work; N x K: the time since that work.

    Configuration codes that are new after a replacement mean that the module wants programming; any other new code
    after work is first suspected to be a connector left off (common practice).
    """
    noted: Bools = np.asarray(np.maximum.accumulate(line.work[book.fault_module], axis=1))
    scanned = _repair_scanned(book)
    said = np.asarray(noted.any(axis=1))
    since = np.where(said[:, None], noted, scanned)
    procedure = book.flags(lambda facts: facts.needs == "procedure")
    share = np.where(procedure, params.rate("work.wants_procedure"), params.rate("work.left_off"))
    return np.where(said, share, np.where(
        scanned.any(axis=1), share * params.rate("work.unsaid"), 0.0)), since


def _repair_scanned(book: Casebook) -> Bools:
    """N x K: at or after a scan that was made after a repair."""
    repaired: Bools = np.asarray((book.phase == 3) & book.exists)
    return np.asarray(np.maximum.accumulate(repaired, axis=1))[book.fault_session]


def _first_trip(book: Casebook, params: Parameters) -> Floats:
    """N x K: a two-trip code is only pending after one trip: without the pending list it can't show yet.

    Pending after the first failure, confirmed in the next cycle: 13 CCR 1968.2 (d)(2.2.1)-(2.2.2).
    """
    two = book.flags(lambda facts: facts.trips == 2)[:, None]
    share = np.where(book.pending_read == 0, params.rate("pending.not_read"), np.where(
        book.pending_read < 0, params.rate("pending.unsaid"), 1.0))
    share[:, 0] = 1.0
    return np.where(two, share[book.fault_session], 1.0)


def _power_up(book: Casebook, line: Timeline, params: Parameters) -> Floats:
    """N x K: a module tests itself when it wakes: without a key cycle since the clear that test has not run again."""
    itself = np.array([facts.noise == "self" and facts.monitor == "key on" and facts.needs == "repair"
                       for facts in book.facts], dtype=bool)
    # Where the engine was run and stands again, the key was off in between.
    stopped = np.zeros(book.exists.shape, dtype=bool)
    stopped[:, 1:] = (book.engine_on[:, :-1] == 1) & (book.engine_on[:, 1:] == 0)
    share = np.where(line.cycled | stopped, 1.0, params.rate("key.cycled_unsaid"))
    share[:, 0] = 1.0
    return np.where(itself[:, None], share[book.fault_session], 1.0)


def _worked(book: Casebook, params: Parameters) -> Floats:
    """N x K: pump, valves and actuators of brakes are worked when it drives off or brakes, not at idle."""
    idle = book.flags(lambda facts: facts.monitor == "commanded output" and facts.safety == "brakes")
    stood = (book.drove == 0) | ((book.phase > 0) & np.isnan(book.drove) & ~(book.speed > 0)
                                 & (np.nan_to_num(book.minutes) < 8.0))
    stood[:, 0] = False
    return np.where(idle[:, None] & stood[book.fault_session], params.rate("monitor.brakes_at_rest"), 1.0)


def _own_supply(book: Casebook) -> Floats:
    """N x K: monitors of the supply voltage judge the vehicle's own supply, not a pack or charger connected."""
    supply = book.flags(lambda facts: facts.supply is not None or facts.system == "supply")
    fed = supply[:, None] & (book.outside == 1)[book.fault_session]
    # Absence says nothing then; a code that is seen all the same was found all the same.
    return np.where(fed & (book.seen != 1), 0.03, 1.0)


def _tested_by_bits(book: Casebook, chance: Floats) -> Floats:
    """Status bits 4 and 6 say outright whether the test completed since the clear (ISO 14229-1, status of DTC)."""
    tested = (book.byte_tested == 1) & (book.seen == 0)
    untested = (book.byte_tested == 0) & (book.seen == 0)
    if not (tested.any() or untested.any()):
        return chance
    return np.where(tested[:, :, None], 0.97, np.where(untested[:, :, None], 0.0, chance))


def _lost_target(link: Links, hard: Floats, params: Parameters) -> Floats:
    """Lost communication with a silent module: hard, and each reporter notices with a chance of its own.

    With a target that answers the reporter's own line must be at fault: still possible, and seen as usual.
    """
    silent = (link.relation == LOST)[:, None] & (link.target_state == SILENT)
    if not silent.any():
        return hard
    return np.where(silent[:, :, None], np.minimum(hard, params.rate("lost.noticed")), hard)


def _kept_quietly(book: Casebook) -> Bools:
    """N: seen after the clear, and never failing in the cycle of a scan or the one before, by its status bytes."""
    saw = book.seen == SEEN
    after = (saw & (book.phase > 0)[book.fault_session]).any(axis=1)
    return np.asarray(after & ~(saw & (book.byte_lately != 0)).any(axis=1))


def _work_near(book: Casebook, line: Timeline) -> Bools:
    """N x K: work was done at some module since the snapshot before, or this is the first scan after a repair: what was
    unplugged for it is not always noted, and more than its own module misses it."""
    worked = np.zeros(book.exists.shape, dtype=bool)
    module, column = np.nonzero(line.work)
    worked[book.module_session[module], column] = True
    repaired = (book.phase == 3) & book.exists
    repaired[:, 1:] &= ~np.logical_or.accumulate(repaired, axis=1)[:, :-1]
    return np.asarray((worked | repaired)[book.fault_session])


def missed_in_work(book: Casebook, line: Timeline, link: Links) -> Bools:
    """N x K: reports the loss of a module that was worked on before this snapshot, and answers in it: it was unplugged,
    or restarted, and the others noticed."""
    return np.asarray(_hears_target(link) & line.work[link.target])


def _hears_target(link: Links) -> Bools:
    """N x K: reports the loss of a module that answers: it may have been unplugged or restarted, and nobody said so."""
    return np.asarray(((link.relation == LOST) & (link.target >= 0))[:, None] & (link.target_state == ANSWERS))


def _history(book: Casebook, line: Timeline, link: Links, params: Parameters) -> list[Part]:
    """Seen before the clear only; or a record that no clear takes; or set by the work itself."""
    before = np.full((*book.seen.shape, 1), params.rate("history.new"))
    # What a module accepted to wipe, and did not hold since, is not there to turn up.
    wiped = np.logical_or.accumulate(line.accepted | line.said_taken, axis=1)[book.fault_module]
    gone = np.zeros(wiped.shape, dtype=bool)
    gone[:, 1:] = np.logical_or.accumulate(wiped & (book.seen == NOT_SEEN), axis=1)[:, :-1]
    before[gone] = params.rate("history.new_accepted")
    before[_hears_target(link)] = params.rate("history.missed_unsaid")
    before[:, 0] = np.where(book.phase[book.fault_session, 0] <= 0, 0.97, 0.02)[:, None]
    renewed = line.new_module[book.fault_module]
    before = np.where(renewed[:, :, None], 0.5, before)
    # A stored event is a record where restraints are concerned, by the code or by the module that holds it.
    bags = np.array([facts.safety == "restraints" for facts in book.module_facts], dtype=bool)
    event = book.flags(lambda facts: facts.monitor == "event") & (
        book.flags(lambda facts: facts.safety == "restraints") | bags[book.fault_module])
    told = [fault for fault, texts in book.texts.items()
            if bags[book.fault_module[fault]] and crash_record(book.facts[fault], texts)]
    event[told] = True
    locked = np.where(event, params.rate("history.locked_event"), np.where(
        _kept_quietly(book) & bags[book.fault_module], params.rate("history.locked_quiet"), 0.0))
    own, missed, near = line.work[book.fault_module], missed_in_work(book, line, link), _work_near(book, line)
    worked = np.where((own | missed).any(axis=1, keepdims=True), own | missed, near)
    share = np.where(missed.any(axis=1), params.rate("history.missed"), np.where(
        own.any(axis=1), params.rate("history.by_work"), np.where(
            near.any(axis=1), params.rate("history.by_work_near"), 0.0)))
    record, by_work = np.flatnonzero(locked > 0), np.flatnonzero(share > 0)
    return [
        Part("history", HISTORY, np.arange(book.faults), before, ((1.0 - share) * (1.0 - locked))[:, None]),
        Part("locked record", HISTORY, record, before[record], ((1.0 - share) * locked)[record, None], locked=True),
        Part("set by work", HISTORY, by_work, np.where(worked[by_work, :, None], 0.6, NEVER), share[by_work, None]),
    ]
