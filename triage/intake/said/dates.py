"""Dates and times in the usual forms of four languages; whether the day or the month comes first is decided by the
whole text, and asked for where nothing in it tells.

>>> [str(find(text)[0].value) for text in ("2025-03-03T08:00:00+00:00", "3. März 2025 um 8:05", "Mar 3, 2025 4:30 pm")]
['2025-03-03 08:00:00+00:00', '2025-03-03 08:05:00', '2025-03-03 16:30:00']
>>> order(["03/04/2025", "17/04/2025"]), order(["03/04/2025"]), order(["04/17/2025"])
('day', None, 'month')
>>> str(find("03/04/2025 09:15", "day")[0].value)
'2025-04-03 09:15:00'
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import UTC, datetime, time, timedelta, timezone
from typing import Literal, NamedTuple

from triage.intake.plain.characters import low as small
from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered

Order = Literal["day", "month"]

_MONTHS = {
    name: number
    for number, names in enumerate(
        (
            "january jan januar janvier janv enero ene janner",
            "february feb februar fevrier fevr fev febrero",
            "march mar marz maerz mrz mars marzo",
            "april apr avril avr abril abr",
            "may mai mayo",
            "june jun juni juin junio",
            "july jul juli juillet juil julio",
            "august aug aout agosto ago",
            "september sep sept septembre septiembre",
            "october oct oktober okt octobre octubre",
            "november nov novembre noviembre",
            "december dec dezember dez decembre diciembre dic",
        ),
        1,
    )
    for name in names.split()
}
#: A pattern for a month by its name or what it is shortened to.
MONTH = "(" + "|".join(sorted(_MONTHS, key=len, reverse=True)) + r")\.?"
_TIME = (
    r"(?:[ ,]{0,2}(?:t|at|um|a|a las|de|-|,|@)?[ ]{0,2}([0-2]?[0-9])(?:[:.]|"
    r"[ ]?h[ ]?)([0-5][0-9])(?:[:.]([0-5][0-9])(?:\.[0-9]{1,6})?)?"
    r"(?:[ ]?(am|pm|a\.m\.|p\.m\.|uhr|h))?[ ]?(z|utc|gmt|[+-][0-2][0-9]:?[0-5][0-9])?(?![0-9a-z]|:[0-9]))?"
)
_FORMS: tuple[tuple[str, re.Pattern[str]], ...] = (
    (
        "iso",
        lazily(
            r"(?<![0-9a-z.])(?<![0-9a-z./]-)((?:19|20)[0-9]{2})([-/.])(1[0-2]|0?[1-9])\2(3[01]|[12][0-9]|"
            r"0?[1-9])(?![0-9])" + _TIME
        ),
    ),
    (
        "compact",
        lazily(
            r"(?<![0-9a-z.,-])(20[0-9]{2})()(0[1-9]|1[0-2])(0[1-9]|[12][0-9]|3[01])(?:t|[ _]|(?![0-9a-z]))" + _TIME
        ),
    ),
    (
        "numbers",
        lazily(
            r"(?<![0-9a-z./])(?<![0-9],)(?<![0-9a-z./]-)([0-3]?[0-9])([./-])([0-3]?[0-9])\2((?:19|20)?[0-9]{2})"
            r"(?![0-9/-])" + _TIME
        ),
    ),
    (
        "day month",
        lazily(
            rf"(?<![0-9a-z.])([0-3]?[0-9])(?:st|nd|rd|th|\.|er)?[ -]{{0,2}}(?:of |de )?{MONTH}"
            rf"[ ,-]{{0,2}}(?:de |del )?((?:19|20)[0-9]{{2}})(?![0-9])" + _TIME
        ),
    ),
    (
        "month day",
        lazily(
            rf"(?<![0-9a-z]){MONTH}[ ]([0-3]?[0-9])(?:st|nd|rd|th)?,?[ ]((?:19|20)[0-9]{{2}})(?![0-9])" + _TIME
        ),
    ),
)
_NUMBERS = lazily(
    r"(?<![0-9a-z./])(?<![0-9],)(?<![0-9a-z./]-)([0-3]?[0-9])([./-])([0-3]?[0-9])\2(?:19|20)?[0-9]{2}(?![0-9/-])"
)
_CLOCK = lazily(
    r"(?<![0-9a-z.,:/-])([01]?[0-9]|2[0-3])(?::|[ ]?h[ ]?)([0-5][0-9])(?::([0-5][0-9]))?(?:[ ]?(am|"
    r"pm|uhr|h))?"
    r"(?![0-9a-z:])"
)
#: What every date has: a year by itself or behind a month's name, or numbers with marks between them.
_SIGNS = lazily(r"(?:(?<![0-9a-z])|(?<=[a-z]{3})|(?<=[a-z]\.))(?:19|20)[0-9]{2}|[0-9][./-][0-3]?[0-9][./-]")
_MARKED = lazily(r"[0-9][./-][0-9]{1,2}[./-]")


_DAY_MONTH = dict(_FORMS)["day month"]


class Stamp(NamedTuple):
    """A date (with its time, if one stood there) at ``start``..``end``. ``value`` is None where day and month can't be
    told apart."""

    start: int
    end: int
    value: datetime | None
    timed: bool


def order(lows: Iterable[str]) -> Order | None:
    """Whether dates in numbers put the day or the month first, by all of them together; None where nothing tells."""
    return _order(lows)[0]


def is_guess(lows: Iterable[str]) -> bool:
    """Whether that order rests on nothing but days that lie near each other.

    >>> is_guess(["03/04/26", "04/04/26", "05/04/26"]), is_guess(["03/04/26", "17/04/26"]), is_guess(["03.04.26"])
    (True, False, False)
    """
    return _order(lows)[1]


def _order(lows: Iterable[str]) -> tuple[Order | None, bool]:
    """What dates in numbers put first, and whether that is a guess."""
    day = month = dotted = slashed = False
    months = set()
    marked = "\n".join([low for low in lows if _MARKED.search(low)])
    for match in _NUMBERS.finditer(marked) if marked else ():
        first, second = int(match[1]), int(match[3])
        day |= first > 12 >= second
        month |= second > 12 >= first
        dotted |= match[2] == "."
        slashed |= match[2] != "." and first != second
        months.add((first, second))
    if day != month:
        return "day" if day else "month", False
    if day:
        return None, False
    if dotted or not slashed:
        return "day", False
    # Three days or more in one month, or one month in three: what stays the same is the month.
    firsts, seconds = {first for first, _ in months}, {second for _, second in months}
    if len(months) >= 3 and (len(firsts) == 1) != (len(seconds) == 1):
        return "month" if len(firsts) == 1 else "day", True
    return None, False


@remembered
def may_stand_in(low: str) -> bool:
    """Whether a date may stand in a line in small letters; surely none where not."""
    return _SIGNS.search(low) is not None


def find(text: str, first: Order | None = None) -> list[Stamp]:
    """The dates of one line. ``first`` is what :func:`order` found for the whole text."""
    low = small(text)
    if not may_stand_in(low):
        return []
    found: list[Stamp] = []
    taken = bytearray(len(low))
    for form, pattern in _FORMS:
        for match in pattern.finditer(low):
            if 1 in taken[match.start() : match.end()]:
                continue
            stamp = _stamp(form, match, first)
            if stamp is not None:
                found.append(stamp)
                taken[stamp.start : stamp.end] = b"\1" * (stamp.end - stamp.start)
    return sorted(found, key=lambda stamp: stamp.start)


#: Between a date and the one that takes its place: "10/02? wait, its the 13.02.".
_RETRACTED = lazily(
    r"[ ,.;?!:()-]{0,4}(?:(?:no(?:pe)?|wait|sorry|sry|actually|i mean|rather|correction|make that|oops|wrong|nein|nee|"
    r"quatsch|"
    r"falsch|moment|ach|doch|vielmehr|besser gesagt|non|pardon|plutot|enfin|je veux dire|perdon|digo|mejor dicho|"
    r"espera|"
    r"it'?s|its|it is|the|es ist|der|am|c'est|le|es|el)(?![a-z])[ ,.;?!:-]{0,3}){1,6}")
_TURNS_BACK = lazily(
    r"(?<![a-z])(?:no(?:pe)?|wait|sorry|sry|actually|i mean|rather|correction|make that|oops|wrong|nein|nee|quatsch|"
    r"falsch|"
    r"moment|ach|doch|vielmehr|besser gesagt|non|pardon|plutot|enfin|je veux dire|perdon|digo|mejor dicho|"
    r"espera)(?![a-z])")


def standing(text: str, stamps: list[Stamp]) -> list[Stamp]:
    """The dates of a line without those that it takes back at once.

    >>> [[stamp.start for stamp in standing(line, find(line))] for line in (
    ...     "10.02.2026? wait its the 13.02.2026", "10.02.2026, no codes, 13.02.2026")]
    [[25], [0, 22]]
    """
    if len(stamps) < 2:
        return stamps
    low = small(text)
    return [stamp for stamp, after in zip(stamps, [*stamps[1:], None], strict=True) if after is None or not (
        _RETRACTED.fullmatch(low, stamp.end, after.start) and _TURNS_BACK.search(low, stamp.end, after.start))]


def places(low: str) -> frozenset[int]:
    """The places of a line in small letters that a date and its time take up.

    >>> sorted(places("on 3.5.24"))
    [3, 4, 5, 6, 7, 8]
    """
    return frozenset(place for stamp in find(low) for place in range(stamp.start, stamp.end))


def begins(low: str) -> bool:
    """Whether a line in small letters begins with the day of a date: "26. Oktober 2025"."""
    return _DAY_MONTH.match(low) is not None


def _stamp(form: str, match: re.Match[str], first: Order | None) -> Stamp | None:
    """One match as a date, or None where there is no such day."""
    if form in ("iso", "compact"):
        year, month, day, clock = int(match[1]), int(match[3]), int(match[4]), 5
    elif form == "numbers":
        one, two, year, clock = int(match[1]), int(match[3]), int(match[4]), 5
        if first is None and one != two and one <= 12 and two <= 12 and match[2] != ".":
            return Stamp(match.start(), match.end(), None, match[clock] is not None)
        first_is_month = (two > 12) if one > 12 or two > 12 else first == "month" and match[2] != "."
        day, month = (two, one) if first_is_month else (one, two)
    elif form == "day month":
        day, month, year, clock = int(match[1]), _MONTHS[match[2]], int(match[3]), 4
    else:
        day, month, year, clock = int(match[2]), _MONTHS[match[1]], int(match[3]), 4
    if year < 100:
        year += 2000
    at, zone = _time([match[clock + step] for step in range(5)])
    try:
        value = datetime.combine(datetime(year, month, day), at or time(), tzinfo=zone)
    except ValueError:
        return None
    return Stamp(match.start(), match.end(), value, at is not None)


def _time(parts: list[str | None]) -> tuple[time | None, timezone | None]:
    """Hour, minute, second, half of the day and zone as a time and its zone."""
    if parts[0] is None:
        return None, None
    hour = int(parts[0])
    half = (parts[3] or "")[:1]
    if half == "p" and hour < 12:
        hour += 12
    elif half == "a" and hour == 12:
        hour = 0
    if hour > 23:
        return None, None
    zone = parts[4]
    offset = None
    if zone is not None:
        offset = UTC
        if zone[0] in "+-":
            minutes = int(zone[1:3]) * 60 + int(zone[-2:])
            if minutes < 24 * 60:
                offset = timezone(timedelta(minutes=minutes if zone[0] == "+" else -minutes))
    return time(hour, int(parts[1] or 0), int(parts[2] or 0)), offset


def clock(low: str) -> tuple[time, int, int] | None:
    """The first time of day that stands without a date: the time and its place."""
    match = _CLOCK.search(low)
    if match is None:
        return None
    at, _ = _time([match[1], match[2], match[3], match[4], None])
    return None if at is None else (at, match.start(), match.end())
