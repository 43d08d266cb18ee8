"""A low supply that nobody measured and somebody tells of: a flat battery, a jump start, a donor vehicle.

Words of that are as good a proof that the supply was low as a reading (common practice): nobody jump-starts a vehicle
whose battery does its work.
"""

from __future__ import annotations

import re

from triage.model.parts import battery_renewed
from triage.model.session import Session, stamp

_BATTERY = r"(?:batter(?:y|ies|ie)|bater[ií]as?|batt\.?|akku)"
_FLAT = (r"(?:(?:dead|totally|completely|quite|ganz|v[oö]llig|tiefen|compl[eè]tement|totalmente)[ -]?)?"
         r"(?:flat|dead|empty|drained|discharged|leer|entladen|tot|vide|d[ée]charg[ée]e|[aà] plat|morte|descargad[ao]|"
         r"vac[ií]a|muerta)")
_IS = (r"(?: (?:was|is|went|goes|found|had gone|keeps going|totally|again|war|ist|stand|[ée]tait|est|estaba|est[aá]|"
       r"completely|quite|wieder)){0,3}")
_WITH_HELP = (
    r"jump[ -]?start(?:ed|ing)?|jumped|boosted|(?:started|needed|with) (?:by |with |from )?(?:a |an |the )?"
    r"(?:jump(?:[ -]?(?:pack|leads?|cables?))?|booster|donor(?: \w+)?|pack)|starthilfe\w*|fremdgestartet|"
    r"d[ée]marr[ée]e? (?:avec|aux)|pinces|c[âa]bles de d[ée]marrage|puenteado|(?:arrancado )?con (?:pinzas|arrancador)")
#: "Dead" is said of a horn too: of the supply it is said where the whole vehicle is.
_WHOLE = (
    r"(?:was|went|found|vehicle|car|van|truck|completely|totally) (?:completely |totally |quite )?"
    r"flat(?! (?:tyre|tire|spot|battery test))|dead as a \w+|completely dead|totally dead|dead after")
#: What empties a battery standing (common practice).
_LEFT_ON = (
    r"(?:lights?|lamps?) (?:were |was |had been )?left on(?! the (?:bench|floor|shelf))|"
    r"left (?:the |its |his |her )?(?:\w+ )?(?:lights?|lamps?) on|"
    r"licht (?:brannte|an ?gelassen|blieb an)|(?:phares?|feux|veilleuses?|plafonnier) rest[ée]e?s? allum[ée]e?s?|"
    r"(?:(?:luces|faros) (?:se )?quedaron|luz (?:interior|de techo|de posici[oó]n|de cruce)(?: (?:se )?qued[oó])?) "
    r"(?:encendid[oa]s?|puest[oa]s?)")
_LOW = re.compile(
    rf"(?<![a-z])(?:{_LEFT_ON}|{_BATTERY}{_IS} {_FLAT}|{_FLAT} {_BATTERY}|{_WITH_HELP}|{_WHOLE})(?![a-z])")
#: Not of the starter battery, or denied.
_OTHER = re.compile(
    r"(?<![a-z])(?:no|not|never|without|kein\w*|nicht|sans|pas de|sin) (?:a |any |the |the battery being |la |eine )?"
    rf"(?:{_FLAT}|jump|starthilfe|{_BATTERY})|(?<![a-z])(?:key|fob|remote|hybrid|traction|hv|high[ -]voltage|phone|"
    r"schl[uü]ssel|cl[ée]|llave) ?(?:fob )?(?:batter|bater)|flat (?:tyre|tire)|n[o']t (?:be )?jump")
#: Supplies that somebody connects to start a vehicle that does not start by itself.
_HELP = ("jump pack", "donor vehicle")
_LONGEST = 600


def told_low(session: Session, *, helped: bool = True) -> str | None:
    """The words that tell of a low supply; where it was ``helped`` to start or its battery was off before the first
    scan, as a low-supply code has it, what did that; None where nobody tells of one.

    >>> from triage.model.session import Vehicle
    >>> [told_low(Session(job="j", snapshots=[], vehicle=Vehicle(complaint=said))) for said in (
    ...     "ABS lamp on since a jump start", "no flat battery since", "flat tyre, ABS lamp", "Batterie war leer",
    ...     "lights left on for a week")]
    ['jump start', None, None, 'Batterie war leer', 'lights left on']
    """
    vehicle = session.vehicle
    for said in (vehicle.complaint, vehicle.label) if vehicle is not None else ():
        text = (said or "")[:_LONGEST]
        found = _LOW.search(text.lower())
        if found is not None and _OTHER.search(text.lower()) is None:
            return text[slice(*found.span())].strip()
    if not helped:
        return None
    first = next((shot.outside_supply for shot in session.snapshots[:1] if shot.outside_supply in _HELP), None)
    if first is not None:
        return f"{first} connected"
    note = next((event.note or "" for event in session.events or () if event.what == "outside supply on"
                 and any(word in (event.note or "") for word in _HELP)), None)
    return f"{note} connected" if note else _battery_off(session)


def _battery_off(session: Session) -> str | None:
    """That the battery was off or renewed before the first scan by their times, or without one before the first clear:
    every module lost its supply then, and one that notes it says nothing of its own feed (common practice)."""
    first = session.snapshots[0].at if session.snapshots else None
    for event in session.events or ():
        if event.what == "cleared":
            return None
        if event.at is not None and first is not None and stamp(event.at) >= stamp(first):
            continue
        if battery_renewed(event):
            return "battery renewed"
        if event.what == "battery disconnected":
            return event.what
    return None


__all__ = ["told_low"]
