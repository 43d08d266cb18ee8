"""Rows about the scan as a whole: when it was taken, where it stands, its voltage, the engine, what was connected,
and what was done to the vehicle."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime, time

from triage.intake.entries import happened, latersupply, voltsbeside
from triage.intake.entries.voltplaces import heads_scan, place_volt
from triage.intake.lines.row import Row
from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered
from triage.intake.said import conditions, dates, phases, programming, uncleared, voltengines, voltmoments, volts
from triage.intake.said.near import small
from triage.intake.scan import between
from triage.intake.scan.assembly import SnapshotDraft
from triage.intake.scan.context import Context
from triage.intake.tidying import scancells
from triage.intake.words.scan_words import BEFORE_DATE

_ASIDE_DATE = lazily(
    r"(?<![a-z])(?:printed|print date|report date|created|exported|gedruckt|erstellt|imprime|"
    r"impreso|signed|first (?:seen|set|occurred)|"
    r"last (?:seen|set|occurred)|first registration|erstzulassung|build|production|"
    r"calibrated on|due|booked|invoice|sent|"
    r"occurred|occurrence|set at|time of fault|zeitpunkt des fehlers|fehlerzeit|delivered|"
    r"collected|appointment)(?![a-z])"
)
_FREEZE = lazily(
    r"(?<![a-z])(?:freeze[ -]?frames?|frozen (?:data|frame)|snapshot data|environment(?:al)? data|"
    r"ambient data|fault conditions|"
    r"stored values|conditions when set|umgebungsdaten|umgebungsbedingungen|standbild|freeze-frame|"
    r"trame figee|"
    r"donnees figees|contexte d'apparition|cuadro congelado|datos congelados|imagen congelada|"
    r"ff data|"
    r"conditions at (?:the )?time|when set)(?![a-z])"
)
_TIME = lazily(r"\s*(?:time|zeit|uhrzeit|heure|hora|at|um)\b")


@remembered
def is_freeze_head(low: str) -> bool:
    """Whether the line heads, or holds, what a module stored with a code."""
    return _FREEZE.search(low) is not None


#: What stands before the date of a scan: nothing, or its key.
_BEGINS = lazily(r"[ \t=*#\[(>|_-]*(?:[a-z#. ]{1,24}[:=|]\s*)?")
#: A word for a scan or a date before one, and the marks of a heading.
_BEFORE, _HEADS = lazily(BEFORE_DATE), " -=*#_.:[]<>|~"
_WORK = ("replaced", "programmed", "paired", "calibrated", "battery disconnected")
#: No longer is a cell that names a scan, and no further below its codes.
_LONGEST_TITLE, _NEAR_BELOW = 60, 6
#: So many modules stand between the supply of one scan and that of the next.
_FEWEST_BETWEEN = 2


@remembered
def _is_aside_date(low: str) -> bool:
    """Whether a date in the line is not that of the scan."""
    return _ASIDE_DATE.search(low) is not None


@remembered
def _says_nothing(low: str) -> bool:
    """Whether a line says nothing of the scan and the vehicle in any text, wherever it stands."""
    return not (
        phases.find(low)
        or phases.scan_head(low)
        or dates.may_stand_in(low)
        or _TIME.match(low)
        or conditions.find(low).any()
        or voltsbeside.tells(low)
        or phases.events(low)
    )


def read(context: Context, row: Row, *, quiet: bool = False) -> bool:
    """Read what a row says of the scan and the vehicle; whether it said anything. ``quiet``: a page head or foot,
    which may add to a scan but never starts one."""
    low = row.low
    if low[:1] in ("[", "#", "=", "*") and volts.is_label(low.strip("#=* ")):
        # "[supply]": what follows is of the vehicle.
        context.close_module()
        context.under_heading = False
        return True
    if _says_nothing(low):
        return False
    told = between.by_phase(low)
    if told:
        # A line that sums up is of no scan by itself.
        context.supply_by_phase |= dict(told)
        return True
    head = phases.scan_head(low)
    hit = None if head is None and between.over_time(low) else phases.find(low)
    dated = [] if _is_aside_date(low) else _stamps(context, row)
    stamps = [stamp for stamp in dated if stamp.value is not None]
    deeds = phases.events(low) if not quiet else ()
    worked = any(deed.what in _WORK for deed in deeds)
    of_scan = stamps if hit or head or not stamps or (_BEGINS.fullmatch(low, 0, stamps[0].start) and not worked) else (
        _not_before(context.builder.snapshot, stamps))
    # Two such dates are of two scans, whichever of their numbers is the month.
    known = bool(context.builder.snapshot.written)
    written = next((low[stamp.start : stamp.end].split() for stamp in dated if (
        stamp.value is None and stamp.timed) or ((known or stamp.value is None) and _is_heading_of(low, stamp))), [])
    started = _start(context, row, hit, head is not None, of_scan, quiet, " ".join(written))
    said = conditions.find(low)
    found = volts.find(low)
    if not (hit or head or stamps or said.any() or deeds or voltsbeside.tells(low)):
        return False
    snapshot = context.builder.snapshot
    if started and not quiet and snapshot.clock is None:
        snapshot.clock = _of_day(low)
    change = not started and not quiet and not snapshot.empty and _is_change(snapshot, low)
    if change or (not started and not quiet and not snapshot.empty and _waits(context, row, said, found, deeds)):
        context.held.append(between.Held(row, snapshot, context.at, context.parted, change))
        context.builder.may_restart = True
    else:
        apply(context, row)
    if not quiet:
        happened.put_tried(context, row)
        happened.put_mended(context, row)
    for deed in deeds:
        happened.put(context, row, deed, stamps)
    if context.builder.next_phase == "after-clear" and ((said.ran_minutes or 0) > 0 or said.drove):
        context.builder.next_phase = "after-run"
    return True


def _not_before(snapshot: SnapshotDraft, stamps: list[dates.Stamp]) -> list[dates.Stamp]:
    """The dates but those before the day of a scan: what is told of such a day ("ABS replaced 2 March") neither begins
    a scan nor moves its day, which a time of day alone is of."""
    day = snapshot.at.date() if snapshot.at is not None else None
    return [stamp for stamp in stamps if day is None or stamp.value is None or stamp.value.date() >= day]


def note_deeds(context: Context, row: Row, *, work: bool = False) -> None:
    """Keep what a row tells was done, and nothing of what it measured; ``work``: only what was done to modules."""
    stamps = [] if _is_aside_date(row.low) else [stamp for stamp in _stamps(context, row) if stamp.value is not None]
    for deed in phases.events(row.low):
        if not work or deed.what in _WORK:
            happened.put(context, row, deed, stamps)


def _is_heading_of(low: str, stamp: dates.Stamp) -> bool:
    """Whether a line is nothing but a date, the marks of a heading, and a word for a scan or a date."""
    lead = low[: stamp.start].strip(_HEADS)
    return not low[stamp.end :].strip(_HEADS) and (not lead or _BEFORE.fullmatch(f"{lead} ") is not None)


def doubts_sides(context: Context, row: Row) -> bool:
    """A warning where the cells of a row name different scans and nothing told how to part what stands below them: of
    which scan that is, and at what voltage, is then not known. Whether there was one."""
    beside = scancells.side_by_side(row) if has_digit(row.low) or phases.may_stand_in(row.low) else ()
    if not (beside or phases.may_stand_in(row.low)) or between.by_phase(row.low):
        return False
    told = {hit.phase for cell in row.cells or () if len(cell.low) <= _LONGEST_TITLE
            and (hit := phases.find(cell.low)) is not None}
    below = context.rows[context.at + 1 : context.at + 1 + _NEAR_BELOW]
    if len(told) + len(beside) < 2 or not any(other.finds.codes for other in below):
        return False
    context.builder.notice(
        "warning",
        "scans stand side by side below this line, and it is not clear how: all of it was read as one scan, with no "
        "phase and no voltage; write one scan below the other",
        row.line, row.start, row.start + len(row.text))
    return True


def _of_day(low: str) -> time | None:
    clock = dates.clock(low)
    return clock[0] if clock is not None else None


def _is_change(snapshot: SnapshotDraft, low: str) -> bool:
    """Whether a row behind the modules of a scan tells what was changed after it: not where it gives an earlier time
    than the scan has."""
    if not between.tells_change(low):
        return False
    at = _of_day(low)
    return at is None or snapshot.clock is None or at >= snapshot.clock


def _waits(context: Context, row: Row, said: conditions.Conditions, found: Sequence[volts.Volt],
           deeds: Sequence[phases.Deed]) -> bool:
    """Whether a row behind the modules of a scan may be of the scan to come."""
    if context.parted and not (context.under_heading and context.blanks == 0):
        return True
    if context.builder.next_phase is not None and (found or said.any()):
        return True  # "Cleared 15:00", and below it "15:10 key on 12.6 V"
    inside = context.under_heading and row.line.indent > context.heading_indent
    if not inside and any(voltmoments.rested(row.low, volt.end) for volt in found):
        # "Charged 13 h, 12.7 V at rest"
        return True
    if said.ran_minutes or said.drove:
        # The engine ran, the vehicle was driven: if the modules come again they do so in another scan.
        return not context.under_heading
    if any(deed.what == "cleared" and deed.answer != "refused" for deed in deeds):
        # "Charger on, cleared, 14.2 V": what is said behind is of the scan to come.
        first = min(deed.start for deed in deeds)
        fed = latersupply.fed_for_clear(context.builder.snapshot, said)
        return (bool(found) or said.any()) and (fed or all(volt.start > first for volt in found))
    return _is_another_supply(context, found)


def _is_another_supply(context: Context, found: Sequence[volts.Volt]) -> bool:
    """Whether a row gives the vehicle another voltage than the scan has, behind modules named since: "4 March, 12.6 V".

    If these modules come again below it they do so in another scan.
    """
    snapshot = context.builder.snapshot
    if context.under_heading or snapshot.volts is None:
        return False
    if not any(volt.of in ("supply", "bare") and volt.value != snapshot.volts for volt in found):
        return False
    last = context.volts_seen[-1][1].line.number if context.volts_seen else 0
    return sum(module.line.number > last for module in snapshot.modules.values()) >= _FEWEST_BETWEEN


def apply(context: Context, row: Row, *, top: bool = False, snapshot: SnapshotDraft | None = None) -> None:
    """Put what a row says of the scan into ``snapshot``, else that being read; ``top``: never into a module."""
    # What fed the vehicle while a module was programmed is told of that, in its event.
    held = programming.programmed_at(row.low)
    found = tuple(volt for volt in volts.find(row.low) if volt not in held)
    said = conditions.find(row.low)
    scan = snapshot or context.builder.snapshot
    latersupply.note(scan, row)
    if scan.volts is not None and any(volt.of == "made" for volt in found):
        # "Alternator 14.2 V at idle" below a scan at 10.2 V: the engine ran for that.
        said = replace(said, engine=None)
    if scan.empty and heads_scan(row.low):
        # "Donor vehicle 14.2 V, started" above "After clear, key on engine off, nothing connected"
        scan.said.outside_supply = said.outside_supply or scan.said.outside_supply
        scan.said.engine = scan.said.engine if said.engine is None or said.engine_passed else said.engine
    said = latersupply.without_later(context, row, scan, said)
    context.builder.say(said, snapshot)
    both = voltengines.both(row.low)
    if both is not None:
        scan.by_engine = scan.by_engine or (both, row.line)
        found = tuple(volt for volt in found if not both.span[0] <= volt.start < both.span[1])
    found = voltsbeside.without(context, row, scan, found)
    # The lowest is never of one module; with it in a line that is not set in under a heading the rest is not either.
    top = top or (context.flat and any(volt.of == "lowest" for volt in found))
    before = len(scan.readings)
    for volt in found:
        place_volt(context, row, volt, top=top, snapshot=snapshot)
    latersupply.told_apart(scan, said, before)
    voltsbeside.keep(row, scan)


def flush(context: Context, *, end: bool = False) -> None:
    """Put rows that waited for what comes after them into the snapshot being read now, or into the one above. ``end``:
    nothing comes after them."""
    waiting, context.held = context.held, []
    for held, above in zip(waiting, _above(context, waiting), strict=True):
        if held.changes and not end:
            context.builder.snapshot.changes.append(conditions.find(held.row.low))
        elif not held.changes or (held.snapshot is context.builder.snapshot and _of_day(held.row.low) is None):
            apply(context, held.row, top=True, snapshot=held.snapshot if above else context.builder.snapshot)


def _above(context: Context, waiting: Sequence[between.Held]) -> list[bool]:
    """Of each row that waited whether it is of its own snapshot, which another has followed."""
    if all(held.snapshot is context.builder.snapshot for held in waiting):
        return [False] * len(waiting)
    context.habit = context.habit or between.habit(context.rows)
    found: list[bool] = []
    for place, held in enumerate(waiting):
        if not between.kinds(held.row) and place and found[-1] and held.at == waiting[place - 1].at + 1:
            # "Battery 11.9 V" and below it "Charger: no": one block.
            found.append(not between.leads_on(held.row.low, True))
        else:
            found.append(held.snapshot is not context.builder.snapshot and between.is_of_the_scan_above(
                held, context.rows, context.at, context.habit))
    return found


def _stamps(context: Context, row: Row) -> list[dates.Stamp]:
    """The dates of a row. One that could be two days is asked for once; how it was settled is told where days near
    each other tell it."""
    found = dates.standing(row.text, dates.find(row.text, context.order)) if has_digit(row.low) else []
    for stamp in found:
        alone = dates.find(row.text[stamp.start : stamp.end])
        if stamp.value is not None and not context.asked_order and alone and alone[0].value is None:
            context.asked_order = True
            if dates.is_guess(other.low for other in context.rows):
                context.builder.notice(
                    "note", f"{row.text[stamp.start : stamp.end]}: taken as {stamp.value.date()}, since the dates then "
                    "lie within one month; write the date as 2025-03-31 if it is not", row.line,
                    row.start + stamp.start, row.start + stamp.end)
        if stamp.value is None and not context.asked_order:
            context.asked_order = True
            context.builder.notice(
                "warning",
                f"{row.text[stamp.start : stamp.end]}: day or month first? Nothing in the text tells; not "
                f"used. Write the "
                "date as 2025-03-31",
                row.line,
                row.start + stamp.start,
                row.start + stamp.end,
            )
    return found


def _start(
    context: Context, row: Row, hit: phases.PhaseHit | None, head: bool, stamps: list[dates.Stamp], quiet: bool,
    written: str,
) -> bool:
    """Start a snapshot where the row says that one starts; set its phase and its time. ``written``: a date and time of
    which day and month can't be told apart."""
    builder = context.builder
    inside = context.under_heading and row.line.indent > context.heading_indent and context.blanks == 0
    at, timed = _time(context, row, stamps, hit is not None or head)
    snapshot = builder.snapshot
    if inside and hit is None:
        return False
    if quiet:
        snapshot.phase = snapshot.phase or (hit.phase if hit else None)
        snapshot.at = snapshot.at or at
        return False
    if not snapshot.empty and hit is not None and not head and uncleared.span(row.low) is not None:
        # "I have cleared nothing yet" behind the modules is said of them.
        snapshot.phase = snapshot.phase or (hit.phase if len(builder.snapshots) == 1 else None)
        return False
    # A scan without any codes is told in one line, and so may be that of the next drive.
    once = snapshot.rest_clean is not None and not snapshot.modules and snapshot.phase == "after-run"
    fresh = hit is not None and (snapshot.phase not in (None, hit.phase) or once)
    moved = (
        at is not None
        and snapshot.at is not None
        and at != snapshot.at
        and (timed or at.date() != snapshot.at.date())
    ) or (bool(written and snapshot.written) and written != snapshot.written)
    started = False
    if not snapshot.empty and (
        fresh
        or moved
        or head
        or (hit is not None and snapshot.phase is None)
        or (at is not None and snapshot.at is None and timed)
        or (at is not None and any(_is_heading_of(row.low, stamp) for stamp in stamps) and _begins_again(context))
    ):
        _close(context)
        snapshot = builder.new_snapshot()
        started = True
        flush(context)
    elif snapshot.empty and hit is not None and fresh:
        if snapshot.phase is not None and snapshot.volts is not None:
            # "Before clear 11.4 V" right above "After clear 12.8 V": of a scan that stands elsewhere, or nowhere.
            context.supply_by_phase.setdefault(snapshot.phase, snapshot.volts)
            snapshot.volts, snapshot.lowest, snapshot.end_volts = None, None, None
        snapshot.phase = None
    elif not snapshot.empty and hit is not None:
        builder.may_restart = True
    if hit is not None:
        snapshot.phase = snapshot.phase or hit.phase
        if snapshot is builder.snapshot and snapshot.empty:
            builder.next_phase = None
    if at is not None and (snapshot.at is None or (snapshot.empty and (timed or (
            (hit is not None or head) and at.date() != snapshot.at.date())))):
        snapshot.at = at
    snapshot.written = snapshot.written or written
    return started or snapshot.empty


