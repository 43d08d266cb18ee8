"""Rows that start with a maker's own number under a module: "5DF1 pump circuit, active", "E4D9 | stuck | sporadic"."""

from __future__ import annotations

import re

from triage.intake.codes import ownnumbers
from triage.intake.codes.ownnumbers import ANY
from triage.intake.codes.pieces import Details, soft_pieces, take, take_running
from triage.intake.entries.coderow import add, beside
from triage.intake.lines import ledcodes, owncodes
from triage.intake.lines.ledcodes import LEADS
from triage.intake.lines.ownevidence import has_status, measured, of_other_use, own_at, tells_status
from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.intake.said.near import small
from triage.intake.scan.assembly import ModuleDraft
from triage.intake.scan.context import Context
from triage.model.own_forms import OF_MODULES

#: A number with a mark or a blank between it and its text.
_OWN_LINE = lazily(rf"({ANY})(\s+-+>?\s*|\s+=>\s*|\s*[:,;|]\s*|\s{{2,}}|\s+)(?=[^\W\d]|[(\"'\[])")
_ELSEWHERE = lazily(r"(?:in|from|of|im|in der|von|dans|en|del?)\s")
#: A mark with no space behind it: "actuator stuck:sporadic".
_TIGHT = lazily(r"(?<=[a-z)\]])([,:;])(?=[^\W\d])", re.IGNORECASE)
_ADDRESSED = lazily(rf"(?:{'|'.join(OF_MODULES)})[ -]?[0-9]", re.IGNORECASE)


def _add_each(context: Context, module: ModuleDraft, row: Row) -> None:
    """Add the codes of a row to one module, each with what stands behind it."""
    stops = [*(code.start for code in row.finds.codes[1:]), len(row.text)]
    for code, stop in zip(row.finds.codes, stops, strict=True):
        add(context, module, row, code, beside(context, row, code, stop))
    context.open_code = context.open_row = None


def begins(row: Row) -> tuple[re.Match[str], int] | None:
    """A maker's own number beside a text at the start of a row, behind a status or not: the number with the mark behind
    it, and where the status ends."""
    if not has_digit(row.low):
        return None
    start = states.leading(row.low, 0)
    # "Stored fault 3117": the word for a code is one with the status.
    last = row.low[:start].rstrip().rpartition(" ")[2]
    lead = row.low.rindex(last, 0, start) if last.startswith(LEADS) else start
    if row.low.startswith(LEADS, lead) and has_digit(row.low[lead : lead + 40]):
        led = ledcodes.match(row, lead)
        if led is not None:
            return led, start
    if not start and row.text[:1].isalpha() and not has_digit(row.text[:8]):
        return None
    match = _OWN_LINE.match(row.text, start)
    if match is None or own_at(row, start, match[1]) is None or measured(row, match.end(1)):
        return None
    return None if _is_other(row, match, bool(start)) else (match, start)


def _is_other(row: Row, match: re.Match[str], told: bool) -> bool:
    """Whether a number at the start of a row may as well be none of a fault's: a module's address, a range or a part's,
    a connector's. ``told``: a status stands before it."""
    token = match[1]
    if token.isalnum():
        return _ADDRESSED.match(token) is not None and not _tells_fault(row, match)
    if of_other_use(row, *match.span(1), told) or (" " in token and (told or _ADDRESSED.match(token) is not None)):
        return True
    if (weight := ownnumbers.weight(token)) in ("sure", "weak"):
        return weight == "weak" and not told
    told = told or states.leading(row.low, match.end()) > match.end() or has_status(row, match.end(1))
    return not told and (token[0].isdigit() or match[2] == " ")


def _tells_fault(row: Row, match: re.Match[str]) -> bool:
    """Whether a status behind a number in one word with its letters makes it a fault's, and no module's address."""
    return match[1].isalnum() and match[1].isupper() and tells_status(row, match.end(1))


def read(context: Context, row: Row) -> bool:
    """A maker's own number at the start of a line under a module, beside a text: kept as an opaque code."""
    builder = context.builder
    if (
        builder.module is None
        or not context.under_heading
        or (context.blanks and (builder.module.codes or builder.module.answer is not None))
        or context.live_data
    ):
        return False
    begun = begins(row)
    if begun is None:
        return False
    match, start = begun
    found = ownnumbers.found(match.start(1), row.text[slice(*match.span(1))])
    if found is None:
        return False
    allowed = row.finds.allowed(match.start(1), match.end(1))
    if allowed.refusals:
        return False
    row.finds = allowed
    text = _TIGHT.sub(r"\1 ", row.text[match.end() :].strip())
    several = owncodes.further(row, match.end(1))
    if several and not start:
        row.finds = row.finds._replace(codes=(found, *several))
        _add_each(context, builder.module, row)
        return True
    led = row.low.startswith(LEADS, match.start())
    if led and _ELSEWHERE.match(small(text)) and not states.leading(small(text), 0) and context.names.find(small(text)):
        # "Fault 3117 in the ABS" below another module; "Fault 3117 in history" is of this one.
        return False
    short = len([c for c in text if c.isalpha()]) < 4 and not led
    if short or context.names.listed(match[1]) or _is_address(context, match[1]):
        return False
    details = Details()
    text = take_running(details, text, small(text), context.translated, context.style.doubtful_states)
    for _, part in list(soft_pieces(text))[:20]:
        take(
            details,
            part,
            small(part),
            following=False,
            has_type=True,
            translated=context.translated,
            legend=context.legend,
        )
    if start:
        details.status = states.of_cell(row.low[:start], context.translated, context.legend) or details.status
    draft = add(context, builder.module, row, found, details)
    # What goes on below is read again with what stands behind the code.
    row.finds = row.finds._replace(codes=(found,))
    context.open_code, context.open_row, context.tail = draft, row, ""
    return True


def _is_address(context: Context, token: str) -> bool:
    """Whether a number stands behind a word for a module, or a module's name ("ECU 730 Steering")."""
    letters = token.rstrip("0123456789")
    parted = letters[-1:] in (" ", "-")
    letters = letters.rstrip(" -")
    return parted and (role_of(small(letters)) == "module" or context.names.listed(letters))


__all__ = ["begins", "read"]
