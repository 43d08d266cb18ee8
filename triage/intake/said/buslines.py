"""What was measured on the lines of a bus: "CAN H 0.1 V", "engine CAN 2.62 / 2.38 V", "CANH to ground 1.2 ohm".

No such figure is a supply of anything.

>>> [(found.name, found.value) for found in find("engine can 2.62 / 2.38 v, 60 ohm")]
[('engine CAN H', 2.62), ('engine CAN L', 2.38), ('engine CAN', 60.0)]
>>> [(found.name, found.value) for found in find("canh to ground 1.2 ohm, battery off. h to l 61 ohm")]
[('CAN H to ground', 1.2), ('CAN H to L', 61.0)]
>>> [find(low)[0].name for low in ("120 ohm between can h and can l", "can h pin 6, can l pin 14: 60 ohm")]
['CAN H to L', 'CAN H to L']
>>> [find(low)[0].value for low in ("obd pins 6 to 14: 119 ohm", "bus resistance 121 ohm", "60 ohm across 6 and 14")]
[119.0, 121.0, 60.0]
>>> [(found.name, found.value) for found in find("can h 2.7 v, can l 2.3 v, 60 ohm between them")][0]
('CAN H to L', 60.0)
>>> find("can gateway 12.1 v"), find("battery 12.4 v")
((), ())
"""

from __future__ import annotations

import re
from typing import NamedTuple

from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered

_SIDE = r"(?:h(?:i(?:gh)?)?|l(?:o(?:w)?)?)(?![a-z])"
#: "CAN H", "CANH to L", "H to L" of the bus named before.
_BUS = lazily(
    rf"(?<![a-z])(?:(?P<bus>can|lin|flexray|k-?line|(?:sae ?)?j1939)(?:[ -]?bus)?(?:[ _-]?(?P<line>{_SIDE}))?(?![a-z])|"
    rf"(?P<lone>[hl])(?= to [hl](?![a-z])))"
    rf"(?:(?:[ ](?:to|and|gegen|nach|zu|a|y|et|und)[ ]|/|-)(?:can[ _-]?)?(?P<far>{_SIDE}))?")
_WHICH = lazily(r"(?<![a-z])((?:comfort|body|engine|powertrain|drive|chassis|convenience|infotainment|medium[ -]speed|"
                r"high[ -]speed|low[ -]speed|ms|hs|komfort|antriebs?|confort|moteur|motor|private|"
                r"diag(?:nostic)?)[ -])$")
_FIGURE = lazily(r"(?<![\w.,])([0-9]{1,4}(?:[.,][0-9]{1,3})?) ?(mv|v|volts?|k ?ohms?|ohms?|\u03c9)(?![\w/])")
_PAIR = lazily(r"[ :=]{0,3}(?:h ?/ ?l |lines? |at |reads? |is )?[ :=]{0,2}([0-5][.,][0-9]{1,3}) ?v? ?(?:/|,|and|&|"
               r"und|et|y) ?"
               r"([0-5][.,][0-9]{1,3}) ?v(?:olts?)?(?![a-z])")
_TO = lazily(r"[ ](?:to|and|gegen|nach|zu|a|y|et|und|-) ((?:batt(?:ery)? )?(?:ground|earth|gnd|masse|minus|plus|"
             r"masa|tierra|"
             r"b ?\+|feed|supply|power|positive|12 ?v))(?![a-z])")
#: "120 ohm between CAN H and CAN L", "60 ohm across the CAN".
_BETWEEN = lazily(r"(?<![\w.,])([0-9]{1,4}(?:[.,][0-9]{1,2})?) ?(k ?ohms?|ohms?|\u03c9)"
                  r"(?: (?:measured|read|resistance))?,? (?:between|across|zwischen|entre)(?: the)?"
                  r"(?: two| both)?(?: lines of)?(?: the)? "
                  r"(can|lin|flexray)(?![a-z])[ _-]?(?:bus )?(?:h|lines?)?")
#: "CAN H 2.7 V, CAN L 2.3 V, 60 ohm between them": both lines were named before.
_BETWEEN_THEM = lazily(
    r"(?<![\w.,])(?P<ohms>[0-9]{1,4}(?:[.,][0-9]{1,2})?) ?(?P<unit>k ?ohms?|ohms?|\u03c9)"
    r"(?: (?:measured|read|gemessen|mesures?|medidos?))?,? (?:between|across|zwischen|entre) (?:them|the two|both|"
    r"the pair|beiden|den beiden|ihnen|eux|les deux|ellos|ambos|los dos)(?![a-z])(?! (?:pins?|batter|post|pole))")
_PINS_OF_BOTH = lazily(r"(?<![a-z0-9])(?:c ?(?:-|/|to|and) ?d|6 ?(?:-|/|to|and) ?14)(?![a-z0-9])")
_OHM = r"(?P<{0}>[0-9]{{1,4}}(?:[.,][0-9]{{1,2}})?) ?(?P<{0}unit>k ?ohms?|ohms?|\u03c9)(?![\w/])"
_ENDS = (r"(?:pins? ?)?6 ?(?:-|/|to|and|gegen|und|nach|zu|et|a|y) ?(?:pin ?)?14"
         r"(?![0-9]|[.,][0-9]|\s?(?:a|ah|mm|v|w|km)(?![a-z]))")