def _begins_again(context: Context) -> bool:
    """Whether the module that the scan began with stands right below: a date alone above it heads another scan of the
    same day."""
    first = next(iter(context.builder.snapshot.modules.values()), None)
    below = [row.low for row in context.rows[context.at + 1 : context.at + 1 + _NEAR_BELOW] if not row.blank]
    return first is not None and any(low.startswith(small(first.printed)) for low in below)


def _close(context: Context) -> None:
    context.close_module()
    context.section, context.section_of_module, context.list_of = None, False, None
    context.live_data = context.under_heading = False


def _time(context: Context, row: Row, stamps: list[dates.Stamp], heads: bool) -> tuple[datetime | None, bool]:
    """The time a row states: a date, or a time of day on the date last named."""
    for stamp in stamps:
        if stamp.value is not None:
            context.last_date = stamp.value
            if stamp.timed:
                return stamp.value, True
            clock = dates.clock(row.low[: stamp.start] + " " * (stamp.end - stamp.start) + row.low[stamp.end :])
            if clock is not None:
                return datetime.combine(stamp.value.date(), clock[0]), True
            return stamp.value, False
    if context.last_date is not None and (heads or _TIME.match(row.low)):
        clock = dates.clock(row.low)
        if clock is not None:
            return datetime.combine(context.last_date.date(), clock[0], tzinfo=context.last_date.tzinfo), True
    return None, False


