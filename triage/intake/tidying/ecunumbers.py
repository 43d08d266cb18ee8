"""A plain "ECU" before a maker's own number, as the names of the lines beside it stand before their codes."""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.codes.ownnumbers import ANY, TOKEN
from triage.intake.naming.names import Names, tidy
from triage.intake.plain.characters import Line
from triage.intake.plain.patterns import lazily

_OWN = lazily(rf"(\s+[-|>=]+\s+|\s*\t\s*){TOKEN}")
_CODED = lazily(rf"(?:[PCBU][0-3][0-9A-F]{{3}}|{ANY})")
_LENGTH = 3


def stands_so(lines: Sequence[Line], at: int, start: int, names: Names) -> bool:
    """Whether the "ECU" at a place of a line does.

    >>> from code_tables import load
    >>> from triage.intake.plain.characters import lines
    >>> found = lines("- ABS - C0035 low\\n- ECU - 935C28 fan\\n\\n- ECU - 935C28 fan")
    >>> [stands_so(found, at, 2, Names(load())) for at in (1, 3)]
    [True, False]
    """
    line = lines[at]
    match = _OWN.match(line.text, start + _LENGTH)
    if match is None:
        return False
    lead, mark = line.text[:start], match[1]
    beside = (other.text for other in lines[max(0, at - 1) : at + 2] if other is not line)
    places = [(text, text.find(mark, start)) for text in beside if text.startswith(lead)]
    return any(
        end > start and names.listed(tidy(text[start:end])) and _CODED.match(text, end + len(mark)) is not None
        for text, end in places
    )


__all__ = ["stands_so"]
