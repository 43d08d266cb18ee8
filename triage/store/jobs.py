"""Sessions to and from the objects of the job file, without loss."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

from sqlalchemy import select
from sqlalchemy.orm import Session as Work

from triage.errors import StoreError
from triage.model.session import Session
from triage.store.kept import keep, session_object
from triage.store.tables import SessionRow
from triage.store.vehicles import find_or_add
from triage.store.writing import add_entry, add_snapshots, plain, session_row


def export_jobs(work: Work, names: Iterable[str] | None) -> list[Session]:
    """See Store.export_jobs."""
    if names is None:
        rows = list(work.scalars(select(SessionRow).order_by(SessionRow.id)))
    else:
        rows = [session_row(work, name) for name in names]
    return [session_object(keep(work, row), timed=True) for row in rows]


def import_jobs(work: Work, jobs: Iterable[Session], now: datetime, who: str | None) -> list[str]:
    """See Store.import_jobs."""
    added = []
    for job in jobs:
        there = work.scalars(select(SessionRow).where(SessionRow.name == job.job)).first()
        if there is None:
            _add(work, job, now, who)
            added.append(job.job)
        elif session_object(keep(work, there), timed=True) != job:
            raise StoreError(
                f"session {job.job!r} is there already and differs; nothing was imported, give the job another name")
    return added


def _add(work: Work, job: Session, now: datetime, who: str | None) -> None:
    vehicle = find_or_add(work, job.vehicle, now)
    session = SessionRow(
        name=job.job, vehicle_id=None if vehicle is None else vehicle.id,
        vehicle=None if job.vehicle is None else plain(job.vehicle), events_known=job.events is not None,
        opened_at=now, revision=0)
    work.add(session)
    work.flush()
    if job.snapshots or job.events:
        entry = add_entry(work, session, "import", now, who)
        said: list[tuple[None, str | None]] = [(None, None)] * len(job.snapshots)
        add_snapshots(work, entry, job.snapshots, said, job.events or [])
