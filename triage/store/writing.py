"""Writes entries into a session. Each function runs inside one transaction of its caller."""

from __future__ import annotations

import difflib
from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any

from sqlalchemy import bindparam, select
from sqlalchemy.orm import Session as Work

from triage.errors import StoreError
from triage.model.phases import guess_phase
from triage.model.session import Event, Vehicle
from triage.model.snapshot import Part, Phase, Reading, Snapshot
from triage.store.assemble import CORRECTABLE, RENAME, corrected, corrected_vehicle
from triage.store.kept import keep
from triage.store.rows import Pasted
from triage.store.tables import (
    CorrectionRow,
    EntryRow,
    EventRow,
    PasteRow,
    ReadingRow,
    SessionRow,
    SnapshotRow,
    TraceRow,
)
from triage.store.vehicles import find_or_add

#: A session by its name, made once.
NAMED = select(SessionRow).where(SessionRow.name == bindparam("name"))
NAMED_LOCKED = NAMED.with_for_update()


def plain(part: Part) -> dict[str, Any]:
    """The object as the job file has it, without the keys that were left out."""
    return part.model_dump(mode="json", exclude_unset=True)


def to_bytes(text: str) -> bytes:
    """UTF-8 that keeps lone surrogates too (they stand for bytes that could not be decoded)."""
    return text.encode("utf-8", "surrogatepass")


def session_row(work: Work, name: str, lock: bool = False) -> SessionRow:
    """The session's row; ``lock`` holds off other writers of it. Raises StoreError if there is none."""
    row = work.scalars(NAMED_LOCKED if lock else NAMED, {"name": name}).first()
    if row is not None:
        return row
    names = list(work.scalars(select(SessionRow.name).order_by(SessionRow.id.desc())))
    near = difflib.get_close_matches(name, names[:200], n=3) or names[:3]
    there = f"there is {', '.join(near)}" if near else "there is none yet; open one first"
    raise StoreError(f"no session {name!r}; {there}")


def add_entry(
    work: Work, session: SessionRow, kind: str, now: datetime, who: str | None, act: int | None = None,
) -> EntryRow:
    """A new entry at the end of a locked session; ``act`` as in the table."""
    session.revision += 1
    entry = EntryRow(session_id=session.id, position=session.revision, kind=kind, recorded_at=now, who=who, act=act)
    work.add(entry)
    work.flush()
    return entry


def add_snapshots(
    work: Work, entry: EntryRow, snapshots: Sequence[Snapshot], phases: Sequence[tuple[Phase | None, str | None]],
    events: Sequence[Event],
) -> list[SnapshotRow]:
    """The rows of an entry's snapshots and events; ``phases`` holds phase and why for each snapshot."""
    rows = [
        SnapshotRow(entry_id=entry.id, ordinal=at, understood=plain(snapshot), phase=phase, phase_why=why)
        for at, (snapshot, (phase, why)) in enumerate(zip(snapshots, phases, strict=True))
    ]
    work.add_all(rows)
    work.add_all(EventRow(entry_id=entry.id, ordinal=at, event=plain(event)) for at, event in enumerate(events))
    work.flush()
    return rows


def add_paste(
    work: Work, session: SessionRow, body: str | bytes, snapshots: Sequence[Snapshot], now: datetime, *,
    phase: Phase | None, changes: Mapping[str, Any], rename: Mapping[str | int, str], events: Sequence[Event],
    source: str | None, who: str | None,
) -> Pasted:
    """See Store.add_paste."""
    history: list[Snapshot | Event] = [item.what for item in keep(work, session).items()]
    phases: list[tuple[Phase | None, str | None]] = []
    for snapshot in snapshots:
        if phase is not None and (snapshot.phase is None or len(snapshots) == 1):
            phases.append((phase, "told by hand"))
        else:
            guess = guess_phase(history, snapshot)
            phases.append((guess.phase, guess.why) if snapshot.phase is None else (None, None))
        history.append(snapshot.model_copy(update={"phase": phases[-1][0] or snapshot.phase}))
    entry = add_entry(work, session, "paste", now, who)
    data = to_bytes(body) if isinstance(body, str) else body
    work.add(PasteRow(entry_id=entry.id, body=data, is_text=isinstance(body, str), source=source))
    rows = add_snapshots(work, entry, snapshots, phases, events)
    fields = _fields(changes, rename)
    for at, row in enumerate(rows if fields else ()):
        # Each is laid over once here, so that one that doesn't fit stops the paste.
        fitted = _fit(corrected(row.understood, row.phase, []), fields)
        _add_corrections(work, entry, row.id, fitted, at * len(fields))
    return Pasted(entry.id, tuple(
        (row.id, said or snapshot.phase, why or "the text says so")
        for row, snapshot, (said, why) in zip(rows, snapshots, phases, strict=True)))


