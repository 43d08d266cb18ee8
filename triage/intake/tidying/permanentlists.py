"""The permanent list named with its service: "permanent (Service 0A)", "permanente (servicio $0A)".

In translations "permanent" alone means present now; with the service beside it, it is the list of SAE J1979 service $0A
in every language. It is written as "permanent DTC", which says so to every reader of a status.

>>> from triage.intake.plain.characters import lines
>>> [line.text for line in told(lines("P0562 permanent (Service 0A)\\nService $0A: permanent\\npermanent, mode 03"))]
['P0562 permanent DTC', 'permanent DTC', 'permanent, mode 03']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily

_PERMANENT = r"permanent(?:e[srn]?|s)?"
_LISTED = r"(?:fehler(?:codes?)?|defauts?|codes?(?: defauts?)?|codigos?|fallos?|averias?|dtcs?|faults?|liste?a?)"
_SERVICE = (
    r"(?:obd(?:[ -]?(?:ii|2))?[ -]?)?(?:service|mode|sid|modus|dienst|servicio|modo)[ -]?(?:(?:0x|\$)?0?a(?![a-z0-9])|"
    r"10(?![0-9a-z]))"
)
_NAMED = lazily(
    rf"(?<![a-z0-9])(?:{_PERMANENT}(?: ({_LISTED}))?(?: ?[,:/-] ?| )[(\[]?{_SERVICE}[)\]]?|"
    rf"{_SERVICE}(?: ?[,:/=-] ?| )[(\[]?{_PERMANENT}(?: ({_LISTED}))?(?![a-z0-9])[)\]]?)"
)
_SIGNS = ("0a", "$a", "xa", "10")


def told(found: Sequence[Line]) -> Sequence[Line]:
    """The lines, those that name the service beside the word with "permanent DTC" in its place."""
    kept: list[Line] | None = None
    for at, line in enumerate(found):
        if "permanent" not in line.low or not any(sign in line.low for sign in _SIGNS):
            continue
        for match in reversed(list(_NAMED.finditer(line.low))):
            word = "permanent codes" if match[1] or match[2] else "permanent DTC"
            end = match.end()
            if line.text[end : end + 2] == "  ":
                # Columns stay where they are.
                word = word.ljust(end - match.start())
            line = reworded(line, match.start(), end, word)
            kept = kept or list(found)
            kept[at] = line
    return kept or found


__all__ = ["told"]
