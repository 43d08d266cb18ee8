"""Rows that go on with the code above: the rest of a wrapped description, its status, the values stored with it."""

from __future__ import annotations

from triage.intake.codes.pieces import COUNTED, soft_pieces, stored_values
from triage.intake.entries import keyrow, metarow
from triage.intake.entries.coderow import details_of
from triage.intake.entries.headings import is_rest_with_letter, is_whole, lacks_mark
from triage.intake.lines.goingon import LINKS, ends_with_status, last_word
from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of, roles_of
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import has_digit, has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.said import phases, states, volts
from triage.intake.said.answers import answer_of_cell, spoken
from triage.intake.said.near import small
from triage.intake.scan.assembly import CodeDraft
from triage.intake.scan.context import Context

#: How a line of the distance begins.
_MILEAGE = ("mileage", "odometer", "km", "kilomet", "distance")
#: No description goes on for longer; each line of it is read anew with those before.
_LONGEST_TAIL = 2000
_LAMP = lazily(r"(?:the )?(?:mil|(?:check[ -]?engine|engine|malfunction|warning) (?:lamp|light))(?: is| was)?"
               r"(?: status)?[ :=]{1,3}(?:on|off|out|lit|an|aus)[ .]*")
#: So many lines above, blank ones and all, the last of a freeze frame is looked for.
_FAR = 6
_PLAIN_NUMBER = lazily(r"(?<![0-9.,])[0-9]{3,7}$")
#: Before the status behind a description.
_BEFORE_STATUS = lazily(r"(?<=[^\s-])\s+-{1,2}\s+|\s[(\[]")
#: Between the values of a list.
_LONGEST_HEAD = 40
_LISTED = lazily(r"\s*[,;/|+]\s*")


def stored(context: Context, row: Row) -> bool:
    """Values of a freeze frame, put with the code above."""
    draft = context.open_code or context.builder.code
    if draft is None:
        return False
    if context.in_freeze_frame and _left(context, row):
        context.in_freeze_frame = False
        return False
    values = stored_values(row.low)
    for name, value in values.items():
        draft.freeze.setdefault(name, value)
    found = [volt for volt in volts.find(row.low) if volt.of != "other" or "supply" in row.low or "module" in row.low]
    for volt in found:
        if 3.0 <= volt.value <= 36.0:
            draft.freeze.setdefault("volts", volt.value)
    return bool(values or found)


def _left(context: Context, row: Row) -> bool:
    """Whether a row stands further left than the code of a freeze frame, whose lines until now were set in below it, or
    as far left as the code below lines set in further, or behind a blank line further left than these."""
    code = context.open_row
    above = [other for other in context.rows[max(0, context.at - _FAR) : context.at]
             if not other.blank and other.line.number not in context.page_marks]
    heads = bool(above) and metarow.is_freeze_head(above[-1].low)
    # Or it was told in one line: "Freeze frame: 320 rpm, intake 20 C".
    whole = heads and bool(stored_values(above[-1].low) or volts.find(above[-1].low))
    if whole and context.blanks > 0:
        return True
    if not above or row.line.indent >= above[-1].line.indent or (heads and not whole):
        return False
    return context.blanks > 0 or (code is not None and (
        row.line.indent < code.line.indent or row.line.indent == code.line.indent < above[-1].line.indent))


def mileage(context: Context, row: Row, at: int) -> bool:
    """The mileage at which the code above was stored, put with it: set in below it, below a key with the code, or with
    another code below; elsewhere it is the vehicle's."""
    above, draft = context.open_row, context.open_code
    if draft is None or above is None or context.blanks or not row.low.startswith(_MILEAGE):
        return False
    if row.line.indent < above.line.indent:
        return False
    below = context.rows[at + 1] if at + 1 < len(context.rows) else None
    inside = context.in_freeze_frame or row.line.indent > above.line.indent
    inside = inside or (context.under_heading and row.line.indent > context.heading_indent)
    inside = inside or keyrow.split(above) is not None or (below is not None and bool(below.finds.codes))
    values = stored_values(row.low)
    number = _PLAIN_NUMBER.search(row.low)
    if not values and number is not None:
        values = {"distance_km": float(number[0])}
    if not inside or "distance_km" not in values:
        return False
    draft.freeze.setdefault("distance_km", values["distance_km"])
    return True


