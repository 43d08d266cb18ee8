"""Whether a nominal voltage is the vehicle's: one that a message doubts or denies is not.

>>> is_meant("24 v?? no, 12 v", 0, 4), is_meant("not a 24 v system", 6, 10), is_meant("van, 24 v", 5, 9)
(False, False, True)
"""

from __future__ import annotations

from triage.intake.plain.patterns import lazily

_DOUBTED = lazily(r"\s?(?:\(\s?)?\?")
_DENIED = lazily(r"(?<![a-z])(?:not|isn'?t|nicht|keine?n?|pas|n'est pas)(?: (?:an?|eine?n?|de|un|en))?\s$")
#: The longest denial.
_REACH = 16


def is_meant(low: str, start: int, end: int) -> bool:
    """Whether the nominal voltage in that place of a text in small letters is said without a doubt."""
    return _DOUBTED.match(low, end) is None and _DENIED.search(low, max(0, start - _REACH), start) is None


__all__ = ["is_meant"]
