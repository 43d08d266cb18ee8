"""The rival hypotheses of a fault and, under each, the chance that its code is set between two snapshots.

A hypothesis is a cause together with what is unknown about it: which monitor finds a hard fault, how often an
intermittent one shows, at which supply level a low-voltage code sets. The unknown is the same in every snapshot
of the session, so each value keeps a column of its own and they are summed only at the end.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from triage.evidence.opportunity import exposure, opportunities
from triage.evidence.parameters import MONITOR_INDEX, MONITORS, NOISES
from triage.model.casebook import (
    ANSWERS,
    INVALID,
    LOST,
    POINTER,
    SILENT,
    Bools,
    Casebook,
    Floats,
    Ints,
    Links,
    Timeline,
)
from triage.model.verdict import CAUSES

if TYPE_CHECKING:
    from triage.evidence.parameters import Parameters

HARD, INTERMITTENT, LOW_VOLTAGE, HISTORY, ECHO = range(len(CAUSES))


@dataclass(slots=True)
class Hypotheses:
    """``N`` faults, ``K`` snapshots, ``H`` hypotheses."""

    cause: Ints        # H: place in CAUSES
    chance: Floats     # N x K x H: chance that the code is set since the snapshot before
    weight: Floats     # N x H: prior of the hypothesis within its cause; adds up to 1 over a cause's columns
    cured: Bools       # H: a hard fault that the repair cured: it no longer persists
    locked: Bools      # H: a record that no clear takes
    opportunity: Floats  # N x K: of the fault's named monitor

    def set_low_voltage(self, reached: Floats) -> None:
        """Take a better view of the supply (N x K x levels) into the low-voltage hypotheses."""
        self.chance[:, :, self.cause == LOW_VOLTAGE] = np.clip(reached, 1e-4, 1 - 1e-4)


def hypotheses(book: Casebook, line: Timeline, link: Links, depth: Floats, params: Parameters) -> Hypotheses:
    """All hypotheses of all faults. ``depth`` (S x K x levels) is the chance that the supply fell below a level."""
    monitor = np.array([MONITOR_INDEX[facts.monitor] for facts in book.facts], dtype=np.int64)
    named = np.array([facts.monitor_named for facts in book.facts], dtype=bool)
    confusion = np.where(named[:, None], params.confusion[monitor], params.confusion_range[monitor])
    chance_of = opportunities(book, line, params)[book.fault_session]
    chance_of = _first_trip(book, chance_of, params)
    chance_of = _tested_by_bits(book, chance_of)
    own = np.einsum("nkm,nm->nk", chance_of, confusion)
    hard = _lost_target(book, link, chance_of * params.rate("hard.seen"), params)
    cures, cured_since = _cures(book, line, params)
    hard_cured = np.where(cured_since[:, :, None], 0.004, hard)
    starts, started = _work_started(book, line, params)
    hard_new = np.where(started[:, :, None], hard, 0.004)
    flicker = 1.0 - np.exp(-exposure(book, params)[book.fault_session][:, :, None] * params.rates)
    intermittent = flicker * np.maximum(own, 0.05)[:, :, None]
    parts = [
        (HARD, hard, confusion * ((1.0 - starts) * (1.0 - cures))[:, None]),
        (HARD, hard_new, confusion * starts[:, None]),
        (HARD, hard_cured, confusion * ((1.0 - starts) * cures)[:, None]),
        (INTERMITTENT, intermittent, np.tile(params.rate_weight, (book.faults, 1))),
        (LOW_VOLTAGE, depth, _level_weight(book, params)),
        *_history(book, line, params),
        (ECHO, _echo(link, params)[:, :, None], np.ones((book.faults, 1))),
    ]
    sizes = [part[1].shape[2] for part in parts]
    cause = np.repeat([part[0] for part in parts], sizes)
    flag = np.repeat(np.arange(len(parts)), sizes)
    return Hypotheses(
        cause=cause, chance=np.clip(np.concatenate([part[1] for part in parts], axis=2), 1e-4, 1 - 1e-4),
        weight=np.concatenate([part[2] for part in parts], axis=1), cured=flag == 2, locked=flag == 6,
        opportunity=own,
    )


def _cures(book: Casebook, line: Timeline, params: Parameters) -> tuple[Floats, Bools]:
    """N: chance that a repair cured the fault; N x K: the time since that repair.

    A scan after a repair means that something was repaired, in this module or at what it watches, noted or not.
    """
    noted = np.maximum.accumulate(line.repaired[book.fault_module], axis=1)
    scanned = np.maximum.accumulate((book.phase == 3) & book.exists, axis=1)[book.fault_session]
    since = np.where(noted.any(axis=1)[:, None], noted, scanned)
    chance = np.where(noted.any(axis=1), params.rate("repair.cures"), np.where(
        scanned.any(axis=1), params.rate("repair.cures_unsaid"), 0.0))
    return chance, since


def _work_started(book: Casebook, line: Timeline, params: Parameters) -> tuple[Floats, Bools]:
    """N: chance that a hard fault began with the work; N x K: the time since that work.

    Configuration codes that are new after a replacement mean that the module wants programming; any other new code
    after work is first suspected to be a connector left off (common practice).
    """
    noted = np.maximum.accumulate(line.work[book.fault_module], axis=1)
    scanned = np.maximum.accumulate((book.phase == 3) & book.exists, axis=1)[book.fault_session]
    since = np.where(noted.any(axis=1)[:, None], noted, scanned)
    procedure = np.array([facts.needs == "procedure" for facts in book.facts], dtype=bool)
    share = np.where(procedure, params.rate("work.wants_procedure"), params.rate("work.left_off"))
    return np.where(noted.any(axis=1), share, np.where(
        scanned.any(axis=1), share * params.rate("work.unsaid"), 0.0)), since


def _first_trip(book: Casebook, chance: Floats, params: Parameters) -> Floats:
    """A two-trip code is only pending after one trip: without the pending list it can't show yet.

    Pending after the first failure, confirmed in the next cycle: 13 CCR 1968.2 (d)(2.2.1)-(2.2.2).
    """
    two = np.array([facts.trips == 2 for facts in book.facts], dtype=bool)[:, None]
    read = book.pending_read[book.fault_session]
    share = np.where(read == 0, params.rate("pending.not_read"), np.where(
        read < 0, params.rate("pending.unsaid"), 1.0))
    share[:, 0] = 1.0
    return chance * np.where(two, share, 1.0)[:, :, None]


def _tested_by_bits(book: Casebook, chance: Floats) -> Floats:
    """Status bits 4 and 6 say outright whether the test completed since the clear (ISO 14229-1, status of DTC)."""
    known = (book.status_byte >= 0) & (book.seen == 0)
    if not known.any():
        return chance
    tested = known & (book.status_byte & 0x10 == 0)
    untested = known & (book.status_byte & 0x10 != 0)
    return np.where(tested[:, :, None], 0.97, np.where(untested[:, :, None], 0.0, chance))


def _lost_target(book: Casebook, link: Links, hard: Floats, params: Parameters) -> Floats:
    """Lost communication with a silent module: hard, and each reporter notices with a chance of its own."""
    lost = (link.relation == LOST) & (link.target >= 0)
    if not lost.any():
        return hard
    notices = params.rate("lost.noticed")
    silent = (lost[:, None] & (link.target_state == SILENT))[:, :, None]
    answers = (lost[:, None] & (link.target_state == ANSWERS))[:, :, None]
    # With a target that answers the reporter's own line must be at fault: still possible, and seen as usual.
    return np.where(silent, np.minimum(hard, notices), np.where(answers, hard, hard))


def _level_weight(book: Casebook, params: Parameters) -> Floats:
    """N x levels: how likely each supply level is for the code's class."""
    noise = np.array([NOISES.index(facts.noise) for facts in book.facts], dtype=np.int64)
    return params.level_weight[noise]


