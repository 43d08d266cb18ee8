"""The sum: from hypotheses and sightings to the five causes of every fault, all faults at once.

A code once set stays in the list until it is cleared, heals or its tool shows only what fails now. So the
sightings of one fault are one chain, not independent draws:

    listed now = was listed, not cleared, still shown   or   set since the snapshot before

Three readings of the chain are kept side by side: the clear was taken and codes stay listed; the clear was taken
and only fresh codes are shown; the module did not take the clear. How codes are kept is shared by a session and
whether a clear was taken by a module, so each fault's own weights come from all the *other* faults (one code
alone never proves that a clear did not take).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from triage.evidence.hypotheses import HARD, HISTORY, INTERMITTENT, LOW_VOLTAGE, Hypotheses
from triage.model.casebook import Casebook, Floats, Ints, Timeline
from triage.model.snapshot import STATUS_WORDS

if TYPE_CHECKING:
    from triage.evidence.parameters import Parameters

KEPT, FRESH, NOT_TAKEN = range(3)
PERMANENT = STATUS_WORDS.index("permanent")
PASSING = len(STATUS_WORDS)


@dataclass(slots=True)
class Weighed:
    """``N`` faults. ``running[k]`` is the joint weight of the causes after snapshot k (k = 0: the prior)."""

    causes: Floats       # N x 5, rows add up to 1
    running: Floats      # (K + 1) x N x 6: five causes and, last, "hard until the repair"
    refused: Floats      # N: chance that the fault's module did not take the clear
    kept: Floats         # S: chance that codes stay listed once set


def weigh(book: Casebook, line: Timeline, hypo: Hypotheses, prior: Floats, params: Parameters) -> Weighed:
    """Weigh every fault. ``prior`` is N x 5."""
    words = word_weights(book, params)
    seen = speaking(book)
    groups = _groups(hypo)
    chain = np.stack([
        chain_of(seen, line.clear[book.fault_module] * taken, shown, hypo)
        for taken, shown in ((1.0, params.rate("kept.shown")), (1.0, params.rate("fresh.shown")),
                             (0.0, params.rate("kept.shown")))])
    sums = np.add.reduceat(chain * hypo.weight, groups, axis=3)  # readings x (K + 1) x N x parts
    cause_of = hypo.cause[groups]
    joint = np.zeros((*sums.shape[:3], 6))
    for part, cause in enumerate(cause_of):
        joint[..., 5 if hypo.cured[groups[part]] else cause] += sums[..., part] * prior[:, cause]
    joint[..., 0:5] *= words.transpose(1, 0, 2)
    joint[..., 5] *= words.transpose(1, 0, 2)[..., HARD]
    reading, refused, kept = _readings(book, joint[:, -1].sum(axis=2), params)
    running = np.einsum("rkne,rn->kne", joint, reading)
    final = running[-1] / running[-1].sum(axis=1, keepdims=True)
    causes = final[:, :5].copy()
    # A fault the repair cured no longer persists: it is history by now.
    causes[:, HISTORY] += final[:, 5]
    return Weighed(causes=causes, running=running, refused=refused, kept=kept)


def persists(causes: Floats) -> Floats:
    """The chance that a fault persists: hard or intermittent."""
    return causes[..., HARD] + causes[..., INTERMITTENT]


def said(book: Casebook) -> Ints:
    """N x K: what the module says of the code: a place in the status words, PASSING, or -1."""
    byte = book.status_byte
    listed = (book.seen == 1) & (byte >= 0) & (book.status < 0)
    tested_now = byte & 0x40 == 0
    word = np.where(tested_now & (byte & 1 == 1), 0, np.where(
        tested_now, PASSING, np.where(byte & 0x08 != 0, 1, np.where(byte & 0x04 != 0, 2, 1))))
    return np.where(listed, word, np.where(book.seen == 1, book.status, -1))


def word_weights(book: Casebook, params: Parameters) -> Floats:
    """N x (K + 1) x 5: running product of what the status words say for each cause (the first place is 1)."""
    word = said(book)
    first = np.zeros(word.shape, dtype=bool)
    first[:, 0] = (book.phase[book.fault_session, 0] <= 0)
    table = np.where(first[:, :, None], params.word_first.T[np.maximum(word, 0)],
                     params.word_later.T[np.maximum(word, 0)])
    weight = np.where((word >= 0)[:, :, None], table, 1.0)
    frame = frame_weights(book, params)
    # Words of one fault repeat each other from scan to scan; each later one counts in part only.
    power = 1.0 / (1.0 + 0.5 * np.maximum(np.cumsum(word >= 0, axis=1) - 1, 0))
    weight = weight ** power[:, :, None] * frame
    return np.concatenate([np.ones((word.shape[0], 1, 5)), np.cumprod(weight, axis=1)], axis=1)


def frame_weights(book: Casebook, params: Parameters) -> Floats:
    """N x K x 5: a freeze frame's own voltage beats the snapshot's: it was there when the code set.

    Low-voltage codes set below their level; other causes set at any supply the vehicle had.
    """
    volts = book.frame_volts
    fresh = ~np.isnan(volts)
    fresh[:, 1:] &= ~(np.abs(volts[:, 1:] - volts[:, :-1]) < 1e-9)
    weight = np.ones((*volts.shape, 5))
    if not fresh.any():
        return weight
    value = np.nan_to_num(volts, nan=12.0)
    noise = params.level_mean.mean()
    low = 0.5 / (1.0 + np.exp((value - noise - 0.8) / 0.35)) + 0.002
    usual = 0.65 * np.exp(-0.5 * ((value - 13.2) / 0.9) ** 2) / 0.9 / 2.507 + (
        0.35 * np.exp(-0.5 * ((value - 10.5) / 1.8) ** 2) / 1.8 / 2.507) + 0.002
    weight[..., LOW_VOLTAGE] = np.where(fresh, np.clip(low / usual, 0.02, 8.0), 1.0)
    return weight


def _groups(hypo: Hypotheses) -> Ints:
    """First column of each run of hypotheses that share cause and flags."""
    key = hypo.cause * 4 + hypo.cured * 2 + hypo.locked
    starts = np.flatnonzero(np.r_[True, key[1:] != key[:-1]])
    return np.asarray(starts)


def speaking(book: Casebook) -> Ints:
    """N x K: the sightings that say something about now; a permanent code outlives a clear by design."""
    permanent = (said(book) == PERMANENT) & (book.phase[book.fault_session] > 0)
    return np.where(permanent, -1, book.seen)


def chain_of(seen: Ints, clear: Floats, shown: float, hypo: Hypotheses) -> Floats:
    """(K + 1) x N x H: running likelihood of the sightings up to each snapshot."""
    faults, width, count = hypo.chance.shape
    running = np.ones((width + 1, faults, count))
    listed = np.zeros((faults, count))
    unlocked = ~hypo.locked
    for column in range(width):
        kept = shown * (1.0 - clear[:, column, None] * unlocked)
        chance = 1.0 - (1.0 - listed * kept) * (1.0 - hypo.chance[:, column])
        saw, missed = seen[:, column, None] == 1, seen[:, column, None] == 0
        running[column + 1] = running[column] * np.where(saw, chance, np.where(missed, 1.0 - chance, 1.0))
        listed = np.where(saw, 1.0, np.where(missed, 0.0, chance))
    return running


def _readings(book: Casebook, total: Floats, params: Parameters) -> tuple[Floats, Floats, Floats]:
    """Weights of the three readings for each fault (readings x N), from the other faults; refused, kept."""
    log = np.log(np.maximum(total, 1e-300))
    taken_prior = params.rate("clear.taken")
    kept_log = np.zeros(len(book.sessions))
    np.add.at(kept_log, book.fault_session, log[KEPT] - log[FRESH])
    prior = np.log(params.rate("kept.prior") / (1.0 - params.rate("kept.prior")))
    # Faults of one session share more than the model says, so their votes are tempered.
    others = prior + params.rate("votes.temper") * (kept_log[book.fault_session] - (log[KEPT] - log[FRESH]))
    kept = 1.0 / (1.0 + np.exp(-np.clip(others, -30, 30)))
    taken = np.logaddexp(np.log(kept + 1e-12) + log[KEPT], np.log(1 - kept + 1e-12) + log[FRESH])
    module_log = np.zeros(len(book.module_name))
    np.add.at(module_log, book.fault_module, log[NOT_TAKEN] - taken)
    odds = np.log((1.0 - taken_prior) / taken_prior) + module_log[book.fault_module] - (log[NOT_TAKEN] - taken)
    refused = 1.0 / (1.0 + np.exp(-np.clip(odds, -30, 30)))
    weights = np.stack([(1 - refused) * kept, (1 - refused) * (1 - kept), refused])
    session_kept = 1.0 / (1.0 + np.exp(-np.clip(prior + params.rate("votes.temper") * kept_log, -30, 30)))
    return weights, refused, session_kept
