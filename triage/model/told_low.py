"""A low supply that nobody measured and somebody tells of: a flat battery, a jump start, a donor vehicle.

Words of that are as good a proof that the supply was low as a reading (common practice): nobody jump-starts a vehicle
whose battery does its work.
"""

from __future__ import annotations

import re

from triage.model.parts import battery_renewed
from triage.model.session import Session, stamp

_BATTERY = (
    r"(?:(?:starter|aux(?:iliary)?|start|bord|12 ?-?v(?:olts?)?|24 ?-?v(?:olts?)?) ?-?)?"
    r"(?:batter(?:y|ies|ie|ien)|bater[ií]as?|batt\.?|akkus?|starterbatterien?|bordnetzbatterie)"
    r"(?: (?:de|du|of the) (?:12 ?v(?:olts?)?|24 ?v(?:olts?)?|d[ée]marrage|arranque|servicio|van|car|truck))?")
#: The low-voltage side by its voltage alone, as those say it whose vehicle has a high one too.
_SIDE = (
    r"(?:(?:12|24) ?-?v(?:olts?)?|low[ -]voltage|bordnetz|r[ée]seau de bord)"
    r"(?: (?:supply|system|side|net|netz|bordnetz|batter(?:y|ies|ie)))?"
    r"(?: (?:was|is|went|found|again|completely|totally|war|ist|wieder|[ée]tait|est|estaba|est[aá])){0,3}")
_FLAT = (
    r"(?:(?:dead|totally|completely|quite|stone|ganz|v[oö]llig|total|tief|compl[eè]tement|totalmente|muy)[ -]?)?"
    r"(?:flat|dead|empty|drained|discharged|run down|ran (?:down|flat)|leer|entladen|tot|platt|tiefentladen|vide|"
    r"d[ée]charg[ée]e?s?|[aà] plat|morte|descargad[ao]s?|agotad[ao]s?|vac[ií]as?|muertas?|a cero)")
#: What may stand between the two: when and where, never another part.
_IS = (
    r"(?: (?!(?:but|and|or|und|oder|aber|et|ou|mais|y|o|pero|ok|good|gut|bonne?|buena|new|neu|neuve?|nueva|light|lamp|"
    r"warning|lampe|voyant|testigo|fuse|cable|terminal|kabel|no|not|never|nicht|nie|pas|jamais|nunca|charger|sensor|"
    r"box|monitor|module|isolator|switch)\b)[\w'-]+){0,7}?")
_WITH_HELP = (
    r"jump[ -]?start(?:ed|ing)?|jumped|boosted|(?:started|needed|with) (?:by |with |from )?(?:a |an |the )?"
    r"(?:jump(?:[ -]?(?:pack|leads?|cables?))?|booster|donor(?: \w+)?|pack)|starthilfe\w*|fremdgestartet|"
    r"[üu]berbr[üu]ckt gestartet|d[ée]marr[ée]e? (?:avec|aux)|pinces|c[âa]bles de d[ée]marrage|puenteado|"
    r"(?:arrancad[oa] )?con (?:pinzas|arrancador)")
#: "Dead" is said of a horn too: of the supply it is said where the whole vehicle is, or where it stood.
_WHOLE = (
    r"(?:was|went|found|vehicle|car|van|truck|bus|coach|completely|totally) (?:completely |totally |quite )?"
    r"flat(?! (?:tyre|tire|spot|battery test))|dead as a \w+|completely dead|totally dead|dead after(?: [\w-]+){1,4}|"
    r"(?<!tyre )(?<!tire )flat (?:again )?(?:from standing|(?:after|for|since)(?: [\w-]+){1,4})|"
    r"(?:ran|let|left|drew|pulled) (?:it|itself|the van|the car|the batter(?:y|ies)) (?:go )?(?:flat|down)")
