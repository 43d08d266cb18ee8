"""The choices another author of such a test bed could have made. Each style is one defensible set of them.

Nothing here is measured on vehicles: every figure is the project's own choice, written down so that it can be
argued with. ``mixed`` draws one style a session by the weights in MIX.
"""

from __future__ import annotations

from dataclasses import dataclass, replace


@dataclass(frozen=True, slots=True)
class Style:
    """Shares are 0..1, times minutes, levels volts on a 12 V vehicle."""

    name: str
    # What a scan lists
    memory: float = 0.7  # share of vehicles whose lists keep a code until cleared ("memory" against "live")
    tools: tuple[float, float, float, float] = (
        0.2,
        0.45,
        0.15,
        0.2,
    )  # no status, words, service lists, status bytes
    word_slip: float = 0.03  # a status word that is not what the mechanism would give
    failure_types: float = 0.5  # share of modules that give failure types
    pending_read: float = 0.75
    lists_said: float = 0.6
    unscanned: float = 0.02  # a module left out of a snapshot
    quick_scan: float = 0.05  # a snapshot of the emission modules only
    # What is known of the supply
    volts_known: float = 0.92
    lowest_known: float = 0.9
    first_lowest_known: float = 0.4
    module_volts: float = 0.25  # share of sessions with module volts
    freeze_frames: float = 0.4  # share of sessions with freeze frames
    counters: float = 0.3
    conditions_known: float = 0.9
    events_known: float = 0.9
    # The supply itself
    sag_after_clear: float = 0.2
    weak_at_crank: float = 0.35
    charging_failed: float = 0.7
    tired: float = 0.5  # a battery that sinks again while it is scanned with the engine off
    support_in_run: float = 0.25
    # Noise
    noise: float = 0.95  # factor on the number of codes that could set
    by_module: bool = False  # one level per module instead of one per code
    sets_again: tuple[float, float] = (0.8, 1.0)
    maker: float = 0.3
    # Faults that persist
    none: float = 0.13  # vehicles without any
    mean_extra: float = 1.0
    intermittent: float = 0.16
    seen: float = 0.985  # seen, given opportunity
    simple_monitors: bool = False  # key on or running only
    two_trips: bool = True
    silent_module: float = 0.08
    # Everything that imitates a fault
    refused: float = 0.005  # a module's clear not taken
    all_refused: float = 0.045  # nobody's clear taken
    history: float = 3.0
    echoes: float = 0.6
    locked: float = 0.06
    work: float = 0.08
    unplugged: float = 0.04
    # Snapshots
    after_clear: float = 0.88
    second_run: float = 0.4
    after_repair: float = 0.2
    drives: float = 0.65


_BASE = Style("memory", memory=1.0)
STYLES = {
    "memory": _BASE,
    "live": replace(_BASE, name="live", memory=0.0),
    "bare": replace(
        _BASE,
        name="bare",
        memory=0.8,
        tools=(1, 0, 0, 0),
        failure_types=0.0,
        module_volts=0,
        freeze_frames=0,
        counters=0,
        lowest_known=0.75,
        first_lowest_known=0.3,
        lists_said=0,
        locked=0,
        work=0,
        unplugged=0,
        second_run=0,
        after_repair=0,
        simple_monitors=True,
        two_trips=False,
        unscanned=0,
        quick_scan=0,
        conditions_known=0.6,
    ),
    "rich": replace(
        _BASE,
        name="rich",
        memory=0.6,
        tools=(0.05, 0.35, 0.15, 0.45),
        failure_types=0.8,
        module_volts=0.6,
        freeze_frames=0.7,
        counters=0.7,
        lowest_known=0.85,
        first_lowest_known=0.6,
        after_repair=0.35,
        work=0.2,
        unplugged=0.08,
        locked=0.12,
        refused=0.02,
    ),
    "blind": replace(
        _BASE,
        name="blind",
        memory=0.7,
        tools=(0.5, 0.5, 0, 0),
        volts_known=0.6,
        lowest_known=0.2,
        first_lowest_known=0.1,
        module_volts=0.1,
        freeze_frames=0.1,
        counters=0.1,
        events_known=0.5,
    ),
    "module": replace(_BASE, name="module", memory=0.7, by_module=True, sets_again=(0.95, 1.0)),
    "resag": replace(
        _BASE, name="resag", memory=0.8, sag_after_clear=0.35, weak_at_crank=0.5, charging_failed=0.75
    ),
    "steady": replace(
        _BASE,
        name="steady",
        memory=0.7,
        sag_after_clear=0.08,
        weak_at_crank=0.15,
        charging_failed=0.2,
        tired=0.1,
        refused=0.02,
        all_refused=0.06,
    ),
    "plain": replace(
        _BASE,
        name="plain",
        memory=0.7,
        seen=0.97,
        simple_monitors=True,
        two_trips=False,
        tools=(0.4, 0.6, 0, 0),
        word_slip=0.08,
        lowest_known=1.0,
        first_lowest_known=0.8,
        volts_known=1.0,
        locked=0,
        work=0,
        intermittent=0.25,
    ),
}
MIX = {
    "memory": 2.0,
    "live": 1.0,
    "bare": 1.0,
    "rich": 1.5,
    "blind": 0.7,
    "module": 1.0,
    "resag": 1.2,
    "steady": 0.7,
    "plain": 1.2,
}
