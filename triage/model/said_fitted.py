"""What a session says of a module that never answered: that it is there, or that its lamp is on.

A silent module proves nothing where it may sleep or not be fitted; one that somebody says is there should answer. A
trailer is there when it is said to be coupled, or a lamp of it burns. Common practice; all in four languages.
"""

from __future__ import annotations

import re

from triage.model.feeding import folded
from triage.model.session import Session

_TRAILER = (r"\b(?:semi[- ]?)?(?:trailers?|remorques?|remolques?|anh[aä]nger|auflieger|sattelanh[aä]nger|"
            r"sattelauflieger|semirremolque)\b")
_COUPLED = (r"\b(?:coupled|hitched|hooked|connected|attached|plugged|on|an|dran|angeh[aä]ngt|gekuppelt|angekuppelt|"
            r"angeschlossen|attel[eé]e?|accroch[eé]e?|branch[eé]e?|enganchad[oa]|conectad[oa]|acoplad[oa])\b")
_NOT = (r"\b(?:no|not|without|un(?:coupled|hitched|hooked)|off|nicht|ohne|kein\w*|ab|sans|pas|d[eé]tel[eé]e?|sin|"
        r"desenganchad[oa])\b")
_LAMP = r"\b(?:lamps?|lights?|lampen?|leuchten?|warnleuchte|kontrollleuchte|voyants?|t[eé]moins?|testigos?|luz)\b"
_TRAILER_NAMED, _IS_COUPLED, _IS_LAMP, _IS_NOT = (
    re.compile(words, re.IGNORECASE) for words in (_TRAILER, _COUPLED, _LAMP, _NOT))
#: How the lamp of each safety class is called; where it burns, the module that lights it is there.
_LAMPS = {
    "brakes": re.compile(r"\b(?:abs|ebs|esp|esc|brakes?|bremse?|bremsen\w*|freins?|frenos?)\b", re.IGNORECASE),
    "steering": re.compile(r"\b(?:eps|steering|lenkung|direction|direcci[oó]n)\b", re.IGNORECASE),
    "restraints": re.compile(r"\b(?:air ?bags?|srs|restraints?)\b", re.IGNORECASE),
}
_CLAUSE = re.compile(r"[.;\n]|, ")
#: So much of a text is looked through.
LONGEST = 500


def said_fitted(session: Session, awake: str, safety: str | None) -> str | None:
    """Why a module that wakes with ``awake`` and is of class ``safety`` should be there, in words; None: nobody says.

    >>> from triage.model.session import Vehicle
    >>> [said_fitted(Session(job="j", snapshots=[], vehicle=Vehicle(complaint=words)), "trailer", "brakes")
    ...  for words in ("trailer coupled, ABS lamp", "no trailer on it", "ABS lamp of the trailer on", "flat overnight")]
    ['the trailer is said to be coupled', None, 'its lamp is said to be on', None]
    """
    lamps = [lamp for snapshot in session.snapshots for lamp in snapshot.lamps or ()]
    if awake == "trailer":
        for clause in _clauses(session):
            if _TRAILER_NAMED.search(clause) and not _IS_NOT.search(clause):
                if _IS_LAMP.search(clause):
                    return "its lamp is said to be on"
                if _IS_COUPLED.search(clause):
                    return "the trailer is said to be coupled"
        return "its lamp is said to be on" if any(map(_TRAILER_NAMED.search, lamps)) else None
    named = _LAMPS.get(safety or "")
    if awake == "key" and named is not None and any(
        named.search(lamp) and not _TRAILER_NAMED.search(lamp) for lamp in lamps
    ):
        return "a lamp of its class is said to be on"
    return None


def _clauses(session: Session) -> list[str]:
    """What was said in words: of the vehicle, of the complaint, beside what was done."""
    vehicle = session.vehicle
    said = [vehicle.label, vehicle.complaint] if vehicle else []
    said += [event.note for event in session.events or ()]
    return [clause for text in said if text for clause in _CLAUSE.split(text[:LONGEST])]


#: Words of names that a complaint holds without meaning the module.
_COMMON = frozenset((
    "module", "control", "unit", "system", "electronics", "front", "rear", "left", "right", "driver", "passenger",
    "battery", "engine", "motor", "power", "start", "starter", "light", "lights", "lamp", "lamps", "parking", "vehicle",
    "brake", "brakes", "drive", "energy", "computer", "central", "supply", "charge", "charging", "main", "gateway"))


def complained_of(session: Session, names: tuple[str, ...]) -> bool:
    """Whether the complaint holds a word of one of the names of a module that stands for no other thing.

    >>> from triage.model.session import Vehicle
    >>> told = Session(job="j", snapshots=[], vehicle=Vehicle(complaint="Retarder does not work, battery flat"))
    >>> complained_of(told, ("retarder",)), complained_of(told, ("battery control",)), complained_of(told, ("radio",))
    (True, False, False)
    """
    complaint = session.vehicle.complaint if session.vehicle else None
    if not complaint:
        return False
    words = set(re.findall(r"[^\W\d_]{4,}", folded(complaint)))
    return any(not words.isdisjoint(set(re.findall(r"[^\W\d_]{4,}", folded(name))) - _COMMON) for name in names)


__all__ = ["complained_of", "said_fitted"]
