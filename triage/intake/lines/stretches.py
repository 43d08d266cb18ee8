"""Stretches: lines that are looked at together, because one mark may part the cells of all; and that mark.

A blank line ends a stretch, unless the lines around it hold the same mark as often: then it strayed into a table.

>>> stretches(["ECM;P0562;stored", "ABS;U0100;stored", "", "Notes; none", ""])
[(0, 2), (3, 4)]
>>> stretches(["ECM;P0562;stored", "", "ABS;U0100;stored"])
[(0, 3)]
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from triage.intake.lines.row import Row
from triage.intake.naming.heads import is_head, nearly_head, role_of
from triage.intake.plain.patterns import lazily
from triage.intake.said import phases

QUOTED = lazily(r'"((?:[^"]|"")*)"')
#: So many blank lines may stray into a table.
MOST_BLANKS = 2
#: Fewer of a mark may stand in two sentences as well.
_FEWEST = {"|": 1, ";": 2, ",": 2}


def stretches(texts: Sequence[str]) -> list[tuple[int, int]]:
    """Where the stretches of lines begin and end; blank lines are empty. Linear."""
    found: list[tuple[int, int]] = []
    first: int | None = None
    last = -1
    for at, text in enumerate(texts):
        if not text:
            continue
        if first is None or (at - last > 1 and not _goes_on(texts[last], text, at - last - 1)):
            if first is not None:
                found.append((first, last + 1))
            first = at
        last = at
    if first is not None:
        found.append((first, last + 1))
    return found


def _goes_on(above: str, text: str, blanks: int) -> bool:
    """Whether a line is the next row of a table behind blank lines."""
    return blanks <= MOST_BLANKS and any(
        mark in text
        and _count(above, mark) == _count(text, mark) >= fewest
        # A sentence has a space behind its marks.
        and (mark == "|" or (f"{mark} " in above) == (f"{mark} " in text))
        for mark, fewest in _FEWEST.items()
    )


def _count(text: str, mark: str) -> int:
    """How often a mark stands in a line outside quotes."""
    return (QUOTED.sub("", text) if '"' in text else text).count(mark)


def list_mark(rows: Sequence[Row]) -> str:
    """The mark (";" or ",") that cuts a stretch of lines into as many cells line after line, or "" for none."""
    for mark in (";", ","):
        marked = [row for row in rows if mark in row.text]
        if not marked:
            continue
        if any(_heads(_parts(row, mark), rows, mark) for row in rows[:12] if mark in row.text):
            return mark
        counts = Counter(row.text.count(mark) for row in marked)
        usual, often = max(counts.items(), key=lambda pair: (pair[1], pair[0]))
        coded = [row for row in rows if row.finds.codes and mark in row.text]
        if (
            usual >= 2
            and coded
            and (min(len(coded), often) >= 2 or (len(coded[0].finds.codes) > 1 and often > 2) or (
                usual >= 3 and len(marked) == 1 and f"{mark} " not in marked[0].text))
            and often >= 0.6 * sum(counts.values())
            and (sum(_stands_in_cell(row, mark) for row in coded) >= 0.7 * len(coded))
        ):
            if mark == "," and sum(", " in row.text for row in coded) > 0.5 * len(coded):
                continue
            return mark
    return ""


def _parts(row: Row, mark: str) -> list[str]:
    """What stands between the marks of a line; one inside quotes parts nothing."""
    low = row.low
    cuts = places_outside_quotes(low, mark)
    starts, stops = [0, *(end for _, end in cuts)], [*(start for start, _ in cuts), len(low)]
    return [low[start:stop].strip(' "') for start, stop in zip(starts, stops, strict=True)]


def _heads(parts: list[str], rows: Sequence[Row], mark: str) -> bool:
    """Whether the parts of a line are heads of columns, or name scans over as many cells in most rows."""
    if is_head(parts) or nearly_head(parts):
        return True
    if len(parts) < 3 or role_of(parts[0]) != "module":
        return False
    told = {hit.phase for part in parts[1:] if len(part) <= 60 and (hit := phases.find(part)) is not None}
    if len(told) > 1:
        return True
    counted = [len(_parts(row, mark)) for row in rows[1:40] if not row.blank]
    return bool(told) and 2 * counted.count(len(parts)) > len(counted)


def _stands_in_cell(row: Row, mark: str) -> bool:
    """Whether the first code of the row fills a cell of its own."""
    code = row.finds.codes[0]
    before, after = row.text[: code.start].rstrip(' "'), row.text[code.end :].lstrip(' "')
    return (not before or before[-1] in mark) and (not after or after[0] in mark)


def places(text: str, mark: str) -> list[tuple[int, int]]:
    """Where a mark stands in a text."""
    found = []
    at = text.find(mark)
    while at >= 0:
        found.append((at, at + 1))
        at = text.find(mark, at + 1)
    return found


def places_outside_quotes(text: str, mark: str) -> list[tuple[int, int]]:
    """The places of ``mark`` outside quoted fields."""
    if '"' not in text:
        return places(text, mark)
    return places(QUOTED.sub(lambda match: " " * len(match[0]), text), mark)


__all__ = ["MOST_BLANKS", "QUOTED", "list_mark", "places", "places_outside_quotes", "stretches"]
