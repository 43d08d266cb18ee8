"""The short list of a kept session, its comparison with the one before, and lists of what is kept."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from triage.cli.keep_weigh import weigh
from triage.cli.keep_words import acts_of, entry_line, lines_out, session_words, when
from triage.errors import InputError, JobError, StoreError

if TYPE_CHECKING:
    from triage.model.assessment import Assessment
    from triage.model.session import Session
    from triage.store import Comparison
    from triage.store.store import Store


def session_name(files: Sequence[Path], db: str | None) -> str | None:
    """The kept session that is meant where one name is given and no file bears it; None: read files."""
    if len(files) != 1 or str(files[0]) == "-" or files[0].exists():
        return None
    from triage.cli.keep_visit import kept

    name = str(files[0])
    try:
        with kept(db) as store:
            store.session(name)
    except StoreError as error:
        raise InputError(f"{name}: can't be read: no such file; as a session: {error}") from None
    return name


def shortlist_of(
    db: str | None, name: str, *, strict: bool, as_json: bool, markdown: bool, html: bool, brief: bool, ledger: bool,
    show_all: bool,
) -> str:
    """The short list of a kept session; on a screen and in Markdown with the logs and the session before."""
    from triage.cli.files import stop_if_strict
    from triage.cli.keep_measured import trace_lines
    from triage.cli.keep_visit import kept
    from triage.cli.output import show_assessment

    with kept(db) as store:
        assessment, _ = weigh(store, name)
        stop_if_strict(assessment.notices, strict)
        more: list[str] = []
        if not (as_json or html or brief):
            more = trace_lines(store.traces(name), assessment.session.vehicle)
            before = store.earlier_sessions(name)
            with_scans = [session.name for session in before if session.snapshots]
            if with_scans:
                found, note = compare(store, with_scans[-1], name, assessment)
                more += ["", *comparison_lines(found, note)]
    page = show_assessment(assessment, as_json=as_json, markdown=markdown, html=html, brief=brief, ledger=ledger,
                           show_all=show_all)
    if not any(more):
        return page
    if markdown:
        return page + "\n" + _as_markdown(more)
    return page + "\n" + lines_out(more).lstrip("\n")


def _as_markdown(lines: Sequence[str]) -> str:
    """The lines after the list as they stand: nothing pasted can be taken for markup inside a code block."""
    from triage.reports.text import clean

    body = "\n".join(clean(line) for line in lines).strip("\n")
    fence = "`" * max(3, 1 + max((len(run) for run in "".join(
        char if char == "`" else " " for char in body).split()), default=0))
    return f"{fence}text\n{body}\n{fence}\n"


def compare(
    store: Store, earlier: str, later: str, assessment: Assessment | None = None,
) -> tuple[Comparison, str]:
    """Two sessions side by side, and a remark on whose verdict of the earlier one was taken."""
    from code_tables import load
    from triage.intake.naming.modules import resolve
    from triage.store import compare_sessions

    tables = load()
    kept = store.verdicts(earlier)
    before = store.session_object(earlier)
    if kept and not kept[-1].stale:
        then: Any = kept[-1].verdict
        note = (f"{earlier} as it was judged on {when(kept[-1].made_at)} (engine {kept[-1].engine_version}, tables "
                f"{kept[-1].tables_version})")
    else:
        then = weigh(store, earlier)[0].verdict
        why = "it changed after its last verdict" if kept else "it had no verdict yet"
        note = f"{earlier} was weighed now: {why}"
    now = assessment or weigh(store, later)[0]
    found = compare_sessions(before, then, now.session, now.verdict, lambda name: resolve(name, tables).canonical,
                             store.outcomes(earlier))
    return found, note


def comparison_lines(found: Comparison, note: str) -> list[str]:
    """The comparison for a person, the engine's own mistakes first."""
    return [f"THEN AND NOW: {found.earlier}, then {found.later}", "", f"  {note}", "",
            *(f"  {line}" for line in found.lines())]


def comparison_json(found: Comparison, note: str) -> dict[str, Any]:
    """The comparison for a program."""
    from dataclasses import asdict

    return asdict(found) | {"note": note}


def session_lines(store: Store, vehicle: str | None) -> list[str]:
    """All sessions, or those of one vehicle, the oldest first."""
    found = sessions_of(store, vehicle)
    return [line for session in found for line in session_words(session)] or [
        "no session yet: `triage open NAME` begins one"]


