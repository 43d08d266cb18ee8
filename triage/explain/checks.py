"""What to do next: candidate steps ranked by the uncertainty they are expected to remove, per minute.

The uncertainty of a fault is the entropy of "it persists" in bits. A step that runs the fault's monitor removes
the share of it that its opportunity and its chance to answer right leave. Steps that share one access (a key
cycle, a run, a drive) are counted once for all the faults they test. Of a fault that persists it is not known
whether connector, wiring or part is to blame: that doubt is what the test of its circuit removes.

While charging has failed nobody is sent to run or drive the vehicle on its own battery; an isolation fault is
settled by a measurement alone.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from triage.explain.meaning import asks_for_procedure, meaning, same_fault
from triage.explain.page import printed_names
from triage.explain.standing import ASIDE, HARD, INTERMITTENT, SHORT, Standings, safety_name
from triage.explain.supply_checks import supply_checks
from triage.explain.work import code_texts, crash_record
from triage.model.casebook import Bools, Casebook, Links, Timeline
from triage.model.drive import is_electric
from triage.model.verdict import NextCheck, SupplyVerdict

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
SUPPORT = "{nominal:g} V support connected, key cycled, engine off"
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

CLEAR, RUN, DRIVE = COMMON
#: What stands in for the run where it can't be made as it stands.
READY = Step("switch the drive to READY for 10 minutes with outside supply off, then read every module",
             "at the vehicle, parked", 15.0, "the converter holds {charge:.1f} V or more and the codes stay away",
             "parking brake on, selector in park, nobody in front of the vehicle", RUN.runs)
HELD = Step("run the engine 10 minutes with outside supply left on, then read confirmed and pending codes",
            "at the vehicle, parked, exhaust led away", 15.0, "the codes stay away", RUN.gate, RUN.runs)
HELD_READY = Step("switch the drive to READY for 10 minutes with outside supply left on, then read every module",
                  READY.where, 15.0, "the codes stay away", READY.gate, RUN.runs)
#: Places where a circuit can be at fault: connector, wiring, part.
PLACES = 3
#: Bits that a run with nothing connected removes about the charging where nobody tested it.
CHARGES = 0.8
#: Steps told of one session, at most.
MOST = 8
#: Measuring the isolation takes this long, making safe included.
ISOLATION_MINUTES = 40.0


@dataclass(frozen=True, slots=True)
class _Case:
    """What the steps of one session have to know. ``shown``: module -> its name as the scan printed it."""

    place: int
    first: int
    last: int
    supply: Sequence[SupplyVerdict]
    electric: bool
    unfit: bool
    shown: Mapping[str, str]

    def failed(self, part: str) -> bool:
        return any(entry["part"] == part and entry["state"] == "failed" for entry in self.supply)

    def untested(self, part: str) -> bool:
        return any(entry["part"] == part and entry["state"] == "not tested" for entry in self.supply)


def next_checks(
    book: Casebook, line: Timeline, link: Links, standing: Standings, causes: Floats, decibans: Floats,
    supplies: Sequence[Sequence[SupplyVerdict]], tables: Tables, names: list[str],
) -> list[list[NextCheck]]:
    """The ranked steps of each session; ``names`` are the faults as they are shown ("engine control P0118").

    ``supplies``: for each session what is said of the parts of its supply.
    """
    chance = 1.0 / (1.0 + 10.0 ** (-np.clip(decibans, -60, 60) / 10.0))
    bits = -(chance * np.log2(chance) + (1 - chance) * np.log2(1 - chance))
    monitor = np.array([MONITORS.index(facts.monitor) for facts in book.facts], dtype=np.int64)
    measured = np.array([_isolation(facts.title) for facts in book.facts], dtype=bool)
    right = tables.rate("check.answers_right")
    gains = [np.where(measured, 0.0, bits * np.array(step.runs)[monitor] * right)
             for step in COMMON] if bits.size else []
    worth = [np.where((gain > 0.02) & (standing.standing != ASIDE), gain, 0.0) for gain in gains]
    where = np.where(chance >= 0.5, chance * np.log2(PLACES), 0.0)
    doubt = (bits + where) * right
    likely = np.where(standing.standing == SHORT, 4.0 + chance, np.where(bits > 0.3, bits, 0.0))
    likely = np.where(measured & (standing.standing != ASIDE), 6.0, likely)
    unfit = _unfit_to_drive(book, link, standing)
    result = []
    for place, session in enumerate(book.sessions):
        first, last = int(book.first_fault[place]), int(book.first_fault[place + 1])
        modules = range(int(book.first_module[place]), int(book.first_module[place + 1]))
        electric = is_electric(session, [book.module_facts[module].name for module in modules])
        case = _Case(place, first, last, supplies[place], electric, bool(unfit[place]), printed_names(session))
        scale = float(line.scale[place])
        open_isolation = bool((measured & (standing.standing != ASIDE))[first:last].any())
        witnesses = _witnesses(book, standing, case)
        checks = _common(case, worth, scale, names, _record_holders(book, case), witnesses, open_isolation)
        checks += supply_checks(case.supply, scale, electric, [names[fault] for fault in witnesses], tables)
        checks += [_silent(book, link, case, module, bits, names) for module in modules if link.silent[module] > 0.0]
        checks += _circuits(book, link, case, likely, doubt, causes, names)
        checks.sort(key=lambda check: -check["gain_bits"] / check["minutes"])
        result.append(_at_most(checks))
    return result


def _at_most(checks: list[NextCheck]) -> list[NextCheck]:
    """The first of the ranked steps; a measurement that alone settles a fault is never among those left out."""
    kept = checks[:MOST]
    only = [check for check in checks[MOST:] if check["minutes"] == ISOLATION_MINUTES]
    return kept[:MOST - len(only)] + only if only else kept


def _isolation(title: str) -> bool:
    """Whether a code says that the high-voltage system has lost its isolation: a measurement alone settles that."""
    return "isolation fault" in title


def _record_holders(book: Casebook, case: _Case) -> list[str]:
    """Modules that hold a stored crash record: nobody clears them."""
    session = book.sessions[case.place]
    holders: set[str] = set()
    for fault in range(case.first, case.last):
        module = int(book.fault_module[fault])
        if "restraints" not in (book.module_facts[module].safety, book.facts[fault].safety):
            continue
        name = book.module_name[module]
        if name not in holders and crash_record(book.facts[fault], code_texts(
                session, name, book.code[fault], book.failure_type[fault])):
            holders.add(name)
    return sorted(case.shown.get(name, name) for name in holders)


def _witnesses(book: Casebook, standing: Standings, case: _Case) -> list[int]:
    """The open faults that speak of the charging: generator, converter, supply."""
    return [fault for fault in range(case.first, case.last) if standing.standing[fault] != ASIDE
            and (book.facts[fault].supply or "generator" in book.facts[fault].title)
            and book.facts[fault].safety != "high voltage"]


def _common(
    case: _Case, worth: list[Floats], scale: float, names: list[str], records: list[str], witnesses: list[int],
    open_isolation: bool,
) -> list[NextCheck]:
    checks: list[NextCheck] = []
    for step, gain in zip(COMMON, worth, strict=False):
        told = _told(step, case)
        here = gain[case.first:case.last].copy()
        if told in (HELD, HELD_READY):
            # With outside supply on, nothing is learned of the charging.
            here[[fault - case.first for fault in witnesses]] = 0.0
        total = float(here.sum())
        if told in (RUN, READY) and total and case.untested("charging"):
            # The same run tells whether it charges.
            total += CHARGES
        if total < 0.05 or (step is DRIVE and (case.unfit or case.failed("charging"))):
            continue
        settled = np.argsort(-here, kind="stable")[:np.count_nonzero(here)].tolist()
        do, gates = told.do, [told.gate] if told.gate else []
        if step is CLEAR and records:
            do = do.replace("clear all modules", f"clear every module but {', '.join(records)}")
            gates.insert(0, "the crash record written down first; it is not to be cleared")
        if step is not CLEAR and open_isolation:
            gates.insert(0, "isolation measured and found sound by a qualified person")
        checks.append({
            "do": do, "where": told.where.format(nominal=12 * scale), "minutes": told.minutes,
            "passes_if": told.passes_if.format(low=12.6 * scale, high=14.5 * scale, charge=13.5 * scale),
            "settles": [names[case.first + place] for place in settled], "gain_bits": round(total, 2),
            "gate": "; ".join(gates) or None,
        })
    return checks


def _told(step: Step, case: _Case) -> Step:
    """The step as this vehicle can take it: READY for a run, support left on where charging has failed."""
    if step is not RUN:
        return step
    if case.failed("charging"):
        return HELD_READY if case.electric else HELD
    return READY if case.electric else RUN


def _unfit_to_drive(book: Casebook, link: Links, standing: Standings) -> Bools:
    """S: brakes or steering stand on the short list: nobody is sent onto the road."""
    unfit = np.zeros(len(book.sessions), dtype=bool)
    for fault in np.flatnonzero((standing.standing == SHORT) & standing.safety).tolist():
        if safety_name(book, link, fault) in ("brakes", "steering"):
            unfit[book.fault_session[fault]] = True
    return unfit


def _silent(
    book: Casebook, link: Links, case: _Case, module: int, bits: Floats, names: list[str],
) -> NextCheck:
    """The check of a module that stayed silent: its feed and ground come before the modules that complain."""
    here = slice(case.first, case.last)
    faults = case.first + np.flatnonzero((link.target[here] == module) | (book.fault_module[here] == module))
    name = case.shown.get(book.module_name[module], book.module_name[module])
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
    book: Casebook, link: Links, case: _Case, likely: Floats, doubt: Floats, causes: Floats, names: list[str],
) -> list[NextCheck]:
    """The likeliest faults one by one: at the part, its connector and wiring, by the maker's procedure."""
    here = likely[case.first:case.last]
    chosen = (case.first + np.argsort(-here, kind="stable")[:np.count_nonzero(here)]).tolist()
    told: dict[object, NextCheck] = {}
    for fault in chosen:
        if doubt[fault] < LEAST_GAIN or link.lost[fault] > 0.0:
            continue
        # Two modules that report one fault of a part they share ask for one test.
        same = same_fault(book.code[fault], book.failure_type[fault]) or fault
        if same in told:
            told[same]["settles"].append(names[fault])
        elif len(told) < 4:
            module = book.module_name[book.fault_module[fault]]
            shown = names[fault].replace(module, case.shown.get(module, module), 1)
            told[same] = _circuit(book, link, case, fault, shown,
                                  comes_and_goes=bool(causes[fault, INTERMITTENT] > causes[fault, HARD]))
            told[same]["settles"] = [names[fault]]
            told[same]["gain_bits"] = round(float(doubt[fault]), 2)
    return list(told.values())


