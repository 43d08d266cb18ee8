"""What the pages and the programs work with: the store, the reader and the engine, each piece of work done once.

Readings are kept by the text they are of, assessments by the revision of their session, so that a page that is
opened again, by anyone, is not weighed again.
"""

from __future__ import annotations

import hashlib
import logging
import threading
from collections import OrderedDict
from collections.abc import Callable, Hashable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Generic, TypeVar

from code_tables import load
from triage.assess import assess
from triage.cli.keep_learn import Learned, learned
from triage.cli.keep_list import compare, engine_version, tables_version
from triage.errors import InputError, StoreError, TriageError
from triage.intake.read import Reading, read_bytes
from triage.model.assessment import Assessment
from triage.model.notices import Notice
from triage.model.session import Event, Session
from triage.model.snapshot import Snapshot
from triage.reports.entries import View
from triage.reports.text import listing
from triage.reports.view import view
from triage.store import Comparison, Guess, guess_phase, open_store
from triage.store.rows import Entry, KnownSession, Paste, StoredEvent, StoredReading, StoredSnapshot
from triage.store.rows import Trace as StoredTrace
from triage.supply.trace import Trace, read_trace

LOG = logging.getLogger("triage.web")
V = TypeVar("V")
T = TypeVar("T")


class Kept(Generic[V]):
    """The results that were asked for last."""

    def __init__(self, most: int) -> None:
        self._most = most
        self._kept: OrderedDict[Hashable, V] = OrderedDict()
        self._lock = threading.Lock()

    def get(self, key: Hashable, make: Callable[[], V]) -> V:
        """The result kept under ``key``, else the one that ``make`` gives."""
        with self._lock:
            if key in self._kept:
                self._kept.move_to_end(key)
                return self._kept[key]
        made = make()
        with self._lock:
            self._kept[key] = made
            while len(self._kept) > self._most:
                self._kept.popitem(last=False)
        return made


@dataclass(frozen=True, slots=True)
class Contents:
    """What a session holds at one revision, read from the store once."""

    known: KnownSession
    snapshots: list[StoredSnapshot]
    events: list[StoredEvent]
    readings: list[StoredReading]
    traces: list[StoredTrace]
    pastes: list[Paste]
    entries: list[Entry]  # with those struck out

    def guess(self) -> Guess:
        """The phase the next snapshot would get, and why."""
        happened: list[tuple[int, int, Snapshot | Event]] = [
            *((stored.entry_id, 0, stored.now) for stored in self.snapshots),
            *((stored.entry_id, 1, stored.event) for stored in self.events)]
        # Within one entry the snapshots come first.
        return guess_phase([what for _, _, what in sorted(happened, key=lambda item: item[:2])])


@dataclass(frozen=True, slots=True)
class Weighed:
    """A session as it stands at one revision."""

    known: KnownSession
    session: Session
    assessment: Assessment
    shown: View
    tables: str  # version of the tables, with what the outcomes changed


