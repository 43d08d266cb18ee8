"""The tolerant reader of text: characters, lines, layouts, one row after another, assembly."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, datetime, time
from typing import NamedTuple

from code_tables import Tables
from triage.collector import collector_paused
from triage.intake import finish
from triage.intake.codes.pieces import Legend
from triage.intake.entries import (
    belowline,
    besidename,
    coderow,
    corrections,
    countbehind,
    describedrow,
    eachstatus,
    emptylists,
    keyrow,
    matrix,
    metarow,
    plainrow,
    prose,
    rawrows,
    sentences,
    tablerow,
    turns,
)
from triage.intake.lines import counted, idents, namegaps, namelist, numbering, owncodes, rows, spacing, unknown
from triage.intake.lines.layouts import split_rows
from triage.intake.lines.row import Row
from triage.intake.naming.heads import leads_to_codes
from triage.intake.naming.linking import strip_links
from triage.intake.naming.names import Names, listed_words, tidy
from triage.intake.plain.characters import Line, lines
from triage.intake.plain.patterns import lazily
from triage.intake.said import dates, states
from triage.intake.said.languages import language
from triage.intake.scan import indents, style
from triage.intake.scan.assembly import Builder
from triage.intake.scan.context import Context
from triage.intake.tidying import (
    across,
    addressed,
    answeredheads,
    answerkeys,
    asked,
    atsigns,
    blocks,
    breaks,
    codefirst,
    columnkey,
    dashes,
    described,
    fields,
    flags,
    gluedwords,
    halves,
    hearsay,
    heavylist,
    inline,
    jointnames,
    keymarks,
    legends,
    logs,
    loosely,
    lostbreaks,
    namedcolumn,
    namedlists,
    namelead,
    numberednames,
    pagebreaks,
    pairednames,
    paragraphs,
    phaseslips,
    plainecu,
    quotebars,
    rowtimes,
    scanlead,
    sharedcolumn,
    shortheads,
    shortstops,
    sidebyside,
    soistoo,
    splitcodes,
    spokencodes,
    spokenmarks,
    statusslips,
    strayblanks,
    ticks,
    tornwords,
    totals,
    wraps,
    xmlkeys,
)
from triage.model.notices import Notice
from triage.model.session import Event, Vehicle
from triage.model.snapshot import Snapshot, StatusWord

#: A count behind a heading.
_BRACKETED = lazily(r"\s*[(\[][0-9]{1,3}[)\]]$")

#: How a line begins to be told that the reader itself stumbled over; the rest of the text is read all the same.
NOT_READ = "this line was not read, by a mistake of the reader"


class Reading(NamedTuple):
    """What was understood of one input.

    ``snapshots`` in the order of the text; ``vehicle`` and ``events`` as far as it tells; ``notices`` for every
    place that was read with a doubt, or not at all.
    """

    snapshots: list[Snapshot]
    vehicle: Vehicle | None
    events: list[Event]
    notices: list[Notice]


def read_text(text: str, tables: Tables, *, source: str | None = None, day: date | None = None) -> Reading:
    """Read pasted text in any layout. Never raises; linear in the length of the text.

    ``source`` names the file in the notices; ``day`` is that of a time of day without a date.
    """
    return read_lines(_cut(text), tables, source=source, day=day)


def _cut(text: str) -> list[Line]:
    """``text`` as lines, HTML as a reader of the page sees it."""
    if "</" in text:
        from triage.intake.plain.markup import is_html, lines_of_html  # the parser of pages is loaded for pages alone

        if is_html(text):
            return lines_of_html(text)
    return lines(text)


def read_lines(
    found: list[Line], tables: Tables, *, source: str | None = None, day: date | None = None
) -> Reading:
    """Read lines already cut (out of HTML, say)."""
    with collector_paused():
        return _read(found, tables, source, day)


def _read(found: list[Line], tables: Tables, source: str | None, day: date | None) -> Reading:
    """Read lines from the first to the last."""
    context = _prepare(found, tables, source, day)
    context.last_date = datetime.combine(day, time()) if day is not None else None
    raw = rawrows.blocks(context.rows)
    skip = 0
    for at, row in enumerate(context.rows):
        try:
            if at in raw:
                skip = raw[at]
                rawrows.read(context, at, skip)
            elif at >= skip:
                _row(context, row, at)
        except Exception as error:  # nobody at a vehicle is served by losing the rest of the scan
            context.builder.notice("warning", f"{NOT_READ} ({type(error).__name__}): type it in another way, or report "
                                   "it", row.line, row.start, row.start + len(row.text))
            # It may have named the module of what follows: a code without a module is better than in the wrong one.
            context.close_module()
    metarow.flush(context)
    result = finish.snapshots(context)
    vehicle = finish.vehicle(context)
    notices = sorted(context.builder.notices, key=lambda notice: (notice.line or 0, notice.start or 0))
    return Reading(result, vehicle, finish.events(context), notices)


def _prepare(found: list[Line], tables: Tables, source: str | None, day: date | None) -> Context:
    """Everything that is decided by the whole text before the first row is read."""
    names = Names(tables)
    whole = quotebars.told(xmlkeys.written_out(found, names.listed))
    found = tornwords.joined(spacing.single(whole), listed_words(tables).__contains__)
    found = blocks.parted(found, lambda name: names.score(names.bare(name)) >= 60.0 or plainecu.alone(name))
    found, respaced, unread = _respaced(namegaps.closed(found, names.listed), names)
    found = plainecu.named(jointnames.adopted(pairednames.adopted(found, names), names), names)
    all_rows = rows.uncommented(rows.rows_from(found, lambda name: names.listed(name) or names.score(name) >= 85.0))
    all_rows = totals.left_out(flags.worded(asked.joined(all_rows)), names.likely)
    all_rows = _joined(all_rows, names, wraps.width_of(whole))
    all_rows = hearsay.marked(shortstops.told(all_rows))
    all_rows = keymarks.told(logs.unstamped(numbering.unfinished(numbering.unnumbered(all_rows))), names.likely)
    all_rows = fields.cut(all_rows)
    all_rows = inline.parted(shortheads.written_out(all_rows), names.find)
    all_rows = namelead.parted(scanlead.parted(all_rows, names.find), names)
    all_rows = emptylists.taken_off(counted.taken_off(all_rows))
    explained = legends.adopt(strayblanks.closed(all_rows), names.listed)
    all_rows = answerkeys.written_out(explained.rows, names.listed, explained.answers)
    all_rows = ticks.told(all_rows, names.likely)
    all_rows = countbehind.taken_off(all_rows, names.likely, lambda name: names.match(name).canonical in tables.modules)
    all_rows = answeredheads.taken_off(all_rows)
    all_rows = besidename.taken_off(idents.taken_off(all_rows), names.likely, names.find)
    all_rows = addressed.taken_off(numberednames.taken_off(lostbreaks.cut(all_rows), names.likely), names.likely)
    described.adopt(all_rows, names)
    split_rows(all_rows)
    beside = sidebyside.unfolded(halves.unfolded(sharedcolumn.doubled(columnkey.named(all_rows)), names.find))
    beside = across.turned(beside, lambda name: names.score(names.bare(name)) >= 60.0)
    if (beside := dashes.told(beside, names.likely)) is not all_rows:
        all_rows = beside
        split_rows(all_rows)
    namedcolumn.adopt(all_rows, names.listed)
    heavylist.adopt(all_rows, names.listed)
    is_name = namelist.known(names)
    owncodes.adopt(all_rows, lambda name: is_name(name) or (len(name) > 5 and names.score(name) >= 85.0))
    all_rows = codefirst.in_front(all_rows, names.listed)
    marks = rows.page_marks(all_rows, lambda name: names.score(_BRACKETED.sub("", tidy(name))) >= 60.0)
    all_rows = pagebreaks.joined(all_rows, marks, names.listed)
    lows = [row.low for row in all_rows if not row.blank]
    context = Context(
        builder=Builder(source, names.as_written),
        names=names,
        style=style.study(all_rows, names),
        rows=all_rows,
        translated=language(lows) != "en",
        order=dates.order(lows),
        page_marks=marks,
    )
    _tell(context, respaced, unread)
    context.matrix = matrix.columns(all_rows, names.listed)
    for columns in context.matrix.values():
        columns[0].head.head = True
    context.row_times = rowtimes.of(all_rows, context.order, day)
    context.flat = indents.flat(all_rows)
    context.hanging = indents.hanging(all_rows)
    context.own_volts = belowline.places(all_rows)
    context.legend = _legend(all_rows, context.translated, explained.statuses)
    context.code_width = min(max((len(row.line.text) for row in all_rows if row.finds.codes), default=80), 200)
    context.width = min(max((len(row.line.text) for row in all_rows), default=80), 200)
    return context


def _joined(all_rows: Sequence[Row], names: Names, width: int) -> list[Row]:
    """The rows with what was wrapped put together: paragraphs, sentences that break off, full lines of a width."""
    found = breaks.mended(paragraphs.join(hearsay.marked(all_rows), names.listed), names.listed)
    return wraps.joined(found, width, names.listed)


def _respaced(found: Sequence[Line], names: Names) -> tuple[list[Line], list[spacing.Respaced], list[spacing.Respaced]]:
    """The lines with the codes in digits that were dictated, those closed that a space stands in, and opened what is
    written without one; what was read where, and what was dictated and can't be told."""
    found, dictated, unread = spokencodes.written(found)
    found = soistoo.written_out(spokenmarks.written(loosely.written_out(found, names), names.find))
    opened, glued = gluedwords.opened(atsigns.written_out(found), names.sure)
    closed, split = splitcodes.closed(opened, names.sure)
    mended = phaseslips.mended(statusslips.mended(namedlists.told(closed), names.listed))
    return list(mended), [*dictated, *glued, *split], unread


