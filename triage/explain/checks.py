"""What to do next: candidate steps ranked by the uncertainty they are expected to remove, per minute.

The uncertainty of a fault is the entropy of "it persists" in bits. A step that runs the fault's monitor removes
the share of it that its opportunity and its chance to answer right leave. Steps that share one access (a key
cycle, a run, a drive) are counted once for all the faults they test.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from triage.explain.standing import ASIDE, SHORT, Standings, safety_name
from triage.model.casebook import Bools, Casebook, Links, Timeline
from triage.model.verdict import NextCheck

if TYPE_CHECKING:
    from code_tables import Tables
    from triage.model.casebook import Floats

MONITORS = ("key on", "commanded output", "network", "running", "warm", "speed", "drive cycle", "cold soak",
            "event", "high voltage")


@dataclass(frozen=True, slots=True)
class Step:
    """A step for all faults at once. ``runs``: chance that each monitor class comes to a result in it."""

    do: str
    where: str
    minutes: float
    passes_if: str
    gate: str | None
    runs: tuple[float, ...]


#: Bits of doubt that an unread list stands for: a module holds a code or two after a supply event.
UNREAD_LIST = 2.0
#: A check that removes less than this is not worth its line.
LEAST_GAIN = 0.02
SUPPORT = "12 V support connected, key cycled, engine off"
COMMON = (
    Step("hold the supply, clear all modules, cycle the key and read every module again", SUPPORT, 15.0,
         "supply {low:.1f} to {high:.1f} V throughout and the codes stay away", None,
         (0.95, 0.2, 0.95, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.3)),
    Step("run the engine 10 minutes with outside supply off, then read confirmed and pending codes",
         "at the vehicle, parked, exhaust led away", 15.0,
         "charging holds {charge:.1f} V or more and the codes stay away",
         "parking brake on, gear disengaged, nobody in front of the vehicle",
         (0.95, 0.5, 0.95, 0.95, 0.6, 0.0, 0.0, 0.0, 0.0, 0.5)),
    Step("drive 20 minutes of mixed road with some starts and stops, then read confirmed and pending codes",
         "on the road", 30.0, "the codes stay away and the monitors read complete",
         "only if brakes, steering and lamps allow it to be driven",
         (0.95, 0.75, 0.95, 0.95, 0.9, 0.95, 0.75, 0.05, 0.05, 0.7)),
)

DRIVE = COMMON[2]


def next_checks(
    book: Casebook, line: Timeline, link: Links, standing: Standings, decibans: Floats, tables: Tables,
    names: list[str],
) -> list[list[NextCheck]]:
    """The ranked steps of each session; ``names`` are the faults as they are shown ("engine control P0118")."""
    chance = 1.0 / (1.0 + 10.0 ** (-np.clip(decibans, -60, 60) / 10.0))
    bits = -(chance * np.log2(chance) + (1 - chance) * np.log2(1 - chance))
    monitor = np.array([MONITORS.index(facts.monitor) for facts in book.facts], dtype=np.int64)
    right = tables.rate("check.answers_right")
    gains = [bits * np.array(step.runs)[monitor] * right for step in COMMON] if bits.size else []
    worth = [np.where((gain > 0.02) & (standing.standing != ASIDE), gain, 0.0) for gain in gains]
    totals = [np.add.reduceat(np.append(gain, 0.0), book.first_fault[:-1]) * (np.diff(book.first_fault) > 0)
              for gain in gains]
    quiet = link.silent > 0.0
    unfit = _unfit_to_drive(book, link, standing)
    likely = np.where(standing.standing == SHORT, 2.0, np.where((bits > 0.3), bits, 0.0))
    result = []
    for session in range(len(book.sessions)):
        first, last = int(book.first_fault[session]), int(book.first_fault[session + 1])
        checks = _common(first, last, worth, [float(total[session]) for total in totals], float(line.scale[session]),
                         names, bool(unfit[session]))
        modules = quiet[book.first_module[session]:book.first_module[session + 1]]
        for module in (np.flatnonzero(modules) + book.first_module[session]).tolist():
            checks.append(_silent(book, link, module, first, last, bits, names))
        checks += _circuits(book, link, first, last, likely, bits, names, right)
        checks.sort(key=lambda check: -check["gain_bits"] / check["minutes"])
        result.append(checks[:6])
    return result


def _common(
    first: int, last: int, worth: list[Floats], totals: list[float], scale: float, names: list[str], unfit: bool,
) -> list[NextCheck]:
    checks: list[NextCheck] = []
    for step, gain, total in zip(COMMON, worth, totals, strict=False):
        if total < 0.05 or (unfit and step is DRIVE):
            continue
        here = gain[first:last]
        settled = np.argsort(-here, kind="stable")[:np.count_nonzero(here)].tolist()
        checks.append({
            "do": step.do, "where": step.where, "minutes": step.minutes,
            "passes_if": step.passes_if.format(low=12.6 * scale, high=14.5 * scale, charge=13.5 * scale),
            "settles": [names[first + place] for place in settled],
            "gain_bits": round(total, 2), "gate": step.gate,
        })
    return checks


def _unfit_to_drive(book: Casebook, link: Links, standing: Standings) -> Bools:
    """S: brakes or steering stand on the short list: nobody is sent onto the road."""
    unfit = np.zeros(len(book.sessions), dtype=bool)
    for fault in np.flatnonzero((standing.standing == SHORT) & standing.safety).tolist():
        if safety_name(book, link, fault) in ("brakes", "steering"):
            unfit[book.fault_session[fault]] = True
    return unfit


def _silent(
    book: Casebook, link: Links, module: int, first: int, last: int, bits: Floats, names: list[str],
) -> NextCheck:
    """The check of a module that stayed silent: its feed and ground come before the modules that complain."""
    faults = first + np.flatnonzero((link.target[first:last] == module) | (book.fault_module[first:last] == module))
    name = book.module_name[module]
    return {
        "do": f"check feed, ground and network lines of {name}, then ask it again",
        "where": f"connector of {name}", "minutes": 20.0,
        "passes_if": "feed within 0.5 V of the battery, ground within 0.2 V under load, and it answers",
        "settles": [names[fault] for fault in faults.tolist()],
        # Its own list is unread as well: whatever it holds comes to light.
        "gain_bits": round(UNREAD_LIST * float(link.silent[module]) + float(bits[faults].sum()) * 0.8, 2),
        "gate": _gate(book.module_facts[module].safety),
    }


def _circuits(
    book: Casebook, link: Links, first: int, last: int, likely: Floats, bits: Floats, names: list[str], right: float,
) -> list[NextCheck]:
    """The likeliest faults one by one: at the part, its connector and wiring, by the maker's procedure."""
    here = likely[first:last]
    chosen = np.argsort(-here, kind="stable")[:min(4, np.count_nonzero(here))]
    checks: list[NextCheck] = []
    for fault in (first + chosen).tolist():
        facts = book.facts[fault]
        safety = safety_name(book, link, fault)
        if bits[fault] * right < LEAST_GAIN or link.lost[fault] > 0.0:
            continue
        if facts.needs == "procedure":
            do = f"finish the programming or calibration that {names[fault]} asks for"
            passes = "the code clears and stays away"
        elif safety == "restraints":
            do = f"have {names[fault]} tested by a qualified person with the maker's procedure"
            passes = "the maker's figure"
        else:
            do = f"test the circuit of {names[fault]}: connector, wiring, then the part"
            passes = "the maker's figures for the part, and the code stays away after a clear"
        checks.append({
            "do": do, "where": f"{book.module_name[book.fault_module[fault]]}: {facts.title}", "minutes": 30.0,
            "passes_if": passes, "settles": [names[fault]],
            "gain_bits": round(float(bits[fault]) * right, 2), "gate": _gate(safety),
        })
    return checks


def _gate(safety: str | None) -> str | None:
    """What must be so before hands go near the part."""
    if safety == "restraints":
        return ("qualified person only: read the codes, then supply off and the maker's waiting time before any "
                "restraint connector is touched; no ordinary ohmmeter")
    if safety == "high voltage":
        return "qualified person only: made safe, locked off and absence of voltage proved by the maker's procedure"
    if safety in ("brakes", "steering"):
        return "vehicle secured against rolling; not on the road until braking and steering are proved"
    return None