def correct(
    work: Work, snapshot_id: int, now: datetime, changes: Mapping[str, Any], rename: Mapping[str | int, str],
    who: str | None,
) -> None:
    """See Store.correct."""
    row = work.get(SnapshotRow, snapshot_id)
    entry = None if row is None else work.get(EntryRow, row.entry_id)
    if row is None or entry is None:
        raise StoreError(f"no snapshot {snapshot_id}")
    session = work.get_one(SessionRow, entry.session_id, with_for_update=True)
    work.refresh(entry)
    if entry.struck_at is not None:
        raise StoreError(f"snapshot {snapshot_id} is struck out")
    fields = _fit(keep(work, session).snapshot(row), _fields(changes, rename))
    if not fields:
        raise StoreError(f"snapshot {snapshot_id}: nothing to correct was given")
    _add_corrections(work, add_entry(work, session, "correction", now, who), row.id, fields, 0)


def correct_vehicle(work: Work, session: SessionRow, now: datetime, changes: Mapping[str, Any],
                    who: str | None) -> None:
    """See Store.correct_vehicle."""
    unknown = sorted(set(changes) - set(Vehicle.model_fields))
    if unknown or not changes:
        raise StoreError(f"{', '.join(unknown) or 'nothing'}: a vehicle has {', '.join(Vehicle.model_fields)}")
    kept = keep(work, session)
    now_known = kept.vehicle()
    vehicle = corrected_vehicle(None if now_known is None else plain(now_known), changes.items())
    fields = [(field, plain(vehicle)[field]) for field in changes] if vehicle is not None else []
    _add_corrections(work, add_entry(work, session, "correction", now, who), None, fields, 0)
    link_vehicle(work, session, now)


def link_vehicle(work: Work, session: SessionRow, now: datetime) -> None:
    """Hang the session on the vehicle that its data, with corrections, now names."""
    work.flush()
    row = find_or_add(work, keep(work, session).vehicle(), now)
    session.vehicle_id = None if row is None else row.id


def _fields(changes: Mapping[str, Any], rename: Mapping[str | int, str]) -> list[tuple[str, Any]]:
    unknown = sorted(set(changes) - CORRECTABLE)
    if unknown:
        raise StoreError(
            f"{', '.join(unknown)}: can't be corrected; these can: {', '.join(sorted(CORRECTABLE))}, rename")
    return [*changes.items(), *((RENAME, [which, name]) for which, name in rename.items())]


def _fit(snapshot: Snapshot, fields: Sequence[tuple[str, Any]]) -> list[tuple[str, Any]]:
    """The corrections as JSON values, checked by laying them over the snapshot."""
    result = plain(corrected(plain(snapshot), None, fields))
    return [(field, value if field == RENAME else result[field]) for field, value in fields]


def _add_corrections(
    work: Work, entry: EntryRow, snapshot_id: int | None, fields: Sequence[tuple[str, Any]], first: int,
) -> None:
    work.add_all(
        CorrectionRow(entry_id=entry.id, ordinal=first + at, snapshot_id=snapshot_id, field=field, value=value)
        for at, (field, value) in enumerate(fields))


def add_event(work: Work, session: SessionRow, event: Event, now: datetime, who: str | None) -> int:
    """See Store.add_event."""
    entry = add_entry(work, session, "event", now, who)
    work.add(EventRow(entry_id=entry.id, ordinal=0, event=plain(event)))
    return entry.id


def add_reading(
    work: Work, session: SessionRow, reading: Reading, snapshot_id: int | None, now: datetime, who: str | None,
) -> int:
    """See Store.add_reading."""
    if snapshot_id is not None:
        kept = keep(work, session)
        if all(row.id != snapshot_id for rows in kept.snapshots.values() for row in rows):
            raise StoreError(f"no snapshot {snapshot_id} in session {session.name!r}")
    entry = add_entry(work, session, "reading", now, who)
    work.add(ReadingRow(entry_id=entry.id, snapshot_id=snapshot_id, reading=plain(reading)))
    return entry.id


def add_trace(
    work: Work, session: SessionRow, text: str, name: str | None, now: datetime, who: str | None,
) -> int:
    """See Store.add_trace."""
    entry = add_entry(work, session, "trace", now, who)
    work.add(TraceRow(entry_id=entry.id, name=name, body=to_bytes(text)))
    return entry.id


def undo(work: Work, session: SessionRow, now: datetime) -> list[EntryRow]:
    """See Store.undo. The entries of one act go together."""
    standing = (select(EntryRow).where(EntryRow.session_id == session.id, EntryRow.struck_at.is_(None))
                .order_by(EntryRow.position))
    entry = work.scalars(standing.order_by(None).order_by(EntryRow.position.desc()).limit(1)).first()
    if entry is None:
        raise StoreError(f"session {session.name!r} holds nothing that could be struck out")
    struck = [entry] if entry.act is None else list(work.scalars(standing.where(EntryRow.act == entry.act)))
    session.revision += 1
    for one in struck:
        one.struck_at, one.struck_revision = now, session.revision
    if any(one.kind == "correction" for one in struck):
        link_vehicle(work, session, now)
    return struck
