"""Lines that begin with how often their code was seen, behind their running number perhaps: "3. (77x) U0100 no data",
"01  95x  U0100". The count is put behind, where others have it, before a bracket at the end.

>>> from triage.intake.plain.characters import lines
>>> said = "01  95x  U1000 bus (old)\\n2) 7 x EL-114  lamp\\n  (x12) C0035\\n12 x 4 tyres"
>>> [line.text for line in behind(lines(said))]
['U1000 bus  95x  (old)', '2) EL-114  lamp  7x', '  C0035  12x', '12 x 4 tyres']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily

_LEAD = lazily(
    r"\s*(?:[(#]?[0-9]{1,3}[.):]\s{1,4})?(?P<lead>(?:[0-9]{1,3}\s{1,4})?[(\[]?(?:(?P<count>[0-9]{1,4})\s{0,2}(?:x|\u00d7|mal|times?|fois|veces)"
    r"|[x\u00d7]\s?(?P<times>[0-9]{1,4}))[)\]]?[\s:-]{1,5})(?=[a-z]{1,4}[ -]?[0-9])")
#: A status may stand last.
_BRACKET = lazily(r"(?<=\S)\s+[<(\[{][^<>()\[\]{}]{1,60}[>)\]}]\s*$")
#: Between cells a count has a column of its own.
_CELLS = ("|", ";", "\t")


def behind(found: Sequence[Line]) -> Sequence[Line]:
    """The lines with such counts at their end; the same lines where there are none. Linear."""
    out: list[Line] | None = None
    for at, line in enumerate(found):
        match = _LEAD.match(line.low)
        if match is None or any(mark in line.text for mark in _CELLS):
            continue
        out = list(found) if out is None else out
        bracket = _BRACKET.search(line.text)
        gap = " " if bracket is not None else ""
        end = bracket.start() if bracket is not None else len(line.text.rstrip())
        line = reworded(line, end, end, f"  {match['count'] or match['times']}x{gap}")
        out[at] = reworded(line, *match.span("lead"), "")
    return found if out is None else out


__all__ = ["behind"]
