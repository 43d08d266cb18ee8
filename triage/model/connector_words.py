"""What is measured at the connector of a module, as people write it: its feeds, its grounds.

One table for the reader, that finds such measurements in a text, and for the judge of modules that stay silent.
"""

from __future__ import annotations

import re
from typing import Literal

Pin = Literal["feed", "ground"]
#: What lies on the way to each pin: a ground has a point to be cleaned, and no fuse (common practice).
WAY: dict[Pin, tuple[str, str]] = {"feed": ("fuse", "splice"), "ground": ("ground point", "splice")}
#: The name of what the battery had while the feed before it was read.
BESIDE = "at the battery meanwhile"

#: "Terminal 30" is the name of a supply, which a module tells of itself as well; it is no place to put a meter on.
_PLACE = re.compile(
    r"(?<![a-z])(?:connectors?|plugs?|pins?|sockets?|harness side|stecker|steckverbinder|steckers|buchse|"
    r"connecteurs?|fiches?|broches?|conector(?:es)?|clavijas?|enchufe)(?![a-z])")
#: The vehicle's own sockets, at which the supply of the vehicle is read.
_OF_VEHICLE = re.compile(r"(?<![a-z])(?:diag\w*|obd\w*|dlc|jump|(?<!sous )(?<!sans )charg\w*|"
                         r"battery (?:terminals?|posts?)|trailer|"
                         r"cigar\w*|batterieklemmen?|polklemmen?|bornes? de (?:la )?batterie)(?![a-z])")
_FEED = re.compile(
    r"(?<![a-z])(?:feeds?|fed|supply|supplies|power|powered|live|positive|plus|ignition|"
    r"(?:terminal|term|kl|klemme)\.? ?(?:15|30|87)|b\+|\+b|\+12|versorgung|dauerplus|z[uü]ndplus|alim|alimentation|"
    r"alimentaci[oó]n|positivo|positif|corriente|spannung|voltage|tension|tensi[oó]n)(?![a-z])")
_GROUND = re.compile(r"(?<![a-z])(?:grounds?|grounded|earth|gnd|negative|minus|masse|masa|tierra|(?:terminal|term|kl|"
                     r"klemme)\.? ?31)(?![a-z])")
_BUS = re.compile(r"(?<![a-z])(?:can|lin|bus|k-?line|flexray)(?![a-z])|(?<![a-z])[hl]i?(?:gh)? ?/ ?l(?:ow)?(?![a-z])")
#: "no power at the connector", "has no ground".
_MISSING = r"(?:no|not any|without|missing|dead|kein\w*|ohne|fehlt|pas d[e']|sans|aucune?|sin|no hay|falta) ?"
_NO_FEED = re.compile(rf"(?<![a-z]){_MISSING}(?:(?:battery|ignition|permanent) )?(?:{_FEED.pattern})|"
                      rf"(?:{_FEED.pattern}) (?:is |are )?(?:missing|dead|absent|lost|fehlt|manque|falta)(?![a-z])")
_NO_GROUND = re.compile(rf"(?<![a-z]){_MISSING}(?:{_GROUND.pattern})|"
                        rf"(?:{_GROUND.pattern}) (?:is |are )?(?:missing|open|absent|lost|fehlt|manque|falta)(?![a-z])")
#: A pin with nothing that draws on it, and one with a lamp.
UNLOADED = (r"(?:open[ -]?circuit|open|no[ -]load|unloaded|off[ -]load|without (?:a |the |any )?(?:load|bulb|lamp)|"
            r"ohne last|unbelastet|leerlauf|a vide|sans charge|sin carga|en vacio)")
_UNLOADED = re.compile(rf"(?<![a-z]){UNLOADED}(?![a-z])")
_LOADED = re.compile(
    r"(?<![a-z])(?:bulbs?|lamps?|(?:gl(?:u|ue|ü)h)?lampen?|gl(?:u|ue|ü)hbirne|"
    r"loads?|loaded|unter last|belastet|last|prueflampe|prufflampe|pruflampe|ampoule|"
    r"sous charge|charge|carga|lampara|bombilla|test ?light|cranking)(?![a-z])")


