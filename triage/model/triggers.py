"""What brings a fault on, where somebody says so: rain, cold, heat, bumps, hills, steering, load, speed, a loom moved.

It is told in the complaint, or beside the code that comes and goes with it. A test without its trigger says little
about a fault that comes and goes, so the steps name it. Common practice.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple


class Trigger(NamedTuple):
    """One condition. ``test``: how it is made at a circuit; ``road``: how a run or drive meets it; ``when``: the
    condition itself, as the fault comes so; ``proof``: what makes a clean scan count after a repair."""

    name: str
    test: str
    road: str
    when: str = ""
    proof: str = ""


_ROUGH = "over bumps and rough road"
WET = Trigger("wet", "with water sprayed on connector and harness", "in rain or on a wet road",
              when="in the wet", proof="water sprayed on connector and harness, or a drive in rain or on a wet road")
COLD = Trigger("cold", "cold, before the first start of the day", "from cold, after a night outside",
               when="in the cold", proof="a night outside and a cold start in such weather")
HOT = Trigger("heat", "hot, after a long run", "until everything is hot",
              when="when it is hot", proof="a run until everything is hot")
BUMPS = Trigger("bumps", "while connector and harness are shaken and bent", _ROUGH,
                when="over bumps and rough road", proof=f"a drive {_ROUGH}")
TURNS = Trigger("steering", "while the steering is turned from lock to lock", "with tight turns both ways",
                "as the steering is turned", "the steering turned ten times from lock to lock, standing")
#: What is moved by hand brings it on: the loom that moves with it is bent each time.
DOOR = Trigger("door", "while the door is opened, closed and shaken", _ROUGH, "as the door is moved",
               "the door opened and closed ten times through its whole travel")
LID = Trigger("tailgate", "while the tailgate is opened, closed and shaken", _ROUGH, "as the tailgate is moved",
              "the tailgate opened and closed ten times through its whole travel")
SEAT = Trigger("seat", "while the seat is moved to both ends", _ROUGH, "as the seat is moved",
               "the seat moved ten times from end to end")
LOOM = Trigger("loom", "while that plug and its loom are moved and bent again", _ROUGH, "as plug or loom is moved",
               "plug and loom moved and bent as before")
TRAILER = Trigger("trailer", "with the trailer plugged in and its cable moved, then without it", "with the trailer",
                  "with the trailer plugged in", "the trailer coupled and a drive with it")
#: Those of them that somebody makes by hand, on the spot: what comes and goes with them is there.
BY_HAND = ("steering", "door", "tailgate", "seat", "loom", "trailer")
#: At speed a harness shakes; how fast is said in the complaint's own words (``trigger_of``).
SPEED = Trigger("speed", "while connector and harness are shaken and bent", "at the speed named, where the law allows",
                when="at speed", proof="a drive at the speed named, where the law allows")
SLOW = Trigger("low speed", "while connector and harness are shaken and bent",
               "with long stretches at walking pace to 30 km/h, stops and tight turns",
               when="at low speed", proof="a drive at walking pace to 30 km/h with stops and tight turns")
LOAD = Trigger("load", "with lamps, blower and heated windows on", "with lamps, blower and heated windows on",
               when="with lamps, blower and heated windows on", proof="lamps, blower and heated windows on")
HILL = Trigger("hill", "hot, while connector and harness are shaken and bent", "up a long hill under full load",
               when="on a hill", proof="a drive up a long hill under full load")
LADEN = Trigger("payload", "with the vehicle laden", "laden as it was",
                when="with the vehicle laden", proof="a drive laden as it was")

_MOVE = (r"(?:open|clos|mov|slam|shut|shak|wiggl|tug|pull|push|press|bend|bent|flex|touch|tap|slid|lift|turn)"
         r"(?:e|es|ed|s|t|ting|ing|ged|ging|led)?")
_WHO = r"(?:(?:i|you|we|he|she|they|it|driver) (?:am |is |are )?)?"
_THE = r"(?: (?:the|a|that|this|its|his|her|my))?(?: [a-z]{1,12}){0,2}?"
_BEIM = r"\b(?:beim|bei|wenn (?:man|ich))(?: [a-zäöüß]{1,16}){0,4}? "
_EN = (r"\b(?:en (?:ouvr|ferm|boug|remu|secou|pli|tir|touch)[a-z]{1,6}|(?:quand|lorsque?) ?(?:on|je|il) [a-z]{1,12})"
       r"(?: [a-z]{1,8}){0,2}? ")
_AL = (r"\b(?:al (?:abrir|cerrar|mover|agitar|doblar|tirar de|tocar)|cuando (?:muevo|abro|cierro|se mueve))"
       r"(?: [a-z]{1,8}){0,2}? ")


def _moved(english: str, german: str, french: str, spanish: str) -> re.Pattern[str]:
    """The ways in which it is said that a thing is moved by hand as the fault comes."""
    return re.compile(
        rf"\b(?:when(?:ever)?|while|if|as|by|on|after) {_WHO}{_MOVE}{_THE} (?:{english})\b|"
        rf"\b(?:when(?:ever)?|while|if|as){_THE} (?:{english}) (?:is|are|was|gets) (?:being )?{_MOVE}\b|"
        rf"\b(?:wiggl|shak|flex|bend|mov)ing{_THE} (?:{english})\b|{_BEIM}[a-zäöüß]{{0,16}}(?:{german})\b|"
        rf"{_EN}(?:{french})\b|{_AL}(?:{spanish})\b", re.IGNORECASE)


_ONLY_WHEN = r"(?:when(?:ever)?|if|while|as soon as|once)(?: (?:it|it's|its|the \w+|weather|road)(?: is| was| gets)?)? "
#: Each with the ways a complaint names it. A cold week that flattened the battery is no trigger of a fault.
_SAID: tuple[tuple[Trigger, re.Pattern[str]], ...] = (
    (TRAILER, re.compile(
        r"\b(?:with|when|while) (?:the |a )?(?:trailer|caravan)(?: is| was)? "
        r"(?:plugged|connected|coupled|hitched|on)\b|\bmit (?:dem |angeh[aä]ngtem |angestecktem )?(?:anh[aä]nger|"
        r"auflieger)\b|\bavec (?:la |une )?remorque\b|\bcon (?:el |un )?remolque\b", re.IGNORECASE)),
    (DOOR, _moved(r"door", "t(?:ü|ue)r", "porte|porti[eè]re", "puerta")),
    (LID, _moved(r"tailgate|boot(?: lid)?|hatch|trunk(?: lid)?", "heckklappe|kofferraum", "hayon|coffre",
                 "port[oó]n|maletero")),
    (SEAT, _moved(r"seat", "sitz(?:es)?", "si[eè]ge", "asiento")),
    (LOOM, _moved(r"loom|harness|wiring|wires?|cables?|plugs?|connectors?|pins?|leads?",
                  "kabelbaum(?:s)?|kabels?|steckers?|leitung", "faisceau|fil|c[aâ]ble|connecteur|prise",
                  "cableado|mazo|cable|conector|clavija")),
    (WET, re.compile(
        r"\b(?:only |just )?when (?:wet|damp|hosed|washed|sprayed)\b|\b(?:hosed|sprayed)(?: down| with water)?\b|"
        r"\b(?:in|during|after) (?:the |a |heavy |light |driving )?(?:rain|wet(?! weather g)|car ?wash|downpour|"
        rf"washing|puddles?)\b|\b{_ONLY_WHEN}(?:rain\w*|wet|damp)\b|\b(?:on|in) (?:wet|rainy|damp) (?:days?|weather|"
        r"roads?|mornings?)\b|\bbei (?:regen|n[aä]sse)\b|\bnach (?:der wagenw[aä]sche|regen)\b|\b(?:sous|apr[eè]s|par) "
        r"(?:la pluie|temps de pluie|lavage)\b|\b(?:con|cuando|bajo la) llu(?:via|eve)\b", re.IGNORECASE)),
    (COLD, re.compile(
        rf"\b{_ONLY_WHEN}(?:cold|freez(?:ing|es)|frosty)\b|\b(?:only|just|always) (?:in|during|with) (?:the |hard )?"
        r"(?:cold|frost|freezing \w+)\b|\b(?:only|just|always) below (?:zero|freezing)\b|\b(?:nur|immer) bei (?:frost|"
        r"minusgraden)\b|\b(?:seulement|uniquement|toujours) (?:par (?:grand |temps )?(?:froid|gel)|"
        r"quand il g[eè]le)\b|"
        r"\b(?:s[oó]lo|solamente|siempre) (?:con (?:heladas?|hielo|el fr[ií]o)|cuando (?:hiela|hace fr[ií]o)|"
        r"bajo cero)\b|\b(?:on|from) (?:a )?cold "
        r"(?:starts?|engine|mornings?)\b|\bcold starts? only\b|\bbei k[aä]lte\b|\bkaltstart|\b[aà] froid\b|"
        r"\ben fr[ií]o\b", re.IGNORECASE)),
    (HOT, re.compile(
        rf"\b{_ONLY_WHEN}(?:hot|warm(?:ed up)?)\b|\bin (?:the )?heat\b|"
        r"\b(?:stall(?:s|ed|ing)?|dies|cuts? out|stops?|misfires?|fails?|loses power) (?:hot|warm)\b|"
        r"\b(?:stall(?:s|ed|ing)?|dies|cuts? out|stops?|fails?)(?: \w+){1,5} when (?:hot|warm)\b|\bhot stalls?\b|"
        r"\bgeht (?:warm|hei[sß]) aus\b|\bafter (?:a )?long (?:drives?|runs?)\b|"
        r"\bbei hitze\b|\bwenn (?:er |es )?(?:warm|hei[sß])\b|\b[aà] chaud\b|\ben caliente\b", re.IGNORECASE)),
    (BUMPS, re.compile(
        r"\b(?:over|on|across|hitting) (?:the )?(?:bumps?|potholes?|speed (?:bumps?|humps?)|rough roads?|cobbles?\w*|"
        r"kerbs?)\b|\bbumpy roads?\b|\b(?:on|over|along|across) (?:the |a |any )?(?:(?:field|farm|dirt|gravel|forest|"
        r"rough|"
        r"unpaved) (?:tracks?|roads?|lanes?|paths?|ground)|gravel|rough ground)\b|\boff[ -]road\b|\bauf (?:dem |einem |"
        r"den )?(?:feldweg\w*|schotter\w*|acker|waldweg\w*)\b|\bim gel[aä]nde\b|\bsur (?:les |un |le )?(?:chemins?|"
        r"pistes?)\b|\bpor (?:los |un |el )?(?:caminos?|pistas?)\b|\bauf (?:schlechter stra[sß]e|kopfsteinpflaster)\b|"
        r"\b[uü]ber (?:bodenwellen|"
        r"schlagl[oö]cher)\b|\bsur (?:les )?(?:bosses|pav[eé]s|mauvaise route)\b|\ben baches\b", re.IGNORECASE)),
    (TURNS, re.compile(
        rf"\b(?:when(?:ever)?|while|if|as|by|on) {_WHO}(?:turn|steer|mov)(?:s|ed|ing)? (?:the )?(?:steering|wheel)\b|"
        rf"\b(?:when(?:ever)?|while|if|as) (?:the )?(?:steering|wheel|steering wheel) (?:is|was|gets) {_MOVE}\b|"
        r"\block to lock\b|\bvon anschlag zu anschlag\b|\bbeim (?:einschlagen|drehen (?:des lenkrads|am lenkrad))\b|"
        r"\bwenn (?:man|ich) (?:das lenkrad dreh\w*|lenk\w*)\b|\ben (?:tournant (?:le )?volant|braquant)\b|"
        r"\bquand (?:on|je) (?:tourne (?:le )?volant|braque)\b|\bde but[eé]e [aà] but[eé]e\b|"
        r"\bal girar(?: el volante)?\b|\bcuando giro el volante\b|\bde tope a tope\b|"
        r"\b(?:when|while|on|in) (?:turning|cornering|full lock|(?:tight |sharp |left |right )?(?:turns|bends|"
        r"corners))\b|\bat full lock\b|\bin kurven\b|\bbeim lenken\b|\bdans les virages\b|\ben curvas?\b",
        re.IGNORECASE)),
    (SPEED, re.compile(
        r"\b(?:above|over|beyond|past|from|(?:faster|more) than|ab|[uü]ber|au[- ]del[aà] de|au-dessus de|"
        r"[aà] partir de|(?:a )?m[aá]s de|por encima de|a partir de) (?:about |ca\.? |etwa |environ )?[0-9]{2,3} ?"
        r"(?:km/?h|kph|mph)\b|\b(?:at|only at) (?:motorway|highway|higher|high) speeds?\b|\bon the motorway\b|"
        r"\bauf der autobahn\b|\bsur (?:l')?autoroute\b|\ben autopista\b", re.IGNORECASE)),
    (SLOW, re.compile(
        r"\bat (?:a )?(?:very )?(?:low|slow|walking|crawling|crawl) (?:speeds?|pace)\b|\b(?:when|while) (?:driving )?"
        r"(?:slowly|creeping|crawling|man(?:o)?euv(?:er|r)ing|parking)\b|\b(?:below|"
        r"under) (?:about )?[1-4]?[0-9] ?(?:km/?h|"
        r"kph|mph)\b|\bbei (?:niedriger |langsamer |geringer )(?:geschwindigkeit|fahrt)\b|\bim schritt?tempo\b|"
        r"\bbeim (?:rangieren|einparken|langsam ?fahren)\b|\bunter [1-4]?[0-9] ?km/?h\b|\b[aà] (?:tr[eè]s )?(?:basse|"
        r"faible|"
        r"petite) (?:vitesse|allure)\b|\ben man[oœ]e?uvr\w*\b|\ba (?:muy )?(?:baja|poca) velocidad\b|\bal maniobrar\b",
        re.IGNORECASE)),
    (HILL, re.compile(
        r"\b(?<!parked )(?<!left )(?:on|up) (?:a |the |any )?(?:(?:long|steep) )?(?:hills?|climbs?|inclines?|"
        r"gradients?)\b|"
        r"\b(?:going|driving|pulling) uphill\b|\bclimbing\b|\bbergauf\b|\b(?:am|an) (?:langen )?(?:berg|"
        r"steigung(?:en)?)\b|"
        r"\ben (?:longue )?(?:c[oô]te|mont[eé]e)\b|\b(?:en|por) (?:las? )?(?:cuestas?|subidas?|pendientes?)\b|"
        r"\bcuesta arriba\b", re.IGNORECASE)),
    (LADEN, re.compile(
        r"\b(?:when|while|only|once) (?:it is |fully |heavily |the \w+ is )?(?:laden|loaded)\b|\bwith (?:a )?(?:full|"
        r"heavy) "
        r"(?:load|payload)\b|\b(?:when|nur|wenn) (?:er |voll )?beladen\b|\b(?:seulement|quand il est) charg[eé]e?\b|"
        r"\bcuando (?:va|est[aá]) cargad[oa]\b", re.IGNORECASE)),
    (LOAD, re.compile(
        r"\bunder load\b|\b(?:with|when) (?:the )?(?:headlights?|lights|blower|heated \w+|heater)(?: \w+)? on\b|"
        r"\bunter last\b|\ben charge\b|\bcon carga\b", re.IGNORECASE)),
)


#: No shorter text says what brings a fault on.
_SHORTEST = 8
_FAST = re.compile(r"[^0-9]*([0-9]{2,3} ?[a-z/]+)", re.IGNORECASE)


def trigger_of(complaint: str | None) -> Trigger | None:
    """The condition under which a complaint says the fault comes; the one named first, None where it names none.

    >>> [said and said.name for said in map(trigger_of, ("loses power in heavy rain, fine the day after",
    ...     "ABS lamp over bumps", "flat after a cold week, lights left on", "stalls hot"))]
    ['wet', 'bumps', None, 'heat']
    >>> trigger_of("ESP lamp above 40 km/h").road
    'above 40 km/h, where the law allows'
    """
    if not complaint:
        return None
    found = [(hit.start(), trigger) for trigger, said in _SAID if (hit := said.search(complaint[:500])) is not None]
    if not found:
        return None
    at, trigger = min(found, key=lambda one: one[0])
    fast = _FAST.match(complaint[at:])
    if trigger is SPEED and fast:
        return trigger._replace(road=f"above {fast[1]}, where the law allows",
                                proof=f"a drive above {fast[1]}, where the law allows")
    climb = next((other for _, other in found if other in (HILL, LADEN)), None)
    if climb is not None and trigger in (climb, HOT) and any(other is HOT for _, other in found):
        # What dies on a hill when it is hot is shown by both together.
        return climb._replace(name=HOT.name, test=HOT.test, road=f"{climb.road}, {HOT.road}",
                              proof=f"{climb.proof}, {HOT.road}")
    return trigger


#: What is said of a movement that changed nothing, in four languages.
_NOTHING = re.compile(
    r"\b(?:no (?:change|effect|difference)|nothing|never|not?|(?<!gone )without|unchanged|stays|doesn't|didn't|keine?|"
    r"nicht|nichts|(?<!weg )ohne|aucun|rien|pas|sans|nada|sin|ningun|tampoco)\b", re.IGNORECASE)


def told_trigger(texts: Sequence[str]) -> Trigger | None:
    """The condition that what is written beside a code names; None where it names none, or denies it.

    >>> [found and found.name for found in map(told_trigger, (["when I turn the wheel"], ["when I move the door"],
    ...     ["while wiggling the plug"], ["no change when I wiggle the loom"], ["door lock motor"]))]
    ['steering', 'door', 'loom', None, None]
    """
    return next((found for text in texts if (found := _of_text(text)) is not None), None)


@lru_cache(maxsize=4096)
def _of_text(text: str) -> Trigger | None:
    return None if len(text) < _SHORTEST or _NOTHING.search(text[:500]) else trigger_of(text)


#: A complaint that says that its fault comes and goes without its condition: all in four languages.
_NOW_AND_THEN = re.compile(
    r"\b(?:sometimes|intermittent(?:ly)?|now and (?:then|again)|on and off|at times|occasional(?:ly)?|once in a while|"
    r"comes and goes|manchmal|ab und zu|hin und wieder|sporadisch|zeitweise|gelegentlich|kommt und geht|parfois|"
    r"de temps en temps|par moments?|par intermittence|a veces|de vez en cuando|a ratos|va y viene)\b", re.IGNORECASE)


def comes_and_goes(complaint: str | None) -> bool:
    """Whether a complaint says that what it complains of is not there all the time: a run without it proves little.

    >>> [comes_and_goes(said) for said in ("limp mode now and then", "wipers stop hot", "flat after a week")]
    [True, True, False]
    """
    return bool(complaint) and (
        trigger_of(complaint) is not None or _NOW_AND_THEN.search((complaint or "")[:500]) is not None)


__all__ = ["BUMPS", "BY_HAND", "COLD", "DOOR", "HILL", "HOT", "LADEN", "LID", "LOAD", "LOOM", "SEAT", "SLOW", "SPEED",
           "TRAILER", "TURNS", "WET", "Trigger", "comes_and_goes", "told_trigger", "trigger_of"]
