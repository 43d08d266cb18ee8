"""Signs of a line: what its words and its marks are, told once for each distinct text and each distinct word, so that a
pass over a whole paste, or a pattern that is slow to search, looks only at the lines that may hold what it is after.

Whoever looks for something asks for a sign when he is imported: one that every text bears in which he finds anything.
That more texts bear it costs time and no more.

>>> counted, asked = of_words({"total", "sum"}.__contains__), of_parts("?")
>>> told = ("total: 3", "volts?", "subtotal")
>>> [of(low) & (counted | asked) > 0 for low in told], [counted.bit_count(), (counted & asked)]
([True, True, False], [1, 0])
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from itertools import compress, count
from operator import attrgetter
from typing import Protocol

from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import plain_words
from triage.intake.plain.remember import MOST


class _Told(Protocol):
    """A line, or a row of one, with its text in small letters."""

    low: str


#: The texts kept have no more letters than this together.
_MOST_LETTERS = 4_000_000
_NUMBERS = count()
_OF_WORDS: list[tuple[int, Callable[[str], object]]] = []
_OF_PARTS: list[tuple[int, str]] = []
_OF_TEXTS: list[tuple[int, re.Pattern[str]]] = []


class _Words(dict[str, int]):
    """The signs of each distinct word."""

    def __missing__(self, word: str) -> int:
        if len(self) >= MOST:
            self.clear()
        found = self[word] = sum([sign for sign, tells in _OF_WORDS if tells(word)])
        return found


class _Texts(dict[str, int]):
    """The signs of each distinct text in small letters."""

    #: Of those that are kept.
    letters = 0

    def __missing__(self, low: str) -> int:
        bare = low.strip()
        if bare != low:
            # The line as it is set in, and the row without that.
            found = self[bare]
        else:
            found = 0
            for word in plain_words(low):
                found |= _BY_WORD[word]
            for sign, part in _OF_PARTS:
                if part in low:
                    found |= sign
            for sign, pattern in _OF_TEXTS:
                if pattern.search(low) is not None:
                    found |= sign
        self.letters += len(low)
        if self.letters > _MOST_LETTERS:
            self.clear()
            self.letters = 0
        self[low] = found
        return found


_BY_WORD, _BY_TEXT = _Words(), _Texts()
#: The text of a line in small letters.
LOW: Callable[[_Told], str] = attrgetter("low")
#: The signs of a text in small letters.
of: Callable[[str], int] = _BY_TEXT.__getitem__


def of_words(tells: Callable[[str], object]) -> int:
    """A new sign: that of a text with a word for which ``tells`` is true."""
    sign = _new()
    _OF_WORDS.append((sign, tells))
    return sign


def of_pattern(pattern: str) -> int:
    """A new sign: that of a text with a word in which a pattern is found.

    >>> sign = of_pattern(r"^(?:aft|nach)|scan")
    >>> [of(low) & sign > 0 for low in ("2nd rescan", "nachher", "shaft speed")]
    [True, True, False]
    """
    compiled = lazily(pattern)
    # Asked for by its name each time: from its first use on the pattern holds its own method.
    return of_words(lambda word: compiled.search(word))


def of_parts(*parts: str) -> int:
    """A new sign: that of a text that holds one of ``parts``, whatever stands around it."""
    sign = _new()
    _OF_PARTS.extend((sign, part) for part in parts)
    return sign


def of_text(pattern: str) -> int:
    """A new sign: that of a text in which a pattern is found, words and marks together."""
    sign = _new()
    _OF_TEXTS.append((sign, lazily(pattern)))
    return sign


def _new() -> int:
    """The next sign. What was told of texts before it came is forgotten."""
    _BY_WORD.clear()
    _BY_TEXT.clear()
    return 1 << next(_NUMBERS)


def places(found: Iterable[_Told], sign: int) -> list[int]:
    """The places of the lines that bear a sign, or one of several."""
    return list(compress(count(), map(sign.__and__, map(of, map(LOW, found)))))


def whole(found: Iterable[_Told]) -> str:
    """The lines in small letters, one below the other: one search of it tells that none of them holds something."""
    return "\n".join(map(LOW, found))


__all__ = ["LOW", "of", "of_parts", "of_pattern", "of_text", "of_words", "places", "whole"]
