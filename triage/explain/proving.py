"""The run that proves a fault gone after a repair or a clear, and the condition that makes a clean scan a clean test.

What comes as a door is moved, in frost or up a hill stays away without it, however well everything else is run (common
practice).
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from triage.explain.heard import heard
from triage.model.triggers import (
    BY_HAND,
    COLD,
    HOT,
    LOOM,
    SLOW,
    SPEED,
    TRAILER,
    TURNS,
    WET,
    Trigger,
    told_trigger,
    trigger_of,
)

if TYPE_CHECKING:
    from code_tables import CodeFacts, Tables
    from triage.model.snapshot import Snapshot

#: Monitor class -> what it needs, and the run that proves it (common practice; 40 CFR 86.010-18 (d)(4)(ii)).
RUNS = {
    "key on": ("key off until the modules sleep, then key on", "key off until the modules sleep, key on, read again"),
    "network": ("some seconds of key on with all modules awake",
                "key on for 10 s with all modules awake, read again"),
    "commanded output": ("its output commanded", "work the output it watches, then read again"),
    "running": ("the engine running", "run the engine 10 minutes, then read again"),
    "warm": ("a warm engine on the road", "10 minutes of steady driving with the engine warm, then read again"),
    "speed": ("road speed", "drive above 40 km/h, straight and through turns, then read again"),
    "drive cycle": ("a cold start and a mixed drive",
                    "a cold start and 10 to 30 minutes of mixed driving until its monitor reads complete"),
    "cold soak": ("hours at rest", "6 to 8 hours at rest with the tank between 15 and 85 %, a cold start and a drive"),
    "event": ("its event", "the event itself under control, then read again"),
    "high voltage": ("the drive enabled", "drive enabled, a charge and a shutdown by a qualified person, read again"),
}
#: What comes before the road where braking or steering was at fault.
AT_REST = {
    "brakes": "pedal firm and lamp out at a standstill and at walking pace",
    "steering": "lock to lock at a standstill with the assistance on",
}
#: Monitors that come to a result with the engine off.
STANDING = ("key on", "network", "commanded output", "event")
#: Those moved by hand on the spot, with the vehicle standing.
_ON_THE_SPOT = tuple(name for name in BY_HAND if name not in (TRAILER.name, TURNS.name))
_FIGURE = re.compile(r"[0-9]{2,3}")


def proving_run(
    facts: CodeFacts, tables: Tables, scale: float, *, first: str | None, repair: bool, trigger: Trigger | None,
) -> str:
    """The run that would prove a fault gone: what its monitor needs, under what brings it on, standing before the road.

    ``first``: what has to be so before an engine is run; ``repair``: something was repaired.
    """
    run, road = RUNS[facts.monitor][1], RUNS["speed"][1]
    at_rest = AT_REST.get(facts.safety or "")
    slow = trigger is not None and trigger.name == SLOW.name
    if slow and trigger is not None:
        # The speed that it came at, not the one that its monitor is usually tried at.
        road = f"{trigger.proof}, then read again"
    if at_rest is not None:
        # Nobody proves brakes or steering on the road first (common practice).
        road = f"{at_rest}; then {road}"
    if facts.monitor == "speed":
        run = road
    if facts.monitor == "running" and facts.safety == "steering":
        run = f"{AT_REST['steering']}, 10 minutes with the engine running, then read again"
    if "wheel speed sensor" in facts.title and facts.monitor != "speed" and repair:
        # Air gap, ring and swapped sides show on the road alone (common practice).
        run = f"{run}; then {road}"
    under = _under(trigger, facts.safety)
    if under and not (slow and road in run):
        run = f"{under}, then read again" if trigger is not None and (
            trigger.name in _ON_THE_SPOT and facts.monitor in STANDING) else (
                f"{run.removesuffix(', then read again').removesuffix(', read again')}, and with it {under}, then read "
                "again")
    if first is not None and facts.monitor not in STANDING:
        run = f"{first}: {run}"
    supply = ", outside supply off" if facts.supply else ""
    pending = "; pending list too (a two-trip code), or two such runs with key off between" if facts.trips == 2 else ""
    return f"{run} (supply {tables.rate('supply.good') * scale:.1f} V or more{supply}){pending}"


def _under(trigger: Trigger | None, safety: str | None) -> str:
    """What makes the condition; nobody wets or bends the plugs of restraints and high voltage for it."""
    if trigger is None or safety == "high voltage" or (safety == "restraints" and trigger.name == LOOM.name):
        return ""
    return f"a drive {trigger.road}" if safety == "restraints" and trigger.name == WET.name else trigger.proof


def condition_of(facts: CodeFacts, system: str, texts: Sequence[str], complaint: str | None) -> Trigger | None:
    """What brings a fault on: as it is told beside the code, or in a ``complaint`` of its system or of none.

    ``system``: that of its module.
    """
    if facts.supply:
        return None
    if (told := told_trigger(texts)) is not None:
        return told
    if (said := trigger_of(complaint)) is None:
        return None
    areas = set(heard(complaint or "")[1])
    return said if not areas or not areas.isdisjoint((facts.system, facts.safety, system)) else None


def was_met(trigger: Trigger, snapshot: Snapshot, tables: Tables) -> bool:
    """Whether a scan tells that what brings the fault on was there; what nobody said was not."""
    coolant, drove = snapshot.coolant_c, bool(snapshot.drove)
    if trigger.name == HOT.name:
        return coolant is not None and coolant >= tables.rate("trigger.hot") and (drove or trigger is HOT)
    if trigger.name == COLD.name:
        return coolant is not None and coolant <= tables.rate("trigger.cold")
    if trigger.name == SPEED.name:
        figure = _FIGURE.search(trigger.road)
        return figure is not None and (snapshot.max_speed_kmh or 0.0) >= float(figure[0])
    if trigger.name == TRAILER.name:
        return any("trailer" in scan.module and scan.responds is not False for scan in snapshot.modules)
    # Every drive has its slow stretches and its turns.
    return trigger.name in (SLOW.name, TURNS.name) and drove


__all__ = ["RUNS", "condition_of", "proving_run", "was_met"]
