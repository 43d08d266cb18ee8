"""What the store gives back: plain values, good after the transaction that read them has ended."""

from __future__ import annotations

from datetime import datetime
from typing import Any, Literal, NamedTuple

from triage.model.session import Event, Session, Vehicle
from triage.model.snapshot import Phase, Reading, Snapshot
from triage.model.verdict import Cause, Standing

EntryKind = Literal["paste", "import", "event", "reading", "trace", "correction", "outcome"]
Cured = Literal["yes", "no", "unknown"]
#: Module, code and failure type as the session gives them.
Fault = tuple[str, str, str | None]


class KnownVehicle(NamedTuple):
    """A vehicle of the store; ``details`` as last told, its complaint that of the latest session."""

    id: int
    label: str | None
    vin: str | None
    details: Vehicle
    sessions: int


class KnownSession(NamedTuple):
    """One line of the list of sessions. Counts are without what was struck out, ``struck`` is the count of that."""

    name: str
    vehicle_id: int | None
    vehicle: Vehicle | None
    opened_at: datetime
    last_at: datetime
    revision: int
    snapshots: int
    entries: int
    struck: int


class Entry(NamedTuple):
    """One entry of a session, in words; ``struck_at`` is when it was struck out, ``act`` that of the table."""

    id: int
    position: int
    kind: EntryKind
    recorded_at: datetime
    who: str | None
    struck_at: datetime | None
    words: str
    act: int | None = None


class StoredSnapshot(NamedTuple):
    """One snapshot: ``understood`` as the reader left it, ``now`` with phase and corrections laid over it."""

    id: int
    entry_id: int
    recorded_at: datetime
    understood: Snapshot
    now: Snapshot
    phase_why: str
    corrections: tuple[str, ...]

    @property
    def phase(self) -> Phase | None:
        """The phase it counts as."""
        return self.now.phase


class Pasted(NamedTuple):
    """What came of a paste: its entry and, for each snapshot in it, id, phase and why that phase."""

    entry_id: int
    snapshots: tuple[tuple[int, Phase | None, str], ...]


class Paste(NamedTuple):
    """What was pasted, exactly as it came: text, or the bytes of a file."""

    entry_id: int
    recorded_at: datetime
    source: str | None
    body: str | bytes


class Head(NamedTuple):
    """What is known of a paste or a trace without its text, which may be long; ``name``: its source or label."""

    entry_id: int
    recorded_at: datetime
    name: str | None


class StoredEvent(NamedTuple):
    """One event with the entry it came in."""

    entry_id: int
    recorded_at: datetime
    event: Event


class StoredReading(NamedTuple):
    """One measurement with the entry it came in; ``snapshot_id`` None: the snapshot before it."""

    entry_id: int
    recorded_at: datetime
    snapshot_id: int | None
    reading: Reading


class Trace(NamedTuple):
    """One voltage trace: CSV ``text`` as it came, and the snapshots before it in the session."""

    entry_id: int
    recorded_at: datetime
    name: str | None
    text: str
    after_snapshots: int


class Contents(NamedTuple):
    """All that a page shows of one session, read at one moment; ``entries`` with those struck out."""

    known: KnownSession
    session: Session
    snapshots: list[StoredSnapshot]
    events: list[StoredEvent]
    readings: list[StoredReading]
    pastes: list[Head]
    traces: list[Head]
    entries: list[Entry]


class StoredVerdict(NamedTuple):
    """One verdict, the versions and the session's revision that made it; ``stale``: the session has changed since."""

    id: int
    session: str
    made_at: datetime
    engine_version: str
    tables_version: str
    revision: int
    verdict: dict[str, Any]
    stale: bool


class Outcome(NamedTuple):
    """What was done about one fault and what came of it.

    ``said`` is the probability (0..1) that the fault persists and ``standing`` its standing, both from the verdict
    at hand when the outcome was recorded; None where no verdict spoke of the fault. ``rates`` are the rates of
    the code tables the outcome speaks for (True) or against (False).
    """

    entry_id: int
    session: str
    recorded_at: datetime
    who: str | None
    module: str
    code: str
    failure_type: str | None
    done: str
    cured: Cured
    found_cause: Cause | None
    said: float | None
    standing: Standing | None
    rates: tuple[tuple[str, bool], ...]

    @property
    def was_there(self) -> bool | None:
        """Whether the fault turned out to persist; None: the outcome does not tell.

        The found cause decides. Without one, a fault that was still there after the work was there, and so was one
        that work on it cured; what cured another fault (the supply, a partner module) needs its cause said.
        """
        if self.found_cause is not None:
            return self.found_cause in ("hard", "intermittent")
        return None if self.cured == "unknown" else True
