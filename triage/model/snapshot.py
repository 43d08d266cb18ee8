"""One pass over all modules of a vehicle, as the job file writes it. A key left out means "not known"."""

from __future__ import annotations

from datetime import datetime
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

Phase = Literal["before-clear", "after-clear", "after-run", "after-repair"]
PHASES: tuple[Phase, ...] = ("before-clear", "after-clear", "after-run", "after-repair")
Engine = Literal["off", "cranking", "running", "ready", "unknown"]
OutsideSupply = Literal["none", "charger", "jump pack", "donor vehicle", "unknown"]
StatusWord = Literal["current", "stored", "pending", "confirmed", "permanent"]
STATUS_WORDS: tuple[StatusWord, ...] = ("current", "stored", "pending", "confirmed", "permanent")
ListRead = Literal["confirmed", "pending", "permanent"]
Completeness = Literal["complete", "incomplete", "not fitted"]

FailureType = Annotated[str, Field(pattern=r"^[0-9A-Fa-f]{2}$")]
StatusByte = Annotated[int, Field(ge=0, le=255)]


class Part(BaseModel):
    """Base of every object of the job file: an unknown key is an error."""

    model_config = ConfigDict(extra="forbid", allow_inf_nan=False)


class FreezeFrame(Part):
    """What the module stored with a code. Volts at the module, km, km/h, 1/min, degrees Celsius."""

    volts: float | None = None
    distance_km: float | None = None
    speed_kmh: float | None = None
    engine_rpm: float | None = None
    coolant_c: float | None = None


class CodeEntry(Part):
    """One code as one module gave it in one snapshot."""

    code: str
    failure_type: FailureType | None = None
    status: StatusWord | None = None
    status_byte: StatusByte | None = None
    count: int | None = None
    text: str | None = None
    freeze_frame: FreezeFrame | None = None


class ModuleScan(Part):
    """One module in one snapshot. ``responds`` False: asked and silent; None: not said (taken as answering)."""

    module: str
    printed: str | None = None
    responds: bool | None = None
    volts: float | None = None
    status_mask: StatusByte | None = None
    codes: list[CodeEntry]


class SinceClear(Part):
    """Counters since the last clear: warm-ups (255 means 255 or more), kilometres, minutes."""

    warm_ups: int | None = None
    distance_km: float | None = None
    minutes: float | None = None


class Reading(Part):
    """One live value. ``module`` None: read at the vehicle, not in a module."""

    module: str | None = None
    name: str
    value: float
    unit: str | None = None


class Snapshot(Part):
    """One pass over all modules. Volts, minutes, km/h, degrees Celsius, seconds below the low level."""

    phase: Phase | None
    at: datetime | None = None
    engine: Engine | None = None
    ran_minutes: float | None = None
    drove: bool | None = None
    max_speed_kmh: float | None = None
    coolant_c: float | None = None
    volts: float | None = None
    lowest_volts: float | None = None
    low_seconds: float | None = None
    outside_supply: OutsideSupply | None = None
    lamps: list[str] | None = None
    lists_read: list[ListRead] | None = None
    since_clear: SinceClear | None = None
    readiness: dict[str, Completeness] | None = None
    modules: list[ModuleScan]
    readings: list[Reading] | None = None
