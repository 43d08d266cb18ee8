"""Addresses with a word for them behind the names of modules, left out wherever a name stands: "Brakes, addr. 05 .....
no answer", "Radio (address 0x2C): no faults"; and those in the brackets of the name: "[Radio [0x2C]] 2 faults". A name
with two addresses is that of two modules, and keeps them.

>>> from triage.intake.plain.characters import lines
>>> said = "Brakes, addr. 05 .. no answer\\nKQM (addr. 2C): ok\\nDoor, addr. 1\\nDoor, addr. 2\\nsource address 3"
>>> [line.text for line in left_out(lines(said))]
['Brakes .. no answer', 'KQM: ok', 'Door, addr. 1', 'Door, addr. 2', 'source address 3']
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Sequence

from triage.intake.codes.found import find
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily

_PLACE = lazily(
    r"(?<=[^\W_])(?P<mark>[.)\]]?)(?P<cut>(?:\s?,\s?|\s-\s|\s|\s?[(\[]\s?)(?:(?:diag(?:nostic)?|ecu|can) )?"
    r"(?:addr(?:ess)?|adr|adresse|direccion)\.?\s?[:=#]?\s?(?P<number>(?:0x|\$)?(?=[0-9a-f]{0,4}[0-9])[0-9a-f]{1,4}h?)"
    r"(?P<close>\s?[)\]])?)(?![\w/])(?![.,][0-9])"
)
#: "[Radio [0x2C]]"
_NESTED = lazily(
    r"\s{0,20}[\[(<]\s?[^\[\]()<>]{2,60}?(?P<cut>\s?[\[(<]\s?(?P<number>(?:0x|\$)[0-9a-f]{1,4})\s?[\])>])\s?[\])>]")
_SIGN = signs.of_parts("[0x", "(0x", "<0x", "[$", "($", "<$") | signs.of_pattern("^(?:addr|adr|direccion)")
_SOURCE = ("source", "quell", "sender")
_FEWEST, _LONGEST_NAME = 2, 60


def left_out(found: Sequence[Line]) -> Sequence[Line]:
    """The lines, those of several modules without such addresses. Linear."""
    places = {at: match for at in signs.places(found, _SIGN) if (match := _place(found[at])) is not None}
    if len(places) < _FEWEST:
        return found
    numbers: dict[str, set[str]] = defaultdict(set)
    for at, match in places.items():
        numbers[_name(found[at], match)].add(match["number"])
    kept = list(found)
    for at, match in places.items():
        if len(numbers[_name(found[at], match)]) == 1:
            kept[at] = reworded(found[at], *match.span("cut"), "")
    return kept


def _place(line: Line) -> re.Match[str] | None:
    """Where such an address stands behind what may be a name; None where none does."""
    nested = _NESTED.match(line.low)
    if nested is not None:
        return nested
    match = _PLACE.search(line.low, 0, _LONGEST_NAME + len(line.text) - len(line.text.lstrip()) + 30)
    if match is None or (match["cut"].strip()[:1] in ("(", "[")) != (match["close"] is not None):
        return None
    before = line.text[: match.start("cut")]
    if find(before).codes or before.lower().rstrip().endswith(_SOURCE):
        return None
    return match


def _name(line: Line, match: re.Match[str]) -> str:
    """The name before an address, without what numbers its line."""
    return line.low[: match.start("cut")].lstrip(" \t>*#-0123456789.)(").rstrip()


__all__ = ["left_out"]
