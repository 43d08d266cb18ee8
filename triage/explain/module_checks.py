"""Checks of whole modules: those that others point at, that are fed badly, that want programming or a clear first."""

from __future__ import annotations

from collections.abc import Sequence, Set
from typing import TYPE_CHECKING

from triage.explain.case import FEED, LOST_FEED, UNREAD_LIST, Case, gate_of
from triage.explain.heard import INSPECTION
from triage.explain.pointers import EmptyPointer
from triage.explain.reasons import is_lone
from triage.explain.silent_together import listed
from triage.explain.standing import ASIDE, Standings, needs_measurement
from triage.model import fed
from triage.model.casebook import Casebook, Links, Timeline
from triage.model.parts import of_part
from triage.model.session import Event, Session, stamp
from triage.model.verdict import NextCheck

if TYPE_CHECKING:
    from triage.model.casebook import Bools, Floats

#: Work that sets a module up.
SET_UP = ("programmed", "paired", "calibrated")
#: The gate of every step with the drive enabled, or that clears, while the isolation is in doubt.
ISOLATED = "isolation measured and found sound by a qualified person"
KEEP_FRAMES = "freeze frames and counters written down"


def pointer_checks(
    pointers: Sequence[EmptyPointer], case: Case, standing: Standings, bits: Floats, names: list[str],
) -> list[NextCheck]:
    """Modules that others point at while their own list shows nothing: read them again, once for all who point."""
    told: dict[str, NextCheck] = {}
    for one in pointers:
        if standing.standing[one.fault] == ASIDE:
            continue
        target = case.name(one.name)
        if one.name not in told:
            again = "again, " if one.target >= 0 else ""
            told[one.name] = {
                "do": f"read {target} {again}every list: current, pending, stored, permanent; then after a key cycle",
                "where": "diagnostic connector, supply held, key on", "minutes": 5.0,
                "passes_if": "it names the fault it is pointed at for, or is empty twice and the pointing code clears",
                "settles": [], "gain_bits": 0.0, "gate": None}
        check = told[one.name]
        check["settles"].append(names[one.fault])
        # Whether the target holds a reason or not is one bit.
        check["gain_bits"] = round(max(check["gain_bits"], 0.8) + float(bits[one.fault]) * 0.5, 2)
    return list(told.values())


def feed_checks(
    book: Casebook, link: Links, case: Case, bits: Floats, names: list[str], held: Sequence[int] = (),
) -> list[NextCheck]:
    """The feed and ground of a module that holds a low-supply code while its peers hold none. ``held``: faults that a
    ground which was measured bad can set."""
    lone = link.events[case.place].lone
    found: dict[int, list[int]] = {}
    for fault in case.open:
        if fault not in held and book.facts[fault].supply in ("low", "fault") and (lone or is_lone(book, link, fault)):
            found.setdefault(int(book.fault_module[fault]), []).append(fault)
    return [_feed_check(book, case, module, faults, bits, names) for module, faults in found.items()]


def feed_loss_checks(book: Casebook, link: Links, case: Case, bits: Floats, names: list[str]) -> list[NextCheck]:
    """The feed, ground and relay of a module that others lost for a moment at a good supply, while they are shaken: a
    scan of a vehicle at rest finds them sound (common practice)."""
    checks: list[NextCheck] = []
    for module in dict.fromkeys(loss.module for loss in link.feed_losses.get(case.place, ())):
        losses = [loss for loss in link.feed_losses[case.place] if loss.module == module]
        own = list(dict.fromkeys(fault for loss in losses for fault in loss.own))
        reports = list(dict.fromkeys(fault for loss in losses for fault in loss.reports))
        name = case.name(book.module_name[module])
        by = list(dict.fromkeys(case.name(book.module_name[book.fault_module[fault]]) for fault in reports))
        held = f" and it holds {', '.join(dict.fromkeys(book.code[fault] for fault in own))}" if own else ""
        safety = book.module_facts[module].safety
        test = "while connector, relay and harness are shaken and bent"
        if safety in ("restraints", "high voltage"):
            test = "by the maker's procedure"
        elif case.trigger is not None:
            test = f"{case.trigger.test}, as the complaint says"
        faults = [*own, *reports]
        checks.append({
            "do": f"measure feed and ground of {name} under load {test}, its relay, socket and fuse with them: "
                  f"{listed(by, 4)} lost it together at a good supply{held}",
            "where": f"relay and socket, fuse, connector and ground point of {name}", "minutes": 20.0,
            "passes_if": f"{FEED}, without a break meanwhile, and nobody loses it again",
            "settles": [names[fault] for fault in faults],
            "gain_bits": round(LOST_FEED + float(bits[faults].sum()) * 0.5, 2),
            "gate": gate_of(safety)})
    return checks


