"""Statuses that stand in other brackets than round or square ones behind what they are said of: in round ones.

>>> from triage.intake.plain.characters import lines
>>> [line.text for line in rounded(lines("<ABS>\\nC0035 open <stored>\\nC0040 low <no\\n  longer active>\\nC0051 <1>"))]
['<ABS>', 'C0035 open (stored)', 'C0040 low (no', '  longer active)', 'C0051 <1>']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.plain import signs
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said import states

#: The last bracket of a line, closed there or in the next line; what it holds is no tag.
_BEHIND = lazily(r"[<\u27e8\u2329\u3008\u3010]\s*([^\W\d][^<>\u27e8\u27e9\u2329\u232a\u3008-\u3011/]{0,60})"
                 r"([>\u27e9\u232a\u3009\u3011]?)\s*$")
_CLOSING = lazily(r"\s*([^<>\u27e8\u27e9\u2329\u232a\u3008-\u3011/]{1,60})([>\u27e9\u232a\u3009\u3011])\s*$")
_SIGN = signs.of_parts(*">\u27e9\u232a\u3009\u3011")
#: That many of the brackets of a text hold a status where they are there for it.
_MOST = 0.5

#: Where a bracket opens and closes: the places of the lines, and those within them.
Place = tuple[tuple[int, int], tuple[int, int]]


def rounded(found: Sequence[Line]) -> Sequence[Line]:
    """The lines, those brackets round where most of a text's that stand so hold a status. Linear."""
    told: list[tuple[Place, bool]] = []
    for at in signs.places(found, _SIGN):
        told += [place for place in (_closed(found, at), _torn(found, at)) if place is not None]
    statuses = sum(status for _, status in told)
    if not statuses or statuses < _MOST * len(told):
        return found
    changed = list(found)
    for (opens, closes), _ in told:
        for (at, start), mark in ((closes, ")"), (opens, "(")):
            changed[at] = reworded(changed[at], start, start + 1, mark)
    return changed


def _closed(found: Sequence[Line], at: int) -> tuple[Place, bool] | None:
    """The bracket at the end of a line, behind something else or set in, and whether it holds a status."""
    line = found[at]
    match = _BEHIND.search(line.low)
    if match is None or not match[2] or not (line.low[: match.start()].strip() or line.indent):
        return None
    return ((at, match.start()), (at, match.start(2))), states.of_cell(match[1]) is not None


def _torn(found: Sequence[Line], at: int) -> tuple[Place, bool] | None:
    """The bracket that the line above opens and a line closes, if it holds a status."""
    above = _BEHIND.search(found[at - 1].low) if at else None
    below = _CLOSING.match(found[at].low) if above is not None and not above[2] else None
    if above is None or below is None or states.of_cell(f"{above[1].strip()} {below[1]}") is None:
        return None
    return ((at - 1, above.start()), (at, below.start(2))), True


__all__ = ["rounded"]
