"""The store: what the command line and the web page call.

Every writing method is one transaction: when it has returned the act is kept whatever happens next, and when it
raises nothing of it is. A store may be used from several threads and several programs at once.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import UTC, date, datetime
from pathlib import Path
from types import TracebackType
from typing import Any

from sqlalchemy import select

from triage.errors import StoreError
from triage.model.phases import Guess, guess_phase
from triage.model.session import Event, Session, Vehicle
from triage.model.snapshot import Phase, Reading, Snapshot
from triage.model.verdict import Cause, Verdict
from triage.store import jobs, kept, occasions, results, vehicles, writing
from triage.store.calibration import Calibration, calibration
from triage.store.occasions import earlier, known_sessions
from triage.store.opening import Database, lock_names
from triage.store.outcomes import Counts, forecasts
from triage.store.rows import (
    Contents,
    Cured,
    Entry,
    Fault,
    KnownSession,
    KnownVehicle,
    Outcome,
    Paste,
    Pasted,
    StoredEvent,
    StoredReading,
    StoredSnapshot,
    StoredVerdict,
    Trace,
)
from triage.store.tables import EntryRow, PasteRow, SessionRow, TraceRow, VehicleRow


class Store:
    """An open store; use it in a ``with`` block or call :meth:`close`. Raises StoreError, one line, throughout."""

    def __init__(self, place: str | Path | None = None, now: Callable[[], datetime] | None = None) -> None:
        """Open ``place`` (a file or a URL; None: the user's data folder), made or migrated as needed.

        ``now`` stands in for the clock and gives aware times.
        """
        self._now = now or (lambda: datetime.now(UTC))
        self._database = Database(place)

    @property
    def shown(self) -> str:
        """Where the store is, without a password."""
        return self._database.shown

    def __enter__(self) -> Store:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None,
                 trace: TracebackType | None) -> None:
        self.close()

    def close(self) -> None:
        """Close every connection."""
        self._database.close()

    # Vehicles

    def add_vehicle(self, vehicle: Vehicle) -> KnownVehicle:
        """The vehicle's entry in the list, made or brought up to date. Needs a VIN or a label."""
        with self._database.writing() as work:
            lock_names(work)
            row = vehicles.find_or_add(work, vehicle, self._now())
            if row is None:
                raise StoreError("a vehicle needs a VIN or a label to be found again")
            return vehicles.known(work, row)

    def find_vehicle(self, text: str) -> KnownVehicle | None:
        """The vehicle with this VIN or label, letter case and spaces aside."""
        with self._database.reading() as work:
            for asked in (Vehicle(vin=text), Vehicle(label=text)):
                row = vehicles.find(work, asked)
                if row is not None:
                    return vehicles.known(work, row)
            return None

    def vehicles(self) -> list[KnownVehicle]:
        """All vehicles, in the order they were added."""
        with self._database.reading() as work:
            return [vehicles.known(work, row) for row in work.scalars(select(VehicleRow).order_by(VehicleRow.id))]

    # Sessions

    def open_session(self, name: str, vehicle: Vehicle | None = None) -> KnownSession:
        """A new session. What is known of the vehicle from before (not its complaint) is taken over."""
        if not name.strip():
            raise StoreError("a session needs a name")
        with self._database.writing() as work:
            lock_names(work)
            if work.scalars(select(SessionRow).where(SessionRow.name == name)).first() is not None:
                raise StoreError(f"there is a session {name!r} already")
            given = None if vehicle is None else vehicle.model_dump(mode="json", exclude_none=True)
            known = None if vehicle is None else vehicles.find(work, vehicle)
            if known is not None and given is not None:
                given = {key: value for key, value in known.details.items() if key != "complaint"} | given
            session = SessionRow(name=name, vehicle=given, events_known=False, opened_at=self._now(), revision=0)
            work.add(session)
            work.flush()
            writing.link_vehicle(work, session, self._now())
            work.flush()
            return known_sessions(work, [session])[0]

    def session(self, name: str) -> KnownSession:
        """One line about the session."""
        with self._database.reading() as work:
            return known_sessions(work, [writing.session_row(work, name)])[0]

    def sessions(self, vehicle: int | KnownVehicle | None = None) -> list[KnownSession]:
        """All sessions, or those of one vehicle (its id), in the order they were opened."""
        with self._database.reading() as work:
            wanted = select(SessionRow).order_by(SessionRow.opened_at, SessionRow.id)
            if vehicle is not None:
                number = vehicle.id if isinstance(vehicle, KnownVehicle) else vehicle
                wanted = wanted.where(SessionRow.vehicle_id == number)
            return known_sessions(work, list(work.scalars(wanted)))

    def earlier_sessions(self, name: str) -> list[KnownSession]:
        """The sessions of the same vehicle that came before this one, oldest first."""
        with self._database.reading() as work:
            return known_sessions(work, [row for row, _ in earlier(work, writing.session_row(work, name))])

    def history(self, name: str) -> list[Session]:
        """The same as objects of the job file, those that hold a snapshot: what this vehicle showed before."""
        with self._database.reading() as work:
            return [job for _, job in earlier(work, writing.session_row(work, name)) if job.snapshots]

    def revision(self, name: str) -> int:
        """The count of acts in the session: as long as it is the same, so is all that the session holds."""
        with self._database.reading() as work:
            found = work.scalar(occasions.REVISION, {"name": name})
            return writing.session_row(work, name).revision if found is None else found

    def before_repair(self, name: str) -> tuple[Session, int] | None:
        """The session as it stood before its first scan after a repair, and its revision then; None without one."""
        with self._database.reading() as work:
            return occasions.before_repair(kept.keep(work, writing.session_row(work, name)))

    def contents(self, name: str) -> Contents:
        """All that the session holds but the texts of pastes and traces, in one look."""
        with self._database.reading() as work:
            everything = kept.keep(work, writing.session_row(work, name), with_struck=True)
            stands = everything.standing()
            return Contents(
                occasions.known(everything), kept.session_object(stands, timed=True),
                kept.stored_snapshots(stands), kept.stored_events(stands), kept.stored_readings(stands),
                kept.heads(stands, stands.sources), kept.heads(stands, stands.traces),
                kept.entries_in_words(everything))

    def session_object(self, name: str, timed: bool = True) -> Session:
        """The session of the job file, in order, without what was struck out.

        A loose measurement goes to its snapshot, else to the one before it, else to the first. ``timed``:
        snapshots and events recorded live get the time of recording where they have none, so that their order
        survives; imported ones stay as they came.
        """
        with self._database.reading() as work:
            return kept.session_object(kept.keep(work, writing.session_row(work, name)), timed)

    # Entries

    def guess_phase(self, name: str, snapshot: Snapshot | None = None) -> Guess:
        """The phase the next snapshot would get, and why."""
        with self._database.reading() as work:
            items = kept.keep(work, writing.session_row(work, name)).items()
            return guess_phase([item.what for item in items], snapshot)

    def last_day(self, name: str) -> date | None:
        """The day of the last scan of a session that says one: a later one may give the time of day alone."""
        days = [kept.now.at.date() for kept in self.snapshots(name) if kept.now.at is not None]
        return days[-1] if days else None

    def add_paste(
        self, name: str, body: str | bytes, snapshots: Sequence[Snapshot], phase: Phase | None = None, *,
        changes: Mapping[str, Any] | None = None, rename: Mapping[str | int, str] | None = None,
        events: Sequence[Event] = (), source: str | None = None, who: str | None = None,
    ) -> Pasted:
        """Keep what was pasted, exactly, and what was understood of it.

        ``phase`` is that of every snapshot whose text names none (of a lone snapshot it wins over the text);
        None: guessed. ``changes`` and ``rename`` are corrections as in :meth:`correct`, for each snapshot.
        """
        with self._database.writing() as work:
            return writing.add_paste(
                work, writing.session_row(work, name, lock=True), body, snapshots, self._now(), phase=phase,
                changes=changes or {}, rename=rename or {}, events=events, source=source, who=who)

    def correct(self, snapshot_id: int, *, rename: Mapping[str | int, str] | None = None, who: str | None = None,
                **changes: Any) -> None:
        """Say fields of a snapshot otherwise (``phase="after-run", volts=12.4``); the original stays untouched.

        ``rename`` gives a module, by its place from 0 or by its name as printed or as understood, another name.
        """
        with self._database.writing() as work:
            writing.correct(work, snapshot_id, self._now(), changes, rename or {}, who)

    def correct_vehicle(self, name: str, *, who: str | None = None, **changes: Any) -> None:
        """Say fields of the session's vehicle otherwise (``battery="AGM"``)."""
        with self._database.writing() as work:
            lock_names(work)
            session = writing.session_row(work, name, lock=True)
            writing.correct_vehicle(work, session, self._now(), changes, who)

    def add_event(self, name: str, event: Event, who: str | None = None) -> int:
        """Keep an event; returns the id of its entry."""
        with self._database.writing() as work:
            return writing.add_event(work, writing.session_row(work, name, lock=True), event, self._now(), who)

    def add_reading(self, name: str, reading: Reading, snapshot_id: int | None = None,
                    who: str | None = None) -> int:
        """Keep a measurement, of a snapshot if one is named; returns the id of its entry."""
        with self._database.writing() as work:
            session = writing.session_row(work, name, lock=True)
            return writing.add_reading(work, session, reading, snapshot_id, self._now(), who)

    def add_trace(self, name: str, text: str, label: str | None = None, who: str | None = None) -> int:
        """Keep a voltage trace as CSV text; returns the id of its entry."""
        with self._database.writing() as work:
            session = writing.session_row(work, name, lock=True)
            return writing.add_trace(work, session, text, label, self._now(), who)

    def undo(self, name: str) -> Entry:
        """Strike out the last entry that stands, and say which it was. It stays in the store."""
        with self._database.writing() as work:
            lock_names(work)
            session = writing.session_row(work, name, lock=True)
            struck = writing.undo(work, session, self._now())
            work.flush()
            return kept.act_in_words(kept.keep(work, session, with_struck=True), struck)

    def entries(self, name: str, with_struck: bool = False) -> list[Entry]:
        """Who did what when, in order."""
        with self._database.reading() as work:
            session = writing.session_row(work, name)
            return kept.entries_in_words(kept.keep(work, session, with_struck))

    def snapshots(self, name: str) -> list[StoredSnapshot]:
        """The snapshots in order, as understood and as they count now."""
        with self._database.reading() as work:
            return kept.stored_snapshots(kept.keep(work, writing.session_row(work, name)))

    def events(self, name: str) -> list[StoredEvent]:
        """The events in the order they were recorded."""
        with self._database.reading() as work:
            return kept.stored_events(kept.keep(work, writing.session_row(work, name)))

    def readings(self, name: str) -> list[StoredReading]:
        """The loose measurements in the order they were recorded."""
        with self._database.reading() as work:
            return kept.stored_readings(kept.keep(work, writing.session_row(work, name)))

    def traces(self, name: str) -> list[Trace]:
        """The voltage traces in the order they were recorded."""
        with self._database.reading() as work:
            rows = kept.keep(work, writing.session_row(work, name))
            found, before = [], 0
            for entry in rows.entries:
                before += len(rows.snapshots.get(entry.id, ()))
                trace = work.get(TraceRow, entry.id) if entry.kind == "trace" else None
                if trace is not None:
                    text = trace.body.decode("utf-8", "surrogatepass")
                    found.append(Trace(entry.id, entry.recorded_at, trace.name, text, before))
            return found

    def pastes(self, name: str, with_struck: bool = False, entry: int | None = None) -> list[Paste]:
        """What was pasted, exactly as it came, in order; ``entry``: only that of one entry."""
        with self._database.reading() as work:
            wanted = (select(PasteRow, EntryRow).join(EntryRow, EntryRow.id == PasteRow.entry_id)
                      .where(EntryRow.session_id == writing.session_row(work, name).id).order_by(EntryRow.position))
            if not with_struck:
                wanted = wanted.where(EntryRow.struck_at.is_(None))
            if entry is not None:
                wanted = wanted.where(EntryRow.id == entry)
            return [Paste(entry.id, entry.recorded_at, paste.source,
                          paste.body.decode("utf-8", "surrogatepass") if paste.is_text else paste.body)
                    for paste, entry in work.execute(wanted)]

    # Job files

    def export_jobs(self, names: Iterable[str] | None = None) -> list[Session]:
        """The named sessions, or all, as objects of the job file."""
        with self._database.reading() as work:
            return jobs.export_jobs(work, names)

    def import_jobs(self, sessions: Iterable[Session], who: str | None = None) -> list[str]:
        """Add sessions, all or none; returns the names added. One that is there already and the same is skipped."""
        with self._database.writing() as work:
            lock_names(work)
            return jobs.import_jobs(work, sessions, self._now(), who)

    # Verdicts and outcomes

    def save_verdict(self, name: str, verdict: Verdict | Mapping[str, Any], engine_version: str,
                     tables_version: str, revision: int | None = None) -> int:
        """Keep a verdict; ``revision`` is that of the session it was made from (None: the present one)."""
        with self._database.writing() as work:
            session = writing.session_row(work, name, lock=True)
            return results.save_verdict(
                work, session, verdict, engine_version, tables_version, revision, self._now())

    def verdicts(self, name: str) -> list[StoredVerdict]:
        """The verdicts of a session, those on its oldest state first."""
        with self._database.reading() as work:
            return results.verdicts(work, writing.session_row(work, name))

    def forecast(self, name: str) -> StoredVerdict | None:
        """The verdict that an outcome recorded now is held against: the last made before any scan after a repair."""
        with self._database.reading() as work:
            return results.forecast(work, writing.session_row(work, name))

    def record_outcome(
        self, name: str, module: str, code: str, failure_type: str | None = None, *, done: str,
        cured: Cured = "unknown", found_cause: Cause | None = None, rates: Mapping[str, bool] | None = None,
        who: str | None = None,
    ) -> int:
        """Keep what was done about a fault of the session and whether that cured it; returns the entry's id.

        ``rates`` names rates of the code tables that the outcome speaks for (True) or against (False).
        """
        told = [((module, code, failure_type), rates or {})]
        return self.record_outcomes(name, told, done=done, cured=cured, found_cause=found_cause, who=who)[0]

    def record_outcomes(
        self, name: str, faults: Sequence[tuple[Fault, Mapping[str, bool]]], *, done: str, cured: Cured = "unknown",
        found_cause: Cause | None = None, who: str | None = None,
    ) -> list[int]:
        """The same for several faults (module, code, failure type) with their rates: one act, struck out as one."""
        with self._database.writing() as work:
            session = writing.session_row(work, name, lock=True)
            return results.record_outcomes(work, session, faults, done, cured, found_cause, self._now(), who)

    def outcomes(self, name: str | None = None) -> list[Outcome]:
        """The outcomes of one session, or of all, oldest first, without those struck out."""
        with self._database.reading() as work:
            return results.outcomes(work, None if name is None else writing.session_row(work, name))

    def outcome_state(self) -> tuple[tuple[str, int], ...]:
        """The sessions with outcomes, each with its revision: as long as it is the same, so are all outcomes."""
        with self._database.reading() as work:
            return tuple((row.name, row.revision) for row in work.execute(results.SPOKEN_OF))

    def rate_counts(self) -> dict[str, Counts]:
        """Outcomes for and against each rate of the code tables, for beta_update."""
        return results.rate_counts(self.outcomes())

    def calibration(self) -> Calibration:
        """What the verdicts said of the faults that have an outcome, against what came true."""
        return calibration(forecasts(self.outcomes()))