#: What a module tells of its own supply, as testers show it.
_LIVE = re.compile(r"(?<![a-z])(?:live (?:data|values?)|data (?:list|stream)|measured values?|actual values?|istwerte?|"
                   r"messwerte?|valeurs? (?:reelle|réelle|mesuree|mesurée)s?|valor(?:es)? (?:real(?:es)?|medidos?)|"
                   r"datos? en vivo)(?![a-z])")
#: A place at which the whole supply is read.
_AT_SUPPLY = re.compile(r"(?<![a-z])(?:batt\w*|bater\w*|akku|generator|alternat\w*|lichtmaschine|converter|wandler)"
                        r"(?![a-z])")


#: Words that name no consumer: "supply at the socket" is that of the vehicle's own.
_WORD = re.compile(r"[^\W\d_]{3,}")
_OF_NONE = frozenset((
    "the", "volt", "volts", "voltage", "supply", "power", "feed", "live", "measured", "reading", "reads", "read",
    "steady", "about", "now", "only", "then", "during", "scan", "vehicle", "car", "truck", "scans", "full",
    "quick", "readout", "first", "second", "third", "next", "last", "key", "off", "engine", "min", "spannung",
    "versorgung", "der", "die", "das", "dem", "den", "des", "vom", "beim", "bei", "fahrzeug", "gemessen", "jetzt",
    "nur", "tension", "alimentation", "mesure", "mesuree", "mesurée", "prise", "aux", "avec", "les", "une", "pris",
    "vehicule", "véhicule", "tensión", "alimentacion", "alimentación", "medida", "medido", "del", "las", "los",
    "con", "toma", "vehiculo", "vehículo", "volteos", "lectura", "minimum", "lowest", "max", "start", "end",
    "here", "with", "and", "und"))


def elsewhere(low: str) -> Literal["own", "place"] | None:
    """Whether a voltage in a text in small letters is a module's own, or read at a connector of one consumer, and not
    what the vehicle is fed with.

    >>> [elsewhere(low) for low in ("abs live data supply", "supply at the radio plug", "at the obd plug", "at plug")]
    ['own', 'place', None, None]
    """
    if _AT_SUPPLY.search(low) is not None:
        return None
    if _LIVE.search(low) is not None and pin_of(low) != "ground":
        return "own"
    if not places(low) or all(word in _OF_NONE for word in _WORD.findall(_PLACE.sub(" ", low))):
        return None
    return "place"


def load_of(low: str) -> Literal["open", "loaded"] | None:
    """Whether a text in small letters says that a pin was read with nothing drawing on it, or with a load.

    >>> [load_of(low) for low in ("12.4 open circuit", "7.9 v with a 21 w bulb", "no load", "pin 3")]
    ['open', 'loaded', 'open', None]
    """
    return "open" if _UNLOADED.search(low) else "loaded" if _LOADED.search(low) else None


def places(low: str) -> list[tuple[int, int]]:
    """Where a text in small letters speaks of the connector or a pin of a module.

    >>> [places(low) for low in ("abs plug, pin 1", "at the diagnostic connector", "abs feed")]
    [[(4, 8), (10, 13)], [], []]
    """
    return [] if _OF_VEHICLE.search(low) else [place.span() for place in _PLACE.finditer(low)]


def pin_of(low: str) -> Pin | None:
    """Which pin of a module a text in small letters is about; None where it does not tell, or is about a bus.

    >>> [pin_of(low) for low in ("feed pin 1", "earth", "kl.30", "pin 4", "can h")]
    ['feed', 'ground', 'feed', None, None]
    """
    if _BUS.search(low) is not None:
        return None
    return "ground" if _GROUND.search(low) else "feed" if _FEED.search(low) else None


def missing(low: str) -> Pin | None:
    """What a text in small letters says to be missing at a connector.

    >>> [missing(low) for low in ("no power at the abs connector", "earth missing at pin 3", "power ok")]
    ['feed', 'ground', None]
    """
    return "feed" if _NO_FEED.search(low) else "ground" if _NO_GROUND.search(low) else None


__all__ = ["BESIDE", "UNLOADED", "WAY", "Pin", "elsewhere", "load_of", "missing", "pin_of", "places"]
