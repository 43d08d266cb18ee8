"""What a complaint complains of: the systems that it speaks of.

Words that say since when, or that the battery was seen to, are no complaint of a weak battery, and an engine that
cranks has a supply.
"""

from __future__ import annotations

import re

#: Words of a complaint, and the system they speak of.
AREAS: dict[str, tuple[str, ...]] = {
    "supply": ("crank", "not start", "no start", "starting", "flat", "dead", "battery", "charg", "ready", "no power",
               "jump", "left on", "interior light", "boot light", "drained",
               " t start", "dont start", "wont start", "doesnt start", " t turn over",
               "click", "springt nicht", "startet nicht", "batterie", "démarre pas", "demarre pas", "no arranca",
               "cuesta arrancar", "batería", "turn over", "wake"),
    "restraints": ("airbag", "air bag", "bag", "srs", "restraint", "seat belt"),
    "brakes": ("abs", "brake", "braking", "stability", "traction control", "esp", "esc", "brems", "frein",
               "freno", "pedal", "pédale", "red lamp", "red light", "rote lampe", "rote leuchte", "voyant rouge",
               "testigo rojo", "luz roja"),
    "steering": ("steer", "eps", "lenk", "direction assist", "dirección"),
    "transmission": ("gear", "transmission", "shift"), "high voltage": ("isolation", "high voltage", "hv"),
    "engine": ("engine", "power loss", "loses power", "limp", "derate", "stall", "misfire", "rough", "smok", "glow",
               "notlauf", "stirbt ab", "geht aus", "mode dégradé", "se cala", "modo de emergencia", "no boost"),
    "immobiliser": ("immobili", "wegfahrsperre", "démarrage codé", "inmovilizador"),
}
SHORT_WORDS = 3
_SUPPLY = (r"(?:flat|dead|empty|jump|boost|batter(?:y|ie)|bater[ií]a|recharg|charg(?:ed|ing)|starthilfe|leer|"
           r"d[ée]charg|descarg|c[âa]bles|puente)")
_REST = r"(?:(?! (?:but|and|now|aber|und|mais|et|pero|y)\b)[^.,;:])*"
#: What only says since when, and that the battery was seen to.
_ASIDE = re.compile(
    rf"\b(?:since|after|following|seit|nach|depuis|apr[eè]s|desde|tras|despu[eé]s de)\b[^.,;:]{{0,24}}?\b{_SUPPLY}"
    rf"{_REST}|\bnew battery\b(?! (?:flat|dead|empty))|\bneue batterie\b|\bbatterie neuve\b|\bbater[ií]a nueva\b|"
    r"\b(?:batter(?:y|ies|ie)|bater[ií]a)s?:? (?:(?:is|was|has been|ist|wurde|est|es|tests?|tested|reads?) )?"
    r"(?:(?:quite|nearly|almost|fast|brand|tested) )?(?:ok(?:ay)?|new|good|fine|sound|healthy|charged|replaced|renewed|"
    r"changed|neu|gut|geladen|i\.? ?o\.?|in ordnung|bonne|charg[ée]e|neuve|nueva|buena|cargada)\b"
    rf"{_REST}|"
    r"\b(?:batter(?:y|ie)|bater[ií]a) (?:was|war|[ée]tait|estaba|went) (?:flat|dead|empty|leer|vide|d[ée]charg[ée]e|"
    r"descargada|vac[ií]a)\b", re.IGNORECASE)
#: An engine that is turned over and does not start: its battery does its work.
_CRANKS = re.compile(r"\b(?:cranks|turns over|dreht|tourne|gira)\b[^.;:]{0,24}?(?:not|n['’]t|no|never|nicht|pas)\b"
                     r"[^.,;:]{0,8}\b(?:start|fire|run|catch|anspringt|an|d[ée]marre|arranca)\w*", re.IGNORECASE)

#: A complaint of an inspection that a clear would put off, in four languages.
INSPECTION = re.compile(
    r"\b(?:inspection|emissions? test|smog (?:check|test)|readiness|mot\b(?! ?or)|abgasuntersuchung|hauptuntersuchung|"
    r"t[uü]v|(?-i:HU|AU|HU/AU)|contr[oô]le technique|itv)\b", re.IGNORECASE)


def heard(complaint: str) -> tuple[str, list[str]]:
    """What is complained of, without what only says since when, and the systems it speaks of; the whole complaint where
    nothing else is said.

    >>> heard("airbag lamp on since the flat battery")[1], heard("battery was flat this morning")[1]
    (['restraints'], ['supply'])
    >>> heard("ABS lamp in the rain. Battery is new")[1], heard("cranks but does not start")[1]
    (['brakes'], ['engine'])
    """
    cranks = _CRANKS.search(complaint[:500])
    turned = _CRANKS.sub("engine", complaint) if cranks else complaint
    said = _ASIDE.sub(" ", turned[:500])
    areas = areas_of(said)
    return (said, areas) if areas else (turned, areas_of(turned))


def areas_of(complaint: str) -> list[str]:
    """The systems a complaint speaks of, in the order it does. Short words count as whole words only."""
    low = complaint.lower()
    places: list[tuple[int, str]] = []
    spaced = f" {''.join(mark if mark.isalnum() else ' ' for mark in low)} "
    for area, words in AREAS.items():
        found = [place for word in words
                 if (place := spaced.find(f" {word} " if len(word) <= SHORT_WORDS else word)) >= 0]
        if found:
            places.append((min(found), area))
    return [area for _, area in sorted(places)]


__all__ = ["AREAS", "INSPECTION", "SHORT_WORDS", "areas_of", "heard"]
