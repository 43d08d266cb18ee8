"""Evidence as a whole: casebook, timeline and links in; causes of every fault out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from triage.evidence.chain import KEPT, chains
from triage.evidence.depth import at_module, depth_weights, level_reached, reached_by_others, tell_missed_dips
from triage.evidence.hypotheses import HARD, LOW_VOLTAGE, Hypotheses, hypotheses
from triage.evidence.lowtargets import lean_on_targets
from triage.evidence.parameters import parameters
from triage.evidence.prior import Priors, priors
from triage.evidence.weigh import Weighed, joint_weights, persists, weigh, word_weights
from triage.model.casebook import Bools, Casebook, Floats, Links, Timeline
from triage.units import FLOOR

if TYPE_CHECKING:
    from code_tables import Tables


@dataclass(slots=True)
class Evidence:
    """``N`` faults: causes (N x 5), decibans (N), and what a report may want to show of the way there."""

    causes: Floats
    decibans: Floats
    prior: Priors
    weighed: Weighed
    hypotheses: Hypotheses
    clean: Floats          # N: best chance that a clean test at good supply was completed after the clear


def weigh_evidence(
    book: Casebook, line: Timeline, link: Links, tables: Tables, *, steps: bool = True,
) -> Evidence:
    """The causes of every fault of ``book``; without ``steps`` only the end of the sum is kept (no ledger)."""
    params = parameters(tables)
    prior = priors(book, line, link, params)
    words = word_weights(book, line, params)
    chain = chains(book, line, params)
    depths = depth_weights(book, line, params)
    tell_missed_dips(book, line, params)
    reached = level_reached(book, line, depths, params)[book.fault_session]
    hypo = hypotheses(book, line, link, at_module(book, line, reached, params), prior.final, params)
    low = hypo.low_voltage
    joint = joint_weights(book, chain, [part for part in hypo.parts if part is not low], steps=steps)
    last = np.concatenate([prior.final, prior.final[:, HARD:HARD + 1]], axis=1) * words[:, -1]
    others = np.einsum("ne,ne->n", joint[KEPT, -1], last)
    reached = reached_by_others(book, line, chain, low, others, last[:, LOW_VOLTAGE], depths, params)
    low.chance = at_module(book, line, reached, params)
    joint += joint_weights(book, chain, [low], steps=steps)
    weighed = weigh(book, line, joint, prior.final, words, params)
    if lean_on_targets(book, link, weighed.causes, prior, params):
        weighed = weigh(book, line, joint, prior.final, words, params)
    chance = np.clip(persists(weighed.causes), FLOOR, 1.0 - FLOOR)
    return Evidence(
        causes=weighed.causes, decibans=10.0 * np.log10(chance / (1.0 - chance)), prior=prior, weighed=weighed,
        hypotheses=hypo, clean=clean_test(book, line, hypo, tables),
    )


def fed_tests(book: Casebook, line: Timeline, tables: Tables) -> Bools:
    """N x K: the supply of the fault's module was read and good enough to trust that a code is absent."""
    session = book.fault_session
    own = book.module_volts[book.fault_module]
    read = np.where(np.isnan(own), book.volts[session], np.fmin(own, book.volts[session])) / line.scale[session, None]
    lowest = np.fmin(book.lowest[session] / line.scale[session, None], read)
    # The dip of the start takes nothing from a test that ran long after it on a supply that charges.
    minutes = np.nan_to_num(book.minutes, nan=0.0)
    ran = ((book.engine_on == 1.0) & (minutes >= tables.rate("clean.ran_past_start")))[session]
    ran &= np.nan_to_num(read, nan=0.0) >= tables.rate("charging.good")
    return np.asarray((np.nan_to_num(read, nan=0.0) >= tables.rate("supply.good")) & ~(
        (lowest < tables.rate("supply.clean_lowest")) & ~ran))


def clean_test(book: Casebook, line: Timeline, hypo: Hypotheses, tables: Tables) -> Floats:
    """N: chance that, after a clear, since it was last seen and at good supply, its monitor ran and found nothing."""
    good = fed_tests(book, line, tables)
    # A clean test before the code came back says nothing about now.
    came_back = np.maximum.accumulate((book.seen == 1)[:, ::-1], axis=1)[:, ::-1]
    after = (book.phase > 0)[book.fault_session] & (book.seen == 0) & good & ~came_back
    missed = np.where(after, 1.0 - hypo.opportunity, 1.0)
    return np.asarray(1.0 - missed.prod(axis=1))
