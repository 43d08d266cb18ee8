"""Finds and adds vehicles. A VIN decides; without one the label does, letter case and spaces aside."""

from __future__ import annotations

import re
from datetime import datetime

from sqlalchemy import func, select
from sqlalchemy.orm import Session as Work

from triage.model.session import Vehicle
from triage.store.rows import KnownVehicle
from triage.store.tables import SessionRow, VehicleRow


def vin_key(vin: str | None) -> str | None:
    """The VIN without spaces and dashes, in capitals; None if nothing is left."""
    return re.sub(r"[\s-]", "", vin or "").upper() or None


def label_key(label: str | None) -> str | None:
    """The label folded; None if it is blank."""
    return " ".join((label or "").split()).casefold() or None


def find(work: Work, vehicle: Vehicle) -> VehicleRow | None:
    """The row of the same vehicle. A VIN that differs makes another vehicle, whatever the label."""
    vin, label = vin_key(vehicle.vin), label_key(vehicle.label)
    if vin is not None:
        row = work.scalars(select(VehicleRow).where(VehicleRow.vin_key == vin)).first()
        if row is not None:
            return row
    if label is None:
        return None
    wanted = select(VehicleRow).where(VehicleRow.label_key == label).order_by(VehicleRow.id.desc())
    if vin is not None:
        wanted = wanted.where(VehicleRow.vin_key.is_(None))
    return work.scalars(wanted).first()


def find_or_add(work: Work, vehicle: Vehicle | None, now: datetime) -> VehicleRow | None:
    """The row of ``vehicle``, with what was told last; None if it has neither VIN nor label."""
    if vehicle is None or (vin_key(vehicle.vin) is None and label_key(vehicle.label) is None):
        return None
    row = find(work, vehicle)
    if row is None:
        row = VehicleRow(details={}, added_at=now)
        work.add(row)
    if row.vin_key is None:
        row.vin, row.vin_key = vehicle.vin, vin_key(vehicle.vin)
    if row.label_key is None:
        row.label, row.label_key = vehicle.label, label_key(vehicle.label)
    row.details = {**row.details, **vehicle.model_dump(mode="json", exclude_none=True)}
    work.flush()
    return row


def known(work: Work, row: VehicleRow) -> KnownVehicle:
    """The vehicle as a plain value."""
    count = work.scalar(select(func.count()).select_from(SessionRow).where(SessionRow.vehicle_id == row.id))
    return KnownVehicle(row.id, row.label, row.vin, Vehicle.model_validate(row.details), count or 0)
