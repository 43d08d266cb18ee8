"""Of whom a voltage is that was read beside no code: the vehicle's, a module's, or what was stored with a code; and
when the vehicle had it."""

from __future__ import annotations

from triage.intake.entries import furthervolts, latersupply
from triage.intake.lines.row import Row
from triage.intake.lines.supplyrow import alone, of_the_module
from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.said import conditions, dates, nominal, phases, voltbatteries, voltmoments, volts
from triage.intake.said.answers import spoken
from triage.intake.said.near import small
from triage.intake.said.voltmoments import Moment, at_fault, moment
from triage.intake.scan.assembly import CodeDraft, SnapshotDraft
from triage.intake.scan.context import Context
from triage.model.snapshot import Reading

_VALUE = lazily(r"[0-9]{1,2}(?:[.,][0-9]{1,3}|(?=\s?v))")
_AFTER_MINUTES = lazily(r"(?<![a-z])(?:after|nach|apres|despues de|tras) [0-9]{1,3} ?min[a-z]*")
_NEAR_BEFORE = 40
#: A heading that begins with the day and the time of its scan.
_STAMPED = lazily(r"[\s#=*\[(>-]{0,8}(?:[0-9]{4}-[0-9]{2}-[0-9]{2}|"
                  r"[0-9]{1,2}[./-][0-9]{1,2}[./-](?:[0-9]{2}){1,2})[ ,t]{1,3}"
                  r"[0-9]{1,2}[:h.][0-9]{2}(?![0-9])")
_RESTED, _BEFORE_RUN = "battery at rest", "before the run"
#: So many rows below a code may tell what was stored with it.
_NEAR = 4


def _take_nominal(context: Context, row: Row, volt: volts.Volt) -> None:
    """The vehicle's nominal voltage, the first that is meant."""
    builder = context.builder
    if not nominal.is_meant(row.low, volt.start, volt.end) or "nominal_volts" in builder.vehicle:
        return
    builder.of_one_battery = voltbatteries.is_rated(row.low, volt.start, volt.end) or (
        nominal.is_of_battery(row.low, volt.start, volt.end))
    builder.vehicle["nominal_volts"] = volt.value

#: No line that names a scan is longer.
_LONGEST_HEAD = 400


def place_volt(context: Context, row: Row, volt: volts.Volt, *, top: bool = False,
               snapshot: SnapshotDraft | None = None) -> None:
    """One voltage of a row without codes: the vehicle's, or the module's where the row belongs to one."""
    builder = context.builder
    if volt.of == "nominal":
        _take_nominal(context, row, volt)
    if volt.of == "nominal" or furthervolts.keep_elsewhere(context, snapshot or builder.snapshot, row, volt):
        return
    if volt.of != "other" and at_fault(row.low, volt.start, volt.end):
        draft = _code_above(context)
        if draft is not None and 3.0 <= volt.value <= 36.0:
            draft.freeze.setdefault("volts", volt.value)
        return
    if (when := _when(context, row, volt)) == "another day":
        return
    if volt.of == "lowest" and when == "earlier" and voltmoments.was(row.low, volt.start):
        volt = volt._replace(of="supply")  # "Battery was down to 10.7 V when I plugged in"
    scan = snapshot or builder.snapshot
    if volt.of == "named" and when in ("now", "scan", "charged") and scan.volts_before:
        # "Battery at arrival 9.8 V, after charging 12.4 V"
        volt = volt._replace(of="supply")
    if volt.of == "named" and (
            (scan.empty and _is_all_of_its_scan(context, row, volt)) or conditions.ends_run(row.low, volt.start)):
        # "20 min round the block 14.6 V": what stands before it is how it was run, no name.
        volt = volt._replace(of="supply")
    if furthervolts.keep_dead(scan, row, volt):
        return
    if volt.of in ("other", "named") or not plausible(context, row, volt):
        if volt.of == "named" and (furthervolts.goes_on(row.low, volt) or furthervolts.of_converter(row.low, volt)):
            furthervolts.keep(scan, row, volt)
        return
    module = builder.module
    inside = (
        not top
        and module is not None
        and context.under_heading
        and context.blanks == 0
        and ((row.line.indent > context.heading_indent and not _under_another(context, row)) or context.flat)
    )
    if (
        inside
        and context.open_code is not None
        and (
            context.in_freeze_frame
            or (context.open_row is not None and row.line.indent > context.open_row.line.indent)
        )
    ):
        context.open_code.freeze.setdefault("volts", volt.value)
    elif inside and module is not None and volt.of in ("supply", "bare") and (
            module.volts is None or module.codes or module.answer is not None):
        # A second one right below "Alternator 14.4 V" is the vehicle's.
        if module.volts is None:
            module.volts = volt.value
            module.volts_in_line = row.line.indent <= context.heading_indent and not of_the_module(row.low)
    else:
        if volt.of not in ("supply", "bare") or not _of_second(scan, row, volt):
            _to_its_scan(context, scan, row, volt, when)
        other = volt.of in ("supply", "bare") and volt.value not in (scan.volts, scan.lowest)
        if other or (volt.of == "lowest" and _after_minutes(row.low, volt)):
            furthervolts.keep(scan, row, volt)


