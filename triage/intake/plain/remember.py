"""What was found out about a line, kept for the next line with the same text.

A long paste is scan after scan of one vehicle: the same names, answers and descriptions in line after line. A function
of the text alone is asked once for each of them.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache, update_wrapper
from typing import Generic, TypeVar

T = TypeVar("T")

#: Of longer texts few stand twice, and they would fill the memory: only the last few are kept, since one reader after
#: another asks of the same line; of the longest none.
LONGEST, LONGEST_OF_ALL, LAST = 400, 4000, 8
#: So many answers of one function are kept.
MOST = 16384


class _Remembered(dict[str, T], Generic[T]):
    """The answers of a function by the texts; called like it. To look one up takes half the time of a call of Python,
    and a long text is asked a million times."""

    def __init__(self, function: Callable[[str], T]) -> None:
        super().__init__()
        self._function = function
        self._recent = lru_cache(maxsize=LAST)(function)
        update_wrapper(self, function)

    __call__ = dict.__getitem__

    def __missing__(self, text: str) -> T:
        if len(text) > LONGEST:
            return self._recent(text) if len(text) <= LONGEST_OF_ALL else self._function(text)
        if len(self) >= MOST:
            self.clear()
        answer = self[text] = self._function(text)
        return answer


def remembered(function: Callable[[str], T]) -> Callable[[str], T]:
    """``function`` of one text, its answers kept for short ones. The answer must not be changed by who gets it.

    >>> asked = []
    >>> size = remembered(lambda text: asked.append(text) or len(text))
    >>> size("abs"), size("abs"), asked
    (3, 3, ['abs'])
    """
    return _Remembered(function)
