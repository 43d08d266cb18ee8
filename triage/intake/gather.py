"""From several readings to one session: phases where the text does not say, one vehicle, all events."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field

from triage.model.notices import TWO_VEHICLES, Notice
from triage.model.phases import Guess, guess_phase
from triage.model.session import Event, Session, Vehicle
from triage.model.snapshot import OutsideSupply, Phase, Snapshot


@dataclass(slots=True)
class Part:
    """What one file or paste gave, and what the command line says of it."""

    source: str
    snapshots: list[Snapshot]
    vehicle: Vehicle | None = None
    events: list[Event] = field(default_factory=list)
    notices: list[Notice] = field(default_factory=list)
    phase: Phase | None = None
    volts: float | None = None
    lowest_volts: float | None = None
    outside_supply: OutsideSupply | None = None


_NAME_PHASES: tuple[tuple[str, Phase], ...] = (
    (r"before|vor|avant|antes", "before-clear"), (r"repair|reparatur|repar", "after-repair"),
    (r"run|drive|road|fahrt|essai|prueba", "after-run"), (r"clear|erase|effac|borr|geloscht", "after-clear"),
    # "before.csv" and "after.csv": after the clear is the least that it may be.
    (r"after|nach(?![a-z])|apres|despues", "after-clear"),
)


def gather(job: str, parts: Sequence[Part]) -> tuple[Session, list[Notice]]:
    """One session of all ``parts``, in their order; what was guessed or does not agree is told."""
    notices = [notice for part in parts for notice in part.notices]
    snapshots: list[Snapshot] = []
    for part in parts:
        for snapshot in part.snapshots:
            snapshots.append(_with_said(part, snapshot))
    snapshots = _phases(snapshots, [part for part in parts for _ in part.snapshots], notices)
    events = [event for part in parts for event in part.events]
    return Session(job=job, vehicle=_vehicle(parts, notices), events=events or None, snapshots=snapshots), notices


def _with_said(part: Part, snapshot: Snapshot) -> Snapshot:
    """The snapshot with what the command line says; the command line wins over the text."""
    said = {name: value for name, value in (
        ("phase", part.phase), ("volts", part.volts), ("lowest_volts", part.lowest_volts),
        ("outside_supply", part.outside_supply)) if value is not None}
    return snapshot.model_copy(update=said) if said else snapshot


def _phases(snapshots: list[Snapshot], parts: list[Part], notices: list[Notice]) -> list[Snapshot]:
    """Fill in phases: from the name of the file, else from what happened and how the lists changed. ``parts``: what
    each snapshot came in."""
    result: list[Snapshot] = []
    for place, (snapshot, part) in enumerate(zip(snapshots, parts, strict=True)):
        if snapshot.phase is None:
            # A file of several scans is not called after each of them.
            named = _phase_of_name(part.source) if sum(other is part for other in parts) == 1 else None
            guess = Guess(named, "from the name of the file") if named else guess_phase(
                [*result, *_events_before(parts, place, result)], snapshot)
            # Codes that went are a sign of a clear, and no word of one: what it credits is asked for.
            asked = guess.why.startswith("no clear is recorded, but")
            notices.append(Notice("warning" if asked else "note", (
                f"snapshot {place + 1} does not say its phase: taken as {guess.phase}, {guess.why}; "
                + ("were the codes cleared before it? " if asked else "") + "give --phase to settle it"), part.source))
            snapshot = snapshot.model_copy(update={"phase": guess.phase})
        result.append(snapshot)
    return result


def _events_before(parts: Sequence[Part], place: int, above: Sequence[Snapshot]) -> list[Event]:
    """What was done between a snapshot and the one before it: what either of their texts tells. What the first text
    alone tells comes after its scan, and a clear or a drive that it tells of was before a scan that says so."""
    if not place:
        return []
    before, own = parts[place - 1], parts[place]
    if own is before and above[-1].phase != "before-clear":
        return [event for event in own.events if event.what not in ("cleared", "drove")]
    return [*before.events, *(own.events if own is not before else [])]


def _phase_of_name(source: str) -> Phase | None:
    name = re.split(r"[/\\]", source)[-1].lower()
    return next((phase for pattern, phase in _NAME_PHASES if re.search(pattern, name)), None)


def _vehicle(parts: Sequence[Part], notices: list[Notice]) -> Vehicle | None:
    """One vehicle of all parts; the first to say a thing is believed, a second VIN is told."""
    merged: dict[str, object] = {}
    vin_source = ""
    for part in parts:
        for key, value in (part.vehicle.model_dump(exclude_none=True) if part.vehicle else {}).items():
            if key == "vin" and "vin" in merged and merged["vin"] != value:
                notices.append(Notice(
                    "warning", f"{TWO_VEHICLES}: VIN {value} here, {merged['vin']} in {vin_source}; the "
                               "scans are compared all the same: take out the file that is not of this vehicle",
                    part.source))
                continue
            if key == "vin" and "vin" not in merged:
                vin_source = part.source
            merged.setdefault(key, value)
    return Vehicle.model_validate(merged) if merged else None
