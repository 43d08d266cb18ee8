"""Slips of the pen in the long words for a supply voltage: two letters swapped, one doubled or one left out.

>>> mended("volatge 12.3v"), mended("batery: 12.3"), mended("batterry 12.3")
('voltage 12.3v', 'batt  : 12.3', 'battery  12.3')
>>> mended("battery 12.3")
'battery 12.3'
"""

from __future__ import annotations

import re

_WORDS = (
    "voltage", "battery", "batterie", "batteries", "batteriespannung", "bordspannung", "spannung", "tension",
    "bateria", "voltaje", "alternator", "lichtmaschine", "alternateur", "alternador",
)
#: Words of their own, however near.
_OTHERS = frozenset(("batter", "batterie", "batteries", "bateria", "battery"))
_LONG = re.compile(r"[a-z]{6,18}")


def _near(word: str) -> set[str]:
    """What one slip makes of a word; its first letter is never left out."""
    swapped = {word[:at] + word[at + 1] + word[at] + word[at + 2 :] for at in range(len(word) - 1)}
    doubled = {word[:at] + word[at] + word[at:] for at in range(len(word))}
    left_out = {word[:at] + word[at + 1 :] for at in range(1, len(word))}
    return swapped | doubled | left_out


_SLIPS = {slip: word for word in reversed(_WORDS) for slip in _near(word) if slip not in _OTHERS}


def mended(low: str) -> str:
    """A line in small letters with such words as they are meant, as long as it was: every place stays what it is."""
    return low if _SLIPS.keys().isdisjoint(_LONG.findall(low)) else _LONG.sub(_meant, low)


def _meant(match: re.Match[str]) -> str:
    """The word that was meant, or a shorter one that says the same where there is no room for it."""
    word = _SLIPS.get(match[0])
    if word is None:
        return match[0]
    if len(word) > len(match[0]):
        word = _SHORTER.get(word, "batt")
    return word.ljust(len(match[0]))


_SHORTER = {"alternator": "alternat", "lichtmaschine": "lima", "alternateur": "alternat", "alternador": "alternat"}
