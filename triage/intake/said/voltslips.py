"""Slips of the pen in what tells a supply voltage: in its long words two letters swapped, one doubled or one left out,
in its number a letter that looks like a digit; and a number in words, as it is dictated.

>>> mended("volatge 12.3v"), mended("batery: 12.3"), mended("batterry 12.3")
('voltage 12.3v', 'batt  : 12.3', 'battery  12.3')
>>> mended("battery 12.3"), mended("batt: l2.2 v"), mended("1o,9v on the gl5")
('battery 12.3', 'batt: 12.2 v', '10,9v on the gl5')
>>> mended("battery eleven point eight volts"), mended("elf komma acht volt")
('battery               11.8 volts', '          11.8 volt')
"""

from __future__ import annotations

import re

from triage.intake.plain.patterns import lazily
from triage.intake.plain.slips import one_off

_WORDS = (
    "voltage", "battery", "batterie", "batteries", "batteriespannung", "bordspannung", "spannung", "tension",
    "bateria", "voltaje", "alternator", "lichtmaschine", "alternateur", "alternador", "lowest", "minimum", "supply",
    "niedrigste",
)
#: Words of their own, however near.
_OTHERS = frozenset(("batter", "batterie", "batteries", "bateria", "battery"))
_LONG = lazily(r"[a-z]{5,18}")


_SLIPS = {slip: word for word in reversed(_WORDS) for slip in one_off(word) if slip not in _OTHERS}


#: Letters for digits in a number with its unit: "l2.2 v", "1o.9v".
_LETTERED = lazily(
    r"(?<![a-z0-9.,])(?=[lio.,]{0,3}[0-9])(?=[0-9.,]{0,4}[lio])[0-9lio]{1,2}[.,][0-9lio]{1,2}"
    r"(?=\s?v(?:olts?)?(?![a-z]))"
)
_DIGITS = str.maketrans("lio", "110")
_TENS = {
    word: str(value)
    for value, words in {
        6: "six sechs seis", 7: "seven sieben sept siete", 8: "eight acht huit ocho", 9: "nine neun neuf nueve",
        10: "ten zehn dix diez", 11: "eleven elf onze once", 12: "twelve zwolf zwoelf douze doce",
        13: "thirteen dreizehn treize trece", 14: "fourteen vierzehn quatorze catorce",
        15: "fifteen funfzehn fuenfzehn quinze quince",
    }.items()
    for word in words.split()
}
_ONES = {
    word: str(value)
    for value, words in {
        0: "zero oh nought null cero", 1: "one eins un uno", 2: "two zwei deux dos", 3: "three drei trois tres",
        4: "four vier quatre cuatro", 5: "five funf fuenf cinq cinco", 6: "six sechs seis",
        7: "seven sieben sept siete", 8: "eight acht huit ocho", 9: "nine neun neuf nueve",
    }.items()
    for word in words.split()
}
_DICTATED = lazily(
    rf"(?<![a-z])({'|'.join(sorted(_TENS, key=len, reverse=True))})[ -]{{1,2}}(?:point|dot|komma|virgule|coma|punto)"
    rf"[ -]{{1,2}}"
    rf"({'|'.join(sorted(_ONES, key=len, reverse=True))})(?:[ -]({'|'.join(sorted(_ONES, key=len, reverse=True))}))?"
    r"(?![a-z])"
)
#: The same in digits.
_DICTATED_DIGITS = lazily(
    r"(?<![a-z0-9.,:])(?<!pin )(?<!pins )(?<!step )(?<!item )(?<!point )"
    r"([6-9]|1[0-5]|2[0-9])[ -](?:point|dot|komma|virgule|coma|punto)[ -]{1,2}"
    r"([0-9]{1,2})(?![0-9]|(?!v(?:olts?)?(?![a-z0-9]))[a-z]|[.,:][0-9a-z])"
    r"(?! (?:bar|mm|cm|m|km|l|litres?|ohms?|amps?|degrees)(?![a-z]))"
)
_POINTS = (" point ", " dot ", " komma ", " virgule ", " coma ", " punto ", " and a half v", "einhalb v", " et demi",
           " y medio")
