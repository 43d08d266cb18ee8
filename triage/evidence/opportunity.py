"""Opportunity: how far a code's monitor can have run between two snapshots.

The classes and what they need are common practice; the limits (20 minutes of mixed driving, 40 km/h, warm at
70 degrees Celsius) follow the legally counted trip of 40 CFR 86.010-18 (d)(4)(ii). Below the supply at which a
monitor may be switched off (11.0 V for emission monitors, 40 CFR 86.010-18 (i)(5)(iv)(A)) it proves little.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from triage.evidence.parameters import MONITOR_INDEX, MONITORS
from triage.model.casebook import Casebook, Floats, Timeline

if TYPE_CHECKING:
    from triage.evidence.parameters import Parameters

#: Monitors whose result counts for emissions and which may be off below 11.0 V.
_EMISSION = ("running", "warm", "drive cycle", "cold soak")
#: Monitors that come to a result only after minutes of warm or mixed driving (40 CFR 86.1806-05).
LASTING = ("warm", "drive cycle", "cold soak")
#: A year of minutes: more is a slip, and would be no number in the sums.
_LONGEST = 525_600.0


def minutes_run(book: Casebook, params: Parameters) -> Floats:
    """S x K: engine minutes before each snapshot; the usual figure of the phase where nobody said."""
    after_run = book.phase == 2
    later = book.phase == 3
    usual = np.where(
        after_run, params.rate("run.minutes_usual"), np.where(later, params.rate("run.minutes_repair"), 0.0))
    usual = np.where((book.engine_on == 1) & (usual == 0.0), params.rate("run.minutes_engine_on"), usual)
    return np.where(np.isnan(book.minutes), usual, np.minimum(book.minutes, _LONGEST))


def exposure(book: Casebook, params: Parameters) -> Floats:
    """S x K: minutes in which an intermittent fault could show, the scan itself included."""
    minutes = minutes_run(book, params) + params.rate("scan.minutes")
    first = np.zeros(book.exists.shape, dtype=bool)
    first[:, 0] = book.phase[:, 0] <= 0
    return np.where(first, params.rate("history.minutes"), minutes)


def opportunities(book: Casebook, line: Timeline, params: Parameters) -> Floats:
    """S x K x MONITORS: chance that a monitor of that class ran to a result since the snapshot before."""
    minutes = minutes_run(book, params)
    drove = np.where(np.isnan(book.drove), np.where(book.speed > 8.0, 1.0, np.where(
        (book.phase >= 2) & (minutes >= 8.0), params.rate("run.drove_unsaid"), 0.0)), book.drove)
    drove = np.where(minutes > 0, drove, np.where(np.isnan(book.drove), 0.0, book.drove))
    running = 1.0 - np.exp(-minutes / params.rate("monitor.running_minutes"))
    warm_start = np.nan_to_num(book.coolant, nan=20.0) >= 70.0
    warm_need = np.where(warm_start, 1.0, params.rate("monitor.warm_minutes"))
    warm = _ramp(minutes, warm_need * 0.5, warm_need * 2.0) * (0.45 + 0.5 * drove)
    moved = drove * np.where(np.isnan(book.speed), 0.95, _ramp(book.speed, 8.0, 40.0))
    cycle = drove * _ramp(minutes, 6.0, 26.0) * 0.9
    ready = np.where(minutes > 0, 0.75, 0.3)
    table = np.zeros((*book.exists.shape, len(MONITORS)))
    for name, chance in (
        ("key on", 0.97), ("network", 0.97), ("commanded output", 0.2 + 0.35 * running + 0.25 * drove * running),
        ("running", 0.95 * running), ("warm", warm), ("speed", moved), ("drive cycle", cycle),
        ("cold soak", np.where(cycle > 0.5, 0.06, 0.02)), ("event", 0.04), ("high voltage", ready),
    ):
        table[:, :, MONITOR_INDEX[name]] = chance
    table *= _supply_window(book, line, params)
    first = book.phase[:, 0] <= 0
    table[first, 0, :] = params.rate("first.opportunity")
    return table


def _supply_window(book: Casebook, line: Timeline, params: Parameters) -> Floats:
    """S x K x MONITORS: how far the supply was inside the monitor's window (1 where nobody read it)."""
    scale = line.scale[:, None]
    volts = book.volts / scale
    any_monitor = np.where(volts < params.rate("window.network"), 0.4, 1.0)
    emission = np.where(volts < params.rate("window.emission"), 0.35, 1.0)
    window = np.repeat(any_monitor[:, :, None], len(MONITORS), axis=2)
    for name in _EMISSION:
        window[:, :, MONITOR_INDEX[name]] = np.minimum(any_monitor, emission)
    return window


def _ramp(value: Floats, low: Floats | float, high: Floats | float) -> Floats:
    """0 at ``low`` and below, 1 at ``high`` and above, straight between."""
    return np.clip((value - low) / (np.asarray(high) - low), 0.0, 1.0)
