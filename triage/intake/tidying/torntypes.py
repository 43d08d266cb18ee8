"""A failure type at the start of a line, of the code that the sentence in the line above ends with: "the gateway gives
U0140" above "(12) stored, and", "gives P0562 FTB" above "17 active now". Both lines are one.

>>> from triage.intake.lines.rows import rows_of
>>> [row.text for row in joined(rows_of("The ABS has U0140\\n(12) stored, EPS clean\\n(13) Radio: C0035"))]
['The ABS has U0140 (12) stored, EPS clean', 'Radio: C0035']
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.lines import goingon
from triage.intake.lines.glue import glued
from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.tidying.tornentries import is_marked

#: The type in brackets with what may follow it, or bare.
_FIRST = lazily(
    r"(?:[(\[](?=[0-9a-f]*[0-9])[0-9a-f]{2}[)\]]|(?P<bare>[0-9a-f]{2}(?![\w.,:])))\s*"
    r"(?P<ends>$|[(,.;]|(?:and|und|et|y|plus)\s)?")
_FTB = lazily(r"[ ,]*\(?(?:ftb|failure type|fehlerart|type de defaut|tipo de fallo):?")


def joined(rows: Sequence[Row]) -> list[Row]:
    """The rows, each that begins with such a type joined with the one above. Linear: only what stands below a code at
    the end of its line is looked at."""
    found: list[Row] = []
    for row in rows:
        above = found[-1] if found else None
        if above is not None and above.finds.codes and not row.blank and (
                whole := _begun(above, row)) is not None:
            found[-1] = glued(above, whole)
        else:
            found.append(row)
    return found


def _begun(above: Row, row: Row) -> Row | None:
    """The row from the type on that it begins with; None where it begins with none. What was taken for its number in a
    list may be one."""
    code = above.finds.codes[-1]
    if code.failure_type is not None or is_marked(above) or not above.low[: above.finds.codes[0].start].strip(" -*"):
        return None
    indent = row.line.indent
    whole = Row(row.line, row.line.text.strip(), indent) if row.start != indent else row
    match = _FIRST.match(whole.low)
    if match is None or indent != above.line.indent:
        return None
    if match["bare"] is not None:
        return whole if _FTB.fullmatch(above.low, code.end) is not None else None
    told = match["ends"] is not None or goingon.begins_with_status(whole.low[match.end() :])
    return whole if told and code.end == len(above.text) else None


__all__ = ["joined"]
