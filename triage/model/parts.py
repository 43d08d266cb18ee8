"""What the note of an event says: that a part was replaced, which sets no new module; that something was mended,
or unplugged."""

from __future__ import annotations

import re

from triage.model.session import Event, Session

PARTS = ("sensor", "battery", "generator", "alternator", "fuse", "relay", "wiring", "harness", "connector", "cable",
         "ground", "lamp", "bulb", "motor", "pump", "valve", "switch", "injector", "antenna", "bracket", "bearing",
         "plug", "coil", "belt", "buckle", "thermostat", "actuator", "starter", "solenoid", "terminal", "clamp")
MODULE_WORDS = ("module", "control unit", "ecu", "computer")
#: What runs to a module or stands on its way: mended, it is no part of that module's own circuits.
WIRING_WORDS = (
    r"(?:fuses?|fusible(?: link)?|relays?|hoses?|pipes?|wires?|wiring|harness|loom|cables?|connectors?|plugs?|lamps?|"
    r"bulbs?|lights?|bracket|belts?|(?:ground|earth|bonding) ?(?:straps?|braids?|leads?|points?|studs?|lugs?)|straps?|"
    r"splices?|eyelets?|"
    r"[a-z-]{0,16}sicherung|relais|schlauch|[a-z-]{0,16}leitung|[a-z-]{0,16}kabel(?:baum)?|stecker|lampe|"
    r"[a-z-]{0,8}masseb(?:and|[aä]nder)|fusible|durite|c[aâ]ble|faisceau|connecteur|"
    r"ampoule|tresse(?: de masse)?|rele|manguito|cableado|conector|bombilla|(?:trenza|cinta|malla)(?: de masa)?)")
#: What a module measures or moves with, or an engine or gearbox is mended with: replaced, the module is the old one.
CIRCUIT_WORDS = (
    r"(?:(?!lenkwinkel|drehraten|batterie)[a-z-]{0,16}sensore?[ns]?|probes?|senders?|injectors?|valves?|solenoids?|coils?|"
    r"thermostats?|actuators?|"
    r"switch(?:es)?|"
    r"(?:[a-z]{0,6} ?filters?)|gaskets?|seals?|bearings?|(?:spark|glow) ?plugs?|mounts?|pads?|discs?|rotors?|calipers?|"
    r"(?:water|fuel|oil|vacuum|coolant|washer) pump|(?:reluctor|tone|encoder|sensor) rings?|buckles?|igniters?|squibs?|"
    r"antennas?|"
    r"[a-z-]{0,16}geber|[a-z-]{0,16}f[uü]hler|sonden?|[a-z-]{0,16}ventil|[a-z-]{0,16}d[uü]sen?|[a-z-]{0,16}filter|"
    r"[a-z-]{0,16}schalter|dichtung|z[uü]ndspulen?|lager|thermostat|capteurs?|injecteurs?|vannes?|bobines?|filtres?|"
    r"joints?|contacteurs?|bougies?|captador(?:es)?|inyector(?:es)?|v[aá]lvulas?|bobinas?|filtros?|"
    r"juntas?|interruptor(?:es)?|bujias?|termostato)")
#: What runs or turns in a part, and a ground that is called by no more than that.
_FILLED = (r"(?:[a-z]{0,10} ?oil|[a-z]{0,9}öl|coolant|fluid|huile|liquide|aceite|l[ií]quido|refrigerante|kühlmittel|"
           r"bremsflüssigkeit|[a-z]{0,9}riemen|courroies?|correas?|earth|ground|masse|masa)")
_PART = re.compile(
    rf"(?<![a-z])(?:{WIRING_WORDS}|{CIRCUIT_WORDS}|{_FILLED}|clock ?springs?|wickelfeder|racks?)(?![a-z])")


#: Something was mended, as people write it: English, German, French, Spanish.
_MENDED = re.compile(
    r"(?<!not )(?<!nicht )(?<!non )(?<!no )\b(?:repair(?:ed|s)|mended|fixed|renewed|replaced|swapped|spliced|soldered|"
    r"rewired|refitted|tightened|reconnected|repariert|instand ?gesetzt|ersetzt|erneuert|(?:aus)?getauscht|"
    r"angezogen|repare|répare|remplace|ressoude|resserre|reparad|cambiad|sustituid|reemplazad|soldad)"
)


