"""Supply readings that can be one, and what is said of those that can't."""

from __future__ import annotations

from triage.model.notices import Notice
from triage.model.session import Session

#: A module answers down to some 3 V (cold cranking, ISO 16750-2 level III) and lives through 36 V.
LEAST_VOLTS, MOST_VOLTS = 2.5, 40.0


def volts_or_nan(value: float | None) -> float:
    """A supply reading that can be one; anything else counts as not read (and is told by ``unlikely_volts``)."""
    return value if value is not None and LEAST_VOLTS <= value <= MOST_VOLTS else float("nan")


def unlikely_volts(session: Session) -> list[Notice]:
    """Readings that no 12 or 24 V supply gives to a module that answers, and those that do not fit the vehicle."""
    told = []
    nominal = session.vehicle.nominal_volts if session.vehicle else None
    for number, snapshot in enumerate(session.snapshots, start=1):
        for name, value in (("supply", snapshot.volts), ("lowest supply", snapshot.lowest_volts)):
            if value is None:
                continue
            if not LEAST_VOLTS <= value <= MOST_VOLTS:
                told.append(Notice("warning", f"snapshot {number}: {name} of {value:g} V can't be right, expected "
                                              f"{LEAST_VOLTS:g} to {MOST_VOLTS:g} V; it is not used: measure again"))
            elif nominal is not None and nominal <= 14 and value > 18.5:
                told.append(Notice("warning", f"snapshot {number}: {name} of {value:g} V on a vehicle of {nominal:g} "
                                              "V: check the reading and what is connected; 24 V harms a 12 V vehicle"))
    return told


__all__ = ["LEAST_VOLTS", "MOST_VOLTS", "unlikely_volts", "volts_or_nan"]
