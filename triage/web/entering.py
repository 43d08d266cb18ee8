"""A paste on its way into the store: read, kept exactly as it came, and what it says of the vehicle laid beside it."""

from __future__ import annotations

from triage.errors import InputError
from triage.model.session import Vehicle
from triage.model.snapshot import Phase
from triage.store.rows import Pasted
from triage.web.workbench import Workbench


def enter_paste(
    bench: Workbench, name: str, body: str | bytes, phase: Phase | None = None, source: str | None = None,
    who: str | None = None,
) -> Pasted:
    """Read ``body`` and keep it in session ``name``. Raises InputError where it is no scan; then nothing is kept."""
    reading = bench.read(body, source)
    if not reading.snapshots and not reading.events:
        raise InputError("no scan was found in this: no module, trouble code or voltage; nothing was kept")
    known = bench.store.session(name).vehicle
    if reading.vehicle is not None and reading.vehicle.vin and known is not None and known.vin \
            and reading.vehicle.vin != known.vin:
        raise InputError(f"this scan is of another vehicle: VIN {reading.vehicle.vin}, and the session's is "
                         f"{known.vin}; nothing was kept: open a session of its own for it, or correct the VIN here")
    pasted = bench.store.add_paste(name, body, reading.snapshots, phase, events=reading.events, source=source, who=who)
    learnt = learnt_of(reading.vehicle, known)
    if learnt:
        bench.store.correct_vehicle(name, who=who or "read from the scan", **learnt)
    return pasted


def learnt_of(read: Vehicle | None, known: Vehicle | None) -> dict[str, object]:
    """What the scan says of the vehicle that was not known before; what a person said stays."""
    if read is None:
        return {}
    said = {} if known is None else known.model_dump(exclude_none=True)
    return {field: value for field, value in read.model_dump(exclude_none=True).items() if field not in said}
