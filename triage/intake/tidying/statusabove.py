"""Lists in which a status stands in the line above its code, each code with its own: put behind the code.

>>> from triage.intake.lines.rows import rows_of
>>> said = "ABS\\nActive\\nC0110 pump\\nHistory\\nC0267 open\\n\\nEPS\\nActive\\nC0545 sensor\\n"
>>> [row.text for row in put_behind(rows_of(said)) if row.text]
['ABS', 'C0110 pump [Active]', 'C0267 open [History]', 'EPS', 'C0545 sensor [Active]']
>>> [row.text for row in put_behind(rows_of("ABS\\nC0110 pump\\nActive\\nC0267 open\\nHistory"))]
['ABS', 'C0110 pump', 'Active', 'C0267 open', 'History']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.lines.row import Row
from triage.intake.said import states

_FEWEST, _LONGEST = 2, 40


def put_behind(rows: Sequence[Row]) -> list[Row]:
    """The rows, such statuses in brackets behind their codes. Linear."""
    coded = [at for at, row in enumerate(rows) if row.finds.codes]
    above = [at for at in coded if at and _is_status(rows[at - 1])]
    if len(above) < _FEWEST or len(above) < len(coded) or any(rows[at].finds.codes[0].start for at in coded):
        return list(rows)
    if not any(at + 1 >= len(rows) or not _is_status(rows[at + 1]) for at in coded):
        # Each code has one above and one below.
        return list(rows)
    if _heads_several(rows, coded) or all(rows[at - 1].line.indent > rows[at].line.indent for at in coded):
        # What is set in below the lines of codes tells of the code above, though the first may not be known for one.
        return list(rows)
    kept = list(rows)
    for at in above:
        text = f"{rows[at].text.rstrip()} [{rows[at - 1].text.strip(' :-')}]"
        kept[at] = rows[at].saying(text, rows[at].finds)
    # No gap is left, which would part the code from the name above.
    taken = {at - 1 for at in above}
    return [row for at, row in enumerate(kept) if at not in taken]


def _is_status(row: Row) -> bool:
    """Whether a row is a status and no more; with a colon it heads a list."""
    text = row.text.rstrip()
    return 0 < len(text) <= _LONGEST and text[-1] != ":" and not row.finds.codes and states.of_cell(row.low) is not None


def _heads_several(rows: Sequence[Row], coded: Sequence[int]) -> bool:
    """Whether a status heads more than the code right below it."""
    return any(at - 1 in coded for at in coded)


__all__ = ["put_behind"]
