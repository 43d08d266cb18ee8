"""The one model of the store: what is kept, and which row belongs to which.

::

    vehicles --< sessions --< entries --+-- pastes        the text exactly as it came
                                        +-< snapshots     what was understood of it, never changed
                                        +-< events
                                        +-< readings
                                        +-- traces
                                        +-< corrections   over a snapshot or the vehicle, never in it
                                        +-- outcomes --< outcome_rates
                          sessions --< verdicts

An entry is one act of a person: it is written whole or not at all, and undo strikes out one entry by giving it a
time in ``struck_at``. Nothing is ever deleted. ``revision`` of a session counts its acts, undo included.
"""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import CheckConstraint, Float, ForeignKey, LargeBinary, MetaData, String, UniqueConstraint
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column

from triage.store.columns import JsonText, Moment, Words

#: Revisions of the store from the oldest to the newest; the last is the one this program writes.
REVISIONS = ("0001", "0002", "0003")
VERSION_TABLE = "store_version"

NAMES = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s", "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s", "pk": "pk_%(table_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s",
}


class Base(DeclarativeBase):
    """Constraint names are fixed, so that a later migration can name them on either database."""

    metadata = MetaData(naming_convention=NAMES)


class VehicleRow(Base):
    """One vehicle. ``*_key`` are folded for finding; ``details`` is the latest vehicle object of the job file."""

    __tablename__ = "vehicles"

    id: Mapped[int] = mapped_column(primary_key=True)
    label: Mapped[str | None] = mapped_column(Words)
    label_key: Mapped[str | None] = mapped_column(Words, index=True)
    vin: Mapped[str | None] = mapped_column(Words)
    vin_key: Mapped[str | None] = mapped_column(Words, unique=True)
    details: Mapped[Any] = mapped_column(JsonText, nullable=False)
    added_at: Mapped[datetime] = mapped_column(Moment)


class SessionRow(Base):
    """One occasion. ``vehicle`` is the job file's object as given then (it holds the complaint of that day)."""

    __tablename__ = "sessions"

    id: Mapped[int] = mapped_column(primary_key=True)
    name: Mapped[str] = mapped_column(Words, unique=True)
    vehicle_id: Mapped[int | None] = mapped_column(ForeignKey("vehicles.id"), index=True)
    vehicle: Mapped[Any | None] = mapped_column(JsonText)
    events_known: Mapped[bool] = mapped_column()
    opened_at: Mapped[datetime] = mapped_column(Moment)
    revision: Mapped[int] = mapped_column()


