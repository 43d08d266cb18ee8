"""What is decided by the whole text before its first row is read: lines with whole words and names, rows with one thing
told in each, legends, columns, the pages, and the style in which the text names its modules.

Each function of :mod:`triage.intake.tidying` takes lines or rows and gives them back; their order is here, in
:mod:`triage.intake.line_passes` and in :mod:`triage.intake.row_passes`, and nowhere else.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from code_tables import Tables
from triage.intake import line_passes, row_passes
from triage.intake.codes.pieces import Legend
from triage.intake.entries import (
    belowline,
    corrections,
)
from triage.intake.lines import (
    pages,
    rows,
    spacing,
)
from triage.intake.lines.row import Row
from triage.intake.naming.names import Names, tidy
from triage.intake.plain.characters import Line
from triage.intake.plain.patterns import lazily
from triage.intake.said import dates, states
from triage.intake.said.languages import language
from triage.intake.scan import indents, statusheads, style
from triage.intake.scan.assembly import Builder
from triage.intake.scan.context import Context
from triage.intake.speech import reading
from triage.intake.tidying import (
    answerkeys,
    asked,
    boldkeys,
    bracketbytes,
    clausewraps,
    columncolons,
    drives,
    entrylines,
    exceptions,
    flags,
    frames,
    keybehind,
    keysahead,
    legends,
    legendsapart,
    letterbullets,
    listline,
    obdlists,
    pagebreaks,
    questions,
    restofcodes,
    rowtimes,
    samecodes,
    scancommas,
    scannames,
    screenbars,
    specks,
    statusabove,
    storedkeys,
    strayblanks,
    threads,
    totals,
    unitlists,
    unreadcodes,
    workremarks,
    wraps,
    zerocounts,
)
from triage.model.snapshot import StatusWord

#: A count behind a heading.
_BRACKETED = lazily(r"\s*[(\[][0-9]{1,3}[)\]]$")


def prepare(
    found: list[Line], tables: Tables, source: str | None, day: date | None, by_clauses: bool = False
) -> Context | None:
    """Everything that is decided by the whole text before the first row is read. ``by_clauses``: None without any."""
    names = Names(tables)
    bare = specks.left_out(screenbars.left_out(found))
    found = clausewraps.joined(frames.taken_off(bare, lambda lines: threads.are_messages(lines, names)))
    found, unmarked = line_passes.laid_out(keybehind.parted(listline.parted(found, names)), names)
    found, of_engine = obdlists.told(drives.written_out(corrections.written_out(found)), names)
    found, speech = reading.told(found, names, by_clauses)
    if by_clauses and not speech.written:
        return None
    found = questions.answered(listline.turned(letterbullets.written(found), names), names.likely)
    found = columncolons.barred(boldkeys.plain(samecodes.written_out(restofcodes.written_out(found))))
    whole, alike = line_passes.keyed(scancommas.tabbed(found), names)
    whole = exceptions.written_out(zerocounts.written_out(workremarks.told(whole, names), names), names)
    whole = unitlists.written_out(whole, names.likely)
    whole, parted = line_passes.scans_told(whole, lambda name: names.listed(name) or (
        len(name) > 5 and names.score(name) >= 85.0))
    whole, doubt = bracketbytes.told(whole, tables.has_failure_type)
    tidied, respaced, unread = line_passes.with_whole_names(whole, names, tables)

    def is_module(name: str) -> bool:
        return names.listed(name) or names.score(name) >= 85.0

    all_rows = rows.uncommented(rows.rows_from(tidied, is_module), is_module)
    all_rows = totals.left_out(flags.worded(asked.joined(all_rows)), names.likely)
    all_rows = row_passes.parted(row_passes.whole_rows(all_rows, names, wraps.width_of(whole), is_module), names)
    explained = legends.adopt(legendsapart.cut(strayblanks.closed(all_rows)), names.listed)
    all_rows = statusabove.put_behind(keysahead.put_behind(explained.rows))
    all_rows = answerkeys.written_out(all_rows, names.listed, explained.answers)
    all_rows, left_out = unreadcodes.left_out(row_passes.with_bare_names(all_rows, names, tables))
    all_rows = row_passes.in_columns(all_rows, names, explained.statuses)
    marks = pages.page_marks(all_rows, lambda name: names.score(_BRACKETED.sub("", tidy(name))) >= 60.0)
    all_rows = entrylines.joined(pagebreaks.joined(all_rows, marks, names.listed), names.listed)
    scannames.adopt(all_rows)
    storedkeys.adopt(all_rows, marks, names.likely)
    lows = [row.low for row in all_rows if not row.blank]
    context = Context(
        builder=Builder(source, names.as_written),
        names=names,
        style=style.study(all_rows, names, marks),
        rows=all_rows,
        translated=speech.translated or language(lows) != "en",
        order=dates.order(lows),
        page_marks=marks,
    )
    _tell(context, [*alike, *respaced], unread)
    if of_engine is not None:
        context.builder.notice("note", obdlists.GUESSED, of_engine, 0, len(of_engine.text))
    if doubt is not None:
        context.builder.notice("note", bracketbytes.DOUBT, *doubt)
    _tell_of_lines(context, left_out, parted)
    context.unmarked, context.legend = explained.unmarked or unmarked, _legend(
        all_rows, context.translated, explained.statuses)
    _set_places(context, day, marks)
    return context


def _set_places(context: Context, day: date | None, marks: set[int]) -> None:
    """Where times, headings, voltages and statuses stand, and how wide the text is."""
    all_rows, names = context.rows, context.names
    context.row_times = rowtimes.of(all_rows, context.order, day, marks)
    context.flat = indents.flat(all_rows)
    context.hanging = indents.hanging(all_rows)
    context.numbered, context.head_mark = indents.marks_of_headings(all_rows, names.likely, marks)
    context.own_volts = belowline.places(all_rows)
    context.status_places = statusheads.places(all_rows, context.translated, marks)
    context.code_width = min(max((len(row.line.text) for row in all_rows if row.finds.codes), default=80), 200)
    context.width = min(max((len(row.line.text) for row in all_rows), default=80), 200)


def _tell(context: Context, respaced: Sequence[spacing.Respaced], unread: Sequence[spacing.Respaced]) -> None:
    """Tell what was read otherwise than it stands, and what was not read."""
    for line, start, end, read in respaced:
        context.builder.notice("note", f"{line.text[start:end]} read as {read}", line, start, end)
    for line, start, end, _ in unread:
        context.builder.notice("warning", f"{line.text[start:end]}: write the code in digits", line, start, end)


def _tell_of_lines(
    context: Context, left_out: Sequence[tuple[Line, int, int, str]], parted: Sequence[Line]
) -> None:
    """Tell what was left out of a line and why, and which lines were taken for the first of another scan."""
    for line, start, end, message in left_out:
        context.builder.notice("warning", message, line, start, end)
    for line in parted:
        context.builder.notice("note", "the list below tells of the same modules again: taken for another scan", line)


def _legend(all_rows: list[Row], translated: bool, explained: dict[str, StatusWord]) -> Legend:
    """What letters stand for in this text, wherever it explains them."""
    found = dict(explained)
    keyed = (row for row in reversed(all_rows)
             if ":" in row.text or "=" in row.text or row.text.lstrip("([")[1:2] == " ")
    # Of lines that say the same the last one counts: it may stand below another with the same letters.
    for low in reversed(dict.fromkeys(row.low for row in keyed if not row.finds.codes)):
        found.update(states.legend_of(low, translated))
    return states.merged(found)
