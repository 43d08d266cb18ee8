"""Reads one session's rows back and puts them in order."""

from __future__ import annotations

import threading
from collections import OrderedDict, defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import Any

from sqlalchemy import bindparam, select
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
from triage.store.rows import Entry, Head, StoredEvent, StoredReading, StoredSnapshot
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

#: Snapshots that stay in memory as objects; a row of the table is never changed, so its number is enough to know it.
MEMORY = 256


def _of_session(wanted: Any, entry_id: Any) -> Any:
    """The rows of one session, which is given when the statement is run."""
    return wanted.join(EntryRow, EntryRow.id == entry_id).where(EntryRow.session_id == bindparam("session"))


# Made once: putting a statement together takes longer than the database needs to answer it.
ENTRIES = select(EntryRow).where(EntryRow.session_id == bindparam("session")).order_by(EntryRow.position)
STANDING = ENTRIES.where(EntryRow.struck_at.is_(None))
SNAPSHOTS = _of_session(select(SnapshotRow), SnapshotRow.entry_id).order_by(SnapshotRow.ordinal)
EVENTS = _of_session(select(EventRow), EventRow.entry_id).order_by(EventRow.ordinal)
CORRECTIONS = _of_session(select(CorrectionRow), CorrectionRow.entry_id).order_by(CorrectionRow.ordinal)
READINGS = _of_session(select(ReadingRow), ReadingRow.entry_id)
OUTCOMES = _of_session(select(OutcomeRow), OutcomeRow.entry_id)
SOURCES = _of_session(select(PasteRow.entry_id, PasteRow.source), PasteRow.entry_id)
TRACES = _of_session(select(TraceRow.entry_id, TraceRow.name), TraceRow.entry_id)


class Memory:
    """The snapshots that were built last, by their row. Nobody may change them."""

    def __init__(self, most: int = MEMORY) -> None:
        self._most = most
        self._kept: OrderedDict[int, Snapshot] = OrderedDict()
        self._lock = threading.Lock()

    def snapshot(self, row: SnapshotRow) -> Snapshot:
        """The snapshot as understood."""
        with self._lock:
            found = self._kept.pop(row.id, None)
        if found is None:
            found = corrected(row.understood, None, ())
        with self._lock:
            self._kept[row.id] = found
            while len(self._kept) > self._most:
                self._kept.popitem(last=False)
        return found


@dataclass(slots=True)
class Kept:
    """The rows of one session in order; ``entries`` without those struck out unless they were asked for."""

    session: SessionRow
    entries: list[EntryRow]
    memory: Memory
    snapshots: dict[int, list[SnapshotRow]] = field(default_factory=lambda: defaultdict(list))
    events: dict[int, list[EventRow]] = field(default_factory=lambda: defaultdict(list))
    readings: dict[int, ReadingRow] = field(default_factory=dict)
    corrections: dict[int, list[CorrectionRow]] = field(default_factory=lambda: defaultdict(list))
    sources: dict[int, str | None] = field(default_factory=dict)
    traces: dict[int, str | None] = field(default_factory=dict)
    outcomes: dict[int, OutcomeRow] = field(default_factory=dict)
    _now: dict[int, Snapshot] = field(default_factory=dict)

    def standing(self) -> Kept:
        """The same without what was struck out."""
        return replace(self, entries=[entry for entry in self.entries if entry.struck_at is None])

    def over(self, snapshot_id: int | None) -> list[CorrectionRow]:
        """The corrections of one snapshot (None: of the vehicle) in order, without those struck out."""
        return [row for entry in self.entries if entry.struck_at is None
                for row in self.corrections.get(entry.id, ()) if row.snapshot_id == snapshot_id]

    def vehicle(self) -> Vehicle | None:
        """The vehicle with its corrections."""
        return corrected_vehicle(self.session.vehicle, [(row.field, row.value) for row in self.over(None)])

    def snapshot(self, row: SnapshotRow) -> Snapshot:
        """One snapshot with its phase and corrections."""
        if row.id not in self._now:
            over = [(c.field, c.value) for c in self.over(row.id)]
            now = self.memory.snapshot(row)
            if over:
                now = corrected(row.understood, row.phase, over)
            elif row.phase is not None:
                now = now.model_copy(update={"phase": row.phase})
            self._now[row.id] = now
        return self._now[row.id]

    def items(self) -> Iterator[Item]:
        """Snapshots and events in order; within one paste the snapshots come first."""
        for entry in self.entries:
            live = entry.kind != "import"
            for row in self.snapshots.get(entry.id, ()):
                yield Item(entry.recorded_at, live, self.snapshot(row))
            for event in self.events.get(entry.id, ()):
                yield Item(entry.recorded_at, live, Event.model_validate(event.event))