#: The two lines by their pins in the diagnostic connector (SAE J1962), or the whole bus by what ends it.
_UNNAMED = lazily(
    rf"(?:(?P<pins>(?<![\w.,]){_ENDS})|(?<![a-z])(?:(?:bus|termina(?:tion|tor|ting)s?|abschluss|bus-?abschluss)[ -]?"
    r"(?:resist(?:ance|or)s?|widerst(?:and|ande))?|buswiderstand|abschlusswiderst(?:and|ande)|"
    r"resistance (?:du |de )?(?:bus|terminaison)|resistencia (?:del |de )?(?:bus|terminacion)))"
    rf"(?: (?:is|reads?|at the socket|measured|battery off|ist|misst))*\s?[:=,]?\s?(?<![\w.,]){_OHM.format('behind')}|"
    rf"(?<![\w.,]){_OHM.format('before')}(?: (?:measured|read))?,? (?:between|across|zwischen|entre|at|an|on) (?:the )?"
    rf"{_ENDS}")
_SOCKET = lazily(r"\W*(?:(?:at|the|on|in|measured|resistance|obd(?:[- ]?(?:ii|2))?|dlc|diag\w*|j1962|socket|plug|port|"
                  r"connector|dose|obd-\w+|buchse|stecker|an|der|prise|toma|conector|de|del|la|le|du)\W*)*")
_CUT = lazily(r"[;,(]\s?|\.\s|\s(?:and|but|then|should|soll|und|aber)(?![a-z])")
#: No line of a CAN bus reads higher in volts.
_MOST = 5.5
_NEAR = 24
_UNIT = {"m": "mV", "v": "V", "k": "kohm"}


class BusLine(NamedTuple):
    """One figure at ``start``..``end``: its line's name, with the other end of the path where one is named."""

    start: int
    end: int
    name: str
    value: float
    unit: str


@remembered
def find(low: str) -> tuple[BusLine, ...]:
    """The figures of bus lines in a line in small letters; each by the bus named last before it, in the same clause or
    the one before."""
    named = list(_BUS.finditer(low))
    unnamed = _unnamed(low) if "ohm" in low or "\u03c9" in low else []
    if not any(name["bus"] for name in named):
        return tuple(unnamed)
    found = [BusLine(*told.span(1), f"{told[3].upper()} H to L", float(told[1].replace(",", ".")),
                     _UNIT.get(told[2][0], "ohm")) for told in _BETWEEN.finditer(low)]
    them = _BETWEEN_THEM.search(low) if {(name["line"] or " ")[0] for name in named} >= {"h", "l"} else None
    if them is not None and named[1].start() < them.start():
        found.append(BusLine(*them.span("ohms"), f"{(named[0]['bus'] or 'can').upper()} H to L",
                             float(them["ohms"].replace(",", ".")), _UNIT.get(them["unit"][0], "ohm")))
    stops = [*(name.start() for name in named[1:]), len(low)]
    for name, stop in zip(named, stops, strict=True):
        which = _WHICH.search(low[max(0, name.start() - 20) : name.start()])
        bus = name["bus"] or next((other["bus"] for other in named[::-1] if other["bus"]), "can")
        bare = (which[1] if which else "") + bus.upper()
        pair = _PAIR.match(low, name.end()) if name["line"] is None or name["far"] else None
        if pair is not None:
            values = [float(pair[at].replace(",", ".")) for at in (1, 2)]
            high, low_at = (1, 2) if values[0] >= values[1] else (2, 1)
            found += [BusLine(*pair.span(at), f"{bare} {letter}", values[at - 1], "V")
                      for at, letter in sorted(((high, "H"), (low_at, "L")))]
        letter = name["line"] or name["lone"]
        line = bare + (f" {letter[0].upper()}" if letter else "")
        for place, figure in enumerate(_FIGURE.finditer(low, pair.end() if pair else name.end(), stop)):
            value = float(figure[1].replace(",", "."))
            unit = _UNIT.get(figure[2][0], "ohm")
            gap = low[name.end() : figure.start()]
            if place or (unit == "V" and value > _MOST) or len(gap) > 48:
                break
            if pair is None and _CUT.search(gap) is not None:
                break
            to = _TO.match(low, name.end())
            other = to[1] if to is not None else (name["far"] or "")[:1].upper() if unit.endswith("ohm") else ""
            if unit.endswith("ohm") and not other and _PINS_OF_BOTH.search(gap) is not None:
                other = "L"  # "J1939 at the diagnostic socket, C-D: 60 ohm"
                line = f"{bare} H"
            if unit.endswith("ohm") and not other and _follows_the_other(low, named, name):
                line, other = f"{bare} H", "L"  # "pin 26 CAN H, pin 14 CAN L: 60.4 ohm"
            if not any(one.start == figure.start() for one in found):
                found.append(BusLine(*figure.span(), f"{line} to {other}" if other else line, value, unit))
    known = {one.start for one in found}
    return (*(one for one in unnamed if one.start not in known), *found)


def _unnamed(low: str) -> list[BusLine]:
    """The resistances between the two lines of a bus that is named by its pins alone, or by what ends it."""
    found = []
    for told in _UNNAMED.finditer(low):
        clause = _CUT.split(low[: told.start()])[-1]
        if told["pins"] and _SOCKET.fullmatch(clause) is None:
            # Pins of a module's own connector are numbered as its maker likes.
            continue
        which = "before" if told["before"] else "behind"
        found.append(BusLine(*told.span(which), "CAN H to L", float(told[which].replace(",", ".")),
                             _UNIT.get(told[f"{which}unit"][0], "ohm")))
    return found


def _follows_the_other(low: str, named: list[re.Match[str]], name: re.Match[str]) -> bool:
    """Whether the other line of the bus stands right before this one, with no figure between them."""
    place = named.index(name)
    before = named[place - 1] if place else None
    if before is None or not before["line"] or not name["line"] or before["line"][0] == name["line"][0]:
        return False
    return name.start() - before.end() <= _NEAR and _FIGURE.search(low, before.end(), name.start()) is None


__all__ = ["BusLine", "find"]
