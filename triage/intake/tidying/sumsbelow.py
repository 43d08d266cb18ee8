"""Lists with their sum below, which names the module: "=> 3 codes from the gearbox". As many codes stand above it as it
counts, so that the name is moved in front of them.

>>> from triage.intake.lines.rows import rows_of
>>> text = "P0562 low\\nU0100 lost\\n=> 2 codes from ECM\\n\\nC0035 left\\n-- 1 code from EPS\\n-- no codes from ABS"
>>> [row.text for row in in_front(rows_of(text))]
['ECM', 'P0562 low', 'U0100 lost', '', '', 'EPS', 'C0035 left', '', 'no codes from ABS']
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from copy import copy

from triage.intake.lines.row import Row
from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.said.answers import spoken
from triage.intake.words.wordings import CODES

#: "5 faults in total", "7 codes in the memory of the vehicle": the sum of a whole scan.
_WHOLE = (
    r"(?:(?:total|all|sum|memory|this|whole|entire|vehicle|car|van|truck|scan|report|summe|gesamt|ganzen?|allen|"
    r"speicher|fahrzeug|tout|vehicule|memoire|todo|vehiculo|memoria|coche)(?![a-z]))"
)
_SUM = lazily(
    r"[=>\s*-]*(?:(?:total|sum|summe|gesamt|somme|suma|that makes|makes|macht|in all)\s*:?\s+)?([0-9]{1,3})\s+"
    rf"{CODES}(?:\s+(?:in all|total|gesamt|insgesamt|au total|en total|found|stored|read))?\s*(?:[:,-]\s*)?"
    r"(?:from|in|for|by|of|at|von|vom|aus|im|beim?|fur|de|du|dans|pour|en|del?|para)\s+"
    rf"(?:(?:the|der|die|das|dem|le|la|les|l'|el|los)\s*(?<=[\s']))?(?!{_WHOLE})(?P<name>[^\W\d_][^=:;|]{{1,48}})$")
_FEWEST = 2


def in_front(rows: list[Row]) -> list[Row]:
    """The rows, the name of each such sum in front of its codes; the same list where the sums are not so. Linear."""
    sums = {at: match for at, row in enumerate(rows) if not row.blank and has_digit(row.low[:24]) and (
        match := _match(row)) is not None}
    if len(sums) < _FEWEST and not (sums and sum(bool(row.finds.codes) for row in rows) > 1):
        return rows
    starts: dict[int, tuple[int, int]] = {}
    count, first = 0, None
    for at, row in enumerate(rows):
        if at in sums:
            if first is None or count != int(sums[at][1]):
                return rows
            starts[first] = at, count
            count, first = 0, None
        elif row.finds.codes:
            first = at if first is None else first
            count += len(row.finds.codes)
    return _moved(rows, sums, {first: at for first, (at, _) in starts.items()})


def _match(row: Row) -> re.Match[str] | None:
    """The count and the name of a sum; None for any other row."""
    if row.finds.codes or row.aside is not None or spoken(row.low):
        return None
    return _SUM.match(row.low)


def _moved(rows: Sequence[Row], sums: dict[int, re.Match[str]], starts: dict[int, int]) -> list[Row]:
    """The rows, a heading with the name before each list, nothing in the place of its sum."""
    found: list[Row] = []
    for at, row in enumerate(rows):
        if at in starts:
            below = rows[starts[at]]
            heading = below.part(sums[starts[at]].start("name"))
            heading.line = copy(below.line)
            heading.line.indent = row.line.indent
            found.append(heading)
        found.append(Row(row.line, "", 0) if at in sums else row)
    return found


__all__ = ["in_front"]
