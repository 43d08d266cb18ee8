"""What was found out about a line, kept for the next line with the same text.

A long paste is scan after scan of one vehicle: the same names, answers and descriptions in line after line. A function
of the text alone is asked once for each of them.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache, wraps
from typing import TypeVar

T = TypeVar("T")

#: Of longer texts few stand twice, and they would fill the memory: only the last few are kept, since one reader after
#: another asks of the same line; of the longest none.
LONGEST, LONGEST_OF_ALL, LAST = 400, 4000, 8


def remembered(function: Callable[[str], T]) -> Callable[[str], T]:
    """``function`` of one text, its answers kept for short ones. The answer must not be changed by who gets it.

    >>> asked = []
    >>> size = remembered(lambda text: asked.append(text) or len(text))
    >>> size("abs"), size("abs"), asked
    (3, 3, ['abs'])
    """
    kept = lru_cache(maxsize=16384)(function)
    recent = lru_cache(maxsize=LAST)(function)

    @wraps(function)
    def ask(text: str) -> T:
        if len(text) <= LONGEST:
            return kept(text)
        return recent(text) if len(text) <= LONGEST_OF_ALL else function(text)

    return ask
