"""The modules that a line names: those of the lists of names, and those that a scan above printed by a name nobody
lists ("EMPS")."""

from __future__ import annotations

import re
from typing import NamedTuple

from triage.intake.lines.row import Row
from triage.intake.said.near import small
from triage.intake.scan.context import Context

#: A name this short is a letter of something else.
_SHORTEST = 3


class Place(NamedTuple):
    """Where a line names a module, and which."""

    start: int
    end: int
    module: str


def named(context: Context, row: Row) -> list[Place]:
    """Every module that a row names, in the order of the row."""
    found = [Place(start, end, context.names.match(row.text[start:end]).canonical)
             for start, end, *_ in context.names.find(row.low)]
    printed = {module.printed: None for scan in context.builder.snapshots for module in scan.modules.values()}
    for name in printed:
        low = small(name)
        if len(low) < _SHORTEST or low not in row.low or any(low == row.low[one.start : one.end] for one in found):
            continue
        found += [Place(*match.span(), context.names.match(name).canonical)
                  for match in re.finditer(rf"(?<!\w){re.escape(low)}(?!\w)", row.low)
                  if not any(one.start < match.end() and match.start() < one.end for one in found)]
    return sorted(found)


__all__ = ["Place", "named"]