def keep(work: Work, session: SessionRow, with_struck: bool = False) -> Kept:
    """Read the rows of ``session``. Kinds of rows that its entries do not bring are not asked for."""
    of = {"session": session.id}
    kept = Kept(session, list(work.scalars(ENTRIES if with_struck else STANDING, of)), work.info["memory"])
    kinds = {entry.kind for entry in kept.entries}
    if kinds & {"paste", "import"}:
        for snapshot in work.scalars(SNAPSHOTS, of):
            kept.snapshots[snapshot.entry_id].append(snapshot)
        kept.sources = {row.entry_id: row.source for row in work.execute(SOURCES, of)}
    if kinds & {"paste", "import", "event"}:
        for event in work.scalars(EVENTS, of):
            kept.events[event.entry_id].append(event)
    if kinds & {"paste", "correction"}:
        for row in work.scalars(CORRECTIONS, of):
            kept.corrections[row.entry_id].append(row)
    if "reading" in kinds:
        kept.readings = {reading.entry_id: reading for reading in work.scalars(READINGS, of)}
    if "trace" in kinds:
        kept.traces = {row.entry_id: row.name for row in work.execute(TRACES, of)}
    if "outcome" in kinds:
        kept.outcomes = {outcome.entry_id: outcome for outcome in work.scalars(OUTCOMES, of)}
    return kept


def said_of_vehicles(work: Work, sessions: list[int]) -> dict[int, list[tuple[str, Any]]]:
    """For each of ``sessions`` (row ids) the corrections of its vehicle that stand, in order."""
    found: dict[int, list[tuple[str, Any]]] = defaultdict(list)
    wanted = (select(EntryRow.session_id, CorrectionRow.field, CorrectionRow.value)
              .join(EntryRow, EntryRow.id == CorrectionRow.entry_id)
              .where(CorrectionRow.snapshot_id.is_(None), EntryRow.struck_at.is_(None))
              .order_by(EntryRow.position, CorrectionRow.ordinal))
    if len(sessions) == 1:
        wanted = wanted.where(EntryRow.session_id == sessions[0])
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
            row.id, entry.id, entry.recorded_at, kept.memory.snapshot(row), kept.snapshot(row),
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


def heads(kept: Kept, names: dict[int, str | None]) -> list[Head]:
    """The entries that ``names`` has, in order."""
    return [Head(entry.id, entry.recorded_at, names[entry.id]) for entry in kept.entries if entry.id in names]


def entries_in_words(kept: Kept) -> list[Entry]:
    """Each entry with a line about it."""
    return [entry_in_words(kept, entry) for entry in kept.entries]


def entry_in_words(kept: Kept, entry: EntryRow) -> Entry:
    """One entry with a line about it."""
    return Entry(
        entry.id, entry.position, entry.kind, entry.recorded_at, entry.who,  # type: ignore[arg-type]
        entry.struck_at, _in_words(kept, entry), entry.act)


def act_in_words(kept: Kept, struck: list[EntryRow]) -> Entry:
    """Entries that were struck out as one: the first, with a line about all."""
    first = entry_in_words(kept, struck[0])
    return first if len(struck) == 1 else first._replace(words=f"{first.words} and {len(struck) - 1} more like it")


def _in_words(kept: Kept, entry: EntryRow) -> str:
    parts: list[str] = []
    snapshots = kept.snapshots.get(entry.id, [])
    if snapshots or entry.kind in ("paste", "import"):
        phases = ", ".join(str(row.phase or row.understood.get("phase") or "no phase") for row in snapshots)
        count = f"{len(snapshots)} snapshot{'' if len(snapshots) == 1 else 's'}"
        source = kept.sources.get(entry.id)
        parts.append((f"{count} ({phases})" if phases else count) + (f" from {source}" if source else ""))
    parts += [_event(row.event) for row in kept.events.get(entry.id, ())]
    reading = kept.readings.get(entry.id)
    if reading is not None:
        said = reading.reading
        parts.append(" ".join(str(said[key]) for key in ("module", "name", "value", "unit")
                              if said.get(key) is not None))
    parts += [_correction(row) for row in kept.corrections.get(entry.id, ())]
    if entry.kind == "trace":
        name = kept.traces.get(entry.id)
        parts.append(f"trace {name}" if name else "trace")
    outcome = kept.outcomes.get(entry.id)
    if outcome is not None:
        parts.append(_outcome(outcome))
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
