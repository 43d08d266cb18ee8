"""Flags of a code's status by their standard names, with 1 and 0 or yes and no: "pendingDTC=0 confirmedDTC=1", put into
the one word that they come to.

>>> from triage.intake.lines.rows import rows_of
>>> text = "ECM P0562 pendingDTC=0 confirmedDTC=1\\nABS C0035\\nTest failed: 1\\nConfirmed: 1\\nBCM: P0700"
>>> [row.text for row in worded(rows_of(text))]
['ECM P0562 confirmed', 'ABS C0035', 'Status: current', 'BCM: P0700']
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered
from triage.intake.tidying import statusboxes
from triage.model.snapshot import StatusWord

_NAME = (
    r"(test[ _]?failed(?:[ _]?this[ _]?(?:operation|monitoring|drive)?[ _]?cycle|[ _]?since[ _]?last[ _]?clear)?|"
    r"test[ _]?not[ _]?completed?[ _]?(?:since[ _]?last[ _]?clear|this[ _]?(?:operation|monitoring)[ _]?cycle)|"
    r"(?:pending|confirmed)(?:[ _]?(?:dtc|bit))?|warning[ _]?indicator(?:[ _]?requested)?)"
)
_FLAG = lazily(rf"(?<![a-z0-9]){_NAME}\s?[:=]\s?(1|0|true|false|yes|no)(?![a-z0-9])")
#: Cheap, and in every such line.
_SIGN = lazily(r"test[ _]?(?:failed|not)|(?:pending|confirmed)(?:[ _]?(?:dtc|bit))?\s?[:=]\s?(?:[01]|[tf])")
_BETWEEN = " \t,;|/&()[]{}"
_SET = frozenset(("1", "true", "yes"))
_LONGEST = 400


def worded(rows: Sequence[Row]) -> list[Row]:
    """The rows, flags of a code in its own line or below it as the status they come to. Linear."""
    rows = statusboxes.told(rows)
    if not any(_may_hold(row.low) for row in rows):
        return rows
    found: list[Row] = []
    at = 0
    while at < len(rows):
        row = rows[at]
        if row.blank or len(row.low) > _LONGEST or not _may_hold(row.low):
            found.append(row)
            at += 1
            continue
        if row.finds.codes:
            found.append(_beside(row))
            at += 1
            continue
        flags: list[tuple[str, bool]] = []
        stop = at
        while stop < len(rows) and (more := _alone(rows[stop])):
            flags += more
            stop += 1
        if stop == at or not _standard(flags):
            found.append(row)
            at += 1
            continue
        status = _status(flags)
        if status is not None:
            found.append(row.saying(f"Status: {status}", row.finds))
        at = stop
    return found


@remembered
def _may_hold(low: str) -> bool:
    """Whether a flag may stand in a line; asked of every line."""
    return ("test" in low or "pending" in low or "confirmed" in low) and _SIGN.search(low) is not None


def _beside(row: Row) -> Row:
    """A row with one code and flags behind it, with their status in their place."""
    hits = list(_FLAG.finditer(row.low, row.finds.codes[-1].end))
    if len(row.finds.codes) > 1 or not hits:
        return row
    gaps = [row.low[one.end() : two.start()] for one, two in pairwise(hits)]
    flags = [(hit[1], hit[2] in _SET) for hit in hits]
    status = _status(flags)
    if any(gap.strip(_BETWEEN) for gap in gaps) or (len(hits) < 2 and not _standard(flags)):
        return row
    text = f"{row.text[: hits[0].start()]}{status or ''}{row.text[hits[-1].end() :]}".rstrip()
    return row.saying(text, row.finds)


def _alone(row: Row) -> list[tuple[str, bool]]:
    """The flags of a row that holds nothing else."""
    if row.blank or row.finds.codes or len(row.low) > _LONGEST:
        return []
    hits = list(_FLAG.finditer(row.low))
    if not hits or _FLAG.sub("", row.low).strip(_BETWEEN):
        return []
    return [(hit[1], hit[2] in _SET) for hit in hits]


def _standard(flags: Sequence[tuple[str, bool]]) -> bool:
    """Whether a name of the standard is among the flags: "confirmed: 1" may count a module's codes."""
    return any(name.startswith("test") or name.endswith(("dtc", "bit")) for name, _ in flags)


def _status(flags: Sequence[tuple[str, bool]]) -> StatusWord | None:
    """The status that flags come to. That the last test did not fail says nothing of now by itself."""
    told = {re.sub(r"[ _]|dtc$|bit$", "", name): value for name, value in flags}
    if told.get("testfailed"):
        return "current"
    if told.get("confirmed"):
        return "confirmed"
    return "pending" if told.get("pending") else None
