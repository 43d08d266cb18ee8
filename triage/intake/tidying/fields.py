"""Lines of several keys with their values, cut into one row for each: "{ecu: ABS, dtc: C0040, status: stored}".

>>> from triage.intake.lines.rows import rows_of
>>> [row.text for row in cut(rows_of('status=stored ecu="Engine control" code=P0562\\nABS: code C0040'))]
['ecu="Engine control', 'code=P0562', 'status=stored', 'ABS: code C0040']
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from triage.intake.lines.layouts import Row
from triage.intake.naming.heads import role_of

_KEY = re.compile(r"(?:^|(?<=[\s,;|{]))([a-z][a-z_-]{0,22}(?: [a-z]{1,12})?)\s?[:=]\s?(?=[^\s:=/])")
_ROLES = frozenset(
    {"module", "code", "failure_type", "status", "status_byte", "description", "count", "count_of_codes", "answer",
     "reply", "spn", "fmi"}
)
#: The order in which the rows are read, whatever the order in the line.
_ORDER = ("module", "code", "spn", "fmi")
_EDGE = " \t,;|{}[]\"'"


def cut(rows: Sequence[Row]) -> list[Row]:
    """The rows, those of several known keys cut at them: the module first, then the code, then the rest."""
    found: list[Row] = []
    for row in rows:
        found += _fields(row) if row.text and (":" in row.text or "=" in row.text) else [row]
    return found


def _fields(row: Row) -> list[Row]:
    """One row as its fields; the row itself where it does not start with a known key, or holds one only."""
    first = _KEY.search(row.low)
    if first is None or row.low[: first.start(1)].strip(_EDGE) or role_of(first[1], exactly=True) is None:
        return [row]
    keys = [
        (match.start(1), role)
        for match in _KEY.finditer(row.low)
        if (role := role_of(match[1], exactly=True)) in _ROLES or role == "other"
    ]
    if any(code.kind == "J1939" for code in row.finds.codes):
        # "SPN: 94 FMI: 18" is one code.
        keys = [(start, role) for start, role in keys if role not in ("spn", "fmi")]
    roles = {role for _, role in keys}
    if len(keys) < 2 or len(roles) < 2 or row.low[: keys[0][0]].strip(_EDGE) or not roles & {"module", "code", "spn"}:
        return [row]
    stops = [start for start, _ in keys[1:]] + [len(row.text)]
    parts: list[tuple[int, Row]] = []
    for (start, role), stop in zip(keys, stops, strict=True):
        text = row.text[start:stop].rstrip(_EDGE)
        rank = _ORDER.index(role) if role in _ORDER else len(_ORDER)
        parts.append((rank, Row(row.line, text, row.start + start)))
    parts.sort(key=lambda part: part[0])
    return [part for _, part in parts]
