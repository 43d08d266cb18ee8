"""Keys below codes that tell what was stored with them, whatever they are called: "Ignition cycles since: 19", "Engine
load = 27 %", "Time stamp: 2022-01-25 08:52". They name no module, and no scan begins there.

>>> from triage.intake.lines.rows import rows_of
>>> text = "ABS:\\nC0035 open\\nStarts since: 4\\nLogged: 2022-01-25 08:52\\nC0040 open\\nGearbox: 2\\nP0700 on"
>>> found = rows_of(text)
>>> adopt(found, set(), lambda name: name == "Gearbox")
>>> [row.text for row in found if row.stored]
['Logged: 2022-01-25 08:52']
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence, Set
from typing import Literal, NamedTuple

from triage.intake.lines.row import Row
from triage.intake.naming import IsName
from triage.intake.naming.heads import role_of
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.said import dates, states, volts

_KEY = lazily(r"([^\W\d](?:[^:=|\d]{0,33}[^:=|\d\s])?)\s*[:=]\s+([0-9-].{0,30})$")
#: What a module is addressed by.
_ADDRESSED = lazily(r"(?<![a-z])(?:sa|source|addr(?:ess)?|adresse|id|node|bus)$")
_OF_CODES = lazily(r"(?<![a-z])(?:codes?|dtcs?|faults?|errors?|fehler|defauts?|averias?|fallos?)$")
_MEASURE = lazily(
    r"-?[0-9]{1,7}(?:[., ][0-9]{1,3})?\s?(?:%|\u00b0\s?[cf]?|rpm|[1u]/min|tr/min|km/h|kph|mph|km|mi|miles|k?pa|m?bar|"
    r"psi|g/s|ms|s|sec|min|h|nm|hz|k?ohm|l)"
)
_NUMBER = lazily(r"[0-9]{1,7}")
#: The roles of keys that nothing else reads.
_OPEN_ROLES = frozenset((None, "date", "other"))
Kind = Literal["measure", "number", "date"]


class _Place(NamedTuple):
    """A key with such a value: the place of its row, and whether it stands below a code in one block with it."""

    at: int
    kind: Kind
    below: bool


def adopt(rows: Sequence[Row], marks: Set[int], is_name: IsName) -> None:
    """Mark the rows that tell what was stored with the code above. ``marks``: the lines of a page's head or foot.
    Linear."""
    places: dict[str, list[_Place]] = defaultdict(list)
    for place, key in _places(rows, marks):
        places[key].append(place)
    counted = any(each.kind == "number" and is_name(tidy(key)) for key, group in places.items() for each in group)
    found, dated = [], []
    for key, group in places.items():
        if 2 * sum(place.below for place in group) <= len(group):
            continue
        kind = group[0].kind
        if kind == "date":
            dated.append(group)
        elif kind == "measure" or not (counted or is_name(tidy(key))):
            found += group
    at_codes = {place.at for place in found}
    for group in dated:
        leads = found or any(_leads_on(rows, place.at, at_codes) for place in group)
        if leads and all(place.below for place in group):
            found += group
    for place in found:
        rows[place.at].stored = True


def _places(rows: Sequence[Row], marks: Set[int]) -> Iterator[tuple[_Place, str]]:
    """The rows of a key with a number, a measure or a date, and their keys."""
    below = parted = paged = False
    for at, row in enumerate(rows):
        if row.line.number in marks:
            paged = True
            continue
        if row.blank:
            parted = True
            continue
        # A blank line parts blocks, unless it stands beside a page's head or foot.
        below = (below and (paged or not parted) and not row.head) or bool(row.finds.codes and not row.head)
        parted = paged = False
        kept = _kept(row) if not (row.finds.codes or row.roles) and has_digit(row.low) else None
        if kept is not None:
            yield _Place(at, kept[1], below), kept[0]


def _kept(row: Row) -> tuple[str, Kind] | None:
    """The key of a row and the kind of its value."""
    match = _KEY.fullmatch(row.low)
    if match is None or role_of(match[1]) not in _OPEN_ROLES or volts.find(row.low) or (
            _ADDRESSED.search(match[1]) is not None):
        return None
    key, value = row.text[: match.end(1)], match[2].strip()
    if _MEASURE.fullmatch(value):
        return key, "measure"
    if _NUMBER.fullmatch(value):
        # "Active: 2", "No. of faults: 0" count codes.
        return None if states.in_text(match[1]) or _OF_CODES.search(match[1]) else (key, "number")
    taken = dates.places(value)
    rest = "".join(sign for place, sign in enumerate(value) if place not in taken)
    return (key, "date") if taken and not has_digit(rest) else None


def _leads_on(rows: Sequence[Row], at: int, stored: Set[int]) -> bool:
    """Whether the next code stands below a date with no heading between: it is of the module above, and so is the
    date of the code there."""
    for place in range(at + 1, len(rows)):
        row = rows[place]
        if row.finds.codes:
            return row.finds.codes[0].start == 0 or role_of(row.low.partition(":")[0].partition("=")[0]) == "code"
        if row.blank or place not in stored:
            return False
    return False


__all__ = ["adopt"]
