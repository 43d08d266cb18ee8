"""Checks of whole modules: those that stay silent, those that others point at, those that want programming first."""

from __future__ import annotations

import re
from collections.abc import Sequence, Set
from typing import TYPE_CHECKING

from triage.explain.case import UNREAD_LIST, Case, gate_of
from triage.explain.pointers import EmptyPointer
from triage.explain.reasons import is_lone
from triage.explain.silent_together import listed
from triage.explain.standing import ASIDE, STRICTEST, Standings, needs_measurement
from triage.explain.supply_checks import FOLLOW_WORDS
from triage.model.bus_reports import network_of
from triage.model.casebook import BUS, LOST, Casebook, Links, Story, Timeline
from triage.model.parts import of_part
from triage.model.session import Event, Session, stamp
from triage.model.shared_silence import SharedSilence
from triage.model.verdict import NextCheck

if TYPE_CHECKING:
    from triage.model.casebook import Bools, Floats

#: Work that sets a module up.
SET_UP = ("programmed", "paired", "calibrated")
#: How likely several modules that fall silent together share the reason.
TOGETHER = 0.5
#: Bits that the test of a feed which broke for a moment removes: feed, ground or relay.
LOST_FEED = 1.5
#: The safety classes without which a vehicle has to be kept from moving.
STANDING_STILL = ("brakes", "steering")
FEED = "feed within 0.5 V of the battery, ground within 0.2 V under load"
#: The gate of every step with the drive enabled, or that clears, while the isolation is in doubt.
ISOLATED = "isolation measured and found sound by a qualified person"
KEEP_FRAMES = "freeze frames and counters written down"
#: A complaint of an inspection that a clear would put off, in four languages.
_INSPECTION = re.compile(
    r"\b(?:inspection|emissions? test|smog (?:check|test)|readiness|mot\b(?! ?or)|abgasuntersuchung|hauptuntersuchung|"
    r"t[uü]v|contr[oô]le technique|itv)\b", re.IGNORECASE)
#: What the check of a module that stays silent ends with, and that of several.
ASK_AGAIN = "then ask it again"
ASK_THEM = "then ask them again"
#: A trailer's own socket: ISO 7638, pin 1 feed and pin 4 ground of the valves, 2 and 3 those of the electronics.
TRAILER_WORDS = ("measure feed and ground of {name} at the trailer socket under load, with a lamp of 21 W and not the "
                 "meter alone: pins 1 and 4, then 2 and 3 where it is an ISO 7638 socket")
TRAILER_PLACE = "trailer brake socket and its fuses, coiled lead, plug at the trailer"
NO_PATH = "no path from either to ground or feed"
#: Two wires with a terminator of 120 ohm at each end (ISO 11898-2).
WIRES = "60 ohm between its two network wires with the supply off"


def silent_checks(book: Casebook, link: Links, case: Case, bits: Floats, names: list[str]) -> list[NextCheck]:
    """Silent modules: what several share in one step, else each one's feed and ground, before the modules that
    complain."""
    stories = [story for story in link.stories.get(case.place, []) if story.modules]
    groups = link.shared.get(case.place, [])
    shared = {module for group in groups if not group.back for module in group.modules}
    checks = [_behind(book, link, case, story, bits, names) for story in stories if story.kind != "silent module"]
    checks += [(_lost_together if group.back else _together)(book, link, case, group, bits, names)
               for group in groups if not group.wakes]
    return checks + [_silent(book, link, case, story, bits, names) for story in stories
                     if story.kind == "silent module" and story.modules[0] not in shared]


def _together(
    book: Casebook, link: Links, case: Case, group: SharedSilence, bits: Floats, names: list[str],
) -> NextCheck:
    """One check for what modules share that stay silent together; each by itself comes behind it."""
    faults = _about(book, link, case, group.modules)
    told = listed([case.name(book.module_name[module]) for module in group.modules])
    trailer = book.module_facts[group.modules[0]].awake == "trailer"
    what = f"check what {told} share before each of them: {group.shared_words()}"
    if trailer:
        what = f"{TRAILER_WORDS.format(name=told)}; they share it"
    elif group.wires:
        where, brief = ("is open" if group.opened else "is shorted"), group.wires.partition(" (")[0]
        what = (f"find where the line that {told} share {where} ({brief}), from connector to connector; then what else "
                f"they share: {group.shared_words()}")
    again = "hold the supply and ask them again; those that stay silent: " if group.low else ""
    gain = sum(UNREAD_LIST * float(link.silent[module]) for module in group.modules)
    return {
        "do": f"{again}{what}, {ASK_THEM}", "where": TRAILER_PLACE if trailer else "fuse box, splices and gateway",
        "minutes": 20.0,
        "passes_if": f"{f'{WIRES}; ' if group.wires else ''}{FEED} at one of them, and they answer; one that does not "
                     "is then checked by itself: feed, ground, network lines",
        "settles": [names[fault] for fault in faults],
        "gain_bits": round(TOGETHER * (gain + float(bits[faults].sum()) * 0.8), 2),
        "gate": _strictest(book, group.modules)}


