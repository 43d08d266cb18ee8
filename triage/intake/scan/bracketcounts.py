"""Numbers in brackets behind headings: "Engine (2)" over two lines of codes."""

from __future__ import annotations

from collections.abc import Sequence, Set

from triage.intake.lines.row import Row
from triage.intake.lines.shapes import shape_of
from triage.intake.plain.patterns import lazily

_BRACKET_COUNT = lazily(r"(.{2,60}?)\s*(?:[(\[]\s*([0-9]{1,2})\s*[)\]]\s*:?|(?::|=|\s-)\s*([0-9]{1,2}))")


def agree(rows: Sequence[Row], marks: Set[int]) -> bool:
    """Whether a number in brackets behind a heading is the count of its codes: it is the number of code lines below.
    ``marks``: the numbers of the lines of a page's head or foot."""
    same = differ = 0
    coded: Row | None = None
    for at, row in enumerate(rows):
        if row.blank or row.finds.codes or row.line.number in marks:
            coded = None if row.blank else row if row.finds.codes else coded
            continue
        if coded is not None and row.line.indent > coded.line.indent:
            # "Occurrence counter: 4" below a code tells of that.
            continue
        last = row.text[-1]
        match = _BRACKET_COUNT.fullmatch(row.text) if "0" <= last <= "9" or last in ")]:" else None
        if match is None:
            continue
        below = 0
        for other in rows[at + 1 : at + 30]:
            if other.finds.codes:
                if shape_of(other)[2] and other.line.indent <= row.line.indent:
                    # It names its module itself.
                    break
                below += 1
            elif not other.blank and other.line.number not in marks and other.line.indent <= row.line.indent:
                break
        same += below == int(match[2] or match[3])
        differ += below != int(match[2] or match[3])
    return same > differ


__all__ = ["agree"]
