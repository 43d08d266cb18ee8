"""The sum: from hypotheses and sightings to the five causes of every fault, all faults at once.

How codes are kept is shared by a session and whether a clear was taken by a module, so each fault's own weights of
the three readings come from all the *other* faults (one code alone never proves that a clear did not take).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from triage.evidence.chain import FRESH, KEPT, NOT_TAKEN, PERMANENT, Chains, run, said
from triage.evidence.depth import clean_start
from triage.evidence.frames import frame_weights
from triage.evidence.hypotheses import HARD, HISTORY, INTERMITTENT, LOW_VOLTAGE, Part, repaired_since
from triage.evidence.opportunity import LASTING, minutes_run
from triage.evidence.parameters import NOISES
from triage.evidence.records import record_factors
from triage.model.casebook import Bools, Casebook, Floats, Ints, Timeline
from triage.model.snapshot import STATUS_WORDS

if TYPE_CHECKING:
    from triage.evidence.parameters import Parameters

#: Monitors that come to no result with the engine off.
NEEDS_ENGINE = ("running", "warm", "speed", "drive cycle")
#: Monitors whose test runs whenever the module is awake.
ALWAYS_TESTED = ("key on", "network")
PENDING = STATUS_WORDS.index("pending")
#: Last place of a joint weight: hard until the repair cured it.
CURED = 5
READINGS = (KEPT, FRESH, NOT_TAKEN)


@dataclass(slots=True)
class Weighed:
    """``N`` faults, ``T`` steps: K + 1 (the prior, then each snapshot) or, where nobody asked for them, the last."""

    causes: Floats       # N x 5, rows add up to 1
    running: Floats      # T x N x 6: joint weight of the five causes and, last, of "hard until the repair"
    refused: Floats      # N: chance that the fault's module did not take the clear
    kept: Floats         # S: chance that codes stay listed once set
    repaired: Bools      # N x K: after the repair that may have cured the fault


def joint_weights(book: Casebook, chain: Chains, parts: list[Part], *, steps: bool) -> Floats:
    """3 x T x N x 6: likelihoods of the sightings, summed over each part's unknown, by reading and cause."""
    joint = np.zeros((len(READINGS), chain.saw.shape[1] + 1 if steps else 1, book.faults, 6))
    for part in parts:
        _add_part(joint, chain, part, steps)
    return joint


def _add_part(joint: Floats, chain: Chains, part: Part, steps: bool) -> None:
    """Add the likelihoods of ``part``; a reading that can't differ for a fault is copied, an impossible one zero."""
    place = CURED if part.cured else part.cause
    everyone = part.rows.size == joint.shape[2]
    kept = sums_of(chain, part, np.arange(part.rows.size), KEPT, steps)
    # A whole column is added faster than its rows one by one.
    joint[KEPT][:, slice(None) if everyone else part.rows, place] += kept
    fresh = kept.copy()
    differ = np.flatnonzero(chain.fresh_rows[part.rows])
    if differ.size:
        fresh[:, differ] = sums_of(chain, part, differ, FRESH, steps)
    joint[FRESH][:, slice(None) if everyone else part.rows, place] += fresh
    stayed = np.flatnonzero(chain.stayed_rows[part.rows])
    if stayed.size:
        joint[NOT_TAKEN][:, part.rows[stayed], place] += sums_of(chain, part, stayed, NOT_TAKEN, steps)


def sums_of(chain: Chains, part: Part, rows: Ints, reading: int, steps: bool) -> Floats:
    """T x n: the running likelihoods of ``rows``, summed over the unknown of ``part``."""
    weight = part.weight if rows.size == part.rows.size else part.weight[rows]
    running = run(chain, part, rows, reading, steps=steps)
    return np.array([np.einsum("nh,nh->n", current, weight) for current in running])


def weigh(
    book: Casebook, line: Timeline, joint: Floats, prior: Floats, words: Floats, params: Parameters,
) -> Weighed:
    """The causes from ``joint`` (of all parts), ``prior`` (N x 5) and ``words`` (N x (K + 1) x 6)."""
    words = words[:, -joint.shape[1]:]
    factor = words * np.concatenate([prior, prior[:, HARD:HARD + 1]], axis=1)[:, None, :]
    joint = joint * factor.transpose(1, 0, 2)
    taken, not_taken, same = record_factors(book, line, params)
    joint[:NOT_TAKEN] *= taken[:, None]
    joint[NOT_TAKEN] *= not_taken[:, None]
    reading, refused, kept = _readings(book, line, joint[:, -1].sum(axis=2), same, params)
    running = np.einsum("rkne,rn->kne", joint, reading)
    final = running[-1] / running[-1].sum(axis=1, keepdims=True)
    causes = final[:, :CURED].copy()
    # A fault the repair cured no longer persists: it is history by now.
    causes[:, HISTORY] += final[:, CURED]
    return Weighed(causes=causes, running=running, refused=refused, kept=kept,
                   repaired=repaired_since(book, line)[1])


