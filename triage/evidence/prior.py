"""The prior of each fault: by its kind of code, then by what the relations say, before its own sightings."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from code_tables import words
from triage.evidence.chain import said
from triage.evidence.echo import in_own_range, without_words
from triage.evidence.hypotheses import ECHO, HARD, HISTORY, INTERMITTENT, LOW_VOLTAGE, missed_in_work
from triage.evidence.parameters import KINDS, MONITOR_INDEX, NOISES, WORDS
from triage.model.bus_reports import BUS_LEAST, bus_groups
from triage.model.casebook import ANSWERS, INVALID, LOST, SEEN, SILENT, Casebook, Floats, Ints, Links, Timeline
from triage.model.chargers import CHARGERS, charger_says
from triage.model.triggers import BY_HAND, comes_and_goes, told_trigger

if TYPE_CHECKING:
    from triage.evidence.parameters import Parameters


#: Name of the step in which each fault has words of its own (``Links.contradictions``).
READING = "a reading contradicts"
#: Likewise (``Links.recurrences``).
EARLIER = "an earlier session held it too"

#: So many reports of the loss of one module are more than two partners with a poor line.
SEVERAL = 3
#: So great a share of all such reports of a scan is of that module alone; project's own choice.
ALONE_SHARE = 2.0 / 3.0

#: How often low supply sets a code of a failure type: not said, seldom, often.
SAGS = ("", *words.SAGS)


@dataclass(slots=True)
class Priors:
    """``steps[0]`` is the table's prior (N x 5); each later step is the prior after one more relation."""

    steps: list[Floats]
    names: list[str] = field(default_factory=list)  # one a later step
    touched: list[np.ndarray] = field(default_factory=list)  # N, bool, one a later step

    @property
    def final(self) -> Floats:
        """N x 5."""
        return self.steps[-1]

    def then(self, mask: np.ndarray, name: str, cause: int, factor: Floats) -> None:
        """One more step: the odds of ``cause`` of the faults in ``mask`` times ``factor`` (one a fault of these)."""
        _apply(self, mask, name, _scale({cause: factor}))


def kinds(book: Casebook, link: Links) -> Ints:
    """N: place in KINDS: the relation where the code has one, else its supply-level class."""
    noise = book.numbers(lambda facts: NOISES.index(facts.noise))
    return np.where(link.relation > 0, len(NOISES) - 1 + link.relation, noise)


def priors(book: Casebook, line: Timeline, link: Links, params: Parameters) -> Priors:
    """The prior of every fault and how it came about."""
    result = Priors([_by_monitor(book, _by_kind(book, link, params), params)])
    _apply(result, _nothing_low(book, line, link, params), "nothing in the session shows a low supply",
           _scale({LOW_VOLTAGE: params.rate("low.nothing_low")}))
    silent = link.lost > 0.0
    share = link.lost * link.unexplained
    _apply(result, silent, "the module it reports lost stays silent", _share(HARD, share[silent]))
    _apply(result, silent & (link.target_state == ANSWERS).any(axis=1), "it answers in another scan", _moved(
        HARD, INTERMITTENT, params.rate("lost.came_and_went")))
    answers = (link.relation == LOST) & (link.target >= 0) & ~silent & (
        (link.target_state == 1).sum(axis=1) >= 1)
    _apply(result, answers, "the module it reports lost answers", _scale({HARD: params.rate("lost.answers_hard")}))
    missed = np.asarray(missed_in_work(book, line, link).any(axis=1))
    _apply(result, missed, "the module it reports lost was worked on", _share(
        HISTORY, np.full(int(missed.sum()), params.rate("lost.in_work"))))
    _apply(result, _now_and_then(book, line, link, params), "the module it reports lost is silent now and then", _scale(
        {INTERMITTENT: params.rate("lost.now_and_then")}))
    _several(result, book, link, params)
    fed = np.zeros(book.faults, dtype=bool)
    fed[[fault for told in link.feed_losses.values() for loss in told if loss.own
         for fault in (*loss.reports, *loss.own)]] = True
    # A sag of the whole supply is missed in more than one module and noted by more than one.
    _apply(result, fed, "several modules missed it alone, at one moment and a good supply", _scale(
        {LOW_VOLTAGE: params.rate("feed.lost_low")}))
    _reporters(result, book, link, params)
    _bus(result, book, line, link, params)
    supply = book.flags(lambda facts: facts.supply in ("low", "fault"))
    lone = (link.lone > 0).any(axis=1)
    local = np.array([events.local for events in link.events], dtype=bool)[book.fault_session]
    event = supply & (link.supply_codes.max(axis=1)[book.fault_session] >= 2) & ~lone & ~local
    _apply(result, event, "supply codes in several modules are one supply event",
           _scale({LOW_VOLTAGE: params.rate("supply.several")}))
    failing = ((link.lone > 1) & (said(book) == WORDS.index("current"))).any(axis=1)
    _apply(result, failing, "its module alone calls a good supply failing", _scale(
        {HARD: params.rate("supply.lone_now")}))
    since = ((book.phase > 0)[book.fault_session] & (book.seen == SEEN)).any(axis=1)
    _apply(result, supply & local & since, "a drop was measured on a path, and the supply is good", _scale(
        {HARD: params.rate("supply.lone_now")}))
    says = _charger(book, link)
    _apply(result, says, "a run with nothing connected reads too low", _scale({HARD: params.rate("charger.says")}))
    fails = np.array([events.uncharged_from >= 0 for events in link.events], dtype=bool)[book.fault_session]
    charges = book.flags(lambda facts: any(word in facts.title for word in CHARGERS))
    _apply(result, charges & fails & ~says, "what it speaks of was measured to fail", _scale(
        {HARD: params.rate("charger.measured")}))
    told = np.array([comes_and_goes(session.vehicle.complaint if session.vehicle else None)
                     for session in book.sessions], dtype=bool)[book.fault_session]
    back = since & ~supply & (link.relation == 0)
    _apply(result, told & back, "the complaint tells of one that comes and goes", _scale(
        {INTERMITTENT: params.rate("intermittent.told")}))
    _apply(result, _measured_again(book), "the isolation was measured too low again after a clear", _scale(
        {LOW_VOLTAGE: params.rate("isolation.again_low")}))
    _apply(result, _by_hand(book), "it comes and goes with something that is moved", _by_moving(
        params.rate("intermittent.by_hand"), params.rate("intermittent.by_hand_share")))
    _readings(result, book, link)
    _earlier(result, book, link)
    return result


