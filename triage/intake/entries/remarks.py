"""Remarks behind a key of their own: those that tell of the scan, and the text of a code that stands above it, in which
what is said of other modules is no answer of theirs.

>>> from triage.intake.lines.rows import rows_of
>>> head_code(rows_of("Text: no communication with engine\\nCode: U0100"), 0)
True
>>> head_code(rows_of("Remark: radio does not answer\\nModule: engine\\nCode: U0100"), 0)
False
>>> tell_of_scan("before clearing"), tell_of_scan("reading 03.05.2024 09:10"), tell_of_scan("seen 03.05.2024")
(True, True, False)
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.plain.patterns import lazily
from triage.intake.said import dates, phases
from triage.intake.words.scan_words import BEFORE_DATE

_KEY = lazily(r"([a-z][a-z0-9 ./_-]{0,28}?)(?:\s*\.{2,})?\s*[:=]\s*(?=\S)")
_SCAN = lazily(rf"(?:{BEFORE_DATE}|prufung |test |run |check |controle |control )(?=[0-9])")
#: The foot and the head of a page may stand between.
_FARTHEST = 4


def head_code(rows: Sequence[Row], at: int) -> bool:
    """Whether the next key in the block below a row is that of a code."""
    for row in rows[at + 1 : at + 1 + _FARTHEST]:
        if row.blank:
            return False
        if (key := _KEY.match(row.low)) is not None and (role := role_of(key[1])) is not None:
            return role == "code" and bool(row.finds.codes)
    return False


def tell_of_scan(low: str) -> bool:
    """Whether a remark says where the scan stands, when it was made, or what was done before it."""
    if phases.find(low) is not None or phases.events(low):
        return True
    lead = _SCAN.match(low)
    return lead is not None and set(range(lead.end(), len(low))) <= dates.places(low) | {
        at for at, sign in enumerate(low) if sign in " ,"}


__all__ = ["head_code", "tell_of_scan"]
