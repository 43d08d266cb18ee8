"""Reads one session's rows back and puts them in order."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session as Work

from triage.model.session import Event, Session, Vehicle
from triage.model.snapshot import Reading, Snapshot
from triage.store.assemble import (
    RENAME,
    Item,
    LooseReading,
    assembled,
    corrected,
    corrected_vehicle,
)
from triage.store.rows import Entry, StoredEvent, StoredReading, StoredSnapshot
from triage.store.tables import (
    CorrectionRow,
    EntryRow,
    EventRow,
    OutcomeRow,
    PasteRow,
    ReadingRow,
    SessionRow,
    SnapshotRow,
    TraceRow,
)


@dataclass(slots=True)
class Kept:
    """The rows of one session in order; ``entries`` without those struck out unless they were asked for."""

    session: SessionRow
    entries: list[EntryRow]
    snapshots: dict[int, list[SnapshotRow]] = field(default_factory=lambda: defaultdict(list))
    events: dict[int, list[EventRow]] = field(default_factory=lambda: defaultdict(list))
    readings: dict[int, ReadingRow] = field(default_factory=dict)
    corrections: dict[int, list[CorrectionRow]] = field(default_factory=lambda: defaultdict(list))

    def over(self, snapshot_id: int | None) -> list[CorrectionRow]:
        """The corrections of one snapshot (None: of the vehicle) in order, without those struck out."""
        return [row for entry in self.entries if entry.struck_at is None
                for row in self.corrections.get(entry.id, ()) if row.snapshot_id == snapshot_id]

    def vehicle(self) -> Vehicle | None:
        """The vehicle with its corrections."""
        return corrected_vehicle(self.session.vehicle, [(row.field, row.value) for row in self.over(None)])

    def snapshot(self, row: SnapshotRow) -> Snapshot:
        """One snapshot with its phase and corrections."""
        return corrected(row.understood, row.phase, [(c.field, c.value) for c in self.over(row.id)])

    def items(self) -> Iterator[Item]:
        """Snapshots and events in order; within one paste the snapshots come first."""
        for entry in self.entries:
            live = entry.kind != "import"
            for row in self.snapshots.get(entry.id, ()):
                yield Item(entry.recorded_at, live, self.snapshot(row))
            for event in self.events.get(entry.id, ()):
                yield Item(entry.recorded_at, live, Event.model_validate(event.event))


def keep(work: Work, session: SessionRow, with_struck: bool = False) -> Kept:
    """Read the rows of ``session``."""
    wanted = select(EntryRow).where(EntryRow.session_id == session.id).order_by(EntryRow.position)
    if not with_struck:
        wanted = wanted.where(EntryRow.struck_at.is_(None))
    kept = Kept(session, list(work.scalars(wanted)))
    of_session = select(EntryRow.id).where(EntryRow.session_id == session.id)
    for snapshot in work.scalars(select(SnapshotRow).where(SnapshotRow.entry_id.in_(of_session))
                                 .order_by(SnapshotRow.ordinal)):
        kept.snapshots[snapshot.entry_id].append(snapshot)
    for event in work.scalars(select(EventRow).where(EventRow.entry_id.in_(of_session)).order_by(EventRow.ordinal)):
        kept.events[event.entry_id].append(event)
    for reading in work.scalars(select(ReadingRow).where(ReadingRow.entry_id.in_(of_session))):
        kept.readings[reading.entry_id] = reading
    for row in work.scalars(select(CorrectionRow).where(CorrectionRow.entry_id.in_(of_session))
                            .order_by(CorrectionRow.ordinal)):
        kept.corrections[row.entry_id].append(row)
    return kept


def said_of_vehicles(work: Work) -> dict[int, list[tuple[str, Any]]]:
    """For each session the corrections of its vehicle that stand, in order."""
    found: dict[int, list[tuple[str, Any]]] = defaultdict(list)
    wanted = (select(EntryRow.session_id, CorrectionRow.field, CorrectionRow.value)
              .join(EntryRow, EntryRow.id == CorrectionRow.entry_id)
              .where(CorrectionRow.snapshot_id.is_(None), EntryRow.struck_at.is_(None))
              .order_by(EntryRow.position, CorrectionRow.ordinal))
    for session, name, value in work.execute(wanted):
        found[session].append((name, value))
    return found


def session_object(kept: Kept, timed: bool) -> Session:
    """The session of the job file."""
    readings: list[LooseReading] = []
    places: dict[int | None, int] = {}
    before = 0
    for entry in kept.entries:
        for row in kept.snapshots.get(entry.id, ()):
            places[row.id] = before
            before += 1
        loose = kept.readings.get(entry.id)
        if loose is not None:
            named = loose.snapshot_id in places
            place = places.get(loose.snapshot_id, before)
            readings.append(LooseReading(place, named, Reading.model_validate(loose.reading)))
    return assembled(kept.session.name, kept.vehicle(), list(kept.items()), readings,
                     kept.session.events_known, timed)


def stored_snapshots(kept: Kept) -> list[StoredSnapshot]:
    """The snapshots in order, as understood and as they count now."""
    return [
        StoredSnapshot(
            row.id, entry.id, entry.recorded_at, Snapshot.model_validate(row.understood), kept.snapshot(row),
            row.phase_why or "the text says so", tuple(_correction(c) for c in kept.over(row.id)))
        for entry in kept.entries for row in kept.snapshots.get(entry.id, ())
    ]


def stored_events(kept: Kept) -> list[StoredEvent]:
    """The events in order."""
    return [StoredEvent(entry.id, entry.recorded_at, Event.model_validate(row.event))
            for entry in kept.entries for row in kept.events.get(entry.id, ())]


def stored_readings(kept: Kept) -> list[StoredReading]:
    """The loose measurements in order (those inside a snapshot are in the snapshot)."""
    return [StoredReading(entry.id, entry.recorded_at, row.snapshot_id, Reading.model_validate(row.reading))
            for entry in kept.entries if (row := kept.readings.get(entry.id)) is not None]


def entries_in_words(work: Work, kept: Kept) -> list[Entry]:
    """Each entry with a line about it."""
    return [entry_in_words(work, kept, entry) for entry in kept.entries]


def entry_in_words(work: Work, kept: Kept, entry: EntryRow) -> Entry:
    """One entry with a line about it."""
    return Entry(
        entry.id, entry.position, entry.kind, entry.recorded_at, entry.who,  # type: ignore[arg-type]
        entry.struck_at, _in_words(work, kept, entry))


def _in_words(work: Work, kept: Kept, entry: EntryRow) -> str:
    parts: list[str] = []
    snapshots = kept.snapshots.get(entry.id, [])
    if snapshots or entry.kind in ("paste", "import"):
        phases = ", ".join(str(row.phase or row.understood.get("phase") or "no phase") for row in snapshots)
        count = f"{len(snapshots)} snapshot{'' if len(snapshots) == 1 else 's'}"
        parts.append(f"{count} ({phases})" if phases else count)
        source = work.scalar(select(PasteRow.source).where(PasteRow.entry_id == entry.id))
        if source:
            parts[-1] += f" from {source}"
    parts += [_event(row.event) for row in kept.events.get(entry.id, ())]
    reading = kept.readings.get(entry.id)
    if reading is not None:
        said = reading.reading
        parts.append(" ".join(str(said[key]) for key in ("module", "name", "value", "unit")
                              if said.get(key) is not None))
    parts += [_correction(row) for row in kept.corrections.get(entry.id, ())]
    if entry.kind == "trace":
        name = work.scalar(select(TraceRow.name).where(TraceRow.entry_id == entry.id))
        parts.append(f"trace {name}" if name else "trace")
    if entry.kind == "outcome":
        parts += [_outcome(row) for row in work.scalars(select(OutcomeRow).where(OutcomeRow.entry_id == entry.id))]
    return "; ".join(parts)


def _event(event: dict[str, Any]) -> str:
    words = [str(event[key]) for key in ("what", "module", "part", "answer", "note") if event.get(key)]
    return ", ".join(words)


def _correction(row: CorrectionRow) -> str:
    about = "vehicle" if row.snapshot_id is None else f"snapshot {row.snapshot_id}"
    if row.field == RENAME:
        which, name = row.value or (None, None)
        return f"{about}: module {which} is {name}"
    return f"{about}: {row.field.replace('_', ' ')} {'not known' if row.value is None else row.value}"


def _outcome(row: OutcomeRow) -> str:
    fault = f"{row.module} {row.code}" + (f"-{row.failure_type}" if row.failure_type else "")
    cured = {"yes": "cured", "no": "not cured", "unknown": "cured or not: unknown"}[row.cured]
    return f"{fault}: {row.done}, {cured}" + (f", found {row.found_cause}" if row.found_cause else "")