def in_sentence(context: Context, row: Row, at: int) -> bool:
    """Whether the line above, of a code, goes on in this one: it ends with a word that no description ends with, and
    this one stands further right ("lost comms with" above "cluster   not present"); or this one ends with the status
    that the code lacks and most others of the text have."""
    above = context.open_row
    if above is None or context.open_code is None or context.blanks:
        return False
    if _ends_description(context, row, at):
        return True
    open_ended = last_word(context.rows[at - 1].low) in LINKS and keyrow.split(row) is None
    if row.line.indent < above.line.indent and not (open_ended and context.open_code.status is None and (
            row.text[0].islower() and ends_with_status(row.low, context.translated))):
        # Only in a text that was wrapped by its width does a description go on further left.
        return False
    if context.open_code.status is None and ends_with_status(row.low, context.translated):
        return open_ended or (context.style.doubtful_states and _is_rest(context, row))
    return open_ended and row.line.indent > above.line.indent


def _ends_description(context: Context, row: Row, at: int) -> bool:
    """Whether a row without that mark, right below a code that had no room left in its line, ends its description,
    whatever answer that sounds like: "LIN slave" above "battery sensor timeout"."""
    if not at or context.rows[at - 1] is not context.open_row or not spoken(row.low):
        return False
    if not lacks_mark(context, row) or is_whole(context, row, at) or _in_brackets(row):
        return False
    return not (":" in row.text or row.text[0].isdigit() or answer_of_cell(row.low) is not None
                or phases.find(row.low) or volts.find(row.low))


def _in_brackets(row: Row) -> bool:
    """Whether an answer in brackets ends a row: "Radio [0x78E] (no codes)"."""
    last = spoken(row.low)[-1]
    return row.low[: last.start].endswith("(") and row.low[last.end :].rstrip() == ")"


def _is_rest(context: Context, row: Row) -> bool:
    """Whether a row is the end of a description and its status behind a mark, and no key, nor the answer of a module
    ("no signal - stored" may be both)."""
    mark = _BEFORE_STATUS.search(row.low)
    if mark is None or ":" in row.low or "=" in row.low or (
            states.of_cell(row.low[mark.end() :], context.translated, context.legend) is None):
        return False
    lead = row.low[: mark.start()]
    first = lead.split(maxsplit=1)[0] if lead.strip() else ""
    if has_digit(first) and has_letter(first):
        # A maker's own number that was not read.
        return False
    hits = spoken(lead)
    for hit in hits:
        lead = lead[: hit.start] + " " * (hit.end - hit.start) + lead[hit.end :]
    return not hits or not context.names.find(lead)


def go_on(context: Context, row: Row) -> bool:
    """The rest of a description that was wrapped, with the status that may stand at its end."""
    draft = context.open_code
    if draft is None or context.blanks > 0 or len(row.text) > 200 or len(context.tail) > _LONGEST_TAIL:
        return False
    values = stored_values(row.low)
    if values and row.line.indent > (context.open_row.line.indent if context.open_row else 0):
        for name, value in values.items():
            draft.freeze.setdefault(name, value)
        return True
    if _is_of_another(context, row):
        name = row.text.partition(":")[0]
        context.builder.notice("warning", f"{name}: what is said of it is not understood: left out of the scan; write "
                               'its codes, "no codes" or "no answer"', row.line, row.start, row.start + len(row.text))
        return True
    # "Measurements:" heads what follows; "MIL off" tells of the vehicle.
    ended = _is_told(context, draft) or row.text.endswith(":") or _LAMP.fullmatch(row.low) is not None
    if ended and context.open_row is not None and row.line.indent <= context.open_row.line.indent:
        return False
    _reread(context, row, draft)
    return True


def _is_of_another(context: Context, row: Row) -> bool:
    """Whether a row of a list "name: code" tells of another module, perhaps one that nobody knows, in words: the line
    above ends with its code, so that nothing is there to go on with."""
    above, (name, colon, _) = context.open_row, row.text.partition(": ")
    if above is None or not colon or above.line.indent != row.line.indent or len(name) > _LONGEST_HEAD:
        return False
    named = above.text[: above.finds.codes[0].start].rstrip() if len(above.finds.codes) == 1 else ""
    return named.endswith(":") and above.text.rstrip().endswith(above.finds.codes[0].text) and name[:1].isupper() and (
        role_of(small(name)) is None and context.names.score(tidy(named[:-1])) >= 60.0)


