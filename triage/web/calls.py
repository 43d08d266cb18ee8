"""The calls a program can make: one table from which the routes and their description are made."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, NamedTuple, cast

from pydantic import BaseModel

from triage.cli.keep_learn import calibration_json
from triage.cli.keep_rates import without_cause
from triage.errors import InputError
from triage.model.session import Event, Session
from triage.model.snapshot import Reading
from triage.model.verdict import Verdict
from triage.reports.as_json import verdict_json
from triage.store.compare import FaultThenNow
from triage.store.rows import KnownSession
from triage.supply.findings import findings, to_json
from triage.supply.moments import context_for
from triage.supply.segments import segments
from triage.web import api_models as m
from triage.web.entering import enter_paste
from triage.web.learn import record_outcome
from triage.web.workbench import Workbench

#: Does the call: workbench, query, body (None where the call takes none). The answer is a value or JSON text.
Run = Callable[[Workbench, Any, Any], Any]


class Call(NamedTuple):
    """One call: how it is asked for, what it takes, what it gives, what does it."""

    method: str
    path: str
    does: str
    query: type[BaseModel]
    body: type[BaseModel] | None
    answer: Any
    status: int
    run: Run


def list_sessions(bench: Workbench, _query: Any, _body: Any) -> list[m.SessionLine]:
    """All sessions, in the order they were opened."""
    return [_line(known) for known in bench.store.sessions()]


def open_session(bench: Workbench, _query: Any, sent: m.NewSession) -> m.SessionLine:
    """A new session."""
    if not sent.name.strip() or not sent.name.isprintable():
        raise InputError("name: expected printable characters, not only spaces")
    return _line(bench.store.open_session(sent.name, sent.vehicle))


def _line(known: KnownSession) -> m.SessionLine:
    return {"name": known.name, "vehicle": known.vehicle, "opened_at": known.opened_at, "last_at": known.last_at,
            "snapshots": known.snapshots, "entries": known.entries, "struck": known.struck}


def get_session(bench: Workbench, query: m.OfSession, _body: Any) -> str:
    """The session as an object of the job file, without the keys that are not known."""
    return bench.store.session_object(query.name).model_dump_json(exclude_unset=True)


def add_paste(bench: Workbench, query: m.OfSession, sent: m.PasteSent) -> m.Kept:
    """Read a scan and keep it."""
    pasted, reading = bench.acted(query.name, lambda: enter_paste(
        bench, query.name, sent.text, sent.phase, sent.source, sent.who))
    return {"entry": pasted.entry_id,
            "snapshots": [{"id": number, "phase": phase, "phase_why": why} for number, phase, why in pasted.snapshots],
            "notices": [notice.as_json() for notice in reading.notices]}


def correct(bench: Workbench, query: m.ByWhom, sent: m.Correction) -> m.Added:
    """Correct a snapshot: only the keys that are sent."""
    bench.snapshot_of(query.name, sent.snapshot)
    changes = {key: getattr(sent, key) for key in sent.model_fields_set - {"snapshot", "module", "rename"}}
    if changes.get("phase", "") is None:
        del changes["phase"]
    if (sent.module is None) != (sent.rename is None):
        raise InputError("module and rename go together: the place of the module, and what it is in truth")
    rename: dict[str | int, str] = {} if sent.module is None or sent.rename is None else {sent.module: sent.rename}
    bench.acted(query.name, lambda: bench.store.correct(
        sent.snapshot, rename=rename, who=query.who, **changes))
    return {"entry": bench.store.entries(query.name)[-1].id}


def add_event(bench: Workbench, query: m.ByWhom, sent: Event) -> m.Added:
    """Keep an event."""
    return {"entry": bench.acted(query.name, lambda: bench.store.add_event(query.name, sent, query.who))}


def add_reading(bench: Workbench, query: m.ByWhom, sent: Reading) -> m.Added:
    """Keep a measurement."""
    return {"entry": bench.acted(query.name, lambda: bench.store.add_reading(query.name, sent, who=query.who))}


def add_trace(bench: Workbench, query: m.ByWhom, sent: m.TraceSent) -> m.TraceSaid:
    """Keep a voltage trace and say what it shows."""
    trace, notices = bench.trace(sent.text, sent.label)
    if trace is None:
        raise InputError(notices[0].message if notices else "no voltages found")
    entry = bench.store.add_trace(query.name, sent.text, sent.label, query.who)
    session = bench.store.session_object(query.name)
    context = context_for(trace, session.vehicle, session.events or (), session.snapshots)
    parts = segments(trace, context.nominal, context.runs)
    said = to_json(parts, findings(trace, parts, context))
    return {"entry": entry, "segments": cast("list[m.SegmentTold]", said["segments"]),
            "findings": [*said["findings"]],
            "notices": [notice.as_json() for notice in notices]}


def get_record(bench: Workbench, query: m.OfSession, _body: Any) -> list[m.Entry]:
    """Who did what when, with what was struck out."""
    return [{"entry": entry.id, "kind": entry.kind, "recorded_at": entry.recorded_at, "who": entry.who,
             "struck_at": entry.struck_at, "words": entry.words}
            for entry in bench.store.entries(query.name, with_struck=True)]


def undo(bench: Workbench, query: m.OfSession, _body: m.Nothing) -> m.Added:
    """Strike out the last entry that stands."""
    return {"entry": bench.acted(query.name, lambda: bench.store.undo(query.name)).id}


def get_verdict(bench: Workbench, query: m.VerdictQuery, _body: Any) -> str:
    """The verdict of a session. It is kept with the versions that made it."""
    return verdict_json(bench.handed_off(query.name).assessment.verdict, ledger=query.ledger == "yes")


def compare_sessions(bench: Workbench, query: m.CompareQuery, _body: Any) -> m.Compared:
    """Two sessions side by side."""
    found, remark = bench.compared(query.earlier, query.later)
    return {
        "earlier": found.earlier, "later": found.later, "remark": remark, "wrong": _words(found.wrong),
        "doubtful": _words(found.doubtful), "not_held": _words(found.not_held),
        "established": _words(found.established), "came_back": _words(found.came_back),
        "still_there": _words(found.still_there), "new": _words(found.new), "explained": _words(found.explained),
        "not_seen_now": _words(found.not_seen_now), "not_read_now": _words(found.not_read_now),
        "supply": [found.supply_read, *(part.words for part in found.supply)]}


def _words(faults: Sequence[FaultThenNow]) -> list[str]:
    return [fault.words for fault in faults]


def get_outcomes(bench: Workbench, query: m.OfSession, _body: Any) -> list[m.OutcomeTold]:
    """What was done about the faults of a session, oldest first."""
    return [{"entry": one.entry_id, "recorded_at": one.recorded_at, "who": one.who, "module": one.module,
             "code": one.code, "failure_type": one.failure_type, "done": one.done, "cured": one.cured,
             "found": one.found_cause, "said": one.said, "standing": one.standing}
            for one in bench.store.outcomes(query.name)]


def add_outcome(bench: Workbench, query: m.ByWhom, sent: m.OutcomeSent) -> m.Recorded:
    """Record what was done about a fault, or about all without an outcome, and whether that cured it."""
    if sent.rest == (sent.module is not None) or (sent.module is None) != (sent.code is None):
        raise InputError("give module and code of one fault, or rest for all without an outcome")
    chosen = None if sent.module is None or sent.code is None else (sent.module, sent.code)
    faults = bench.acted(query.name, lambda: record_outcome(
        bench, query.name, chosen, done=sent.done, cured=sent.cured, found=sent.found, who=query.who))
    lacking = without_cause(bench.contents(query.name).session, {
        (one.module, one.code, one.failure_type): one for one in bench.store.outcomes(query.name)})
    return {"faults": [{"module": module, "code": code, "failure_type": kind} for module, code, kind in faults],
            "lacking": len(lacking)}


def get_calibration(bench: Workbench, _query: Any, _body: Any) -> m.CalibrationTold:
    """How far the verdicts came true, and the rates as the outcomes have changed them."""
    return cast("m.CalibrationTold", calibration_json(bench.store.calibration(), bench.learned()))


def read_text(bench: Workbench, _query: Any, sent: m.Read) -> m.Understood:
    """What is understood of a text; nothing is kept."""
    reading = bench.read(sent.text)
    return {"snapshots": reading.snapshots, "vehicle": reading.vehicle, "events": reading.events,
            "notices": [notice.as_json() for notice in reading.notices]}


def weigh_session(bench: Workbench, _query: Any, sent: Session) -> str:
    """The verdict of an object of the job file; nothing is kept."""
    return verdict_json(bench.weigh(sent).verdict)


CALLS = (
    Call("GET", "/api/sessions", "List the sessions", m.Nothing, None, list[m.SessionLine], 200, list_sessions),
    Call("POST", "/api/sessions", "Open a session", m.Nothing, m.NewSession, m.SessionLine, 201, open_session),
    Call("GET", "/api/session", "Get a session as a job", m.OfSession, None, Session, 200, get_session),
    Call("POST", "/api/session/pastes", "Keep a scan", m.OfSession, m.PasteSent, m.Kept, 201, add_paste),
    Call("POST", "/api/session/corrections", "Correct a scan", m.ByWhom, m.Correction, m.Added, 201, correct),
    Call("POST", "/api/session/events", "Keep an event", m.ByWhom, Event, m.Added, 201, add_event),
    Call("POST", "/api/session/readings", "Keep a measurement", m.ByWhom, Reading, m.Added, 201, add_reading),
    Call("POST", "/api/session/traces", "Keep a voltage trace", m.ByWhom, m.TraceSent, m.TraceSaid, 201, add_trace),
    Call("GET", "/api/session/record", "Get the record", m.OfSession, None, list[m.Entry], 200, get_record),
    Call("POST", "/api/session/undo", "Strike out the last entry", m.OfSession, m.Nothing, m.Added, 200, undo),
    Call("GET", "/api/session/verdict", "Get the verdict", m.VerdictQuery, None, Verdict, 200, get_verdict),
    Call("GET", "/api/session/outcomes", "Get the outcomes", m.OfSession, None, list[m.OutcomeTold], 200,
         get_outcomes),
    Call("POST", "/api/session/outcomes", "Record an outcome", m.ByWhom, m.OutcomeSent, m.Recorded, 201, add_outcome),
    Call("GET", "/api/calibration", "Get the calibration", m.Nothing, None, m.CalibrationTold, 200, get_calibration),
    Call("GET", "/api/compare", "Compare two sessions", m.CompareQuery, None, m.Compared, 200, compare_sessions),
    Call("POST", "/api/read", "Read a text", m.Nothing, m.Read, m.Understood, 200, read_text),
    Call("POST", "/api/verdict", "Weigh a job", m.Nothing, Session, Verdict, 200, weigh_session),
)
