"""Labels that a page shows below each of its entries ("Show details"), left out: no name of a module stands so.

>>> from triage.intake.lines.rows import rows_of
>>> said = "ABS\\nC0110\\nActive\\nShow details\\nC0267\\nHistory\\nShow details\\n\\nEPS\\nC0545\\nShow details\\n"
>>> [row.text for row in left_out(rows_of(said), {"ABS", "EPS"}.__contains__)]
['ABS', 'C0110', 'Active', '', 'C0267', 'History', '', '', 'EPS', 'C0545', '', '']
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Sequence

from triage.intake.lines.row import Row
from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.intake.said.answers import answer_of_cell, spoken

_NUMBER = lazily(r"(?=[a-z]*[0-9])(?:[0-9]{5,7}|(?=[0-9]*[a-z])[a-z0-9-]{4,9})")
_FEWEST, _LONGEST = 3, 30


def left_out(rows: Sequence[Row], is_name: Callable[[str], bool]) -> list[Row]:
    """The rows, such labels left blank: right below entries, at the end of a block and within one. Linear."""
    places: dict[str, list[int]] = defaultdict(list)
    for at, row in enumerate(rows):
        # A letter alone is a status by its key.
        if 1 < len(row.text) <= _LONGEST and not row.finds.codes and not has_digit(row.low):
            places[row.low].append(at)
    kept = list(rows)
    coded = sum(bool(row.finds.codes) for row in rows)
    for found in places.values():
        # What stands below few of the entries tells those from the others.
        if len(found) >= max(_FEWEST, coded / 3) and _is_label(rows, found, is_name):
            for at in found:
                kept[at] = Row(rows[at].line, "", 0)
    return kept


def _is_label(rows: Sequence[Row], places: Sequence[int], is_name: Callable[[str], bool]) -> bool:
    """Whether a line that stands at some places is a label: a name stands above its codes, behind a blank line."""
    first = rows[places[0]]
    if is_name(first.text) or states.of_cell(first.low) is not None or spoken(first.low) or ":" in first.text or (
            answer_of_cell(first.low) is not None):
        return False
    if any(not at or rows[at - 1].blank for at in places):
        return False
    if any(_may_be_own(rows[at - 1]) for at in places):
        # The description of a maker's own number, which is told to be one later.
        return False
    closes = [at + 1 >= len(rows) or rows[at + 1].blank for at in places]
    return any(closes) and not all(closes)


def _may_be_own(row: Row) -> bool:
    """Whether a row without a known code may hold a maker's own number: alone, or beside a status."""
    if row.finds.codes or not has_digit(row.low):
        return False
    if " " not in row.text:
        return True
    parts = (row.low.split(maxsplit=1), row.low.rsplit(maxsplit=1)[::-1])
    return any(_NUMBER.fullmatch(number.strip("-:;|")) is not None and (
        states.of_cell(rest.strip(" -:;|()[]")) is not None) for number, rest in parts)


__all__ = ["left_out"]