def says_mended(event: Event) -> bool:
    """Whether the note of an event of no other kind says that something was mended.

    >>> says_mended(Event(what="other", module="ABS", note="sensor wire repaired at the arch"))
    True
    >>> says_mended(Event(what="other", note="to be repaired")), says_mended(Event(what="other", note="not repaired"))
    (False, False)
    """
    note = (event.note or "").lower()
    return event.what == "other" and "to be " not in note and _MENDED.search(note) is not None


#: Likewise that something was taken off the harness.
_UNPLUGGED = re.compile(
    r"(?<!not )(?<!nicht )\b(?:unplug(?:ged|s)?|disconnect(?:ed|s)?|detached|pulled the|(?:connector|plug) off|"
    r"abgesteckt|ausgesteckt|abgeklemmt|abgezogen|debranch|débranch|deconnect|déconnect|desconect|desenchuf)"
)


def says_unplugged(event: Event) -> bool:
    """Whether the note of an event of no other kind says that something was unplugged, whoever plugged it in again.

    >>> says_unplugged(Event(what="other", module="radio", note="unplugged for a test, plugged in again"))
    True
    >>> says_unplugged(Event(what="other", note="to be unplugged")), says_unplugged(Event(what="other", note="washed"))
    (False, False)
    """
    note = (event.note or "").lower()
    return event.what == "other" and "to be " not in note and _UNPLUGGED.search(note) is not None


_BATTERY = re.compile(r"(?<![a-z-])(?:batter(?:y|ies|ie)|batt|bater[ií]a|accu)(?![a-z])(?! (?:cable|clamp|terminal|"
                      r"sensor|monitor|management|energy|control|module|lead|ground|connect))")
_RENEWED = re.compile(r"\b(?:new|replaced|renewed|swapped|changed|fitted|neue?n?|ersetzt|erneuert|getauscht|neuve|"
                      r"remplac[ée]e?|chang[ée]e|nueva|cambiada|sustituida)\b")


def battery_renewed(event: Event) -> bool:
    """Whether an event says that the 12 or 24 V battery was replaced.

    >>> [battery_renewed(Event(what=what, note=note)) for what, note in (("replaced", "battery"), ("other",
    ...     "new battery fitted"), ("other", "battery flat"), ("replaced", "battery cable"), ("replaced", None))]
    [True, True, False, False, False]
    """
    note = (event.note or "").lower()
    said = event.what == "replaced" or (event.what == "other" and _RENEWED.search(note) is not None)
    return said and event.module is None and "to be " not in note and _BATTERY.search(note) is not None


#: A consumer in capitals before its link: "80A EHPS fusible link".
_CONSUMER = re.compile(
    r"(?<![A-Za-z])(?!MAIN|BAT|ALT|GEN|OPEN|BLOWN|LINK|FUS|MEGA|MIDI|MAXI|AMP|THE |ONE |BIG )[A-Z]{3,6}[0-9]? "
    r"(?:(?:[Ff]usible|[Mm]ain|[Ff]use|[0-9]{2,3} ?A)[ -]?)*(?:[Ll]ink|[Ff]use)")
#: A link between generator and battery, as people call it in four languages; a numbered fuse is none.
_LINK = re.compile(
    r"(?<![a-z])(?:fus(?:e|ible) ?-?links?|(?:alternator|generator|charg\w+|main|battery) (?:fuse|link)|mega ?-?fuse|"
    r"schmelzsicherung|hauptsicherung|fusible (?:principal|g[eé]n[eé]ral)|fusible (?:de|du|del) alterna\w+)(?![a-z])")
_OPEN = re.compile(r"(?<![a-z])(?:open|blown|burn(?:t|ed)|melted|popped|durch(?:gebrannt)?|unterbrochen|grill[eé]e?|"
                   r"fondue?|coup[eé]e?|quemad[oa]|fundid[oa]|abiert[oa])(?![a-z])")
_NOT_OPEN = re.compile(r"(?<![a-z])(?:not|nicht|pas|no|never|nie|nothing) (?:\w+ )?(?=open|blown|burn|melted|popped|"
                       r"durch|unter|grill|fond|coup|quem|fund|abier)|\?")