def _history(book: Casebook, line: Timeline, params: Parameters) -> list[tuple[int, Floats, Floats]]:
    """Seen before the clear only; or a record that no clear takes; or set by the work itself."""
    shape = (*book.seen.shape, 1)
    before = np.full(shape, params.rate("history.new"))
    before[:, 0] = np.where(book.phase[book.fault_session, 0] <= 0, 0.97, 0.02)[:, None]
    renewed = line.new_module[book.fault_module]
    before = np.where(renewed[:, :, None], 0.5, before)
    event = np.array([facts.monitor == "event" for facts in book.facts])
    locked = np.where(event, params.rate("history.locked_event"), params.rate("history.locked"))
    worked = line.work[book.fault_module]
    by_work = np.where(worked[:, :, None], 0.6, 0.004)
    share = np.where(worked.any(axis=1), params.rate("history.by_work"), 0.0)
    return [
        (HISTORY, before, ((1.0 - share) * (1.0 - locked))[:, None]),
        (HISTORY, before, ((1.0 - share) * locked)[:, None]),
        (HISTORY, by_work, share[:, None]),
    ]


def _echo(link: Links, params: Parameters) -> Floats:
    """N x K: an echo shows when its target holds a fault of its own (or is silent), and hardly else."""
    follows = np.isin(link.relation, (POINTER, INVALID))[:, None]
    shown = (link.target_active == 1) | (link.target_state == SILENT)
    unread = (link.target_active < 0) & ~shown
    chance = np.where(shown, params.rate("echo.follows"), np.where(
        unread, params.rate("echo.target_unread"), params.rate("echo.alone")))
    return np.where(follows, chance, 0.02)


def monitor_names(book: Casebook) -> list[str]:
    """N: the monitor class of each fault."""
    return [MONITORS[MONITOR_INDEX[facts.monitor]] for facts in book.facts]