#: What empties a battery standing (common practice).
_LEFT_ON = (
    r"(?:\w*lights?|lamps?|beams?|hazards?|flashers?|beacons?|radio|heater|heating|blower|fan|fridge|cooler|ignition|"
    r"key|aux(?:iliary)?|inverter|pump|tail ?lift|consumers?) (?:were |was |had been |being |got )?"
    r"left (?:switched |turned )?on(?! the (?:bench|floor|shelf|seat|ground|table))|"
    r"(?:left|leaving) (?:the |its |his |her |their |all )?(?:\w+ ){0,2}?(?:\w*lights?|lamps?|beams?|hazards?|"
    r"flashers?|radio|heater|heating|blower|fridge|ignition|inverter) on|"
    r"\w*(?:licht|beleuchtung|blinker|lampen?|radio|heizung|z[üu]ndung|scheinwerfer) (?:brannten?|"
    r"(?:\w+ ){0,3}an ?gelassen|(?:\w+ ){0,4}brennen lassen|blieb(?:en)? (?:\w+ ){0,3}an|"
    r"(?:war|waren) (?:\w+ ){0,3}an(?:geblieben)?(?! der| dem))|"
    r"(?:phares?|feux|veilleuses?|plafonniers?|lampes?|contact|radio|autoradio|chauffage|warnings?|d[ée]tresse) "
    r"(?:rest[ée]e?s?|laiss[ée]e?s?) (?:\w+ ){0,2}?(?:allum[ée]e?s?|mis|branch[ée]e?s?|en marche)|"
    r"(?:luz|luces|faros?|radio|contacto|calefacci[oó]n|intermitentes|emergencia|interior|techo|posici[oó]n|cruce) "
    r"(?:se )?(?:qued(?:[oó]|aron)|dej(?:[oó]|aron|ad[oa]s?)) (?:\w+ ){0,2}?"
    r"(?:encendid[oa]s?|puest[oa]s?|conectad[oa]s?)|"
    r"(?:qued(?:[oó]|aron)|dej(?:[oó]|aron|ad[oa]s?)) (?:la |las |el |los )?(?:luz|luces|faros?|radio|contacto|"
    r"calefacci[oó]n|intermitentes) (?:\w+ ){0,2}?(?:encendid[oa]s?|puest[oa]s?|conectad[oa]s?)|"
    r"luz (?:interior|de techo|de posici[oó]n|de cruce) (?:encendida|puesta)|"
    r"(?:luces|faros|radio) (?:encendid[oa]s?|puest[oa]s?) (?:tod[oa]|durante)")
_LOW = re.compile(
    rf"(?<![a-z])(?:{_LEFT_ON}|(?:{_BATTERY}{_IS}|{_SIDE}) {_FLAT}|{_FLAT} (?:{_BATTERY}|{_SIDE})|{_WITH_HELP}|"
    rf"{_WHOLE})(?![a-z])")
#: Not of the starter battery, or denied.
_OTHER = re.compile(
    r"(?<![a-z])(?:no|not|never|without|kein\w*|nicht|sans|pas de|sin) (?:a |any |the |the battery being |la |eine )?"
    rf"(?:{_FLAT}|jump|starthilfe|{_BATTERY})|"
    r"(?<![a-z])(?:key|fob|remote|hybrid|traction|hv|high[ -]voltage|phone|clock|schl[uü]ssel|handy|cl[ée]|"
    r"t[ée]l[ée]phone|llave|mando) ?(?:fob )?(?:batter|bater)|"
    r"(?<![a-z])(?:batter(?:y|ie)|bater[ií]a|pile|pila) (?:in|of|im|der|du|de la|del|de) (?:the |le |la |el )?"
    r"(?:key|fob|remote|clock|phone|schl[uü]ssel|fernbedienung|cl[ée]|t[ée]l[ée]commande|llave|mando|reloj)|"
    r"flat (?:tyre|tire)|n[o']t (?:be )?jump")
#: Each is told for itself: what one denies another may tell.
_CLAUSES = re.compile(r"[.;,!?\n]|\s[-\u2013]\s|\b(?:but|aber|mais|pero)\b")
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
        if (words := low_words(said or "")) is not None:
            return words
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


def low_words(said: str) -> str | None:
    """The words of a text that tell of a low supply; None where none do.

    >>> low_words("12 V flat after ten days"), low_words("flat tyre")
    ('12 V flat', None)
    """
    for clause in _CLAUSES.split(said[:_LONGEST]):
        found = _LOW.search(clause.lower())
        if found is not None and _OTHER.search(clause.lower()) is None:
            return clause[slice(*found.span())].strip()
    return None


__all__ = ["low_words", "told_low"]
