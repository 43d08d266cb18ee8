"""A plain "ECU" before a maker's own number, as the names of the lines beside it stand before their codes."""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.codes.finds import Found
from triage.intake.codes.ownnumbers import ANY, TOKEN, found
from triage.intake.naming.names import Names, tidy
from triage.intake.plain.characters import Line
from triage.intake.plain.patterns import lazily

_OWN = lazily(rf"(\s+[-|>=]+\s+|\s*\t\s*){TOKEN}")
_CODED = lazily(rf"(?:[PCBU][0-3][0-9A-F]{{3}}|{ANY})")
_KEYED = lazily(r"\s?[:=]\s?([^:=]{2,60})")
_FIRST = lazily(rf"[\s>*\u2022-]*({TOKEN})")
_LENGTH = 3


def first(line: Line) -> tuple[Found, ...]:
    """The maker's own number with which a line begins, behind a bullet or not.

    >>> from triage.intake.plain.characters import lines
    >>> [[each.text for each in first(line)] for line in lines("- K7424 [ABS] Fan\\nABS K7424")]
    [['K7424'], []]
    """
    match = _FIRST.match(line.text)
    own = found(match.start(1), match[1]) if match is not None else None
    return (own,) if own is not None else ()


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


def is_key_behind(low: str, start: int, names: Names) -> bool:
    """Whether the "ECU" at a place is a key with the name of a module to the end of the line: "U0103 / ECU: radio".

    >>> from code_tables import load
    >>> [is_key_behind(low, 8, Names(load())) for low in ("u0103 / ecu: radio", "u0103 / ecu: silent")]
    [True, False]
    """
    match = _KEYED.fullmatch(low, start + _LENGTH)
    return match is not None and names.score(tidy(match[1])) >= 60.0


__all__ = ["is_key_behind", "stands_so"]
