"""What a module stored with a code before a clear, held against what it stores after it: the same record, or a new one.

A module that took the clear has lost the count, the freeze frame and the bit "failed since the last clear" of each
code. What reads the very same after it was not written anew: the clear did not take. The voltage of two frames is the
same by chance now and then, less so beside an engine speed; that a frame was stored on the road, or many kilometres
back, can't be of a vehicle that has stood in the workshop since.

Sources: ISO 14229-1, status of DTC (bit 5); common practice for the rest, with shares in ``rates.csv``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from triage.evidence.frames import RUNS_ABOVE
from triage.evidence.sightings import FAILURE_BITS
from triage.model.casebook import Bools, Casebook, Floats, Timeline
from triage.model.status import FAILED_SINCE_CLEAR
from triage.model.stored import MOVES_ABOVE, OLDER_BY, newest_distance

if TYPE_CHECKING:
    from triage.evidence.parameters import Parameters

#: Two stored voltages nearer than this read the same, V.
SAME_VOLTS = 0.05


def record_factors(book: Casebook, line: Timeline, params: Parameters) -> tuple[Floats, Floats, Bools]:
    """N each: the odds that the fault's module took the clear, and that it did not, by the fault's own record; whether
    that record is the one from before the clear."""
    taken, refused = np.ones(book.faults), np.ones(book.faults)
    begun_anew, gone_on, stayed = _counted(book, line)
    taken[stayed] *= params.rate("count.stays")
    chance, anew = _frames(book, line, params)
    taken *= chance
    refused[anew] *= params.rate("frame.anew")
    taken[_untouched(book, line)] *= params.rate("bit.untouched")
    same = taken < 1.0
    # A count that goes on tells of a list that stayed, but also of a fault that came again.
    taken[gone_on] *= params.rate("count.goes_on")
    refused[begun_anew] *= params.rate("count.anew")
    return np.maximum(taken, params.rate("record.least")), np.maximum(refused, params.rate("record.least")), same


def _cleared(book: Casebook, line: Timeline) -> Bools:
    """N x K: a clear stands right before the snapshot."""
    return np.asarray((line.clear[book.fault_module] > 0.5) & book.exists[book.fault_session])


def _counted(book: Casebook, line: Timeline) -> tuple[Bools, Bools, Bools]:
    """N: how often the fault occurred began anew after a clear (so its list was cleared), went on counting, or stayed
    at the very same figure."""
    anew, on, same = (np.zeros(book.faults, dtype=bool) for _ in range(3))
    if not (book.count >= 0).any():
        return anew, on, same
    last = np.full(book.faults, -1)
    cleared = _cleared(book, line)
    for column in range(book.count.shape[1]):
        now = book.count[:, column]
        both = cleared[:, column] & (now >= 0) & (last >= 0)
        anew |= both & (now < last)
        # Few before the clear may have come again since.
        on |= both & (now > last) & (last >= 3)
        same |= both & (now == last) & (last >= 3)
        last = np.where(now >= 0, now, last)
    return anew, on & ~anew & ~same, same & ~anew


def _frames(book: Casebook, line: Timeline, params: Parameters) -> tuple[Floats, Bools]:
    """N: the chance that a frame written anew reads as it does; a frame that reads otherwise than before the clear."""
    chance, anew = np.ones(book.faults), np.zeros(book.faults, dtype=bool)
    rows = np.flatnonzero((~np.isnan(book.frame_volts) | ~np.isnan(book.frame_distance)).any(axis=1))
    if not rows.size:
        return chance, anew
    frames = np.stack([field[rows] for field in (
        book.frame_volts, book.frame_rpm, book.frame_speed, book.frame_distance)])
    cleared = _cleared(book, line)[rows]
    since = np.maximum.accumulate(cleared, axis=1)
    old = since & (newest_distance(book)[book.fault_session[rows], None] - frames[3] > OLDER_BY)
    last = np.full((4, rows.size), np.nan)
    likely, other = np.ones(rows.size), np.zeros(rows.size, dtype=bool)
    for column in range(cleared.shape[1]):
        now, after = frames[:, :, column], cleared[:, column]
        same = now == last
        near = np.abs(now[0] - last[0])
        like = np.where(after & (near < SAME_VOLTS), params.rate("frame.same_volts"), 1.0)
        like[after & same[1] & (last[1] > RUNS_ABOVE)] *= params.rate("frame.same_engine")
        like[after & same[2] & (last[2] > MOVES_ABOVE)] *= params.rate("frame.same_speed")
        moved = ~same[3] & ~np.isnan(now[3] + last[3])
        differs = after & ((near >= SAME_VOLTS) | moved) & ~old[:, column]
        like[old[:, column]] *= params.rate("frame.older")
        likely = np.minimum(likely, np.where(differs, 1.0, like))
        other |= differs
        last = np.where(np.isnan(now), last, now)
    anew[rows] = other
    chance[rows] = np.where(other, 1.0, likely)
    return chance, anew


def _untouched(book: Casebook, line: Timeline) -> Bools:
    """N: after the clear the byte tells of a failure, but of none since the clear, in a module that keeps that bit."""
    found = np.zeros(book.faults, dtype=bool)
    read = book.status_byte >= 0
    if not read.any():
        return found
    bit = read & (book.status_byte & FAILED_SINCE_CLEAR > 0)
    keeps = np.zeros(len(book.module_name), dtype=bool)
    np.logical_or.at(keeps, book.fault_module, bit.any(axis=1))
    since = np.maximum.accumulate(_cleared(book, line), axis=1)
    failed = read & (book.status_byte & FAILURE_BITS > 0)
    return np.asarray((failed & ~bit & since & keeps[book.fault_module][:, None]).any(axis=1))


__all__ = ["record_factors"]
