"""Builds the session of the job file from the kept rows: corrections over the untouched, times where known.

Pure functions of rows that were read; nothing here touches a database.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Any

from pydantic import ValidationError

from triage.errors import StoreError
from triage.model.session import Event, Session, Vehicle
from triage.model.snapshot import Reading, Snapshot

#: Fields of a snapshot that a correction may set, and the one that renames a module.
CORRECTABLE = frozenset(Snapshot.model_fields) - {"modules", "readings"}
RENAME = "module"


@dataclass(slots=True)
class Item:
    """One snapshot or event in the order of the session; ``live``: recorded as it happened, not imported."""

    recorded_at: datetime
    live: bool
    what: Snapshot | Event


@dataclass(slots=True)
class LooseReading:
    """A measurement: ``place`` counts the snapshots before it, or is that of the snapshot it names."""

    place: int
    named: bool
    reading: Reading


def corrected(understood: dict[str, Any], phase: str | None, corrections: Iterable[tuple[str, Any]]) -> Snapshot:
    """The snapshot with phase and corrections laid over it, in order. Raises StoreError if one doesn't fit."""
    data = dict(understood)
    if phase is not None:
        data["phase"] = phase
    for field, value in corrections:
        if field == RENAME:
            data["modules"] = _renamed(data["modules"], *value)
        elif field in CORRECTABLE:
            data[field] = value
        else:
            raise StoreError(f"{field}: can't be corrected; these can: {', '.join(sorted(CORRECTABLE))}, rename")
    try:
        return Snapshot.model_validate(data)
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        path = ".".join(str(step) for step in first["loc"])
        raise StoreError(f"{path}: {first['msg'][:1].lower()}{first['msg'][1:]}, seen {first['input']!r}") from None


def _renamed(modules: list[dict[str, Any]], which: int | str, name: str) -> list[dict[str, Any]]:
    """The modules with one (by its place from 0) or all of a name (as printed, else as understood) renamed."""
    if isinstance(which, int):
        chosen = {which} if 0 <= which < len(modules) else set()
    else:
        chosen = {at for at, scan in enumerate(modules) if scan.get("printed") == which}
        chosen = chosen or {at for at, scan in enumerate(modules) if scan["module"] == which}
    if not chosen:
        there = ", ".join(dict.fromkeys(scan["module"] for scan in modules)) or "none"
        raise StoreError(f"no module {which!r} in this snapshot; it holds {there}")
    return [{**scan, "module": name} if at in chosen else scan for at, scan in enumerate(modules)]


def corrected_vehicle(vehicle: dict[str, Any] | None, corrections: Iterable[tuple[str, Any]]) -> Vehicle | None:
    """The vehicle with corrections laid over it, in order."""
    data = vehicle
    for field, value in corrections:
        data = {**(data or {}), field: value}
    if data is None:
        return None
    try:
        return Vehicle.model_validate(data)
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        path = ".".join(str(step) for step in first["loc"])
        raise StoreError(
            f"vehicle {path}: {first['msg'][:1].lower()}{first['msg'][1:]}, seen {first['input']!r}") from None


def assembled(
    name: str, vehicle: Vehicle | None, items: Sequence[Item], readings: Iterable[LooseReading],
    events_known: bool, timed: bool,
) -> Session:
    """The session. ``timed``: live items without a time get the one they were recorded at, in order."""
    whats = with_times(items) if timed else [item.what for item in items]
    snapshots = [what for what in whats if isinstance(what, Snapshot)]
    events = [what for what in whats if isinstance(what, Event)]
    for loose in readings:
        if snapshots:
            at = loose.place if loose.named else max(loose.place - 1, 0)
            kept = snapshots[at].readings or []
            snapshots[at] = snapshots[at].model_copy(update={"readings": [*kept, loose.reading]})
    given: dict[str, Any] = {"job": name, "snapshots": snapshots}
    if vehicle is not None:
        given["vehicle"] = vehicle
    if events or events_known:
        given["events"] = events
    return Session(**given)


def with_times(items: Sequence[Item]) -> list[Snapshot | Event]:
    """The snapshots and events, those recorded live with a time, so that their order is not lost.

    A time of recording that contradicts the times given (a session typed in the evening) is moved between its
    neighbours'. Times without a zone are taken as local; if any was given so, so are those filled in.
    """
    given = [item.what.at for item in items]
    naive = any(at is not None and at.tzinfo is None for at in given)
    later = _next_times(given)
    result: list[Snapshot | Event] = []
    last: datetime | None = None
    for item, at, bound in zip(items, given, later, strict=True):
        what = item.what
        if at is None and item.live:
            at = _between(item.recorded_at, last, bound)
            shown = at.astimezone().replace(tzinfo=None) if naive else at
            what = what.model_copy(update={"at": shown})
        result.append(what)
        if at is not None and (last is None or at.astimezone(UTC) > last):
            last = at.astimezone(UTC)
    return result


def _next_times(given: Sequence[datetime | None]) -> list[datetime | None]:
    """For each place the first time given after it."""
    later: list[datetime | None] = []
    bound: datetime | None = None
    for at in reversed(given):
        later.append(bound)
        if at is not None:
            bound = at.astimezone(UTC)
    return later[::-1]


def _between(recorded: datetime, last: datetime | None, bound: datetime | None) -> datetime:
    """``recorded`` if it lies strictly between, else a time that does."""
    recorded = recorded.astimezone(UTC)
    if (last is None or recorded > last) and (bound is None or recorded < bound):
        return recorded
    second = timedelta(seconds=1)
    if last is None:
        return bound - second if bound is not None else recorded
    return last + (min(second, (bound - last) / 2) if bound is not None and bound > last else second)
