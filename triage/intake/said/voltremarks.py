"""Numbers without a unit that are the supply, in remarks about a scan as a whole: no word beside them is of anything
else.

>>> [starts(low) for low in ("running 14.2", "booster still on, 12.9", "at 12.6", "all cleared. key off. 12.5")]
[(8,), (18,), (3,), (22,)]
>>> [starts(low) for low in ("tread 5.5", "tyres 2.4, 2.6", "started 14.20, done 14.45", "13.50 for the fuse")]
[(), (), (), ()]
"""

from __future__ import annotations

import re
from itertools import pairwise
from typing import NamedTuple

from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import words
from triage.intake.plain.remember import remembered
from triage.intake.plain.slips import nearest
from triage.intake.said import conditions, phases
from triage.intake.words import remark_words

#: A number with a decimal or two.
_NUMBER = lazily(r"(?<![0-9a-z.,/])(?<![0-9]:)[0-9]{1,2}[.,][0-9]{1,2}(?![0-9]|[.,:/][0-9])(?=ish|[^a-z]|"
                 r"$)(?! ?v(?:olts?|dc)?(?![a-z]))")
_DECIMAL = lazily(r"[0-9][.,][0-9]")
#: The parts of a remark.
_PART = lazily(r"[;|()!:]\s?|,(?=\s|[a-z]|$)|\.(?=\s|$)|\s(?:-{0,2}>|[-+/&=])\s?")
#: A number counted, or the place of a scan: "5 mins", "3km", "2nd".
_COUNTED = lazily(r"[0-9]{1,4}(?:st|nd|rd|th|x|h|s|min|mins|mn|km|v|ish)?")
#: They say no more than that it was so all along.
_ALL_ALONG = lazily(r"(?:the |this |all the )?(?:whole|entire|all the|all this|ganze|tout le|todo el) (?:time|"
                    r"zeit|temps|"
                    r"tiempo|scan)|die ganze zeit|give or take|take or give")
#: A date or a page may stand so: "read on 12.9", "am 12.4.".
_DAY = lazily(r"(?:^|[,;.] )on[ ]$|"
              r"(?<![a-z])(?:dated?|am|vom|le|el|del|since|seit|depuis|desde|(?:read|scanned|done|seen) on)[ ]$")
_READ_ON = lazily(r"(?:^|(?<![a-z])(?:read|scan(?:ned)?|done|gelesen|lue?|leid[oa]))[ ]?$")
#: A time of day, and what stands right before one.
_HOUR = lazily(r"(?:[01]?[0-9]|2[0-3])[.,][0-5][0-9]")
_AT_TIME = lazily(
    r"(?<![a-z])(?<!running )(?<!idling )(?<!charging )(?<!held )(?<!sat )(?<!steady )(?:at|um|a|gegen|until|"
    r"till|bis|by|"
    r"from|since|vers|las)[ ]$"
)
#: Words of these letters are seldom another's with a slip.
_LONG = sorted(word for word in remark_words.STATES | remark_words.ON_OR_OFF if len(word) > 5)
#: A whole number that the supply fell to on cranking.
_FELL_TO = lazily(
    r"(?<![a-z])(?:down|dip(?:s|ped)?|drop(?:s|ped)?|fell|falls|sag(?:s|ged)?|fallt|faellt|fiel|runter|tombe|baja|cae) "
    r"(?:down )?(?:to|auf|a|hasta) $"
)
_CRANKED = lazily(r" (?:when |while |on |at |during |beim |au |al )*(?:crank|start|anlass|demarr|arran)")
_LONGEST, _MOST = 140, 3


class _Part(NamedTuple):
    """One part of a remark: its words but the numbers, whether all of them are known, and where it stands."""

    start: int
    end: int
    words: frozenset[str]
    known: bool

    @property
    def told(self) -> bool:
        """Whether it tells a state of the vehicle, and nothing that is unknown."""
        if not self.known:
            return False
        switched = bool(self.words & remark_words.ON_OR_OFF) and bool(self.words & remark_words.SWITCHED)
        return switched or bool(self.words & remark_words.STATES)


def starts(low: str) -> tuple[int, ...]:
    """Where numbers without a unit start that are the supply."""
    if len(low) > _LONGEST or _DECIMAL.search(low) is None:
        return ()
    return _starts(low)


