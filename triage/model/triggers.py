"""What brings a fault on, where the complaint says so: rain, cold, heat, bumps, steering, load.

A test without its trigger says little about a fault that comes and goes, so the steps name it. Common practice.
"""

from __future__ import annotations

import re
from typing import NamedTuple


class Trigger(NamedTuple):
    """One condition. ``test``: how it is made at a circuit; ``road``: how a run or drive meets it."""

    name: str
    test: str
    road: str


WET = Trigger("wet", "with water sprayed on connector and harness", "in rain or on a wet road")
COLD = Trigger("cold", "cold, before the first start of the day", "from cold, after a night outside")
HOT = Trigger("heat", "hot, after a long run", "until everything is hot")
BUMPS = Trigger("bumps", "while connector and harness are shaken and bent", "over bumps and rough road")
TURNS = Trigger("steering", "while the steering is turned from lock to lock", "with tight turns both ways")
#: At speed a harness shakes; how fast is said in the complaint's own words (``trigger_of``).
SPEED = Trigger("speed", "while connector and harness are shaken and bent", "at the speed named, where the law allows")
LOAD = Trigger("load", "with lamps, blower and heated windows on", "with lamps, blower and heated windows on")

_ONLY_WHEN = r"(?:when(?:ever)?|if|while|as soon as|once)(?: (?:it|it's|its|the \w+|weather|road)(?: is| was| gets)?)? "
#: Each with the ways a complaint names it. A cold week that flattened the battery is no trigger of a fault.
_SAID: tuple[tuple[Trigger, re.Pattern[str]], ...] = (
    (WET, re.compile(
        r"\b(?:in|during|after) (?:the |a |heavy |light |driving )?(?:rain|wet(?! weather g)|car ?wash|downpour|"
        rf"washing|puddles?)\b|\b{_ONLY_WHEN}(?:rain\w*|wet|damp)\b|\b(?:on|in) (?:wet|rainy|damp) (?:days?|weather|"
        r"roads?|mornings?)\b|\bbei (?:regen|n[aä]sse)\b|\bnach (?:der wagenw[aä]sche|regen)\b|\b(?:sous|apr[eè]s|par) "
        r"(?:la pluie|temps de pluie|lavage)\b|\b(?:con|cuando|bajo la) llu(?:via|eve)\b", re.IGNORECASE)),
    (COLD, re.compile(
        rf"\b{_ONLY_WHEN}(?:cold|freezing|frosty)\b|\bonly in (?:the )?(?:cold|frost)\b|\b(?:on|from) (?:a )?cold "
        r"(?:starts?|engine|mornings?)\b|\bcold starts? only\b|\bbei k[aä]lte\b|\bkaltstart|\b[aà] froid\b|"
        r"\ben fr[ií]o\b", re.IGNORECASE)),
    (HOT, re.compile(
        rf"\b{_ONLY_WHEN}(?:hot|warm(?:ed up)?)\b|\bin (?:the )?heat\b|"
        r"\b(?:stall(?:s|ed|ing)?|dies|cuts? out|stops|misfires?|fails?|loses power) (?:hot|warm)\b|"
        r"\bhot stalls?\b|\bgeht (?:warm|hei[sß]) aus\b|\bafter (?:a )?long (?:drives?|runs?)\b|"
        r"\bbei hitze\b|\bwenn (?:er |es )?(?:warm|hei[sß])\b|\b[aà] chaud\b|\ben caliente\b", re.IGNORECASE)),
    (BUMPS, re.compile(
        r"\b(?:over|on|across|hitting) (?:the )?(?:bumps?|potholes?|speed (?:bumps?|humps?)|rough roads?|cobbles?\w*|"
        r"kerbs?)\b|\bbumpy roads?\b|\bauf (?:schlechter stra[sß]e|kopfsteinpflaster)\b|\b[uü]ber (?:bodenwellen|"
        r"schlagl[oö]cher)\b|\bsur (?:les )?(?:bosses|pav[eé]s|mauvaise route)\b|\ben baches\b", re.IGNORECASE)),
    (TURNS, re.compile(
        r"\b(?:when|while|on|in) (?:turning|cornering|full lock|(?:tight |sharp |left |right )?(?:turns|bends|"
        r"corners))\b|\bat full lock\b|\bin kurven\b|\bbeim lenken\b|\bdans les virages\b|\ben curvas?\b",
        re.IGNORECASE)),
    (SPEED, re.compile(
        r"\b(?:above|over|beyond|past|from|(?:faster|more) than|ab|[uü]ber|au[- ]del[aà] de|au-dessus de|"
        r"[aà] partir de|(?:a )?m[aá]s de|por encima de|a partir de) (?:about |ca\.? |etwa |environ )?[0-9]{2,3} ?"
        r"(?:km/?h|kph|mph)\b|\b(?:at|only at) (?:motorway|highway|higher|high) speeds?\b|\bon the motorway\b|"
        r"\bauf der autobahn\b|\bsur (?:l')?autoroute\b|\ben autopista\b", re.IGNORECASE)),
    (LOAD, re.compile(
        r"\bunder load\b|\b(?:with|when) (?:the )?(?:headlights?|lights|blower|heated \w+|heater)(?: \w+)? on\b|"
        r"\bunter last\b|\ben charge\b|\bcon carga\b", re.IGNORECASE)),
)


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
    return trigger._replace(road=f"above {fast[1]}, where the law allows") if trigger is SPEED and fast else trigger


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


__all__ = ["BUMPS", "COLD", "HOT", "LOAD", "SPEED", "TURNS", "WET", "Trigger", "comes_and_goes", "trigger_of"]
