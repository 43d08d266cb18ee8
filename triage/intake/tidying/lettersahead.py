"""Letters that a legend explains, in brackets right before the codes of a line, as the words that they stand for:
"ABS > [S] C0035, [A] U0100" where S is stored and A is active.

>>> from triage.intake.lines.rows import rows_of
>>> found = rows_of("ABS > [S] C0035 & [A] U0100\\nECM > P0562 [S], P0563 [A]")
>>> [row.text for row in written(found, {"s": "stored", "a": "current"})]
['ABS > stored C0035 & current U0100', 'ECM > P0562 [S], P0563 [A]']
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.model.snapshot import StatusWord

_AHEAD = lazily(r"[(\[<{]\s?([a-z]{1,3})\s?[)\]>}]:?\s{0,2}$")
_BEHIND = lazily(r"[^,;&+]{0,40}?[(\[<{]\s?([a-z]{1,3})\s?[)\]>}]")
_REACH = 10


def written(rows: Sequence[Row], statuses: Mapping[str, StatusWord]) -> list[Row]:
    """The rows, such letters as words where each code of a row but its first stands behind one and none before one.
    Linear."""
    return [_worded(row, statuses) if statuses and row.finds.codes and not row.blank else row for row in rows]


def _worded(row: Row, statuses: Mapping[str, StatusWord]) -> Row:
    """A row with the words for the letters before its codes; the same where one stands behind the last."""
    codes = row.finds.codes
    last = _BEHIND.match(row.low, codes[-1].end)
    if last is not None and last[1] in statuses:
        return row
    text = row.text
    for behind, code in reversed(list(zip((0, *(one.end for one in codes)), codes, strict=False))):
        start = max(code.start - _REACH, behind)
        match = _AHEAD.search(row.low[start : code.start])
        if match is not None and match[1] in statuses:
            text = f"{text[: start + match.start()]}{statuses[match[1]]} {text[code.start :]}"
    return row if text == row.text else row.saying(text)


__all__ = ["written"]
