"""Rows without a code: headings, answers of modules, facts of the scan and the vehicle, and what goes on from above."""

from __future__ import annotations

from triage.intake.entries import (
    answerrow,
    cellanswers,
    clearrow,
    complaintrow,
    continuation,
    countedhead,
    describedbelow,
    emptylists,
    keyrow,
    likeabove,
    listedrow,
    livevalues,
    lostline,
    markedrow,
    measuredline,
    metarow,
    overview,
    ownanswer,
    ownlines,
    printednames,
    shortanswer,
    totalrow,
    untold,
    workline,
)
from triage.intake.entries.clauses import beside_names
from triage.intake.entries.headingopened import above_a_list, open_heading
from triage.intake.entries.headings import followed, judge, section
from triage.intake.entries.headname import Heading, counted, name_in
from triage.intake.entries.legendline import is_legend
from triage.intake.entries.sections import ends_status, heads_codes, open_section
from triage.intake.lines import idents, nonames, supplyrow
from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.naming.linking import is_short
from triage.intake.naming.names import LONGEST_NAME, tidy
from triage.intake.plain.characters import has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered
from triage.intake.said import (
    engine_state,
    happenings,
    otherthings,
    outside,
    phases,
    remarks,
    states,
    vehiclenumbers,
    voltpairs,
    volts,
)
from triage.intake.said.answers import answer_of_cell, is_list_head, spoken
from triage.intake.said.counts import of_a_code, stated_count
from triage.intake.said.listheads import explained
from triage.intake.said.near import small
from triage.intake.scan.context import Context

_DATED = lazily(r"[0-9]{1,4}[./-][0-9]{1,2}[./-][0-9]{2,4}|[0-9]:[0-5][0-9](?![0-9])")
_BRACKETED = lazily(r"\[([^\]]*[A-Za-z][^\]]*)\]\s*[-:]?\s*(?=\S)")
_LEADER_SIGNS = ("....", ". ", "____", "----", "\u2026")  # what leads the eye from a name to its answer
_LEADER = lazily(r"([^.\s_-][^|;\t]{0,78}?)\s*(?:(?:\.\s?){4,}|_{4,}|-{4,}|(?<=\s)\.{2,3}(?=\s)|\.(?=\s))\s*(?=\S)")
#: What stands between the marks of a line of several keys.
_PIECE = lazily(r"[^|;\s][^|;]*")
#: Of a thing without a memory nobody tells that it has none: "tyre pressures - no codes" is a module's.
_OF_CODES = lazily(r"(?<![a-z])(?:codes?|dtcs?|fehlercodes?|codigos?)(?![a-z])")
_LEADER_COUNT = lazily(r"[(\[]?\s*([0-9]{1,3})\s*[)\]]?\s*x?")


def read(context: Context, row: Row, at: int) -> None:
    """One row without a code."""
    if (status := context.status_places.get(at)) is not None:
        return open_section(context, row, status, at)
    if _measured(context, row, at) or describedbelow.read(context, row, at):
        return
    if row.line.number in context.page_marks:
        context.refuse(row)
        if context.facts.take(row.text, row.low) not in ("aside", "label", "complaint") or _labelled(row.low):
            metarow.read(context, row, quiet=True)
        return
    if continuation.in_sentence(context, row, at):
        context.refuse(row)
        continuation.go_on(context, row)
        return
    if ((row.heads and above_a_list(context, row)) or clearrow.read(context, row) or workline.read(context, row)
            or ends_status(context, row) or likeabove.read(context, row) or emptylists.read(context, row)
            or _names_none(context, row, at) or _leader(context, row) or _quick(context, row, at)
            or cellanswers.read(context, row) or is_legend(row.low, context.translated)):
        return
    if row.finds.refusals:
        _refused(context, row, at)
        return
    phase = phases.find(row.low)
    if phase is None and (heads_codes(context, row, at) or continuation.status_alone(context, row)):
        return
    if keyrow.read(context, row, at):
        context.refuse(row)
        return
    if phase is None and markedrow.read(context, row):
        return
    heading = name_in(context, row)
    hits = [hit for hit in spoken(row.low) if phase is None or not (phase.start <= hit.start < phase.end)]
    hits = [] if explained(row.low) else hits or beside_names(context, row, ())
    if hits and not (heading is not None and context.names.listed(heading.printed)):
        # A name never holds the wording of an answer, unless it is listed so.
        heading = None
    if heading is not None and (phase or _DATED.search(row.low)) and not context.names.listed(heading.printed):
        heading = None
    surely = judge(context, row, at, heading) if heading is not None else ""
    if surely == "strong" and heading is not None and not totalrow.counts_all(context, row, heading):
        listing = context.list_of is not None and not heading.count and not row.text.endswith(":")
        if listing and context.blanks <= 1 and listedrow.read(context, row):
            return
        open_heading(context, row, heading)
        return
    if phase is None and lostline.tells_number(context, row, at):
        return
    if phase is None and continuation.continues(context, row) and not lostline.names_another(context, row, at):
        context.refuse(row)
        continuation.go_on(context, row)
        return
    if countedhead.read(context, row, at) or _facts(context, row) or (hits and answerrow.read(context, row, at, hits)):
        return
    if (status := section(context, row)) is not None:
        open_section(context, row, status, at)
    elif context.list_of is None or not listedrow.read(context, row):
        _rest(context, row, at, heading, surely)