def _circuit(book: Casebook, link: Links, case: _Case, fault: int, shown: str, *, comes_and_goes: bool) -> NextCheck:
    facts, session = book.facts[fault], book.sessions[case.place]
    module = book.module_name[book.fault_module[fault]]
    title = meaning(session, module, book.code[fault], book.failure_type[fault], facts)
    safety = safety_name(book, link, fault)
    minutes = 30.0
    passes = "the maker's figures for the part, and the code stays away after a clear"
    if _isolation(facts.title):
        do = f"have the isolation of the high-voltage system measured by a qualified person ({shown})"
        passes = ("500 ohm or more for each volt of the system, 100 where it is direct current alone, and the maker's "
                  "own figure")
        minutes = ISOLATION_MINUTES
    elif facts.needs == "procedure" or (not facts.known and asks_for_procedure(title)):
        do = f"finish the programming or calibration that {shown} asks for"
        passes = "the code clears and stays away"
    elif safety == "restraints":
        do = f"have {shown} tested by a qualified person with the maker's procedure"
        passes = "the maker's figures for that circuit"
    elif comes_and_goes:
        do = (f"test the circuit of {shown} in the conditions it came in (wet, hot, cold, shaken): connector and "
              "wiring first")
        passes = "the reading holds steady while connector and wiring are wetted, warmed and moved"
    else:
        do = f"test the circuit of {shown}: connector, wiring, then the part"
    return {"do": do, "where": f"{case.shown.get(module, module)}: {title}", "minutes": minutes, "passes_if": passes,
            "settles": [], "gain_bits": 0.0, "gate": _gate(safety)}


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
