"""Patterns that are compiled when they are first asked for.

The reader knows some hundreds of patterns and most texts need few of them; compiling them all took a sixth of the time
of a short command.
"""

from __future__ import annotations

import re
from typing import Any, cast

_METHODS = ("match", "search", "finditer", "fullmatch", "findall", "split", "sub")


class Waiting:
    """Stands for a compiled pattern until the first call; from then on it holds the pattern's own bound methods."""

    def __init__(self, pattern: str, flags: int) -> None:
        self.pattern = pattern
        self.given = flags

    def __getattr__(self, name: str) -> Any:
        """Called only for what is not there yet, so the second call costs what a call of the pattern costs."""
        compiled = re.compile(self.pattern, self.given)
        for method in _METHODS:
            setattr(self, method, getattr(compiled, method))
        return getattr(compiled, name)


def lazily(text: str, flags: int = 0) -> re.Pattern[str]:
    """Like ``re.compile``, put off to the first use. It has the pattern's methods, but is none for ``isinstance``."""
    return cast("re.Pattern[str]", Waiting(text, flags))
