"""Runs the invented vehicle through its intervals and says what each module's list holds at each snapshot."""

from __future__ import annotations

import math
import random
from dataclasses import dataclass

from worlds_causes import Builder
from worlds_faults import Fault, Module, sets
from worlds_styles import Style
from worlds_supply import Interval, Supply

#: Before the first scan: the fault was last there in this operation cycle or the one before. The low supply is why the
#: vehicle came; an old fault is long past.
LATELY = {"hard": 0.9, "intermittent": 0.5, "low-voltage": 0.7, "history": 0.05, "echo": 0.7}
#: How soon a fault stopped counting: one over the occurrences of the weeks before, beside the first.
OFTEN = {"hard": 0.15, "intermittent": 0.15, "low-voltage": 0.9, "history": 0.3, "echo": 0.4}


@dataclass(slots=True)
class State:
    """What a module knows of one fault at a snapshot."""

    listed: bool = False
    set_now: bool = False  # set in this interval
    failing: bool = False  # at the scan
    pending: bool = False  # failed in one trip of a two-trip code
    trips: int = 0
    count: int = 0
    confirmed_once: bool = False
    tested: bool = False  # monitor ran since the clear
    tested_cycle: bool = False  # ... in this key cycle
    failed_cycle: bool = False
    failed_since: bool = False
    lately: bool = False  # failed in this operation cycle or the one before
    frame: float | None = None  # volts when it set
    set_in: int = 0  # the interval in which it set
    stored: dict[str, float] | None = None  # the freeze frame as written, kept until a clear


def opportunity(fault: Fault, interval: Interval, index: int) -> float:
    """Chance that the fault's monitor has run by the snapshot; all have run in the weeks before the first."""
    if index == 0:
        return 1.0
    window = 11.0 if fault.module.kind.emission and fault.monitor in "RWDC" else 9.0
    if interval.volts - fault.module.drop < window:
        return 0.0
    ran, drove = interval.ran, interval.drove and interval.speed >= 25
    chance = {
        "K": 1.0 if interval.key_cycle or not fault.wakes else 0.0,
        "O": 0.9 if ran else 0.5,
        "N": 1.0,
        "R": 1.0 - math.exp(-ran / fault.tau),
        "W": 0.75 if drove and ran >= 8 else (0.2 if ran >= 12 else 0.0),
        "S": 0.95 if drove else 0.0,
        "D": 0.35 if drove and ran >= 15 else 0.0,
        "C": 0.0,
        "E": 0.3 if drove else 0.1,
        "H": 0.9 if ran else 0.15,
    }
    return chance[fault.monitor]


def _exposure(fault: Fault, interval: Interval) -> float:
    """Minutes in which an intermittent could show itself."""
    if fault.monitor in "KNOE":
        return interval.minutes
    if fault.monitor == "S":
        return interval.ran if interval.drove else 0.0
    return interval.ran if fault.monitor in "RH" else 0.3 * interval.ran * interval.drove


