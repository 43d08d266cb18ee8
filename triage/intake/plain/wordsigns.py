"""Signs that words bear, worked out once for each distinct word: a long text has few of them, and many lines.

>>> signs = WordSigns(r"^(?:aft|nach)|scan")
>>> signs.stand_in("2nd rescan"), signs.stand_in("nachher"), signs.stand_in("shaft speed")
(True, True, False)
"""

from __future__ import annotations

from functools import lru_cache

from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import plain_words


class WordSigns:
    """A quick check before a pattern that is slow to search: each text that it matches has such a word in it."""

    def __init__(self, pattern: str) -> None:
        sign = lazily(pattern)
        self._bears = lru_cache(maxsize=16384)(lambda word: sign.search(word) is not None)

    def stand_in(self, low: str) -> bool:
        """Whether a word of a text in small letters bears one of the signs."""
        return any(map(self._bears, plain_words(low)))


__all__ = ["WordSigns"]