def _measured_again(book: Casebook) -> np.ndarray:
    """N: isolation faults seen before a clear that their module calls failing after it: it measures a resistance (UN
    R100), which a low supply upsets once and hardly once more."""
    phase = book.phase[book.fault_session]
    again = ((phase > 0) & (book.seen == SEEN) & (book.status == WORDS.index("current"))).any(axis=1)
    before = ((phase <= 0) & (book.seen == SEEN)).any(axis=1)
    return np.asarray(again & before & book.flags(lambda facts: "isolation fault" in facts.title))


def _by_hand(book: Casebook) -> np.ndarray:
    """N: faults of which it is told beside their code that they come as somebody moves something."""
    found = np.zeros(book.faults, dtype=bool)
    for fault, texts in book.texts.items():
        trigger = told_trigger(texts)
        found[fault] = trigger is not None and trigger.name in BY_HAND and book.facts[fault].supply is None
    return found


def _charger(book: Casebook, link: Links) -> np.ndarray:
    """N: codes of the generator or converter that say so in the scan of a run that reads too low."""
    last = [events.lasting_from if events.lasting == "low" else -1 for events in link.events]
    return charger_says(book, np.array(last, dtype=np.int64))


def _now_and_then(book: Casebook, line: Timeline, link: Links, params: Parameters) -> np.ndarray:
    """N: reports the loss of a module that was silent at a good supply and answers in another snapshot."""
    good = line.read_at_least(book.volts, params.rate("supply.good"))[book.fault_session]
    silent = ((link.target_state == SILENT) & good).any(axis=1)
    return np.asarray((link.relation == LOST) & silent & (link.target_state == ANSWERS).any(axis=1) & (link.lost < 0.5))


def _several(result: Priors, book: Casebook, link: Links, params: Parameters) -> None:
    """What it says that several modules miss one that answers."""
    several = _missed_by_several(book, link)
    # Not the lines of so many reporters break together, and a sag silences more than one module.
    _apply(result, several & ~(link.target_state == SILENT).any(axis=1) & (link.target_state == ANSWERS).any(axis=1),
           "several modules miss one that answers, since the clear", _scale(
               {HARD: params.rate("lost.several_hard"), LOW_VOLTAGE: params.rate("lost.several_low")}))
    _apply(result, _missed_alone(book, link) & ~several, "those that miss a module before the clear miss this one",
           _scale({INTERMITTENT: params.rate("lost.missed_alone")}))


def _missed_by_several(book: Casebook, link: Links) -> np.ndarray:
    """N: seen since the clear, with two other reports and more of the loss of the same module."""
    back = ((book.phase > 0)[book.fault_session] & (book.seen == SEEN)).any(axis=1)
    told = (link.relation == LOST) & (link.target >= 0) & back
    several = np.bincount(link.target[told], minlength=len(book.module_name)) >= SEVERAL
    return np.asarray(told & several[link.target])


