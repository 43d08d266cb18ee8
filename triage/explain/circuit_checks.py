"""The likeliest faults one by one: at the part, its connector and wiring, by the maker's procedure.

What several signals of one module share (:mod:`triage.explain.shared`) comes before each sensor.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache

import numpy as np

from triage.explain.case import FEED, NO_PATH, WIRES, Case, Figures, gate_of
from triage.explain.meaning import meaning, same_fault, wants_procedure
from triage.explain.moving_parts import Moving, moving, part_of
from triage.explain.one_part import one_part, shared_part
from triage.explain.shared import is_reference, pulls_down, shared_signals, shared_words
from triage.explain.silent_part import LIN_PASSES, on_lin, silent_part
from triage.explain.silent_together import listed
from triage.explain.standing import Standings
from triage.explain.state_steps import state_step
from triage.explain.unnamed_loss import never_heard, unnamed
from triage.model.bus_reports import network_of
from triage.model.casebook import BUS, INCOMPATIBLE, LOST, NOT_READABLE, NOT_SEEN, SEEN, Casebook, Links
from triage.model.crash import follows_crash
from triage.model.verdict import NextCheck

#: Measuring the isolation takes this long, making safe included.
ISOLATION_MINUTES = 40.0
#: A check that removes less than this is not worth its line.
LEAST_GAIN = 0.02
#: A fault less likely than this is read again, not taken apart: a false lead costs an hour.
LEAST_CHANCE = 0.25
#: Signals this likely are held together with others.
SHARED_CHANCE = 0.5
#: What a finding says of a network of which one end was not found.
ONE_END = "one terminator alone answers"
#: Where a trailer's brakes are fed and heard (ISO 7638-1).
TRAILER_SOCKET = "trailer socket: feeds 1 and 2, grounds 3 and 4, network 6 and 7"
#: Circuits told one by one, beside those of the short list.
MOST_CIRCUITS = 4
#: What no connector explains by itself.
NO_CIRCUIT = ("misfire", "too lean", "too rich", "catalyst", "leak", "ageing", "thermostat", "slip", "not performing",
              "stuck", "efficiency", "ratio", "pressure too", "boost", "purge", "regeneration", "implausible",
              "conversion", "flow too")


def highest(values: Sequence[float]) -> list[int]:
    """Places of the values that are not zero, from high to low.

    >>> highest([0.0, 1.0, 0.5, 1.0])
    [1, 3, 2]
    """
    # Where it is reversed, sorting keeps the order of equals all the same.
    return sorted([place for place, value in enumerate(values) if value], key=values.__getitem__, reverse=True)


def isolation_fault(title: str) -> bool:
    """Whether a code says that the high-voltage system has lost its isolation: a measurement alone settles that."""
    return "isolation fault" in title


def circuit_checks(
    book: Casebook, link: Links, case: Case, standing: Standings, likely: list[float], figures: Figures,
) -> list[NextCheck]:
    """The checks of the likeliest circuits, shared ones first. ``likely``: of the faults of the session alone."""
    chosen = [case.first + place for place in highest(likely)]
    if not chosen:
        return []
    # What they share is looked for before anybody takes a sensor apart that is likely at fault, listed or not.
    listed = set(case.listed)
    taken_apart = [fault for fault in case.open if fault in listed or figures.chance[fault] >= SHARED_CHANCE]
    groups = shared_signals(book, figures, standing.explained_by, taken_apart)
    checks = [_shared(book, case, group, figures) for group in groups]
    networks = {network_of(book.code[story.head]) for story in link.stories.get(case.place, ()) if story.head >= 0}
    grouped = {fault for group in groups for fault in group}
    # What tells of a feed that broke for a moment is looked for at that feed.
    grouped |= {fault for loss in link.feed_losses.get(case.place, ()) for fault in loss.own}
    told: dict[object, NextCheck] = {}
    chance, doubt, names, relation = figures.chance, figures.doubt, figures.names, figures.relation
    roots = {names[fault]: fault for fault in case.listed}
    feeds = {names[fault] for fault in case.open if book.facts[fault].supply}
    # What only follows from another fault is told with it.
    heads = {names[fault]: fault for fault in chosen}
    for fault in sorted(chosen, key=lambda fault: standing.explained_by[fault] in heads):
        facts = book.facts[fault]
        worth = chance[fault] >= LEAST_CHANCE or isolation_fault(facts.title)
        if relation[fault] == BUS and network_of(book.code[fault]) in networks:
            continue  # measured with the modules that it silences
        if not worth or doubt[fault] < LEAST_GAIN or fault in grouped or facts.supply:
            continue
        unnamed = relation[fault] == LOST and link.target[fault] < 0 and fault in listed and (
            fault not in standing.unasked)
        if relation[fault] not in (0, INCOMPATIBLE, BUS) and not unnamed:
            continue  # the module that points or complains is not the one to take apart
        if standing.explained_by[fault] in feeds:
            continue  # looked at again once that module is fed
        follows = roots.get(standing.explained_by[fault] or "", fault)
        if fault not in listed and figures.module[follows] != figures.module[fault] and not wants_procedure(
                facts, book.texts.get(fault, ())):
            continue  # read again once the other module is mended
        # Two modules that report one fault of a part they share ask for one test.
        same = _one_test(book, standing, fault, figures, heads)
        if same in told:
            told[same]["settles"].append(names[fault])
        elif len(told) < MOST_CIRCUITS or fault in listed:
            module = book.module_name[figures.module[fault]]
            shown = names[fault].replace(module, case.name(module), 1)
            told[same] = _circuit(book, link, case, fault, shown, standing.dangers[fault],
                                  comes_and_goes=figures.comes_and_goes[fault])
            told[same]["settles"] = [names[fault]]
            told[same]["gain_bits"] = round(doubt[fault], 2)
    return checks + list(told.values())


def _one_test(
    book: Casebook, standing: Standings, fault: int, figures: Figures, heads: Mapping[str, int],
) -> object:
    """A key that faults share which one test settles: one network, one part that two modules report, one visit for the
    procedures of a module and for what only follows from them. ``heads``: name -> fault, of the session alone."""
    facts = book.facts[fault]
    if not facts.known and (part := silent_part(book.texts.get(fault, ()))) is not None:
        return "silent part", part
    if figures.relation[fault] == BUS and facts.known:
        return network_of(book.code[fault])
    if wants_procedure(facts, book.texts.get(fault, ())):
        return "procedure", figures.module[heads.get(standing.explained_by[fault] or "", fault)]
    return same_fault(book.code[fault], book.failure_type[fault]) or fault


def _circuit(
    book: Casebook, link: Links, case: Case, fault: int, shown: str, safety: str | None, *, comes_and_goes: bool,
) -> NextCheck:
    """The check of one fault: what to do, where, what passes."""
    facts = book.facts[fault]
    module = book.module_name[book.fault_module[fault]]
    title = meaning(facts, book.texts.get(fault, ()))
    minutes = 30.0
    if isolation_fault(facts.title):
        do = f"have the isolation of the high-voltage system measured by a qualified person ({shown})"
        passes = ("500 ohm or more for each volt of the system, 100 where it is direct current alone, and the maker's "
                  "own figure")
        minutes = ISOLATION_MINUTES
        title += "; look first where it gets wet: charging inlet, plugs, cable entries"
    elif wants_procedure(facts, book.texts.get(fault, ())):
        do = f"finish the programming or calibration that {shown} asks for{_by_itself(facts.safety, title)}"
        passes = "the code clears and stays away"
    elif not facts.known and safety not in ("restraints", "high voltage") and (
            part := silent_part(book.texts.get(fault, ()))) is not None:
        lin = on_lin(book, case.place, part)
        do = f"check feed, ground and {'LIN wire' if lin else 'network lines'} of the {part} that {shown} misses"
        passes = f"{FEED}; {LIN_PASSES if lin else WIRES}; and it answers"
    elif link.relation[fault] == LOST:
        trailer = "trailer" in " ".join((title, *book.texts.get(fault, ()))).lower()
        do = (f"find what should send what {shown} misses{', the trailer coupled' if trailer else ''}, and check its "
              "feed, ground and network lines")
        passes = f"{FEED}, {WIRES}, and it answers"
        title = TRAILER_SOCKET if trailer else title
    elif link.relation[fault] == BUS:
        # At the plug of the diagnosis, not at the module that reports it.
        moved = ", while harness and connectors are moved" if comes_and_goes else ""
        opened = any(ONE_END in told for told in link.findings.get(case.place, ()))
        do = (f"find where the network that {shown} reports is open: from connector to connector, in both directions"
              if opened else
              f"measure the network that {shown} reports: both wires, splices and terminators{moved}")
        passes = f"60 ohm between the two wires, {NO_PATH}, supply off; the code stays away after a clear"
    elif safety is None and unnamed(book, link, fault):
        do, passes = _looked_up(book, link, case, shown)
    elif not link.relation[fault] and (state := state_step(facts, title, book.texts.get(fault, ()))) is not None:
        do, passes = state.do.format(shown=shown), state.passes_if
    elif safety is None and not link.relation[fault] and follows_crash(book.texts.get(fault, ())):
        do = f"have the cut-off that {shown} tells of reset by the maker's procedure, once no fuel leaks"
        passes = "no fuel leak nor fumes, and the code stays away after a clear"
    elif _no_circuit(title) and safety != "restraints":
        do = f"find the cause of {shown} by the maker's test for it"
        passes = "the maker's test passes, and the code stays away after a clear"
    else:
        do, passes = _at_the_circuit(book, case, fault, shown, title, safety, comes_and_goes=comes_and_goes)
    return {"do": do, "where": f"{case.name(module)}: {title}", "minutes": minutes, "passes_if": passes,
            "settles": [], "gain_bits": 0.0, "gate": gate_of(safety)}


def _looked_up(book: Casebook, link: Links, case: Case, shown: str) -> tuple[str, str]:
    """What to do about a network code that only the maker's list explains: it names no circuit, and may be about a
    module that stays silent."""
    silent = [case.name(book.module_name[module]) for module in never_heard(book, link, case.place)]
    do = f"look up {shown} in the maker's list"
    if not silent:
        return do, "what that list asks for, and the code stays away after a clear"
    stays, its, lines = ("stays", "its", "it answers") if len(silent) == 1 else ("stay", "their", "they answer")
    do += f"; if it speaks of {listed(silent)}, which {stays} silent, check {its} feed, ground and network lines"
    return do, f"{FEED}; the network lines whole; {lines}, and the code stays away after a clear"


def _at_the_circuit(
    book: Casebook, case: Case, fault: int, shown: str, title: str, safety: str | None, *, comes_and_goes: bool,
) -> tuple[str, str]:
    """What to do at a circuit and what passes: under what brings the fault on, at the part that moves with it."""
    told, steady = moving(book.texts.get(fault, ()), title, safety), "the code stays away after a clear"
    if is_reference(title) and (part := pulls_down(book, case.place)) is not None:
        return (f"test {part}, its plug and its wires before the circuit of {shown}: the reference came back as it was "
                "unplugged", f"4.9 to 5.1 V on the reference with a sound one plugged in, and {steady}")
    wants = comes_and_goes or _came_and_went(book, fault)
    if safety == "restraints":
        do = f"have {shown} tested by a qualified person with the maker's procedure"
        passes = "the maker's figures for that circuit"
        if told is None and case.trigger is not None and wants:
            told = Moving(case.trigger, part_of(case.trigger, title, safety))
        if told is not None:
            first = f": first {told.part}" if told.part else ""
            do += f"{first}, for it is told to come {told.trigger.when or f'with {told.trigger.name}'}"
            passes += f", {told.trigger.test}, with a substitute load in place of the restraint part"
        return do, passes
    if told is not None and safety != "high voltage":
        first = f"first {told.part}" if told.part else "connector and wiring first"
        return (f"test the circuit of {shown} {told.trigger.test}, for so it is told to come: {first}",
                f"the reading holds steady meanwhile, and {steady}")
    if case.trigger is not None and safety != "high voltage" and wants:
        part = part_of(case.trigger, title, safety)
        first = f"first {part}" if part else "connector and wiring first"
        return (f"test the circuit of {shown} {case.trigger.test}, as the complaint says: {first}",
                f"the reading holds steady meanwhile, and {steady}")
    if comes_and_goes:
        return (f"test the circuit of {shown} in the conditions it came in (wet, hot, cold, shaken): connector and "
                "wiring first", "the reading holds steady while connector and wiring are wetted, warmed and moved")
    return (f"test the circuit of {shown}: connector, wiring, then the part",
            f"the maker's figures for the part, and {steady}")


def _by_itself(safety: str | None, title: str) -> str:
    """What is tried before the tester's procedure: many steering angle sensors find their zero by themselves after a
    flat battery (common practice)."""
    angle = safety == "steering" and ("angle" in title.lower() or "position" in title.lower())
    return ": from lock to lock, then straight ahead at walking pace, before the tester's procedure" if angle else ""


def _came_and_went(book: Casebook, fault: int) -> bool:
    """Whether a code was seen, then not, then seen again."""
    sights = [int(sight) for sight in book.seen[fault].tolist() if sight != NOT_READABLE]
    first = sights.index(SEEN) if SEEN in sights else len(sights)
    return NOT_SEEN in sights[first:] and sights[-1:] == [SEEN]


@lru_cache(maxsize=4096)
def _no_circuit(title: str) -> bool:
    """Whether no connector explains by itself what the code says."""
    low = title.lower()
    return any(word in low for word in NO_CIRCUIT)


def _shared(book: Casebook, case: Case, group: list[int], figures: Figures) -> NextCheck:
    """One check for what the signals of ``group`` share."""
    name = case.name(book.module_name[figures.module[group[0]]])
    doubt = np.array([figures.doubt[fault] for fault in group])
    codes = [book.code[fault] for fault in group]
    titles = [meaning(book.facts[fault], book.texts.get(fault, ())) for fault in group]
    settled = [figures.names[fault] for fault in group]
    if (part := one_part(titles)) is not None and (row := shared_part(part)) is not None:
        return {
            "do": f"test the {part} before the circuit of each code that tells of it ({', '.join(codes)})",
            "where": row.where, "minutes": 20.0, "passes_if": row.passes_if, "settles": settled,
            "gain_bits": round(float(doubt.sum()) * 0.6, 2), "gate": gate_of(row.safety or None)}
    if part is not None:
        return {
            "do": f"have {part} tested by a qualified person before each circuit that runs through it "
                  f"({', '.join(codes)})",
            "where": "steering column, under the steering wheel", "minutes": 30.0,
            "passes_if": "each circuit keeps the maker's figure while the wheel is turned from lock to lock, with a "
                         "substitute load in place of the airbag",
            "settles": settled, "gain_bits": round(float(doubt.sum()) * 0.6, 2), "gate": gate_of("restraints")}
    reference = is_reference(book.facts[group[0]].title)
    words = shared_words(codes, reference=reference)
    if reference:
        words += (f"; the reference came back as {part} was unplugged: that part, its plug and its wires first"
                  if (part := pulls_down(book, int(book.fault_session[group[0]]))) is not None else
                  "; unplug them one by one until the reference comes back")
    return {
        "do": f"check at {name} before any sensor: {words}", "where": f"connector of {name}, sensor ground and "
        "reference, splices", "minutes": 25.0,
        "passes_if": "0.2 V or less on the sensor ground, 4.9 to 5.1 V on the reference with each sensor plugged in "
                     "again",
        "settles": settled, "gain_bits": round(float(doubt.sum()) * 0.6, 2), "gate": None}


__all__ = ["ISOLATION_MINUTES", "circuit_checks", "isolation_fault"]