def _is_told(context: Context, draft: CodeDraft) -> bool:
    """Whether the text of the code so far ends with its status: nothing goes on behind that."""
    above = context.open_row
    if draft.status is None or above is None or not above.finds.codes:
        return False
    return ends_with_status(small(context.tail or above.text[above.finds.codes[-1].end :]), context.translated)


def in_column(context: Context, row: Row) -> bool:
    """Whether the row stands alone under the description of the row above in a table of wide gaps: the rest of it."""
    above = context.open_row
    if above is None or above.kind != "gap" or not above.roles or context.blanks or row.cells is not None:
        return False
    cells = zip(above.cells or (), above.roles, strict=False)
    place = next((cell.start for cell, role in cells if role == "description"), None)
    if place is not None and any(code.start == place for code in above.finds.codes):
        # The cells of that row do not stand below their heads.
        return False
    return place is not None and abs(row.start - above.start - place) <= 1 and context.open_code is not None


def continues(context: Context, row: Row) -> bool:
    """Whether the row goes on with the line of the code above: it stands further right, or ends with the status that
    the code still lacks."""
    draft, above = context.open_code, context.open_row
    if (
        draft is None
        or above is None
        or context.blanks
        or not above.finds.codes
        or context.in_freeze_frame
        or row.text.endswith(":")
    ):
        return False
    if metarow.is_freeze_head(row.low) or stored_values(row.low) or volts.find(row.low):
        return False
    if any(deed.what == "cleared" and not deed.start for deed in phases.events(row.low)):
        return False
    if _answers_for(context, row):
        return False
    if row.line.indent > above.line.indent and not (row.cells and len(row.cells) > 2):
        return True
    if draft.status not in (None, context.tail_status) or row.line.indent < above.line.indent:
        return False
    found = states.in_text(row.low, context.translated)
    if any(states.of_cell(row.low[hit.start : hit.end]) is None for hit in spoken(row.low)):
        return False
    if draft.status is not None and found and not found[-1].sure:
        # The line above told its status; a word that all kinds of sentences end in changes nothing.
        return False
    if not found or found[-1].end < len(row.low.rstrip(" )].,")) or not context.style.doubtful_states:
        return False
    return context.names.score(tidy(row.text[: found[0].start])) < 60.0


def _answers_for(context: Context, row: Row) -> bool:
    """Whether a row begins with an answer and a colon before the name of a module: "No codes: radio, ABS"."""
    head, colon, rest = row.low.partition(":")
    if not colon or len(head) > _LONGEST_HEAD or answer_of_cell(" ".join(head.split())) is None:
        return False
    first = _LISTED.split(row.text[len(head) + 1 :].strip(" ."), maxsplit=1)[0]
    return bool(rest.strip()) and states.of_cell(head) is None and context.names.listed(context.names.bare(tidy(first)))


def side_by_side(context: Context, row: Row) -> bool:
    """Whether the row lists a status for each code of the row above ("Codes: P0128, P0456" and "Status: confirmed,
    pending"), or, behind keys, one for all of them; then they have it."""
    above, module = context.open_row, context.builder.module
    count = len(above.finds.codes) if above is not None else 0
    if count < 2 or module is None or above is None or context.blanks or len(row.low) > 200:
        return False
    keyed = keyrow.split(row)
    if keyed is not None and role_of(keyed[0]) != "status":
        return False
    low = row.low if keyed is None else row.low[keyed[2] :]
    told = [states.of_cell(part, context.translated, context.legend) for part in _LISTED.split(low)]
    if len(told) == 1 and keyed is not None and keyrow.split(above) is not None:
        told *= count
    drafts = module.codes[-count:]
    if len(told) != len(drafts) or None in told or any(draft.status is not None for draft in drafts):
        return False
    if [draft.code for draft in drafts] != [code.text for code in above.finds.codes]:
        return False
    for draft, status in zip(drafts, told, strict=True):
        draft.status = status
    return True