class Workbench:
    """One store with the tables, shared by all requests; every method may be called from any thread."""

    def __init__(self, place: str | Path | None, now: Callable[[], datetime] | None = None) -> None:
        """Open the store at ``place`` as :func:`triage.store.open_store` does. Raises StoreError."""
        self.store = open_store(place, now)
        self.tables = load()
        self._readings: Kept[Reading] = Kept(24)
        self._contents: Kept[Contents] = Kept(24)
        self._weighed: Kept[Weighed] = Kept(24)
        self._learned: Kept[Learned] = Kept(2)
        # One at a time: the work is arithmetic in one interpreter, two at once only make both late.
        self._engine = threading.Lock()
        self._traces: Kept[tuple[Trace | None, list[Notice]]] = Kept(4)
        self._changes: Kept[list[str]] = Kept(64)

        self.module_names = sorted(set(self.tables.aliases.values()))

    def close(self) -> None:
        """Close the store."""
        self.store.close()

    def read(self, body: str | bytes, source: str | None = None) -> Reading:
        """What the reader makes of a paste or a file. Raises InputError where it can't be used as a whole."""
        data = body.encode("utf-8", "replace") if isinstance(body, str) else body

        def make() -> Reading:
            with self._engine:
                return read_bytes(data, self.tables, source=source)

        return self._readings.get((hashlib.sha256(data).digest(), source), make)

    def read_again(self, paste: Paste) -> Reading:
        """What the reader says of a paste that was kept; nothing but a notice where it can't say."""
        try:
            return self.read(paste.body, paste.source)
        except Exception as error:  # kept by an older or a newer reader: the page must open all the same
            notice = Notice("warning", f"this text can't be read any more: {error}", paste.source)
            return Reading([], None, [], [notice])

    def trace(self, text: str, source: str | None) -> tuple[Trace | None, list[Notice]]:
        """The voltage trace in ``text`` and the notices about it; None where there is none."""
        def make() -> tuple[Trace | None, list[Notice]]:
            with self._engine:
                return read_trace(text, source=source)

        return self._traces.get((hashlib.sha256(text.encode("utf-8", "replace")).digest(), source), make)

    def learned(self) -> Learned:
        """The rates of the tables after the outcomes in the store."""
        outcomes = self.store.outcomes()
        if not outcomes:
            return Learned({}, {})
        spoken = {outcome.session for outcome in outcomes}
        state = tuple((known.name, known.revision) for known in self.store.sessions() if known.name in spoken)
        return self._learned.get(state, lambda: learned(self.store, self.tables))

    def contents(self, name: str) -> Contents:
        """What session ``name`` holds. Raises StoreError if there is none such."""
        store, known = self.store, self.store.session(name)

        def make() -> Contents:
            entries = store.entries(name, with_struck=True)
            kinds = {entry.kind for entry in entries if entry.struck_at is None}
            return Contents(
                known, store.snapshots(name), store.events(name), store.readings(name) if "reading" in kinds else [],
                store.traces(name) if "trace" in kinds else [], store.pastes(name), entries)

        return self._contents.get((name, known.revision), make)

    def weighed(self, name: str, held: Contents | None = None) -> Weighed:
        """The session ``name`` (``held``: as read just now) with its assessment. Raises StoreError if none such."""
        held = held or self.contents(name)
        known, now = held.known, self.learned()
        tables = tables_version(now)

        def make() -> Weighed:
            session = self.store.session_object(name)
            notices = [*now.notices(), *self.notices(held)]
            with self._engine:
                assessment = assess(session, now.tables(self.tables), notices)
            return Weighed(known, session, assessment, view(assessment), tables)

        return self._weighed.get((name, known.revision, tables), make)

    def notices(self, held: Contents) -> list[Notice]:
        """What the reader had to say of the scans that count, and which phases were guessed."""
        found = [notice for paste in held.pastes for notice in self.read_again(paste).notices]
        for place, snapshot in enumerate(held.snapshots, start=1):
            if snapshot.phase_why not in ("the text says so", "told by hand"):
                found.append(Notice("note", f"snapshot {place} does not say its phase: taken as {snapshot.phase}, "
                                            f"{snapshot.phase_why}; correct the scan if that is wrong"))
        return found

    def handed_off(self, name: str) -> Weighed:
        """The session as it is handed over: its verdict is kept. Raises InputError where there is no scan yet."""
        weighed = self.weighed(name)
        if not weighed.session.snapshots:
            raise InputError(f"session {name!r} holds no scan yet")
        versions = engine_version(), weighed.tables
        kept = self.store.verdicts(name)
        last = kept[-1] if kept else None
        if last is None or last.stale or (last.engine_version, last.tables_version) != versions:
            self.store.save_verdict(name, weighed.assessment.verdict, *versions, weighed.known.revision)
        return weighed

    def acted(self, name: str, act: Callable[[], T]) -> T:
        """Do ``act`` to the session and remember what it changed in the standings."""
        before = self.weighed_if_it_can(name)
        done = act()
        after = self.weighed_if_it_can(name)
        if before is not None and after is not None:
            self._changes.get((name, after.known.revision), lambda: changes(before, after))
        return done

    def weighed_if_it_can(self, name: str, held: Contents | None = None) -> Weighed | None:
        """The session with its assessment, None where it holds no scan or the engine fails at it.

        What was entered is kept all the same, and the session must open, so that it can be struck out.
        """
        try:
            weighed = self.weighed(name, held)
        except TriageError:
            raise
        except Exception:
            LOG.exception("session %r can't be weighed", name)
            return None
        return weighed if weighed.session.snapshots else None

    def changes(self, weighed: Weighed) -> list[str]:
        """What the act that led to this revision changed, one line a fault; nothing if that is not known."""
        return self._changes.get((weighed.known.name, weighed.known.revision), list)

    def weigh(self, session: Session) -> Assessment:
        """The assessment of a session that is not kept."""
        with self._engine:
            return assess(session, self.tables)

    def compared(self, earlier: str, later: str) -> tuple[Comparison, str]:
        """Two sessions side by side, and whose verdict of the earlier one was taken. Raises InputError, StoreError."""
        now = self.handed_off(later).assessment
        return compare(self.store, earlier, later, now)

    def snapshot_of(self, name: str, snapshot_id: int) -> Snapshot:
        """A snapshot that stands in session ``name``. Raises StoreError if it holds none such."""
        for stored in self.store.snapshots(name):
            if stored.id == snapshot_id:
                return stored.now
        raise StoreError(f"no snapshot {snapshot_id} in session {name!r}")


def standings_of(weighed: Weighed) -> dict[str, str]:
    """Each fault of a session by name, with its standing."""
    return {line.name: standing for standing, lines in (
        ("short list", [line for item in weighed.shown.items for line in item.lines]),
        ("unsettled", [line for bundle in weighed.shown.unsettled for line in bundle.lines]),
        ("set aside", [line for bundle in weighed.shown.aside for line in bundle.lines])) for line in lines}


def changes(before: Weighed, after: Weighed) -> list[str]:
    """The faults whose standing is another than before, those on the short list first."""
    old, new = standings_of(before), standings_of(after)
    if not old:
        return []
    moved: dict[str, list[str]] = {}
    for name, standing in new.items():
        was = old.get(name)
        if was != standing:
            moved.setdefault(f"{standing}, {was} before" if was else f"{standing}, new", []).append(name)
    told = [f"{head}: {listing(names, 6)}" for head, names in moved.items()]
    gone = [name for name in old if name not in new]
    if gone:
        told.append(f"no longer in the session: {listing(gone, 6)}")
    return told