def _lost_together(
    book: Casebook, link: Links, case: Case, group: SharedSilence, bits: Floats, names: list[str],
) -> NextCheck:
    """One check for what modules share that were silent together and answer again: a scan of a vehicle at rest finds it
    sound, so that it is moved meanwhile (common practice)."""
    faults = [fault for fault in case.open if link.relation[fault] == LOST and int(link.target[fault]) in group.modules]
    told = listed([case.name(book.module_name[module]) for module in group.modules])
    closed = {book.module_facts[module].safety for module in group.modules} & {"restraints", "high voltage"}
    test = ("by the maker's procedure" if closed else f"{case.trigger.test}, as the complaint says" if case.trigger else
            "while connectors, splices and harness are shaken and bent")
    return {
        "do": f"measure what {told} share ({group.shared_words()}) {test}: they were silent together {group.back} and "
              "answer again", "where": "fuse box, splices, ground points and gateway", "minutes": 20.0,
        "passes_if": f"{FEED}, without a break meanwhile, and none of them falls silent",
        "settles": [names[fault] for fault in faults],
        "gain_bits": round(LOST_FEED + float(bits[faults].sum()) * 0.5, 2),
        "gate": _strictest(book, group.modules)}


def asked_again(book: Casebook, link: Links, case: Case, checks: list[NextCheck]) -> list[NextCheck]:
    """The steps of the supply, the one for a path that was measured bad with the silent modules that are asked again
    once it is mended: they may be dead by it."""
    silent = [case.name(book.module_name[module]) for story in link.stories.get(case.place, ())
              if story.kind == "silent module" for module in story.modules]
    if not silent:
        return checks
    return [{**check, "do": f"{check['do']}, then ask {_listed(silent) if len(silent) > 1 else silent[0]} again"}
            if check["do"].startswith(FOLLOW_WORDS) else check for check in checks]


def _silent(book: Casebook, link: Links, case: Case, story: Story, bits: Floats, names: list[str]) -> NextCheck:
    """The check of one module that stayed silent; what was measured at its connector is not asked for again."""
    module, pins = story.modules[0], story.pins
    faults = _about(book, link, case, [module])
    name, facts = case.name(book.module_name[module]), book.module_facts[module]
    ready = " with the drive READY" if facts.awake == "ready" else ""
    what, where, passes = f"check feed, ground and network lines of {name}", f"connector of {name}", FEED
    if facts.awake == "trailer":
        what, where = TRAILER_WORDS.format(name=name), TRAILER_PLACE
    if pins is not None and pins.blown:
        what = (f"find why the fuse of {name} blew ({pins.blown}): measure the circuit that it feeds to ground, fuse "
                f"and plug of {name} out, then fit a new one of the same rating")
        where = f"fuse box, wire to {name}, and {name} itself"
        passes = "no path to ground with the plug out nor into the module, and the new fuse holds"
    elif pins is not None and pins.lost:
        what, where = f"find where {name} loses its {pins.lost}", f"fuse, splices and wire to the {pins.lost} of {name}"
    elif pins is not None and pins.sound:
        left = [pin for pin in ("feed", "ground") if pin not in pins.sound]
        what = f"check {' and '.join([*left, 'network lines'])} of {name}"
        passes = f"{FEED}; {WIRES}" if left else WIRES
    mended = "once the path that failed is mended and it stays silent: " if case.failed("cables and grounds") else ""
    return {
        "do": f"{what}, {ASK_AGAIN}{ready}",
        "where": f"{mended}{where}", "minutes": 20.0, "passes_if": f"{passes}, and it answers",
        "settles": [names[fault] for fault in faults],
        # Its own list is unread as well: whatever it holds comes to light.
        "gain_bits": round(UNREAD_LIST * float(link.silent[module]) + float(bits[faults].sum()) * 0.8, 2),
        "gate": gate_of(facts.safety),
    }


