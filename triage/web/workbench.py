"""What the pages and the programs work with: the store, the reader and the engine, each piece of work done once.

What a session holds and its assessment are kept by the session's revision, notices by the paste they are about, so
that a page that is opened again, by anyone, is neither read nor weighed again.
"""

from __future__ import annotations

import hashlib
import logging
import threading
from collections.abc import Callable
from datetime import date, datetime
from pathlib import Path
from typing import NamedTuple, TypeVar

from code_tables import Tables, load
from triage.assess import assess, earlier_faults
from triage.cli.keep_list import compare
from triage.cli.keep_rates import Learned, learned
from triage.cli.keep_weigh import keep_verdict, notices_again
from triage.errors import InputError, StoreError, TriageError
from triage.intake.read import Reading, read_bytes
from triage.model.assessment import Assessment
from triage.model.notices import Notice
from triage.model.session import Event, Session
from triage.model.snapshot import Snapshot
from triage.reports.entries import View
from triage.reports.view import view
from triage.store import Comparison, Guess, guess_phase, open_store
from triage.store.rows import Contents, Head
from triage.supply.trace import Trace, read_trace
from triage.web.changes import changes
from triage.web.memory import Memory

LOG = logging.getLogger("triage.web")
T = TypeVar("T")


class Weighed(NamedTuple):
    """A session as it stands at one revision, with the rates as they were learned without it."""

    held: Contents
    assessment: Assessment
    shown: View
    learned: Learned