def _measured(context: Context, row: Row, at: int) -> bool:
    """Whether a row tells measurements; what stands beside them is read as in any row."""
    above = context.open_row
    if above is not None and above.line.indent == row.line.indent and ownlines.begins(row) and ownlines.begins(above):
        # Among makers' own numbers "relay feed open" is what one means.
        return False
    others = measuredline.read(context, row)
    for other in others or ():
        if spoken(other.low) and context.names.find(other.low):
            read(context, other, at)
        elif not metarow.read(context, other):
            context.facts.take(other.text, other.low)
    if others is None and len(voltpairs.halves(row.low)) == 2 and not spoken(row.low):
        return metarow.read(context, row)  # "Batterie 1 12,7 V, Batterie 2 10,4 V" names no module
    return others is not None


def _names_none(context: Context, row: Row, at: int) -> bool:
    """Rows that look like a name and are none: an answer of "the module", a phone's or a version's number, the
    engine's state alone, the rest of a description in its own column."""
    if ownanswer.read(context, row, at):
        return True
    if (remarks.is_remark(row.text, row.low) and not beside_names(context, row, ())
            and context.names.score(tidy(row.text)) < 60.0 and not listedrow.is_short_item(context, row)):
        # What somebody wrote between the codes of a module names no other.
        context.refuse(row)
        told = context.facts.take(row.text, row.low) not in (None, "told")
        if remarks.is_plan(row.low):
            # No scan was taken yet; a voltage beside the plan was read, and what was connected is.
            metarow.apply(context, row, top=True)
        elif not told and metarow.read(context, row):
            context.open_code = context.open_row = None
    elif not nonames.tells_otherwise(row.low):
        return _goes_on_or_rest(context, row)
    elif (seen := of_a_code(row.low)) is not None:
        if (draft := context.open_code or context.builder.code) is not None and draft.count is None:
            draft.count = seen
    elif (happenings.is_aside(row.low) or idents.alone(row.low)) and answer_of_cell(row.low) is None:
        if not continuation.mileage(context, row, at):
            context.open_code = context.open_row = None
    elif (number := vehiclenumbers.of_vehicle(row.low)) and (number == "sure" or not followed(context, context.at)):
        context.facts.take(row.text, row.low)
        if spoken(row.low):
            return False
        metarow.read(context, row)
        context.open_code = context.open_row = None
    elif engine_state.alone(row.low) or outside.alone(row.low):
        metarow.read(context, row)
    elif (thing := otherthings.alone(row.low)) and not context.names.listed(thing) and not (
            _OF_CODES.search(row.low) is not None and context.names.likely(thing)):
        # Of what was not done or not there, neither a phase nor a deed is read.
        metarow.apply(context, row, top=True)
        context.open_code = context.open_row = None
    elif supplyrow.alone(row.low) and not (_goes_on(context, row) or context.names.is_whole(row.text)):
        metarow.read(context, row)
        context.open_code = context.open_row = None
    else:
        return _goes_on_or_rest(context, row)
    return True


def _goes_on_or_rest(context: Context, row: Row) -> bool:
    """The rest of a description in its own column, or what all modules did that are not named."""
    if not continuation.in_column(context, row):
        return answerrow.rest(context, row)
    continuation.go_on(context, row)
    return True


def _goes_on(context: Context, row: Row) -> bool:
    """Whether a voltage may be of the code above: what was stored with it, or a line further right than its own."""
    return context.in_freeze_frame or (context.open_row is not None and row.line.indent > context.open_row.line.indent)