class Run:
    """One session under way: ``states``, one a fault, after each call of :meth:`step`."""

    def __init__(self, rng: random.Random, style: Style, supply: Supply, builder: Builder) -> None:
        self.rng, self.style, self.supply, self.builder = rng, style, supply, builder
        self.faults = list(builder.faults.values())
        self.states = [State() for _ in self.faults]
        self.index_of = {id(fault): number for number, fault in enumerate(self.faults)}
        self.all_refused = rng.random() < style.all_refused
        for module in builder.modules:
            module.refuses = rng.random() < style.refused

    def kept(self, module: Module, index: int) -> bool:
        """Whether a module's list outlives the clear that starts interval ``index``."""
        return (self.all_refused or module.refuses) and self.supply.intervals[index].phase != "after-repair"

    def step(self, index: int) -> list[State]:
        """Plays interval ``index``; the states returned are live, to be read before the next step."""
        interval = self.supply.intervals[index]
        for fault, state in zip(self.faults, self.states, strict=True):
            if (interval.clears and not self.kept(fault.module, index)) or fault.module.replaced == index:
                self._clear(fault, state)
            state.set_now = state.failing = False
            if interval.key_cycle:
                # A whole cycle that passed takes the pending bit away (ISO 14229-1).
                state.lately = state.lately and (state.failed_cycle or not state.tested_cycle)
                state.tested_cycle = state.failed_cycle = False
        for echo in (False, True):
            for fault, state in zip(self.faults, self.states, strict=True):
                if (fault.target is not None) == echo and fault.born <= index < fault.gone:
                    self._play(fault, state, interval, index)
        for fault, state in zip(self.faults, self.states, strict=True):
            self._list(fault, state, index)
        return self.states

    def _clear(self, fault: Fault, state: State) -> None:
        keep = fault.locked
        state.listed = state.listed and keep
        state.pending, state.trips, state.tested, state.failed_since, state.frame = False, 0, False, False, None
        state.stored = None
        state.tested_cycle = state.failed_cycle = state.lately = False
        state.count = state.count if keep else 0

    def _play(self, fault: Fault, state: State, interval: Interval, index: int) -> None:
        """Decides whether the code sets in this interval, and whether it fails at the scan."""
        rng, cause = self.rng, fault.cause
        volts = interval.volts - fault.module.drop
        if cause == "low-voltage":
            state.set_now = sets(fault, interval.dips) and (index == 0 or rng.random() < fault.chance)
            state.failing = volts < fault.threshold and (state.set_now or rng.random() < fault.chance)
            ran = rng.random() < opportunity(fault, interval, max(index, 1))
        elif cause == "hard":
            ran = rng.random() < opportunity(fault, interval, index)
            state.set_now = ran and rng.random() < (0.96 if index == 0 else fault.chance)
            state.failing = state.set_now and self._shows(fault, interval)
        elif cause == "intermittent":
            minutes = _exposure(fault, interval) * (not fault.trigger or fault.trigger in interval.triggers)
            ran = rng.random() < opportunity(fault, interval, max(index, 1))
            state.set_now = rng.random() < (0.93 if index == 0 else 1.0 - math.exp(-fault.rate * minutes))
            state.failing = (
                state.set_now and self._shows(fault, interval) and rng.random() < 0.25 + 0.3 * (fault.rate > 0.5)
            )
        elif cause == "echo" and fault.target is not None:
            target = self.states[self.index_of[id(fault.target)]]
            state.set_now = (target.set_now or target.failing) and rng.random() < fault.chance
            ran, state.failing = state.set_now, state.set_now and target.failing
        else:
            state.set_now = index == fault.born
            ran = rng.random() < opportunity(fault, interval, max(index, 1)) and not fault.locked
        self._note(fault, state, interval, index, ran)

    def _shows(self, fault: Fault, interval: Interval) -> bool:
        """Whether a fault that failed in the interval still reads as failing at the scan."""
        if fault.monitor in "KN":
            return True
        return self.rng.random() < (0.85 if interval.engine == "running" else 0.1)

    def _note(self, fault: Fault, state: State, interval: Interval, index: int, ran: bool) -> None:
        """Bookkeeping of tests and failures, as ISO 14229-1 keeps it."""
        if ran or state.set_now:
            state.tested = state.tested_cycle = True
        if not state.set_now and not state.failing:
            return
        state.set_now = True
        state.failed_since = True
        state.failed_cycle = state.failing or index > 0
        state.trips += 1
        state.lately = index > 0 or state.failing or self.rng.random() < LATELY[fault.cause]
        state.count += 1 + (int(self.rng.expovariate(OFTEN[fault.cause])) if index == 0 or fault.persists else 0)
        state.pending = fault.trips == 2 and index > 0 and state.trips == 1
        state.confirmed_once = state.confirmed_once or not state.pending
        if state.frame is None:
            state.frame, state.set_in = self._frame(fault, interval, index), index

    def _frame(self, fault: Fault, interval: Interval, index: int) -> float:
        """Volts at the module when the code set."""
        rng = self.rng
        if fault.cause == "low-voltage":
            reached = min(
                (level for level, seconds in interval.dips if seconds >= fault.seconds), default=interval.volts
            )
            return max(
                rng.uniform(reached, max(reached, fault.threshold))
                if rng.random() < 0.6
                else fault.threshold - 0.1,
                4.0,
            )
        if index == 0:
            return rng.uniform(12.1, 14.5) if rng.random() < 0.9 else rng.uniform(9.0, 12.1)
        return interval.volts - fault.module.drop

    def _list(self, fault: Fault, state: State, index: int) -> None:
        """What the list holds: everything since the clear, or only what failed since the snapshot before."""
        failed = state.set_now or state.failing
        if fault.module.memory or fault.locked or (index > 0 and self._untouched(fault.module, index)):
            state.listed = state.listed or failed
        else:
            state.listed = failed

    def _untouched(self, module: Module, index: int) -> bool:
        """Whether no clear has taken in the module up to interval ``index``."""
        return all(not i.clears or self.kept(module, n) for n, i in enumerate(self.supply.intervals[: index + 1]))

    def responds(self, module: Module, index: int) -> bool:
        """Whether a module answers at the snapshot."""
        interval = self.supply.intervals[index]
        if module.silent == "asleep":
            return False
        if module.silent == "unfed" and index < module.mended:
            return False
        if module.silent == "rebooting" and index < module.mended:
            return self.rng.random() < 0.6
        return interval.volts - module.drop > module.dropout