class Workbench:
    """One store with the tables, shared by all requests; every method may be called from any thread."""

    def __init__(self, place: str | Path | None, now: Callable[[], datetime] | None = None) -> None:
        """Open the store at ``place`` as :func:`triage.store.open_store` does. Raises StoreError."""
        self.store = open_store(place, now)
        self.tables = load()
        self._readings: Memory[Reading] = Memory(8)
        self._notices: Memory[list[Notice]] = Memory(1024)
        self._contents: Memory[Contents] = Memory(24)
        self._weighed: Memory[Weighed] = Memory(24)
        self._learned: Memory[Learned] = Memory(24)
        self._tables: Memory[Tables] = Memory(4)
        self._traces: Memory[tuple[Trace | None, list[Notice]]] = Memory(4)
        self._changes: Memory[list[str]] = Memory(64)
        # One at a time: the work is arithmetic in one interpreter, two at once only make both late.
        self._engine = threading.Lock()
        self.module_names = sorted(set(self.tables.aliases.values()))

    def close(self) -> None:
        """Close the store."""
        self.store.close()

    def read(self, body: str | bytes, source: str | None = None, day: date | None = None) -> Reading:
        """What the reader makes of a paste or a file (``day``: of a time without a date). Raises InputError where it
        can't be used as a whole."""
        data = body.encode("utf-8", "replace") if isinstance(body, str) else body

        def make() -> Reading:
            with self._engine:
                return read_bytes(data, self.tables, source=source, day=day)

        return self._readings.get((hashlib.sha256(data).digest(), source, day), make)

    def remember(self, entry_id: int, reading: Reading) -> None:
        """What the reader said of the paste that has just been kept as ``entry_id``."""
        self._notices.put(entry_id, reading.notices)

    def notices_of(self, name: str, paste: Head) -> list[Notice]:
        """What the reader says of a paste that is kept in session ``name``."""
        def make() -> list[Notice]:
            with self._engine:
                return [notice for kept in self.store.pastes(name, with_struck=True, entry=paste.entry_id)
                        for notice in notices_again(kept.body, kept.source, self.tables)]

        try:
            return self._notices.get(paste.entry_id, make)
        except Exception as error:  # kept by an older or a newer reader: the page must open all the same
            LOG.exception("paste %d can't be read any more", paste.entry_id)
            return [Notice("warning", f"this text can't be read any more: {error}", paste.name)]

    def trace(self, text: str, source: str | None) -> tuple[Trace | None, list[Notice]]:
        """The voltage trace in ``text`` and the notices about it; None where there is none."""
        def make() -> tuple[Trace | None, list[Notice]]:
            with self._engine:
                return read_trace(text, source=source)

        return self._traces.get((hashlib.sha256(text.encode("utf-8", "replace")).digest(), source), make)

    def learned(self, without: str | None = None) -> Learned:
        """The rates of the tables after the outcomes in the store, but for those of the session ``without``."""
        state = self.store.outcome_state()
        spoken = {name for name, _ in state}
        if not spoken - {without}:
            return Learned({}, {})
        left_out = without if without in spoken else None
        return self._learned.get((state, left_out), lambda: learned(self.store, self.tables, left_out))

    def tables_with(self, now: Learned) -> Tables:
        """The tables with the learned rates; the same object for the same rates, so that its lookups stay warm."""
        return self._tables.get(now.words, lambda: now.tables(self.tables)) if now.rates else self.tables

    def contents(self, name: str) -> Contents:
        """What session ``name`` holds. Raises StoreError if there is none such."""
        return self._contents.get((name, self.store.revision(name)), lambda: self.store.contents(name))

    def weighed(self, name: str, held: Contents | None = None) -> Weighed:
        """The session ``name`` (``held``: as read just now) with its assessment. Raises StoreError if none such."""
        held = held or self.contents(name)
        # What was found in a session must not weigh in its own favour.
        now = self.learned(without=name)

        def make() -> Weighed:
            notices = [*now.notices(), *self.notices(held)]
            tables, history = self.tables_with(now), self.store.history(name)
            with self._engine:
                assessment = assess(held.session, tables, notices, earlier=earlier_faults(history, tables))
            return Weighed(held, assessment, view(assessment), now)

        return self._weighed.get((name, held.known.revision, now.words), make)

    def notices(self, held: Contents) -> list[Notice]:
        """What the reader had to say of the scans that count, and which phases were guessed."""
        found = [notice for paste in held.pastes for notice in self.notices_of(held.known.name, paste)]
        for place, snapshot in enumerate(held.snapshots, start=1):
            if snapshot.phase_why not in ("the text says so", "told by hand"):
                found.append(Notice("note", f"snapshot {place} does not say its phase: taken as {snapshot.phase}, "
                                            f"{snapshot.phase_why}; correct the scan if that is wrong"))
        return found

    def handed_off(self, name: str) -> Weighed:
        """The session as it is handed over: its verdict is kept. Raises InputError where there is no scan yet."""
        weighed = self.weighed(name)
        if not weighed.held.snapshots:
            raise InputError(f"session {name!r} holds no scan yet")
        keep_verdict(self.store, name, weighed.assessment.verdict, weighed.learned, weighed.held.known.revision)
        return weighed

    def acted(self, name: str, act: Callable[[], T]) -> T:
        """Do ``act`` to the session and remember what it changed in the standings."""
        before = self.weighed_if_it_can(name)  # as a rule at hand: the page with the form showed it
        done = act()
        after = self.weighed_if_it_can(name)
        if before is not None and after is not None:
            self._changes.put((name, after.held.known.revision), changes(before.assessment, after.assessment))
        return done

    def weighed_if_it_can(self, name: str, held: Contents | None = None) -> Weighed | None:
        """The session with its assessment, None where it holds no scan or the engine fails at it.

        What was entered is kept all the same, and the session must open, so that it can be struck out.
        """
        try:
            held = held or self.contents(name)
            return self.weighed(name, held) if held.snapshots else None
        except TriageError:
            raise
        except Exception:
            LOG.exception("session %r can't be weighed", name)
            return None

    def changes(self, weighed: Weighed) -> list[str]:
        """What the act that led to this revision changed, one line a standing; nothing if that is not known."""
        return self._changes.get((weighed.held.known.name, weighed.held.known.revision), list)

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
        for stored in self.contents(name).snapshots:
            if stored.id == snapshot_id:
                return stored.now
        raise StoreError(f"no snapshot {snapshot_id} in session {name!r}")


def guess_of(held: Contents) -> Guess:
    """The phase the next snapshot would get, and why."""
    happened: list[tuple[int, int, Snapshot | Event]] = [
        *((stored.entry_id, 0, stored.now) for stored in held.snapshots),
        *((stored.entry_id, 1, stored.event) for stored in held.events)]
    # Within one entry the snapshots come first.
    return guess_phase([what for _, _, what in sorted(happened, key=lambda item: item[:2])])
