"""What was read at the socket of a trailer, or at a connector of a part with a lamp on it and without, as readings of
the scan; what the feed loses under its load is one more."""

from __future__ import annotations

from triage.intake.entries import scanned
from triage.intake.lines.row import Row
from triage.intake.said import socketvolts
from triage.intake.scan.context import Context
from triage.model.measured_words import TRAILER_SOCKET
from triage.model.snapshot import Reading

_STATES = {"open": ", open circuit", "loaded": ", under load"}


def read(context: Context, row: Row) -> bool:
    """Whether a row tells such readings and names no module whose connector it may be; kept."""
    found = socketvolts.find(row.text, row.low)
    if not found or (found[0].place != TRAILER_SOCKET and scanned.named(context, row)):
        return False
    readings = context.builder.snapshot.readings
    for one in found:
        name = f"{one.place}{f' pin {one.number}' if one.number else ''} feed"
        readings.append(Reading(name=f"{name}{_STATES.get(one.load or '', '')}", value=one.value, unit="V"))
        bare = next((other.value for other in readings[::-1] if other.name == name + _STATES["open"]), None)
        if one.load == "loaded" and bare is not None and bare >= one.value:
            told = f"{name} drop, {bare:g} V without and {one.value:g} V with load"
            readings.append(Reading(name=told, value=round(bare - one.value, 3), unit="V"))
    return True


__all__ = ["read"]
