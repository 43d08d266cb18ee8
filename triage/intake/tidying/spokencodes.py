"""Codes that were dictated and written as words: "C zero zero five one", "U zero three hundred", "p oh six twenty".

Only a letter of a code with words for exactly four digits behind is one; a letter from A to F is a digit ("U one one oh
F"). Fewer, more, or such words of another language
are told in a notice: what was meant can't be known, and a code passed over in silence may be the one that matters. Two
more digits behind a dash are the failure type: "P oh six oh three dash one seven".

>>> from triage.intake.plain.characters import lines
>>> texts = "ABS: c zero zero four zero stored\\nU zero three hundred\\nP oh three\\nwe tried B one two times"
>>> found, read, unread = written(lines(texts))
>>> [line.text for line in found][:2], [place.read for place in read]
(['ABS: c0040 stored', 'u0300'], ['C0040', 'U0300'])
>>> [line.text for line in written(lines("b two f d eight active, P zero one two c c zero zero four zero"))[0]]
['b2fd8 active, p012c c0040']
>>> [line.text for line in written(lines("P oh six oh three dash one C stored, U oh one hundred dash eighty one"))[0]]
['p0603-1c stored, u0100-81']
>>> [place.line.text[place.start:place.end] for place in unread]
['P oh three']
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from triage.intake.lines.spacing import Respaced, with_word
from triage.intake.plain import signs
from triage.intake.plain.characters import Line
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import WORD, word_set, words
from triage.intake.said import states

_ONES = {
    "zero": "0", "oh": "0", "o": "0", "nought": "0", "naught": "0", "null": "0", "one": "1", "two": "2", "three": "3",
    "four": "4", "five": "5", "six": "6", "seven": "7", "eight": "8", "nine": "9",
}
_TEENS = {
    "ten": "10", "eleven": "11", "twelve": "12", "thirteen": "13", "fourteen": "14", "fifteen": "15", "sixteen": "16",
    "seventeen": "17", "eighteen": "18", "nineteen": "19",
}
_TENS = {
    "twenty": "2", "thirty": "3", "forty": "4", "fourty": "4", "fifty": "5", "sixty": "6", "seventy": "7",
    "eighty": "8", "ninety": "9",
}
_ENGLISH = (*_ONES, *_TEENS, *_TENS, "hundred", "double")
#: Digits that are letters, and such as are said by themselves among words.
_SINGLE = tuple("abcdef0123456789")
#: The same in other languages, that are told of and not read.
_OTHERS = word_set(
    "eins zwei drei vier funf sechs sieben acht neun un deux trois quatre cinq sept huit neuf cero uno dos tres cuatro "
    "cinco seis siete ocho nueve"
)
#: A code begins with a digit up to three.
_FIRST = ("zero", "oh", "o", "nought", "naught", "null", "cero", "one", "two", "three", "double")
#: One of those words, and one of these, is in the line of such a code; few other lines have one.
_SIGN = signs.of_words(frozenset(_FIRST).__contains__)
_BESIDE = (
    " zero ", " oh ", " o ", " nought ", " naught ", " null ", " cero ", " double ", "hundred", " one ", " two ",
    " three ", "-zero", "-one", "-oh",
)
_WORDS = sorted({*_ENGLISH, *_OTHERS, *_SINGLE}, key=len, reverse=True)
_PLACE = lazily(
    rf"(?<![^\W_])(?<!['-])([pcbu]|papa|charlie|bravo|uniform)[ -]+"
    rf"((?:{'|'.join(_FIRST)})(?:[ -]+(?:{'|'.join(_WORDS)})(?![^\W_]))+)"
)
#: What is said of the dash before a failure type, and its digits.
_TYPE = lazily(
    rf"[ ,]*(?:dash|hyphen|minus|bindestrich|strich|tiret|guion|gui\xf3n|failure type|sub ?type|ftb)"
    rf"((?:[ -]+(?:{'|'.join(_WORDS)})(?![^\W_])){{1,2}})")
#: A word behind "a" that makes it an article.
_ARTICLE = lazily(r" (?!(?:and|as|in|from|is|was|then|next|ok|or|on)(?![a-z]))[a-z]{2,}")
_TYPED, _FEWEST = 2, 3
_LONGEST = 1000


def written(found: Sequence[Line]) -> tuple[Sequence[Line], list[Respaced], list[Respaced]]:
    """The lines with such codes in digits, what was read where, and the places that can't be told."""
    mended: list[Line] | None = None
    read: list[Respaced] = []
    unread: list[Respaced] = []
    for at in signs.places(found, _SIGN):
        line = found[at]
        if len(line.low) > _LONGEST or not any(beside in line.low for beside in _BESIDE):
            continue
        for letter, start, first, end in reversed(list(_places(line.low))):
            spoken = WORD.findall(line.low[first:end])
            digits = _digits(spoken)
            typed, end = _type(line.low, end) if digits is not None else ("", end)
            place = Respaced(line, start, end, f"{letter}{digits or ''}{typed}".upper())
            if digits is not None:
                read.append(place)
                mended = mended or list(found)
                mended[at] = with_word(mended[at], start, end, place.read.lower())
            elif spoken[0] not in ("one", "two", "three") and (len(spoken) >= _FEWEST or spoken[0] in ("oh", "zero")):
                # "Option B one two times" is no code.
                unread.append(place)
    return mended or found, read, unread