def inspected(session: Session) -> bool:
    """Whether the complaint tells of an inspection."""
    complaint = session.vehicle.complaint if session.vehicle else None
    return complaint is not None and INSPECTION.search(complaint) is not None


def inspection_due(session: Session) -> list[str]:
    """What an inspection that the complaint tells of waits for, before anything else is done: nobody clears once more,
    for that sets every monitor back, and a permanent code goes by its own monitor alone (40 CFR 86.010-18 (b)(3)(iii),
    (k)(4)(i))."""
    if not inspected(session):
        return []
    shots = fed.in_order(session)
    read = next((shot for shot in reversed(shots) if shot.readiness), None)
    if read is None:
        return ["an inspection waits and nobody read the readiness of the monitors: read it before anybody clears once "
                "more, for a clear sets every monitor back"]
    unset = [name for name, state in (read.readiness or {}).items() if state == "incomplete"]
    held = dict.fromkeys(entry.code for scan in shots[-1].modules for entry in scan.codes
                         if entry.status == "permanent")
    told = [f"an inspection waits: do not clear once more; not complete yet: {', '.join(unset)}" if unset else
            "an inspection waits: do not clear once more; every monitor that was read is complete"]
    told += [f"permanent {', '.join(held)} goes when its own monitor has run and passed, by no clear"] if held else []
    return ["; ".join(told)]


def readiness_gate(session: Session) -> list[str]:
    """What a clear costs where readiness was read: it sets every monitor back (40 CFR 86.010-18 (k)(4)(i))."""
    read = next((shot.readiness for shot in reversed(session.snapshots) if shot.readiness), None)
    if read is None and not inspected(session):
        return []
    unset = [name for name, state in (read or {}).items() if state == "incomplete"]
    told = f" ({', '.join(unset)} not complete)" if unset else ""
    return [f"only once the repair is made: a clear sets readiness back{told}, and an inspection then has to wait"]


def clear_again_checks(
    book: Casebook, line: Timeline, case: Case, modules: Sequence[int], bits: Floats, names: list[str],
    records: list[str], now: Bools,
) -> list[NextCheck]:
    """Modules that refused the clear: what they list may be old, so they are cleared before anybody looks for it,
    unless they call one failing ``now`` (N), which is looked at first.

    ``records``: modules, as printed, that hold a crash record, which nobody clears.
    """
    checks: list[NextCheck] = []
    unset = readiness_gate(book.sessions[case.place])
    for module in modules:
        name = case.name(book.module_name[module])
        faults = [fault for fault in case.open if book.fault_module[fault] == module]
        if not faults or now[faults].any() or name in records or not line.never_took(module, book.exists.shape[1] - 1):
            continue
        # A clear takes what is stored beside the code, which the measurement wants to be held against.
        isolation = any(needs_measurement(book.facts[fault]) for fault in faults)
        gates = [f"{ISOLATED}; {KEEP_FRAMES}"] if isolation else []
        checks.append({
            "do": f"meet what {name} wants for a clear, clear it again and read it after a key cycle",
            "where": "diagnostic connector, supply held, key on, engine off unless the maker says otherwise",
            "minutes": 10.0, "passes_if": "it accepts the clear and its codes stay away",
            "settles": [names[fault] for fault in faults],
            "gain_bits": round(0.8 + float(bits[faults].sum()) * 0.8, 2),
            "gate": "; ".join([*gates, *unset]) or None})
    return checks