def _behind(book: Casebook, link: Links, case: Case, story: Story, bits: Floats, names: list[str]) -> NextCheck:
    """One check for all the silent modules of a branch, on a network that is reported, or behind a gateway."""
    faults = _about(book, link, case, story.modules)
    if story.head >= 0:
        network = network_of(book.code[story.head])
        reports = [fault for fault in case.open if link.relation[fault] == BUS and fault != story.head
                   and network_of(book.code[fault]) == network]
        faults = list(dict.fromkeys([story.head, *reports, *faults]))
    about = case.name(story.about)
    first = ("its two wires, splices and terminators, then a feed or ground that its modules share"
             if story.kind != "gateway" else "feed, fuse and ground of the gateway, then the wires behind it")
    passes = "60 ohm between the two wires with the supply off, and the modules behind it answer"
    if story.head >= 0 or story.held:
        passes = f"60 ohm between the two wires, {NO_PATH}, supply off; its modules answer"
    if story.by >= 0:
        name = case.name(book.module_name[story.by])
        first = f"the connector of {name} and its branch of the two wires, then {name} itself"
    elif story.held:
        first = ("a short of its two wires, or one module that holds them down: restraint parts left plugged in, "
                 "unplug its modules one by one until the others answer")
    measured = story.head >= 0 or bool(story.held)
    return {
        "do": f"check {about}: {first}; then ask its modules again",
        "where": "diagnostic connector and splices of that network" if measured else about, "minutes": 30.0,
        "passes_if": passes,
        "settles": [names[fault] for fault in faults],
        "gain_bits": round(sum(UNREAD_LIST * float(link.silent[module]) for module in story.modules)
                           + float(bits[faults].sum()) * 0.8, 2),
        # At the gateway nobody touches what lies behind it, but the vehicle may roll while that is out.
        "gate": _strictest(book, story.modules + [story.by] * (story.by >= 0),
                           *(STANDING_STILL if story.kind == "gateway" else []))}


def _about(book: Casebook, link: Links, case: Case, modules: list[int]) -> list[int]:
    """The faults of the session that report one of ``modules``, and those it holds itself."""
    targets, holders = link.target[case.first:case.last].tolist(), book.fault_module[case.first:case.last].tolist()
    return [fault for fault, (target, holder) in enumerate(zip(targets, holders, strict=True), start=case.first)
            if target in modules or holder in modules]


def _strictest(book: Casebook, modules: list[int], *among: str) -> str | None:
    """The gate of the strictest safety class of the modules, or of those ``among`` them."""
    classes = {book.module_facts[module].safety for module in modules} & {*(among or STRICTEST)}
    return gate_of(next((name for name in STRICTEST if name in classes), None))


def _listed(names: list[str]) -> str:
    return f"{', '.join(names[:-1])} and {names[-1]}" if len(names) < 5 else (
        f"{', '.join(names[:3])} and {len(names) - 3} more")


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
    book: Casebook, link: Links, case: Case, bits: Floats, names: list[str],
) -> list[NextCheck]:
    """The feed and ground of a module that holds a low-supply code while its peers hold none."""
    lone = link.events[case.place].lone
    found: dict[int, list[int]] = {}
    for fault in case.open:
        if book.facts[fault].supply in ("low", "fault") and (lone or is_lone(book, link, fault)):
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
                  f"{_listed(by)} lost it together at a good supply{held}",
            "where": f"relay and socket, fuse, connector and ground point of {name}", "minutes": 20.0,
            "passes_if": f"{FEED}, without a break meanwhile, and nobody loses it again",
            "settles": [names[fault] for fault in faults],
            "gain_bits": round(LOST_FEED + float(bits[faults].sum()) * 0.5, 2),
            "gate": gate_of(safety)})
    return checks


def readiness_gate(session: Session) -> list[str]:
    """What a clear costs where readiness was read: it sets every monitor back (40 CFR 86.010-18 (k)(4)(i))."""
    read = next((shot.readiness for shot in reversed(session.snapshots) if shot.readiness), None)
    complaint = session.vehicle.complaint if session.vehicle else None
    if read is None and (complaint is None or _INSPECTION.search(complaint) is None):
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


__all__ = ["asked_again", "clear_again_checks", "feed_checks", "feed_loss_checks", "pointer_checks", "program_checks",
           "readiness_gate", "silent_checks", "to_program"]
