"""The word that one with a slip of the pen in it is meant for."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from functools import lru_cache


class Choices:
    """Words that are looked among again and again, by their length: so few slips leave it nearly as it was."""

    def __init__(self, words: Iterable[str]) -> None:
        self._words = tuple(words)
        self.near = lru_cache(maxsize=128)(self._near)

    def _near(self, length: int, most: int) -> tuple[str, ...]:
        """Those of nearly a length, in their order."""
        return tuple(word for word in self._words if abs(len(word) - length) <= most)


def nearest(word: str, words: Collection[str] | Choices, most: int = 1) -> str | None:
    """The word of ``words`` at most ``most`` letters off ``word`` (one left out, put in, changed, or two swapped: the
    optimal string alignment distance), the nearest of several; None where there is none.

    >>> nearest("sotred", ("stored", "store")), nearest("stred", ("stored", "active")), nearest("abs", ("stored",))
    ('stored', 'stored', None)
    """
    from rapidfuzz import process  # loaded for texts with slips alone
    from rapidfuzz.distance import OSA

    choices = words.near(len(word), most) if isinstance(words, Choices) else words
    best = process.extractOne(word, choices, scorer=OSA.distance, score_cutoff=most)
    return None if best is None else best[0]


def nearest_twice(word: str, words: Collection[str] | Choices) -> str | None:
    """The same for two slips, not both of them a letter put for another, which make words of their own.

    >>> nearest_twice("comunicatoin", ("communication",)), nearest_twice("corrected", ("connected",))
    ('communication', None)
    """
    from rapidfuzz.distance import Indel

    best = nearest(word, words, 2)
    return best if best is not None and Indel.distance(word, best) <= 3 else None


def one_off(word: str) -> set[str]:
    """What one slip makes of a word: two letters swapped, one doubled or left out; its first letter is never left out.

    >>> sorted(one_off("idle"))
    ['dile', 'iddle', 'ide', 'idel', 'idl', 'idlee', 'idlle', 'iidle', 'ilde', 'ile']
    """
    swapped = {word[:at] + word[at + 1] + word[at] + word[at + 2 :] for at in range(len(word) - 1)}
    doubled = {word[:at] + word[at] + word[at:] for at in range(len(word))}
    left_out = {word[:at] + word[at + 1 :] for at in range(1, len(word))}
    return swapped | doubled | left_out


__all__ = ["Choices", "nearest", "nearest_twice", "one_off"]
