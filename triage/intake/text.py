"""The tolerant reader of text: characters, lines, layouts, one row after another, assembly."""

from __future__ import annotations

from copy import copy
from dataclasses import replace
from datetime import date, datetime, time
from typing import NamedTuple

from code_tables import Tables
from triage.collector import collector_paused
from triage.intake import figures, finish
from triage.intake.entries import (
    belowline,
    besidename,
    clearrow,
    coderow,
    continuation,
    corrections,
    countbehind,
    deniedcode,
    describedrow,
    doneclauses,
    doubted,
    eachstatus,
    goneonly,
    keycodes,
    metarow,
    plainrow,
    prose,
    rawrows,
    sections,
    sentences,
    tablerow,
    turns,
)
from triage.intake.lines import unknown
from triage.intake.lines.row import Row
from triage.intake.naming.linking import strip_links
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import Line, line_of, lines
from triage.intake.plain.patterns import lazily
from triage.intake.prepare import prepare
from triage.intake.said import states
from triage.intake.said.answers import spoken
from triage.intake.scan.context import Context
from triage.intake.speech import reading
from triage.intake.tidying import frames, hearsay
from triage.model.notices import Notice
from triage.model.session import Event, Vehicle
from triage.model.snapshot import Snapshot

#: How a line begins to be told that the reader itself stumbled over; the rest of the text is read all the same.
NOT_READ = "this line was not read, by a mistake of the reader"
IN_PARTS = "this text was read in parts, by a mistake of the reader"


#: Nobody speaks at greater length: so long a text is a report, and is read once.
_MOST_LINES = 300

#: How often the source of a page may be shown in another.
_DEEPEST = 3


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
    with collector_paused():
        return read_lines(_cut(text), tables, source=source, day=day)


def _cut(text: str) -> list[Line]:
    """``text`` as lines, HTML as a reader of the page sees it, and again where the page shows the source of one; a mail
    quotes such a source line by line, or writes its marks out ("&lt;td&gt;")."""
    found: list[Line] | None = None
    for _ in range(_DEEPEST):
        if "</" not in text and "&lt;/" not in text:
            break
        from triage.intake.plain import markup  # the parser of pages is loaded for pages alone

        if not markup.is_html(markup.written(text)):
            break
        bare = [line_of(at, each, each) for at, each in enumerate(text.split("\n"), 1)]
        if not text.lstrip().startswith("<"):
            bare = frames.taken_off(bare)
        page = markup.lines_of_html(markup.written("\n".join(line.text for line in bare)))
        for line in page:
            number = bare[min(line.number, len(bare)) - 1].number
            line.number = number if found is None else found[number - 1].number
        found = page
        text = "\n".join(line.text for line in page)
    return lines(text) if found is None else found


def read_lines(
    found: list[Line], tables: Tables, *, source: str | None = None, day: date | None = None
) -> Reading:
    """Read lines already cut (out of HTML, say)."""
    with collector_paused():
        return _read(found, tables, source, day)


def _read(found: list[Line], tables: Tables, source: str | None, day: date | None) -> Reading:
    """Read lines from the first to the last; running text in two ways, of which the better is kept."""
    clauses = None
    if len(found) <= _MOST_LINES:
        clauses = _read_once([replace(line) for line in found], tables, source, day, by_clauses=True)
    pieces = _read_once(found, tables, source, day)
    if clauses is None or pieces is None:
        return clauses or pieces or Reading([], None, [], [])
    by_clauses, by_pieces = (reading.cost(each.snapshots, each.notices, tables) for each in (clauses, pieces))
    return clauses if by_clauses < by_pieces else pieces


def _read_once(
    found: list[Line], tables: Tables, source: str | None, day: date | None, by_clauses: bool = False
) -> Reading | None:
    """Read lines from the first to the last; None where they are to be read ``by_clauses`` and hold none."""
    try:
        context = prepare(found, tables, source, day, by_clauses)
        if context is None:
            return None
    except ImportError:  # an installation without its libraries reads nothing at all
        raise
    except Exception as error:  # of what stands elsewhere nothing is lost
        return _in_halves(found, tables, source, day, error)
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
    try:
        metarow.flush(context, end=True)
        result = finish.snapshots(context)
        vehicle, done = finish.vehicle(context), finish.events(context)
        figures.tell(context, result, done)
    except Exception as error:
        return _in_halves(found, tables, source, day, error)
    notices = sorted(context.builder.notices, key=lambda notice: (notice.line or 0, notice.start or 0))
    return Reading(result, vehicle, done, notices)


