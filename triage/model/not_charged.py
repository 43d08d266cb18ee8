"""A supply with the engine running (or the drive READY) that no charging holds, though it is not below the lowest limit.

Commanded charging may rest a full battery at some 12.4 to 13.2 V; it holds a level or raises it on demand. So what lies
no higher than the battery had by itself, falls while it runs, or gives way to lamps and blower, is not charged; and a
converter does not rest its battery there (common practice). An outside supply that nobody noted could only raise it.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import NamedTuple

from triage.model.snapshot import Snapshot

#: A figure that is the same as another, V.
_SAME = 0.05
#: Two readings of one run that lie this far apart fall, V (twice what a meter may be off in tenths).
FALLS = 0.2
#: What loads a supply, in four languages; "without load" is none.
_LOADS = re.compile(
    r"(?<![a-z])(?:loads?|loaded|lights?|head-?lights?|headl[ai]mps?|lamps?|beams?|blower|demist\w*|defrost\w*|"
    r"consumers|last|verbraucher|licht|fernlicht|abblendlicht|gebl(?:ä|ae|a)se|heckscheibe\w*|phares|feux|ventilation|"
    r"consommateurs|en charge|luces|faros|ventilador|consumidores|con carga)(?![a-z])")
_UNLOADED = re.compile(
    r"(?<![a-z])(?:no|without|off|all off|ohne|sans|sin)(?: \w+)? (?:loads?|lights?|lamps?|last|verbraucher|licht|charge|"
    r"consommateurs|phares|carga|luces|consumidores)(?![a-z])|unloaded|unbelastet|"
    r"(?<![a-z])(?:lights?|lamps?|loads?|blower|licht|verbraucher|phares|luces) (?:are |all )?(?:off|aus|eteints|apagad\w*)")


class Levels(NamedTuple):
    """Volts of this system: what commanded charging goes down to, and what a charged battery has by itself."""

    commanded: float
    charged: float


def is_loaded(low: str) -> bool:
    """Whether a text in small letters says that a supply was read with consumers on.

    >>> [is_loaded(low) for low in ("12.1 v, lamps and blower on", "mit licht und geblaese", "lights off", "idle")]
    [True, True, False, False]
    """
    return _LOADS.search(low) is not None and _UNLOADED.search(low) is None


def not_charged(shots: Sequence[Snapshot], place: int, levels: Levels, *, loaded: bool = False) -> str | None:
    """Why the supply read in ``shots[place]``, which ran, is of a battery that nothing charges; None where commanded
    charging may hold it. ``shots`` in their order."""
    shot = shots[place]
    if shot.volts is None or shot.engine not in ("running", "ready") or shot.outside_supply not in (
            None, "none", "unknown") or shot.volts >= levels.charged:
        return None
    if shot.volts < levels.commanded:
        return f"below the {levels.commanded:.1f} V that commanded charging goes down to: it does not charge"
    if shot.engine == "ready":
        return (f"a converter that works holds more than the {levels.charged:.1f} V of a charged battery: it does not "
                "charge")
    if loaded:
        return f"with consumers on, below the {levels.charged:.1f} V of a charged battery: it does not charge"
    for other in shots[place - 1 :: -1] if place else ():
        if other.volts is None or other.outside_supply not in (None, "none", "unknown"):
            continue
        if other.engine == "running" and shot.volts <= other.volts - FALLS and other.volts < levels.charged:
            return f"falling from {other.volts:.1f} V while it runs, where charging would hold it: it does not charge"
        if other.engine == "off" and shot.volts <= other.volts + _SAME:
            return f"no more than the {other.volts:.1f} V it had with the engine off: it does not charge"
    return None


__all__ = ["FALLS", "Levels", "is_loaded", "not_charged"]
