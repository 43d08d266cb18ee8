"""Statuses with a conjunction in them, as the one word that they say: "stored but not present now", "current and
failing". What parts clauses elsewhere parts none there.

>>> from triage.intake.lines.rows import rows_of
>>> said = "U0100 stored but not present now in ABS\\nC0035 (current and failing)\\nABS stored, but ok"
>>> for row in told(rows_of(said)):
...     print(row.text)
U0100 stored in ABS
C0035 (current)
ABS stored, but ok
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.lines.glue import as_read
from triage.intake.lines.row import Row
from triage.intake.plain import signs
from triage.intake.plain.characters import reworded
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.words.vocabulary import STATES

_JOINS = word_set("but aber mais pero and und et y")
_SIGN = signs.of_words(_JOINS.__contains__)
_JOIN = lazily(r"\s(?:but|aber|mais|pero|and|und|et|y)\s")
_AND = lazily(r"\s(?:and|und|et|y)\s")
_LONGEST = 4000


def told(rows: Sequence[Row]) -> list[Row]:
    """The rows with codes, such statuses in one word. Linear."""
    return [_written(row) if signs.of(row.low) & _SIGN and row.finds.codes and not row.cells else row for row in rows]


def _written(row: Row) -> Row:
    """A row with one word for each status that a conjunction stands in, and for two of one meaning that "and" joins."""
    if len(row.text) > _LONGEST:
        return row
    changes: list[tuple[int, int, str]] = []
    for hit in STATES.find(row.low):
        last = changes[-1] if changes else None
        if last is not None and last[2] == hit.meaning and _AND.fullmatch(row.low, last[1], hit.start):
            changes[-1] = last[0], hit.end, last[2]
        else:
            changes.append((hit.start, hit.end, hit.meaning))
    line, length = as_read(row), len(row.text)
    for start, end, word in reversed(changes):
        if _JOIN.search(row.low, start, end) is not None:
            line, length = reworded(line, row.start + start, row.start + end, word), length + len(word) - (end - start)
    if length == len(row.text):
        return row
    return Row(line, line.text[row.start : row.start + length], row.start, entry=row.entry, heads=row.heads)


__all__ = ["told"]
