"""What indentation says in a text: whether codes are set in below their headings, and where long lines go on."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from triage.intake.lines.row import Row


def flat(all_rows: Sequence[Row]) -> bool:
    """Whether indentation says nothing: no code stands further right than other lines do."""
    coded = [row.line.indent for row in all_rows if row.finds.codes]
    plain = [row.line.indent for row in all_rows if not row.finds.codes and not row.blank]
    return bool(coded) and bool(plain) and min(plain) >= min(coded)


def hanging(all_rows: Sequence[Row]) -> bool:
    """Whether long lines go on further right than their codes: twice or more, and more often than right below them."""
    right = left = 0
    for before, row in pairwise(all_rows):
        if before.finds.codes and not row.finds.codes and not row.blank:
            right += row.line.indent > before.line.indent
            left += row.line.indent == before.line.indent
    return right >= 2 and right > 2 * left


__all__ = ["flat", "hanging"]