#: "12 and a half volts", "zwolfeinhalb volt", "douze volts et demi", "doce voltios y medio"
_HALVES = lazily(
    rf"(?<![a-z0-9.,])(?:({'|'.join(sorted(_TENS, key=len, reverse=True))})|(1[0-5]|[6-9]|2[0-9]))"
    r"(?: and a half|[ -]?einhalb| ?v(?:olts|oltios)? et demi| ?v(?:olts|oltios)? y medio)(?=( v(?:olts?)?)?(?![a-z]))"
)
#: The unit in the key of a number: "supply_mv: 11800", "Ubat (mV) ..... 11800".
_IN_MILLIVOLTS = lazily(
    r"(?:(?<=[a-z.][_ ])mv|(?<=[a-z.][(\[])mv[)\]]|(?<=[a-z.][ _][(\[])mv[)\]])"
    r"([\"']?\s{0,3}(?:[:=\t|;]|\s|\.{2,40}(?!\.))\s{0,3}[\"']?)([0-9]{4,5})(?![0-9]|[.,][0-9])"
)


def dictated(low: str) -> bool:
    """Whether a line may hold a number in words; asked of every line."""
    return any(word in low for word in _POINTS)


def mended(low: str) -> str:
    """A line in small letters with such words as they are meant, as long as it was: every place stays what it is."""
    if "v" in low and ("." in low or "," in low) and ("l" in low or "o" in low or "i" in low):
        low = _LETTERED.sub(lambda match: match[0].translate(_DIGITS), low)
    if "mv" in low:
        low = _IN_MILLIVOLTS.sub(_in_volts, low)
    if dictated(low):
        low = _HALVES.sub(_and_a_half, low)
        low = _DICTATED_DIGITS.sub(_with_point, _DICTATED.sub(_in_digits, low))
    return low if _SLIPS.keys().isdisjoint(_LONG.findall(low)) else _LONG.sub(_meant, low)


def _in_volts(match: re.Match[str]) -> str:
    """A key that says millivolts and its number, in volts: "supply_mv: 11800"."""
    size = len(match[2])
    behind = ")" if match[0][2] in ")]" else ""
    return f"v{behind}{match[1]} {f'{int(match[2]) / 1000:.2f}'.rjust(size)[:size]}"


def _in_digits(match: re.Match[str]) -> str:
    """The digits of a number in words, at the end of its place."""
    return f"{_TENS[match[1]]}.{_ONES[match[2]]}{_ONES.get(match[3] or '', '')}".rjust(len(match[0]))


def _and_a_half(match: re.Match[str]) -> str:
    """A number and a half in digits, at the end of its place; what says no unit behind it has said it already."""
    number = f"{_TENS[match[1]] if match[1] else match[2]}.5"
    if match[3] is None and "v" not in match[0][len(match[1] or match[2]) :]:
        return match[0]
    return (number if match[3] is not None else f"{number} v").rjust(len(match[0]))


def _with_point(match: re.Match[str]) -> str:
    """A number dictated in digits ("13 point 2"), at the end of its place."""
    return f"{match[1]}.{match[2]}".rjust(len(match[0]))


def _meant(match: re.Match[str]) -> str:
    """The word that was meant, or a shorter one that says the same where there is no room for it."""
    word = _SLIPS.get(match[0])
    if word is None:
        return match[0]
    if len(word) > len(match[0]):
        word = _SHORTER.get(word, "batt")
    return word.ljust(len(match[0]))


_SHORTER = {"alternator": "alternat", "lichtmaschine": "lima", "alternateur": "alternat", "alternador": "alternat",
            "lowest": "min", "minimum": "min", "niedrigste": "tiefste"}
