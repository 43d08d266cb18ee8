"""The rates and levels of the evidence model as arrays, read once from the rates table.

Every number stands in ``code_tables/rates.csv`` with its source; this file only knows their names and shapes.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from triage.model.casebook import RELATIONS
from triage.model.verdict import CAUSES

if TYPE_CHECKING:
    from code_tables import Tables
    from triage.model.casebook import Floats, Ints

MONITORS = ("key on", "commanded output", "network", "running", "warm", "speed", "drive cycle", "cold soak",
            "event", "high voltage")
MONITOR_INDEX = {name: place for place, name in enumerate(MONITORS)}
#: Kinds of code that share a prior: the supply-level classes, then the relations that change the rivals.
NOISES = ("network", "supply", "self", "electronic", "mechanical")
KINDS = (*NOISES, *RELATIONS)
#: What a lowest supply as read is off by for the setting of codes, V, and the share of each (project's own choice):
#: a slow meter misses the bottom of a dip; a short dip sets fewer codes than its depth would.
SHIFTS = (-2.0, -1.0, -0.4, 0.0, 0.6, 1.3, 2.5)
SHIFT_SHARES = (0.03, 0.05, 0.10, 0.45, 0.20, 0.10, 0.07)
#: What the module says of a code: the printed words, and "passing" (its status byte says tested and not failing).
WORDS = ("current", "stored", "pending", "confirmed", "permanent", "passing")

#: Bands of kilometres since a freeze frame was stored, of occurrences of a fault, and how its frame shows the vehicle.
BACK_BANDS = ("today", "near", "some", "far", "long")
COUNT_BANDS = ("once", "twice", "few", "several", "many")
MOTIONS = ("standing", "idling", "moving")


class Parameters(NamedTuple):
    """Arrays of the model. Levels in volts of a 12 V system, rates per minute, the rest chances."""

    prior: Floats            # KINDS x CAUSES, rows add up to 1
    level_mean: Floats       # NOISES
    level_spread: Floats     # NOISES
    levels: Floats           # grid of supply levels, V
    level_weight: Floats     # NOISES x levels, rows add up to 1
    rates: Floats            # grid of an intermittent's rate, 1/min
    rate_weight: Floats      # rates, adds up to 1
    depths: Floats           # grid of an unknown lowest supply, V
    shifts: Floats           # grid of what a known lowest supply is off by, V
    shift_weight: Floats     # shifts, adds up to 1
    word_first: Floats       # CAUSES x WORDS, in the first snapshot
    word_later: Floats       # CAUSES x WORDS, after
    back_share: Floats       # CAUSES x bands of kilometres since the frame was stored
    count_share: Floats      # CAUSES x bands of occurrences
    lately: Floats           # CAUSES: its byte says that it failed in this cycle or the one before
    motion_ratio: Floats     # standing, idling, moving: odds that low supply set the code, by its frame
    confused: Ints           # MONITORS x 4: the monitors that may be at work where one is named, itself first
    confusion: Floats        # MONITORS x 4: the chance of each
    confusion_range: Floats  # likewise where only the range of the code names it
    low_by_monitor: Floats   # MONITORS: factor on low voltage for a code of that monitor
    tables: Tables

    def rate(self, key: str) -> float:
        """One number of the rates table."""
        return self.tables.rate(key)


@lru_cache(maxsize=4)
def parameters(tables: Tables) -> Parameters:
    """The parameters in ``tables``."""
    rate = tables.rate
    prior = np.array([[rate(f"prior.{kind}.{cause}") for cause in CAUSES] for kind in KINDS])
    mean = np.array([rate(f"level.{noise}.mean") for noise in NOISES])
    spread = np.array([rate(f"level.{noise}.spread") for noise in NOISES])
    levels = np.linspace(rate("level.least"), rate("level.most"), 12)
    weight = np.exp(-0.5 * ((levels - mean[:, None]) / spread[:, None]) ** 2)
    rates = np.geomspace(rate("intermittent.slowest"), rate("intermittent.fastest"), 5)
    words = [[[rate(f"word.{when}.{cause}.{word}") for word in WORDS] for cause in CAUSES]
             for when in ("first", "later")]
    return Parameters(
        shifts=np.array(SHIFTS), shift_weight=np.array(SHIFT_SHARES),
        prior=prior / prior.sum(axis=1, keepdims=True), level_mean=mean, level_spread=spread, levels=levels,
        level_weight=weight / weight.sum(axis=1, keepdims=True), rates=rates,
        rate_weight=np.full(rates.size, 1.0 / rates.size),
        depths=np.array([6.0, 7.5, 8.5, 9.5, 10.5, 11.3]), word_first=np.array(words[0]),
        word_later=np.array(words[1]),
        back_share=np.array([[rate(f"frame.back.{cause}.{band}") for band in BACK_BANDS] for cause in CAUSES]),
        count_share=np.array([[rate(f"count.first.{cause}.{band}") for band in COUNT_BANDS] for cause in CAUSES]),
        lately=np.array([rate(f"byte.lately.{cause}") for cause in CAUSES]),
        motion_ratio=np.array([rate(f"frame.low.{state}") / rate(f"frame.others.{state}") for state in MOTIONS]),
        confused=np.array([
            [MONITOR_INDEX[name] for name in (monitor, *_NEIGHBOURS[monitor])] for monitor in MONITORS]),
        confusion=_confusion(rate("monitor.named")), confusion_range=_confusion(rate("monitor.by_range")),
        low_by_monitor=np.array([rate(f"low.{monitor}") for monitor in MONITORS]), tables=tables,
    )


#: Monitors that take each other's place when a table names the wrong one, nearest first.
_NEIGHBOURS = {
    "key on": ("commanded output", "running", "event"), "commanded output": ("key on", "running", "speed"),
    "network": ("key on", "running", "commanded output"), "running": ("key on", "warm", "speed"),
    "warm": ("running", "drive cycle", "speed"), "speed": ("running", "key on", "drive cycle"),
    "drive cycle": ("warm", "speed", "cold soak"), "cold soak": ("drive cycle", "warm", "running"),
    "event": ("key on", "cold soak", "commanded output"), "high voltage": ("key on", "running", "event"),
}


def _confusion(sure: float) -> Floats:
    """MONITORS x 4: ``sure`` on the named monitor, the rest spread over its three neighbours."""
    return np.tile([sure, *[(1.0 - sure) * share for share in (0.5, 0.3, 0.2)]], (len(MONITORS), 1))
