"""Statuses that are told of two codes one after the other: written behind the code that each is said of.

>>> from triage.intake.plain.characters import lines
>>> for text in ("ECM: P0234 and P0562, the first active, the other one stored. BCM ok",
...              "Moteur : P0234 et P0562 (le premier présent, le second fugitif)",
...              "ECM P0234 and P0562, the first scan took long, the second was quick"):
...     [line] = written_out(lines(text))
...     print(line.text)
ECM: P0234 active and P0562 stored. BCM ok
Moteur : P0234 présent et P0562 fugitif
ECM P0234 and P0562, the first scan took long, the second was quick
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.plain import signs
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.said import states

_CODE = r"[pcbu][0-3][0-9a-f]{3}(?:[-:][0-9a-f]{2})?"
_THE = r"(?:(?:the|der|die|das|le|la|l'|el)\s?)?"
_IS = r"(?:\s(?:one|code|fault|fehler|defaut|fallo))?(?:\s(?:is|was|being|ist|war|est|etait|es|esta))?[\s:=]{1,3}"
_STATUS = r"([a-z][a-z -]{2,30}?)"
_TWO = lazily(
    rf"(?<![a-z0-9])({_CODE})(\s?(?:,|and|&|\+|/|und|et|y)\s)({_CODE})\s?[,;:(-]{{1,2}}\s?"
    rf"{_THE}(?:first|1st|former|erste[rs]?|1\.|1er|premiere?|primer[oa]?|1[oa]){_IS}{_STATUS}"
    rf"\s?(?:[,;/]|\s(?:and|und|et|y)\s)\s?(?:(?:and|und|et|y)\s)?"
    rf"{_THE}(?:second|2nd|latter|other|last|zweite[rs]?|andere[rs]?|letzte[rs]?|2\.|2e|2eme|deuxieme|seconde?|autre|"
    rf"segund[oa]|otr[oa]|2[oa]){_IS}{_STATUS}\s?(?:\)|(?=[.,;!?]|$))"
)
_SIGN = signs.of_words(word_set(
    "first former erste erster erstes premier premiere primero primera primer").__contains__)
_LONGEST = 1000


def written_out(found: Sequence[Line]) -> Sequence[Line]:
    """The lines with each such status behind its code. Linear in their length."""
    mended: list[Line] | None = None
    for at in signs.places(found, _SIGN):
        line = found[at]
        for match in reversed(list(_TWO.finditer(line.low))) if len(line.low) <= _LONGEST else ():
            if states.of_cell(match[4].strip()) and states.of_cell(match[5].strip()):
                one, joint, other, first, second = (line.text[slice(*match.span(part))] for part in range(1, 6))
                line = reworded(line, *match.span(), f"{one} {first}{joint}{other} {second}")
                mended = mended or list(found)
                mended[at] = line
    return mended or found


__all__ = ["written_out"]
