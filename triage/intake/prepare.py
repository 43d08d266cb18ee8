"""What is decided by the whole text before its first row is read: lines with whole words and names, rows with one thing
told in each, legends, columns, the pages, and the style in which the text names its modules.

Each function of :mod:`triage.intake.tidying` takes lines or rows and gives them back; their order is here and nowhere
else.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date

from code_tables import Tables
from triage.intake.codes.pieces import Legend
from triage.intake.entries import (
    belowline,
    besidename,
    corrections,
    countbehind,
    emptylists,
)
from triage.intake.lines import (
    alikenumbers,
    counted,
    idents,
    namegaps,
    namelist,
    numbering,
    outline,
    owncodes,
    pages,
    rows,
    slipplaces,
    spacing,
    straygaps,
)
from triage.intake.lines.layouts import split_rows
from triage.intake.lines.row import Row
from triage.intake.naming import IsName
from triage.intake.naming.names import Names, listed_words, tidy
from triage.intake.plain import delimiters
from triage.intake.plain.characters import Line
from triage.intake.plain.patterns import lazily
from triage.intake.said import dates, states
from triage.intake.said.languages import language
from triage.intake.scan import indents, statusheads, style
from triage.intake.scan.assembly import Builder
from triage.intake.scan.context import Context
from triage.intake.tidying import (
    across,
    addressed,
    alikecodes,
    answerboxes,
    answeredheads,
    answerkeys,
    answerlabels,
    answerlists,
    asked,
    asstatus,
    atsigns,
    blockaddresses,
    blocks,
    boldkeys,
    bracketbytes,
    breaks,
    cellsbelow,
    codefirst,
    codemarks,
    columncolons,
    columnkey,
    countsahead,
    dashes,
    described,
    dictated,
    dittos,
    dottedkeys,
    doublespaced,
    drives,
    endedentries,
    entrylines,
    exceptions,
    fields,
    flags,
    gluedwords,
    halves,
    hearsay,
    heavylist,
    inline,
    jointnames,
    jsonpairs,
    keyarrows,
    keyedbehind,
    keyedheads,
    keymarks,
    keysahead,
    keysections,
    labelledaddresses,
    lastnames,
    legends,
    listline,
    logs,
    lonecells,
    lookedat,
    loosely,
    lostbreaks,
    lostcolumns,
    makersown,
    markedheads,
    marknotes,
    matrix,
    namedcolumn,
    namedlists,
    namedpieces,
    namelead,
    namesagain,
    namesbelow,
    numberednames,
    obdlists,
    ownlists,
    paddedheads,
    pagebreaks,
    pairednames,
    paragraphs,
    phasecells,
    phaseslips,
    plainecu,
    plurals,
    printcolumns,
    questions,
    quotebars,
    quotedbreaks,
    repeated,
    reporters,
    restofcodes,
    rowtimes,
    saidbelow,
    saidofall,
    samecodes,
    scanbreaks,
    scancommas,
    scanlead,
    scannames,
    screenbars,
    sectionnumbers,
    sectionrows,
    senderkeys,
    sharedcolumn,
    shortheads,
    shortstops,
    sidebyside,
    slotnames,
    smallnumbers,
    soistoo,
    speechfillers,
    splitcodes,
    spokencodes,
    spokenmarks,
    statusabove,
    statusbrackets,
    statuscounts,
    statusslips,
    storedkeys,
    strayblanks,
    sumsbelow,
    tabbedkeys,
    threads,
    ticks,
    tightcommas,
    toldagain,
    tornrows,
    tornwords,
    totals,
    turnsofspeech,
    unitlists,
    unreadcodes,
    workremarks,
    wrappedcells,
    wraps,
    xmlkeys,
    zerocounts,
)
from triage.model.snapshot import StatusWord

#: A count behind a heading.
_BRACKETED = lazily(r"\s*[(\[][0-9]{1,3}[)\]]$")


def prepare(found: list[Line], tables: Tables, source: str | None, day: date | None) -> Context:
    """Everything that is decided by the whole text before the first row is read."""
    names = Names(tables)
    found, unmarked = _laid_out(listline.parted(found, names), names)
    found, of_engine = obdlists.told(drives.written_out(corrections.written_out(found)), names)
    found = questions.answered(listline.turned(threads.told(found, names), names), names.likely)
    one_by_one = samecodes.written_out(restofcodes.written_out(found))
    found = scancommas.tabbed(columncolons.barred(boldkeys.plain(one_by_one)))
    whole, alike = _keyed(found, names)
    whole = exceptions.written_out(zerocounts.written_out(workremarks.told(whole, names), names), names)
    whole = unitlists.written_out(whole, names.likely)
    whole, parted = _scans_told(whole, lambda name: names.listed(name) or (
        len(name) > 5 and names.score(name) >= 85.0))
    whole, doubt = bracketbytes.told(whole, tables.has_failure_type)
    tidied, respaced, unread = _with_whole_names(whole, names, tables)

    def is_module(name: str) -> bool:
        return names.listed(name) or names.score(name) >= 85.0

    all_rows = rows.uncommented(rows.rows_from(tidied, is_module), is_module)
    all_rows = totals.left_out(flags.worded(asked.joined(all_rows)), names.likely)
    all_rows = _parted(_whole_rows(all_rows, names, wraps.width_of(whole), is_module), names)
    explained = legends.adopt(strayblanks.closed(all_rows), names.listed)
    all_rows = statusabove.put_behind(keysahead.put_behind(explained.rows))
    all_rows = answerkeys.written_out(all_rows, names.listed, explained.answers)
    all_rows, left_out = unreadcodes.left_out(_with_bare_names(all_rows, names, tables))
    all_rows = _in_columns(all_rows, names, explained.statuses)
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
        translated=language(lows) != "en",
        order=dates.order(lows),
        page_marks=marks,
    )
    _tell(context, [*alike, *respaced], unread)
    if of_engine is not None:
        context.builder.notice("note", obdlists.GUESSED, of_engine, 0, len(of_engine.text))
    if doubt is not None:
        context.builder.notice("note", bracketbytes.DOUBT, *doubt)
    _tell_of_lines(context, left_out, parted)
    context.row_times = rowtimes.of(all_rows, context.order, day, marks)
    context.flat = indents.flat(all_rows)
    context.hanging = indents.hanging(all_rows)
    context.numbered = indents.numbered(all_rows, names.likely)
    context.own_volts = belowline.places(all_rows)
    context.status_places = statusheads.places(all_rows, context.translated, marks)
    context.unmarked = explained.unmarked or unmarked
    context.legend = _legend(all_rows, context.translated, explained.statuses)
    context.code_width = min(max((len(row.line.text) for row in all_rows if row.finds.codes), default=80), 200)
    context.width = min(max((len(row.line.text) for row in all_rows), default=80), 200)
    return context


def _scans_told(found: Sequence[Line], is_name: IsName) -> tuple[Sequence[Line], list[Line]]:
    """The lines with the scans headed that only their lists tell, and the lines that were taken for such heads."""
    whole, parted = scanbreaks.told(found, is_name)
    return (whole, parted) if len(whole) > len(found) or parted else toldagain.told(whole, is_name)


def _laid_out(found: Sequence[Line], names: Names) -> tuple[list[Line], StatusWord | None]:
    """The lines with what their layout tells written out: dittos, cells, columns of a page, boxes, the marks of a key;
    and the status of the codes that such a key leaves unmarked."""
    found = tabbedkeys.coloned(paddedheads.bare(found))
    found = labelledaddresses.left_out(wrappedcells.joined(quotedbreaks.closed(dittos.repeated(found))))
    whole = tornrows.joined(found)
    whole = jsonpairs.laid_out(doublespaced.closed(screenbars.left_out(quotebars.told(whole))))
    whole = delimiters.unstroked(delimiters.unquoted(delimiters.unbranched(whole)))
    whole = countsahead.behind(lonecells.bared(delimiters.barred(delimiters.unboxed(whole))))
    cut = printcolumns.below(whole, lambda name: names.likely(names.bare(name)))
    paired = heavylist.written_out(sectionnumbers.set_in(cut), names.likely)
    parted = lostcolumns.tabbed(paired, lambda name: names.score(names.bare(name)) >= 60.0)
    marked, unmarked = codemarks.told(answerboxes.told(sectionrows.headed(parted)))
    return list(marked), unmarked


def _whole_rows(all_rows: list[Row], names: Names, width: int, is_module: IsName) -> list[Row]:
    """The rows, what was wrapped put together, and each code that has its modules behind or below it with those."""

    def is_like(name: str) -> bool:
        return names.score(names.bare(name)) >= 60.0

    # Lines below a code are no part of its text where they name its modules; a wrapped list is whole thereafter.
    joined = _joined(reporters.tabled(all_rows, is_like, is_module), names, width)
    return reporters.tabled(sumsbelow.in_front(joined), is_like, is_module)


def _keyed(found: Sequence[Line], names: Names) -> tuple[Sequence[Line], list[spacing.Respaced]]:
    """The lines with digits for look-alike letters, keys in place of other marks and makers' own numbers told, and what
    was read where."""
    digits, alike = alikecodes.written(gluedwords.behind_spaced(statusbrackets.told(found)))
    keyed = xmlkeys.written_out(dottedkeys.written_out(keysections.named(smallnumbers.written(digits))), names.listed)
    return ownlists.marked(makersown.marked(keyarrows.written_out(keyed), names), names), alike


def _with_whole_names(
    whole: Sequence[Line], names: Names, tables: Tables
) -> tuple[Sequence[Line], list[spacing.Respaced], list[spacing.Respaced]]:
    """The lines with every word and name in one piece, and what was closed or opened for that."""
    found = dictated.joined(spacing.single(statuscounts.left_out(answerlabels.shortened(plurals.closed(whole)))))
    found = speechfillers.left_out(found)
    found = tornwords.joined(found, listed_words(tables).__contains__)

    def is_name(name: str) -> bool:
        return names.score(names.bare(name)) >= 60.0 or plainecu.alone(name)

    found = blocks.parted(cellsbelow.in_rows(found, is_name), is_name)
    found, respaced, unread = _respaced(namegaps.closed(found, names.listed), names)
    found = slotnames.adopted(namesagain.adopted(pairednames.adopted(found, names), names), names)
    found = jointnames.adopted(found, names)
    found = plainecu.named(found, names)
    return found, respaced, unread


def _parted(all_rows: Sequence[Row], names: Names) -> list[Row]:
    """The rows, each with one thing told in it where several stood in a line, without what numbers and stamps them."""
    told = lookedat.told(shortstops.told(turnsofspeech.commas(all_rows)))
    found = markedheads.told(marknotes.told(hearsay.marked(told), names.likely))
    found = repeated.left_out(blockaddresses.left_out(found), names.likely)
    found = numbering.uncounted(numbering.unfinished(numbering.unnumbered(found)))
    found = keymarks.told(answerlists.parted(logs.unstamped(found)), names.likely)
    found = senderkeys.told(found, names.likely)
    keyedbehind.adopt(found, names)
    found = fields.cut(keyedbehind.barred(found, names.likely))
    found = inline.parted(shortheads.written_out(found), names.find, names.likely)
    led = scanlead.parted(phasecells.parted(found), names.find)
    found = namelead.parted(saidofall.parted(asstatus.told(led)), names)
    return emptylists.taken_off(counted.taken_off(found))


def _with_bare_names(all_rows: Sequence[Row], names: Names, tables: Tables) -> list[Row]:
    """The rows without what stands beside the names of modules: ticks, counts, answers, addresses."""
    found = ticks.told(all_rows, names.likely)
    found = countbehind.taken_off(found, names.likely, lambda name: names.match(name).canonical in tables.modules)
    found = keyedheads.taken_off(answeredheads.taken_off(found, names.likely), names.likely)
    found = besidename.taken_off(idents.taken_off(found), names.likely, names.find)
    return addressed.taken_off(numberednames.taken_off(lostbreaks.cut(found), names.likely), names.likely)


def _in_columns(all_rows: list[Row], names: Names, statuses: Mapping[str, StatusWord]) -> list[Row]:
    """The rows cut into the columns they stand in, scans side by side unfolded, each code behind its module."""
    alikenumbers.adopt_headed(all_rows, lambda name: names.likely(names.bare(name)))
    outline.adopt(all_rows, lambda name: names.likely(names.bare(name)), names.sure)
    described.adopt(all_rows, names)
    split_rows(all_rows)
    straygaps.closed(all_rows)
    gridless = matrix.written_out(all_rows, lambda name: names.score(names.bare(name)) >= 60.0, statuses)
    halved = halves.unfolded(sharedcolumn.doubled(columnkey.named(gridless)), names.find)
    beside = sidebyside.unfolded(halved, statuses)
    beside = across.turned(beside, lambda name: names.score(names.bare(name)) >= 60.0)
    if (beside := dashes.told(beside, names.likely)) is not all_rows:
        all_rows = beside
        split_rows(all_rows)
    namedcolumn.adopt(all_rows, names.listed)
    heavylist.adopt(all_rows, names.listed)
    known = namelist.known(names)

    def is_name(name: str) -> bool:
        return known(name := names.bare(name)) or (len(name) > 5 and names.score(name) >= 85.0)

    slipplaces.adopt(all_rows, is_name)
    owncodes.adopt(all_rows, is_name)
    namedpieces.adopt(all_rows, names)
    return codefirst.in_front(all_rows, names.listed, names)


def _joined(all_rows: Sequence[Row], names: Names, width: int) -> list[Row]:
    """The rows with what was wrapped put together: paragraphs, sentences that break off, full lines of a width, entries
    with a piece in each line."""
    whole = namesbelow.joined(saidbelow.joined(hearsay.marked(all_rows), names.find), names.listed)
    found = breaks.mended(paragraphs.join(whole, names.listed), names.listed)
    return entrylines.joined(endedentries.joined(wraps.joined(found, width, names.listed), names.listed), names.listed)


def _respaced(found: Sequence[Line], names: Names) -> tuple[list[Line], list[spacing.Respaced], list[spacing.Respaced]]:
    """The lines with the codes in digits that were dictated, those closed that a space stands in, and opened what is
    written without one; what was read where, and what was dictated and can't be told."""
    found, spoken, unread = spokencodes.written(tightcommas.opened(found))
    found = soistoo.written_out(spokenmarks.written(loosely.written_out(found, names), names.find))
    found = lastnames.written_out(atsigns.written_out(found, names.likely), names.listed)
    opened, glued = gluedwords.opened(found, names.sure)
    closed, split = splitcodes.closed(opened, names.sure)
    mended = phaseslips.mended(statusslips.mended(namedlists.told(closed), names.listed))
    return list(mended), [*spoken, *glued, *split], unread


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
