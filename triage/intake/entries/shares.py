"""Which part of a cell belongs to which of the codes of its row: "P2263, P0562 | active, stored".

>>> from triage.intake.said import states
>>> share_of("active<br>stored", (2, 1)), share_of("active / stored", (2, 1))
('stored', 'active / stored')
>>> share_of("active / stored", (2, 1), states.of_cell)
'stored'
>>> share_of("confirmed, active", (2, 0), states.of_cell), share_of("stored", (2, 1), states.of_cell)
('confirmed, active', 'stored')
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from triage.intake.plain.patterns import lazily
from triage.intake.said.near import small

#: Between the lines of a cell, and between what is listed in one.
BREAK = lazily(r"\s*<br ?/?>\s*|\s\s+", re.IGNORECASE)
_LISTED = lazily(r"\s*(?:[,;/+&|]|(?<![a-z])(?:and|und|et|y)(?![a-z]))\s*", re.IGNORECASE)
_TYPE = lazily(r"(?:0x|\$|-)?[0-9a-f]{2}h?")


def share_of(text: str, shares: Sequence[int], tells: Callable[[str], object] | None = None) -> str:
    """The line of a cell that belongs to one code, where the cell has one for each; else all. ``shares``: the number of
    codes, and the place of the code among them.
    ``tells``: what each part must tell where they are listed in one line. "Confirmed, active" is said of each code."""
    count, at = shares
    if count < 2:
        return BREAK.sub("  ", text)
    parts = [part for part in BREAK.split(text) if part.strip()]
    if len(parts) != count and tells is not None:
        listed = [part.strip(" ()[]") for part in _LISTED.split(text.strip())]
        told = [tells(small(part)) for part in listed] if len(listed) == count else [None]
        if all(told) and not ("confirmed" in told and len(set(told)) > 1):
            parts = listed
    return parts[at].strip() if len(parts) == count else BREAK.sub("  ", text)


def is_type(low: str) -> bool:
    """Whether a text is a failure type by its form: two hexadecimal digits."""
    return _TYPE.fullmatch(low) is not None


__all__ = ["BREAK", "is_type", "share_of"]
