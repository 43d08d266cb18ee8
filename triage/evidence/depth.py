"""How far the supply fell between two snapshots: known, or spread over a grid of depths.

The supply when a code was read is not the supply when it set. Where the lowest is known it is used as it is (a
reading by a slow meter can still miss a dip, so a small chance stays); where it is not, the chance of each depth
follows from what happened (a flat battery before the first clear, a start, a pack or charger connected).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from triage.evidence.chain import KEPT, Chains, run
from triage.evidence.opportunity import LASTING, minutes_run
from triage.model.casebook import Bools, Casebook, Floats, Ints, Timeline
from triage.model.notices import Notice

if TYPE_CHECKING:
    from triage.evidence.hypotheses import Part
    from triage.evidence.parameters import Parameters


def depth_weights(book: Casebook, line: Timeline, params: Parameters) -> Floats:
    """S x K x depths: chance of each place of the grid of :func:`depth_grid` before any fault is asked."""
    sag = np.where(
        book.outside == 1, params.rate("sag.outside"),
        np.where(minutes_run(book, params) > 0, params.rate("sag.start"), params.rate("sag.rest")))
    sag = np.where(clean_start(book, line, params), sag * params.rate("sag.start_again"), sag)
    sag = np.where(np.isnan(book.volts), np.maximum(sag, params.rate("sag.unread")), sag)
    first = np.zeros(sag.shape, dtype=bool)
    first[:, 0] = book.phase[:, 0] <= 0
    sag = np.where(first, params.rate("sag.first"), sag)
    later = np.array([0.06, 0.10, 0.16, 0.22, 0.26, 0.20])
    flat = np.array([0.22, 0.22, 0.20, 0.16, 0.12, 0.08])
    shape = np.where(first[:, :, None], flat, later)
    unknown = np.concatenate([sag[:, :, None] * shape, 1.0 - sag[:, :, None]], axis=2)
    return np.where(np.isnan(lowest_read(book, line, params))[:, :, None], unknown, params.shift_weight)


def clean_start(book: Casebook, line: Timeline, params: Parameters) -> Bools:
    """S x K: an earlier start since the clear brought none of the codes back, and the supply is read as good: what the
    dip of one start did not set, the next on the same battery hardly sets."""
    started = (minutes_run(book, params) > 0) & (book.phase > 0) & book.exists
    seen = np.zeros(book.exists.shape, dtype=bool)
    read = np.zeros(book.exists.shape, dtype=bool)
    np.logical_or.at(seen, book.fault_session, book.seen == 1)
    np.logical_or.at(read, book.fault_session, book.seen == 0)
    before = np.zeros(book.exists.shape, dtype=bool)
    before[:, 1:] = np.logical_or.accumulate(started & read & ~seen, axis=1)[:, :-1]
    good = line.read_at_least(book.volts, params.rate("level.most"))
    return np.asarray(before & good)


def lowest_read(book: Casebook, line: Timeline, params: Parameters) -> Floats:
    """S x K: the lowest supply as read, V; nan where nobody read it, or the reading missed the dip of a start."""
    return np.where(missed_dips(book, line, params), np.nan, book.lowest)


def missed_dips(book: Casebook, line: Timeline, params: Parameters) -> Bools:
    """S x K: an engine was cranked since the snapshot before, and the lowest is higher than cranking leaves it: the
    meter was too slow. An electric drive starts without a dip."""
    started = minutes_run(book, params) > 0
    started[:, 0] = False
    started[:, 1:] &= book.engine_on[:, :-1] != 1
    high = started & (book.lowest / line.scale[:, None] >= params.rate("start.leaves_at_most"))
    for place in np.flatnonzero(high.any(axis=1)).tolist():
        session = book.sessions[place]
        if (session.vehicle and session.vehicle.drive == "electric") or any(
            snapshot.engine == "ready" for snapshot in session.snapshots
        ):
            high[place] = False
    return high


def tell_missed_dips(book: Casebook, line: Timeline, params: Parameters) -> None:
    """A note for every lowest supply that can't be that of a start."""
    for place, column in np.argwhere(missed_dips(book, line, params)).tolist():
        most = params.rate("start.leaves_at_most") * line.scale[place]
        book.notices[place].append(Notice(
            "note", f"snapshot {column + 1}: a lowest supply of {book.lowest[place, column]:g} V across a start: "
                    f"cranking pulls it below {most:g} V, so a slow meter missed the dip; the lowest counts as not "
                    "known"))


