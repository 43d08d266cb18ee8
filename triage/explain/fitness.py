"""Whether the vehicle may be run or driven for a test, and what is looked at standing before it is.

Nobody is sent onto the road while braking or steering is in doubt: because a fault of them is likely, because one came
back at a good supply however quiet the runs since, or because the complaint tells of a hard pedal or a heavy wheel. And
no drive is enabled while a contactor is said to be stuck closed or an interlock open (common practice).
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from triage.explain.case import Case
from triage.explain.standing import ASIDE, Standings
from triage.model.casebook import (
    ANSWERS,
    NOT_ASKED,
    NOT_SEEN,
    SEEN,
    SILENT,
    Bools,
    Casebook,
    Floats,
    Links,
    Timeline,
)
from triage.model.session import Session
from triage.model.snapshot import STATUS_WORDS
from triage.model.triggers import COLD, HOT, LADEN, trigger_of
from triage.model.verdict import NextCheck, SupplyVerdict

if TYPE_CHECKING:
    from code_tables import Tables

#: The safety classes without which nobody drives.
DRIVEN = ("brakes", "steering")
#: Those of which a module that stays silent keeps the vehicle off the road.
UNREAD = (*DRIVEN, "restraints")
#: A steering fault this likely to persist puts it in doubt; a sensor of the brakes is tested on the road: project's
#: own choice.
STEERING_DOUBT, BRAKES_DOUBT = 0.05, 0.5
#: A monitor this likely to have run was clean where its code is gone: even odds; project's own choice.
RAN = 0.5
PERMANENT = STATUS_WORDS.index("permanent")
#: A complaint of an engine that does not start, in four languages; common practice.
_NO_START = re.compile(
    r"(?:won['’]?t|will not|does ?n[o'’]?t|doesnt|can['’]?t|cannot|no|not|never)[ -](?:crank|start|turn over|fire)|"
    r"(?:springt|geht|startet|dreht) nicht|ne d[ée]marre|no arranca", re.IGNORECASE)
_BAD = (r"(?:hard|heav(?:y|ier)|stiff|soft|spongy|long|low|sinks?|sinking|goes? (?:down|to the floor)|weak|poor|"
        r"fail\w*|fad(?:es?|ing)|pulls?|pulling|lock(?:s|ed|ing)?(?! lamp)|stuck|no (?:assist\w*|pressure)|"
        r"without assist\w*)")
#: Complaints of braking or steering itself, not of a lamp that tells of its electronics, in four languages.
_DOUBTED = {
    "brakes": re.compile(
        rf"\b(?:brake )?pedal\b[^.;]{{0,24}}\b{_BAD}\b|\b{_BAD}\b[^.;]{{0,12}}\b(?:brake )?pedal\b|"
        rf"\b(?:brakes|braking)\b[^.;,]{{0,16}}\b{_BAD}\b|\bno brakes?\b|"
        r"\b(?:red )?brake (?:warning )?(?:lamp|light)\b|"
        r"\bred (?:warning )?(?:lamp|light)s?\b(?! (?:off|out))|\brote?n? (?:warn|brems)?(?:lampe|leuchte)\b|"
        r"\bvoyants? rouges?\b|\b(?:testigo|luz) roj[oa]\b|"
        r"\b(?:brems)?pedal\b[^.;]{0,24}\b(?:hart|schwer|weich|lang|durch)\w*|\bbremse\w*[^.;,]{0,16}\b(?:schlecht|zieht|"
        r"blockiert|fest)|\bbremswarnl\w+|\bp[ée]dale\b[^.;]{0,24}\b(?:dure?|molle|longue|enfonce)|"
        r"\bvoyant (?:de )?freins?\b|\bpedal (?:de freno )?(?:duro|blando|largo|esponjoso)|\btestigo de frenos?\b",
        re.IGNORECASE),
    "steering": re.compile(
        rf"\bsteer\w*(?: wheel)?\b[^.;,]{{0,20}}\b{_BAD}\b|\b{_BAD}\b[^.;,]{{0,6}}\bsteering\b|\bno power steering\b|"
        r"\blenk\w*[^.;,]{0,20}\b(?:schwer|hart|blockiert|zieht|ohne)\w*|\bdirection\b[^.;,]{0,16}\b(?:dure?|lourde|"
        r"bloqu)\w*|\bdirecci[oó]n\b[^.;,]{0,16}\b(?:dura|pesada|bloquea)\w*", re.IGNORECASE),
}
#: How the checks of a standing vehicle begin.
STAND_WORDS = "with the vehicle standing"
_STAND = {
    "brakes": (
        f"{STAND_WORDS}, test the brake before anybody drives: fluid level, pedal travel, a firm pedal under foot for "
        "a minute; pump the assistance away, hold the pedal and start the engine (or switch to READY)",
        "brake pedal, reservoir, booster and its vacuum or pressure", "the pedal stays up, gives a little as the "
        "assistance comes, and the red lamp is out"),
    "steering": (
        f"{STAND_WORDS}, test the steering before anybody drives: engine running (or READY), from lock to lock, "
        "joints and column looked at, the live values of torque and angle watched",
        "steering wheel, column, assistance",
        "the same light effort both ways, no catch, values that follow the wheel without a jump"),
}
#: What is worked standing where nobody complains: what to do, and what passes.
_WORKED = {
    "steering": ("work the steering from lock to lock, engine running (or READY), the live values of torque and angle "
                 "watched; then read it again", "the values follow the wheel without a jump, and the codes stay away"),
    "brakes": ("press the brake pedal slowly and hard, its switch, travel and pressure watched against each other; "
               "then read it again", "they follow each other, pressure is near zero at rest, and the codes stay away"),
}
#: Titles and texts of what such a step works.
_AT_REST = {"steering": re.compile(r"^(?!.{0,200}speed)"),
            "brakes": re.compile(r"(?<!tire )(?<!tyre )(?<!reifen)pressure|pedal|booster|brake (?:switch|light)|druck")}
#: Contactors said to be stuck closed, or an interlock that is not closed.
_LIVE = re.compile(r"(?:contactor|relay).*stuck closed|interlock|welded", re.IGNORECASE)
CLOSED_ONCE = ("a qualified person at hand: a contactor was said to be stuck closed, so the bus may be live with the "
               "drive off")
LIVE = "contactors and interlock proved sound by a qualified person"


def before_a_start(session: Session, scale: float, limit: float, *, electric: bool) -> str | None:
    """What has to be done before the engine can be run or the vehicle driven. ``limit``: too low to crank, V."""
    # What a charger holds up tells nothing of the battery beside it.
    last = next((shot for shot in reversed(session.snapshots) if shot.volts is not None
                 and shot.outside_supply in (None, "none", "unknown")), None)
    if last is not None and last.volts is not None and last.volts < limit * scale and last.engine != "running":
        return f"battery charged first, so that the {'drive goes READY' if electric else 'engine starts'} by itself"
    complaint = session.vehicle.complaint if session.vehicle else None
    ran = any(shot.engine == "running" or (shot.ran_minutes or 0) > 0 for shot in session.snapshots)
    if complaint and not ran and _NO_START.search(complaint):
        return "once it starts: the complaint says that it does not, so look for that first"
    return None


def starved(book: Casebook, modules: range, supply: Sequence[SupplyVerdict]) -> bool:
    """Whether a module of brakes or steering was measured to be fed badly."""
    why = next((entry["why"] for entry in supply if entry["part"] == "cables and grounds"
                and entry["state"] == "failed"), None)
    return why is not None and any(book.module_facts[module].safety in DRIVEN
                                   and f"{book.module_name[module]} reads" in why for module in modules)


def doubted(complaint: str | None) -> list[str]:
    """What a complaint puts in doubt itself: braking, steering.

    >>> doubted("pedal went hard on the way down, booster hisses"), doubted("steering gets heavy in town")
    (['brakes'], ['steering'])
    >>> doubted("ABS lamp when it rains, battery flat"), doubted(None)
    ([], [])
    >>> doubted("Pedal hart"), doubted("voyant rouge"), doubted("red lamp off")
    (['brakes'], ['brakes'], [])
    """
    return [name for name, said in _DOUBTED.items() if complaint and said.search(complaint[:500])]


def came_back(book: Casebook, line: Timeline, link: Links, opportunity: Floats, tables: Tables) -> Bools:
    """N: gone after the clear though its monitor could run (``opportunity``, N x K), and seen again in a later scan
    at a supply that is not known to have dipped or failed: it comes and goes, and quiet runs only tell how seldom."""
    good, lowest = tables.rate("supply.good"), tables.rate("supply.clean_lowest")
    scale = line.scale[:, None]
    fed = np.nan_to_num(book.volts / scale, nan=0.0) >= good
    fed &= np.nan_to_num(book.lowest / scale, nan=99.0) >= lowest
    for session, events in enumerate(link.events):
        # What nothing charges falls on, whatever was read at its start.
        fed[session, events.lasting_from if events.lasting == "low" else fed.shape[1]:] = False
    since = (book.phase > 0)[book.fault_session]
    gone = np.logical_or.accumulate(since & (book.seen == NOT_SEEN) & (opportunity >= RAN), axis=1)
    again = (book.seen == SEEN) & since & fed[book.fault_session] & (book.status != PERMANENT)
    again[:, 1:] &= gone[:, :-1]
    # What nobody saw before somebody worked on its module came with the work.
    known = np.logical_or.accumulate(book.seen == SEEN, axis=1)
    again[:, 1:] &= known[:, :-1] | ~line.work[book.fault_module][:, 1:]
    again[:, 0] = False
    return np.asarray(again.any(axis=1) & book.flags(lambda facts: facts.supply is None and facts.relation is None))


def unfit_to_drive(book: Casebook, standing: Standings, chance: Floats, back: Bools) -> Bools:
    """S: braking or steering is in doubt by a fault that is open: nobody is sent onto the road. ``back``: N, those that
    came back (:func:`came_back`)."""
    unfit = np.zeros(len(book.sessions), dtype=bool)
    for fault in np.flatnonzero((standing.standing != ASIDE) & standing.safety).tolist():
        least = {"steering": STEERING_DOUBT, "brakes": BRAKES_DOUBT}.get(standing.dangers[fault] or "", 2.0)
        if chance[fault] >= least or (back[fault] and least < 1.0):
            unfit[book.fault_session[fault]] = True
    for module in unanswered(book):
        unfit[book.module_session[module]] = True
    return unfit


def unanswered(book: Casebook) -> list[int]:
    """Modules without which nobody drives, and gateways, that stayed silent when they were last asked, cleared or not:
    what they hold nobody knows (common practice). One that never answered while another one of its safety class does
    may not be fitted; one of a trailer answers only with the trailer."""
    asked = book.state != NOT_ASKED
    last = book.state.shape[1] - 1 - np.argmax(asked[:, ::-1], axis=1) if book.state.size else np.zeros(0, dtype=int)
    silent = np.flatnonzero(book.state[np.arange(len(last)), last] == SILENT) if book.state.size else last
    if not silent.size:
        return []
    answered = (book.state == ANSWERS).any(axis=1)
    kinds = [facts.safety if facts.safety in UNREAD else "gateway" if facts.name.startswith("gateway") else None
             for facts in book.module_facts]
    standing_in = {(int(book.module_session[module]), kinds[module]) for module in np.flatnonzero(answered).tolist()}
    return [module for module in silent.tolist() if kinds[module] is not None
            and book.module_facts[module].awake == "key"
            and (answered[module] or (int(book.module_session[module]), kinds[module]) not in standing_in)]


def standing_checks(complaint: str | None, faults: Sequence[int], dangers: Sequence[str | None], names: Sequence[str],
                    gain: float) -> list[NextCheck]:
    """What is tested standing where the complaint doubts braking or steering itself; ``faults``: the open ones."""
    checks: list[NextCheck] = []
    for name in doubted(complaint):
        do, where, passes = _STAND[name]
        if (trigger := trigger_of(complaint)) is not None and trigger.name in (COLD.name, HOT.name, LADEN.name):
            do = f"{do}; {trigger.test}, as the complaint says"
        checks.append({
            "do": do, "where": where, "minutes": 10.0, "passes_if": passes,
            "settles": [names[fault] for fault in faults if dangers[fault] == name], "gain_bits": round(gain, 2),
            "gate": "chocks at the wheels, selector in park or neutral; not on the road until it passes"})
    return checks


def worked_standing(
    book: Casebook, case: Case, dangers: Sequence[str | None], bits: Floats, names: Sequence[str],
    checks: Sequence[NextCheck],
) -> list[NextCheck]:
    """What a standing vehicle tells of sensors of steering and brakes that no other of the ``checks`` settles: from
    lock to lock with assistance, pressure against pedal (common practice). Speeds show on the road alone."""
    settled = {name for check in checks for name in check["settles"]}
    found: list[NextCheck] = []
    for danger, (do, passes) in _WORKED.items():
        faults = [fault for fault in case.open if dangers[fault] == danger and names[fault] not in settled
                  and book.facts[fault].relation is None and not book.facts[fault].supply
                  and _AT_REST[danger].search(" ".join((book.facts[fault].title, *book.texts.get(fault, ()))).lower())]
        if not faults or (danger == "steering" and (case.overcharged() or case.cut_off())):
            continue
        found.append({
            "do": do, "where": "driver's seat, vehicle standing", "minutes": 10.0, "passes_if": passes,
            "settles": [names[fault] for fault in faults], "gain_bits": round(0.7 * float(bits[faults].sum()), 2),
            "gate": "chocks at the wheels, selector in park or neutral; hands clear of what moves"})
    return found


def keeps_live(book: Casebook, standing: Standings, chance: Floats, least: float) -> Bools:
    """N: open faults of a contactor stuck closed or an interlock, more likely than ``least``: the bus may be live."""
    said = book.flags(lambda facts: facts.safety == "high voltage" and _LIVE.search(facts.title) is not None)
    return np.asarray(said & (standing.standing != ASIDE) & (chance >= least))


def says_live(title: str) -> bool:
    """Whether a code is of a contactor stuck closed or of an interlock."""
    return _LIVE.search(title) is not None


def stuck_closed(book: Casebook, standing: Standings) -> Bools:
    """N: open faults that say that a contactor is stuck closed."""
    return np.asarray(book.flags(lambda facts: "contactor stuck closed" in facts.title) & (standing.standing != ASIDE))


__all__ = ["CLOSED_ONCE", "DRIVEN", "LIVE", "STAND_WORDS", "STEERING_DOUBT", "before_a_start", "came_back", "doubted",
           "keeps_live", "says_live", "standing_checks", "starved", "stuck_closed", "unfit_to_drive", "worked_standing"]
