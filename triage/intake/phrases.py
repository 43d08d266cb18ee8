"""Phrases: wordings looked up word by word, so that a line costs the same however many wordings there are.

>>> book = Phrasebook({"silent": "no answer | did not answer", "clean": "no codes | no"})
>>> [(hit.meaning, hit.start, hit.end) for hit in book.find("ABS: did  not answer")]
[('silent', 5, 20)]
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from functools import lru_cache
from typing import NamedTuple

WORD = re.compile(r"[a-z0-9]+")
#: A gap inside one phrase: spaces, hyphens, apostrophes, a full stop after an abbreviation.
_GAP = re.compile(r"[\s\-'./_]{0,4}")


class Hit(NamedTuple):
    """One phrase found at ``start``..``end`` of the text it was looked for in."""

    start: int
    end: int
    meaning: str
    phrase: str


@lru_cache(maxsize=16384)
def words(low: str) -> tuple[tuple[str, int, int], ...]:
    """The words of ``low`` (small letters without accents) with their places."""
    return tuple((match[0], match.start(), match.end()) for match in WORD.finditer(low))


def word_set(text: str) -> frozenset[str]:
    """The words of ``text``, separated by spaces."""
    return frozenset(text.split())


def phrase_set(text: str) -> frozenset[str]:
    """The phrases of ``text``, separated by bars."""
    return frozenset(" ".join(phrase.split()) for phrase in text.split("|"))


class Phrasebook:
    """Wordings by meaning, each list separated by bars. The longest wording that starts at a word wins, the first
    meaning among equals."""

    def __init__(self, meanings: Mapping[str, str]) -> None:
        self._first: dict[str, list[tuple[tuple[str, ...], str]]] = {}
        for meaning, phrases in meanings.items():
            for phrase in phrases.split("|"):
                parts = tuple(WORD.findall(phrase))
                self._first.setdefault(parts[0], []).append((parts, meaning))
        for entries in self._first.values():
            entries.sort(key=lambda entry: -len(entry[0]))
        self.starts = frozenset(self._first)
        self.ends = frozenset(parts[-1] for entries in self._first.values() for parts, _ in entries)
        self._cached = lru_cache(maxsize=16384)(self._find)

    def find(self, low: str) -> tuple[Hit, ...]:
        """Every phrase in ``low`` from left to right, none overlapping another."""
        return self._cached(low) if len(low) <= 400 else self._find(low)

    def _find(self, low: str) -> tuple[Hit, ...]:
        if self.starts.isdisjoint(WORD.findall(low)):
            return ()
        found = words(low) if len(low) <= 400 else words.__wrapped__(low)
        hits: list[Hit] = []
        at = 0
        while at < len(found):
            size = 1
            for parts, meaning in self._first.get(found[at][0], ()):
                if _matches(low, found, at, parts):
                    size = len(parts)
                    hits.append(Hit(found[at][1], found[at + size - 1][2], meaning, " ".join(parts)))
                    break
            at += size
        return tuple(hits)

    def whole(self, low: str, filler: frozenset[str] = frozenset()) -> str | None:
        """The meaning where ``low`` consists of one or more phrases of one meaning and words of ``filler``."""
        if len(low) > 120:
            return None
        hits = self.find(low)
        if not hits or any(hit.meaning != hits[0].meaning for hit in hits):
            return None
        return hits[0].meaning if covered(low, hits, filler) else None


def _matches(low: str, found: tuple[tuple[str, int, int], ...], at: int, parts: tuple[str, ...]) -> bool:
    """Whether the words from ``at`` on are ``parts`` with nothing but small gaps between them."""
    if at + len(parts) > len(found):
        return False
    for step, part in enumerate(parts):
        if found[at + step][0] != part:
            return False
        if step and not _GAP.fullmatch(low, found[at + step - 1][2], found[at + step][1]):
            return False
    return True


def covered(low: str, hits: Iterable[Hit], filler: frozenset[str]) -> bool:
    """Whether every word of ``low`` lies in a hit or is one of ``filler``."""
    spans = [(hit.start, hit.end) for hit in hits]
    return all(
        word in filler or any(start <= begin and end <= stop for start, stop in spans)
        for word, begin, end in words(low)
    )
