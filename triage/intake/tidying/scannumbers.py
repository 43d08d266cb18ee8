"""A scan that is told by its number right before its first module: "2nd scan ECM: P0571" gets a colon between.

>>> from triage.intake.plain.characters import lines
>>> text = "2nd scan ECM: P0571\\nscan 3 ECM P0571\\n2nd scan tool ECM: P0571\\n2nd scan 12.5 V"
>>> for line in parted(lines(text), lambda low: [(0, 3, True)] * low.startswith("ecm")):
...     print(line.text)
2nd scan: ECM: P0571
scan 3: ECM P0571
2nd scan tool ECM: P0571
2nd scan 12.5 V
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from triage.intake.plain import signs
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said.answers import spoken

_WORDS = ("scan", "readout", "reading", "read-out", "auslesung", "lesung", "lecture", "lectura", "escaneo", "escaneado")
_SIGN = signs.of_words(frozenset((*_WORDS, "read", "out")).__contains__)
_SCAN = rf"(?:{'|'.join(_WORDS)}|read out)"
_NUMBERED = lazily(
    rf"[\s*#>-]{{0,6}}(?:(?:[1-9](?:st|nd|rd|th|\.|e|eme|er|ere|a|o)?|first|second|third|fourth|erste[rs]?|zweite[rs]?|"
    rf"dritte[rs]?|premiere?|deuxieme|troisieme|primera?|primer|segund[ao]|tercera?|tercer) {_SCAN}|"
    rf"{_SCAN} (?:no\.? ?|nr\.? ?|#)?[1-9])(?P<gap> )(?=[a-z])")
_CODE = lazily(r"(?<![a-z0-9])[pcbu][0-3][0-9a-f]{3}")
FindNames = Callable[[str], Sequence[tuple[int, int, bool]]]


def parted(found: Sequence[Line], find: FindNames) -> Sequence[Line]:
    """The lines, a colon between such a number and the module right behind it of which codes or an answer are told."""
    mended: list[Line] | None = None
    for at in signs.places(found, _SIGN):
        line = found[at]
        match = _NUMBERED.match(line.low)
        if match is None:
            continue
        rest = line.low[match.end() :]
        names = find(rest[:80])
        alone = bool(names) and names[0][0] == 0 and (names[0][2] or rest[names[0][1] :].lstrip()[:1] == ":")
        if alone and (_CODE.search(rest) or spoken(rest)):
            mended = mended or list(found)
            mended[at] = reworded(line, *match.span("gap"), ": ")
    return mended or found


__all__ = ["parted"]