def _tell(context: Context, respaced: Sequence[spacing.Respaced], unread: Sequence[spacing.Respaced]) -> None:
    """Tell what was read otherwise than it stands, and what was not read."""
    for line, start, end, read in respaced:
        context.builder.notice("note", f"{line.text[start:end]} read as {read}", line, start, end)
    for line, start, end, _ in unread:
        context.builder.notice("warning", f"{line.text[start:end]}: write the code in digits", line, start, end)


def _legend(all_rows: list[Row], translated: bool, explained: dict[str, StatusWord]) -> Legend:
    """What letters stand for in this text, wherever it explains them."""
    found = dict(explained)
    keyed = (row for row in reversed(all_rows) if ":" in row.text or "=" in row.text or row.text[1:2] == " ")
    # Of lines that say the same the last one counts: it may stand below another with the same letters.
    for low in reversed(dict.fromkeys(row.low for row in keyed if not row.finds.codes)):
        found.update(states.legend_of(low, translated))
    return states.merged(found)


def _time_of_row(context: Context, at: datetime) -> None:
    """Go on in the scan of that time; a new one where it changes."""
    builder = context.builder
    if builder.snapshot.at != at and not builder.snapshot.empty and builder.snapshot.at is not None:
        builder.new_snapshot()
    if builder.snapshot.at is None or builder.snapshot.empty:
        builder.snapshot.at = at