def _missed_alone(book: Casebook, link: Links) -> np.ndarray:
    """N: reports, in the first scan and before any clear, of the loss of a module that always answers, where several
    make it and next to none tells of another one: a sag silences more than one module, and the reports scatter."""
    first = (book.phase[:, 0] <= 0)[book.fault_session] & (book.seen[:, 0] == SEEN) if book.seen.size else (
        np.zeros(book.faults, dtype=bool))
    reports = np.flatnonzero((link.relation == LOST) & (link.target >= 0) & first)
    each = np.bincount(link.target[reports], minlength=len(book.module_name))
    told = np.bincount(book.fault_session[reports], minlength=len(book.sessions))
    answers = ~(link.target_state[reports] == SILENT).any(axis=1)
    alone = reports[answers & (each[link.target[reports]] >= SEVERAL) & (
        each[link.target[reports]] >= ALONE_SHARE * told[book.fault_session[reports]])]
    found = np.zeros(book.faults, dtype=bool)
    found[alone] = True
    return found


def _reporters(result: Priors, book: Casebook, link: Links, params: Parameters) -> None:
    """What a module sends wrong, all that listen notice: invalid data told by several is an echo rather than noise."""
    told = np.flatnonzero((link.relation == INVALID) & (link.target >= 0))
    if not told.size:
        return
    count = np.bincount(link.target[told])[link.target[told]]
    several = np.zeros(book.faults, dtype=bool)
    several[told] = count >= 2
    lone = np.zeros(book.faults, dtype=bool)
    lone[told] = count == 1
    _apply(result, several, "several modules get invalid data from that one", _scale(
        {ECHO: params.rate("echo.several")}))
    _apply(result, lone, "no other module gets invalid data from that one", _scale({ECHO: params.rate("echo.lone")}))


def _bus(result: Priors, book: Casebook, line: Timeline, link: Links, params: Parameters) -> None:
    """What several modules say of one network at a full supply since the clear is one observation of its wires; the
    losses that they report with it are its echo. Where the supply is known to have dipped since, it may be that."""
    scale = line.scale[:, None]
    full = (np.nan_to_num(book.volts / scale, nan=0.0) >= params.rate("level.most")) & (
        np.nan_to_num(book.lowest / scale, nan=99.0) >= params.rate("supply.good"))
    seen = (book.seen == SEEN) & (full & (book.phase > 0))[book.fault_session]
    told = np.zeros(book.faults, dtype=np.int64)
    beside = np.zeros(book.faults, dtype=bool)
    for faults in bus_groups(book, link, seen.any(axis=1)):
        modules = book.fault_module[faults]
        each = [seen[faults][modules == module].any(axis=0) for module in set(modules.tolist())]
        together = np.array(each).sum(axis=0)
        told[faults] = np.where(seen[faults], together, 0).max(axis=1)
        lost = (link.relation == LOST) & (link.lost < 0.5) & (book.fault_session == book.fault_session[faults[0]])
        beside |= lost & (seen & (together >= BUS_LEAST)).any(axis=1) & np.isin(book.fault_module, modules)
    for these, rate in ((told == BUS_LEAST, "bus.several"), (told > BUS_LEAST, "bus.many")):
        _apply(result, these, "several modules report the network", _scale(
            {HARD: params.rate(rate), INTERMITTENT: params.rate(rate)}))
    _apply(result, beside, "reported with a failing network", _scale({ECHO: params.rate("echo.bus")}))


def _readings(result: Priors, book: Casebook, link: Links) -> None:
    """Readings that a sound part would not give speak for a hard fault; none ever speaks against one."""
    told = sorted(link.contradictions)
    if told:
        mask = np.zeros(book.faults, dtype=bool)
        mask[told] = True
        _apply(result, mask, READING, _scale({HARD: np.array([link.contradictions[fault].ratio for fault in told])}))


def _earlier(result: Priors, book: Casebook, link: Links) -> None:
    """A fault that an earlier session held too: the factors are never below 1."""
    told = sorted(link.recurrences)
    if told:
        mask = np.zeros(book.faults, dtype=bool)
        mask[told] = True
        said = [link.recurrences[fault] for fault in told]
        _apply(result, mask, EARLIER, _scale({HARD: np.array([entry.hard for entry in said]),
                                              INTERMITTENT: np.array([entry.intermittent for entry in said])}))


def _nothing_low(book: Casebook, line: Timeline, link: Links, params: Parameters) -> np.ndarray:
    """N: nothing in the session shows a low supply: it was read and never low, and no module holds a supply code."""
    level = params.rate("supply.event_seen") * line.scale
    read = ~np.isnan(book.volts[:, 0])
    low = (np.fmin(book.volts, book.lowest) < level[:, None]).any(axis=1)
    quiet = read & ~low & (link.supply_codes.max(axis=1) == 0)
    modules = book.module_volts < level[book.module_session][:, None]
    quiet[book.module_session[modules.any(axis=1)]] = False
    return np.asarray(quiet[book.fault_session])


