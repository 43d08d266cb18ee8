"""Whether anything fed the vehicle while a scan was made, and the order of scans."""

from __future__ import annotations

from triage.model.session import Session, stamp
from triage.model.snapshot import Snapshot


def alone(session: Session, snapshot: Snapshot) -> bool:
    """Whether nothing fed the vehicle: as the scan says, or where it says nothing because the vehicle was driven, or
    because what was connected had been taken off by the scan before and nobody tells of another."""
    if snapshot.outside_supply not in (None, "unknown"):
        return snapshot.outside_supply == "none"
    told = [event.what for event in session.events or () if event.what.startswith("outside supply")]
    shots = in_order(session)
    at = next(place for place, shot in enumerate(shots) if shot is snapshot)
    known = [shot.outside_supply for shot in shots[:at] if shot.outside_supply not in (None, "unknown")]
    return bool(snapshot.drove) or (known[-1:] == ["none"] and told[-1:] == ["outside supply off"])


def in_order(session: Session) -> list[Snapshot]:
    """The snapshots by their times where all have one, else as they stand."""
    shots = session.snapshots
    if len(shots) > 1 and all(snapshot.at is not None for snapshot in shots):
        return sorted(shots, key=lambda snapshot: stamp(snapshot.at) if snapshot.at else 0.0)
    return shots


__all__ = ["alone", "in_order"]