def _row(context: Context, row: Row, at: int) -> None:
    """One row, by its kind."""
    context.at = at
    if row.later and not context.builder.snapshot.empty:
        context.builder.may_restart = True
    if row.blank:
        context.blanks += 1
        context.parted = True
        context.pending_values = {}
        context.open_code = context.open_row = None
        return
    if row.aside is not None:
        _aside(context, row)
        return
    if row.cells and not row.finds.codes and metarow.doubts_sides(context, row):
        return
    if row.kind == "rule" or row.head:
        context.open_code = context.open_row = None
        return
    if row.turns:
        turns.read(context, row)
        return
    told = row.roles is not None and "scan" in row.roles
    if at in context.row_times and not told:
        _time_of_row(context, context.row_times[at])
    known = context.builder.module
    if row.roles is not None and tablerow.stands_alone(context, row):
        row.roles = None
    if row.roles is not None and row.line.number not in context.page_marks:
        tablerow.read(context, row)
        if told and at in context.row_times and context.builder.snapshot.at is None:
            context.builder.snapshot.at = context.row_times[at]
    elif at in context.matrix:
        matrix.read(context, row, context.matrix[at])
    elif row.finds.codes:
        _coded(context, row)
        corrections.note(context, row)
    elif at not in context.own_volts or not belowline.read(context, row, at):
        plainrow.read(context, row, at)
    if row.own_volts:
        besidename.place(context, row)
    if row.counted is not None:
        countbehind.place(context, row)
    if context.builder.module is not known or row.finds.codes:
        context.parted = False
        if context.held:
            metarow.flush(context)
    if row.line.number not in context.page_marks:
        context.blanks = 0


