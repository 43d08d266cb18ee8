"""Writes what a technician's scan of the invented vehicle would say: the snapshots of a job file."""

from __future__ import annotations

import random
from datetime import datetime, timedelta
from typing import Any

from worlds_faults import Fault, Module
from worlds_scan import Run, State
from worlds_supply import Interval

TOOLS = ("none", "words", "lists", "bytes")
#: Mean distance since a code of each cause set: the low supply is why the vehicle came, an old fault is long past.
BACK_KM = {"hard": 400.0, "intermittent": 300.0, "low-voltage": 15.0, "history": 2500.0, "echo": 100.0}


class Writer:
    """What the technician's tool shows and what he notes; drawn once a session."""

    def __init__(self, rng: random.Random, run: Run) -> None:
        self.rng, self.run, self.style = rng, run, run.style
        style = run.style
        self.tool = rng.choices(TOOLS, style.tools)[0]
        self.mask = rng.choice((0xFF, 0xFF, 0x7F, 0x2F, 0xEF))
        self.truck = run.builder.drive == "diesel" and rng.random() < 0.06
        self.scale = 2.0 if self.truck else 1.0
        self.frames = rng.random() < style.freeze_frames
        self.motion = rng.random() < 0.6
        self.module_volts = rng.random() < style.module_volts
        self.counters = rng.random() < style.counters
        self.lowest_known = rng.random() < style.lowest_known + 0.1
        self.reads_pending = rng.random() < style.pending_read
        self.reads_permanent = self.tool in ("lists", "bytes") and rng.random() < 0.4
        self.says_lists = rng.random() < style.lists_said
        self.says_responds = rng.random() < 0.8
        self.permanent = {
            id(f)
            for f in run.faults
            if f.module.kind.emission and f.code[0] == "P" and rng.random() < (0.6 if f.persists else 0.12)
        }
        self.odometer = rng.randint(9000, 240000)
        self.minutes_since = self.km_since = 0.0
        self.warm_ups = 0

    def snapshot(self, index: int, states: list[State], at: datetime) -> dict[str, Any]:
        """One snapshot of the job file."""
        rng, interval = self.rng, self.run.supply.intervals[index]
        out: dict[str, Any] = {"phase": interval.phase, "at": at.isoformat()}
        self._conditions(out, interval, index)
        if self.says_lists:
            out["lists_read"] = (
                ["confirmed"] + ["pending"] * self.reads_pending + ["permanent"] * self.reads_permanent
            )
        self._counters(out, interval, index)
        quick = index > 0 and rng.random() < self.style.quick_scan
        modules = []
        listed: dict[int, list[tuple[Fault, State]]] = {}
        for fault, state in zip(self.run.faults, states, strict=True):
            listed.setdefault(id(fault.module), []).append((fault, state))
        for module in self.run.builder.modules:
            skipped = rng.random() < self.style.unscanned or (quick and not module.kind.emission)
            entry = self._module(module, listed.get(id(module), []), interval, index)
            if not skipped or module.kind.name == "engine control":
                modules.append(entry)
        out["modules"] = modules
        return out

    def _volts(self, value: float) -> float:
        return round(self.scale * value, 1)

    def _conditions(self, out: dict[str, Any], interval: Interval, index: int) -> None:
        """Engine, minutes, supply: each noted or not."""
        rng, style = self.rng, self.style
        if rng.random() < style.conditions_known:
            engine = interval.engine
            out["engine"] = "ready" if engine == "running" and self.run.builder.drive == "electric" else engine
            if index > 0:
                out["ran_minutes"], out["drove"] = round(interval.ran, 1), interval.drove
            if interval.drove and index > 0 and rng.random() < 0.7:
                out["max_speed_kmh"] = float(round(interval.speed))
            if rng.random() < 0.3:
                out["coolant_c"] = float(round(interval.coolant))
        if rng.random() < style.conditions_known:
            out["outside_supply"] = interval.outside
        if rng.random() < style.volts_known:
            out["volts"] = self._volts(interval.volts + rng.gauss(0, 0.05))
        known = (
            rng.random() < style.first_lowest_known
            if index == 0
            else self.lowest_known and rng.random() < style.lowest_known + 0.1
        )
        if known:
            lowest = interval.lowest
            if index > 0 and lowest < interval.volts and rng.random() < 0.08:  # polled too slowly for a crank dip
                lowest = min(interval.volts, lowest + rng.uniform(0.5, 2.0))
            out["lowest_volts"] = self._volts(lowest + rng.gauss(0, 0.05))
            if rng.random() < 0.2:
                out["low_seconds"] = round(sum(seconds for level, seconds in interval.dips if level < 10.5), 1)

    def _counters(self, out: dict[str, Any], interval: Interval, index: int) -> None:
        """Since-clear counters of the engine module."""
        engine = self.run.builder.by_name.get("engine control")
        if index == 0:
            self.minutes_since, self.km_since, self.warm_ups = (
                self.rng.uniform(3000, 60000),
                self.rng.uniform(800, 30000),
                200,
            )
        if interval.clears and engine is not None and not self.run.kept(engine, index):
            self.minutes_since, self.km_since, self.warm_ups = 0.0, 0.0, 0
        self.minutes_since += interval.ran if index else 0.0
        self.km_since += interval.ran * interval.speed / 120 if interval.drove and index else 0.0
        self.warm_ups += int(index > 0 and interval.ran > 9)
        if self.counters and engine is not None:
            out["since_clear"] = {
                "warm_ups": min(255, self.warm_ups),
                "distance_km": float(round(self.km_since)),
                "minutes": float(round(self.minutes_since)),
            }

    def _module(
        self, module: Module, known: list[tuple[Fault, State]], interval: Interval, index: int
    ) -> dict[str, Any]:
        """One module's answer."""
        rng = self.rng
        responds = self.run.responds(module, index)
        entry: dict[str, Any] = {"module": module.printed}
        if not responds or self.says_responds:
            entry["responds"] = responds
        entry["codes"] = []
        if not responds:
            return entry
        if self.module_volts and rng.random() < 0.5:
            entry["volts"] = self._volts(interval.volts - module.drop + rng.gauss(0, 0.05))
        if self.tool == "bytes":
            entry["status_mask"] = self.mask
        codes = [code for fault, state in known if (code := self._code(fault, state, index)) is not None]
        rng.shuffle(codes)
        entry["codes"] = codes
        return entry

    def _code(self, fault: Fault, state: State, index: int) -> dict[str, Any] | None:
        """One code as listed, or None where the list that was read does not hold it."""
        rng = self.rng
        entry: dict[str, Any] = {"code": fault.code}
        if fault.failure_type is not None:
            entry["failure_type"] = fault.failure_type
        if not state.listed or (state.pending and not self.reads_pending):
            if (
                self.reads_permanent
                and index > 0
                and id(fault) in self.permanent
                and state.confirmed_once
                and self.tool == "lists"
            ):
                return entry | {"status": "permanent"}
            return None
        if self.tool == "bytes":
            entry["status_byte"] = self._byte(state) & self.mask
        elif self.tool == "lists":
            if fault.module.kind.emission:
                entry["status"] = "pending" if state.pending else "confirmed"
        elif self.tool == "words":
            word = "current" if state.failing else ("pending" if state.pending else "stored")
            if rng.random() < self.style.word_slip:
                word = rng.choice(("current", "stored"))
            entry["status"] = word
        if self.frames and rng.random() < 0.65:
            entry["count"] = min(126, max(1, state.count))
            if state.frame is not None:
                state.stored = state.stored or self._frame(state, fault.cause)
                entry["freeze_frame"] = state.stored
        return entry

    def _frame(self, state: State, cause: str) -> dict[str, float]:
        """A freeze frame: when the code set, and how the vehicle moved then."""
        rng = self.rng
        back = rng.expovariate(1 / BACK_KM[cause]) if not rng.random() < 0.1 else rng.expovariate(1 / 200.0)
        if state.set_in:
            back = min(back, self.km_since)  # set at this visit
        frame = {"volts": self._volts(state.frame or 0.0), "distance_km": float(max(0, round(self.odometer - back)))}
        if self.motion:
            stood = 0.9 if cause == "low-voltage" else 0.6
            speed = 0.0 if rng.random() < stood else rng.uniform(10.0, 110.0)
            idles = speed > 0 or rng.random() < (0.1 if cause == "low-voltage" else 0.4)
            engine = rng.uniform(700.0, 2600.0) if idles else 0.0
            frame |= {"speed_kmh": float(round(speed)), "engine_rpm": float(round(engine))}
        return frame

    def _byte(self, state: State) -> int:
        """The status byte of ISO 14229-1 for this state."""
        now, cycle = state.failing, state.failed_cycle
        confirmed = state.confirmed_once and not state.pending
        return (
            0x01 * now
            | 0x02 * (cycle or now)
            | 0x04 * (cycle or state.pending or state.lately)
            | 0x08 * confirmed
            | 0x10 * (not state.tested)
            | 0x20 * state.failed_since
            | 0x40 * (not state.tested_cycle and not now)
            | 0x80 * (confirmed and now)
        )


def step_time(at: datetime, interval: Interval) -> datetime:
    """The time of the snapshot that ends ``interval``."""
    return at + timedelta(minutes=round(min(interval.minutes, 240.0)) + 6)
