"""A kept session weighed, with the rates as its shop has learned them, and the verdict kept with its versions."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from triage.cli.keep_rates import Learned, learned
from triage.cli.keep_words import quoted
from triage.errors import InputError
from triage.model.notices import Notice

if TYPE_CHECKING:
    from code_tables import Tables
    from triage.model.assessment import Assessment
    from triage.model.verdict import Verdict
    from triage.store.store import Store


def engine_version() -> str:
    """The version of the program."""
    from importlib.metadata import PackageNotFoundError, version

    try:
        return version("lowvolt-triage")
    except PackageNotFoundError:
        return "not installed"


@lru_cache(maxsize=1)
def _digest() -> str:
    """Of every code table, so that a changed row is another version."""
    import hashlib

    import code_tables

    total = hashlib.sha256()
    for file in sorted(Path(code_tables.__file__).parent.glob("*.csv")):
        total.update(file.name.encode() + b"\0" + file.read_bytes() + b"\0")
    return total.hexdigest()[:12]


def tables_version(now: Learned) -> str:
    """The version of the tables, and how far outcomes have changed their rates."""
    return ", ".join(part for part in (_digest(), now.words) if part)


def input_notices(store: Store, name: str, base: Tables) -> list[Notice]:
    """What the reader had to say of the scans that count, and why each phase is taken as it is."""
    notices: list[Notice] = []
    for paste in store.pastes(name):
        notices += notices_again(paste.body, paste.source, base)
    for place, snapshot in enumerate(store.snapshots(name), start=1):
        if snapshot.phase_why not in ("the text says so", "told by hand"):
            notices.append(Notice(
                "note", f"snapshot {place} does not say its phase: taken as {snapshot.phase}, {snapshot.phase_why}; "
                        f"if not: triage correct {quoted(name)} {place} --phase ..."))
    return notices


def notices_again(body: str | bytes, source: str | None, base: Tables) -> list[Notice]:
    """What the reader says of a paste that was kept; a notice where it can't say."""
    from triage.intake.read import read_bytes

    data = body.encode("utf-8", "surrogatepass") if isinstance(body, str) else body
    try:
        return read_bytes(data, base, source=source).notices
    except InputError as error:  # a reader of another version took it
        return [Notice("warning", f"can't be read again: {error}", source)]


def weigh(store: Store, name: str) -> tuple[Assessment, Learned]:
    """The assessment of a kept session with the rates as learned; the verdict is kept unless it is there already."""
    from code_tables import load
    from triage.assess import assess, earlier_faults

    base = load()
    revision = store.revision(name)
    session = store.session_object(name)
    if not session.snapshots:
        raise InputError(f"session {name!r} holds no scan yet: triage paste {quoted(name)} FILE")
    now = learned(store, base, without=name)
    tables = now.tables(base)
    assessment = assess(session, tables, [*now.notices(), *input_notices(store, name, base)],
                        earlier=earlier_faults(store.history(name), tables))
    keep_verdict(store, name, assessment.verdict, now, revision)
    return assessment, now


def keep_verdict(store: Store, name: str, verdict: Verdict, now: Learned, revision: int) -> None:
    """Keep a verdict on the session at ``revision``, unless the last one that is kept says the same."""
    versions = engine_version(), tables_version(now)
    kept = store.verdicts(name)
    if not (kept and not kept[-1].stale and (kept[-1].engine_version, kept[-1].tables_version) == versions
            and kept[-1].verdict == verdict):
        store.save_verdict(name, verdict, *versions, revision)


def forecast(store: Store, name: str) -> None:
    """See to it that there is a verdict to hold an outcome against: on what was known before any repair."""
    from code_tables import load
    from triage.assess import assess, earlier_faults

    then = store.before_repair(name)
    if then is None:
        weigh(store, name)
        return
    session, revision = then
    made = store.forecast(name)
    if made is None or made.revision < revision:
        base = load()
        now = learned(store, base, without=name)
        tables = now.tables(base)
        verdict = assess(session, tables, earlier=earlier_faults(store.history(name), tables)).verdict
        store.save_verdict(name, verdict, engine_version(), tables_version(now), revision)
