"""Lines of a sheet with one cell, the title of a scan or what stands above the head: the marks of the empty cells
behind it are none of its text.

>>> from triage.intake.plain.characters import lines
>>> sheet = "Bay 4;;\\nUnit;Code;State\\nABS;C0035;stored\\nRadio;;\\nAfter clearing;;\\n12.4 V;;\\nABS;;no codes"
>>> [line.text for line in bared(lines(sheet))]
['Bay 4', 'Unit;Code;State', 'ABS;C0035;stored', 'Radio;;', 'After clearing', '12.4 V', 'ABS;;no codes']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.codes.found import find
from triage.intake.lines.columnlines import heads_scan
from triage.intake.plain.characters import Line, reworded
from triage.intake.plain.patterns import lazily
from triage.intake.said import volts

#: The mark at the end of a line with one cell, and between two cells: one with a space behind parts a list of names.
_MARKS = ((";", lazily(r";\S")), ("\t", lazily(r"\t.")), (",,", lazily(r",\S")))
#: So many rows with several cells make a sheet.
_FEWEST = 2
_LONGEST = 120


def bared(found: Sequence[Line]) -> Sequence[Line]:
    """The lines, those without such marks; the same lines where there are none. Linear."""
    for mark, between in _MARKS:
        ends = {at: end for at, line in enumerate(found) if (end := _end(line, mark)) is not None}
        rows = [at for at, line in enumerate(found) if at not in ends and between.search(line.text)] if ends else []
        if len(rows) < _FEWEST:
            continue
        lone = [at for at in ends if at < rows[0] or _tells_of_the_scan(found[at], ends[at])]
        if lone:
            out = list(found)
            for at in lone:
                out[at] = reworded(out[at], ends[at], len(out[at].text), "")
            return out
    return found


def _end(line: Line, mark: str) -> int | None:
    """Where the only cell of a line ends; None where it has none or several."""
    if mark not in line.text[-len(mark) - 2 :]:
        return None
    bare = line.text.rstrip(f"{mark} ")
    return len(bare) if 0 < len(bare) <= _LONGEST and mark[0] not in bare else None


def _tells_of_the_scan(line: Line, end: int) -> bool:
    """Whether the only cell of a line tells when a scan was taken, or of its supply."""
    low = line.low[:end]
    return not find(line.text).codes and (heads_scan(low) or bool(volts.find(low)))


__all__ = ["bared"]
