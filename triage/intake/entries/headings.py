"""Headings: which lines without a code name the module of the lines below, and which only go on with a description."""

from __future__ import annotations

import re

from triage.intake.entries import cellrest, chargerhead, emptylists, ownlines
from triage.intake.entries.headname import Heading
from triage.intake.entries.whatfollows import below_of, is_its_voltage
from triage.intake.lines.goingon import IN_DESCRIPTIONS, LINKS, ends_with_status, fits, last_word
from triage.intake.lines.pages import TITLE
from triage.intake.lines.row import Row
from triage.intake.lines.shapes import shape_of
from triage.intake.lines.unknown import is_short
from triage.intake.naming.heads import role_of
from triage.intake.naming.linking import strip_links
from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.said import ofall, otherthings, phases, states
from triage.intake.said.answers import answer_of_cell, without_links
from triage.intake.said.counts import is_counter
from triage.intake.said.listheads import only_counts, status_of_head
from triage.intake.said.near import small
from triage.intake.scan.context import Context
from triage.intake.scan.indents import NUMBER_BEFORE, bears_number, is_numbered
from triage.intake.scan.style import HEADING
from triage.model.snapshot import StatusWord

#: Words that descriptions of faults end with, and names of modules do not.
_FAULT_WORDS = word_set(
    "circuit signal signals malfunction performance range open short shorted low high voltage implausible failure "
    "fault lost missing ground erratic intermittent stuck closed stromkreis unterbrechung kurzschluss unplausibel "
    "spannung fehlerhaft defekt masse coupe ouvert tension defaillance circuito senal abierto corto masa fallo"
)
_MARKED = lazily(r"\s*(?:#{1,6}\s|\*\*|==|--|\*{3}|\[|<|__|>>|~~)")
#: A module of the vehicle as a whole: no word for a vehicle makes it the title of a scan.
_OF_VEHICLE = lazily(
    r"(?<![a-z])(?:(?:calculateur|boitier|unite|module?|modulo|centralita|unidad|controller|computer|unit|steuergerat|"
    r"ordenador|computadora?|ordinateur|rechner) "
    r"(?:de |du |del |of )?(?:la |l'|the )?(?:vehicule|vehiculo|vehicle|fahrzeug)|"
    r"(?:vehicle |fahrzeug[ -]?)(?:computer|controller|module|unit|electronics|elektronik|rechner))(?![a-z])"
)
#: What a sentence tells, and no name does: "van is in bay 4".
_VERBS = word_set("is are was were has have had isn't ist sind war waren hat hatte est sont etait esta estan estaba")
#: In small letters below a code no name begins so.
_LED = lazily(r"(?:from|with|to|of|by|mit|von|vom|zum|zur|avec|du|con|del) ")
_SENDER = lazily(r"(?:sa|source addr(?:ess)?)\s?[:=#]?\s?(?:0x)?[0-9a-f]{1,3}\s?:?")
#: A line of so many characters is hardly ever wrapped.
_SHORT = 50
#: In so few columns nobody sets text.
_NARROWEST, _FEW = 32, 3
#: A line that ends so is whole.
_LIT = ("lamp on", "light on", "mil on", "key on", "ignition on")


def is_rest_with_letter(context: Context, row: Row) -> bool:
    """Whether a row below a code ends with a capital that the text explains as a status: "supply S"."""
    last = row.text.rpartition(" ")[2]
    return context.open_code is not None and len(last) == 1 and last.isupper() and (
        any(last.lower() == letter for letter, _ in context.legend))


