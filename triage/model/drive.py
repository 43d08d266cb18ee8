"""What drives the vehicle, where nobody said so: an electric drive gives itself away by its modules."""

from __future__ import annotations

from collections.abc import Iterable

from triage.model.session import Session

#: Modules of a high-voltage drive; two of them, or one with a code of such a drive, make an electric vehicle where no
#: engine control was found. One alone does not: a diesel may have a converter, or a module that watches its battery.
HIGH_VOLTAGE = frozenset((
    "battery energy control", "battery energy control B", "hybrid powertrain", "battery charger", "battery charger B",
    "DC/DC converter", "DC/DC converter A", "DC/DC converter B", "drive motor A", "drive motor B", "drive motor C",
    "drive motor D", "charge port", "high voltage heater", "electric compressor"))
#: Those that no engine vehicle has.
SURE = frozenset(("drive motor A", "drive motor B", "drive motor C", "drive motor D", "charge port"))
#: Codes of hybrid and electric propulsion begin so (SAE J2012: P0A to P0C; P1A to P1C by the makers' habit).
_PROPULSION = ("P0A", "P0B", "P0C", "P1A", "P1B", "P1C")


def is_electric(session: Session, modules: Iterable[str]) -> bool:
    """Whether the vehicle has an electric drive and no engine. ``modules``: canonical names of those scanned.

    >>> van = Session(job="j", snapshots=[])
    >>> is_electric(van, ["battery energy control", "drive motor A"]), is_electric(van, ["engine control"])
    (True, False)
    """
    drive = session.vehicle.drive if session.vehicle else None
    if drive not in (None, "unknown"):
        return drive == "electric"
    names = set(modules) | {event.module for event in session.events or () if event.module}
    engines = {shot.engine for shot in session.snapshots}
    if "engine control" in names or not engines.isdisjoint(("running", "cranking")):
        return False
    if "ready" in engines or not names.isdisjoint(SURE):
        return True  # nothing else is ever called READY
    return len(names & HIGH_VOLTAGE) + _holds_propulsion(session) >= 2


def _holds_propulsion(session: Session) -> bool:
    """Whether a code of hybrid or electric propulsion was read."""
    return any(entry.code.startswith(_PROPULSION) for shot in session.snapshots for scan in shot.modules
               for entry in scan.codes)


#: What is said of an engine, and what of a drive that has none.
_IN_READY = (("run the engine 10 minutes", "switch the drive to READY for 10 minutes"),
             ("needs the engine running", "needs the drive READY"), ("the engine running", "the drive READY"))


def in_ready(text: str) -> str:
    """A run of the engine, told of a vehicle that has none.

    >>> in_ready("run the engine 10 minutes, then read again")
    'switch the drive to READY for 10 minutes, then read again'
    """
    for engine, drive in _IN_READY:
        text = text.replace(engine, drive)
    return text


__all__ = ["in_ready", "is_electric"]
