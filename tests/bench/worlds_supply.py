"""The supply of one invented session: what the volts truly did in each interval.

An interval ends with a snapshot. Its dips are (volts, seconds below about that level) at the battery of a 12 V
vehicle; a 24 V vehicle shows twice the volts. Crank plateaus, charging bands and rested voltages follow common
practice for lead-acid batteries; the levels at which a module must still work are those of ISO 16750-2.
"""

from __future__ import annotations

import math
import random
from dataclasses import dataclass, field

from worlds_styles import Style


@dataclass(slots=True)
class Interval:
    """The time from one snapshot to the next, and the state in which the next was taken."""

    phase: str
    clears: bool = False  # starts with a clear
    minutes: float = 10.0
    ran: float = 0.0  # minutes of engine running (or ready)
    drove: bool = False
    speed: float = 0.0  # highest, km/h
    engine: str = "off"
    key_cycle: bool = False
    dips: list[tuple[float, float]] = field(default_factory=list)
    volts: float = 12.4  # at the scan
    outside: str = "none"
    triggers: frozenset[str] = frozenset()
    coolant: float = 20.0

    @property
    def lowest(self) -> float:
        """The lowest level of the interval that lasted long enough to be more than a spike."""
        return min([self.volts, *(level for level, _ in self.dips)])


@dataclass(slots=True)
class Supply:
    """The session's intervals and the true state of battery and charging."""

    trouble: str
    battery_weak: bool
    charging_failed: bool
    intervals: list[Interval] = field(default_factory=list)


def log_uniform(rng: random.Random, low: float, high: float) -> float:
    """A draw with equal chance for each factor of ten between ``low`` and ``high``."""
    return math.exp(rng.uniform(math.log(low), math.log(high)))


def _trouble(rng: random.Random) -> tuple[str, list[tuple[float, float]], float]:
    """Kind of trouble, its dips, and the battery's own resting volts when the technician arrives."""
    kind = rng.choices(("flat", "weak crank", "charging"), (0.6, 0.28, 0.12))[0]
    if kind == "flat":  # days of draw: minutes and hours at each level on the way down
        level = rng.triangular(2.0, 10.0, 7.0)
        dips = [(level, log_uniform(rng, 60, 7200)), (min(level + 1.5, 11.0), 3600.0)]
        return kind, dips, rng.uniform(10.0, 12.1)
    if kind == "weak crank":  # several tries, each a second or two
        level = rng.uniform(5.5, 9.0)
        return kind, [(level, rng.uniform(0.3, 4.0)), (rng.uniform(9.8, 11.3), 600.0)], rng.uniform(11.3, 12.2)
    level = rng.uniform(7.0, 10.2)  # driven until the battery gave out
    return kind, [(level, log_uniform(rng, 20, 600)), (10.8, 900.0)], rng.uniform(10.8, 12.0)


def draw_supply(rng: random.Random, style: Style) -> Supply:
    """The whole time line of one session."""
    kind, dips, resting = _trouble(rng)
    weak = rng.random() < style.weak_at_crank
    failed = kind == "charging" or rng.random() < style.charging_failed
    supply = Supply(kind, weak, failed)
    helped = rng.choice(("jump pack", "charger", "donor vehicle", "jump pack", "none"))
    volts = rng.uniform(12.6, 14.2) if helped != "none" and rng.random() < 0.5 else resting
    supply.intervals.append(
        Interval(
            "before-clear",
            minutes=log_uniform(rng, 600, 20000),
            ran=200,
            drove=True,
            speed=110,
            dips=dips,
            volts=volts,
            outside=helped if volts > 12.5 else "none",
            triggers=frozenset({"any"}),
        )
    )
    if rng.random() < style.after_clear:
        supply.intervals.append(_after_clear(rng, style, helped, resting))
    for _ in range(1 + (rng.random() < style.second_run)):
        supply.intervals.append(_after_run(rng, style, supply))
    if rng.random() < style.after_repair:
        last = _after_run(rng, style, supply)
        last.phase, last.clears = "after-repair", rng.random() < 0.85
        supply.intervals.append(last)
    first = next((i for i in supply.intervals[1:] if i.phase in ("after-clear", "after-run")), None)
    if first is not None:
        first.clears = True
    return supply


def _after_clear(rng: random.Random, style: Style, helped: str, resting: float) -> Interval:
    """The minutes between the clear and the scan that follows it, key on, engine off."""
    held = helped != "none" and rng.random() < 0.85
    volts = rng.uniform(12.4, 13.8) if held else max(resting, rng.uniform(11.6, 12.6))
    interval = Interval(
        "after-clear",
        minutes=rng.uniform(4, 15),
        key_cycle=rng.random() < 0.7,
        volts=volts,
        outside=helped if held else "none",
        triggers=_triggers(rng, 0.08, False),
    )
    if (
        rng.random() < style.sag_after_clear
    ):  # support taken off, a start that failed, key on for long with a tired battery
        if rng.random() < 0.2:
            interval.dips.append((rng.uniform(6.5, 10.0), rng.uniform(0.5, 4.0)))
        else:  # ... and still low while the scan runs
            sunk = rng.triangular(7.5, 11.8, 10.5)
            interval.dips.append((sunk, log_uniform(rng, 30, 600)))
            interval.volts, interval.outside = sunk + rng.uniform(0.0, 0.5), "none"
    return interval


def _after_run(rng: random.Random, style: Style, supply: Supply) -> Interval:
    """A start and one to thirty minutes of running, at idle or driven, then a scan running or with the key on."""
    drove = rng.random() < style.drives
    minutes = rng.uniform(8, 30) if drove else log_uniform(rng, 1, 20)
    support = rng.random() < style.support_in_run
    plateau = rng.uniform(6.3, 9.6) if supply.battery_weak and not support else rng.uniform(9.7, 11.2)
    interval = Interval(
        "after-run",
        minutes=minutes + rng.uniform(3, 8),
        ran=minutes,
        drove=drove,
        speed=rng.uniform(25, 120) if drove else 0.0,
        key_cycle=True,
        dips=[(plateau, rng.uniform(0.4, 2.5))],
        outside=rng.choice(("jump pack", "charger")) if support else "none",
        coolant=min(92.0, 20.0 + 6.0 * minutes),
        triggers=_triggers(rng, 0.3, drove),
    )
    interval.engine = "running" if rng.random() < 0.55 else "off"
    if not support and (supply.charging_failed or (interval.engine == "off" and rng.random() < style.tired)):
        sunk = rng.triangular(8.2, 11.5, 9.0)
        interval.dips.append((sunk, minutes * 30.0))
        interval.volts = sunk + rng.uniform(0.1, 1.0)
    elif interval.engine == "running":
        interval.volts = rng.uniform(13.5, 14.6)
    else:
        interval.volts = rng.uniform(12.3, 13.0)
    return interval


def _triggers(rng: random.Random, share: float, drove: bool) -> frozenset[str]:
    """What an intermittent may wait for: wet, heat, cold, bumps, movement."""
    found = {name for name in ("wet", "heat", "cold", "movement") if rng.random() < share}
    if drove:
        found.add("bumps")
    return frozenset(found)