def persists(causes: Floats) -> Floats:
    """The chance that a fault persists: hard or intermittent."""
    return causes[..., HARD] + causes[..., INTERMITTENT]


def word_weights(book: Casebook, line: Timeline, params: Parameters) -> Floats:
    """N x (K + 1) x 6: running product of what the status words say for each cause and, last, for a hard fault that
    the repair cured, which is history from then on (the first place is 1)."""
    word = said(book)
    first = np.zeros(word.shape, dtype=bool)
    first[:, 0] = (book.phase[book.fault_session, 0] <= 0)
    # Words of one fault repeat each other from scan to scan; each later one counts in part only. What a module kept
    # through a clear that it refused says nothing by being there; that it is first called current now does.
    again = np.cumsum(word >= 0, axis=1) - 1
    kept = np.asarray(line.refused.any(axis=1) & ~(line.clear >= 0.5).any(axis=1))[book.fault_module]
    news = kept[:, None] & (np.cumsum(word == 0, axis=1) == 1) & _failing_now(book, line, word, params)
    # Nor does a module repeat what it said before a clear that wiped it: it found the fault anew.
    full = _failing_full(book, line, word, params)
    news |= full & (np.cumsum(full, axis=1) == 1)
    power = 1.0 / (1.0 + 0.5 * np.where(news, 0, np.maximum(again, 0)))
    # With the key just turned on a fault that shows only while running or driving is no longer called current.
    power = np.where(_rests(book) & ~full, power * params.rate("word.at_rest"), power)
    weight = frame_weights(book, line, params)
    said_so = word >= 0
    table = np.where(first[said_so][:, None], params.word_first.T[word[said_so]], params.word_later.T[word[said_so]])
    now = _failing_now(book, line, word, params)[said_so]
    byte, well = (book.status_byte >= 0)[said_so], full[said_so]
    table[now, LOW_VOLTAGE] *= np.where(
        byte, np.where(well, params.rate("word.failing_full"), params.rate("word.failing_fed")),
        np.where(well, params.rate("word.current_full"), params.rate("word.current_fed")))[now]
    table[:, LOW_VOLTAGE] *= _still_low(book, line, word, params)[said_so]
    weight[said_so] *= table ** power[said_so][:, None]
    weight[..., HARD] *= np.where(_comes_and_goes(book, line, word, params), params.rate("word.comes_and_goes"), 1.0)
    # What a module says of a cured fault after the repair repeats nothing it said before: it counts in full.
    since = repaired_since(book, line)[1]
    cured = np.where(since, 1.0, weight[..., HARD])
    cured[said_so] *= np.where(since[said_so], table[:, HISTORY], 1.0)
    weight = np.concatenate([weight, cured[..., None]], axis=2)
    return np.concatenate([np.ones((word.shape[0], 1, 6)), np.cumprod(weight, axis=1)], axis=1)


def _still_low(book: Casebook, line: Timeline, word: Ints, params: Parameters) -> Floats:
    """N x K: what a word says more, or less, for low voltage by the supply at the scan: where that is itself below the
    code's level, a low-voltage code is failing now as well as any other; 1 where the supply is not read, or good."""
    change = np.ones(word.shape)
    fault, column = np.nonzero(word >= 0)
    session = book.fault_session[fault]
    own = book.module_volts[book.fault_module[fault], column]
    volts = np.where(np.isnan(own), book.volts[session, column], own) / line.scale[session]
    low = np.nan_to_num(volts, nan=99.0) < params.rate("supply.good")
    fault, column, volts = fault[low], column[low], volts[low]
    noise = book.numbers(lambda facts: NOISES.index(facts.noise))[fault]
    # The share of levels above the supply at the scan: a logistic curve in place of the normal one.
    above = 1.0 / (1.0 + np.exp(1.7 * (volts - params.level_mean[noise]) / params.level_spread[noise]))
    usual = params.word_first[LOW_VOLTAGE, 0]
    failing = params.rate("word.low_least") + (1.0 - 2.0 * params.rate("word.low_least")) * above
    change[fault, column] = np.where(word[fault, column] == 0, failing / usual, (1.0 - failing) / (1.0 - usual))
    return change


def _failing_now(book: Casebook, line: Timeline, word: Ints, params: Parameters) -> Bools:
    """N x K: the module says failing now while the supply is good: low supply is not what fails it. A byte says so
    outright, a printed word is used more loosely."""
    good = line.read_at_least(book.volts, params.rate("supply.good"))
    return np.asarray((word == 0) & good[book.fault_session])


