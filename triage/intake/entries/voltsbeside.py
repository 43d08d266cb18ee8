"""Voltages of a row that are not the whole supply at its source: at points along the feed, and of one battery of two.

They are kept as measurements of the scan, and no other pass sees them.
"""

from __future__ import annotations

from triage.intake.entries import furthervolts
from triage.intake.lines.row import Row
from triage.intake.said import voltpairs, voltpoints, voltranges, volts
from triage.intake.scan.assembly import SnapshotDraft
from triage.intake.scan.context import Context
from triage.model.measured_words import UNSTEADY
from triage.model.snapshot import Reading

#: From here on a supply is that of two batteries of 12 V in series, V.
_PAIR = 18.0
_LEAST, _MOST = 6.0, 32.0  # what a supply of 12 or 24 V can read, V


def without(context: Context, row: Row, scan: SnapshotDraft, found: tuple[volts.Volt, ...]) -> tuple[volts.Volt, ...]:
    """The voltages of a row without those; where both batteries are told and no sum, the sum is the supply."""
    places, lost = voltpoints.drops(row.low)
    _add(scan, [Reading(name=name, value=value, unit="V") for name, value in lost])
    found = tuple(volt for volt in found if not voltpoints.of_point(volt.start, volt.end, places))
    halves = voltpairs.halves(row.low)
    if not halves or not _in_series(context, scan, found):
        return found
    _add(scan, [Reading(name=half.name, value=half.value, unit="V") for half in halves])
    told = tuple(volt for volt in found if not any(half.start <= volt.start < half.end for half in halves))
    if len(halves) == 2 and scan.volts is None and not any(volt.value >= _PAIR for volt in told):
        first, second = halves
        both = round(first.value + second.value, 3)
        told = (*told, volts.Volt(first.start, second.end, both, "supply", True))
    return told


def tells(low: str) -> bool:
    """Whether a line tells a voltage that may be the vehicle's."""
    return any(volt.of not in ("other", "named") for volt in volts.find(low)) or bool(furthervolts.listed(low))


def keep(row: Row, scan: SnapshotDraft) -> None:
    """Keep what the row lists of the supply with the engine running."""
    taken = {value for value in (scan.volts, scan.lowest) if value is not None}
    furthervolts.keep_listed(scan, row, taken)
    if voltranges.unsteady(row.low):
        ends = [volt.value for volt in volts.find(row.low) if volt.labelled and volt.of in ("lowest", "end")]
        if len(ends) == 2 and all(_LEAST <= value <= _MOST for value in ends):
            _add(scan, [Reading(name=f"{UNSTEADY}, highest {max(ends):g} V, lowest", value=min(ends), unit="V")])


def _in_series(context: Context, scan: SnapshotDraft, found: tuple[volts.Volt, ...]) -> bool:
    """Whether the vehicle is known to have two batteries in series."""
    if (context.builder.vehicle | context.facts.values).get("nominal_volts") == 24.0:
        return True
    return any(value is not None and value >= _PAIR for value in (
        *(earlier.volts for earlier in context.builder.snapshots), scan.volts, *(volt.value for volt in found)))


def _add(scan: SnapshotDraft, readings: list[Reading]) -> None:
    scan.readings += [reading for reading in readings if reading not in scan.readings]


__all__ = ["keep", "tells", "without"]
