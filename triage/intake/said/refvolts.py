"""The voltage that a module feeds its sensors with, as a meter read it at one of them, and with one of them unplugged.

That it comes back once the part that pulls it down is unplugged is how such a fault is found (common practice).

>>> line = "5V ref at the oil sensor plug: 1.2 V. unplugged the map sensor: 5.0 V"
>>> [(one.name, one.value) for one in find(line, line.lower(), bool)]
[('5 V reference at a sensor plug', 1.2), ('5 V reference, unplugged: map sensor', 5.0)]
>>> find("coolant sensor 1.2 V", "coolant sensor 1.2 v", bool), find("5 v ref ok", "5 v ref ok", bool)
([], [])
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from triage.intake.plain.patterns import lazily
from triage.model.measured_words import REFERENCE, UNPLUGGED

_REFERENCE = (
    r"(?:5 ?v(?:olts?)? ?-?(?:ref(?:erence)?|sensor (?:supply|feed)|referenz|"
    r"geberversorgung|sensorversorgung|"
    r"de reference|de referencia|(?:alimentation|alimentacion) capteurs?)(?: voltage)?|"
    r"(?:sensor )?ref(?:erence)? (?:voltage|volts|5 ?v)|v ?ref|referenzspannung|(?:sensor|geber)(?:versorgung|"
    r"spannung)|"
    r"tension de reference(?: capteurs?)?|tension de referencia|referencia de 5 ?v)")
_VALUE = r"(?P<value>[0-9]{1,2}(?:[.,][0-9]{1,2})?) ?v(?:olts?)?(?![a-z0-9/])"
_READ = lazily(rf"(?<![a-z0-9.,]){_REFERENCE}(?![a-z])(?P<where>[^0-9;.<>]{{0,60}}?)[ :=]{{1,3}}{_VALUE}")
_PART = r"(?P<part>[a-z][a-z/ -]{1,40}?)"
_STATE = r"[ :=,-]{1,3}(?:(?:it is |it's |now |then |back (?:to|at) |dann |wieder |alors |ahora |luego ){0,2})"
_OFF = (r"(?:unplugged|disconnected|pulled|abgesteckt|ausgesteckt|abgezogen|debranchee?|deconnectee?|desconectad[oa]|"
        r"desenchufad[oa])")
_WITHOUT = (
    lazily(rf"(?<![a-z]){_OFF} (?:the |my |its |la |le |el |l')?{_PART}{_STATE}{_VALUE}"),
    lazily(rf"(?:^|(?<=[.,;:] ))(?:with |mit |avec |con )?(?:the |der |den |dem |la |le |el |l')?{_PART} {_OFF}"
           rf"{_STATE}{_VALUE}"),
)
#: What should be is none that was read.
_WANTED = lazily(r"(?<![a-z])(?:should|soll\w*|spec|limit|expected|less than|more than|at least|devrait|"
                 r"debe\w*)(?![a-z])")
#: No such supply is higher, V: a battery's reaches one that is shorted to it.
_MOST, _LONGEST = 16.0, 240


class Reference(NamedTuple):
    """One reading: its place in the line, its name and its value in V."""

    start: int
    end: int
    name: str
    value: float


def find(text: str, low: str, told: Callable[[], bool]) -> list[Reference]:
    """The readings of a reference voltage in a line; ``told``: whether one was read in a line above, asked where the
    line itself leaves it open."""
    if len(low) > _LONGEST or "v" not in low or _WANTED.search(low) is not None:
        return []
    found = []
    for match in _READ.finditer(low):
        place = f"{REFERENCE} at a sensor plug" if match["where"].strip(" :=") else REFERENCE
        found.append(Reference(match.start(), match.end("value"), place, float(match["value"].replace(",", "."))))
    without = [match for pattern in _WITHOUT for match in pattern.finditer(low)]
    if not (found or (without and told())):
        return []
    for match in without:
        if not any(one.start < match.end() and match.start() < one.end for one in found):
            part = text[slice(*match.span("part"))].strip(" -")
            found.append(Reference(match.start(), match.end(), f"{REFERENCE}, {UNPLUGGED}{part}",
                                   float(match["value"].replace(",", "."))))
    found = [one._replace(end=_unit(low, one.end)) for one in found]
    return sorted(one for one in found if one.value <= _MOST)


_UNIT = lazily(r" ?v(?:olts?)?(?![a-z])")


def _unit(low: str, end: int) -> int:
    """Where the unit behind a value ends."""
    unit = _UNIT.match(low, end)
    return unit.end() if unit is not None else end


__all__ = ["Reference", "find"]