class EntryRow(Base):
    """One act in a session: paste, import, event, reading, trace, correction or outcome.

    ``position`` and ``struck_revision`` are values of the session's ``revision``. ``act`` is the position of the first
    of several entries made by one act (undo strikes them out together), None for an entry that stands alone.
    """

    __tablename__ = "entries"
    __table_args__ = (
        UniqueConstraint("session_id", "position"),
        CheckConstraint("(struck_at IS NULL) = (struck_revision IS NULL)", name="struck"),
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    session_id: Mapped[int] = mapped_column(ForeignKey("sessions.id"))
    position: Mapped[int] = mapped_column()
    kind: Mapped[str] = mapped_column(String(20))
    recorded_at: Mapped[datetime] = mapped_column(Moment)
    who: Mapped[str | None] = mapped_column(Words)
    struck_at: Mapped[datetime | None] = mapped_column(Moment)
    struck_revision: Mapped[int | None] = mapped_column()
    act: Mapped[int | None] = mapped_column()


class PasteRow(Base):
    """What was pasted, byte for byte: UTF-8 of the text (``is_text``), or the bytes of a file."""

    __tablename__ = "pastes"

    entry_id: Mapped[int] = mapped_column(ForeignKey("entries.id"), primary_key=True)
    body: Mapped[bytes] = mapped_column(LargeBinary)
    is_text: Mapped[bool] = mapped_column()
    source: Mapped[str | None] = mapped_column(Words)


class SnapshotRow(Base):
    """One snapshot as understood. ``phase`` stands over the understood one where it was told or guessed."""

    __tablename__ = "snapshots"
    __table_args__ = (UniqueConstraint("entry_id", "ordinal"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    entry_id: Mapped[int] = mapped_column(ForeignKey("entries.id"))
    ordinal: Mapped[int] = mapped_column()
    understood: Mapped[Any] = mapped_column(JsonText, nullable=False)
    phase: Mapped[str | None] = mapped_column(String(20))
    phase_why: Mapped[str | None] = mapped_column(Words)


class EventRow(Base):
    """One event of the job file."""

    __tablename__ = "events"
    __table_args__ = (UniqueConstraint("entry_id", "ordinal"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    entry_id: Mapped[int] = mapped_column(ForeignKey("entries.id"))
    ordinal: Mapped[int] = mapped_column()
    event: Mapped[Any] = mapped_column(JsonText, nullable=False)


class ReadingRow(Base):
    """One measurement; ``snapshot_id`` None: it belongs to the snapshot before it."""

    __tablename__ = "readings"

    entry_id: Mapped[int] = mapped_column(ForeignKey("entries.id"), primary_key=True)
    snapshot_id: Mapped[int | None] = mapped_column(ForeignKey("snapshots.id"))
    reading: Mapped[Any] = mapped_column(JsonText, nullable=False)


class TraceRow(Base):
    """One voltage trace: the CSV text, byte for byte."""

    __tablename__ = "traces"

    entry_id: Mapped[int] = mapped_column(ForeignKey("entries.id"), primary_key=True)
    name: Mapped[str | None] = mapped_column(Words)
    body: Mapped[bytes] = mapped_column(LargeBinary)


class CorrectionRow(Base):
    """One field of a snapshot said otherwise; ``snapshot_id`` None: a field of the vehicle.

    ``field`` is a key of the job file, or ``module`` with ``value`` [place or name, new name].
    """

    __tablename__ = "corrections"
    __table_args__ = (UniqueConstraint("entry_id", "ordinal"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    entry_id: Mapped[int] = mapped_column(ForeignKey("entries.id"))
    ordinal: Mapped[int] = mapped_column()
    snapshot_id: Mapped[int | None] = mapped_column(ForeignKey("snapshots.id"), index=True)
    field: Mapped[str] = mapped_column(String(40))
    value: Mapped[Any | None] = mapped_column(JsonText)


class VerdictRow(Base):
    """One verdict as printed, the versions that made it and the session's ``revision`` it was made from."""

    __tablename__ = "verdicts"

    id: Mapped[int] = mapped_column(primary_key=True)
    session_id: Mapped[int] = mapped_column(ForeignKey("sessions.id"), index=True)
    revision: Mapped[int] = mapped_column()
    made_at: Mapped[datetime] = mapped_column(Moment)
    engine_version: Mapped[str] = mapped_column(Words)
    tables_version: Mapped[str] = mapped_column(Words)
    verdict: Mapped[Any] = mapped_column(JsonText, nullable=False)


class OutcomeRow(Base):
    """What was done about one fault and what came of it; ``said`` is the probability the verdict gave it."""

    __tablename__ = "outcomes"
    __table_args__ = (CheckConstraint("cured IN ('yes', 'no', 'unknown')", name="cured"),)

    entry_id: Mapped[int] = mapped_column(ForeignKey("entries.id"), primary_key=True)
    module: Mapped[str] = mapped_column(Words)
    code: Mapped[str] = mapped_column(Words)
    failure_type: Mapped[str | None] = mapped_column(String(2))
    done: Mapped[str] = mapped_column(Words)
    cured: Mapped[str] = mapped_column(String(7))
    found_cause: Mapped[str | None] = mapped_column(String(12))
    verdict_id: Mapped[int | None] = mapped_column(ForeignKey("verdicts.id"))
    said: Mapped[float | None] = mapped_column(Float(53))
    standing: Mapped[str | None] = mapped_column(String(12))


class OutcomeRateRow(Base):
    """That an outcome speaks for (``hit``) or against a rate of the code tables."""

    __tablename__ = "outcome_rates"

    outcome_id: Mapped[int] = mapped_column(ForeignKey("outcomes.entry_id"), primary_key=True)
    rate_key: Mapped[str] = mapped_column(Words, primary_key=True)
    hit: Mapped[bool] = mapped_column()