def _to_its_scan(context: Context, scan: SnapshotDraft, row: Row, volt: volts.Volt, when: Moment) -> None:
    """The vehicle's voltage. One told in a line above the heading of the scan, of what was done or measured before it,
    makes way for that of the heading, and so does that of a battery at rest for that of a line that names the scan:
    "charged 13 h, 12.7 V at rest" above "scan 2 15:10 12.6 V"."""
    of_supply = volt.of in ("supply", "bare")
    loose, rested = scan.volts_loose, voltmoments.rested(row.low, volt.end)
    heads, named = heads_scan(row.low), _tells_its_scan(row.low)
    if scan.volts is not None and loose is not None and of_supply and not scan.volts_before and (
            (scan.empty and (heads or (_STAMPED.match(row.low) and not phases.events(row.low))))
            or (named and loose.name == _RESTED)):
        if not take_loose_nominal(context, scan):
            scan.readings += [loose] if loose not in scan.readings else []
        scan.volts = None
    first, had = scan.volts is None, scan.volts
    if latersupply.is_behind_run(scan, row, volt) and had is not None:
        scan.readings.append(Reading(name=_BEFORE_RUN, value=had, unit="V"))
        scan.volts = None
    since = of_supply and latersupply.is_since(scan, row, volt, when)
    if named and scan.volts_before and when == "" and of_supply:
        when = "scan"  # "Battery was dead, 9.1 V" above "pre-scan 10:00, 11.5 V"
    if when in ("scan", "now") and of_supply and scan.empty and scan.volts_at is not None and (
            scan.volts_at[0] == row.line.number and volt.value > (had or volt.value)):
        scan.volts_before = True  # "Battery only had 8.9 V. Scanned it at 12.8 V"
    scan.volts_before = scan.volts_before or since
    if since and had is not None:
        if latersupply.cleared_since(scan, row, volt):
            scan.volts = None
        latersupply.found_at(scan, had)
    to_snapshot(scan, volt, "scan" if since else when)
    if of_supply and scan.volts != had:
        scan.volts_at = (row.line.number, volt.end)
    if first and of_supply:
        untold = scan.phase is None and not heads
        scan.volts_loose = Reading(name=_RESTED, value=volt.value, unit="V") if rested and not named else (
            furthervolts.reading(row.low, volt) if untold else None)


def take_loose_nominal(context: Context, scan: SnapshotDraft) -> bool:
    """Take a round voltage that stands above the scan beside no word of it for what the vehicle is made for: "Gritter,
    24 V. Lamp on"; whether the scan has one."""
    loose = scan.volts_loose
    if loose is None or loose.name != furthervolts.BEFORE or not scan.volts_nominal or scan.volts != loose.value:
        return False
    context.builder.vehicle.setdefault("nominal_volts", loose.value)
    return True


