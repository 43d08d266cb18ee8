"""Rows of a key with codes as its value: "Code: P0562-16 (stored)", "Result = U0100 (active) / U0121 (stored)"."""

from __future__ import annotations

from triage.intake.entries import keyrow, leads, valuecodes
from triage.intake.entries.clauses import says_before
from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.said import states
from triage.intake.said.counts import stated_count
from triage.intake.scan.context import Context
from triage.model.snapshot import StatusWord

#: Keys for codes, and those for what a module answered: its codes are an answer too.
_CODES = frozenset(("code", "spn"))
_ANSWERS = frozenset(("answer", "reply", "count_of_codes", "status"))


def read(context: Context, row: Row) -> bool:
    """A row with codes behind a key for them, which are of the module of the block; whether it was one."""
    below = context.key_block or context.under_heading
    if below and context.builder.module is not None and (listed := _by_status(context, row)) is not None:
        valuecodes.add_each(context, row, *listed)
        context.refuse(row)
        return True
    pair = keyrow.split(row)
    if pair is None or pair[2] > row.finds.codes[0].start or not _leads(context, row, pair[0], pair[2]):
        return False
    valuecodes.add_each(context, row, states.of_cell(pair[0], context.translated), pair[2])
    context.refuse(row)
    return True


def without_key(context: Context, row: Row) -> Row:
    """The row without a key for codes before a sentence that names the module of its first code ("Codes: The heater
    gives B1305 ...")."""
    pair = keyrow.split(row)
    if pair is None or row.cells or role_of(pair[0]) not in _CODES:
        return row
    first = row.finds.codes[0].start
    if pair[2] >= first or not context.names.find(row.low[pair[2] : first]):
        return row
    part = row.part(pair[2])
    return part if says_before(part, part.finds.codes[0].start) else row


def _by_status(context: Context, row: Row) -> tuple[StatusWord, int] | None:
    """The status of all codes of a row that a key tells ("Stored codes: C0035 brake switch; C0040"), and where the
    value begins; whatever names stand in their descriptions, the module is that of the block."""
    start = row.finds.codes[0].start
    key = row.low[:start].rstrip()
    if key[-1:] not in (":", "=") or not leads.is_lead(key.rstrip(" :=.")):
        return None
    if len(leads.of_row(context, row)[1]) != 1:
        return None
    said = states.in_text(key, context.translated)
    return (said[0].status, start) if len(said) == 1 else None


def _leads(context: Context, row: Row, key: str, start: int) -> bool:
    """Whether a key leads to codes: one for codes always, one for an answer where it is that of a module named by a key
    above and nothing but a count stands before the first ("Reply: 2 codes: P0562, U0100")."""
    role = role_of(key)
    if role in _CODES:
        return True
    if role not in _ANSWERS or not context.key_block:
        return False
    before = row.low[start : row.finds.codes[0].start].strip(" :,;([-")
    return not before or (stated_count(before) or (0, 1, 0))[1] == 0


__all__ = ["read", "without_key"]
