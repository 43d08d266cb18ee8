"""What was found out about a line, kept for the next line with the same text.

A long paste is scan after scan of one vehicle: the same names, answers and descriptions in line after line. A function
of the text alone is asked once for each of them.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache, wraps
from typing import TypeVar

T = TypeVar("T")

#: A longer text is not kept: few stand twice, and they would fill the memory.
LONGEST = 400


def remembered(function: Callable[[str], T]) -> Callable[[str], T]:
    """``function`` of one text, its answers kept for short ones. The answer must not be changed by who gets it.

    >>> asked = []
    >>> size = remembered(lambda text: asked.append(text) or len(text))
    >>> size("abs"), size("abs"), asked
    (3, 3, ['abs'])
    """
    kept = lru_cache(maxsize=16384)(function)

    @wraps(function)
    def ask(text: str) -> T:
        return kept(text) if len(text) <= LONGEST else function(text)

    return ask
