"""What a ground that was measured bad can set: it is mended before any of that is judged (common practice).

A sensor's ground is the ground of its engine or body: a volt lost there is a volt on its signal, and a module that
hangs on it says that its supply is low. Told are signals that read wrong, no open circuits, nothing mechanical; and
nothing of restraints and high voltage, which wait for no other work.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from triage.explain.case import Case, gate_of
from triage.explain.meaning import meaning
from triage.explain.supply_checks import FOLLOW_WORDS, path_of_reason
from triage.model.assessment import FaultLine
from triage.model.casebook import NOT_READABLE, SEEN, Casebook, Links
from triage.model.verdict import NextCheck, SupplyVerdict

#: How the reason begins of a code that a bad ground can set.
HELD = "a ground measured bad can set it"
#: How the reason of a ground ends that was measured bad.
_FAILED = re.compile(r"on the ground path under load against [0-9.]+ V: too much$")
_ENGINE = re.compile(r"(?<![a-z])(?:engine|block|motor|gearbox|transmission|moteur|bloque|culata|culasse|bo[iî]te|"
                     r"caja)|motor(?:block|masse)|getriebe", re.IGNORECASE)
_SHARED = re.compile(r"(?<![a-z])(?:batt|bater|akku|body|chassis|frame|main|caisse|carrocer|bastidor|minus|neg|haupt)|"
                     r"karosserie|carrosserie|rahmen", re.IGNORECASE)
#: Words of what is read wrong where its ground is bad.
_SIGNAL = re.compile(r"(?<![a-z])(?:sensor|signal|reference|range|voltage|position|pressure|flow)(?![a-z])|low supply")
#: What a module drives through its own ground.
_DRIVEN = re.compile(r"(?<![a-z])(?:motor|pump|valve|solenoid|actuator|fan|blower|heater)s?(?![a-z])")
_NOT_SIGNAL = re.compile(r"(?<![a-z])(?:open|mechanical|leak|stuck|jammed|isolation|not programmed|calibrat)")
#: Failure types of an open circuit, of mechanical and of programming faults (SAE J2012DA).
_NOT_TYPES = ("13", "51", "52", "53", "54", "55", "56")
ENGINE_SYSTEMS = ("engine", "transmission")


def is_shared(path: str) -> bool:
    """Whether more than one consumer hangs on the ground that a path is called by."""
    return _ENGINE.search(path) is not None or _SHARED.search(path) is not None


def bad_ground(supply: Sequence[SupplyVerdict]) -> str | None:
    """What the ground is called that was measured bad and that more than one consumer hangs on; None where none was.

    >>> why = "strap battery to body: 0.90 V on the ground path under load against 0.2 V: too much"
    >>> bad_ground([{"part": "cables and grounds", "state": "failed", "why": why}])
    'strap battery to body'
    """
    for entry in supply:
        for reason in entry["why"].split("; ") if entry["part"] == "cables and grounds" and (
                entry["state"] == "failed") else ():
            path = path_of_reason(reason) or ""
            if _FAILED.search(reason) and is_shared(path):
                return path
    return None


def can_set(
    path: str, system: str, title: str, failure_type: str | None, safety: str | None, *, fed: bool, own: bool,
    driven: bool = False,
) -> bool:
    """Whether a ground ``path`` that was measured bad can set a code of a module of ``system``. ``fed``: it speaks of
    its supply; ``own``: it speaks of no other module and asks for a repair; ``driven``: the ground is that of its
    module, and of the motors that this drives.

    >>> engine, named = "engine block", "mass or volume air flow sensor A signal implausible"
    >>> [can_set(engine, "engine", named, kind, None, fed=False, own=True) for kind in (None, "13")]
    [True, False]
    >>> [can_set(engine, system, named, None, safety, fed=False, own=True) for system, safety in (
    ...     ("body", None), ("engine", "high voltage"))]
    [False, False]
    """
    if safety in ("restraints", "high voltage"):
        return False
    if fed:
        return True
    engine = _ENGINE.search(path) is not None
    reached = system in ENGINE_SYSTEMS if engine else True
    told = _SIGNAL.search(title) is not None or (driven and _DRIVEN.search(title) is not None)
    return (own and reached and told and _NOT_SIGNAL.search(title) is None
            and (failure_type or "")[:2].upper() not in _NOT_TYPES and (failure_type or "")[:1] != "7")


def _failed_grounds(supply: Sequence[SupplyVerdict]) -> list[str]:
    """The paths to ground that were measured bad, as they are called."""
    return [path for entry in supply if entry["part"] == "cables and grounds" and entry["state"] == "failed"
            for reason in entry["why"].split("; ") if _FAILED.search(reason) and (path := path_of_reason(reason))]


def _own_modules(book: Casebook, place: int, path: str) -> set[int]:
    """The modules of a session whose own ground a path is called by: "ABS ground to battery minus" feeds no other."""
    if _ENGINE.search(path) is not None:
        return set()
    return {module for module in range(int(book.first_module[place]), int(book.first_module[place + 1]))
            if any(re.search(rf"(?<![^\W_]){re.escape(name)}(?![^\W_])", path, re.IGNORECASE)
                   for name in (book.shown(module), book.module_name[module]))}


def set_by_ground(book: Casebook, link: Links, place: int, supply: Sequence[SupplyVerdict]) -> dict[int, str]:
    """The faults of a session, seen when their module was read last, that a bad ground can set, each with what that is
    called: the ground of many, or that of its own module."""
    found: dict[int, str] = {}
    for path in _failed_grounds(supply):
        own = _own_modules(book, place, path)
        for fault in range(int(book.first_fault[place]), int(book.first_fault[place + 1])) if (
                own or is_shared(path)) else ():
            module = int(book.fault_module[fault])
            read = [seen for seen in book.seen[fault].tolist() if seen != NOT_READABLE]
            if read[-1:] != [SEEN] or fault in found or (own and module not in own):
                continue
            facts, holder = book.facts[fault], book.module_facts[module]
            if can_set(path, holder.system, meaning(facts, book.texts.get(fault, ())), book.failure_type[fault],
                       facts.safety or holder.safety, fed=facts.supply in ("low", "fault"), driven=bool(own),
                       own=link.relation[fault] == 0 and facts.needs == "repair"):
                found[fault] = path
    return found


def held_words(path: str) -> str:
    """Why a code is not judged yet."""
    return f"{HELD} ({path}): that is mended first, then cleared and read again, before it is judged"


def is_held(lines: Sequence[FaultLine]) -> bool:
    """Whether each of the lines waits for a ground."""
    return bool(lines) and all(any(reason.startswith(HELD) for reason in line.why) for line in lines)


def with_held(
    checks: Sequence[NextCheck], held: Sequence[int], book: Casebook, case: Case, names: Sequence[str],
) -> list[NextCheck]:
    """The steps, the one at the bad ground with the faults that are read again once it is mended: ``held``."""
    modules = [book.module_name[book.fault_module[fault]] for fault in held]
    codes = [names[fault].replace(module, case.name(module), 1) for fault, module in zip(held, modules, strict=True)]
    more = f" and {len(codes) - 3} more" if len(codes) > 3 else ""
    classes = {book.module_facts[book.fault_module[fault]].safety for fault in held}
    gate = gate_of(next((name for name in ("brakes", "steering") if name in classes), None))
    return [{**check, "gate": check["gate"] or gate,
             "do": f"{check['do']}; then clear and read again before {', '.join(codes[:3])}{more} "
             f"{'is' if len(codes) == 1 else 'are'} judged",
             "settles": [*check["settles"], *(names[at] for at in held)]}
            if held and check["do"].startswith(FOLLOW_WORDS) else check for check in checks]


def ground_first(checks: Sequence[NextCheck], supply: Sequence[SupplyVerdict]) -> list[NextCheck]:
    """The steps, the one at a ground that more than one consumer hangs on before all others: what is tested on it is
    tested wrong. What proves that no high voltage is on stays before it."""
    bad = bad_ground(supply) is not None
    ground = [check for check in checks if bad and check["do"].startswith(FOLLOW_WORDS)]
    proving = [check for check in checks if ground and "absence of voltage" in (check["gate"] or "")]
    return [*proving, *ground, *(check for check in checks if check not in proving and check not in ground)]


__all__ = ["HELD", "bad_ground", "can_set", "ground_first", "held_words", "is_held", "is_shared", "set_by_ground",
           "with_held"]
