"""How often and at what distance a code was set, said last in its line: taken off, so that the module and the status
before it stand at the line's end.

>>> from triage.intake.lines.rows import rows_of
>>> found = taken_off(rows_of("P2053 circuit fault - Heater control x10\\nC1095-17 from ABS, confirmed @ 78 444 km"))
>>> [(row.text, row.behind) for row in found]
[('P2053 circuit fault - Heater control', 'x10'), ('C1095-17 from ABS, confirmed', '@ 78 444 km')]
>>> told("(count: 12) at 83190km")
(12, {'distance_km': 83190.0})
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.codes.pieces import stored_values
from triage.intake.lines.row import Row
from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily

_COUNT = (
    r"(?:x\s?([0-9]{1,3})|([0-9]{1,3}) ?(?:x|times|mal|fois|veces)|"
    r"(?:count(?:er)?|occ(?:urr?ences?)?|occurrence count|freq(?:uency)?|hits|anzahl|haufigkeit|zahler|compteur|"
    r"frequence|contador|frecuencia|oc)(?: ?[:=])? ?([0-9]{1,3}))"
)
_DISTANCE = (
    r"(?:(?:@|at|bei|a|en|from|seit|depuis|desde|odo(?:meter)?|mileage|km[ -]?stand|kilometerstand|kilometrage|"
    r"kilometraje|distance)\s?[:=]?\s?)?[0-9]{1,3}(?:[ .,']?[0-9]{3}|[0-9]{0,4})\s{0,2}(?:km|mi|miles|mls)"
)
_DATE = (
    r"(?:(?:@|on|am|le|el|vom|du|del)\s?)?(?:[0-9]{1,2}[./-][0-9]{1,2}[./-](?:19|20)?[0-9]{2}|20[0-9]{2}[./-][0-9]{2}[./-][0-9]{2})"
    r"(?:,?\s[0-9]{1,2}:[0-9]{2}(?::[0-9]{2})?)?"
)
_BEHIND = lazily(
    rf"(?:[\s,;/]|\s-(?=\s)){{1,4}}[(\[]?(?:{_COUNT}|{_DISTANCE}|{_DATE})[)\]]?[\s.]?$"
)
_COUNTED = lazily(rf"(?<![a-z0-9]){_COUNT}(?![a-z0-9])")
_LAST_SIGNS = frozenset("0123456789)]xsl.mi")
_REACH = 40
_MOST = 3


def taken_off(rows: Sequence[Row]) -> list[Row]:
    """The rows, those with codes without counts and distances at their end, which are kept in ``behind``."""
    return [_one(row) if row.finds.codes and row.low[-1:] in _LAST_SIGNS else row for row in rows]


def _one(row: Row) -> Row:
    """One row; a column of counts among others stays a column."""
    least, stop = row.finds.codes[-1].end, len(row.text)
    if not has_digit(row.text[max(least, stop - _REACH) :]) or "|" in row.text or row.text.count(";") > 1:
        return row
    if row.text.count(",") > max(1, row.text.count(", ")):
        return row
    for _ in range(_MOST):
        match = _BEHIND.search(row.low, max(least, stop - _REACH), stop)
        if match is None:
            break
        gap = match[0][: len(match[0]) - len(match[0].lstrip())]
        if "\t" in gap or ("  " in gap and "  " in row.text[: match.start()].strip()):
            # A column of its own.
            break
        stop = match.start()
    if stop == len(row.text):
        return row
    behind = row.text[stop:].strip(" ,;-/")
    return Row(row.line, row.text[:stop].rstrip(" ,;-/"), row.start, behind=behind, later=row.later)


def told(behind: str) -> tuple[int | None, dict[str, float]]:
    """The count and the values that were taken off a line."""
    low = behind.lower()
    match = _COUNTED.search(low)
    count = int(next(number for number in match.groups() if number)) if match is not None else None
    return count, stored_values(low)