def _feed_check(
    book: Casebook, case: Case, module: int, faults: list[int], bits: Floats, names: list[str],
) -> NextCheck:
    name = case.name(book.module_name[module])
    return {
        "do": f"measure feed and ground of {name} under load", "where": f"connector of {name}", "minutes": 15.0,
        "passes_if": FEED, "settles": [names[fault] for fault in faults],
        "gain_bits": round(0.8 + float(bits[faults].sum()), 2), "gate": gate_of(book.module_facts[module].safety)}


# --- programming comes before judging -----------------------------------------------------------------------------

def to_program(book: Casebook, case: Case, modules: range, renewed: Set[int]) -> list[int]:
    """Modules of the session that were replaced (they are among ``renewed``) and not set up since."""
    new = [module for module in modules if module in renewed] if renewed else []
    if not new:
        return []
    events = in_order(book.sessions[case.place].events or [])
    fitted = [at for at, event in enumerate(events) if event.what == "replaced" and not of_part(event)]
    later = [event for event in events[(fitted[-1] if fitted else -1) + 1:]
             if event.what in SET_UP and event.answer != "refused"]
    known = {name.casefold(): module for module in modules for name in (
        book.module_name[module], book.module_facts[module].name, case.name(book.module_name[module]))}
    # Where a name can't be placed it may be this one: nobody is sent to do again what was done.
    done = {known.get(event.module.casefold(), -1) if event.module is not None else -1 for event in later}
    return [module for module in new if -1 not in done and module not in done]


def in_order(events: list[Event]) -> list[Event]:
    """The events by their times where all have one, else as they stand."""
    times = [event.at for event in events]
    if any(time is None for time in times):
        return events
    return sorted(events, key=lambda event: stamp(event.at) if event.at else 0.0)


def is_used(book: Casebook, module: int) -> bool:
    """Whether a module was fitted as a used part and not replaced since."""
    session = book.sessions[int(book.module_session[module])]
    fitted = [event for event in in_order(session.events or []) if event.what == "replaced"
              and not of_part(event) and event.module in (book.module_name[module], book.module_facts[module].name)]
    return bool(fitted) and fitted[-1].part == "used"


def program_checks(
    book: Casebook, case: Case, modules: list[int], bits: Floats, names: list[str], records: list[str],
    procedure: Bools,
) -> list[NextCheck]:
    """Programming of modules that were replaced: no other step judges what they hold before, nor what others say of
    configuration, VIN or key (``procedure``: N), which may only follow from it.

    ``records``: modules, as printed, that hold a crash record, which nobody clears.
    """
    checks: list[NextCheck] = []
    for module in modules:
        name, facts = case.name(book.module_name[module]), book.module_facts[module]
        faults = [fault for fault in case.open if book.facts[fault].monitor != "event" and (
            book.fault_module[fault] == module or (procedure[fault] and book.fault_module[fault] not in modules))]
        gates = ["the crash record written down first; it is not to be cleared"] if name in records else []
        do = f"program {name} before judging it, unless the maker says that it needs none"
        passes = "the programming ends without an error, its codes go and stay away after a key cycle"
        if facts.safety == "restraints" and name in records and is_used(book, module):
            do = (f"take {name} out again and fit a new one, or one that the maker approves, and program that: a used "
                  "one with a crash record is not to be used again")
            passes = "the new module takes the vehicle's VIN and its codes stay away after a key cycle"
        if facts.safety in ("high voltage", "restraints"):
            gates.append(str(gate_of(facts.safety)))
        checks.append({
            "do": do, "where": f"{name}, at a stabilised supply", "minutes": 30.0, "passes_if": passes,
            "settles": [names[fault] for fault in faults],
            "gain_bits": round(UNREAD_LIST + float(bits[faults].sum()) * 0.8, 2), "gate": "; ".join(gates) or None})
    return checks


__all__ = ["clear_again_checks", "feed_checks", "feed_loss_checks", "pointer_checks", "program_checks",
           "readiness_gate", "to_program"]
