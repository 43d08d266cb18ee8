"""A paste on its way into the store: read, kept exactly as it came, and what it says of the vehicle laid beside it."""

from __future__ import annotations

from typing import Any

from triage.errors import InputError
from triage.intake.read import Reading
from triage.model.notices import stop_at_several_vehicles
from triage.model.session import Vehicle
from triage.model.snapshot import Phase
from triage.store.rows import Pasted
from triage.web.workbench import Workbench


def enter_paste(
    bench: Workbench, name: str, body: str | bytes, phase: Phase | None = None, source: str | None = None,
    who: str | None = None,
) -> tuple[Pasted, Reading]:
    """Read ``body`` and keep it in session ``name``. Raises InputError where it is no scan; then nothing is kept."""
    reading = bench.read(body, source, bench.store.last_day(name))
    if not reading.snapshots and not reading.events:
        raise InputError("no scan was found in this: no module, trouble code or voltage; nothing was kept")
    stop_at_several_vehicles(reading.notices, "; nothing was kept")
    known = bench.contents(name).known.vehicle
    if reading.vehicle is not None and reading.vehicle.vin and known is not None and known.vin \
            and reading.vehicle.vin != known.vin:
        raise InputError(f"this scan is of another vehicle: VIN {reading.vehicle.vin}, and the session's is "
                         f"{known.vin}; nothing was kept: open a session of its own for it, or correct the VIN here")
    learnt = learnt_of(reading.vehicle, known)
    has_vin = bool(learnt.get("vin") or (known and known.vin))
    if "label" in learnt and not has_vin and bench.store.find_vehicle(str(learnt["label"])) is not None:
        # Two vans called "van" are not one vehicle.
        del learnt["label"]
    if learnt:
        # First the vehicle, so that the paste is the last entry, which can be struck out at once.
        bench.store.correct_vehicle(name, who="read from the scan", **learnt)
    pasted = bench.store.add_paste(name, _kept(body), reading.snapshots, phase, events=reading.events, source=source,
                                   who=who)
    bench.remember(pasted.entry_id, reading)
    return pasted, reading


def _kept(body: str | bytes) -> str | bytes:
    """A file of UTF-8 text as text: it comes back as the same bytes and can be shown."""
    if isinstance(body, str):
        return body
    try:
        return body.decode("utf-8")
    except UnicodeDecodeError:
        return body


def learnt_of(read: Vehicle | None, known: Vehicle | None) -> dict[str, Any]:
    """What the scan says of the vehicle that was not known before; what a person said stays."""
    if read is None:
        return {}
    said = {} if known is None else known.model_dump(exclude_none=True)
    return {field: value for field, value in read.model_dump(exclude_none=True).items() if field not in said}