def _refused(context: Context, row: Row, at: int) -> None:
    """Neither the name of a module nor the rest of a description: a code that can't be read stands here."""
    pair = keyrow.split(row)
    if pair is not None and role_of(pair[0]) == "code" and keyrow.read(context, row, at):
        return
    if ownlines.read(context, row):
        return
    lostline.opens(context, row)
    context.refuse(row)
    context.open_code = context.open_row = None


def _quick(context: Context, row: Row, at: int) -> bool:
    """The two commonest rows, told without trying anything else: a listed name alone, and an answer alone."""
    if context.list_of is not None or len(row.text) > LONGEST_NAME or context.in_freeze_frame or outside.alone(row.low):
        return False
    pair = cellanswers.named(row.text, row.low)
    above = context.open_row
    if pair is not None and above is not None and context.blanks == 0 and row.line.indent > above.line.indent:
        # "cluster   not present", below a code and further right, is the rest of its description with its status.
        pair = pair if states.of_cell(row.low[len(pair[0]) :].lstrip(" :=|\t-")) is None else None
    short = pair is not None and is_short(pair[0]) and answer_of_cell(small(pair[0])) is None
    short = short and not (context.key_block and role_of(small(pair[0] if pair else "")) == "failure_type")
    if pair is not None and (short or (context.names.listed(pair[0]) and role_of(small(pair[0])) is None)):
        cellanswers.answered(context, row, *pair)
        return True
    if not context.under_heading and (told := printednames.answered(context, row)) is not None:
        cellanswers.answered(context, row, *told)
        return True
    if row.text.endswith(":") and (status := section(context, row)) is not None:
        open_section(context, row, status, at)
        return True
    cleared = row.low.endswith(" clear") and not row.low.endswith((" not clear", " no clear"))
    if cleared and context.names.score(tidy(row.text[:-6])) >= 90.0:
        cellanswers.answered(context, row, tidy(row.text[:-6]), "clean")
        return True
    if (told := shortanswer.read(context, row, at)) is not None:
        cellanswers.answered(context, row, *told)
        return True
    if row.text[0] == "[" and (match := _BRACKETED.match(row.text)) is not None and (
            answer := answer_of_cell(row.low[match.end() :])) is not None:
        cellanswers.answered(context, row, context.names.bare(match[1].strip()), answer)
        return True
    name = tidy(row.text)
    if (module := overview.counted(context, name)) is not None and followed(context, at):
        begin = max(row.text.find(name), 0)
        open_heading(context, row, Heading(module.printed, begin, begin + len(name)))
        return True
    # "Calculateur: Direction assistée" is listed as it stands, its first word a key all the same.
    keyed = (":" in row.text or "=" in row.text) and keyrow.split(row) is not None
    if context.open_code is None and not keyed and context.names.listed(name) and not counted(context, row.low):
        begin = row.text.find(name)
        heading = Heading(name, max(begin, 0), max(begin, 0) + len(name))
        if begin >= 0 and judge(context, row, at, heading) == "strong":
            open_heading(context, row, heading)
            return True
        return False
    module = context.builder.module
    if module is None or not context.under_heading or context.open_code is not None or context.section is not None:
        return False
    answer = answer_of_cell(row.low) if not explained(row.low) else None
    if answer is None or is_list_head(row.low, spoken(row.low)) or row.line.indent < context.heading_indent or keyed:
        return False
    context.builder.answer(module, answer)
    return True


@remembered
def _may_lead(text: str) -> bool:
    """Whether what leads the eye stands in a line."""
    return any(sign in text for sign in _LEADER_SIGNS)


def _leader(context: Context, row: Row) -> bool:
    """A name, a row of dots (or the like), and the answer or the number of codes: "ABS ....... 2"."""
    match = _LEADER.match(row.text) if _may_lead(row.text) else None
    if match is None:
        heading = overview.counted_cell(context, row) if row.cells else None
        if heading is not None:
            open_heading(context, row, heading)
        return heading is not None
    name, rest = context.names.bare(tidy(match[1])), row.low[match.end() :]
    if not has_letter(name) or len(name) > LONGEST_NAME or role_of(small(name)) is not None:
        return False
    dots = row.text[match.end(1) : match.end()].strip()
    if dots == "." and small(name).endswith((" no", " nr", " num")):
        # "Tester no. 11"
        return False
    if dots == "." or (dots in ("..", "...") and context.names.score(name) < 60.0):
        # Where somebody paused or a sentence ends, no unknown name stands, unless a longer row of dots ends there too.
        others = (other.text[: match.end()] for other in context.rows[max(context.at - 8, 0) : context.at + 9])
        if not any(len(other) == match.end() and other.replace(" ", "").endswith("...") for other in others):
            return False
    stated = stated_count(rest) if (count := _LEADER_COUNT.fullmatch(rest)) is None else None
    if count is not None or (stated is not None and not rest[: stated[1]].strip(" :-(")):
        start = max(row.text.find(name), 0)
        number = int(count[1]) if count is not None else stated[0] if stated is not None else 0
        open_heading(context, row, Heading(name, start, start + len(name), number))
        return True
    answer = answer_of_cell(rest) or next((hit.answer for hit in spoken(rest) if not hit.doubtful), None)
    if answer is None or (context.names.score(name) < 60.0 and volts.find(row.low)):
        return False
    cellanswers.answered(context, row, name, answer)
    return True