def judge(context: Context, row: Row, at: int, heading: Heading) -> str:
    """How surely the row is a heading: "strong", "fair", "weak", or "" for none."""
    score = (
        100.0
        if context.names.listed(heading.printed) and len(heading.printed) > 1
        else context.names.score(heading.printed)
    )
    if (context.under_heading and lacks_mark(context, row)) or is_rest_with_letter(context, row):
        return ""
    marked = _stands_out(context, row, at)
    if heading.count is not None and (score >= 60.0 or _counts_its_own(context, row, at, heading)):
        return "strong"
    if _goes_on(context, row, at, score):
        return ""
    if score >= 90.0:
        plain = context.names.score(heading.printed) < 90.0
        return "fair" if plain and not followed(context, at) and not marked else "strong"
    supported = followed(context, at) or marked or row.text.endswith(":")
    if score >= 60.0:
        return "fair" if supported or context.open_code is None else ""
    if not supported or len(heading.printed.split()) > 7 or not nameable(heading.printed):
        return ""
    if not marked and small(heading.printed).rpartition(" ")[2] in _FAULT_WORDS:
        return ""
    if ownlines.begins(row) is not None or (not marked and _is_below_key(context, row)):
        return ""
    below = below_of(context, at)
    answered = below is not None and (
        answer_of_cell(below.low) is not None or emptylists.below(context, row, below, marked))
    headed = below is not None and below.head and "module" not in [role_of(cell.low) for cell in below.cells or ()]
    coded = below is not None and _opens_codes(context, row, below)
    if below is None or not (answered or headed or coded):
        return ""
    if context.under_heading and row.line.indent > max(context.heading_indent, below.line.indent):
        # A detail of a code, set in further than that: "Ageing counter 16".
        return ""
    whole = is_whole(context, row, at) or _leaves_a_list(context, row, at, below)
    if (
        context.open_code is not None
        and context.blanks == 0
        and not marked
        and not _is_placed(context, row, below)
        and (
            not whole
            or ends_with_status(row.low, context.translated)
            or (context.headings_after_blank > context.headings_direct and not _ended(context, at))
        )
    ):
        return ""
    deeper = below.line.indent > row.line.indent
    before = context.headings_direct + context.headings_after_blank
    alike = whole and before > 0 and row.line.indent == context.heading_indent
    other = whole and row.cells is None and _none_open(context, heading.printed)
    # The codes of a scan that has named nobody yet have no other name to stand below.
    first = coded and whole and context.builder.module is None
    sure = deeper or headed or answered or alike or other or first or marked or row.text.endswith(":")
    surely = "fair" if chargerhead.is_one(context, row, below) else "weak"
    return surely if sure or context.blanks > 0 or at == 0 else ""


def lacks_mark(context: Context, row: Row) -> bool:
    """Whether a row lacks the number or the address that every heading of the text has."""
    if context.head_mark is not None and (context.head_mark(row) or _marked(row) or lead_of(row)):
        return False
    if not context.numbered:
        return context.head_mark is not None and not context.blanks
    # Of a name that nobody knows the number is still there.
    return not (bears_number(row) or NUMBER_BEFORE.match(row.text))


def _is_below_key(context: Context, row: Row) -> bool:
    """Whether a key right above has named a module of which nothing is said yet: what stands between that and its codes
    is somebody's note ("Unit: Radio", "keys in the blue box", "DTC: U0128")."""
    module = context.builder.module
    return context.key_block and context.under_heading and not context.blanks and row.text[-1:] != ":" and (
        module is not None and module.answer is None and not module.codes)


def _heads_a_list(context: Context, row: Row) -> bool:
    """Whether a row heads the codes of a module: by their status ("Stored:"), by their number, or with list words; the
    status of a code has its key before it."""
    if ":" in row.low.rstrip(" :*=-") or "=" in row.low.strip("= "):
        return only_counts(row.low)
    return section(context, row) is not None or only_counts(row.low)


def _is_placed(context: Context, row: Row, below: Row) -> bool:
    """Whether a line with a colon, in capitals unlike the line above or over an empty list, stands as far left as the
    headings, between lines set in."""
    above, placed = context.open_row, context.under_heading and row.line.indent == context.heading_indent
    capitals = row.text.isupper() and " " in row.text and above is not None and not above.text.isupper()
    return placed and (row.text[-1:] == ":" or capitals or emptylists.below(context, row, below)) and (
        above is not None and row.line.indent < min(above.line.indent, below.line.indent))


def _leaves_a_list(context: Context, row: Row, at: int, below: Row) -> bool:
    """Whether the row stands as far left as the headings, between codes set in below one and the head of a list set in
    below itself, and no long line ends above it; above codes only an abbreviation, which may end any line above."""
    above, short = context.open_row, is_short(row.text)
    if above is None or not context.under_heading:
        return False
    if not (short if below.finds.codes else _heads_a_list(context, below)):
        return False
    inset = row.line.indent <= context.heading_indent < above.line.indent and below.line.indent > row.line.indent
    return inset and (short or len(context.rows[at - 1].line.text) <= _SHORT)


def _opens_codes(context: Context, row: Row, below: Row) -> bool:
    """Whether the row below a name holds codes of a heading's module, or heads a list of such by their status."""
    if _holds_codes(context, below) or not _heads_a_list(context, below):
        return _holds_codes(context, below)
    if context.under_heading and row.line.indent > context.heading_indent:
        # It stands among the lists of the module above.
        return False
    at = next(at for at in range(context.at, len(context.rows)) if context.rows[at] is below)
    coded = below_of(context, at)
    return coded is not None and _holds_codes(context, coded)


def _holds_codes(context: Context, row: Row) -> bool:
    """Whether a row holds codes and leaves their module to a heading."""
    if row.finds.codes:
        return codes_alone(context, row)
    return has_digit(row.text[:40]) and not row.head and ownlines.begins(row) is not None


