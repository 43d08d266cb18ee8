"""Names with strokes or pluses between them: several modules ("Retarder / EBS / Digital tacho"), or one with two names.

>>> from code_tables import load
>>> names = Names(load())
>>> joined("Retarder / EBS / Digital tacho", names), joined("Radio / Retarder", names), joined("BCM+ABS", names)
(['Retarder', 'EBS', 'Digital tacho'], ['Radio', 'Retarder'], ['BCM', 'ABS'])
>>> joined("Radio / Navigation", names), joined("Engine/Transmission control", names), joined("SCR/DEF", names)
([], [], [])
"""

from __future__ import annotations

from triage.intake.naming.names import Names, tidy
from triage.intake.plain.patterns import lazily

_SPACED = lazily(r"\s+[/+&|]\s+|\s*\+\s*")
_TIGHT = lazily(r"\s*[/+&|]\s*")
#: Modules that are often one unit with two names.
_ONE_UNIT = frozenset(
    frozenset(pair.split(" + "))
    for pair in (
        "radio + navigation", "radio + telephone", "radio + display, front", "radio + telematics",
        "telematics + telephone", "climate control + auxiliary heater", "climate control + air conditioning",
        "climate control + blower", "anti-lock brakes + vehicle dynamics", "anti-lock brakes + park brake",
        "anti-lock brakes + brake system", "engine control + transmission control",
        "transmission control + transfer case", "transmission control + gear shift A",
        "steering column + steering angle sensor", "gateway + body control", "body control + central locking",
        "hitch + hydraulics", "generator + starter", "immobiliser + keyless entry", "keyless entry + central locking",
        "cab control + body control", "suspension + vehicle dynamics", "all-wheel drive + transfer case",
    )
)


def joined(text: str, names: Names) -> list[str]:
    """The names of the several modules that ``text`` joins by strokes or pluses; empty where it names one."""
    if not any(mark in text for mark in "/+&|") or len(text) > 200 or names.listed(text):
        return []
    for mark, least in ((_SPACED, 2), (_TIGHT, 3)):
        parts = [tidy(part) for part in mark.split(text)]
        if least <= len(parts) <= 12 and all(parts) and _are_several(parts, names):
            return parts
    return []


def _are_several(parts: list[str], names: Names) -> bool:
    """Whether texts are names of different modules, and no two names of one unit."""
    if any(names.score(part) < 60.0 for part in parts):
        return False
    meant = {names.match(part).canonical for part in parts}
    return len(meant) == len(parts) and (len(parts) > 2 or meant not in _ONE_UNIT)


__all__ = ["joined"]
