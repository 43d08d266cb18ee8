"""Rows of a key and its value: "Module: ECM", "Status = stored", one fact a line or several."""

from __future__ import annotations

import re
from string import hexdigits

from triage.intake.codes.found import in_code_cell
from triage.intake.entries import metarow, ownlines, pairkeys, remarks, storedrow, valuecodes, voltplaces
from triage.intake.entries.headingopened import open_heading
from triage.intake.entries.headname import Heading, name_in
from triage.intake.lines.ownevidence import QUANTITY
from triage.intake.lines.row import Row
from triage.intake.naming.heads import bare_value, is_key, role_of
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import has_digit, has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered
from triage.intake.said import phases, states, volts
from triage.intake.said.answers import answer_of_cell, reply_of, spoken, without_links
from triage.intake.said.counts import is_often, stated_count
from triage.intake.said.near import digits_for_letters
from triage.intake.said.wholeanswer import names_codes
from triage.intake.scan.assembly import CodeDraft
from triage.intake.scan.context import Context
from triage.intake.words.wordings import CODES

_KEY = lazily(r"([^:=|]{1,34}?)\s*(?:::?|=|\.{3,}\s?:?)\s*(.*)$")
#: Before the answer itself: "lecture impossible - pas de reponse".
_UNREAD = lazily(
    r"(?:not read(?:able)?|unread(?:able)?|lecture (?:impossible|en echec)|illisible|non lus?|"
    r"nicht (?:lesbar|gelesen|auslesbar)|"
    r"no leidos?|lectura (?:imposible|fallida)|n/?a|unknown|unbekannt|inconnus?|desconocidos?|-+)[\s,;:(-]*$"
)
#: It answered, and with that nothing is said of its codes.
_YES = frozenset(("yes", "ja", "oui", "si", "responded", "online", "answered", "1", "true", "y"))
_WHAT_IT_SAID = lazily(r"\W*(?:answer|response|reply|antwort|reponse|respuesta)(?![a-z])")
#: A number before a name, and no count.
_ADDRESSED = lazily(rf"[0-9a-f]{{1,3}}[\s-]+(?!{CODES})[^\W\d_]{{2}}")
#: The roles of the keys that tell what a module answered.
_TOLD_OF = frozenset(("count_of_codes", "code", "answer", "reply", "status"))
#: A maker's own number of digits that bytes have too, with its description.
_NUMBER_TOLD = lazily(rf"(?=[a-f]*[0-9])[0-9a-f]{{5,6}}(?!{QUANTITY.pattern})\s+[^\W\d]{{3}}")
_NUMBER_ALONE = lazily(r"(?=[a-f]*[0-9])[0-9a-f]{5,6}")
_LONGEST_OUTCOME = 40
#: What stands below a name and calls it in short.
_SHORT = lazily(r"[A-Z][A-Z0-9]{1,5}")
_HEX2 = lazily(r"(?:0[xX]\s?|\$)?([0-9A-Fa-fOIl]{2})h?(?![0-9A-Za-z])")


def split(row: Row) -> tuple[str, str, int] | None:
    """The key in small letters, the value and its place, where a role of a table's head is the key; else None."""
    text = row.text
    parts = _parts(text) if ":" in text or "=" in text or "..." in text else None
    if parts is None:
        if row.cells is not None and len(row.cells) == 2 and row.kind in ("gap", "\t") and row.cells[0].text:
            head, cell = row.cells
            return (head.low, cell.text, cell.start) if role_of(head.low) is not None else None
        return None
    key = row.low[: parts[0]]
    return (key, text[parts[1] :], parts[1]) if role_of(key) is not None else None


@remembered
def _parts(text: str) -> tuple[int, int] | None:
    """Where the key of a line ends and where its value starts."""
    match = _KEY.match(text)
    return (match.end(1), match.start(2)) if match is not None else None


def read(context: Context, row: Row, at: int) -> bool:
    """A row of a key and a value, without a code that :mod:`triage.intake.codes.found` sees; whether it was one."""
    pair = split(row)
    if pair is None:
        origin = _origin(context, row, at)
        return _module(context, row, *origin) if origin is not None else ownlines.read(context, row)
    key, value, start = pair
    role = "count" if is_often(key, value) else role_of(key)
    handler = _HANDLERS.get(role or "")
    if role in ("short_name", "other") and at and role_of((split(context.rows[at - 1]) or ("",))[0]) == "module":
        short = value.strip()
        if role == "short_name" or (_SHORT.fullmatch(short) and answer_of_cell(short.lower()) is None):
            return True  # the name right above, once more
    if handler is None:
        told = any(c.isalpha() for c in value.replace("x", "")[:1]) or stated_count(value.lower()) is not None
        return role == "other" and not told
    begin, end = bare_value(value)
    return handler(context, row, value[begin:end], row.low[start + begin : start + end], start + begin)


