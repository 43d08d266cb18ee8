"""A label that says twice that modules are clean, before their names: "OK modules (no codes): Door LF", "Passed, no
codes: Radio". The second answer is enough.

>>> from triage.intake.plain.characters import lines
>>> said = "OK modules (no codes): Door LF\\nPassed, no codes: Radio\\nABS: ok, no codes"
>>> [line.text for line in shortened(lines(said))]
['no codes: Door LF', 'no codes: Radio', 'ABS: ok, no codes']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said.answers import answer_of_cell

_LABEL = lazily(
    r"\s*(?P<lead>(?:ok|passed|pass|clean|clear|good|fine|healthy|in ordnung|fehlerfrei|sans defaut|correctos?)"
    r"(?: (?:modules?|units?|ecus?|systems?|control units?|steuergerate|calculateurs|modulos))?\s*[,(]\s*)"
    r"(?P<answer>[a-z ]{4,24}?)(?P<close>\s*\)?)(?=\s*:\s*\S)"
)


def shortened(found: Sequence[Line]) -> list[Line]:
    """The lines with the second answer of such labels alone. Linear."""
    return [_one(line) if ":" in line.text[:60] else line for line in found]


def _one(line: Line) -> Line:
    match = _LABEL.match(line.low)
    if match is None or answer_of_cell(match["answer"]) != "clean":
        return line
    return reworded(reworded(line, *match.span("close"), ""), *match.span("lead"), "")


__all__ = ["shortened"]
