"""Blocks of keys in another order than that of module, code, status: the status before its code, the module behind or
last of all. They are put in that order, in which the readers of keys take one line after the other.

>>> from triage.intake.lines.rows import rows_of
>>> said = "Module: ABS\\nState 1: historic\\nCode 1: C0110\\nText 1: pump\\nState 2: active\\nCode 2: C0031"
>>> [row.text for row in put_behind(rows_of(said))][1:]
['Code 1: C0110', 'State 1: historic', 'Text 1: pump', 'Code 2: C0031', 'State 2: active']
>>> said = "State: historic\\nCode: C0110\\nUnit: ABS\\n\\nResult: no answer\\nUnit: Radio"
>>> [row.text for row in put_behind(rows_of(said))]
['Unit: ABS', 'Code: C0110', 'State: historic', '', 'Unit: Radio', 'Result: no answer']
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.plain.patterns import lazily
from triage.intake.said import states

_KEY = lazily(r"([a-z][a-z ._-]{1,28}?)[ ._-]?(?:[0-9]{1,3})?\s*[:=]\s*(?=\S)")
_ANY_KEY = lazily(r"([a-z][a-z0-9 ./_-]{0,28}?)\s*[:=]\s*(?=\S)")
_FEWEST, _LONGEST = 2, 160
#: The order of a record's keys, the others behind, and what tells of a module.
_ORDER = {"module": 0, "code": 1, "spn": 1, "fmi": 2}
_OF_CODES = frozenset(("code", "spn", "fmi", "answer", "reply", "status", "count_of_codes", "description"))
_TOLD = frozenset(("code", "spn", "answer", "reply", "status", "count_of_codes"))


def put_behind(rows: Sequence[Row]) -> list[Row]:
    """The rows of such blocks in order. Linear."""
    found = list(rows)
    start = 0
    for at in range(len(rows) + 1):
        if at == len(rows) or rows[at].blank or not any(map(str.isalnum, rows[at].text[:_LONGEST])):
            if at - start >= _FEWEST:
                records = list(_records(rows[start:at]))
                found[start:at] = [row for record in records for row in record] if records else _block(rows[start:at])
            start = at + 1
    return found


def _records(rows: Sequence[Row]) -> Iterator[list[Row]]:
    """The rows of one block that tells of each of its codes, or of what a module answered, with the same keys, the name
    of the module last or among them: module, code and the others, record by record. None where it is no such block."""
    parts: list[list[Row]] = []
    for row in rows:
        # What is set in below a key goes on with its value.
        if parts and row.line.indent > rows[0].line.indent and not _key(row)[0]:
            parts[-1].append(row)
        else:
            parts.append([row])
    keys = [_key(part[0]) for part in parts]
    named = [at for at, (_, role) in enumerate(keys) if role == "module"]
    if not named or not named[0] or any(not key for key, _ in keys):
        return
    first = [at for at, (key, _) in enumerate(keys) if key == keys[0][0]]
    if named[-1] == len(parts) - 1:
        starts = [0, *(at + 1 for at in named[:-1])]
    elif len(first) == len(named):
        starts = first
    else:
        return
    records = list(pairwise([*starts, len(parts)]))
    for start, stop in records:
        roles = [role for _, role in keys[start:stop]]
        if roles.count("module") != 1 or roles.count("code") > 1 or not _TOLD & set(roles):
            return
    # What leads each record and tells nothing of a module ("Pass: 2") stays ahead of it: the record belongs there.
    lead = int(keys[0][1] not in _OF_CODES and starts[-1] in first)
    for start, stop in records:
        record = sorted(parts[start + lead:stop], key=lambda part: _ORDER.get(_key(part[0])[1] or "", len(_ORDER)))
        yield [row for part in (*parts[start:start + lead], *record) for row in part]


def _key(row: Row) -> tuple[str, str | None]:
    """The key of a row and its role; "" for a row without one."""
    match = _ANY_KEY.match(row.low)
    return (match[1], role_of(match[1])) if match is not None else ("", None)


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