def _is_all_of_its_scan(context: Context, row: Row, volt: volts.Volt) -> bool:
    """Whether a voltage is the only one in the heading of a scan, which names no module: "Tue 7:45 scan, F31 left out
    over night 12.5 V"."""
    return phases.scan_head(row.low) is not None and volts.find(row.low) == (volt,) and not context.names.find(row.low)


def heads_scan(low: str) -> bool:
    """Whether a row says where its scan stands, or which it is."""
    return bool(phases.scan_head(low) or phases.find(low))


def _tells_its_scan(low: str) -> bool:
    """Whether a row names the scan that it is of, by its number, its phase or its time of day."""
    return len(low) <= _LONGEST_HEAD and (heads_scan(low) or bool(dates.clock(low)))


def _when(context: Context, row: Row, volt: volts.Volt) -> Moment:
    """When the vehicle had a voltage; before the scan where the row tells what is wrong, and of no scan: "dead, towed
    in. Battery 6.2 V"."""
    when = moment(row.low, volt.start, volt.end)
    complaint = small(context.facts.values.get("complaint", ""))
    told = when == "" and complaint and complaint in row.line.low and not _tells_its_scan(row.line.low)
    return "earlier" if told else when


def _after_minutes(low: str, volt: volts.Volt) -> bool:
    """Whether a time stands beside a voltage: "after 20 min 11.6 V" is no dip."""
    return (_AFTER_MINUTES.search(low, max(0, volt.start - _NEAR_BEFORE), volt.start) is not None
            or _AFTER_MINUTES.match(low[volt.end : volt.end + _NEAR_BEFORE].lstrip(" v,(")) is not None)


def in_cells(context: Context, row: Row) -> bool:
    """A row of a table of modules that tells the supply and nothing else ("Battery voltage at scan,11.05,,", "12.7 V;
    Battery", "Kl. 30 | 13.1 V (min 11.0 V)"); whether it is one. What tells the scan and its time stands in every row
    of such a table. A column for the lowest voltage of the scan is read in any row."""
    for cell, role in zip(row.cells or (), row.roles or (), strict=False):
        if role == "lowest_volts" and (value := _VALUE.match(cell.low)) is not None:
            lowest = volts.Volt(cell.start, cell.end, float(value[0].replace(",", ".")), "lowest", True)
            place_volt(context, row, lowest, top=True)
    if row.finds.codes or not has_digit(row.low):
        return False
    filled = [(cell, role) for cell, role in zip(row.cells or (), row.roles or (), strict=False)
              if role not in ("scan", "date") and any(map(str.isalnum, cell.low))]
    if not filled:
        # The scan alone, with its supply: "Scan 2 - battery 12.4 V".
        told = [cell for cell, role in zip(row.cells or (), row.roles or (), strict=False) if role == "scan"]
        found = [(cell, volt) for cell in told for volt in volts.find(cell.low) if volt.labelled]
        for cell, volt in found:
            place_volt(context, row, volt._replace(start=volt.start + cell.start, end=volt.end + cell.start), top=True)
        return bool(found)
    label = next((cell for cell, role in filled if role != "volts" and not _VALUE.match(cell.low)), None)
    values = [cell for cell, _ in filled if cell is not label]
    if label is None or (context.names.listed(label.text.strip()) and not volts.is_label(label.low)):
        return False
    if not values and filled[0][1] != "module":
        return False
    lead = f"{label.low.strip(' :=')}: " if values else ""
    values = values or [label]
    said = [f"{cell.low} v" if cell.low[-1:].isdigit() else cell.low for cell in values]
    if not alone(lead + " ".join(said)):
        return False
    for text, cell in zip(said, values, strict=True):
        for volt in volts.find(lead + text):
            shift = cell.start - len(lead)
            place_volt(context, row, volt._replace(start=volt.start + shift, end=volt.end + shift), top=True)
    context.open_code = context.open_row = None
    return True