def _by_kind(book: Casebook, link: Links, params: Parameters) -> Floats:
    """The table's prior of each fault's kind, for a maker's code as far as its kind is known."""
    prior = params.prior[kinds(book, link)]
    # What a range or a failure type calls mechanical may be the circuit of that part as well.
    loose = book.flags(lambda facts: not facts.known and facts.noise == "mechanical") & (link.relation == 0)
    share = params.rate("kind.by_range")
    prior[loose] = prior[loose] ** (1.0 - share) * params.prior[NOISES.index("electronic")] ** share
    own = in_own_range(book)
    prior[:, ECHO] *= np.where(~without_words(book, link), 1.0, np.where(
        own, params.rate("echo.untold_own"), params.rate("echo.untold")))
    return np.asarray(prior / prior.sum(axis=1, keepdims=True))


def _by_monitor(book: Casebook, prior: Floats, params: Parameters) -> Floats:
    """The table's prior; low supply seldom sets a code whose monitor wants a warm, moving or driven vehicle."""
    monitor = book.numbers(lambda facts: MONITOR_INDEX[facts.monitor])
    named = book.flags(lambda facts: facts.monitor_named)
    factor = params.low_by_monitor[monitor]
    prior = prior.copy()
    # A module that sags reports itself, its supply and its partners; seldom the circuit of one sensor.
    circuit = book.flags(lambda facts: facts.known and facts.noise == "electronic" and facts.relation is None)
    factor = np.where(circuit, factor * params.rate("low.named_circuit"), factor)
    # An open or shorted circuit is seldom the work of a sag; what compares signals, watches a part move or is set by
    # hand is hardly ever: such tests are held off while the supply is low. A voltage below its limit often is.
    sag = book.numbers(lambda facts: 0 if facts.supply else SAGS.index(facts.sag))
    by_sag = np.array([1.0, *(params.rate(f"low.sag.{word}") for word in words.SAGS)])[sag]
    # A module that was switched off at once, or saw its supply, tells of the supply, whatever its monitor waits for.
    of_supply = book.flags(lambda facts: facts.noise == "supply")
    factor, by_sag = np.where(of_supply, 1.0, factor), np.where(of_supply, np.maximum(by_sag, 1.0), by_sag)
    # A failure type that says "intermittent" or "erratic" says what its module saw: it came and went.
    flicker = book.flags(lambda facts: facts.flicker)
    prior[:, INTERMITTENT] *= np.where(flicker, params.rate("intermittent.flicker"), 1.0)
    # Where only the range names the monitor, it says nothing of that: a maker numbers codes of any kind there.
    prior[:, LOW_VOLTAGE] *= np.where(named, factor, 1.0) * by_sag
    return np.asarray(prior / prior.sum(axis=1, keepdims=True))


def _apply(result: Priors, mask: np.ndarray, name: str, change: object) -> None:
    if not mask.any():
        return
    new = result.steps[-1].copy()
    new[mask] = change(new[mask])  # type: ignore[operator]
    new /= new.sum(axis=1, keepdims=True)
    result.steps.append(new)
    result.names.append(name)
    result.touched.append(mask)


def _share(cause: int, share: Floats) -> object:
    """At least ``share`` (one a fault) for ``cause``, the others in their proportion."""
    def change(prior: Floats) -> Floats:
        rest = prior.copy()
        most = np.maximum(rest[:, cause], share)
        rest[:, cause] = 0.0
        rest *= ((1.0 - most) / rest.sum(axis=1))[:, None]
        rest[:, cause] = most
        return rest
    return change


def _moved(cause: int, other: int, share: float) -> object:
    """``share`` of what ``cause`` has goes to the ``other``."""
    def change(prior: Floats) -> Floats:
        parted = prior.copy()
        parted[:, other] += share * prior[:, cause]
        parted[:, cause] *= 1.0 - share
        return parted
    return change


def _by_moving(factor: float, share: float) -> object:
    """What comes as something is moved is seldom there all the time: ``share`` of a hard fault is an intermittent, and
    of that the odds grow by ``factor``."""
    parted = _moved(HARD, INTERMITTENT, share)
    scaled = _scale({INTERMITTENT: factor})

    def change(prior: Floats) -> Floats:
        return scaled(parted(prior))  # type: ignore[operator, no-any-return]
    return change


def _scale(factors: Mapping[int, float | Floats]) -> object:
    def change(prior: Floats) -> Floats:
        scaled = prior.copy()
        for cause, factor in factors.items():
            scaled[:, cause] *= factor
        return scaled
    return change


__all__ = ["EARLIER", "KINDS", "READING", "Priors", "kinds", "priors"]