@remembered
def _starts(low: str) -> tuple[int, ...]:
    numbers = list(_NUMBER.finditer(low))
    if not 0 < len(numbers) <= _MOST or not any(_may_be(number[0]) for number in numbers):
        return ()
    parts = _parts(low, numbers)
    return tuple(number.start() for number in numbers if _is_supply(low, number, parts))


def is_cranked(low: str, start: int, end: int) -> bool:
    """Whether a whole number is what the supply fell to as the engine was cranked: "down to 8 on crank"."""
    return _FELL_TO.search(low, max(0, start - 24), start) is not None and _CRANKED.match(low, end) is not None


@remembered
def whole(low: str) -> bool:
    """Whether a line holds such numbers, and no word that is of anything but the scan as a whole, nor when it
    was taken.

    >>> whole("booster still on, 12.9"), whole("abs ok, booster on, 12.9")
    (True, False)
    """
    if not starts(low) or phases.find(low) is not None:
        return False
    return all(part.known for part in _parts(low, list(_NUMBER.finditer(low))))


def _may_be(number: str) -> bool:
    """Whether a number may be a supply voltage."""
    return 3.0 <= float(number.replace(",", ".")) <= 31.0


def _parts(low: str, numbers: list[re.Match[str]]) -> list[_Part]:
    """The parts of a remark."""
    bare = low
    for match in (*numbers, *_ALL_ALONG.finditer(low)):
        bare = bare[: match.start()] + " " * (match.end() - match.start()) + bare[match.end() :]
    cuts = [0, *(match.end() for match in _PART.finditer(low)), len(low)]
    found = []
    for start, end in pairwise(cuts):
        told = [word for word, _, _ in words(bare[start:end])]
        known = all(word in remark_words.KNOWN or _COUNTED.fullmatch(word) or _is_slip(word) for word in told)
        found.append(_Part(start, end, frozenset(told), known))
    return found


@remembered
def _is_slip(word: str) -> bool:
    """Whether a word is one of the longer ones with a slip in it: "chrger", "scaning"."""
    return 5 <= len(word) <= 12 and word.isalpha() and nearest(word, _LONG) is not None


def _is_supply(low: str, number: re.Match[str], parts: list[_Part]) -> bool:
    """Whether a number is the supply, by the words of its part and of those beside it."""
    at = next(place for place, part in enumerate(parts) if part.start <= number.start() < part.end)
    part = parts[at]
    value = float(number[0].replace(",", "."))
    tenths = len(number[0].replace(",", ".").partition(".")[2]) == 1
    if _is_time_or_day(low, number, part):
        return False
    if not part.known or len(_DECIMAL.findall(low, part.start, part.end)) > 1:
        return False
    least = 3.0 if any(other.known and other.words & remark_words.LOW for other in parts) else 8.0
    if not (least <= value < 16.0 or 20.0 <= value < 31.0):
        return False
    if part.told:
        return True
    every = all(other.known for other in parts)
    if part.words - {"ish"}:
        # "At 12.6", "now 12.4": nothing else may stand in the line, and it is no time of day.
        if not every or not (remark_words.NO_STATE.isdisjoint(part.words) or _of_the_scan(low)):
            return False
        return tenths or any(other.told for other in parts)
    around = (*parts[:at][::-1], *parts[at + 1 :])
    beside = [other for other in around if any(not word.isdigit() for word in other.words)]
    if not beside:
        return "ish" in part.words
    if every or beside[0].known:
        return (every and tenths) or any(other.told for other in parts) or (tenths and _of_the_scan(low))
    return tenths and _of_the_scan(low)


def _is_time_or_day(low: str, number: re.Match[str], part: _Part) -> bool:
    """Whether a number may be a time of day, a date, or the number of a line of a list: "at 14.15", "read 12.9.", "12.1
    engine: running"."""
    if _DAY.search(low, 0, number.start()) is not None:
        return True
    if _HOUR.fullmatch(number[0]) is not None and _AT_TIME.search(low, 0, number.start()) is not None:
        return True
    if low[number.end() : number.end() + 1] == "." and _READ_ON.search(low, 0, number.start()) is not None:
        return True
    numbered = not low[: number.start()].strip(" -*#(") and low[part.start : part.end].rstrip().endswith(":")
    return numbered and not part.told


def _of_the_scan(low: str) -> bool:
    """Whether a line tells of a scan, or of what was done to come to it."""
    if phases.find(low) is not None or phases.events(low):
        return True
    said = conditions.find(low)
    return bool(said.engine or said.outside_supply or said.ran_minutes or said.drove)


__all__ = ["is_cranked", "starts", "whole"]