_LONGEST_STATUS = 80
#: How often and when it was seen, behind a status.
_COUNTED = lazily(
    r"(?:,\s*(?:(?:seen|occurred|count(?:er)?|frequency|set|logged|first|last)\s?:?\s*){0,3}[0-9][0-9 .,']{0,10}\s?"
    r"(?:x|times?|km|mi|miles?|cycles?|starts?|days?|hours?|h|mal|fois|veces|warm-?ups?)?"
    r"(?: (?:ago|back|vor|il y a))?){1,4}$"
)


def status_alone(context: Context, row: Row) -> bool:
    """Whether the row is the status of the code above, or the end of it ("(not" above, "present)" here)."""
    draft = context.open_code
    if draft is not None and side_by_side(context, row):
        return True
    if (
        draft is None
        or context.blanks
        or (context.style.status_heads and not _breaks_off(context))
        or (draft.status not in (None, context.tail_status) and not draft.listed)
        or row.text.endswith(":")
        or len(row.text) > _LONGEST_STATUS
    ):
        return False
    counted = _COUNTED.search(row.low) or COUNTED.search(row.low)
    if counted is not None:
        # "confirmed, seen 6 times, 412 km ago"
        row = row.part(0, counted.start())
    own = states.of_cell(row.low, context.translated, context.legend)
    if len(row.text) > 40 or own is None:
        return False
    _reread(context, row, draft)
    if counted is not None:
        # No description ends so, whatever its words are.
        draft.status = draft.status or own
    return True


def _breaks_off(context: Context) -> bool:
    """Whether the line of the code above ends with a mark that something follows."""
    return context.open_row is not None and context.open_row.text.rstrip().endswith((",", " -", " /"))


def _status_is_due(context: Context, roles: tuple[str | None, ...]) -> bool:
    """Whether the table of a row with such cells has a column for the status at its end, and the row no cell in it."""
    key = f"status due behind {roles}"
    if key not in context.marked:
        heads = (roles_of([cell.low for cell in row.cells or ()]) for row in context.rows if row.head)
        context.marked[key] = any(head[-1:] == ("status",) and head[: len(roles)] == roles for head in heads)
    return bool(context.marked[key])


def _reread(context: Context, row: Row, draft: CodeDraft) -> None:
    """Read the text behind the last code again, with the row joined on to it."""
    above = context.open_row
    alone = states.of_cell(row.low, context.translated, context.legend)
    keyed = alone is not None and (":" in row.text or "=" in row.text)
    if above is None or not above.finds.codes or keyed:
        # "Status now: sporadic" is told by itself, whatever its key says.
        if alone is not None:
            surer = draft.listed or (keyed and draft.status == context.tail_status)
            draft.status = alone if surer else draft.status or alone
            return
        draft.text = f"{draft.text} {row.text}" if draft.text else row.text
        due = above is not None and above.roles is not None and _status_is_due(context, above.roles)
        if draft.status is None and (due or is_rest_with_letter(context, row)):
            # A maker's own number: its text was read with it.
            details = details_of(context, [draft.text], True, True)
            draft.status, draft.text = details.status, details.text or draft.text
        return
    context.tail = f"{context.tail or above.text[above.finds.codes[-1].end :].strip()} {row.text}"
    # The status that a table has a column for stands at the end of what was wrapped.
    due = draft.status is None and above.roles is not None and _status_is_due(context, above.roles)
    details = details_of(context, [context.tail], draft.failure_type is not None, due)
    said = states.in_text(row.low, context.translated)
    pieces = [] if alone is not None else soft_pieces(row.low)
    told = any(states.of_cell(piece, context.translated, context.legend) is not None for _, piece in pieces[1:])
    settled = draft.status is not None and alone is None and not told and not (said and said[-1].sure)
    kept = draft.status not in (None, context.tail_status) and not draft.listed
    if details.status is not None and not kept and not settled:
        # Read in one piece, a word that ended the line above ("intermittent") may be part of the description.
        draft.status = context.tail_status = details.status
        draft.listed = False
    if details.text is not None and alone is None:
        draft.text = f"{draft.text} {row.text}" if draft.text else row.text
    if draft.status is not None and said and not settled and draft.text and draft.text.endswith(row.text):
        draft.text = details.text or draft.text