def sessions_of(store: Store, vehicle: str | None) -> list[Any]:
    """The sessions of the vehicle with this VIN or label, or all. Raises InputError for an unknown vehicle."""
    if vehicle is None:
        return store.sessions()
    known = store.find_vehicle(vehicle)
    if known is None:
        there = ", ".join(other.label or other.vin or "" for other in store.vehicles()) or "none"
        raise InputError(f"no vehicle {vehicle!r} in the store; known: {there}")
    return store.sessions(known)


def record_lines(store: Store, name: str) -> list[str]:
    """One session in full: its snapshots by number, then who did what when, with what was struck out."""
    from triage.cli.output import snapshot_words

    lines = session_words(store.session(name))
    snapshots = store.snapshots(name)
    places = {snapshot.id: place for place, snapshot in enumerate(snapshots, start=1)}
    lines += ["", "SNAPSHOTS", ""] if snapshots else []
    lines += [f"  {place}  {snapshot_words(snapshot.now)}; phase: {snapshot.phase_why}"
              for place, snapshot in enumerate(snapshots, start=1)]
    entries = store.entries(name, with_struck=True)
    lines += ["", "RECORD", ""] if entries else []
    lines += [entry_line(entry, places, more) for entry, more in acts_of(entries)]
    made = store.verdicts(name)
    if made:
        last = made[-1]
        stale = "; the session has changed since" if last.stale else ""
        lines += ["", f"last verdict {when(last.made_at)}, engine {last.engine_version}, tables "
                      f"{last.tables_version}{stale}"]
    return lines


def export(store: Store, names: Sequence[str] | None) -> str:
    """Sessions as JSON Lines, one job a line."""
    import json

    jobs: list[Session] = store.export_jobs(names or None)
    if not jobs:
        raise InputError("the store holds no session to export")
    return "".join(json.dumps(job.model_dump(mode="json", exclude_unset=True)) + "\n" for job in jobs)


def left_behind(store: Store, names: Sequence[str] | None) -> list[str]:
    """What a job file has no place for, so that nobody takes one for a copy of the store."""
    counts = {"text as pasted": 0, "voltage log": 0, "outcome": 0, "entry struck out": 0}
    for name in names or [session.name for session in store.sessions()]:
        held = store.contents(name)
        counts["text as pasted"] += len(held.pastes)
        counts["voltage log"] += len(held.traces)
        counts["outcome"] += sum(entry.kind == "outcome" and entry.struck_at is None for entry in held.entries)
        counts["entry struck out"] += held.known.struck
    plural = {"text as pasted": "texts as pasted", "entry struck out": "entries struck out"}
    told = [f"{count} {word if count == 1 else plural.get(word, word + 's')}"
            for word, count in counts.items() if count]
    return [f"  a job file has no place for {', '.join(told)}: these stay in {store.shown}"] if told else []


def read_jobs(data: bytes, source: str) -> list[Session]:
    """The jobs in ``data``: one JSON object, a list of them, or one a line. Raises InputError with the place."""
    import json

    from triage.model.session import session_from

    if not data.strip():
        raise InputError(f"{source}: no job in it: expected one JSON object a line; see `triage schema`")
    try:
        whole: Any = json.loads(data)
    except (ValueError, RecursionError):
        whole = None
    where = source
    try:
        if isinstance(whole, dict):
            return [session_from(whole)]
        if isinstance(whole, list):
            return [session_from(job) for job in whole]
        jobs = []
        for number, line in enumerate(data.splitlines(), start=1):
            where = f"{source}: line {number}"
            if line.strip():
                jobs.append(_job_of(line))
        return jobs
    except JobError as error:
        raise JobError(f"{where}: {error}", error.path, error.job) from None


def _job_of(line: bytes) -> Session:
    """The job in one line. Half a surrogate pair (a byte that was no text) is legal in JSON, if written as an escape.

    pydantic's own parser refuses it, the library's takes it; and a store gives back what it was given.
    """
    import json

    from triage.model.session import parse_session, session_from

    try:
        return parse_session(line)
    except JobError:
        if b"\\ud" not in line and b"\\uD" not in line:
            raise
        try:
            job = json.loads(line)
        except (ValueError, RecursionError):
            job = None
        if not isinstance(job, dict):
            raise
        return session_from(job)