def _under_another(context: Context, row: Row) -> bool:
    """Whether a line of letters alone that stands as far left as the headings of modules, and is none, heads a row set
    in: "ENVIRONMENT" above "  System voltage 11.9 V"."""
    module = context.builder.module
    for above in context.rows[max(0, context.at - _NEAR) : context.at][::-1]:
        if above.blank or above.line.indent <= context.heading_indent:
            if above.blank or above.finds.codes or module is None or above.line.number <= module.line.number:
                return False
            return above.text.replace(" ", "").isalpha() and not spoken(above.low)
    return False


def _of_second(scan: SnapshotDraft, row: Row, volt: volts.Volt) -> bool:
    """Whether a voltage is that of a second battery, which tells the supply only as long as nothing else does."""
    battery = voltbatteries.which(row.low, volt.start, volt.end)
    if battery == "second":
        if scan.volts is None:
            scan.volts, scan.volts_second = volt.value, row.line.number
        return True
    if scan.volts_second is not None and (
            battery == "main" or (battery == "plain" and scan.volts_second == row.line.number)):
        scan.volts = scan.volts_second = None
    return False


def _code_above(context: Context) -> CodeDraft | None:
    """The one code of the row above, which what was stored may be of."""
    if context.open_code is not None:
        above = context.open_row
        return context.open_code if above is None or len(above.finds.codes) < 2 else None
    for row in context.rows[max(0, context.at - _NEAR) : context.at][::-1]:
        if row.finds.codes:
            return context.builder.code if len(row.finds.codes) == 1 else None
        if row.blank or spoken(row.low):
            return None
    return None


#: What reads less is a drop, or a line of a bus: no module could have told of such a supply.
_LEAST_LOWEST = 2.5
#: What vehicles are made for, V.
_NOMINAL = (6.0, 12.0, 24.0, 48.0)


def to_snapshot(snapshot: SnapshotDraft, volt: volts.Volt, when: Moment = "") -> None:
    """The vehicle's voltage: the first as read, and the lowest of those said to be lowest. One from before the battery
    was charged for the scan makes way for that of the scan, and is the lowest then."""
    if volt.of == "lowest":
        snapshot.lowest = volt.value if snapshot.lowest is None else min(snapshot.lowest, volt.value)
    elif volt.of in ("supply", "bare"):
        first = snapshot.volts
        if first is None or (snapshot.volts_nominal and volt.of == "supply" and volt.value != first):
            snapshot.volts, snapshot.volts_before = volt.value, when == "earlier"
            # "Tractor unit, 24 V" above "batteries 21.8 V" tells what it is made for.
            snapshot.volts_nominal = volt.of == "bare" and volt.value in _NOMINAL
        elif first < volt.value and (
            (snapshot.volts_before and when in ("now", "scan")) or (when == "charged" and snapshot.empty)
        ):
            snapshot.volts, snapshot.volts_before = volt.value, False
            snapshot.lowest = first if snapshot.lowest is None else min(snapshot.lowest, first)
        elif snapshot.volts_before and when == "scan":
            snapshot.volts, snapshot.volts_before = volt.value, False
        elif when == "earlier" and volt.value < first and snapshot.lowest is None:
            snapshot.lowest = volt.value
    elif snapshot.volts is None and volt.of in ("end", "made"):
        snapshot.end_volts = volt.value


def plausible(context: Context, row: Row, volt: volts.Volt) -> bool:
    """Whether a supply voltage can be one; what cannot is noted with its place."""
    if volt.value > 60 and not volt.labelled:
        return False
    if 3.0 <= volt.value <= 36.0 or (volt.of == "lowest" and _LEAST_LOWEST <= volt.value <= 36.0):
        context.volts_seen.append((volt.value, row, volt))
        return True
    context.builder.notice(
        "warning",
        f"{volt.value:g} V can't be the supply of a vehicle: not used; give volts as 11.4 (a decimal slip?)",
        row.line,
        row.start + volt.start,
        row.start + volt.end,
    )
    return False
