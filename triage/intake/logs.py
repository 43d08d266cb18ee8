"""Lines of a log: the time and the level that stand before each of them are taken off.

>>> from triage.intake.rows import rows_of
>>> lines = "2024-05-01 10:02:12 INFO ECM P0562\\n2024-05-01 10:02:13 WARN ABS: no answer\\n2024-05-01 10:02:14 BCM ok"
>>> [row.text for row in unstamped(rows_of(lines))]
['2024-05-01 10:02:12', 'ECM P0562', 'ABS: no answer', 'BCM ok']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.layouts import Row
from triage.intake.patterns import lazily

_STAMP = lazily(
    r"[\[(]?(?:[0-9]{4}[-/.][0-9]{2}[-/.][0-9]{2}|[0-9]{2}[-/.][0-9]{2}[-/.][0-9]{2,4})[T ,]{1,2}"
    r"[0-9]{2}:[0-9]{2}:[0-9]{2}"
    r"(?:[.,][0-9]{1,6})?(?:Z|[+-][0-9]{2}:?[0-9]{2})?[\])]?"
)
_LEVEL = lazily(
    r"\s*[\[(]?(?:INFO|WARN(?:ING)?|ERR(?:OR)?|DEBUG|TRACE|NOTICE|FATAL|DTC|RX|TX|MSG)[\])]?\s*[:|-]?\s+(?=\S)"
)


def unstamped(rows: Sequence[Row]) -> list[Row]:
    """The rows without their times, the first of those in a row of its own, where most rows start with one."""
    filled = [row for row in rows if row.text]
    stamped = [row for row in filled if "0" <= row.text.lstrip("[(")[:1] <= "9" and _STAMP.match(row.text)]
    if len(stamped) < 3 or len(stamped) < 0.6 * len(filled) or any(row.text.count("\t") > 1 for row in stamped[:3]):
        return list(rows)
    found: list[Row] = []
    first = True
    for row in rows:
        match = _STAMP.match(row.text) if row.text else None
        if match is None:
            found.append(row)
            continue
        if first:
            found.append(Row(row.line, match[0].strip("[]()"), row.start + match[0].startswith(("[", "("))))
            first = False
        level = _LEVEL.match(row.text, match.end())
        at = level.end() if level is not None else match.end()
        at += len(row.text[at:]) - len(row.text[at:].lstrip(" \t-:|,;"))
        if at < len(row.text):
            found.append(Row(row.line, row.text[at:], row.start + at))
    return found
