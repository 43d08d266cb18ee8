"""Pages that are counted without a word for it: a line ends with "1/5", and the same one a page further with "2/5".

>>> from triage.intake.lines.rows import rows_of
>>> page = "\\n".join(f"ABS C00{number}" for number in range(31, 43))
>>> sorted(of(rows_of(f"Van 7, bay 2  1/2\\n{page}\\nVan 7, bay 2  2/2\\n{page}")))
[0, 13]
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from itertools import pairwise

from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.plain.characters import has_letter
from triage.intake.plain.patterns import lazily

_COUNT = lazily(r"(?<=[\s(\[])([0-9]{1,3})\s?(?:/|of|von|de|sur)\s?([0-9]{1,3})[)\]]?(?: ?-+)?$")
_LONGEST = 120
#: The heads of two pages stand at least so many lines apart, blank ones with them: entries of a list are shorter.
_SHORTEST_PAGE = 8


def of(rows: Sequence[Row]) -> set[int]:
    """The places of the rows that count the pages of a print: all alike but for a number that goes up by one from each
    to the next, up to what it is counted against at most. Linear."""
    alike: dict[tuple[str, int], list[tuple[int, int]]] = defaultdict(list)
    for at, row in enumerate(rows):
        if row.blank or row.finds.codes or row.roles or len(row.text) > _LONGEST:
            continue
        match = _COUNT.search(row.low)
        if match is None:
            continue
        number, total = int(match[1]), int(match[2])
        rest = row.low[: match.start()].rstrip(" -|:,([")
        if has_letter(rest) and role_of(rest) is None and 0 < number <= total:
            alike[rest, total].append((at, number))
    return {at for found in alike.values() if _go_up(found) for at, _ in found}


def _go_up(found: Sequence[tuple[int, int]]) -> bool:
    """Whether some counts, with their places, are those of pages one behind the other."""
    return len(found) > 1 and all(
        later == number + 1 and below - at >= _SHORTEST_PAGE for (at, number), (below, later) in pairwise(found))


__all__ = ["of"]
