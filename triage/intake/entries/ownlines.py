"""Rows that start with a maker's own number under a module: "5DF1 pump circuit, active", "E4D9 | stuck | sporadic"."""

from __future__ import annotations

import re

from triage.intake.codes.finds import Found
from triage.intake.codes.pieces import Details, soft_pieces, take, take_running
from triage.intake.entries.coderow import add, beside
from triage.intake.lines import ledcodes, owncodes
from triage.intake.lines.ledcodes import LEADS
from triage.intake.lines.ownevidence import has_status, measured, of_other_use, tells_status
from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.said import states
from triage.intake.said.near import small
from triage.intake.scan.assembly import ModuleDraft
from triage.intake.scan.context import Context
from triage.model import codes as model_codes

_OWN_LINE = lazily(
    r"((?=[0-9A-Za-z]*[0-9])[0-9A-Za-z]{4,7}|[A-Za-z]{1,4}[ -]?[0-9]{3})(?:\s+-+>?\s*|\s+=>\s*|"
    r"\s*[:,;|]\s*|\s{2,}|\s+)(?=[A-Za-z\u00c0-\u024f(\"'\[])"
)
_ELSEWHERE = lazily(r"(?:in|from|of|im|in der|von|dans|en|del?)\s")
#: Letters with a hyphen before the number, as connectors, fuses and standards have them too.
_SHORT_LINE = lazily(
    r"(?!(?:ISO|SAE|DIN|EN|ECE|IEC|KWP|CAN)-)([A-Z]{1,3}-[0-9]{4,5}[A-Z]?)(?:\s+-+\s+|\s*[:;|]\s+|\s{2,})"
    r"(?!(?i:connector|plug|socket|fuse|relay|splice|ground|pin|part)s?\b)(?=[^\W\d])"
)
#: Two digits and three, as ranges, measures and parts have them too: read where a status is told.
_HYPHENED = lazily(r"([0-9]{2}-[0-9]{3})(?:\s+-+\s+|\s*[:;,|]\s*|\s+)(?=[^\W\d]{3}|\(|x[0-9])")
#: A mark with no space behind it: "actuator stuck:sporadic".
_TIGHT = lazily(r"(?<=[a-z)\]])([,:;])(?=[^\W\d])", re.IGNORECASE)
_ADDRESSED = lazily(
    r"(?:ecu|stg|sg|id|can|sa|addr|node|mod|unit|calc|bus|pin|kl|term|nr|no|sys|pos)[ -]?[0-9]", re.IGNORECASE
)
_PART = lazily(r"(?:hw|sw|fw|sn|pn|rev|ver|typ)[ -]?[0-9]", re.IGNORECASE)
_HEX = lazily(r"[0-9a-f]{4,6}")


def _add_each(context: Context, module: ModuleDraft, row: Row) -> None:
    """Add the codes of a row to one module, each with what stands behind it."""
    stops = [*(code.start for code in row.finds.codes[1:]), len(row.text)]
    for code, stop in zip(row.finds.codes, stops, strict=True):
        add(context, module, row, code, beside(context, row, code, stop))
    context.open_code = context.open_row = None


def begins(row: Row) -> tuple[re.Match[str], int] | None:
    """A maker's own number beside a text at the start of a row, behind a status or not: the number with the mark behind
    it, and where the status ends."""
    start = states.leading(row.low, 0)
    # "Stored fault 3117": the word for a code is one with the status.
    last = row.low[:start].rstrip().rpartition(" ")[2]
    lead = row.low.rindex(last, 0, start) if last.startswith(LEADS) else start
    if row.low.startswith(LEADS, lead) and has_digit(row.low[lead : lead + 40]):
        led = ledcodes.match(row, lead)
        if led is not None:
            return led, start
    if row.text[start + 2 : start + 3] == "-" and (hyphened := _HYPHENED.match(row.text, start)) is not None:
        return None if _is_range(row, hyphened, bool(start)) else (hyphened, start)
    if row.text[1:4].count("-") and (short := _SHORT_LINE.match(row.text, start)) is not None:
        return (short, start) if model_codes.own(short[1]) is not None else None
    if not start and row.text[:1].isalpha() and not has_digit(row.text[:8]):
        return None
    match = _OWN_LINE.match(row.text, start)
    if match is None or measured(row, match.end(1)):
        return None
    own, token = model_codes.own(match[1]), match[1]
    if (_ADDRESSED.match(token) and not _tells_fault(row, match)) or (start and token[0].isalpha() and " " in token):
        # "ECU 730 Steering" names a module by its address.
        return None
    if own is None or _PART.match(token):
        return None
    if (token.isdigit() and len(token) not in (5, 6)) or re.fullmatch(r"(?:19|20)[0-9]{2}", token):
        return None
    if token.isalpha() or (not token.isdigit() and token.islower() and not _all_small(row, token)):
        return None
    return match, start


def _tells_fault(row: Row, match: re.Match[str]) -> bool:
    """Whether a status behind a number in one word with its letters makes it a fault's, and no module's address."""
    return match[1].isalnum() and match[1].isupper() and tells_status(row, match.end(1))


def _is_range(row: Row, match: re.Match[str], told: bool) -> bool:
    """Whether two numbers with a hyphen, where nothing tells a fault, may as well be a range, a measure or a part's."""
    if of_other_use(row, match.start(1), match.end(1)):
        return True
    told = told or states.leading(row.low, match.end()) > match.end()
    return not told and not has_status(row, match.end(1))


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
    own = model_codes.own(row.text[begun[0].start(1) : begun[0].end(1)]) if begun is not None else None
    if begun is None or own is None:
        return False
    match, start = begun
    allowed = row.finds.allowed(match.start(1), match.end(1))
    if allowed.refusals:
        return False
    row.finds = allowed
    text = _TIGHT.sub(r"\1 ", row.text[match.end() :].strip())
    found = Found(match.start(1), match.end(1), own.text, kind="own", bare=match.end(1))
    several = owncodes.further(row, match.end(1))
    if several and not start:
        row.finds = row.finds._replace(codes=(found, *several))
        _add_each(context, builder.module, row)
        return True
    led = row.low.startswith(LEADS, match.start())
    if led and _ELSEWHERE.match(small(text)) and context.names.find(small(text)):
        # "Fault 3117 in the ABS" below another module.
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
    context.open_code, context.open_row, context.tail = draft, row, ""
    return True


def _is_address(context: Context, token: str) -> bool:
    """Whether a number stands behind a word for a module, or a module's name ("ECU 730 Steering")."""
    letters = token[:-3].rstrip(" -")
    return token[-4:-3] in (" ", "-") and (role_of(small(letters)) == "module" or context.names.listed(letters))


def _all_small(row: Row, token: str) -> bool:
    """Whether a number in small letters stands in a line that has no others."""
    return row.text.islower() and _HEX.fullmatch(token) is not None


__all__ = ["begins", "read"]
