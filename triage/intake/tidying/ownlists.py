"""Makers' own numbers in lists behind the name of their module, in one line: "Radio = 90C8 - aerial open - stored;
B1318 - supply low - active; 20417 - clock lost - stored".

Where each item of a list is led by a code, and one of them is a standard code or a status is told with them, the items
led by a number are codes.

>>> from code_tables import load
>>> from triage.intake.plain.characters import lines
>>> names = Names(load())
>>> told = marked(lines("Radio = 90C8 - aerial open; B1318 - supply low; 20417 - clock lost"), names)
>>> sorted(told[0].own)
['20417', '90C8']
>>> sorted(marked(lines("Parts: 90C8 - bolt; 20417 - nut"), names)[0].own)
[]
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from triage.intake.codes.ownnumbers import SIGN
from triage.intake.lines.ownevidence import OTHER_KEYS, QUANTITY
from triage.intake.naming.heads import role_of
from triage.intake.naming.names import Names, tidy
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.said import near, states
from triage.intake.said.happenings import is_aside
from triage.model import codes as model_codes

#: What parts the items of a list; a comma stands in descriptions too.
_PARTS = (lazily(r"\s*;\s*"), lazily(r"\s+/\s+"), lazily(r"\s+\+\s+"), lazily(r"\s+\|\s+"))
_LEAD = lazily(r"[\s>*\u2022\u00b7#\[-]*(?:\(?[0-9]{1,3}[.):]\s+)?([^\W\d][^:=>|;]{1,50}?)"
               r"(?:\s*(?::|=>?|-+>|\u2192|\s[-\u2013\u2014]+(?=\s)|\|)\s*|\]?\s{2,}|\]\s)(?=[^\W_])")
_STANDARD = lazily(r"(?:[pcbu][0-3o][0-9a-fo]{3}|spn\s?[0-9]{1,6})(?![g-z])")
#: A number with a description or a status behind it.
_NUMBER = lazily(r"([0-9A-Za-z]{4,7})(?=[\s:,(\[-]+[^\W_])")
_YEAR = lazily(r"(?:19|20)[0-9]{2}")
#: "20417 (km)" is no code.
_WORD = lazily(r"[^\W\d_]{3,}")
_LONGEST, _FEWEST_WORDS = 4000, 2


def marked(found: Sequence[Line], names: Names) -> Sequence[Line]:
    """The lines, each with the numbers that such lists tell as codes. Linear."""
    tokens = frozenset(token for at in signs.places(found, SIGN) for token in _told(found[at], names))
    return [replace(line, own=line.own | tokens) for line in found] if tokens else found


def _told(line: Line, names: Names) -> Iterator[str]:
    """The numbers that lead items of a list of codes."""
    text = line.text
    if len(text) > _LONGEST or not has_digit(text) or not any(mark in text for mark in ";/+|") or is_aside(line.low):
        return
    lead = _LEAD.match(text)
    if lead is None or _other(lead[1], names):
        return
    for part in _PARTS:
        items = [item for item in part.split(text[lead.end() :].strip(" ;/+|")) if item]
        if len(items) < 2 or not all(_led(item) for item in items):
            continue
        numbers = [number for item in items if (number := _number(item)) is not None]
        told = sum(bool(states.in_text(near.small(item))) for item in items)
        if len(numbers) < len(items) or 2 * told > len(items) or (told and names.likely(tidy(lead[1]))):
            yield from numbers
        return


def _other(name: str, names: Names) -> bool:
    """Whether a key is that of anything else than the codes of a module."""
    return not names.likely(tidy(name)) and role_of(near.small(name)) in OTHER_KEYS


def _led(item: str) -> bool:
    """Whether a code leads an item, a standard one or what has the form of a number."""
    return _STANDARD.match(near.small(item)) is not None or _number(item) is not None


def _number(item: str) -> str | None:
    """The number that leads an item as a code does."""
    match = _NUMBER.match(item)
    if match is None or not has_digit(match[1]) or _YEAR.fullmatch(match[1]) or model_codes.own(match[1]) is None:
        return None
    low = item.lower()
    if len(_WORD.findall(low, match.end())) < _FEWEST_WORDS and not states.in_text(near.small(item)):
        return None
    if QUANTITY.match(low, match.end()) and states.leading(low, match.end()) == match.end():
        return None
    if _STANDARD.match(near.small(item)) is not None:
        return None
    return match[1]


__all__ = ["marked"]
