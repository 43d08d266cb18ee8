"""Checks of modules that stay silent or drop off: what several share in one step, else each one's feed and ground."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from triage.explain.case import FEED, LOST_FEED, NO_PATH, UNREAD_LIST, WIRES, Case, gate_of
from triage.explain.dead_path import lost_pins, paths_left
from triage.explain.silent_together import listed
from triage.explain.standing import STRICTEST
from triage.explain.supply_checks import FOLLOW_WORDS, path_told
from triage.model.bus_reports import network_of
from triage.model.casebook import BUS, LOST, Casebook, Links, Story
from triage.model.connector_words import WAY
from triage.model.shared_silence import SharedSilence
from triage.model.verdict import NextCheck, SupplyVerdict

if TYPE_CHECKING:
    from triage.model.casebook import Floats

#: How likely several modules that fall silent together share the reason.
TOGETHER = 0.5
#: The safety classes without which a vehicle has to be kept from moving.
STANDING_STILL = ("brakes", "steering")
CABLES = "cables and grounds"
#: What the check of a module that stays silent ends with, and that of several.
ASK_AGAIN = "then ask it again"
ASK_THEM = "then ask them again"
#: A trailer's own socket: ISO 7638, pin 1 feed and pin 4 ground of the valves, 2 and 3 those of the electronics.
TRAILER_WORDS = ("measure feed and ground of {name} at the trailer socket under load, with a lamp of 21 W and not the "
                 "meter alone: pins 1 and 4, then 2 and 3 where it is an ISO 7638 socket")
TRAILER_PLACE = "trailer brake socket and its fuses, coiled lead, plug at the trailer"


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
    if group.fuse:
        read = group.read.partition(": ")[2]
        what = (f"find why {group.fuse} has nothing behind it ({read}): its contacts and the wire behind it, then "
                "what it feeds, unplugged one by one (restraint parts stay plugged in), a test lamp in its place; a "
                f"new one of the same rating, never a larger one; {told} hang on it")
    again = "hold the supply and ask them again; those that stay silent: " if group.low and not group.fuse else ""
    gain = sum(UNREAD_LIST * float(link.silent[module]) for module in group.modules)
    return {
        "do": f"{again}{what}, {ASK_THEM}", "where": TRAILER_PLACE if trailer else "fuse box, splices and gateway",
        "minutes": 20.0,
        "passes_if": f"{f'{WIRES}; ' if group.wires else ''}{FEED} at one of them, and they answer; one that does not "
                     "is then checked by itself: feed, ground, network lines",
        "settles": [names[fault] for fault in faults],
        "gain_bits": round(TOGETHER * (gain + float(bits[faults].sum()) * 0.8), 2),
        "gate": _strictest(book, group.modules)}


def drop_out_checks(
    book: Casebook, link: Links, case: Case, groups: Sequence[SharedSilence], bits: Floats, names: list[str],
) -> list[NextCheck]:
    """The modules that answer and that several others lose, unless they lose them with a network that fails: that is
    measured first."""
    if any(link.relation[fault] == BUS for fault in case.listed):
        return []
    return [_lost_together(book, link, case, group, bits, names) for group in groups]


def _lost_together(
    book: Casebook, link: Links, case: Case, group: SharedSilence, bits: Floats, names: list[str],
) -> NextCheck:
    """One check for what modules share that were silent together and answer again, or for one that others lose: a scan
    of a vehicle at rest finds it sound, so that it is moved meanwhile (common practice)."""
    faults = [fault for fault in case.open if link.relation[fault] == LOST and int(link.target[fault]) in group.modules]
    told = listed([case.name(book.module_name[module]) for module in group.modules])
    closed = {book.module_facts[module].safety for module in group.modules} & {"restraints", "high voltage"}
    test = ("by the maker's procedure" if closed else f"{case.trigger.test}, as the complaint says" if case.trigger else
            "while connectors, splices and harness are shaken and bent")
    by = listed([case.name(book.module_name[module]) for module in group.reporters], 4) if group.reporters else ""
    alone = len(group.modules) == 1
    what = (f"feed, ground and network lines of {told}" if alone else f"what {told} share ({group.shared_words()})")
    why = f"{by} lose {'it' if alone else 'them'} while {'it answers' if alone else 'they answer'}"
    if group.back:
        why = f"they were silent together {group.back} and answer again"
    return {
        "do": f"measure {what} under load {test}: {why}",
        "where": f"connector, fuse and ground point of {told}, its branch" if alone else
                 "fuse box, splices, ground points and gateway", "minutes": 20.0,
        "passes_if": f"{FEED}, without a break meanwhile, and nobody loses {'it' if alone else 'them'} again",
        "settles": [names[fault] for fault in faults],
        "gain_bits": round(LOST_FEED + float(bits[faults].sum()) * 0.5, 2),
        "gate": _strictest(book, group.modules)}


def only_path(supply: Sequence[SupplyVerdict], fuse: str) -> bool:
    """Whether the drop across a ``fuse`` is all that the cables failed by."""
    return any(entry["part"].startswith("cables") and entry["state"] == "failed"
               and fuse.casefold() in entry["why"].casefold() and entry["why"].count("voltage drop") == 1
               for entry in supply)


def asked_again(book: Casebook, link: Links, case: Case, checks: list[NextCheck]) -> list[NextCheck]:
    """The steps of the supply, the one for a path that was measured bad with the silent modules that are asked again
    once it is mended: they may be dead by it."""
    told = _lost(book, link, case)
    dead = {name for name, _ in told}
    silent = [name for story in link.stories.get(case.place, ()) if story.kind == "silent module"
              for module in story.modules if (name := case.name(book.module_name[module])) not in dead]
    left = paths_left(case.supply, told)
    if case.failed(CABLES) and not left:
        # Looked for where the silent module loses it.
        return [check for check in checks if not check["do"].startswith(FOLLOW_WORDS)]
    if told:
        where = f"along the path that failed{path_told('; '.join(left))}"
        checks = [{**check, "where": where} if check["do"].startswith(FOLLOW_WORDS) else check for check in checks]
    if not silent:
        return checks
    if any(group.fuse and only_path(case.supply, group.fuse) for group in link.shared.get(case.place, ())):
        # Looked for at the fuse, with what hangs on it.
        return [check for check in checks if not check["do"].startswith(FOLLOW_WORDS)]
    return [{**check, "do": f"{check['do']}, then ask {listed(silent, 4)} again"}
            if check["do"].startswith(FOLLOW_WORDS) else check for check in checks]


def _lost(book: Casebook, link: Links, case: Case) -> list[tuple[str, str]]:
    """The silent modules that have lost feed or ground, as printed, each with how."""
    stories = link.stories.get(case.place, ())
    return lost_pins(stories, {module: case.name(book.module_name[module]) for story in stories
                               for module in story.modules})


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
        loses = pins.how.partition("loses ")[2] or f"its {pins.lost}"
        what = f"find where {name} loses {loses}"
        where = f"{', '.join(WAY[pins.lost])} and wire to the {pins.lost} of {name}"
        where += "; still silent: its feed and network lines" if pins.alive else ""
    elif pins is not None and (pins.sound or pins.wired):
        pairs = [pin for pin in ("feed", "ground") if pin not in pins.sound]
        left = pairs if pins.wired else [*pairs, "network lines"]
        what, passes = f"check {' and '.join(left)} of {name}", f"{FEED}; {WIRES}" if pairs else WIRES
        if pins.wired:
            passes = FEED
        if not left:
            what = (f"look at the contacts in the plug of {name}, where its feed, ground and network lines were "
                    "measured good")
            passes = "contacts clean, straight and tight (else it is the module itself, by the maker's procedure)"
    mended = ("once the path that failed is mended and it stays silent: "
              if paths_left(case.supply, _lost(book, link, case)) else "")
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


__all__ = ["ASK_AGAIN", "ASK_THEM", "asked_again", "drop_out_checks", "only_path", "silent_checks"]
