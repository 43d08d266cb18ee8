"""The chain of sightings of one fault under one hypothesis.

A code once set stays in the list until it is cleared, heals or its tool shows only what fails now. So the
sightings of one fault are one chain, not independent draws:

    listed now = was listed, not cleared, still shown   or   set since the snapshot before

Three readings of the chain are kept side by side: the clear was taken and codes stay listed; the clear was taken
and only fresh codes are shown; the module did not take the clear.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from triage.evidence.readiness import passed_permanent
from triage.model.casebook import Bools, Casebook, Floats, Ints, Timeline
from triage.model.snapshot import STATUS_WORDS

if TYPE_CHECKING:
    from triage.evidence.hypotheses import Part
    from triage.evidence.parameters import Parameters

KEPT, FRESH, NOT_TAKEN = range(3)
PERMANENT = STATUS_WORDS.index("permanent")


@dataclass(slots=True)
class Chains:
    """What the sightings are, ready for the chain. ``N`` faults, ``K`` snapshots."""

    saw: Bools         # N x K
    missed: Bools      # N x K
    clear: Floats      # N x K: chance that the module's list was cleared right before
    kept_shown: float  # chance that a listed code is still shown, where codes stay listed
    fresh_shown: float  # likewise where only fresh codes are shown
    fresh_rows: Bools  # N: the two differ for this fault
    stayed_rows: Bools  # N: the module's list may have stayed through the clear


def chains(book: Casebook, line: Timeline, params: Parameters) -> Chains:
    """The sightings of ``book``; for most faults some readings of the chain are the same or impossible."""
    seen = speaking(book)
    if line.tests:
        seen[line.gone_in_tests(seen.shape)] = -1
    clear = line.clear[book.fault_module]
    saw, missed = seen == 1, seen == 0
    listed = np.zeros(book.faults, dtype=bool)
    fresh = np.zeros(book.faults, dtype=bool)
    gone = np.zeros(book.faults, dtype=bool)
    stayed = np.zeros(book.faults, dtype=bool)
    for column in range(seen.shape[1]):
        read = saw[:, column] | missed[:, column]
        fresh |= listed & read & (clear[:, column] < 1.0)
        cleared = clear[:, column] > 0.0
        gone |= listed & missed[:, column] & cleared
        stayed |= listed & saw[:, column] & cleared
        listed = np.where(read, saw[:, column], listed)
    module_gone = np.zeros(len(book.module_name), dtype=bool)
    np.logical_or.at(module_gone, book.fault_module, gone)
    module_stayed = np.zeros(len(book.module_name), dtype=bool)
    np.logical_or.at(module_stayed, book.fault_module, stayed)
    return Chains(saw, missed, clear, params.rate("kept.shown"), params.rate("fresh.shown"), fresh,
                  (module_stayed & ~module_gone)[book.fault_module])


def speaking(book: Casebook) -> Ints:
    """N x K: the sightings that say something about now; a permanent code outlives a clear by design."""
    permanent = (said(book) == PERMANENT) & (book.phase[book.fault_session] > 0)
    return np.where(passed_permanent(book), 0, np.where(permanent, -1, book.seen))


def said(book: Casebook) -> Ints:
    """N x K: what the module says of the code: a place in the status words, PASSING, or -1."""
    word = np.where(book.status >= 0, book.status, book.byte_word)
    return np.where(book.seen == 1, word, -1)


def run(chain: Chains, part: Part, rows: Ints, reading: int, *, steps: bool = True) -> list[Floats]:
    """Running likelihoods (n x h), one before and one after each snapshot, of ``rows`` (places in ``part.rows``).

    Without ``steps`` the last alone.
    """
    whole = rows.size == part.rows.size
    faults: Ints | slice = part.rows if whole else part.rows[rows]
    if whole and rows.size == chain.saw.shape[0]:
        faults = slice(None)  # everyone: nothing to pick
    shown = chain.fresh_shown if reading == FRESH else chain.kept_shown
    taken = 0.0 if reading == NOT_TAKEN or part.locked else 1.0
    keep = shown * (1.0 - taken * chain.clear[faults])
    saw, missed = chain.saw[faults], chain.missed[faults]
    read, was_seen = saw | missed, saw.astype(np.float64)
    # Whether the code was listed matters only as long as a later snapshot can be read.
    ahead = np.maximum.accumulate(read[:, ::-1], axis=1)[:, ::-1]
    chance = part.chance if whole else part.chance[rows]
    current = np.ones((rows.size, chance.shape[2]))
    listed: Floats = np.zeros((rows.size, 1))
    running = [current]
    for column in range(chance.shape[1]):
        factor = 1.0 - chance[:, column]
        if column:
            factor *= 1.0 - listed * keep[:, column, None]
        listed = was_seen[:, column, None]
        blind = np.flatnonzero(~read[:, column])
        if blind.size:
            waiting = blind[ahead[blind, column]]
            if waiting.size:
                listed = np.repeat(listed, chance.shape[2], axis=1)
                listed[waiting] = 1.0 - factor[waiting]
        # 1 - missing where it was seen, missing where it was not.
        np.abs(np.subtract(was_seen[:, column, None], factor, out=factor), out=factor)
        factor[blind] = 1.0
        if steps:
            current = current * factor
            running.append(current)
        else:
            current *= factor
    return running
