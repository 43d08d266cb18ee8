"""A sentence that tells the supply, behind or before one that explains letters, in a row of its own: the one is left
out of the scan, the other is not.

>>> from triage.intake.lines.rows import rows_of
>>> [row.text for row in cut(rows_of("H = history, A = active. Battery: 11.2 V\\nA = active. Next"))]
['H = history, A = active.', 'Battery: 11.2 V', 'A = active. Next']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.lines import supplyrow
from triage.intake.lines.row import Row
from triage.intake.plain import signs
from triage.intake.plain.patterns import lazily
from triage.intake.said import volts

_STOP = lazily(r"[.;]\s{1,3}(?=[a-z(])")
#: A letter and the word that it stands for: "H = history", "(A): active".
_LETTER = lazily(r"(?<![a-z0-9])[a-z]{1,2}[)\]]?\s?[=:]\s?[a-z]{3}")
#: Every such row holds a letter with its mark, and the supply behind or before it.
_SIGN = signs.of_text(r"(?<![a-z0-9])[a-z]{1,2}[)\]]?\s?[=:]\s?[a-z]{3}")
_LONGEST = 200


def cut(rows: Sequence[Row]) -> list[Row]:
    """The rows, such sentences apart. Linear."""
    found: list[Row] = []
    for row in rows:
        cuts = _cuts(row) if signs.of(row.line.low) & _SIGN and not row.finds.codes else []
        found += [row.part(start, end) for start, end in cuts] if cuts else [row]
    return found


def _cuts(row: Row) -> list[tuple[int, int]]:
    """The places of the sentences of a row, of which some explain letters and others tell the supply; empty for every
    other row."""
    stops = list(_STOP.finditer(row.low)) if len(row.low) <= _LONGEST else []
    starts = [0, *(stop.end() for stop in stops)]
    parts = list(zip(starts, [*(stop.start() + 1 for stop in stops), len(row.low)], strict=True))
    legends = [part for part in parts if _LETTER.search(row.low, *part)]
    if not legends or not any(
            supplyrow.alone(row.low[start:end].rstrip(" .;")) for start, end in parts if (start, end) not in legends):
        return []
    return [] if any(volts.find(row.low[start:end]) for start, end in legends) else parts


__all__ = ["cut"]
