"""Plurals that stand in brackets behind the words for codes and modules: "0 fault(s) in total" are faults.

>>> from triage.intake.plain.characters import lines
>>> [line.text for line in closed(lines("0 fault(s) in total\\nFehler(n): 2\\nsensor(s)"))]
['0 faults in total', 'Fehlern: 2', 'sensor(s)']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.words.answerwords import CODES, UNIT

_PLURAL = lazily(r"([a-z]{3,14})(\((s|es|n|en|e)\))(?![a-z0-9])")


def closed(found: Sequence[Line]) -> Sequence[Line]:
    """The lines, those words without their brackets. Linear."""
    return [_one(line) if "(" in line.low else line for line in found]


def _one(line: Line) -> Line:
    """One line, changed from its end on."""
    for match in reversed(list(_PLURAL.finditer(line.low))):
        if match[1] in CODES or match[1] in UNIT:
            line = reworded(line, match.start(2), match.end(2), match[3])
    return line


__all__ = ["closed"]