def _counts_its_own(context: Context, row: Row, at: int, heading: Heading) -> bool:
    """Whether a name nobody knows stands before a count of its codes, and these below it: "Grain tank: 1 fault"."""
    if row.low[heading.end : heading.end + 2].strip(" :,;-([|=\t"):
        return False
    if len(heading.printed.split()) > 5 or role_of(small(heading.printed)) is not None or (
            _heads_a_list(context, row)):
        # "Entries (2)" below the name.
        return False
    return (is_short(heading.printed) or nameable(heading.printed)) and followed(context, at)


def _ended(context: Context, at: int) -> bool:
    """Whether the line above ends with its status, which may begin in the line before."""
    if at <= 0 or ends_with_status(context.rows[at - 1].low, context.translated):
        return at > 0
    if context.legend and ends_with_letter(context, context.rows[at - 1]):
        return True
    status = context.open_code.status if context.open_code is not None else None
    return bool(context.tail) and status is not None and ends_with_status(small(context.tail), context.translated)


def ends_with_letter(context: Context, row: Row) -> bool:
    """Whether a row with a code ends with a letter that this text explains for its status."""
    coded = bool(row.finds.codes) or ownlines.begins(row) is not None
    letter, draft = row.low.split()[-1] if row.low.strip() else "", context.open_code
    return coded and draft is not None and (letter, draft.status) in context.legend


def _none_open(context: Context, printed: str) -> bool:
    """Whether the codes below can't be of the module named last: it said that it has none, or stood before its codes
    in their own line ("Dash: P0562"). ``printed`` must then be no part of a sentence or of a code."""
    if strip_links(printed) != printed or printed[1:2].isdigit():
        return False
    module, above = context.builder.module, context.open_row
    if above is None:
        return module is not None and module.answer is not None and not module.codes and not context.under_heading
    return not context.under_heading and not above.roles and bool(above.finds.codes) and shape_of(above)[2]


def is_whole(context: Context, row: Row, at: int) -> bool:
    """Whether the line above ``row`` can't go on in it: it ends with a status or a code, tells of the scan, or had room
    for a word more than it holds."""
    above = context.rows[at - 1] if at else None
    if at + 1 < len(context.rows) and is_its_voltage(context, at, context.rows[at + 1]):
        # No description goes on above a voltage.
        return True
    if above is None or above.blank or context.open_code is None or above.line.number in context.page_marks:
        return True
    if above.stored:
        return True
    if context.told_at == at - 1 or _ended(context, at):
        return True
    if above.roles and above.kind in ("\t", "|", ";"):
        # No editor wraps the rows of such a table.
        return True
    if above.finds.codes and above.finds.codes[-1].end >= len(above.low.rstrip(" )].,;")):
        return True
    return fits(len(above.line.text), row.low, max(context.code_width, _NARROWEST))


def nameable(printed: str) -> bool:
    """Whether a text that no table knows can be a module's name: no phase, no title, no status."""
    low = small(printed)
    return (
        phases.find(low) is None
        and answer_of_cell(low) is None
        and states.of_cell(low) is None
        and bool(strip_links(printed))
        and bool(without_links(printed))
        and _VERBS.isdisjoint(printed.split())
        and not otherthings.is_part(low)
        and not is_counter(low.rpartition(" - ")[2])
        and not ("," in low and states.in_text(low))
        and not (
            printed.endswith((".", "!", "?"))
            or re.search(r"[0-9]{4}", low)
            or TITLE.search(_OF_VEHICLE.sub(" ", low))
        )
    )


def _marked(row: Row) -> bool:
    """Whether the line is decorated as a heading, or was numbered as one."""
    if row.text.endswith(("--", "==", "**", "__", "~~", "##")):
        return True
    return _MARKED.match(row.text) is not None or is_numbered(row)


def _stands_out(context: Context, row: Row, at: int) -> bool:
    """Whether marks of a line, around it or below it, tell that it is a heading, or a source address alone does."""
    return _marked(row) or _marked_off(context, at) or _underlined(context, row, at) or (
        context.head_mark is not None and context.head_mark(row)) or _is_sender(context, row)


def _underlined(context: Context, row: Row, at: int) -> bool:
    """Whether a line stands over a rule and no page's end, as the heading above does and its codes do not."""
    if not (context.under_heading and context.heading_ruled) or row.line.indent > context.heading_indent:
        return False
    below = context.rows[at + 1 : at + 3]
    ruled = len(below) > 1 and below[0].kind == "rule" and not below[1].blank
    return ruled and below[1].line.number not in context.page_marks


