"""Blocks of keys in which the status of each code stands before it: put behind the code, where the next one's stands.

>>> from triage.intake.lines.rows import rows_of
>>> said = "Module: ABS\\nState 1: historic\\nCode 1: C0110\\nText 1: pump\\nState 2: active\\nCode 2: C0031"
>>> [row.text for row in put_behind(rows_of(said))][1:]
['Code 1: C0110', 'State 1: historic', 'Text 1: pump', 'Code 2: C0031', 'State 2: active']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.plain.patterns import lazily
from triage.intake.said import states

_KEY = lazily(r"([a-z][a-z ._-]{1,28}?)[ ._-]?(?:[0-9]{1,3})?\s*[:=]\s*(?=\S)")
_FEWEST = 2


def put_behind(rows: Sequence[Row]) -> list[Row]:
    """The rows, such statuses behind their codes. Linear."""
    found = list(rows)
    start = 0
    for at in range(len(rows) + 1):
        if at == len(rows) or rows[at].blank or rows[at].kind == "rule":
            if at - start > _FEWEST:
                found[start:at] = _block(rows[start:at])
            start = at + 1
    return found


def _block(rows: Sequence[Row]) -> Sequence[Row]:
    """The rows of one block, which may tell of several modules."""
    roles = [_role(row) for row in rows]
    codes = [at for at, role in enumerate(roles) if role == "code"]
    told = [at for at, role in enumerate(roles) if role == "status"]
    if len(codes) < _FEWEST or len(told) != len(codes):
        return rows
    if any(above > code for above, code in zip(told, codes, strict=True)) or any(
            above < code for above, code in zip(told[1:], codes, strict=False)):
        # Each stands between the code before and its own.
        return rows
    order = list(range(len(rows)))
    for above, code in zip(told, codes, strict=True):
        order[above:code + 1] = [*order[above + 1 : code + 1], order[above]]
    return [rows[at] for at in order]


def _role(row: Row) -> str | None:
    """ "code" for a key with a code, "status" for one with a status."""
    match = _KEY.match(row.low) if ":" in row.text or "=" in row.text else None
    role = role_of(match[1]) if match is not None else None
    if match is None or role == "code":
        return role
    return role if role == "status" and states.of_cell(row.low[match.end() :]) is not None else None


__all__ = ["put_behind"]
