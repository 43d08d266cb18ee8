"""Tables with a scan in every column whose cells are parted by commas, below a head that names them: "Fault,Scan 1,
Scan 2". They are read as if tabs stood there.

>>> from triage.intake.plain.characters import lines
>>> [line.text for line in tabbed(lines("Fault,08:00,09:10\\nABS C0035,x,\\n\\nLater, 12.4 V, fine"))]
['Fault\\t08:00\\t09:10', 'ABS C0035\\tx\\t', '', 'Later, 12.4 V, fine']
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from triage.intake.naming.heads import role_of
from triage.intake.plain.characters import Line
from triage.intake.tidying.firstcolumn import heads_rows
from triage.intake.tidying.scancells import may_name_a_scan

_MARKS = (",", ";")
_FEWEST, _LONGEST = 2, 300


def tabbed(found: Sequence[Line]) -> list[Line]:
    """The lines, those of such tables with tabs for the marks between their cells. Linear."""
    kept = list(found)
    at = 0
    while at < len(kept):
        mark = _mark(kept[at])
        if not mark:
            at += 1
            continue
        count, spaced = kept[at].text.count(mark), f"{mark} " in kept[at].text
        while at < len(kept) and len(kept[at].text) <= _LONGEST and (
                not kept[at].text.strip()
                or (kept[at].text.count(mark) == count and (spaced or f"{mark} " not in kept[at].text))):
            # A blank line ends no table, a sentence with commas does.
            line = kept[at]
            kept[at] = replace(line, text=line.text.replace(mark, "\t"), low=line.low.replace(mark, "\t"))
            at += 1
    return kept


def _mark(line: Line) -> str:
    """The mark between the cells of a head of such a table; "" for any other line."""
    if len(line.text) > _LONGEST or "\t" in line.text or "|" in line.text:
        return ""
    for mark in _MARKS:
        if line.text.count(mark) < _FEWEST:
            continue
        cells = [cell.strip() for cell in line.low.split(mark)]
        first = cells[0]
        if any(map(str.isdigit, first)):
            continue  # "Scan 2, codes cleared and read again, 12.1 V" is no head of a table, but of a scan.
        if first and role_of(first) not in ("module", "code", "scan") and not heads_rows(first):
            continue
        named = [may_name_a_scan(cell) for cell in cells[1:]]
        known = [told or role_of(cell) is not None for told, cell in zip(named, cells[1:], strict=True)]
        if sum(named) >= _FEWEST and all(known):
            return mark
    return ""


__all__ = ["tabbed"]
