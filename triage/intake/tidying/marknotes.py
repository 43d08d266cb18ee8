"""Notes that somebody put between the lines of a scan, behind a mark for them ("!! rang the owner", "// earth cleaned")
or without the marks of the quote that stands around: they tell of no module, and head no codes.

>>> from triage.intake.lines.rows import rows_of
>>> text = "> Radio\\n!! rang the owner\\n> C0035\\nearth strap cleaned\\n> C0040\\n> U0100\\nThanks"
>>> [row.text for row in told(rows_of(text), lambda name: name == "Radio") if row.note]
['!! rang the owner', 'earth strap cleaned']
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from triage.intake.lines.row import Row
from triage.intake.naming.names import tidy
from triage.intake.plain.patterns import lazily
from triage.intake.said import phases
from triage.intake.said.answers import spoken

#: Before a note, and before a line of a quote.
_MARK, _QUOTED = lazily(r"\s*(?:!!+|//+)\s*(?=[^\W\d_])"), lazily(r"\s*(?:>[^|]*|\|[^|]*)$")
_PLAIN = lazily(r"\s*\(?[^\W\d_]")
_REACH = 3


def told(rows: Sequence[Row], is_name: Callable[[str], bool]) -> list[Row]:
    """The rows, such notes marked as that. ``is_name``: likely names of modules. Linear."""
    quoted = {at for at, row in enumerate(rows) if _QUOTED.match(row.line.text) is not None}
    return [replace(row, note=True) if _is_note(rows, at, quoted, is_name) else row for at, row in enumerate(rows)]


def _is_note(rows: Sequence[Row], at: int, quoted: set[int], is_name: Callable[[str], bool]) -> bool:
    """Whether a row is such a note, and tells neither codes nor an answer nor a scan."""
    row = rows[at]
    if row.blank or row.finds.codes or row.aside is not None or row.cells:
        return False
    if _MARK.match(row.line.text) is None:
        near = (range(at - 1, at - 1 - _REACH, -1), range(at + 1, at + 1 + _REACH))
        if at in quoted or _PLAIN.match(row.line.text) is None or not all(
                _first(rows, places) in quoted for places in near) or is_name(tidy(row.text)):
            return False
        if row.line.indent > rows[_first(rows, near[0])].line.indent:
            # The headings of a list have such marks too: ">> Radio", "   Code 21682  speaker".
            return False
    return not spoken(row.low) and phases.find(row.low) is None and ":" not in row.text


def _first(rows: Sequence[Row], places: range) -> int:
    """The first of some places at which a row is not blank; -1 where none is."""
    return next((at for at in places if 0 <= at < len(rows) and rows[at].line.text.strip()), -1)


__all__ = ["told"]