def _aside(context: Context, row: Row) -> None:
    """A remark that tells of another time: nothing of it is read but what the customer says is wrong."""
    context.facts.take(row.text, row.low)
    for start, end in row.aside or ():
        context.builder.notice("note", f"{row.text[start:end]} {hearsay.MESSAGE}", row.line, row.start + start,
                               row.start + end)
    context.open_code = context.open_row = None


def _without_remark(context: Context, row: Row) -> Row:
    """The row without the word for a remark before it ("Note: U0100 in the BCM"), which is no name of a module; nor is
    the one above that of what it tells, unless it is a heading."""
    begin = hearsay.remark_end(row.low)
    if not 0 < begin <= row.finds.codes[0].start:
        return row
    if not context.under_heading:
        context.builder.module = None
    return row.part(begin)


def _without_greeting(context: Context, row: Row) -> Row:
    """The row from the sentence on that names the module of its first code ("Hi. ABS: C0110"); what stands before may
    tell of the scan."""
    if (code := row.finds.codes[0]).start < 2 or row.cells:
        return row
    lead = row.text[: code.start]
    if ". " not in lead and "! " not in lead and "? " not in lead and "; " not in lead:
        return row
    begin = max(lead.rfind(mark) for mark in (". ", "! ", "? ", "; ")) + 2
    before = row.low[:begin]
    if (context.names.find(before) or unknown.answers(row.text[:begin], context.names.score)
            or states.is_status(before.rstrip(" ;."))):
        return row
    if context.names.score(tidy(strip_links(row.text[: code.start]))) >= 90.0:
        # "Pass. door: U0100"
        return row
    named = context.names.score(tidy(strip_links(row.text[begin : code.start]))) >= 60.0
    if not named and (begin < code.start or not context.names.find(row.low[code.end :])):
        return row
    metarow.read(context, Row(row.line, row.text[: begin - 2], row.start))
    return row.part(begin)


def _coded(context: Context, row: Row) -> None:
    """A row with codes: a key with its value, a sentence, or a line of a list."""
    if row.described:
        describedrow.read(context, row)
        return
    row = _without_greeting(context, _without_remark(context, row))
    if row.roles is None and eachstatus.read(context, row):
        return
    pair, first = keyrow.split(row), row.finds.codes[0]
    if pair is not None and pair[2] <= first.start and leads_to_codes(pair[0], pair[2] == first.start):
        module = coderow.module_for(context, row, first)
        stops = [*(code.start for code in row.finds.codes[1:]), len(row.text)]
        for code, stop in zip(row.finds.codes, stops, strict=True):
            details = coderow.beside(context, row, code, stop)
            if details.status is None and (told := states.of_cell(pair[0], context.translated)) is not None:
                # "Stored code: C0035"
                details = replace(details, status=told)
            draft = coderow.add(context, module, row, code, details)
            context.open_code, context.open_row, context.tail = draft, row, ""
        context.refuse(row)
        keyrow.settle(context, row)
        return
    if not coderow.is_line_of_list(context, row) and sentences.is_prose(context, row):
        prose.read(context, row)
        return
    coderow.read(context, row)