def link_open(event: Event) -> str | None:
    """The note of an event of no other kind, where it says that the link between generator and battery is open.

    >>> [link_open(Event(what="other", note=note)) is not None for note in ("fusible link: OPEN", "main fuse blown",
    ...     "fusible link not blown", "fuse F23 blown", "main fuse blown?", "80A EHPS fusible link open")]
    [True, True, False, False, False, False]
    """
    low = (event.note or "").casefold()
    if (event.module is not None and not names_part(event.module)) or _CONSUMER.search(event.note or ""):
        return None  # the link of that consumer
    said = event.what == "other" and _LINK.search(low) and _OPEN.search(low) and not _NOT_OPEN.search(low)
    return (event.note or "").strip() if said else None


_FUSE = re.compile(r"(?<![a-z])(?:fuses?|links?|fusible|sicherung|schmelzsicherung|fusibles?)(?![a-z])")


def fuse_open(note: str) -> bool:
    """Whether a note says that a fuse or link is open.

    >>> [fuse_open(note) for note in ("80A EPS link: blown", "fuse F23 blown", "fuse F23 ok", "fuse not blown", "open")]
    [True, True, False, False, False]
    """
    low = note.casefold()
    return bool(_FUSE.search(low) and _OPEN.search(low)) and not _NOT_OPEN.search(low)


#: Leads of a jump start or a battery put on the wrong way round, in four languages.
_REVERSED = re.compile(
    r"wrong way (?:a)?round|reversed? (?:polarity|leads?|cables?|connect\w+|battery)|(?:leads?|cables?|polarity|"
    r"battery|clamps?|terminals?) (?:were |was |got |put )?"
    r"(?:on )?(?:reversed|swapped|crossed|backwards)|verpolt|verpolung|"
    r"falsch ?herum|polarit[ée] invers[ée]e|(?:pinces|c[âa]bles) invers[ée]e?s|polaridad invertida|"
    r"(?:pinzas|cables) (?:al rev[ée]s|invertid[oa]s)")


def leads_reversed(session: Session) -> bool:
    """Whether a note or the complaint says that the battery or outside supply was connected the wrong way round."""
    told = [event.note or "" for event in session.events or () if event.what != "replaced"]
    told.append((session.vehicle.complaint if session.vehicle else None) or "")
    return any(_REVERSED.search(text[:500].casefold()) and "not rev" not in text.casefold() for text in told)


def link_renewed(event: Event) -> bool:
    """Whether an event says that such a link was renewed.

    >>> [link_renewed(Event(what=what, note=note)) for what, note in (("replaced", "fusible link 150 A"),
    ...     ("other", "main fuse renewed"), ("other", "fusible link to be renewed"), ("replaced", "fuse F23"))]
    [True, True, False, False]
    """
    low = f"{event.note or ''} {event.module or ''}".casefold()
    done = event.what == "replaced" or says_mended(event)
    return done and "to be " not in low and _LINK.search(low) is not None


def names_part(name: str) -> bool:
    """Whether what an event names is a part, which no scan lists, and no module.

    >>> [names_part(name) for name in ("generator", "Starter motor", "wheel speed sensor", "battery control module")]
    [True, True, True, False]
    """
    low = name.casefold()
    return any(part in low for part in PARTS) and not any(word in low for word in MODULE_WORDS)


def of_part(event: Event) -> bool:
    """Whether the note of ``event`` speaks of a part and not of the module itself.

    >>> [of_part(Event(what="replaced", module="ECM", note=note)) for note in ("coolant sensor", "Masseband Motor",
    ...     "tresse de masse", "sensor module", None)]
    [True, True, True, False, False]
    """
    note = (event.note or "").lower()
    named = any(part in note for part in PARTS) or _PART.search(note) is not None
    return named and not any(word in note for word in MODULE_WORDS)


__all__ = ["CIRCUIT_WORDS", "MODULE_WORDS", "PARTS", "WIRING_WORDS", "battery_renewed", "fuse_open",
           "leads_reversed", "link_open", "link_renewed", "names_part", "of_part", "says_mended", "says_unplugged"]
