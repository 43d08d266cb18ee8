"""Two supplies of one story, with something put on between them that feeds the vehicle, or a run: "battery 6.8 V, put a
charger on it, 12.8 now", "12.7 V, ran 10 min 14.2 V". The one behind it is the scan's; the one before a charger was the
battery's, and the lowest, that before a run is kept as a measurement.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.said import conditions, dates, outside, phases, volts
from triage.intake.said.conditions import Conditions
from triage.intake.said.voltmoments import Moment
from triage.intake.scan.assembly import SnapshotDraft
from triage.intake.scan.context import Context
from triage.model.measured_words import AS_FOUND
from triage.model.session import Event
from triage.model.snapshot import Reading

#: What parts the voltage before from the words that something was put on: "11.9 V on charger" is one.
_BREAK = lazily(r"[,;:.(!]\s|[,;:.(!]$|\s-\s|->|(?<![a-z])(?:and|then|und|dann|et|puis|y|luego)(?![a-z])")
#: When it was, before what was done.
_BEGINS = lazily(r"\s*(?:today|then|heute|dann|aujourd'hui|puis|hoy|luego)[ ,:]{1,2}")
#: Between a run and the voltage behind it.
_LEADS = lazily(r" ?(?:[0-9]{1,3}(?:[.,][0-9])? ?(?:km|kms|mi|miles?|minutes?|min|mins)(?![a-z]))?[ ,;:.]{0,3}")
_DEVICES = ("charger", "jump pack", "donor vehicle")


def note(scan: SnapshotDraft, row: Row) -> None:
    """Keep where a row tells that something feeds the vehicle, behind the voltage that the scan has."""
    if scan.volts_at is not None and scan.empty and row.line.number > scan.volts_at[0] and _feeds(row.low):
        scan.fed_at = row.line.number


def is_since(scan: SnapshotDraft, row: Row, volt: volts.Volt, when: Moment) -> bool:
    """Whether a voltage was read behind something put on that feeds the vehicle, and the scan's before it."""
    first, at = scan.volts, scan.volts_at
    if first is None or at is None or not scan.empty or volt.value <= first or when not in ("now", "scan", "charged"):
        return False
    if at[0] != row.line.number:
        return scan.fed_at is not None and (scan.fed_at < row.line.number or _feeds(row.low[: volt.start]))
    between = row.low[at[1] : volt.start]
    parted = _BREAK.search(between)
    return parted is not None and _feeds(between[parted.start() :])


def without_later(context: Context, row: Row, scan: SnapshotDraft, said: Conditions) -> Conditions:
    """What a row says of a scan, but for what was connected behind it by the time of day that the row begins with:
    "08:15 charger on" below the scan of 08:00. That is something done."""
    told = None if scan.empty or said.outside_supply not in _DEVICES else dates.clock(row.low)
    began = scan.at.time() if scan.at is not None else scan.clock
    if told is None or began is None or row.low[: told[1]].strip(" -*#(") or told[0] <= began:
        return said
    if not any(deed.what.startswith("outside supply") for deed in phases.events(row.low)):
        at = datetime.combine(scan.at.date(), told[0]) if scan.at is not None else None
        context.builder.events.append(Event(at=at, what="outside supply on", note=said.outside_supply))
    return replace(said, outside_supply=None)


def is_behind_run(scan: SnapshotDraft, row: Row, volt: volts.Volt) -> bool:
    """Whether a voltage stands behind a run that was told, and the scan's before that."""
    at = scan.volts_at
    if at is None or scan.volts is None or not scan.empty or volt.of not in ("supply", "bare"):
        return False
    if at[0] == row.line.number:
        ends = [end for _, end in conditions.run_spans(row.low[: volt.start])]
        return bool(ends) and min(ends) > at[1] and _LEADS.fullmatch(row.low, max(ends), volt.start) is not None
    begins = _BEGINS.match(row.low)
    first = begins.end() if begins is not None else 0
    told = conditions.find(row.low[first : volt.start])
    return bool(told.ran_minutes or told.drove) and len(volts.find(row.low)) == 1


def cleared_since(scan: SnapshotDraft, row: Row, volt: volts.Volt) -> bool:
    """Whether the codes were cleared between both: what was read before was not the lowest since then."""
    begin = scan.volts_at[1] if scan.volts_at is not None and scan.volts_at[0] == row.line.number else 0
    told = any(deed.what == "cleared" for deed in phases.events(row.low[begin : volt.start]))
    return told or scan.phase in ("after-clear", "after-run")


def found_at(scan: SnapshotDraft, value: float) -> None:
    """Keep what the battery had before it was fed."""
    reading = Reading(name=AS_FOUND, value=value, unit="V")
    scan.readings += [reading] if reading not in scan.readings else []


def fed_for_clear(scan: SnapshotDraft, said: Conditions) -> bool:
    """Whether what feeds the vehicle was put on for a clear that the same row tells: "charger 13.0 V, cleared" below a
    scan at 9.8 V."""
    return said.outside_supply in _DEVICES and scan.volts is not None and scan.said.outside_supply in (
        None, "none", "unknown")


def told_apart(scan: SnapshotDraft, said: Conditions, before: int) -> None:
    """Tell of the readings from a place on that nothing fed the vehicle, where something does in their scan: "pack off,
    engine running 12.1 V"."""
    if said.outside_supply == "none" and scan.said.outside_supply in _DEVICES:
        scan.readings[before:] = [reading.model_copy(update={"name": f"{reading.name}, nothing connected"})
                                  for reading in scan.readings[before:]]


def _feeds(low: str) -> bool:
    """Whether a text tells that something feeds the vehicle from outside."""
    return outside.outside_supply(low) in _DEVICES


__all__ = ["cleared_since", "fed_for_clear", "found_at", "is_behind_run", "is_since", "note", "told_apart"]
