"""A session: the snapshots, measurements and events of one occasion at one vehicle; the job file's object."""

from __future__ import annotations

import json
from datetime import UTC, datetime
from typing import Any, Literal

from pydantic import ValidationError

from triage.errors import JobError
from triage.model.snapshot import Part, Snapshot

What = Literal[
    "cleared", "key cycle", "replaced", "programmed", "paired", "calibrated", "battery disconnected",
    "actuator test", "outside supply on", "outside supply off", "drove", "other",
]
Drive = Literal["petrol", "diesel", "hybrid", "electric", "unknown"]
BatteryType = Literal["flooded", "AGM", "lithium", "unknown"]
#: Note of a clear that one module refused, nobody knows which: no module is known to have taken it.
REFUSED_BY_ONE = "refused by a module that is not named"


class Event(Part):
    """Something done to the vehicle. ``module`` None: to the whole vehicle."""

    at: datetime | None = None
    what: What
    module: str | None = None
    part: Literal["new", "used", "repaired"] | None = None
    answer: Literal["accepted", "refused", "unknown"] | None = None
    note: str | None = None


class Vehicle(Part):
    """What is known of the vehicle."""

    label: str | None = None
    vin: str | None = None
    nominal_volts: float | None = None
    model_year: int | None = None
    drive: Drive | None = None
    battery: BatteryType | None = None
    batteries: int | None = None
    complaint: str | None = None


class Session(Part):
    """One job of the job file."""

    job: str
    vehicle: Vehicle | None = None
    events: list[Event] | None = None
    snapshots: list[Snapshot]


def stamp(at: datetime) -> float:
    """Seconds since 1970; a time without a zone is taken as UTC, whatever the zone of the machine."""
    return (at if at.tzinfo else at.replace(tzinfo=UTC)).timestamp()


def has_clock(at: datetime) -> bool:
    """Whether a time tells more than its day: a date alone is kept as its midnight."""
    return (at.hour, at.minute, at.second) != (0, 0, 0)


def day_and_clock(at: datetime) -> str:
    """A time to the minute, or its day where no more of it is known.

    >>> day_and_clock(datetime(2026, 1, 5, 8, 15)), day_and_clock(datetime(2026, 1, 5))
    ('2026-01-05 08:15', '2026-01-05')
    """
    return at.isoformat(sep=" ", timespec="minutes") if has_clock(at) else at.date().isoformat()


def printed_names(session: Session) -> dict[str, str]:
    """Module name in the job -> the name as the scan printed it, where it says."""
    return {scan.module: scan.printed for snapshot in session.snapshots for scan in snapshot.modules if scan.printed}


def parse_session(text: str | bytes) -> Session:
    """The session in one JSON object. Raises JobError with one line that names the key and its path."""
    try:
        return Session.model_validate_json(text)
    except ValidationError as error:
        raise _job_error(error, text) from None


def session_from(data: Any) -> Session:
    """The session in parsed JSON ``data``. Raises JobError as :func:`parse_session`."""
    try:
        return Session.model_validate(data)
    except ValidationError as error:
        raise _job_error(error, data) from None


def _job_error(error: ValidationError, data: Any) -> JobError:
    """One line for the first thing wrong, with the count of the rest."""
    problems = error.errors(include_url=False, include_input=True)
    # An unknown key is the likelier slip (a misspelt one also leaves a required key missing).
    first = next((p for p in problems if p["type"] == "extra_forbidden"), problems[0])
    path = ".".join(_in_one_line(str(step)) for step in first["loc"])
    seen = repr(first.get("input"))
    seen = seen if len(seen) <= 60 else seen[:57] + "..."
    if first["type"] == "json_invalid":
        message = f"not one JSON object: {first['msg']}"
    elif first["type"] == "extra_forbidden":
        key = _in_one_line(str(first["loc"][-1]))
        message = f"{path}: unknown key '{key}'; see `triage schema` for the keys there are"
    elif first["type"] == "missing":
        message = f"{path}: this key is required and is not there"
    else:
        message = f"{path or 'job'}: {first['msg'][:1].lower()}{first['msg'][1:]}, seen {seen}"
    if len(problems) > 1:
        message += f" (and {len(problems) - 1} more)"
    return JobError(message, path, _job_name(data))


def _in_one_line(key: str) -> str:
    """A key as it can stand in one line: control characters escaped, cut where it is very long."""
    shown = key if key.isprintable() else repr(key)[1:-1]
    return shown if len(shown) <= 60 else shown[:57] + "..."


def _job_name(data: Any) -> str | None:
    """The job's own name if it can still be read, so that the error can stand in its place."""
    if isinstance(data, (str, bytes)):
        try:
            data = json.loads(data)
        except (ValueError, RecursionError):
            return None
    name = data.get("job") if isinstance(data, dict) else None
    return name if isinstance(name, str) else None