def _marked_off(context: Context, at: int) -> bool:
    """Whether the marks that a quoted text has before each line stand before this one and not before the next: ">> ABS"
    above "C0035 active"; or those of the heading above, which its codes lack."""
    row = context.rows[at]
    lead, above = lead_of(row), context.open_row
    placed = context.under_heading and row.line.indent == context.heading_indent
    if lead and placed and above is not None and lead == context.heading_lead != lead_of(above):
        return True
    below = next((other for other in context.rows[at + 1 : at + 4] if not other.blank), None)
    return below is not None and _quotes(row) > _quotes(below)


def _is_sender(context: Context, row: Row) -> bool:
    """Whether a module of a truck is named by its source address alone, left of the codes above: "SA 12"."""
    above = context.open_row
    inset = above is not None and row.line.indent < above.line.indent
    return inset and row.text[:1] in "Ss" and _SENDER.fullmatch(row.low) is not None


def lead_of(row: Row) -> str:
    """The marks before the text of a row."""
    return row.line.text[: row.start].strip()


def _quotes(row: Row) -> int:
    return row.line.text[: row.start].count(">")


def codes_alone(context: Context, row: Row) -> bool:
    """Whether a row with codes leaves its module to a heading."""
    if row.roles:
        return "module" not in row.roles
    if row.described:
        return row.described[0] == (0, 0)
    if row.entry:
        return True
    return context.style.places.get(shape_of(row), HEADING) == HEADING or not shape_of(row)[2]


def followed(context: Context, at: int) -> bool:
    """Whether what follows fits under a heading: codes without a module of their own, an answer, a list's heading."""
    below = below_of(context, at)
    if below is None:
        return False
    if below.finds.codes or ownlines.begins(below) is not None:
        return _holds_codes(context, below)
    return answer_of_cell(below.low) is not None or _heads_a_list(context, below) or below.head or emptylists.below(
        context, context.rows[at], below)


def _goes_on(context: Context, row: Row, at: int, score: float) -> bool:
    """Whether the row goes on with the description of the code above rather than naming a module."""
    above = context.open_row
    if context.open_code is None or above is None or context.blanks:
        return False
    if _stands_out(context, row, at) or row.text.endswith(":"):
        return False
    if context.hanging and context.under_heading and row.line.indent < above.line.indent:
        # The rest of a long line stands further right than its code in this text.
        return False
    if cellrest.goes_on(context, row, at, score) or _LED.match(row.text) is not None:
        return True
    if (below := below_of(context, at)) is not None and _is_placed(context, row, below):
        return False
    wrapped = not is_whole(context, row, at)
    before = context.rows[at - 1].low if context.rows[at - 1].line.number not in context.page_marks else ""
    ends = last_word(before) if not (before.endswith(_LIT) or _ended(context, at)) else ""
    if ends and context.rows[at - 1].text[-1:].isupper() and len(ends) == 1:
        # "door module A": a letter that tells several apart.
        ends = ""
    if ends in LINKS:
        return True
    inset = row.line.indent <= context.heading_indent < above.line.indent
    if inset and below is not None and below.line.indent > row.line.indent and (
        # "P0300 misfire, lamp on": a listed name at the place of a heading, with codes or an answer below it, is one.
        (score >= 90.0 and (answer_of_cell(below.low) is not None or bool(below.finds.codes)))
        or (not wrapped and bool(below.finds.codes) and below.line.indent == above.line.indent and (
            score >= 60.0 or (len(row.text.split()) <= _FEW and row.line.indent == context.heading_indent)))
    ):
        return False
    if wrapped and ends in IN_DESCRIPTIONS:
        return True
    if context.under_heading and context.heading_indent < above.line.indent <= row.line.indent:
        return True
    if score >= 90.0 and not wrapped and row.line.indent <= above.line.indent:
        return False
    if context.under_heading and row.line.indent > context.heading_indent and row.line.indent >= above.line.indent:
        return True
    if not context.under_heading and not above.roles:
        # Lines of this text name their modules themselves: a name alone is what was left over of a long line.
        if below is not None and answer_of_cell(below.low) is not None:
            return False
        return below is None or not below.finds.codes or not codes_alone(context, below)
    return row.text[:1].islower() and above.text[:1].isupper() and (score < 90.0 or wrapped)


def section(context: Context, row: Row) -> StatusWord | None:
    """The status of a heading over a list of codes ("Pending codes:"), or None."""
    if (told := ofall.told(row.low, True)) is not None:
        return told.status
    if len(row.low) > 66:
        return None
    status, words_beside = status_of_head(row.low, context.translated)
    if status is not None and not words_beside and not row.text.endswith(":") and not _marked(row):
        return status if context.style.status_heads else None
    return status