def _origin(context: Context, row: Row, at: int) -> tuple[str, str, int] | None:
    """The value, its small letters and its place in "in: BCM" that stood below the code of the next row."""
    match = _KEY.match(row.text) if ":" in row.text or "=" in row.text else None
    below = context.rows[at + 1] if at + 1 < len(context.rows) else None
    if match is None or below is None or below.line.number >= row.line.number or not is_key(row.low[: match.end(1)]):
        return None
    start = match.start(2)
    return match[2].strip(), row.low[start : start + len(match[2])].strip(), start


def _module(context: Context, row: Row, value: str, low: str, start: int) -> bool:
    if not value or states.of_cell(low, context.translated) is not None:
        # "control module  [not active]" is the end of a description with its status.
        return False
    answer = None
    heading: Heading | None = name_in(context, row, value, start)
    if heading is None:
        return False
    hits = () if _is_short_name(context, value) else spoken(low)
    apart = bool(hits) and re.search(r"(?:\s-+|[>:(|\[])\s*$", low[: hits[0].start]) is not None
    if hits and (apart or context.names.score(heading.printed) < 60.0):
        before = tidy(value[: hits[0].start])
        before = before if context.names.sure(before) else without_links(before)
        if before:
            answer = hits[0].answer
            heading = name_in(context, row, before, start + max(value.find(before), 0)) or heading
        elif answer_of_cell(low) is not None:
            return False
    open_heading(context, row, heading)
    context.key_block = True
    if answer is not None and context.builder.module is not None:
        context.builder.answer(context.builder.module, answer)
    return True


def _is_short_name(context: Context, value: str) -> bool:
    """Whether three capitals, short for an answer too ("RAS"), are a name: the next key tells what the module holds."""
    below = context.rows[context.at + 1 : context.at + 2]
    pair = split(below[0]) if len(value) == 3 and value.isalpha() and value.isupper() and below else None
    return pair is not None and role_of(pair[0]) in _TOLD_OF


def _code(context: Context, row: Row, value: str, low: str, start: int) -> bool:
    module = context.builder.module
    answer = answer_of_cell(low, loose=False)
    if low in ("-", "--", "0", "none", "n/a", "[]", "[ ]", "{}", "()", "nil"):
        answer = "clean"
    if answer is not None and module is not None:
        context.builder.answer(module, answer)
        return True
    told = _reply_told(context, low) if module is not None and not row.finds.refusals else None
    if told is not None and module is not None:
        # "Fault code: unable to read - no answer from ECU"
        if told == "silent":
            context.builder.answer(module, told)
        return True
    if low.isdigit() and len(low) <= 2 and module is not None:
        module.stated = (int(low), row.line, row.start, row.start + len(row.text))
        return True
    slip = next(iter(in_code_cell(value).codes), None) if module is not None else None
    if slip is not None:
        found = slip._replace(start=start, end=start + slip.end, bare=start + slip.bare)
        row.finds = row.finds._replace(refusals=())
        valuecodes.add_one(context, row, found, value[slip.end :].strip(" -:,"))
        return True
    if module is not None and valuecodes.own(context, row, value, start, surely=context.key_block):
        return True
    # "Code: B0148" and, in the same block, "Fault: actuator stuck".
    draft = _draft(context) if context.key_block else None
    if draft is None or draft.text is not None or not has_letter(value) or row.finds.refusals:
        return False
    draft.text = value
    return True


def _reply_told(context: Context, low: str) -> str | None:
    """What a value in a code's place tells of an answer: "silent" of this module, "other" of one that it names (the
    description of a fault), or None."""
    hits = spoken(low)
    if not hits or any(hit.answer != "silent" for hit in hits) or all(hit.doubtful for hit in hits):
        return None
    rest = low
    for hit in hits:
        # "Pas de réponse" holds the short name of a parking aid.
        rest = rest[: hit.start] + " " * (hit.end - hit.start) + rest[hit.end :]
    if context.names.find(rest):
        return "other"
    return "silent" if hits[0].start == 0 or _UNREAD.match(low[: hits[0].start]) is not None else None


