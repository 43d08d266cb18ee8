"""Codes with several letters in the places of their digits, written with these: "UOOOl-88", "u o140:87", "U 04l5".

A letter or two a reader of single words mends (:mod:`triage.intake.codes.found`). Where next to nothing but letters is
left, the form has to tell: capitals with a small "l" among them, or nothing but letters that are drawn as 0 and 1, are
no word of any language; and what is apart from its letter is a code where the text writes its codes so.

>>> from triage.intake.plain.characters import lines
>>> found, read = written(lines("UOOOl-88 bus\\nECM: u o140:87, u 0131\\nBCM: p 0562 low, u oool:88\\nPOLIO, Bill"))
>>> [line.text for line in found], [place.read for place in read]
(['U0001-88 bus', 'ECM: u 0140:87, u 0131', 'BCM: p 0562 low, u 0001:88', 'POLIO, Bill'], \
['U0001', 'U0140', 'U0001'])
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from triage.intake.lines.spacing import Respaced
from triage.intake.plain import signs
from triage.intake.plain.characters import Line, has_digit, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said import near

#: A letter and four characters in one word, perhaps two more.
_JOINED = lazily(
    r"(?<![^\W_])(?P<letter>[PCBUpcbu])(?P<body>[0-3OoQIil|][0-9A-Fa-fOoQIil|]{3})(?P<pair>[0-9A-Fa-fOoIl]{2})?"
    r"(?![^\W_])"
)
#: The same apart from its letter.
_APART = lazily(
    r"(?<![^\W_])(?P<letter>[PCBUpcbu])(?P<gap> )(?P<body>[0-3OoQIil][0-9A-Fa-fOoIil]{3})(?P<pair>[0-9A-Fa-fOoIl]{2})?"
    r"(?![^\W_])(?P<type>[-:.][0-9A-Fa-fOoIl]{2}(?![^\W_])| ?[(\[][0-9A-Fa-fOoIl]{2}[)\]]| [0-9]{2}(?![^\W_]))?"
)
_PLAIN_APART = lazily(r"(?<![^\W_])[PCBUpcbu] [0-3][0-9A-Fa-f]{3}(?:[0-9A-Fa-f]{2})?(?![^\W_])")
_FAILURE_TYPE = lazily(r"[-:][0-9A-Fa-f]{2}(?![^\W_])|\s?[(\[][0-9A-Fa-f]{2}[)\]]")
#: What is drawn as 0 or 1, the digits, and what a word of capitals has of it that is no capital.
_LIKE_DIGITS, _SMALL = frozenset("0123456789OQIl|o"), frozenset("ol")
_HEX = frozenset("0123456789ABCDEFabcdef")
#: With so many digits a word is read as it stands.
_FEW_DIGITS = 3
_NUMBERED = ("PID", "CID", "UID")
_SIGN = signs.of_pattern(r"^[pcbu](?:[0-3oilq][0-9a-foilq]{3}(?:[0-9a-foil]{2})?)?$") | signs.of_parts("|")
_FEWEST = 1


def written(found: Sequence[Line]) -> tuple[Sequence[Line], list[Respaced]]:
    """The lines with the digits of such codes, and what was read where. Linear."""
    places = signs.places(found, _SIGN)
    if not places:
        return found, []
    apart = sum(len(_PLAIN_APART.findall(found[at].text)) for at in places) >= _FEWEST
    lines, read = list(found), list[Respaced]()
    for at in places:
        line = found[at]
        several = [match for match in _JOINED.finditer(line.text) if _is_code(line.text, match)]
        several += [match for match in _APART.finditer(line.text) if apart and _is_apart(match)]
        labels = near.Labels(line.low)
        for match in sorted(several, key=lambda match: -match.start()):
            start, end = match.span("body")
            if labels.before(match.start(), end, line.text) or near.part_of_a_number(line.text, match.start(), end):
                continue
            body = near.digits_for_letters(line.text[start:end])
            if body is None or body[0] not in "0123":
                continue
            lines[at] = reworded(lines[at], start, end, body)
            letter = line.text[match.start()].upper()
            read.append(Respaced(line, match.start(), end, letter + body.upper()))
    return lines, read


def _is_code(text: str, match: re.Match[str]) -> bool:
    """Whether a word can be nothing but a code: no digit need be in it."""
    letter, body = match["letter"], match["body"]
    digits = sum(map(str.isdigit, body))
    if _HEX.issuperset(body) or digits >= _FEW_DIGITS or (letter + body).upper().startswith(_NUMBERED):
        return False
    typed = _FAILURE_TYPE.match(text, match.end()) is not None
    small = {char for char in body if char.islower()}
    large = {char for char in body if char.isupper()}
    alike = _LIKE_DIGITS.issuperset(body)
    if letter.islower():
        # "uoI31": no word has a capital among small letters; "pollo" is one.
        return (large <= {"I", "O", "Q"} and bool(large) and (digits > 0 or typed)) or (alike and typed)
    if not small <= _SMALL:
        return False
    if digits:
        return alike or typed or "l" in small
    # "UOOOl", "POOIO", "BOAIF-13", and no "Bollo"
    return (bool(large) and ("l" in small or alike)) or (typed and len(_LIKE_DIGITS.intersection(body)) > 1)


def _is_apart(match: re.Match[str]) -> bool:
    """Whether what stands apart from its letter is a number written with letters: with a digit or a failure type, or
    capitals with a small "l"."""
    body = match["body"]
    lone = match["letter"].isupper() and "l" in body and all(char in "ol" or not char.islower() for char in body)
    return not _HEX.issuperset(body) and (has_digit(body) or match["type"] is not None or lone)


__all__ = ["written"]