def _places(low: str) -> Iterator[tuple[str, int, int, int]]:
    """The letters of such codes, and where each, and its digits, begin and they end. B and C may be digits of one code
    or begin another."""
    at = 0
    while (match := _PLACE.search(low, at)) is not None:
        start, end = match.start(), match.end()
        parts = [(word, match.start(2) + begin, match.start(2) + stop) for word, begin, stop in words(match[2])]
        for size in range(_FEWEST, len(parts)):
            if parts[size][0] in "bc" and size + 1 < len(parts) and parts[size + 1][0] in _FIRST and _digits(
                    [word for word, _, _ in parts[:size]]) is not None:
                end = parts[size - 1][2]
                break
        else:
            whole = len(parts) > _FEWEST and _digits([word for word, _, _ in parts]) is not None
            if parts[-1][0] == "a" and (not whole or (_ARTICLE.match(low, end) and not _told(low, end))):
                # "P zero one two a few times", "P zero three zero one a minute later"
                end = parts[-2][2]
        yield match[1][0], start, match.start(2), end
        at = end


def _type(low: str, at: int) -> tuple[str, int]:
    """The failure type that stands behind the digits of a code, with its dash, and where it ends; nothing where none
    does."""
    match = _TYPE.match(low, at)
    parts = list(words(match[1])) if match is not None else []
    for size in range(len(parts), 0, -1):
        told = _digits([word for word, _, _ in parts[:size]], _TYPED)
        if told is not None and match is not None:
            return f"-{told}", match.start(1) + parts[size - 1][2]
    return "", at


def _told(low: str, end: int) -> bool:
    """Whether a status stands right behind a place."""
    return states.leading(low, end + 1) > end + 1


def _digits(spoken: Sequence[str], size: int = 4) -> str | None:
    """The digits of words, as many as ``size``; None for any other number, or an order that no number has."""
    told = ""
    for at, word in enumerate(spoken):
        before = spoken[at - 1] if at else ""
        if word in _TEENS:
            told += _TEENS[word]
        elif word in _TENS:
            after = spoken[at + 1] if at + 1 < len(spoken) else ""
            told += _TENS[word] + ("" if _ONES.get(after, "0") != "0" else "0")
        elif word == "hundred" and before in _ONES:
            told += "00"
        elif word in _ONES:
            told += _ONES[word] * (2 if before == "double" else 1)
        elif word in _SINGLE:
            told += word * (2 if before == "double" else 1)
        elif word != "double":
            return None
    return told if len(told) == size else None


__all__ = ["written"]
