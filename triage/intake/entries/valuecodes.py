"""Codes as the value of a key, with what waited for them in their block."""

from __future__ import annotations

from dataclasses import replace

from triage.intake.codes import ownnumbers
from triage.intake.codes.finds import Found
from triage.intake.codes.pieces import Details
from triage.intake.entries import setoff
from triage.intake.entries.coderow import add, beside, module_for
from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.intake.scan.assembly import CodeDraft
from triage.intake.scan.context import Context
from triage.model import codes as model_codes
from triage.model.snapshot import StatusWord

#: What ends a piece of a value before the status that heads the next codes.
_PIECE_ENDS = lazily(r"[;|)\]]|,\s")
#: The first word of a value, and of each thing in a list.
_FIRSTS = lazily(r"(?:^|[/,;|]\s{0,3})([^\s,;/|:()\[\]]{3,12})(?=[\s,;/|:(\[]|$)")


def add_each(context: Context, row: Row, status: StatusWord | None = None, start: int | None = None) -> None:
    """Add the codes of a row to the module of its block, each with what stands behind it; ``status``: the one that the
    key tells ("Stored code: C0035"); ``start``: where the value begins, which may tell it before the codes ("Code =
    stored: C0035, C0040; pending: C0042")."""
    module = module_for(context, row, row.finds.codes[0])
    codes = row.finds.codes
    led: StatusWord | None = None
    told: list[CodeDraft] = []
    for at, (code, stop) in enumerate(zip(codes, [*(each.start for each in codes[1:]), len(row.text)], strict=True)):
        details = beside(context, row, code, stop)
        begin = start if not at else codes[at - 1].end
        if begin is not None and (led is not None or not at):
            before = row.low[begin : code.start]
            if at and before.rstrip()[-1:] in (":", "="):
                # "active: U0100 (no data), C0040 (low); stored: U0140"
                before = _PIECE_ENDS.split(before)[-1]
            before = before.strip(" :=,;()[]-")
            led = (states.of_cell(before, context.translated, context.legend) if before else None) or led
        keyed = False
        if led is not None and (len(codes) > 1 or details.status is None):
            details = replace(details, status=led)
        elif keyed := details.status is None and status is not None:
            details = replace(details, status=status)
        draft = add(context, module, row, code, details)
        told.append(draft)
        _share(told, row, code.end, led is not None or keyed)
        # "Memory: C0035", and below it "Present: yes".
        draft.listed = draft.listed or (keyed and status == "stored")
        context.open_code, context.open_row, context.tail = draft, row, ""
    settle(context, row)


def _share(told: list[CodeDraft], row: Row, end: int, settled: bool) -> None:
    """Give the codes right before a code that have no status the one behind it that is said of several: "U0100 (no
    data), U0140 and C0040 (all active)"."""
    said = setoff.of_several(row.low, end) if len(told) > 1 and not settled and told[-1].status is not None else None
    if said is None or said.codes < 2:
        return
    for draft in reversed(told[-said.codes : -1]):
        if draft.status is not None:
            break
        draft.status = told[-1].status


def add_one(context: Context, row: Row, found: Found, text: str) -> None:
    """Add a code given as a value, with what waited for it."""
    draft = add(context, module_for(context, row, found), row, found, Details(texts=[text] if text else []))
    context.open_code, context.open_row, context.tail = draft, row, ""
    settle(context, row)


def own(context: Context, row: Row, value: str, start: int, *, surely: bool = False) -> bool:
    """Add the makers' own numbers with which a value, and each thing in its list, begins; whether there are any.
    ``surely``: the value is nothing but a code, whatever its form."""
    whole = model_codes.placed(value) if surely else model_codes.own(value)
    spans = [(0, len(value))] if whole is not None else [match.span(1) for match in _FIRSTS.finditer(value)]
    found = []
    for first, last in spans:
        number = (ownnumbers.placed if whole is not None else ownnumbers.found)(start + first, value[first:last])
        if number is not None:
            found.append(number)
    if not found or found[0].start != start:
        return False
    finds = row.finds
    for code in found:
        finds = finds.allowed(code.start, code.end)
    if finds.refusals:
        return False
    row.finds = finds._replace(codes=tuple(found))
    add_each(context, row)
    return True


def settle(context: Context, row: Row) -> None:
    """Give the code just read what stood before it in its block: status, failure type, text."""
    draft = context.open_code
    if draft is None:
        return
    waiting, context.pending_values = context.pending_values, {}
    if draft.failure_type is None and "failure_type" in waiting:
        draft.failure_type = waiting["failure_type"]
    if draft.status is None and "status" in waiting:
        draft.status = states.of_cell(waiting["status"], context.translated, context.legend)
    if draft.text is None and "description" in waiting:
        draft.text = waiting["description"]


__all__ = ["add_each", "add_one", "own", "settle"]