def depth_grid(book: Casebook, line: Timeline, params: Parameters) -> Floats:
    """S x K x depths: the supply that counts for setting codes, V of a 12 V system.

    Where the lowest was read, it lies about that: a meter misses part of a dip, and a short dip sets fewer codes
    than its depth would. Where nobody read it, at some depth or, last, at the supply as read (no sag).
    """
    scale = line.scale[:, None]
    volts, lowest = book.volts / scale, lowest_read(book, line, params) / scale
    rest = np.where(np.isnan(volts), params.rate("supply.rest_usual"), volts)[:, :, None]
    unknown = np.concatenate([np.minimum(params.depths, rest), rest], axis=2)
    known = np.fmin(lowest[:, :, None], rest) + params.shifts
    return np.where(np.isnan(lowest)[:, :, None], unknown, known)


def level_reached(book: Casebook, line: Timeline, weights: Floats, params: Parameters) -> Floats:
    """S x K x levels: chance that the supply lay below each level long enough to set a code."""
    below = _below(params.levels, depth_grid(book, line, params)[..., None], params)
    floor = np.einsum("skd,skdl->skl", weights, below)
    return np.asarray(np.maximum(floor, params.rate("level.leak")) * _time_below(book, params)[:, :, None])


def at_module(book: Casebook, line: Timeline, reached: Floats, params: Parameters) -> Floats:
    """N x K x levels: ``reached`` of each fault; a module's own low voltage beats the connector's, and no sag since the
    clear sets a code of too high a voltage."""
    own = (book.module_volts / line.scale[book.module_session][:, None])[book.fault_module]
    # Where the vehicle is well fed and the module is not, its feed is what its supply code tells of.
    fed = np.nan_to_num(book.volts / line.scale[:, None], nan=0.0)[book.fault_session]
    starved = (fed >= params.rate("supply.good")) & (fed - own >= params.rate("feed.drop"))
    witness = book.flags(lambda facts: facts.supply in ("low", "fault"))
    fault, column = np.nonzero(~np.isnan(own) & ~(starved & witness[:, None]))
    if fault.size:
        low = _below(params.levels, own[fault, column, None], params) * params.rate("level.sets")
        reached = reached.copy()
        reached[fault, column] = np.maximum(reached[fault, column], low)
    high = np.flatnonzero(book.flags(lambda facts: facts.supply == "high"))
    if high.size:
        later = book.phase[book.fault_session[high]] > 0
        reached = reached.copy()
        reached[high] = np.where(later[:, :, None], params.rate("level.leak"), reached[high])
        # Where the supply itself was read as too high, that is what set it.
        over = book.volts[book.fault_session[high]] > params.rate("charging.over") * line.scale[
            book.fault_session[high], None]
        reached[high] = np.where(over[:, :, None], params.rate("level.sets"), reached[high])
    for held, rate in ((brief_only(book, line, params), "low.brief"),
                       (unwitnessed(book, line, params), "low.unwitnessed")):
        fault, column = np.nonzero(held)
        if fault.size:
            reached = reached.copy()
            reached[fault, column] *= params.rate(rate)
    return reached


def unwitnessed(book: Casebook, line: Timeline, params: Parameters) -> Bools:
    """N x K: its module held a low-supply code of its own before the clear, and none since, at a supply that is read as
    good: that module sees its supply, and saw it low no more, or not for long."""
    witness = book.flags(lambda facts: facts.supply in ("low", "fault"))
    since = (book.phase > 0)[book.fault_session]
    before, back = (witness & ((book.seen == 1) & part).any(axis=1) for part in (~since, since))
    quiet = np.zeros((len(book.module_name), book.exists.shape[1]), dtype=bool)
    mine = np.flatnonzero(before)
    np.logical_or.at(quiet, book.fault_module[mine], (book.seen[mine] == 0) & since[mine])
    quiet[book.fault_module[np.flatnonzero(back)]] = False
    good = line.read_at_least(book.volts, params.rate("level.most"))
    of_supply = book.flags(lambda facts: facts.supply is not None or "supply" in (facts.noise, facts.system))
    return np.asarray(quiet[book.fault_module] & good[book.fault_session] & ~of_supply[:, None])


def brief_only(book: Casebook, line: Timeline, params: Parameters) -> Bools:
    """N x K: only a brief dip can have set the code since the clear, and its monitor needs minutes of warm or mixed
    driving: while that runs, the supply is charged and a start is long over."""
    slow = book.flags(lambda facts: facts.monitor in LASTING and facts.supply is None)
    fed = line.read_at_least(book.volts, params.rate("supply.good"))
    return np.asarray(slow[:, None] & (fed & (book.phase > 0))[book.fault_session])


