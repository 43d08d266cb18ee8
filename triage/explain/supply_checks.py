"""The next checks of the supply itself: the one measurement that decides each part that failed or was not tested.

A part that nobody tested is one bit of doubt at most; a part that failed leaves the doubt where it failed (belt,
cable, control line or the generator itself). Steps that only repeat what has failed already are left out by
:mod:`triage.explain.checks`.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from triage.explain.case import is_cut_off, too_much
from triage.explain.heard import heard
from triage.model.emptied import emptied_by
from triage.model.measured_words import TRAILER_SOCKET, UNSTEADY
from triage.model.parts import battery_renewed
from triage.model.session import Session
from triage.model.verdict import NextCheck, SupplyPart, SupplyVerdict

if TYPE_CHECKING:
    from code_tables import Tables

#: Places where charging can fail: drive belt, cables and fuse, control line, the generator (or converter) itself.
PLACES = 4
#: What is said of a battery that goes flat once more, in four languages.
_AGAIN = re.compile(r"\b(?:again|every|each|still|keeps|wieder|immer|jede\w*|encore|toujours|nouveau|"
                    r"otra vez|sigue|cada)\b", re.IGNORECASE)
#: How the measurement of the key-off draw begins, and the load test of one battery or of two.
DRAW_WORDS = "measure the key-off current"
DROP_WORDS = "measure the voltage drop"
FOLLOW_WORDS = "follow the drop"
LOAD_WORDS = ("charge the battery fully", "charge the batteries fully")
#: Beginning of what is said of an overvoltage event.
OVER = "overvoltage: "
#: A complaint of the battery itself, in four languages.
_BATTERY = re.compile(r"batter(?:y|ie|ia|ía)|(?<![a-z])flat(?! (?:tyre|tire|spot))|drain", re.IGNORECASE)
#: What the reason of a draw says that comes in pulses.
WAKES = "a module that wakes"
#: Letters of a path's name that are told.
LONGEST_PATH = 70
#: A path as the reading called it, before its figure.
_NAMED_PATH = re.compile(r"(?![0-9])([^;]{1,200}?): (?=-?[0-9])")
#: The circuit without which the current is gone, as the reason of a draw that failed has it.
_DRAWS = re.compile(r"mA ([^;:]+): its circuit draws it")
APART = ("engine off and not run before the link is renewed; battery and outside supply disconnected before anybody "
         "touches it")
OVERCHARGED = "goggles and gloves, ventilated, no sparks; no charger on it"
COOLED = "battery cool and looked at first: no support on one that is hot, swollen, leaking or smelling"
#: Without the feed of its socket a trailer's brakes have no anti-lock, nor electronic control (ISO 7638-1).
UNFED_TRAILER = "trailer not on the road until the feed of its socket holds under load: its brakes hang on it"
BELT = "parking brake on; hands, hair and clothes clear of belts and fans"
CONVERTER = "qualified person only for anything behind orange cables: made safe and absence of voltage proved first"


def failed_checks(
    supply: Sequence[SupplyVerdict], scale: float, electric: bool, witnesses: list[str], tables: Tables,
) -> list[NextCheck]:
    """The steps for the parts of ``supply`` that failed; ``witnesses`` are the open faults that speak of charging."""
    states = {entry["part"]: entry for entry in supply}
    right = tables.rate("check.answers_right")
    checks: list[NextCheck] = []
    if states["charging"]["state"] == "failed":
        checks.append(_charging(states["charging"]["why"], scale, electric, witnesses, tables, right))
    return checks + _failed(states, electric, tables, right)


def untested_checks(
    supply: Sequence[SupplyVerdict], scale: float, electric: bool, tables: Tables, session: Session, *,
    damaged: bool = False,
) -> list[NextCheck]:
    """The steps for the parts of ``supply`` that nobody tested, where anything says that it is or was weak and nothing
    that is told or measured explains it. ``damaged``: the vehicle had a crash, a fire or stood in water."""
    states = {entry["part"]: entry for entry in supply}
    right = tables.rate("check.answers_right")
    checks: list[NextCheck] = []
    if not supply_in_doubt(supply):
        return checks
    left = _in_doubt(states, session, tables.rate("battery.flat") * scale, damaged=damaged)
    if states["battery"]["state"] == "not tested" and "battery" in left:
        # The limit is of one 12 V battery: those of a 24 V pair are tested one by one.
        over = states["charging"]["state"] == "failed" and too_much(states["charging"]["why"])
        checks.append(_load_test(scale, tables, right, over=over))
    if states["cables and grounds"]["why"].startswith(UNSTEADY):
        # Before any figure read there is believed (common practice).
        checks.append(_step(
            "seat the meter's leads on the posts themselves, then move clamps, cables and ground straps by hand while "
            "reading the supply; clean and tighten what makes it jump", "battery posts, clamps, grounds, main fuse",
            5.0, "the reading stands still, and reads the same on the post as on its clamp", right, None))
    if states["cables and grounds"]["state"] == "not tested" and "cables and grounds" in left:
        checks.append(_step(
            f"{DROP_WORDS} from battery to {'' if electric else 'engine, '}body and feeds with the load on",
            f"battery posts, {'' if electric else 'engine block, '}body, fuse box", 15.0,
            f"{tables.rate('drop.ground'):g} V or less on a ground path, {tables.rate('drop.feed'):g} V or less on the "
            "feed", 0.5 * right, None))
    if states["key-off draw"]["state"] == "not tested" and "key-off draw" in left:
        # While battery or charging may be what is weak it is one suspect among them.
        alone = all(states[part]["state"] == "proven" for part in ("battery", "charging"))
        checks.append(_step(
            f"{DRAW_WORDS} after the modules have gone to sleep", "at the battery, vehicle locked", 45.0,
            f"{tables.rate('draw.most'):g} A or less, 20 to 60 minutes after locking", right if alone else 0.5 * right,
            None))
    return checks


def _in_doubt(
    states: Mapping[SupplyPart, SupplyVerdict], session: Session, flat: float, *, damaged: bool,
) -> set[SupplyPart]:
    """The parts of the supply that what is known leaves in doubt (common practice): a battery that was renewed is not
    load-tested; what emptied a battery standing is not looked for by its current while something else did, unless it
    goes flat once more; and a drop on the cables explains no battery that was found discharged. ``flat``: V, below
    which a battery at rest is."""
    complaint = session.vehicle.complaint if session.vehicle else None
    renewed = any(map(battery_renewed, session.events or ()))
    again = _AGAIN.search(complaint or "") is not None or _went_flat(session, flat)
    found: set[SupplyPart] = {"battery"} if not renewed or again else set()
    failed = [part for part, entry in states.items() if entry["state"] == "failed"]
    told = damaged or renewed or emptied_by(session) is not None or bool(failed)
    if again or not told:
        found.add("key-off draw")
    discharged = states["battery"]["why"].startswith("discharged")
    if not failed and not (told or discharged or "told of: " in states["event"]["why"]):
        found.add("cables and grounds")
    return found


def _went_flat(session: Session, flat: float) -> bool:
    """Whether a battery that was good, or charged, in one scan was found flat at rest in a later one."""
    good = False
    for snapshot in session.snapshots:
        still = snapshot.engine not in ("running", "ready", "cranking") and snapshot.outside_supply in (None, "none")
        if good and still and snapshot.volts is not None and snapshot.volts < flat:
            return True
        good |= snapshot.volts is not None and snapshot.volts >= flat
    return False


def _load_test(scale: float, tables: Tables, right: float, *, over: bool) -> NextCheck:
    """The load test of the battery, or of each battery of a 24 V pair; ``over``: it has been overcharged."""
    pair = scale > 1.5
    if over:
        # Gas and acid: nothing is put on a battery that boils, and one that has dried out is not saved by a charge.
        return _step(("let the batteries cool and look at each" if pair else "let the battery cool and look at it") +
                     ": hot, swollen, leaking, smelling or low on acid means renewed without a test; else load-test "
                     "it after the charging is mended", "at the batteries" if pair else "at the battery", 30.0,
                     f"cool, in shape, no smell; then {tables.rate('battery.load_test'):.1f} V or more under half its "
                     "cold-cranking current for 15 s, at 20 degrees C and above", right, OVERCHARGED)
    do = (f"{LOAD_WORDS[1]}, let them rest, then load-test each one" if pair else
          f"{LOAD_WORDS[0]}, let it rest, then load-test it")
    return _step(do, "at the batteries" if pair else "at the battery", 90.0,
                 f"{'each of them ' if pair else ''}{tables.rate('battery.load_test'):.1f} V or more under half its "
                 "cold-cranking current for 15 s, at 20 degrees C and above", right,
                 "ventilated, no sparks, never a frozen battery")


def _failed(
    states: Mapping[SupplyPart, SupplyVerdict], electric: bool, tables: Tables, right: float,
) -> list[NextCheck]:
    """Where in a part that failed the fault sits: the battery itself, the circuit that draws, the joint that drops."""
    checks: list[NextCheck] = []
    half = math.log2(PLACES) * right
    if states["battery"]["state"] == "failed":
        checks.append(_step(
            "charge the battery that failed fully, let it rest and load-test it once more: a second failure condemns "
            "it", "at the battery", 90.0, f"{tables.rate('battery.load_test'):.1f} V or more under half its "
            "cold-cranking current for 15 s, at 20 degrees C and above", half,
            "ventilated, no sparks, never a frozen battery"))
        if states["battery"]["why"].startswith("pair "):
            # One of two in series goes flat alone where something is fed from between them (common practice).
            checks.append(_step(
                "look for what is fed from between the two batteries (a 12 V consumer on the middle tap, an equaliser) "
                "and measure its current, all switched off and then on", "link between the two batteries", 20.0,
                "no current from one battery alone; with an equaliser both stay within "
                f"{tables.limit('pair difference', 24):g} V", half, None))
    drawing = _DRAWS.search(states["key-off draw"]["why"])
    if states["key-off draw"]["state"] == "failed" and drawing:
        checks.append(_step(
            f"find what draws in the circuit that was found ({_circuit(drawing[1])}): unplug what it feeds one by "
            "one, modules asleep, until the current falls", "what that circuit feeds", 20.0,
            f"{tables.rate('draw.most'):g} A or less, 20 to 60 minutes after locking", half,
            "restraint parts stay plugged in" + "; nothing is unplugged behind orange cables" * electric))
    elif states["key-off draw"]["state"] == "failed" and WAKES in states["key-off draw"]["why"]:
        checks.append(_step(
            "find the module that wakes: vehicle locked, keys out of reach, watch the drop across each fuse through "
            "one of the pulses, then what wakes it (a switch, a latch, another module)", "fuse boxes", 60.0,
            f"{tables.rate('draw.most'):g} A or less throughout, 20 to 60 minutes after locking", half,
            "restraint fuses stay in" + "; nothing is unplugged behind orange cables" * electric))
    elif states["key-off draw"]["state"] == "failed":
        checks.append(_step(
            "find the circuit that draws with the key off: measure the drop across each fuse, modules asleep, latches "
            "closed, then follow the one that carries current", "fuse boxes", 45.0,
            f"{tables.rate('draw.most'):g} A or less, 20 to 60 minutes after locking", half,
            "restraint fuses stay in; nothing is unplugged behind orange cables" if electric else
            "restraint fuses stay in"))
    cables = states["cables and grounds"]
    # An open link that the charging failed for is found by its own step.
    told = is_cut_off(states["charging"]["why"]) and "; " not in cables["why"]
    if cables["state"] == "failed" and not told:
        checks.append(_step(
            f"{FOLLOW_WORDS} joint by joint under load: clean, tighten or renew where it sits",
            f"along the path that failed{path_told(cables['why'])}", 20.0,
            f"{tables.rate('drop.ground'):g} V or less on a ground path, {tables.rate('drop.feed'):g} V or less on the "
            "feed", half, UNFED_TRAILER if TRAILER_SOCKET in cables["why"] else None))
    return checks


def _circuit(told: str) -> str:
    """The circuit that was found, as it is called: what was done to find it is told already.

    >>> _circuit("(Pulled fuse 4 (radio/phone))"), _circuit("(F12)"), _circuit("with fuse 31 (radio) pulled")
    ('fuse 4 (radio/phone)', 'F12', 'fuse 31 (radio)')
    """
    inner = told[1:-1] if told[:1] == "(" and told[-1:] == ")" else told
    return re.sub(r"^(?:with |after )?(?:(?:pulled|pulling|removed|without)\s+(?:the\s+)?)?| (?:pulled|unplugged)$", "",
                  inner, flags=re.IGNORECASE)


def path_told(why: str) -> str:
    """The path as the reading called it, where the reason of the failed part begins with one.

    >>> [path_told(f"{path}0.90 V on the ground path under load") for path in ("voltage drop rear ground: ", "")]
    [': voltage drop rear ground', '']
    >>> path_told("job 7: drop at the block: 3.40 V on the ground path")
    ': job 7: drop at the block'
    """
    head = path_of_reason(why.split("; ")[0])
    return f": {head}" if head and len(head) <= LONGEST_PATH else ""


def path_of_reason(reason: str) -> str | None:
    """The path that a reason of cables and grounds begins with."""
    found = _NAMED_PATH.match(reason)
    return found[1] if found is not None else None


def is_drained(complaint: str) -> bool:
    """Whether a complaint is of the battery itself; "dead" is said of wipers too.

    >>> is_drained("flat every third day"), is_drained("wipers dead"), is_drained("flat tyre")
    (True, False, False)
    """
    return _BATTERY.search(complaint) is not None


def draws_first(session: Session, supply: Sequence[SupplyVerdict]) -> bool:
    """Whether the current with the key off comes before all else of the supply: the battery is complained of, good or
    new, and charged while driving, so that something empties it standing (common practice)."""
    states = {entry["part"]: entry["state"] for entry in supply}
    complaint = session.vehicle.complaint if session.vehicle else None
    # A new battery is sound as far as it is the new one that goes flat.
    sound = states["battery"] == "proven" or (states["battery"] != "failed" and _AGAIN.search(complaint or "") and any(
        battery_renewed(event) for event in session.events or ()))
    said, areas = heard(complaint or "")
    return bool("supply" in areas and is_drained(said) and sound and states["charging"] == "proven"
                and states["key-off draw"] == "not tested")


def supply_in_doubt(supply: Sequence[SupplyVerdict]) -> bool:
    """Whether anything says that the supply was or is weak."""
    return any(entry["state"] == "failed" or (entry["part"] == "event" and entry["state"] == "proven")
               or entry["why"].startswith(("discharged", UNSTEADY)) for entry in supply)


def _charging(
    why: str, scale: float, electric: bool, witnesses: list[str], tables: Tables, right: float,
) -> NextCheck:
    low, high = tables.rate("charging.good") * scale, tables.rate("charging.over") * scale
    gain = (math.log2(PLACES) + 0.2 * len(witnesses)) * right
    if electric:
        return _step("find why the converter does not charge the battery: its fuse and cables, then its own output",
                     "12 V battery and converter output", 30.0,
                     f"{low:.1f} to {high:.1f} V at the battery with the drive READY and nothing connected", gain,
                     CONVERTER, witnesses)
    if is_cut_off(why):
        return _step("find why the link between generator and battery opened before it is renewed: leads reversed, a "
                     "short behind it, or the generator's rectifier; renew it, then measure the charging",
                     "link, cable to the generator, rectifier", 20.0,
                     "no path to ground behind the link, and the rectifier conducts one way only; with the new link "
                     f"{low:.1f} to {high:.1f} V at the battery, lamps and blower on and nothing connected", gain,
                     APART, witnesses)
    if too_much(why):
        return _step("measure at the battery posts, then check the control line and the regulator",
                     "battery and generator", 25.0, f"{low:.1f} to {high:.1f} V at idle and at 2000 rpm", gain,
                     f"{BELT}; run it no longer than the reading takes, and not beside a battery that is hot or smells",
                     witnesses)
    if why.startswith("ripple"):
        return _step("measure the ripple again at the generator output with lamps and blower on, then test the "
                     "rectifier", "generator and battery", 15.0,
                     "0.1 V AC or less is sound, above 0.5 V AC is a bad diode", gain, BELT, witnesses)
    return _step("look at the belt, then measure at the generator output and at the battery with the engine running: "
                 "cable and fuse, control line, or the generator itself", "generator and battery", 12.0,
                 f"{low:.1f} to {high:.1f} V at the battery with lamps and blower on and nothing connected, and no "
                 f"more than {tables.rate('drop.feed'):g} V between generator and battery", gain, BELT, witnesses)


def _step(
    do: str, where: str, minutes: float, passes: str, gain: float, gate: str | None, settles: list[str] | None = None,
) -> NextCheck:
    return {"do": do, "where": where, "minutes": minutes, "passes_if": passes, "settles": settles or [],
            "gain_bits": round(gain, 2), "gate": gate}


__all__ = ["CONVERTER", "COOLED", "DRAW_WORDS", "DROP_WORDS", "FOLLOW_WORDS", "LOAD_WORDS", "OVER", "draws_first",
           "failed_checks", "is_drained", "path_of_reason", "path_told", "supply_in_doubt", "untested_checks"]