def _draft(context: Context) -> CodeDraft | None:
    """The code that the row is about: the one of this block, or, in a text of keys and values, the last one read."""
    if context.open_code is not None:
        return context.open_code
    return context.builder.code if context.key_block and not context.pending_values else None


def _failure_type(context: Context, row: Row, value: str, low: str, start: int) -> bool:
    match = _HEX2.match(value)
    if match is None:
        told = states.of_cell(low, context.translated, context.legend) or answer_of_cell(low)
        return told is not None and _status(context, row, value, low, start)
    read_as = digits_for_letters(match[1])
    if read_as is None:
        return False
    draft = _draft(context)
    if draft is None or draft.failure_type is not None:
        context.pending_values["failure_type"] = read_as.upper()
    else:
        draft.failure_type = read_as.upper()
    return True


def _status(context: Context, row: Row, value: str, low: str, start: int) -> bool:
    if context.style.status_heads and low.isdigit():
        # "Active: 2" heads two codes.
        return False
    status = states.of_cell(low, context.translated, context.legend)
    if status is None and _are_codes(context, row, value, low, start, _NUMBER_TOLD.match(low) is not None):
        return True
    asked = states.yes_or_no(row.low) if status is None else None
    if asked is not None and asked[2] is not None:
        status = asked[2]
        low = status
    byte = re.fullmatch(r"(?:0x|\$)([0-9a-f]{2})|([0-9a-f]{2})h?", low)
    draft = _draft(context)
    answer = answer_of_cell(low, loose=draft is None)
    if draft is not None and (draft.status is None or context.open_code is not None):
        if status is not None:
            draft.status, draft.listed = status if draft.listed else draft.status or status, False
        elif byte is not None and draft.status_byte is None:
            draft.status_byte = int(byte[1] or byte[2], 16)
        return True
    module = context.builder.module
    if answer is not None and module is not None and (
            status is None or answer in ("silent", "not scanned", "not fitted")):
        context.builder.answer(module, answer)
        return True
    if status is not None:
        context.pending_values["status"] = low
    return status is not None


def _status_byte(context: Context, row: Row, value: str, low: str, start: int) -> bool:
    byte = re.match(r"(?:0x|\$)?([0-9a-f]{2})h?(?![0-9a-z])", low)
    if byte is None or context.open_code is None:
        return byte is not None
    context.open_code.status_byte = int(byte[1], 16)
    return True


def _description(context: Context, row: Row, value: str, low: str, start: int) -> bool:
    if not value:
        return False
    module = context.builder.module
    if (module is None or row.line.indent < module.line.indent) and remarks.tell_of_scan(low):
        # "Remark: read before clearing", above the first module of a scan
        return metarow.read(context, row if module is None else row.part(start, start + len(value)))
    if context.open_code is None and context.names.find(low) and answer_of_cell(low) is None and spoken(low) and (
            not remarks.head_code(context.rows, context.at)):
        return False  # "Remark: radio and clock do not answer"
    # A blank line within a block parts no text from its code.
    draft = context.open_code or (None if _code_follows(context) else _draft(context))
    answer = answer_of_cell(low) if context.open_code is None else None
    if draft is None or answer is not None or (context.open_code is None and draft.text is not None):
        if answer is not None and module is not None:
            context.builder.answer(module, answer)
        else:
            context.pending_values["description"] = value
    elif draft.text is None:
        draft.text = value
    return True


def _told_below(context: Context) -> bool:
    """Whether the next row tells, behind its key, what a code means or its status."""
    below = next(iter(context.rows[context.at + 1 : context.at + 2]), None)
    parts = split(below) if below is not None and not below.finds.codes else None
    return parts is not None and role_of(parts[0].lower()) in ("description", "status")


def _code_follows(context: Context) -> bool:
    """Whether a code stands below in the same block."""
    for row in context.rows[context.at + 1 : context.at + 8]:
        if row.blank:
            return False
        if row.finds.codes:
            return True
    return False


