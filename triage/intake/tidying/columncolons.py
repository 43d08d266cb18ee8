"""Tables whose columns are parted by colons with blanks around them, below a head: "Module : Code : Status". They are
read as bars.

>>> from triage.intake.plain.characters import lines
>>> table = lines("Unit     : Fault : State\\nABS      : C0035 : stored\\n         : C0040 :\\nBattery : 12.1 V")
>>> [line.text for line in barred(table)]
['Unit     | Fault | State', 'ABS      | C0035 | stored', '         | C0040 |', 'Battery : 12.1 V']
>>> [line.text for line in barred(lines("Module : ABS  Code : C0035\\nModule : EPS  Code : C0545"))]
['Module : ABS  Code : C0035', 'Module : EPS  Code : C0545']
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from triage.intake.codes.found import find
from triage.intake.naming.heads import is_head, role_of
from triage.intake.plain.characters import Line
from triage.intake.plain.patterns import lazily

_COLON = lazily(r"(?:^|(?<=\s)):(?=\s|$)")
_FEWEST, _LONGEST = 2, 300


def barred(found: Sequence[Line]) -> list[Line]:
    """The lines, those with as many such colons as a head has with bars for them. Linear."""
    counts = [len(_COLON.findall(line.text)) if " : " in line.text and len(line.text) <= _LONGEST else 0
              for line in found]
    heads = {count for line, count in zip(found, counts, strict=True) if count >= _FEWEST and _is_head(line.low)}
    if not heads:
        return list(found)
    kept = list(found)
    for at, line in enumerate(found):
        if len(_COLON.findall(line.text)) in heads and len(line.text) <= _LONGEST:
            kept[at] = replace(line, text=_COLON.sub("|", line.text), low=_COLON.sub("|", line.low))
    return kept


def _is_head(low: str) -> bool:
    """Whether the cells between the colons of a line are names of columns, most of them known."""
    cells = [cell.strip() for cell in _COLON.split(low)]
    # "Code : C0035, Active : no" has values.
    roles = sum(role_of(cell) is not None for cell in cells)
    return not find(low, low).codes and is_head(cells) and 2 * roles > len(cells)


__all__ = ["barred"]
