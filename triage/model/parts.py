"""What the note of an event says: that a part was replaced, which sets no new module; that something was mended,
or unplugged."""

from __future__ import annotations

import re

from triage.model.session import Event

PARTS = ("sensor", "battery", "generator", "alternator", "fuse", "relay", "wiring", "harness", "connector", "cable",
         "ground", "lamp", "bulb", "motor", "pump", "valve", "switch", "injector", "antenna", "bracket", "bearing",
         "plug", "coil", "belt", "buckle", "thermostat", "actuator")
MODULE_WORDS = ("module", "control unit", "ecu", "computer")


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


def of_part(event: Event) -> bool:
    """Whether the note of ``event`` speaks of a part and not of the module itself.

    >>> of_part(Event(what="replaced", module="ECM", note="coolant sensor")), of_part(Event(what="replaced"))
    (True, False)
    """
    note = (event.note or "").lower()
    return any(part in note for part in PARTS) and not any(word in note for word in MODULE_WORDS)


__all__ = ["MODULE_WORDS", "PARTS", "battery_renewed", "of_part", "says_mended", "says_unplugged"]
