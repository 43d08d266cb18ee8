"""Sessions as occasions: one line about each, and which came before which at the same vehicle."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime
from typing import Any

from sqlalchemy import bindparam, case, func, select
from sqlalchemy.orm import Session as Work

from triage.model.session import Session
from triage.store.assemble import corrected_vehicle
from triage.store.kept import Kept, keep, said_of_vehicles, session_object
from triage.store.rows import KnownSession
from triage.store.tables import EntryRow, SessionRow, SnapshotRow

#: The revision of a session by its name.
REVISION = select(SessionRow.revision).where(SessionRow.name == bindparam("name"))


def known_sessions(work: Work, rows: Sequence[SessionRow]) -> list[KnownSession]:
    """One line about each of ``rows``."""
    numbers = [row.id for row in rows]
    stands = EntryRow.struck_at.is_(None)
    counts: Any = select(
        EntryRow.session_id, func.sum(case((stands, 1), else_=0)), func.sum(case((stands, 0), else_=1)),
        func.max(EntryRow.recorded_at)).group_by(EntryRow.session_id)
    scans: Any = (select(EntryRow.session_id, func.count()).join(SnapshotRow, SnapshotRow.entry_id == EntryRow.id)
             .where(stands).group_by(EntryRow.session_id))
    if len(numbers) == 1:  # a page about one session must not count the whole store
        counts, scans = (asked.where(EntryRow.session_id == numbers[0]) for asked in (counts, scans))
    counted = {session: (entries, struck, last) for session, entries, struck, last in work.execute(counts)}
    snapshots = {session: count for session, count in work.execute(scans)}  # noqa: C416 - rows, not tuples
    said = said_of_vehicles(work, numbers)
    nothing = (0, 0, None)
    return [
        KnownSession(
            row.name, row.vehicle_id, corrected_vehicle(row.vehicle, said.get(row.id, ())), row.opened_at,
            counted.get(row.id, nothing)[2] or row.opened_at, row.revision, snapshots.get(row.id, 0),
            counted.get(row.id, nothing)[0], counted.get(row.id, nothing)[1])
        for row in rows
    ]


def known(kept: Kept) -> KnownSession:
    """One line about a session whose rows, with those struck out, are at hand."""
    stands = kept.standing()
    row, last = kept.session, max((entry.recorded_at for entry in kept.entries), default=kept.session.opened_at)
    return KnownSession(
        row.name, row.vehicle_id, stands.vehicle(), row.opened_at, last, row.revision,
        sum(len(kept.snapshots.get(entry.id, ())) for entry in stands.entries), len(stands.entries),
        len(kept.entries) - len(stands.entries))


def earlier(work: Work, session: SessionRow) -> list[tuple[SessionRow, Session]]:
    """The sessions of the same vehicle that came before ``session``, oldest first, each as its job object."""
    if session.vehicle_id is None:
        return []
    found = []
    for row in work.scalars(select(SessionRow).where(SessionRow.vehicle_id == session.vehicle_id)):
        kept = keep(work, row)
        job = session_object(kept, timed=True)
        found.append(((begin(kept, job), row.id), row, job))
    found.sort(key=lambda one: one[0])
    place = [row.id for _, row, _ in found].index(session.id)
    return [(row, job) for _, row, job in found[:place]]


def begin(kept: Kept, job: Session) -> datetime:
    """When the occasion began: when its session was opened; of an imported one, the first time that is known.

    The time printed in a scan is believed only there: a clock that lost its supply starts anew at some old date.
    """
    if all(entry.kind != "import" for entry in kept.entries):
        return kept.session.opened_at
    times = [what.at.astimezone() for what in (*job.snapshots, *(job.events or ())) if what.at is not None]
    return min(times, default=kept.session.opened_at)


def repaired_at(kept: Kept) -> int | None:
    """The position of the first entry that brought a scan after a repair."""
    return min((entry.position for entry in kept.entries for row in kept.snapshots.get(entry.id, ())
                if kept.snapshot(row).phase == "after-repair"), default=None)


def before_repair(kept: Kept) -> tuple[Session, int] | None:
    """The session as it stood at the last scan before any after a repair, and its revision then.

    None where no scan is from after a repair, or none from before it.
    """
    cut = repaired_at(kept)
    scans = [entry.position for entry in kept.entries
             if kept.snapshots.get(entry.id) and cut is not None and entry.position < cut]
    if not scans:
        return None
    then = replace(kept, entries=[entry for entry in kept.entries if entry.position <= scans[-1]
                                  or entry.kind in ("correction", "reading")])
    return session_object(then, timed=True), scans[-1]
