"""Signs that words bear, worked out once for each distinct word: a long text has few of them, and many lines.

>>> signs = WordSigns(r"^(?:aft|nach)|scan")
>>> signs.stand_in("2nd rescan"), signs.stand_in("nachher"), signs.stand_in("shaft speed")
(True, True, False)
"""

from __future__ import annotations

from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import plain_words

#: So many words without a sign are kept.
_MOST = 16384


class WordSigns:
    """A quick check before a pattern that is slow to search: each text that it matches has such a word in it."""

    def __init__(self, pattern: str) -> None:
        self._sign = lazily(pattern)
        self._without: set[str] = set()

    def stand_in(self, low: str) -> bool:
        """Whether a word of a text in small letters bears one of the signs."""
        found = plain_words(low)
        if self._without.issuperset(found):
            return False
        if len(self._without) > _MOST:
            self._without.clear()
        for word in found:
            if word not in self._without:
                if self._sign.search(word) is not None:
                    return True
                self._without.add(word)
        return False


__all__ = ["WordSigns"]