def _failing_full(book: Casebook, line: Timeline, word: Ints, params: Parameters) -> Bools:
    """N x K: likewise in the first scan since a clear, at a supply at which no level of low voltage lies and with no
    lower one known since: what low supply set is wiped, or told as stored where the clear was refused, and nothing has
    set it anew.

    A code of the supply has levels of its own; a module that was lost in a restart may be called so a while longer; and
    the dip of a start may set what is then current to the end of the cycle, unless an earlier start set nothing.
    """
    clean = clean_start(book, line, params)
    cleared = ((line.clear >= 0.5) | line.refused)[book.fault_module] | clean[book.fault_session]
    full = line.read_at_least(book.volts, params.rate("level.most"))
    full &= ~(book.lowest / line.scale[:, None] < params.rate("supply.good"))
    full &= clean | ~(minutes_run(book, params) > 0)
    other = book.flags(lambda facts: facts.supply is not None or facts.relation == "lost communication")
    return np.asarray((word == 0) & cleared & full[book.fault_session] & ~other[:, None])


def _comes_and_goes(book: Casebook, line: Timeline, word: Ints, params: Parameters) -> Bools:
    """N x K: the first snapshot at which a code whose test always runs was called current, in it or before, and not
    current, since the clear and at a supply that is not low: a hard fault fails whenever it is tested."""
    always = book.flags(lambda facts: facts.monitor in ALWAYS_TESTED and facts.monitor_named)
    low = np.nan_to_num(book.volts / line.scale[:, None], nan=99.0) < params.rate("supply.good")
    told = (always[:, None] & ((book.phase > 0) & ~low)[book.fault_session])
    now = np.logical_or.accumulate(always[:, None] & (word == 0), axis=1)
    gone = np.logical_or.accumulate(told & (word > 0) & (word != PENDING) & (word != PERMANENT), axis=1)
    both = now & gone
    return np.asarray(both & ~np.concatenate([np.zeros((both.shape[0], 1), dtype=bool), both[:, :-1]], axis=1))


def _rests(book: Casebook) -> Bools:
    """N x K: the code's monitor wants a running engine, and the scan was made with the engine off; or it is one that
    fails in the minutes of a drive alone, and is never called current in a scan."""
    wants = book.flags(lambda facts: facts.monitor in NEEDS_ENGINE)
    drive = book.flags(lambda facts: facts.monitor in LASTING and facts.trips == 2 and facts.monitor_named)
    return np.asarray((wants[:, None] & (book.engine_on == 0)[book.fault_session]) | drive[:, None])


def _readings(
    book: Casebook, line: Timeline, total: Floats, recorded: Bools, params: Parameters,
) -> tuple[Floats, Floats, Floats]:
    """Weights of the three readings for each fault (readings x N), from the other faults; refused, kept.

    ``recorded`` (N): the fault's own record is the one from before the clear.
    """
    log = np.log(np.maximum(total, 1e-300))
    difference = log[KEPT] - log[FRESH]
    kept_log = np.bincount(book.fault_session, weights=difference, minlength=len(book.sessions))
    prior = np.log(params.rate("kept.prior") / (1.0 - params.rate("kept.prior")))
    # Faults of one session share more than the model says, so their votes are tempered.
    temper = params.rate("votes.temper")
    kept = _chance(prior + temper * (kept_log[book.fault_session] - difference))
    taken = np.logaddexp(np.log(kept + 1e-12) + log[KEPT], np.log(1 - kept + 1e-12) + log[FRESH])
    # A list that can't have stayed weighs nothing, for its own fault as for the others of the module.
    stayed = np.where(total[NOT_TAKEN] > 0, log[NOT_TAKEN] - taken, -30.0)
    module_log = np.bincount(book.fault_module, weights=stayed, minlength=len(book.module_name))
    # One code alone never proves that a clear did not take: others that stayed, or its own record, have to say so.
    company = np.bincount(book.fault_module, weights=(total[NOT_TAKEN] > 0).astype(np.float64),
                          minlength=len(book.module_name))
    accepted = np.asarray(line.accepted.any(axis=1))[book.fault_module]
    said_taken = np.asarray(line.said_taken.any(axis=1))[book.fault_module]
    taken_prior = np.where(accepted, params.rate("clear.taken_accepted"), np.where(
        said_taken, params.rate("clear.taken_said"), params.rate("clear.taken")))
    taken_chance = np.where((company[book.fault_module] > 1) | recorded, taken_prior, params.rate("clear.taken_lone"))
    prior_odds: Floats = np.asarray(np.log((1.0 - taken_chance) / taken_chance), dtype=np.float64)
    refused = _chance(prior_odds + module_log[book.fault_module] - stayed)
    refused = np.where(total[NOT_TAKEN] > 0, refused, 0.0)
    weights = np.stack([(1 - refused) * kept, (1 - refused) * (1 - kept), refused])
    return weights, refused, _chance(prior + temper * kept_log)


def _chance(log_odds: Floats) -> Floats:
    return np.asarray(1.0 / (1.0 + np.exp(-np.clip(log_odds, -30.0, 30.0))))
