"""The steps that test many faults at once, and which monitors each of them brings to a result.

How far a step does is common practice; the chances are the project's own choice.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from triage.explain.fitness import DRIVEN, STEERING_DOUBT
from triage.explain.standing import Standings
from triage.model.casebook import Bools, Casebook, Floats, Ints

MONITORS = ("key on", "commanded output", "network", "running", "warm", "speed", "drive cycle", "cold soak",
            "event", "high voltage")


class Step(NamedTuple):
    """A step for all faults at once. ``runs``: chance that each monitor class comes to a result in it."""

    do: str
    where: str
    minutes: float
    passes_if: str
    gate: str | None
    runs: tuple[float, ...]


SUPPORT = "{nominal:g} V support connected, key cycled, {still}"
COMMON = (
    Step("hold the supply, clear all modules, cycle the key and read every module again", SUPPORT, 15.0,
         "supply {low:.1f} to {high:.1f} V throughout and the codes stay away", None,
         (0.95, 0.2, 0.95, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.3)),
    Step("run the engine 10 minutes with outside supply off, then read confirmed and pending codes",
         "at the vehicle, parked, exhaust led away", 15.0,
         "charging holds {charge:.1f} to {over:.1f} V and the codes stay away",
         "parking brake on, gear disengaged, nobody in front of the vehicle",
         (0.95, 0.3, 0.95, 0.95, 0.6, 0.0, 0.0, 0.0, 0.0, 0.5)),
    Step("drive 20 minutes of mixed road with some starts and stops, then read confirmed and pending codes",
         "on the road", 30.0, "the codes stay away and the monitors read complete",
         "braking and steering tried at walking pace first, no red warning lamp, and only where it may be driven",
         (0.95, 0.5, 0.95, 0.95, 0.9, 0.95, 0.75, 0.05, 0.05, 0.7)),
    Step("work what the codes name: outputs by the tester's actuator test, pedals, switches and a parking brake by "
         "hand; then read confirmed and pending codes", "at the vehicle, standing, key on", 10.0,
         "it works as commanded, its live value follows, and the codes stay away",
         "vehicle secured against rolling, hands clear of what moves",
         (0.0, 0.9, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.7, 0.0)),
    Step("let the engine stand a night, start it cold and read confirmed and pending codes", "at the vehicle, parked",
         20.0, "the codes stay away", "parking brake on, gear disengaged, nobody in front of the vehicle",
         (0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.7, 0.0, 0.0)),
)

CLEAR, RUN, DRIVE, WORK, COLD = COMMON
#: What stands in for the run where it can't be made as it stands.
READY = Step("switch the drive to READY for 10 minutes with outside supply off, shut it down, switch it to READY once "
             "more and read every module",
             "at the vehicle, parked", 15.0, "the converter holds {charge:.1f} to {over:.1f} V and the codes stay away",
             "parking brake on, selector in park, nobody in front of the vehicle", RUN.runs)
HELD = Step("run the engine 10 minutes with outside supply left on, then read confirmed and pending codes",
            "at the vehicle, parked, exhaust led away", 15.0, "the codes stay away", RUN.gate, RUN.runs)
HELD_READY = Step("switch the drive to READY for 10 minutes with outside supply left on, then read every module",
                  READY.where, 15.0, "the codes stay away", READY.gate, RUN.runs)


def not_driven(book: Casebook, standing: Standings, unfit: Bools, chance: Floats, monitor: Ints) -> Bools:
    """N: faults of brakes and steering that a drive would tell of, where nobody may drive: looked for standing."""
    driven = np.array([danger in DRIVEN for danger in standing.dangers], dtype=bool)
    road = np.isin(monitor, (MONITORS.index("speed"), MONITORS.index("drive cycle")))
    return np.asarray(driven & road & unfit[book.fault_session] & (chance >= STEERING_DOUBT))


def left_out(
    book: Casebook, standing: Standings, there: Bools, monitor: Ints, kept: Bools,
) -> list[Bools]:
    """N of each common step: faults that it tells nothing of. What is ``there`` is not run again; what is ``kept`` is
    not cleared before it was looked at; nobody works restraints and high voltage by a tester; and pump and valves of a
    brake are idle until it drives off or brakes."""
    bodily = np.array([danger in ("restraints", "high voltage") for danger in standing.dangers], dtype=bool)
    braking = np.array([danger == "brakes" for danger in standing.dangers], dtype=bool)
    idle = braking & (monitor == MONITORS.index("commanded output"))
    return [idle | kept, there | idle, there, bodily, there]


def monitors(book: Casebook) -> Ints:
    """N: place in MONITORS of what brings each fault's monitor to a result; a parking brake is tried by its switch,
    where only the range of its code names another."""
    parking = np.array([facts.name == "park brake" for facts in book.module_facts], dtype=bool)[book.fault_module]
    switched = parking & ~book.flags(lambda facts: facts.monitor_named)
    by_code = book.numbers(lambda facts: MONITORS.index(facts.monitor))
    return np.where(switched, MONITORS.index("commanded output"), by_code)


__all__ = ["CLEAR", "COLD", "COMMON", "DRIVE", "HELD", "HELD_READY", "MONITORS", "READY", "RUN", "WORK", "Step",
           "left_out", "monitors", "not_driven"]
