"""Names that no table knows, before an answer: the text itself shows them before a code, in the place of a module.

In "bag B0001 active" the line's first word is the module's name, known or not; "bag clean" in the same text, or in
another scan of it, is then that module's answer. A word that stands before answers alone may be anything.
"""

from __future__ import annotations

from triage.intake.lines.row import Row
from triage.intake.lines.shapes import shape_of
from triage.intake.naming.heads import role_of
from triage.intake.naming.linking import strip_links, trailing_status
from triage.intake.plain.phrases import word_set
from triage.intake.said import phases, states
from triage.intake.said.answers import answer_of_cell, spoken
from triage.intake.said.near import small
from triage.intake.scan.context import Context

#: No such name is longer in words.
_MOST, _LONGEST = 3, 80
#: What is said of other modules, or leads on from the line above, and names none.
_OTHERS = word_set(
    "all both each every everything everybody anything nothing none any rest other others same it its this that these "
    "those they them he she we you one also then again plus still only just now later first next last here there so ok "
    "after before with without and or but not no yes code codes fault faults dtc dtcs module modules ecu ecus car "
    "vehicle battery result alle alles rest tout tous todo todos"
)


def answered(context: Context, row: Row) -> tuple[str, str] | None:
    """The name and the answer of a row that is nothing but a name which stands before a code elsewhere, and an
    answer; None for any other."""
    above = context.open_row
    if len(row.low) > _LONGEST or (above is not None and row.line.indent > above.line.indent):
        return None
    names = _of_text(context)
    if not names:
        return None
    end = -1
    for _ in range(_MOST):
        end = row.low.find(" ", end + 1)
        if end < 0:
            return None
        if " ".join(row.low[:end].split()) in names:
            answer = answer_of_cell(row.low[end:].strip(), loose=False)
            if answer is not None:
                return row.text[:end].rstrip(), answer
    return None


def _of_text(context: Context) -> frozenset[str]:
    """The unknown names before the codes of a text, in small letters. Looked for once."""
    if context.coded_names is None:
        found = {lead for row in context.rows if (lead := _lead(context, row))}
        context.coded_names = frozenset(lead for lead in found if context.names.score(lead) < 60.0)
    return context.coded_names


def _lead(context: Context, row: Row) -> str:
    """The words before the first code of a row where the text has its modules there; "" where they name none."""
    if row.blank or not row.finds.codes or row.roles or not 0 < row.finds.codes[0].start <= _LONGEST:
        return ""
    place = context.style.places.get(shape_of(row))
    if place is None or not (place.before or (place.cell == 0 and row.kind == "gap")):
        return ""
    text = row.text[: row.finds.codes[0].start].strip()
    low = small(text)
    parts = low.split()
    if len(parts) > _MOST or not all(part.isalpha() for part in parts) or not _OTHERS.isdisjoint(parts):
        return ""
    said = strip_links(text) != text or trailing_status(text)[0].strip() != text or states.of_cell(low) is not None
    if said or spoken(low) or phases.find(low) is not None or role_of(low) is not None:
        return ""
    return " ".join(parts)


__all__ = ["answered"]
