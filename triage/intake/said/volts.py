"""Voltages in any phrasing, and what each is of: the supply as read, its lowest, the vehicle's nominal, or another
thing altogether.

>>> text = "battery 11,4 V, dipped to 9.2 V while cranking; 5 V reference 4.98 V"
>>> [(volt.value, volt.of) for volt in find(text.lower())]
[(11.4, 'supply'), (9.2, 'lowest'), (5.0, 'other'), (4.98, 'other')]
>>> [(volt.value, volt.of) for volt in find("Kl. 30: 12,1 / 24 V vehicle, batt 10.7".lower())]
[(12.1, 'supply'), (24.0, 'nominal'), (10.7, 'supply')]
>>> [(volt.value, volt.of) for volt in find("12 v supply: 11.9/9.4 min.")]
[(12.0, 'nominal'), (11.9, 'supply'), (9.4, 'lowest')]
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import NamedTuple

from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered
from triage.intake.said import dates, nominal, phases, voltaround, voltbatteries, voltranges, voltremarks, voltthings
from triage.intake.said.onevolt import Volt
from triage.intake.said.voltaround import extreme, filled, nearest, text_after, text_before
from triage.intake.said.voltslips import dictated, mended
from triage.intake.words.volt_words import (
    AT_STATE,
    AT_SUPPLY,
    DEMANDED,
    DEVICE_AFTER,
    END_FOLLOWS,
    FILLED,
    LABEL,
    LOWEST,
    LOWEST_AFTER,
    LOWEST_FILLED,
    NEVER_BELOW,
    NOMINAL_AFTER,
    NOMINAL_BEFORE,
    NOMINAL_STATE,
    NOMINAL_THEN,
    OTHER,
    OTHER_AFTER,
    OTHER_PLACE,
    OTHER_PLACE_AFTER,
    OTHER_UNIT,
    PRIOR,
    SET_TO,
    SIDE_AFTER,
    SIGNS,
    START_AFTER,
    START_BEFORE,
    VEHICLE,
    VEHICLE_THEN,
)


class _Number(NamedTuple):
    """A number that may be a voltage; ``unit`` whether it says so."""

    start: int
    end: int
    value: float
    unit: bool
    round: bool


_UNIT = r"v(?:olts?|dc| dc)?(?![a-z0-9])"
_NUMBER = lazily(
    rf"(?:(?<![a-z0-9.])|(?<=[tyaesgu]))(?:(?<![0-9],)|(?<=[a-z.] 30,)|(?<=[a-z.] 15,)|(?<=[a-z]30,)|(?<=[a-z]15,))"
    rf"(?:([0-9]{{1,2}})v([0-9]{{1,2}})(?![0-9a-z.,]|\s?(?:ah?|cca)(?![a-z]))"
    rf"|([0-9]{{4,5}})\s?(?:mv|millivolts?)(?![a-z0-9])"
    rf"|([0-9]{{1,4}}(?:[.,][0-9]{{1,3}})?)(?![0-9]|[.,:][0-9])(?:(\s{{0,2}}|-(?=v)){_UNIT})?)"
)
#: Behind a code its failure type: "P1462/11 in the battery sensor".
_BEHIND_CODE = lazily(r"(?<![a-z0-9])[pcbu][0-9][0-9a-f]{3}(?:[/:-]|\s?[(\[])$")
_LETTER = lazily(r"[a-z]")
#: A time of day with a point at the head of a line, before words: common practice outside English shops.
_CLOCK = lazily(r"[\s>*#(-]*((?:[01]?[0-9]|2[0-3])\.[0-5][0-9])(?![0-9.,/])\W{0,4}(?:uhr|h(?![a-z])|[a-z]{2})")
_MINUTES = lazily(r" ?min(?![a-z])")  # behind a whole number of something else: "ran 10 min"
#: Of the supply at the scan, where another voltage stands before it: "was 12 V, scanned at 11.4".
_AT_SCAN = lazily(
    r"(?<![a-z])(?:(?:scanned|read|reading|measured)(?: it| is| was)?(?: at)?|(?:aus)?gelesen bei|lue? a|leid[oa] a|"
    r"(?:now|jetzt|maintenant|ahora)(?: (?:is|it'?s|at|reads?|reading|shows?|showing|bei|auf|wieder|nur|noch|a|en|"
    r"esta en))?) $"
)
#: The same where it stands alone: it says that the modules were read at it.
_READ_AT = lazily(
    r"(?<![a-z])(?:(?:re-?)?(?:scan|scanned)(?: it| them| all)? at|re-?read(?: it| them)? at|"
    r"read(?: it| them)? again at|"
    r"(?:neu|nochmal|wieder|erneut) (?:aus)?gelesen (?:bei|mit)|relue?s? (?:a|avec|sous)|"
    r"(?:rele(?:i|ido)|le(?:i|ido) (?:otra vez|de nuevo)|a leer) (?:a|con)) $"
)
#: The same behind a charger that was put on: "put my booster on and got 12.6".
_GOT = lazily(
    r"(?<![a-z])(?:on|up|connected|dran|drauf|an|angeklemmt|branche|conectado)(?: it)?,? ?(?:and|so|which|und|et|y)? ?"
    r"(?:(?:i|we|it|that|es|das|ich) |j')?(?:got|gave(?: me)?|have|had|saw|read|showed|came up to|went (?:up )?to|"
    r"brought it (?:up )?to|hatten?|gab|zeigte|kam auf|avai[st]|donnait|tenia|daba) $"
)
_NOW_BEHIND = lazily(r" (?:v )?(?:now|jetzt|nun|maintenant|ahora)(?=\s*(?:[,.;)]|$)|"
                     r" (?:with|without|on|off|mit|ohne|am|avec|sans|con|sin) )")
#: No gap parts a number from the word for the battery: "batt11.4".
_GLUED = lazily(r"(?<![a-z])(?:batt?(?:ery|erie|eria)?|voltage|volts|supply|ubat|spannung|spanning|accu)$")


@remembered
def is_label(low: str) -> bool:
    """Whether the whole of ``low`` says that a supply voltage follows."""
    return LABEL.fullmatch(mended(low).strip(" .:=[]()")) is not None


def find(low: str) -> tuple[Volt, ...]:
    """The voltages of one line of text in small letters, from left to right. Linear in its length."""
    return _cached(low) if len(low) <= 240 else _long(low)


def _find(low: str) -> tuple[Volt, ...]:
    if SIGNS.search(low) is None and not dictated(low):
        return ()
    low = mended(low)
    numbers = _without_times(low, _numbers(low))
    if not any(number.unit or not number.round for number in numbers) and not _any_labelled(low, numbers):
        # The commonest lines: whole numbers of anything.
        return ()
    if any(not number.unit for number in numbers) and (
        len(low) > 4000 or (LABEL.search(low) is None and LOWEST.search(low) is None)
    ):
        # Only the word beside it, or the unit of its pair, makes a number without a unit a voltage.
        numbers = _with_units(low, numbers)
    found: list[Volt] = []
    last = at = 0
    while at < len(numbers):
        pair = _pair(low, numbers, at, last)
        found += pair
        at += len(pair)
        if not pair:
            stop = numbers[at + 1].start if at + 1 < len(numbers) else len(low)
            begun = START_AFTER.match(low, last, numbers[at].start) if found else None
            # "12.3 at start 11.8 lowest": said of the one before.
            volt = _judged(low, numbers[at], begun.end() if begun is not None else last, stop, found)
            if volt is not None:
                if volt.of in ("named", "bare") and at and _behind_nominal(low, numbers[at - 1], numbers[at]):
                    volt = volt._replace(of="supply", labelled=True)
                found.append(volt)
            elif not numbers[at].unit:
                # A number of something else: what stands before it belongs to it.
                minutes = _MINUTES.match(low, numbers[at].end) if numbers[at].round else None
                last = max(last, minutes.end() if minutes else numbers[at].end)
            at += 1
        last = found[-1].end if found and found[-1].end > last else last
    return tuple(nominal.told_apart(low, found))


_long = lru_cache(maxsize=16)(_find)
_cached = lru_cache(maxsize=8192)(_find)


def _numbers(low: str) -> list[_Number]:
    """The numbers that may be voltages."""
    found = []
    for match in _matches(low):
        if low[match.start() - 1 : match.start()].isalpha() and not (
            _is_glued(low, match.start()) and ("." in match[0] or "," in match[0] or match[5])
        ):
            continue
        if match[3] is not None:
            found.append(_Number(match.start(), match.end(), int(match[3]) / 1000, True, False))
            continue
        if match[1] is not None:
            found.append(_Number(match.start(), match.end(), float(f"{match[1]}.{match[2]}"), True, False))
            continue
        text, unit = match[4], match[5] is not None
        if not unit and (
            not (_may_stand_alone(text) or voltremarks.is_cranked(low, match.start(), match.end()))
            or (OTHER_UNIT.match(low, match.end()) and not AT_STATE.match(low, match.end())
                and not voltranges.goes_on(low, match.end()))
            or (text.isdigit() and (voltthings.is_place(low, match.start(), text)
                                    or _BEHIND_CODE.search(low, max(0, match.start() - 8), match.start())))
        ):
            continue
        value = float(text.replace(",", "."))
        found.append(_Number(match.start(), match.end(), value, unit, text.isdigit()))
    return found


def _without_times(low: str, numbers: list[_Number]) -> list[_Number]:
    """The numbers but those without a unit that are a time of day: behind a date ("03.05.2024 13.37 (11.1 V)"), or at
    the head of a line ("8.15 before: batt 11.8")."""
    if all(number.unit for number in numbers):
        return numbers
    dated = dates.places(low)
    clock = _CLOCK.match(low)
    at = clock.start(1) if clock is not None else -1
    return [number for number in numbers if number.unit or (number.start not in dated and number.start != at)]


def _matches(low: str) -> Iterator[re.Match[str]]:
    """The matches of the pattern for numbers, each tried where a digit stands."""
    digit = SIGNS.search(low)
    while digit is not None:
        match = _NUMBER.match(low, digit.start())
        if match is not None:
            yield match
        digit = SIGNS.search(low, match.end() if match is not None else digit.end())


def _any_labelled(low: str, numbers: Sequence[_Number]) -> bool:
    """Whether words for a supply stand beside one of the numbers without a unit."""
    ends = [0, *(number.end for number in numbers)]
    return any(_labelled(low, number, last) or voltremarks.is_cranked(low, number.start, number.end)
               for number, last in zip(numbers, ends, strict=False))


def _is_glued(low: str, start: int) -> bool:
    """Whether the word for the battery stands right before a number, with no gap."""
    return start > 2 and _GLUED.search(low[max(0, start - 12) : start]) is not None


def _with_units(low: str, numbers: list[_Number]) -> list[_Number]:
    """The numbers with a unit, and those right beside one ("11.9/9.4 V", "12V 10.9")."""
    kept = []
    remarked = voltremarks.starts(low)
    ranged = voltranges.unsteady(low)
    for at, number in enumerate(numbers):
        before, after = numbers[max(0, at - 1)], numbers[min(at + 1, len(numbers) - 1)]
        if (
            number.unit
            or (before.unit and number.start - before.end <= 5)
            or (after.unit and after.start - number.end <= 5)
            or AT_STATE.match(low, number.end) is not None
            or _behind_nominal(low, before, number)
            or _heads_a_scan(low, number)
            or _is_glued(low, number.start)
            or (at and _is_of_the_scan(low, number))
            or (not number.round and 8.0 <= number.value <= 32.0
                and _READ_AT.search(low[max(0, number.start - 32) : number.start]) is not None)
            or number.start in remarked
            or (ranged and voltranges.is_end(low, number, before, after))
        ):
            kept.append(number)
    return kept


def _heads_a_scan(low: str, number: _Number) -> bool:
    """Whether a number with a decimal is all that a scan's heading says beside its phase or place: "after clear: 25.8",
    "2nd: 12.9"."""
    if number.round or not 8.0 <= number.value <= 32.0 or len(low) > 60:
        return False
    if low[number.end :].strip(" .)]:"):
        return phases.is_alone(low)
    # "All erased. Second read 12.9:" is headed by the last of its sentences.
    head = low[: number.start].strip(" :=-([,#*").rpartition(". ")[2]
    phase = phases.find(head)
    whole = phase is not None and not head[: phase.start].strip() and not head[phase.end :].strip(" :")
    return whole or phases.is_place(head)


def _is_of_the_scan(low: str, number: _Number) -> bool:
    """Whether a number with a decimal stands behind "scanned at" or the like."""
    plausible = not number.round and 8.0 <= number.value <= 32.0
    return plausible and (_AT_SCAN.search(low[max(0, number.start - 24) : number.start]) is not None
                          or _GOT.search(low[max(0, number.start - 40) : number.start]) is not None
                          or _NOW_BEHIND.match(low, number.end) is not None)


def _may_be_nominal(number: _Number) -> bool:
    """Whether a number may be the nominal voltage of a vehicle or a battery."""
    return number.unit and number.round and number.value in (6, 12, 24, 48)


def _behind_nominal(low: str, before: _Number, number: _Number) -> bool:
    """Whether the number before only tells which supply this one is of: "12v aux 13.9V", "24v batts 25.3"."""
    if not _may_be_nominal(before) or number.start - before.end > 48:
        return False
    match = NOMINAL_THEN.match(low, before.end)
    return match is not None and match.end() > number.start >= before.end


def _may_stand_alone(text: str) -> bool:
    """Whether a number without a unit may be a supply voltage: 11.4, or 11."""
    head, _, decimals = text.replace(",", ".").partition(".")
    return len(head) <= 2 and (bool(decimals) or (len(head) == 2 and head[0] in "123"))


def _pair(low: str, numbers: list[_Number], at: int, last: int) -> list[Volt]:
    """Two numbers that belong together, the one the supply, the other its lowest; nothing where there are none."""
    if at + 1 >= len(numbers) or numbers[at + 1].start - numbers[at].end > voltranges.WIDEST:
        return []
    one = numbers[at]
    sure = one.unit or numbers[at + 1].unit or _labelled(low, one, last) or one.start in voltremarks.starts(low)
    return voltranges.pair(low, one, numbers[at + 1], last, sure=sure)


def _labelled(low: str, number: _Number, last: int) -> bool:
    """Whether a number without a unit stands right behind words for a supply, or right before them."""
    before = low[max(last, number.start - 60) : number.start]
    return filled(before, LABEL, FILLED) or AT_SUPPLY.match(low, number.end) is not None


def _judged(low: str, number: _Number, last: int, stop: int, found: Sequence[Volt]) -> Volt | None:
    """What one number is of, by the words around it in its own clause; None for a number that is no voltage.

    ``last`` is where the number before it ended, ``stop`` where the next begins, ``found`` what was read before it in
    the line.
    """
    start, end, value = number.start, number.end, number.value
    before, own = text_before(low, start, last)
    own = nearest(own)
    after = text_after(low, end, stop)
    if not number.unit and not _stands(low, number, last, bool(found), after):
        return None
    if voltaround.is_specified(low, start) or (number.round and number.unit and voltthings.is_nobodys(low, start, end)):
        return Volt(start, end, value, "other", False)
    if _may_be_nominal(number) and (voltaround.is_beside_vehicle(low, start) or voltthings.in_series(low, start, end)):
        return Volt(start, end, value, "nominal", True)
    if not _LETTER.search(before) and not _LETTER.search(low[end : end + 28]) and "<" not in own and ">" not in own:
        # A column of readings: no word says anything.
        return Volt(start, end, value, "bare", False)
    label = LABEL.search(before) is not None or LABEL.search(after) is not None
    if _may_be_nominal(number):
        if low[end : end + 2].lstrip()[:1] == "?":  # "24 V? no, 12 V"
            return Volt(start, end, value, "other", False)
        first = max(0, start - 80)
        sentence = low[max(low.rfind(". ", first, start), low.rfind(";", first, start), first) : start]
        if (
            DEVICE_AFTER.match(low, end)
            or NOMINAL_THEN.match(low, end)
            or NOMINAL_STATE.match(low, end)
            or voltbatteries.is_rated(low, start, end)
            or (not label and VEHICLE.search(sentence) is not None)
            or VEHICLE_THEN.match(low, end)
            or nominal.is_told(low, start, end, own)
        ):
            return Volt(start, end, value, "nominal", True)
    if number.round and SIDE_AFTER.match(low, end):
        return Volt(start, end, value, "nominal", True)
    if NOMINAL_AFTER.match(low, end) or NOMINAL_BEFORE.search(before):
        # "System voltage 12.0 V" was measured: nobody gives a nominal voltage with a decimal.
        return Volt(start, end, value, "nominal" if value in (6, 12, 24, 48) and number.round else "supply", True)
    if voltaround.is_of_a_charger(low, number, own) or OTHER_PLACE.search(own) or OTHER_PLACE_AFTER.match(low, end):
        return Volt(start, end, value, "other", False)
    if NEVER_BELOW.search(own) and not DEMANDED.search(own):
        return Volt(start, end, value, "lowest", True)
    if OTHER.search(own) or OTHER_AFTER.match(low, end) or SET_TO.search(own) or voltthings.ends_bounds(own):
        return Volt(start, end, value, "other", label)
    begun = START_AFTER.match(low, end) or START_BEFORE.search(own)
    # "Scan 1 (11.2 V at start)" speaks of the start of the scan, "9.8 V at start" alone of starting the engine.
    begun = begun and (END_FOLLOWS.match(low, end) or phases.scan_head(low))
    dipped = bool(found) and found[-1].of == "lowest" and found[-1].value < value
    of = "supply" if begun else extreme(before, own, after, dipped)
    if of is None and found and not dipped and PRIOR.fullmatch(own):  # "With the booster 12.8, before 9.4"
        of = "lowest"
    if of is not None:
        return Volt(start, end, value, of, True)
    if label or not number.unit or (dipped and _PRESENT.fullmatch(own)):
        return Volt(start, end, value, "supply", True)
    if voltaround.is_made(low, start, own):
        return Volt(start, end, value, "made", True)
    return Volt(start, end, value, "bare" if voltaround.names_nothing(own, after) else "named", False)


#: Behind the lowest one: "min 9.0 V, present 11.4 V".
_PRESENT = lazily(
    r"\W*(?:(?:is|at) )?(?:at )?(?:present(?:ly)?|current(?:ly)?|actual(?:ly|mente)?|aktuell|momentan|derzeit|zurzeit|"
    r"jetzt|actuel(?:le|lement)?|maintenant|a present|ahora|presente)(?: (?:value|reading|wert|valeur|valor))?\W*")
_SECTION = 6.0  # nobody's supply is read so low by a number alone


def _stands(low: str, number: _Number, last: int, seen: bool, after: str) -> bool:
    """Whether a number without a unit is a supply voltage: the words right beside it say so."""
    if _labelled(low, number, last) or (number.round and voltremarks.is_cranked(low, number.start, number.end)):
        return True
    own = text_before(low, number.start, last)[1]
    if not low[: number.start].strip(" -*#(") and number.value < _SECTION and low[number.end : number.end + 1] == " ":
        # "3.2 Power door": so a part of a report is numbered.
        return False
    if number.round or not 3.0 <= number.value <= 36.0 or voltaround.is_of_a_distance(low, number.start):
        return False
    if AT_STATE.match(low, number.end) is not None or _heads_a_scan(low, number):
        return True
    if number.start in voltremarks.starts(low) or (seen and _is_of_the_scan(low, number)):
        return True
    if seen and number.value >= _SECTION and LOWEST_AFTER.match(after.lstrip(" (,")):
        return True  # "12.3 at start, 11.8 lowest"
    if filled(own, LOWEST, LOWEST_FILLED):
        # "dropped to 9.6": of the supply that stands before it, or where nothing else is spoken of.
        return (
            seen
            or LABEL.search(low[max(0, number.start - 160) : number.start]) is not None
            or LOWEST.match(own.lstrip(" (")) is not None
        )
    # "Pickup 5.0 4x4, battery 12.5": the size of an engine, that of few others is larger.
    return number.value >= _SECTION and NOMINAL_THEN.search(low[max(0, number.start - 40) : number.end]) is not None


__all__ = ["Volt", "find", "is_label"]
