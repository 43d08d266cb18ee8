"""What happened to a vehicle that changes what is safe: a crash, a fire, water.

Before a crashed vehicle is started or moved somebody looks for fuel, coolant and cut cables, and at wheels and
steering; after a fire for burnt wiring, after water for water in oil, intake and connectors (common practice). The
stored record of a crash tells of one, unless it came with a used module.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from triage.explain.module_checks import is_used
from triage.explain.records import is_record
from triage.model.casebook import Casebook, PartTest
from triage.model.crash import follows_crash
from triage.model.session import Session
from triage.model.verdict import NextCheck

#: As people write it in four languages; not what a system is called ("collision warning") nor what did not happen.
_SAID = {
    "crash": re.compile(
        r"(?<![a-z])(?<!no )(?<!not )(?<!never )(?:crashed|crash (?:damage|repair|car|vehicle)|"
        r"after (?:a|the|an) (?:crash|collision|accident|impact)|"
        r"(?:had|in|been in) (?:a|an|the) (?:crash|collision|accident)|accident (?:damage|car|vehicle)|rear-ended|"
        r"(?:hit|ran into|drove into) (?:a|the|an) (?:wall|kerb|curb|tree|deer|post|ditch|car|van|truck|barrier)|"
        r"airbags? (?:have |has |had |is |are |was |were )?(?:deployed|gone off|went off|fired)|"
        r"hit (?:on|at|in) the (?:front|rear|side|left|right)|"
        r"(?:auffahr|wild)?unfall(?:schaden|wagen)?|aufprall|zusammensto(?:ß|ss)|"
        r"gegen (?:eine?n?|die|den|das) (?:mauer|wand|baum|bordstein|pfosten|poller|leitplanke|auto|wagen)|"
        r"airbags? (?:haben |hat |wurden? )?ausgel(?:o|ö|oe)st|accident[ée]e?(?! de la route)|"
        r"(?:apr[eè]s|suite [aà]|a eu|eu|subi) (?:une? |l[ea] )?(?:choc|collision|accident)|percut[ée]e?|"
        r"(?<!bruit de )choc (?:(?:a|à) l'|sur l'|c[oô]t[ée] )?(?:avant|arri[eè]re|lat[ée]ral|frontal|gauche|droite?)|"
        r"airbags? (?:(?:se )?(?:sont|est|ont|a) )?d[ée](?:clench|ploy)[ée]e?s?|accidentad[oa]|"
        r"(?:tras|despu[eé]s de|tuvo|ha tenido|sufri[oó]|ha sufrido) (?:un |una |el |la )?"
        r"(?:choque|colisi[oó]n|accidente|golpe)|"
        r"(?:choque|colisi[oó]n|golpe) (?:frontal|lateral|traser[oa]|delanter[oa])|"
        r"choc[oó] con|ha chocado|airbags? (?:(?:han|ha|se han|se ha) )?(?:disparad|saltad|desplegad)[oa]s?|siniestro)"
        r"(?![a-z])"),
    "fire": re.compile(
        r"(?<![a-z])(?:caught fire|on fire|fire damage|(?:engine|cable|wiring|electrical|vehicle|car) fire|"
        r"(?:kabel|fahrzeug|motor)?brand(?:schaden)?|hat gebrannt|incendie|pris feu|incendio|prendi[oó] fuego)"
        r"(?![a-z])"),
    "water": re.compile(
        r"(?<![a-z])(?:flood (?:water|damage)|in (?:a|the) flood|"
        r"flooded (?:road|street|cabin|footwell|car|vehicle|garage)|submerged|stood in (?:deep )?water|"
        r"(?:drove|driven) through (?:deep )?water|hochwasser(?:schaden)?|(?:u|ü|ue)berflutet|"
        r"(?:stand|gestanden) (?:im|unter) wasser|(?:im|unter) wasser gestanden|"
        r"inond(?:ation|[ée]e?)|(?:dans|sous) l'eau|inundaci[oó]n|inundad[oa]|bajo el agua)(?![a-z])"),
}
_GATES = {
    "crash": "after a crash, looked over first: no fuel leak nor fumes, fuel cut-off reset by the maker's procedure, "
             "coolant and fan, battery cable not cut off, wheels and steering sound, restraint parts by the maker's "
             "list",
    "fire": "after a fire, looked over first: burnt wiring, fuel lines and battery; the battery off until then",
    "water": "after water, looked over first: no water in oil, intake and connectors",
}
_CAUTIONS = {
    "crash": "Crashed vehicle: before it is started or moved look for fuel and coolant leaks, at the battery cable and "
             "its pyrotechnic cut-off, at wheels, steering and brakes; deployed and locked restraint parts by the "
             "maker's list.",
    "fire": "Burnt vehicle: the battery stays off until wiring, fuel lines and battery are looked over.",
    "water": "Vehicle that stood in water: oil, intake and connectors are looked over before it is switched on or "
             "started; a high-voltage battery is left to a qualified person.",
}
#: Steps that start the engine, enable the drive, move the vehicle or work its outputs.
_MOVES = re.compile(r"\b(?:run the engine|engine running|start the engine|let the engine stand|drive 20 minutes|READY|"
                    r"crank\w*|walking pace|work what the codes name)\b")


def damages(book: Casebook, place: int) -> list[str]:
    """What happened to the vehicle of a session: "crash", "fire", "water"."""
    found = said(book.sessions[place])
    if "crash" in found:
        return found
    faults = range(int(book.first_fault[place]), int(book.first_fault[place + 1]))
    holders = {int(book.fault_module[fault]) for fault in faults if is_record(book, fault)}
    told = any(follows_crash(book.texts.get(fault, ())) for fault in faults)
    return ["crash"] * (told or any(not is_used(book, module) for module in holders)) + found


def said(session: Session) -> list[str]:
    """Likewise, by the words of complaint and notes alone."""
    complaint = session.vehicle.complaint if session.vehicle else None
    words = [complaint or "", *(event.note or "" for event in session.events or ())]
    return [kind for kind, pattern in _SAID.items() if any(pattern.search(text[:600].casefold()) for text in words)]


def damage_cautions(kinds: Iterable[str]) -> list[str]:
    """What is told of it among the cautions."""
    return [_CAUTIONS[kind] for kind in kinds]


def looked_over(checks: Sequence[NextCheck], kinds: Sequence[str], test: PartTest | None = None) -> list[NextCheck]:
    """The steps, those that start or move the vehicle only once it was looked over, and what was unplugged for a
    ``test`` is plugged in again."""
    gates = [_GATES[kind] for kind in kinds]
    gates += [f"{test.part} plugged in again"] if test is not None else []
    return [{**check, "gate": "; ".join(filter(None, (*gates, check["gate"])))}
            if gates and _MOVES.search(check["do"]) else check for check in checks]


__all__ = ["damage_cautions", "damages", "looked_over"]