def _rest(context: Context, row: Row, at: int, heading: Heading | None, surely: str) -> None:
    """What is neither a sure heading nor an answer: the scan, a likely heading, a reading, more text."""
    context.refuse(row)
    if livevalues.is_live_head(row.low):
        context.live_data = True
        context.open_code = context.open_row = None
        return
    if metarow.is_freeze_head(row.low):
        context.in_freeze_frame = context.builder.code is not None
        context.open_code = context.open_code or context.builder.code
        continuation.stored(context, row)
        return
    if context.live_data and not surely and livevalues.reading(context, row):
        return
    if context.in_freeze_frame and continuation.stored(context, row):
        return
    if surely == "fair" and heading is not None and not totalrow.TOTAL.search(row.low):
        open_heading(context, row, heading)
        return
    if totalrow.read(context, row):
        told = totalrow.TOTAL.search(row.low) is not None and volts.find(row.low)
        if told and any(volt.of in ("supply", "bare", "lowest") for volt in told):
            # "Total faults: 5   Battery: 12.1 V" tells of the scan too.
            metarow.read(context, row, quiet=True)
        return
    if metarow.read(context, row):
        context.told_at = at
        return
    if surely == "weak" and heading is not None and not _is_said(row):
        open_heading(context, row, heading, guessed=True)
        return
    if _DATED.search(row.low):
        # A date whose day may be its month tells of the scan as well.
        context.told_at = at
    if markedrow.not_understood(context, row) or lostline.read(context, row, at) or continuation.go_on(context, row):
        return
    if untold.alone(context, row):
        return
    livevalues.reading(context, row)


def _is_said(row: Row) -> bool:
    """Whether a line greets or is a sentence, and no name that nobody knows: "Hello all,", "Second key is with it."."""
    parts = row.text.rstrip(",.!").split()
    ended = row.text[-1] == "." and len(parts) > 2 and len(parts[-1]) > 1 and parts[-1].islower()
    return ended or row.text[-1] in ",!"


def _labelled(low: str) -> bool:
    """Whether a line tells the supply by its name: "Odometer: 23,004   Voltage: 12.4 V"."""
    return any(volt.of == "supply" and volt.labelled for volt in volts.find(low))


def _facts(context: Context, row: Row) -> bool:
    """Facts of the vehicle; an aside (phone, part number, odometer) is passed over."""
    held = listedrow.is_item(context, row) or complaintrow.begins_a_list(context, row)
    kind = None if held else context.facts.take(row.text, row.low)
    if kind is None:
        return False
    if kind == "told":
        # It may tell of the scan too, and of a module.
        metarow.read(context, row)
        return complaintrow.read(context, row)
    for begin, end in happenings.beside_complaint(row.low) if kind == "complaint" else ():
        metarow.read(context, row.part(begin, end))
    if kind == "label" and spoken(row.low):
        complaintrow.is_all(context, row)
    if (kind == "vin" and len(row.text) > 60) or (
            kind in ("aside", "vin") and _labelled(row.low)) or (
            kind == "label" and (phases.find(row.low) is not None or outside.outside_supply(row.low) is not None or any(
                volt.of in ("supply", "bare", "lowest") and volt.value not in (6, 12, 24, 48)
                for volt in volts.find(row.low)))):
        # "Van, battery flat, 11.9 V with the charger on" tells of the scan too.
        metarow.read(context, row)
    elif kind in ("aside", "vin"):
        _phase_beside(context, row)
    return True


def _phase_beside(context: Context, row: Row) -> None:
    """Read where the scan stands from one of the pieces of a line that tells of the vehicle: "Mileage: 22 km; Scan:
    before erasing"."""
    pieces = [match.span() for match in _PIECE.finditer(row.text)]
    for start, end in pieces if len(pieces) > 1 else ():
        if phases.find(row.low[start:end]) is not None:
            metarow.read(context, row.part(start, end))
            return
