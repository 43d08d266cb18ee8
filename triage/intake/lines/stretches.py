"""Stretches: lines that are looked at together, because one mark may part the cells of all.

A blank line ends a stretch, unless the lines around it hold the same mark as often: then it strayed into a table.

>>> stretches(["ECM;P0562;stored", "ABS;U0100;stored", "", "Notes; none", ""])
[(0, 2), (3, 4)]
>>> stretches(["ECM;P0562;stored", "", "ABS;U0100;stored"])
[(0, 3)]
"""

from __future__ import annotations

import re
from collections.abc import Sequence

QUOTED = re.compile(r'"((?:[^"]|"")*)"')
#: So many blank lines may stray into a table.
MOST_BLANKS = 2
#: Fewer of a mark may stand in two sentences as well.
_FEWEST = {"|": 1, ";": 2, ",": 2}


def stretches(texts: Sequence[str]) -> list[tuple[int, int]]:
    """Where the stretches of lines begin and end; blank lines are empty. Linear."""
    found: list[tuple[int, int]] = []
    first: int | None = None
    last = -1
    for at, text in enumerate(texts):
        if not text:
            continue
        if first is None or (at - last > 1 and not _goes_on(texts[last], text, at - last - 1)):
            if first is not None:
                found.append((first, last + 1))
            first = at
        last = at
    if first is not None:
        found.append((first, last + 1))
    return found


def _goes_on(above: str, text: str, blanks: int) -> bool:
    """Whether a line is the next row of a table behind blank lines."""
    return blanks <= MOST_BLANKS and any(
        mark in text
        and _count(above, mark) == _count(text, mark) >= fewest
        # A sentence has a space behind its marks.
        and (mark == "|" or (f"{mark} " in above) == (f"{mark} " in text))
        for mark, fewest in _FEWEST.items()
    )


def _count(text: str, mark: str) -> int:
    """How often a mark stands in a line outside quotes."""
    return (QUOTED.sub("", text) if '"' in text else text).count(mark)


__all__ = ["MOST_BLANKS", "QUOTED", "stretches"]