def _is_left_to_codes(context: Context, low: str) -> bool:
    """Whether words that tell no answer stand between the key of a module and one of its codes: "Outcome: read", and
    below it "Code: C0044". They head no list."""
    if context.builder.module is None or not context.key_block or has_digit(low) or len(low) > _LONGEST_OUTCOME:
        return False
    for row in context.rows[context.at + 1 : context.at + 4]:
        pair = split(row)
        role = role_of(pair[0]) if pair is not None else None
        if row.blank or role == "module":
            return False
        if role == "code":
            return bool(row.finds.codes) or has_digit(row.text)
    return False


def _count(context: Context, row: Row, value: str, low: str, start: int) -> bool:
    match = re.match(r"x?([0-9]{1,5})(?![0-9.,/:-])", low)
    if match is not None and context.open_code is not None:
        context.open_code.count = int(match[1])
    return match is not None


def _count_of_codes(context: Context, row: Row, value: str, low: str, start: int) -> bool:
    module = context.builder.module
    if not low[:3].strip().isdigit():
        return module is not None and _code(context, row, value, low, start)
    if _ADDRESSED.match(low) is not None:
        return False  # "No codes: 06 Radio, 11 ABS"
    if module is not None and context.under_heading:
        number = re.match(r"[0-9]{1,3}", low)
        module.stated = (int(number[0]) if number else 0, row.line, row.start, row.start + len(row.text))
        if module.stated[0] == 0 and module.answer is None:
            module.answer = "clean"
    return True


def _volts(context: Context, row: Row, value: str, low: str, start: int) -> bool:
    found = volts.find(row.low)
    number = re.match(r"([0-9]{1,3}(?:[.,][0-9]{1,3})?)(?![0-9])", low)
    if found or number is None:
        return False
    voltplaces.place_volt(
        context, row, volts.Volt(start, start + number.end(), float(number[1].replace(",", ".")), "supply", True)
    )
    return True


def _answer(context: Context, row: Row, value: str, low: str, start: int) -> bool:
    module = context.builder.module
    answer = answer_of_cell(low, loose=True)
    alone = _NUMBER_ALONE.fullmatch(low) is not None and _told_below(context)
    if _are_codes(context, row, value, low, start, alone or _NUMBER_TOLD.match(low) is not None):
        return True
    if module is None or answer is None or not context.under_heading:
        return answer is None and _is_left_to_codes(context, low)
    if answer == "clean" and low in _YES:
        return True
    context.builder.answer(module, answer)
    return True


def _are_codes(context: Context, row: Row, value: str, low: str, start: int, told: bool = False) -> bool:
    """Whether the answer of a module named by a key is its codes, makers' own numbers, or how many follow. ``told``:
    that it begins with such a number, whatever its digits."""
    module = context.builder.module
    if module is None or not context.key_block:
        return False
    count = stated_count(low)
    if count is not None and count[0] and not low[: count[1]].strip() and not low[count[2] :].strip(" .:;)"):
        module.stated = (count[0], row.line, row.start, row.start + len(row.text))
        return True
    # Bytes and years are an answer as well: digits want a status behind them.
    told = told or not set(low.split(maxsplit=1)[0] if low else "") <= set(hexdigits) or bool(states.in_text(low))
    return told and valuecodes.own(context, row, value, start)


def _reply(context: Context, row: Row, value: str, low: str, start: int) -> bool:
    module = context.builder.module
    answer = reply_of(low)
    if _are_codes(context, row, value, low, start):
        return True
    if module is None or answer is None or not context.under_heading:
        return answer is None and _is_left_to_codes(context, low)
    # That it answered is one thing ("Communication: OK"), what it said another ("answers, no codes", "Answer: OK").
    told = answer == "clean" and answer_of_cell(low) == "clean" and low not in _YES
    said = names_codes(low) or _WHAT_IT_SAID.match(row.low) or not any(hit.doubtful for hit in spoken(low)[:1])
    if answer != "clean" or (told and said):
        context.builder.answer(module, answer)
    return True


def _scan(context: Context, row: Row, value: str, low: str, start: int) -> bool:
    return phases.find(low) is not None and metarow.read(context, row)


_HANDLERS = {
    "module": _module,
    "code": _code,
    "failure_type": _failure_type,
    "status": _status,
    "status_byte": _status_byte,
    "description": _description,
    "count": _count,
    "count_of_codes": _count_of_codes,
    "volts": _volts,
    "answer": _answer,
    "reply": _reply,
    **dict.fromkeys(("odometer", "rpm", "speed", "coolant"), storedrow.read),
    "spn": pairkeys.spn,
    "fmi": pairkeys.fmi,
    "scan": _scan,
}
