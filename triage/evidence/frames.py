"""What a module stored with a code, beside the code itself: its freeze frame and how often the fault occurred.

A freeze frame tells of the moment when the code set. Its voltage beats the snapshot's. Its engine and vehicle speed
tell whether the vehicle stood: a battery that sags does so at rest or in cranking, not on the road. Its odometer tells
how long ago that was, beside the newest frame of the session: the low supply is why the vehicle is here today, an old
code set long before. And a code that low supply set has not occurred as often as one whose fault was there all along.

All of it is common practice; the shares are the project's own choice and stand in ``rates.csv``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from triage.model.casebook import Bools, Casebook, Floats, Ints, Timeline
from triage.model.stored import MOVES_ABOVE, kilometres_back
from triage.model.verdict import CAUSES

if TYPE_CHECKING:
    from triage.evidence.parameters import Parameters

LOW_VOLTAGE = CAUSES.index("low-voltage")
#: Upper ends of the bands: kilometres since the frame was stored, occurrences of the fault.
BACK_KM = (5.0, 50.0, 300.0, 1500.0)
OCCURRED = (1, 2, 4, 9)
#: The vehicle as the frame shows it, the first three in the order of ``parameters.MOTIONS``; nothing is said where it
#: shows neither speed.
STANDING, IDLING, MOVING, NOT_SAID = range(4)
#: Above cranking speed the engine runs by itself, 1/min.
RUNS_ABOVE = 400.0


def frame_weights(book: Casebook, line: Timeline, params: Parameters) -> Floats:
    """N x K x 5: what the stored voltage, motion, distance and count say for each cause."""
    weight = np.ones((*book.frame_volts.shape, len(CAUSES)))
    weight[..., LOW_VOLTAGE] = _low(book, line, params)
    first = book.phase[book.fault_session, 0] <= 0
    back = kilometres_back(book)
    told = first & ~np.isnan(back)
    if told.any():
        weight[told, 0] *= params.back_share.T[np.searchsorted(BACK_KM, back[told])]
    counted = first & (book.count[:, 0] > 0)
    if counted.any():
        weight[counted, 0] *= params.count_share.T[np.searchsorted(OCCURRED, book.count[counted, 0])]
    lately = first & (book.byte_lately[:, 0] >= 0)
    if lately.any():
        failed = book.byte_lately[lately, 0][:, None] == 1
        weight[lately, 0] *= np.where(failed, params.lately, 1.0 - params.lately)
    return weight


def motion(book: Casebook) -> Ints:
    """N: the vehicle as the frame of the first snapshot shows it, one of STANDING to NOT_SAID."""
    speed, engine = book.frame_speed[:, 0], book.frame_rpm[:, 0]
    # A module that knows no engine speed stores none or zero: without one the vehicle stood, no more is said.
    still = np.where(engine > RUNS_ABOVE, IDLING, STANDING)
    known = ~np.isnan(speed) | ~np.isnan(engine)
    return np.where(speed > MOVES_ABOVE, MOVING, np.where(known, still, NOT_SAID))


def _low(book: Casebook, line: Timeline, params: Parameters) -> Floats:
    """N x K: how much likelier the frame is where low supply set the code. A frame counts once.

    Some modules store it when the dip is over: it then shows what any code's frame would show.
    """
    fresh = _new(book.frame_volts)
    ratio = np.ones(fresh.shape)
    ratio[fresh] = _low_volts(book, line, fresh, params)
    # A module that reads less than the vehicle has stores a low supply whether all had it or its own feed alone.
    own = book.flags(lambda facts: facts.supply in ("low", "fault")) & starved(book, line, params)[book.fault_module]
    ratio[own] = np.minimum(ratio[own], 1.0)
    first = book.phase[book.fault_session, 0] <= 0
    moving = np.append(params.motion_ratio, 1.0)[motion(book)]
    ratio[:, 0] *= np.where(first, moving, 1.0)
    late = params.rate("frame.after_dip")
    said = fresh.copy()
    said[:, 0] |= first & (moving != 1.0)
    ratio[said] = np.minimum((1.0 - late) * ratio[said] + late, 8.0)
    return ratio


def starved(book: Casebook, line: Timeline, params: Parameters) -> Bools:
    """M: modules that read much less than the vehicle had in a scan at a good supply."""
    fed, own = (volts / line.scale[scale] for volts, scale in (
        (book.volts[book.module_session], book.module_session[:, None]),
        (book.module_volts, book.module_session[:, None])))
    with np.errstate(invalid="ignore"):
        return np.asarray(((fed >= params.rate("supply.good")) & (fed - own >= params.rate("feed.drop"))).any(axis=1))


def _new(volts: Floats) -> np.ndarray:
    """N x K: a stored voltage that is not the one read before."""
    new = ~np.isnan(volts)
    last = np.full(volts.shape[0], np.nan)
    for column in range(volts.shape[1]):
        now = volts[:, column]
        new[:, column] &= ~(np.abs(now - last) < 1e-9)
        last = np.where(np.isnan(now), last, now)
    return new


def _low_volts(book: Casebook, line: Timeline, at: np.ndarray, params: Parameters) -> Floats:
    """The stored voltages at places of N x K alone. Low-voltage codes set below their level; others at any supply there
    was."""
    fault, column = np.nonzero(at)
    session = book.fault_session[fault]
    scale = line.scale[session]
    value = np.clip(book.frame_volts[fault, column] / scale, 0.0, 60.0)
    noise = params.level_mean.mean()
    low = 0.5 / (1.0 + np.exp((value - noise - 0.8) / 0.35)) + 0.002
    usual = 0.65 * np.exp(-0.5 * ((value - 13.2) / 0.9) ** 2) / 0.9 / 2.507 + (
        0.35 * np.exp(-0.5 * ((value - 10.5) / 1.8) ** 2) / 1.8 / 2.507) + 0.002
    # Where the scan itself was made at that supply, any other cause would have set there as well.
    read = book.volts[session, column] / scale
    near = np.exp(-0.5 * ((value - np.nan_to_num(read, nan=-99.0)) / 0.5) ** 2) / 0.5 / 2.507
    share = params.rate("frame.at_scan")
    ratio = low / usual
    spared = np.maximum(low / ((1.0 - share) * usual + share * near), 1.0)
    return np.asarray(np.where((ratio > 1.0) & ~np.isnan(read), np.minimum(ratio, spared), ratio))


__all__ = ["frame_weights", "motion"]
