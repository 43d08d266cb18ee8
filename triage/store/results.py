"""Keeps verdicts and outcomes, and ties an outcome to what the verdict had said."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime
from typing import Any, cast

from sqlalchemy import func, or_, select
from sqlalchemy.orm import Session as Work

from triage.errors import StoreError
from triage.model.snapshot import Snapshot
from triage.model.verdict import CAUSES
from triage.store.kept import Kept, keep
from triage.store.occasions import repaired_at
from triage.store.outcomes import Counts
from triage.store.rows import Cured, Fault, Outcome, StoredVerdict
from triage.store.tables import EntryRow, OutcomeRateRow, OutcomeRow, SessionRow, VerdictRow
from triage.store.writing import add_entry
from triage.units import to_probability

CURED = ("yes", "no", "unknown")
#: The sessions with outcomes.
SPOKEN_OF = select(SessionRow.name, SessionRow.revision).where(SessionRow.id.in_(
    select(EntryRow.session_id).join(OutcomeRow, OutcomeRow.entry_id == EntryRow.id))).order_by(SessionRow.id)


def save_verdict(
    work: Work, session: SessionRow, verdict: Mapping[str, Any], engine: str, tables: str, revision: int | None,
    now: datetime,
) -> int:
    """See Store.save_verdict."""
    row = VerdictRow(
        session_id=session.id, revision=session.revision if revision is None else revision, made_at=now,
        engine_version=engine, tables_version=tables, verdict=dict(verdict))
    work.add(row)
    work.flush()
    return row.id


def verdicts(work: Work, session: SessionRow) -> list[StoredVerdict]:
    """The verdicts of a session, those on its oldest state first."""
    rows = work.scalars(select(VerdictRow).where(VerdictRow.session_id == session.id)
                        .order_by(VerdictRow.revision, VerdictRow.id))
    return [stored(work, row, session.name) for row in rows]


def forecast(work: Work, session: SessionRow) -> StoredVerdict | None:
    """See Store.forecast."""
    row = _forecast(work, keep(work, session))
    return None if row is None else stored(work, row, session.name)


def stored(work: Work, row: VerdictRow, session: str) -> StoredVerdict:
    """The verdict as a plain value."""
    return StoredVerdict(row.id, session, row.made_at, row.engine_version, row.tables_version, row.revision,
                         row.verdict, _is_stale(work, row))


def _is_stale(work: Work, row: VerdictRow) -> bool:
    """Whether an entry came or was struck out since. An outcome is no evidence of the session it ends."""
    changed = select(func.count()).select_from(EntryRow).where(
        EntryRow.session_id == row.session_id, EntryRow.kind != "outcome",
        or_(EntryRow.position > row.revision, EntryRow.struck_revision > row.revision))
    return bool(work.scalar(changed))


def record_outcomes(
    work: Work, session: SessionRow, faults: Sequence[tuple[Fault, Mapping[str, bool]]], done: str, cured: Cured,
    found_cause: str | None, now: datetime, who: str | None,
) -> list[int]:
    """See Store.record_outcomes."""
    if cured not in CURED:
        raise StoreError(f"cured: expected yes, no or unknown, seen {cured!r}")
    if found_cause is not None and found_cause not in CAUSES:
        raise StoreError(f"found cause: expected one of {', '.join(CAUSES)}, seen {found_cause!r}")
    kept = keep(work, session)
    there = _faults(kept)
    chosen = [(_fault(session.name, there, *fault), rates) for fault, rates in faults]
    verdict = _forecast(work, kept)
    act = session.revision + 1 if len(chosen) > 1 else None
    ids = []
    for (module, code, failure_type), rates in chosen:
        said = None if verdict is None else _said(verdict.verdict, module, code, failure_type)
        entry = add_entry(work, session, "outcome", now, who, act)
        work.add(OutcomeRow(
            entry_id=entry.id, module=module, code=code, failure_type=failure_type, done=done, cured=cured,
            found_cause=found_cause, verdict_id=verdict.id if verdict is not None and said is not None else None,
            said=None if said is None else to_probability(said["decibans"]),
            standing=None if said is None else said["standing"]))
        work.flush()
        work.add_all(OutcomeRateRow(outcome_id=entry.id, rate_key=key, hit=hit) for key, hit in rates.items())
        ids.append(entry.id)
    return ids


def _forecast(work: Work, kept: Kept) -> VerdictRow | None:
    """The verdict that an outcome is held against: the last one made before any scan after a repair.

    A fault that a repair has cured is gone from the scan behind it, and a verdict on that scan says so: held against
    that, every good verdict would look wrong. Where none was made in time, nothing was forecast.
    """
    wanted = select(VerdictRow).where(VerdictRow.session_id == kept.session.id).order_by(VerdictRow.id.desc())
    repaired = repaired_at(kept)
    if repaired is not None:
        wanted = wanted.where(VerdictRow.revision < repaired)
    return work.scalars(wanted.limit(1)).first()


def _faults(kept: Kept) -> dict[tuple[str, str], dict[Fault, None]]:
    """The faults of a session by module (as understood or as printed) and code, letter case folded."""
    there: dict[tuple[str, str], dict[Fault, None]] = {}
    for item in kept.items():
        if isinstance(item.what, Snapshot):
            for scan in item.what.modules:
                for name in {scan.module.casefold(), (scan.printed or scan.module).casefold()}:
                    for entry in scan.codes:
                        there.setdefault((name, entry.code.casefold()), {})[
                            scan.module, entry.code, entry.failure_type] = None
    return there


def _fault(
    session: str, there: Mapping[tuple[str, str], Mapping[Fault, None]], module: str, code: str,
    failure_type: str | None,
) -> Fault:
    """The fault as the session names it. Raises StoreError if it holds none such, or several."""
    held = there.get((module.casefold(), code.casefold()), {})
    exact = [key for key in held if (key[2] or "").casefold() == (failure_type or "").casefold()]
    found = exact or ([] if failure_type else list(held))
    asked = f"{module} {code}" + (f"-{failure_type}" if failure_type else "")
    # The same code in two modules of one printed name: the one that is named as understood is meant.
    named = [key for key in found if key[0] == module]
    found = named if len(named) == 1 else found
    if len(found) == 1:
        return found[0]
    if not found:
        raise StoreError(f"session {session!r} holds no fault {asked}")
    which = ", ".join(f"{name} {number}" + (f"-{kind}" if kind else "") for name, number, kind in found)
    raise StoreError(f"session {session!r} holds several faults {asked}: {which}; say which")


def _said(verdict: Mapping[str, Any], module: str, code: str, failure_type: str | None) -> Mapping[str, Any] | None:
    for fault in verdict.get("faults", ()):
        if (fault["module"], fault["code"], fault["failure_type"]) == (module, code, failure_type):
            return cast(Mapping[str, Any], fault)
    return None


def outcomes(work: Work, session: SessionRow | None) -> list[Outcome]:
    """The outcomes that stand, oldest first."""
    # Columns, not objects: a shop of some years has tens of thousands of these.
    wanted = select(
        OutcomeRow.entry_id, SessionRow.name, EntryRow.recorded_at, EntryRow.who, OutcomeRow.module, OutcomeRow.code,
        OutcomeRow.failure_type, OutcomeRow.done, OutcomeRow.cured, OutcomeRow.found_cause, OutcomeRow.said,
        OutcomeRow.standing).join(EntryRow, EntryRow.id == OutcomeRow.entry_id).join(
        SessionRow, SessionRow.id == EntryRow.session_id).where(EntryRow.struck_at.is_(None)).order_by(
        EntryRow.recorded_at, EntryRow.id)
    spoken = select(OutcomeRateRow.outcome_id, OutcomeRateRow.rate_key, OutcomeRateRow.hit).order_by(
        OutcomeRateRow.rate_key)
    if session is not None:
        wanted = wanted.where(SessionRow.id == session.id)
        spoken = spoken.join(EntryRow, EntryRow.id == OutcomeRateRow.outcome_id).where(
            EntryRow.session_id == session.id)
    rates: dict[int, list[tuple[str, bool]]] = {}
    for outcome, key, hit in work.execute(spoken):
        rates.setdefault(outcome, []).append((key, hit))
    rows: Iterable[Any] = work.execute(wanted)
    return [Outcome(*(*row, tuple(rates.get(row[0], ())))) for row in rows]


def rate_counts(found: Iterable[Outcome]) -> dict[str, Counts]:
    """Outcomes for and against each rate of the code tables."""
    hits: dict[str, list[int]] = {}
    for outcome in found:
        for key, hit in outcome.rates:
            hits.setdefault(key, [0, 0])[0 if hit else 1] += 1
    return {key: Counts(*pair) for key, pair in sorted(hits.items())}
