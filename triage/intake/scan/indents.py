"""What stands before the lines of a text: whether codes are set in below their headings, where long lines go on, and
whether every heading has its number."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

from triage.intake.lines.row import Row
from triage.intake.naming import IsName
from triage.intake.naming.names import LONGEST_NAME, tidy
from triage.intake.plain.patterns import lazily

#: The number or the address of a module before its name.
NUMBER_BEFORE = lazily(
    r"\s*[(#\[]?(?:0x|\$)?(?=[0-9a-f]{0,2}[0-9])[0-9a-f]{1,3}h?(?:[.:)\]]\s*|\s[-:]\s|\s+)", re.IGNORECASE)
_NAMED = 0.6


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


def is_numbered(row: Row) -> bool:
    """Whether a number was taken off before a row."""
    return row.start > 0 and NUMBER_BEFORE.fullmatch(row.line.text, 0, row.start) is not None


def numbered(all_rows: Sequence[Row], is_name: IsName) -> bool:
    """Whether the headings of a text are numbered and nothing else is: most of several rows with a number name a
    module, no row without one does, and none with one holds a code; nor does one above the first of them."""
    heads = [at for at, row in enumerate(all_rows) if is_numbered(row)]
    if len(heads) < 2 or any(row.finds.codes for row in (*all_rows[: heads[0]], *(all_rows[at] for at in heads))):
        return False
    named = sum(is_name(tidy(all_rows[at].text)) for at in heads)
    return named >= _NAMED * len(heads) and not any(
        is_name(tidy(row.text)) for row in all_rows[heads[0] :]
        if not (row.blank or row.finds.codes or len(row.text) > LONGEST_NAME or is_numbered(row)))


__all__ = ["NUMBER_BEFORE", "flat", "hanging", "is_numbered", "numbered"]
