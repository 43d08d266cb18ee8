"""Phrases: wordings looked up word by word, so that a line costs the same however many wordings there are.

>>> patterns = {"clean": [("no", "- | stored", "codes")]}
>>> book = Phrasebook({"silent": "no answer | did not answer", "clean": "no"}, patterns)
>>> [(hit.meaning, hit.start, hit.end) for hit in book.find("ABS: did  not answer, BCM no stored codes")]
[('silent', 5, 20), ('clean', 26, 41)]
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property, lru_cache
from typing import NamedTuple

from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered

WORD = lazily(r"[a-z0-9]+")
#: A gap inside one phrase: spaces, hyphens, apostrophes, a full stop after an abbreviation.
_GAP = lazily(r"[\s\-'./_]{0,4}")
_LOOSE_GAP = lazily(r"\s?[,;/&+-]?\s?")
_GAPS = frozenset(("", " ", "-", "'", ".", "/", "_"))


#: In a text of so few words it is quick to see that a pattern's last word is missing.
_SHORT = 16


class Hit(NamedTuple):
    """One phrase found at ``start``..``end`` of the text it was looked for in."""

    start: int
    end: int
    meaning: str
    phrase: str


#: "couldn't", "won't", "can't" as the words that they are here: "couldn t".
_CONTRACTED = lazily(r"(?<![a-z0-9])([a-z]{1,6}n) t(?![a-z0-9])")
#: Words with their places.
Words = tuple[tuple[str, int, int], ...]


@lru_cache(maxsize=32768)
def words(low: str) -> Words:
    """The words of ``low`` (small letters without accents) with their places."""
    return _placed(low, plain_words(low))


@remembered
def plain_words(low: str) -> tuple[str, ...]:
    """The words of ``low`` without their places: the many that look for a word ask this before all else."""
    return tuple(WORD.findall(low))


def _placed(low: str, plain: Sequence[str]) -> Words:
    """The places of words that were found one after the other: between two of them stands nothing like the next."""
    found: list[tuple[str, int, int]] = []
    end = 0
    for word in plain:
        start = low.index(word, end)
        end = start + len(word)
        found.append((word, start, end))
    return tuple(found)


@lru_cache(maxsize=16)
def long_words(low: str) -> Words:
    """The same for long lines, of which only the few asked for last are remembered."""
    return _placed(low, plain_words(low))


#: Behind a full stop in a pattern: it ends no abbreviation ("lost comm. with", "temp. sensor"), or a word stands behind
#: it that begins a sentence ("the rack ctrl. I skipped the radio").
NOT_SHORT = "(?:(?=\\s(?:i|the|then|next|it|there|found|got)\\s)|" + "".join(
    rf"(?<![^a-z]{word}\.)"
    for word in (
        "comm", "pass", "temp", "approx", "incl", "resp", "circ", "cyl", "sens", "sig", "ctrl", "evap", "elec", "nr",
        "ca", "vs", "com", "comun", "comunic", "komm", "kommun", "izq", "dcha", "del", "tras", r"del\. der",
        r"tras\. der", "o",
    )
) + "".join(rf"(?<!^{word}\.)" for word in ("comm", "elec", "pass", "temp", "i")) + ")"


def word_set(text: str) -> frozenset[str]:
    """The words of ``text``, separated by spaces."""
    return frozenset(text.split())


def _ways(phrase: str) -> list[tuple[str, ...]]:
    """The words of a phrase, and the same with its contractions written without an apostrophe ("couldnt")."""
    parts = tuple(WORD.findall(phrase))
    if "t" not in parts:
        return [parts]
    joined = tuple(WORD.findall(_CONTRACTED.sub(r"\1t", " ".join(parts))))
    return [parts] if joined == parts else [parts, joined]


def phrase_set(text: str) -> frozenset[str]:
    """The phrases of ``text``, separated by bars."""
    return frozenset(" ".join(phrase.split()) for phrase in text.split("|"))


class _Pattern:
    """A wording of slots, each a choice of words: "did not | does not" and "answer | respond". Before a slot that
    begins with a comma one may stand, or a stroke: "confirmed, not active"."""

    def __init__(self, slots: Sequence[str], meaning: str) -> None:
        self.meaning = meaning
        self._loose = [slot[0] == "," for slot in slots]
        slots = [slot.removeprefix(",") for slot in slots]
        self._texts = slots
        self.starts = frozenset([parts[0] for parts in _choices(slots[0])])
        last = next(at for at in range(len(slots) - 1, -1, -1) if () not in _choices(slots[at]))
        self.ends = frozenset([parts[-1] for slot in slots[last:] for parts in _choices(slot) if parts])

    def seconds(self, first: str) -> frozenset[str] | None:
        """The words of which one stands behind the first one; None where it may be the only word."""
        found: set[str] = set()
        open_ended = False
        for parts in _choices(self._texts[0]):
            if parts and parts[0] == first:
                found.update(parts[1:2])
                open_ended = open_ended or len(parts) == 1
        for slot in self._texts[1:] if open_ended else ():
            choices = _choices(slot)
            found.update(parts[0] for parts in choices if parts)
            if () not in choices:
                return frozenset(found)
        return None if open_ended else frozenset(found)

    @cached_property
    def slots(self) -> list[dict[str, list[tuple[str, ...]]]]:
        """By slot: its wordings by their first word; () where it may be left out. Few texts ask for a pattern."""
        return [_by_first(_choices(slot)) for slot in self._texts]

    def size_at(self, low: str, plain: tuple[str, ...], found: Words, at: int) -> int:
        """The number of words of the longest way to say it that starts at a word, 0 for none."""
        places = {at}
        for slot, loose in zip(self.slots, self._loose, strict=True):
            further: set[int] = set(places) if "" in slot else set()
            for place in places:
                for parts in slot.get(plain[place], ()) if place < len(plain) else ():
                    if _matches(low, plain, found, place, parts) and (
                            place == at or _close(low, found, place, _LOOSE_GAP if loose else _GAP)):
                        further.add(place + len(parts))
            if not further:
                return 0
            places = further
        return max(places) - at


@lru_cache(maxsize=2048)
def _choices(slot: str) -> list[tuple[str, ...]]:
    """The wordings of a slot, separated by bars. Not to be changed: slots repeat."""
    return [way for choice in slot.split("|") for way in _ways(choice)]


def _by_first(slot: list[tuple[str, ...]]) -> dict[str, list[tuple[str, ...]]]:
    """Wordings by their first word; the empty one under ""."""
    found: dict[str, list[tuple[str, ...]]] = {}
    for parts in slot:
        found.setdefault(parts[0] if parts else "", []).append(parts)
    return found


def _close(low: str, found: Words, at: int, gap_of: re.Pattern[str] = _GAP) -> bool:
    """Whether nothing but a small gap stands before a word."""
    gap = low[found[at - 1][2] : found[at][1]]
    return gap in _GAPS or gap_of.fullmatch(gap) is not None


class Phrasebook:
    """Wordings by meaning, each list separated by bars, and patterns of slots. The longest wording that starts at a
    word wins, the first meaning among equals, a list before a pattern. The meaning "" is no hit: a longer wording in
    which a shorter one says nothing.

    ``more``: what may stand behind any wording and changes nothing ("stored only"), but behind those in ``alone``.
    """

    def __init__(
        self,
        meanings: Mapping[str, str],
        patterns: Mapping[str, Sequence[Sequence[str]]] | None = None,
        more: str = "",
        alone: frozenset[str] = frozenset(),
    ):
        self._more = _by_first([tuple(WORD.findall(phrase)) for phrase in more.split("|")] if more else [])
        self._alone = alone
        #: By the first word and the second, which is "" where there is none: the words and the meaning of each wording.
        self._first: dict[str, dict[str, list[tuple[tuple[str, ...], str]]]] = {}
        for meaning, phrases in meanings.items():
            for phrase in phrases.split("|"):
                for parts in _ways(phrase):
                    second = parts[1] if len(parts) > 1 else ""
                    self._first.setdefault(parts[0], {}).setdefault(second, []).append((parts, meaning))
        wordings = [entries for by_second in self._first.values() for entries in by_second.values()]
        for entries in wordings:
            entries.sort(key=lambda entry: -len(entry[0]))
        self._patterns: dict[str, list[_Pattern]] = {}
        #: By the first word, as far as a text had it, and the second: the patterns that may begin so; "" for any other.
        self._by_second: dict[str, dict[str, list[_Pattern]]] = {}
        every = [_Pattern(slots, meaning) for meaning, all_slots in (patterns or {}).items() for slots in all_slots]
        for pattern in every:
            for word in pattern.starts:
                self._patterns.setdefault(word, []).append(pattern)
        self.starts = frozenset(self._first) | frozenset(self._patterns)
        ends = (parts[-1] for entries in wordings for parts, _ in entries)
        ends_of_more = (parts[-1] for several in self._more.values() for parts in several)
        self.ends = frozenset(ends).union(ends_of_more, *(pattern.ends for pattern in every))
        self._cached = lru_cache(maxsize=32768)(self._find)
        self._long = lru_cache(maxsize=16)(self._find)

    def find(self, low: str) -> tuple[Hit, ...]:
        """Every phrase in ``low`` from left to right, none overlapping another."""
        return self._cached(low) if len(low) <= 400 else self._long(low)

    def _find(self, low: str) -> tuple[Hit, ...]:
        plain = plain_words(low)
        starts = self.starts
        if starts.isdisjoint(plain):
            return ()
        found = words(low) if len(low) <= 400 else long_words(low)
        hits: list[Hit] = []
        last = 0
        for at, word in enumerate(plain):
            if at < last or word not in starts:
                continue
            size, meaning = self._at(low, plain, found, at)
            if size:
                last = at + size
                if not meaning:
                    continue
                hits.append(Hit(found[at][1], found[last - 1][2], meaning, " ".join(plain[at:last])))
        return tuple(hits)

    def _at(self, low: str, plain: tuple[str, ...], found: Words, at: int) -> tuple[int, str]:
        """The number of words and the meaning of the longest wording that starts at a word; 0 words for none."""
        word, size, meaning = plain[at], 0, ""
        wordings = self._first.get(word)
        if wordings is not None:
            second = plain[at + 1] if at + 1 < len(plain) else ""
            for parts, said in (*wordings.get(second, ()), *wordings.get("", ())):
                if _matches(low, plain, found, at, parts):
                    size, meaning = len(parts), said
                    break
        for pattern in self._patterns_at(word, plain[at + 1] if at + 1 < len(plain) else ""):
            if len(plain) <= _SHORT and pattern.ends.isdisjoint(plain):
                continue
            longer = pattern.size_at(low, plain, found, at)
            if longer > size:
                size, meaning = longer, pattern.meaning
        if size and at + size < len(plain) and plain[at + size] in self._more and meaning:
            size += self._size_of_more(low, plain, found, at, size)
        return size, meaning

    def _patterns_at(self, first: str, second: str) -> Sequence[_Pattern]:
        """The patterns that may begin with two words, in their order."""
        if first not in self._patterns:
            return ()
        by_second = self._by_second.get(first)
        if by_second is None:
            by_second = self._by_second[first] = {}
            told = [(pattern, pattern.seconds(first)) for pattern in self._patterns[first]]
            for each in {"", *(word for _, words in told for word in words or ())}:
                by_second[each] = [pattern for pattern, words in told if words is None or each in words]
        found = by_second.get(second)
        return by_second[""] if found is None else found

    def _size_of_more(self, low: str, plain: tuple[str, ...], found: Words, at: int, size: int) -> int:
        """The number of words behind a wording that change nothing of it."""
        if " ".join(plain[at : at + size]) in self._alone:
            return 0
        behind = at + size
        longest = sorted(self._more[plain[behind]], key=len, reverse=True)
        fits = (parts for parts in longest if _matches(low, plain, found, behind, parts) and _close(low, found, behind))
        return len(next(fits, ()))

    def whole(self, low: str, filler: frozenset[str] = frozenset()) -> str | None:
        """The meaning where ``low`` consists of one or more phrases of one meaning and words of ``filler``."""
        if len(low) > 120:
            return None
        hits = self.find(low)
        if not hits or any(hit.meaning != hits[0].meaning for hit in hits):
            return None
        return hits[0].meaning if covered(low, hits, filler) else None


def _matches(low: str, plain: tuple[str, ...], found: Words, at: int, parts: tuple[str, ...]) -> bool:
    """Whether the words from ``at`` on are ``parts`` with nothing but small gaps between them."""
    size = len(parts)
    if plain[at : at + size] != parts:
        return False
    return size == 1 or all(_close(low, found, at + step) for step in range(1, size))


def covered(low: str, hits: Iterable[Hit], filler: frozenset[str]) -> bool:
    """Whether every word of ``low`` lies in a hit or is one of ``filler``."""
    spans = [(hit.start, hit.end) for hit in hits]
    for word, begin, end in words(low):
        if word not in filler and not any(start <= begin and end <= stop for start, stop in spans):
            return False
    return True