def _in_halves(
    found: list[Line], tables: Tables, source: str | None, day: date | None, error: Exception,
) -> Reading:
    """The two halves of a text over which the reader stumbled as a whole, read one after the other, and so on down to
    the line that it can't read."""
    if len(found) < 2:
        told = [Notice("warning", f"{NOT_READ} ({type(error).__name__}): type it in another way, or report it", source,
                       line.number, 0, len(line.text), line.text) for line in found]
        return Reading([], None, [], told)
    middle = len(found) // 2
    # A blank line parts what belongs together least.
    near = [at for at in range(1, len(found)) if not found[at].text.strip()]
    middle = min(near, key=lambda at: abs(at - middle), default=middle)
    first, second = (_read(part, tables, source, day) for part in (found[:middle], found[middle:]))
    notices = first.notices + second.notices
    if not any(notice.message.startswith((NOT_READ, IN_PARTS)) for notice in notices):
        # Both halves are read well, but what heads one may stand in the other.
        at = found[middle]
        notices = [Notice("warning", f"{IN_PARTS} ({type(error).__name__}), from here on apart from what stands above: "
                          "see whether each scan is whole, and report it", source, at.number, 0, len(at.text), at.text),
                   *notices]
    return Reading(first.snapshots + second.snapshots, first.vehicle or second.vehicle, first.events + second.events,
                   notices)


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
    if _doubted(context, row) or _aside(context, row):
        return
    row = doneclauses.apart(context, row) or row
    if not (row.finds.codes or context.live_data or context.in_freeze_frame or row.roles is not None):
        context.measured_rows.append(at)
    if row.stored:
        continuation.stored(context, row)
        return
    if not row.finds.codes and (sections.tells_of_all(context, row) or (
            row.cells and metarow.doubts_sides(context, row))):
        return
    if row.kind == "rule" or row.head:
        context.open_code = context.open_row = None
        return
    if row.turns:
        turns.read(context, row)
        return
    if row.names_scan is not None:
        turns.named(context, row)
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
    elif row.finds.codes:
        _coded(context, row)
        corrections.note(context, row)
    elif deniedcode.read(context, row, at):
        pass
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


def _doubted(context: Context, row: Row) -> bool:
    """Whether a row only tells what was done or connected, as far as that is sure, and of today."""
    if row.aside is not None or not doubted.note(context, row) or row.finds.codes or spoken(row.low):
        return False
    metarow.read(context, row)
    context.open_code = context.open_row = None
    return True


def _aside(context: Context, row: Row) -> bool:
    """Whether a row is a remark that tells of another time: nothing of it is read but what the customer says is wrong;
    of a note between the lines also what was done, and the supply."""
    if row.aside is None and not row.note:
        return False
    told = context.facts.take(row.text, row.low)
    if row.note:
        if told is None:
            metarow.note_deeds(context, row)
        metarow.apply(context, row, top=True)
        return True
    for start, end in row.aside or ():
        context.builder.notice("note", f"{row.text[start:end]} {hearsay.MESSAGE}", row.line, row.start + start,
                               row.start + end)
    context.open_code = context.open_row = None
    return True


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


#: Right behind a code, before what else is told of it.
_ASKED = lazily(r"\?{1,3}(?=\s*[\"(])")


def _unasked(row: Row) -> Row:
    """The row without the question marks behind its codes: no sentence ends there ("P1610? (no key), U0140")."""
    places = [match.span() for code in row.finds.codes if (match := _ASKED.match(row.low, code.end)) is not None]
    if not places or (row.cells is not None and row.kind != "gap"):
        return row
    row = copy(row)
    for start, end in places:
        gap = " " * (end - start)
        row.text, row.low = row.text[:start] + gap + row.text[end:], row.low[:start] + gap + row.low[end:]
    return row


def _coded(context: Context, row: Row) -> None:
    """A row with codes: a key with its value, a sentence, or a line of a list; and whether its module refused the
    clear."""
    _of_codes(context, row)
    clearrow.note_refused(context, row)


def _of_codes(context: Context, row: Row) -> None:
    # A number that was told to be a code since then has no description: the row is one of a list all the same.
    if row.described and len(row.described) == 3 * len(row.finds.codes):
        describedrow.read(context, row)
        return
    if row.named is not None:
        coderow.read(context, row)
        return
    if clearrow.read(context, row):
        return
    row = _without_greeting(context, keycodes.without_key(context, _without_remark(context, _unasked(row))))
    if row.roles is None and eachstatus.read(context, row):
        return
    if keycodes.read(context, row):
        return
    if (row.cells is None and goneonly.leads(row)) or (
            not coderow.is_line_of_list(context, row) and sentences.is_prose(context, row)):
        prose.read(context, row)
        return
    coderow.read(context, row)