def reached_by_others(
    book: Casebook, line: Timeline, chain: Chains, low: Part, others: Floats, prior: Floats, weights: Floats,
    params: Parameters,
) -> Floats:
    """N x K x levels: the chance of each unknown depth after asking all *other* faults of the session.

    A deep sag brings many low-voltage codes back together, a steady supply none: what one fault can't tell, all
    of them can. Each fault votes with its likelihood under each depth, and is weighed with the votes of the others,
    so that none counts twice; ``others`` (N) is the joint weight of its other causes, ``prior`` (N) that of low
    voltage, status words included in both.
    """
    reached = level_reached(book, line, weights, params)[book.fault_session]
    running = run(chain, low, np.arange(book.faults), KEPT)
    final = running[-1] * low.weight
    grid = depth_grid(book, line, params)
    lasting = _time_below(book, params)
    temper, leak = params.rate("votes.temper"), params.rate("level.leak")
    before = np.log(np.maximum(weights, 1e-12))
    listed = np.zeros(book.faults)
    block = _Blocks(book)
    for column in range(book.exists.shape[1]):
        faults = np.flatnonzero(book.exists[book.fault_session, column])
        session = book.fault_session[faults]
        below = _below(params.levels, grid[:, column, :, None], params)
        without = final[faults] * running[column][faults] / np.maximum(running[column + 1][faults], 1e-12)
        set_now = block.times(without, faults, (below * params.rate("level.sets")).swapaxes(1, 2))
        kept = (listed[faults] * chain.kept_shown * (1.0 - chain.clear[faults, column]))[:, None]
        whole = without.sum(axis=1, keepdims=True)
        again = kept * whole + (1.0 - kept) * set_now
        vote = np.where(chain.saw[faults, column, None], again, whole - again) * prior[faults, None]
        vote = np.log(np.maximum(vote + others[faults, None], 1e-300))
        read = chain.saw[:, column] | chain.missed[:, column]
        vote[~read[faults]] = 0.0
        votes = _add_up(vote, session, weights.shape[0])
        depths = _posterior(before[:, column][session], (votes[session] - vote) * temper)
        floor = block.times(depths, faults, below)
        reached[faults, column] = np.maximum(floor, leak) * lasting[session, column, None]
        # From here on: listed in the last snapshot that could be read.
        listed = np.where(read, chain.saw[:, column], listed)
    return reached


class _Blocks:
    """The faults of each session as one block of a table S x most faults x a, to multiply all of them at once.

    A matrix picked for every fault would be many times the memory of one for each session.
    """

    def __init__(self, book: Casebook) -> None:
        self.session = book.fault_session
        self.place = np.arange(book.faults) - book.first_fault[book.fault_session]
        self.most = int(self.place.max(initial=-1)) + 1

    def times(self, rows: Floats, faults: Ints, matrices: Floats) -> Floats:
        """n x b: each of ``rows`` (n x a), of ``faults``, times the matrix (S x a x b) of its session."""
        session, place = self.session[faults], self.place[faults]
        table = np.zeros((matrices.shape[0], self.most, rows.shape[1]))
        table[session, place] = rows
        return np.asarray(np.matmul(table, matrices)[session, place])


def _add_up(rows: Floats, session: Ints, count: int) -> Floats:
    """S x a: the sum of the ``rows`` of each session, in their order."""
    width = rows.shape[1]
    places = (session[:, None] * width + np.arange(width)).ravel()
    sums: Floats = np.asarray(np.bincount(places, weights=rows.ravel(), minlength=count * width), dtype=np.float64)
    return sums.reshape(count, width)


def _posterior(log_prior: Floats, log_votes: Floats) -> Floats:
    joint = log_prior + log_votes
    joint = np.exp(joint - joint.max(axis=1, keepdims=True))
    return np.asarray(joint / joint.sum(axis=1, keepdims=True))


def _time_below(book: Casebook, params: Parameters) -> Floats:
    """S x K: chance that a supply below the level lasted long enough."""
    sets = params.rate("level.sets")
    short = book.low_seconds < params.rate("level.least_seconds")
    return np.where(short, sets * params.rate("level.short_share"), sets)


def _below(levels: Floats, supply: Floats, params: Parameters) -> Floats:
    """Chance that ``supply`` was below a level, softened by the drop between connector and module."""
    return 1.0 / (1.0 + np.exp(-np.clip((levels - supply) / params.rate("level.softness"), -40.0, 40.0)))
