"""Signs that a legend explains, before makers' own numbers: "* 00532 supply low" where "*" is for sporadic. The word
the status is put behind the text, where it stands in other lists.

>>> from triage.intake.lines.rows import rows_of
>>> rows = rows_of("ABS\\n  * 00532 supply low\\n  ! 9A1BC2\\n  - 2 wheels")
>>> [row.text for row in told(rows, {"*": "stored", "!": "current", "-": "pending"})]
['ABS', '00532 supply low (stored)', '9A1BC2 (current)', '2 wheels']
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from triage.intake.lines.row import Row
from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.model import codes as model_codes
from triage.model.snapshot import StatusWord

_LED = lazily(r"\s*(?P<sign>[^\w\s]{1,2})\s{1,4}(?P<number>[a-z0-9]{4,8})(?![^\s:;,|])")
_LONGEST = 200


def told(rows: Sequence[Row], statuses: Mapping[str, StatusWord]) -> list[Row]:
    """The rows, those that begin with such a sign with its status behind them. Linear."""
    found = list(rows)
    for at, row in enumerate(rows):
        line = row.line
        if row.blank or row.finds.codes or len(line.low) > _LONGEST or "|" in line.text:
            continue
        match = _LED.match(line.low)
        status = statuses.get(match["sign"]) if match is not None else None
        if match is None or status is None or not has_digit(match["number"]):
            continue
        start = match.start("number")
        if row.start <= start and model_codes.own(line.text[start : match.end()]) is not None and (
                line.text.rstrip().endswith(row.text.rstrip())):
            found[at] = row.part(start - row.start).saying(f"{row.text[start - row.start :].rstrip()} ({status})")
    return found


__all__ = ["told"]
