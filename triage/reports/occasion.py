"""The occasion: the vehicle, its snapshots and what was done to it, in the order of time."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from triage.model.assessment import Column
from triage.model.session import Event, Session, day_and_clock
from triage.model.snapshot import Reading, Snapshot
from triage.reports.entries import Deed, Part, Snap
from triage.reports.text import clean, many

#: Writes one time, without the day and zone that all times share.
Clock = Callable[[datetime | None], str]

ENGINE_WORDS = {"off": "engine off", "cranking": "cranking", "running": "engine running", "ready": "ready to drive"}
OUTSIDE_WORDS = {"none": "nothing connected", "charger": "charger connected", "jump pack": "jump pack connected",
                 "donor vehicle": "donor vehicle connected", "driven": "driven, so nothing connected"}


def snap(number: int, column: Column, snapshot: Snapshot, clock: Clock) -> Snap:
    supply = "supply not read" if column.volts is None else f"{column.volts:.1f} V"
    if column.lowest_volts is not None:
        supply += f", lowest {column.lowest_volts:.1f} V"
    engine, outside = ENGINE_WORDS.get(column.engine or ""), OUTSIDE_WORDS.get(column.outside_supply or "")
    run = [f"{column.minutes:g} min run"] if column.minutes else []
    noted = [part for part in (engine, *run, outside) if part]
    state = [engine or "engine state not noted", *run, outside or "outside supply not noted"]
    if not noted:
        state = ["engine state and outside supply not noted"]
    read = [many(column.modules, "module answers", "modules answer"), many(column.codes, "code")]
    if column.silent:
        read.insert(1, f"{column.silent} silent")
    # The head reads "1 before clear"; its number stands alone wherever room is short.
    phase = clean(column.name).removeprefix(f"{number} ")
    readings = tuple(_reading(reading) for reading in snapshot.readings or [])
    return Snap(str(number), phase, clock(snapshot.at), column.volts, column.lowest_volts, supply, ", ".join(state),
                ", ".join(noted), ", ".join(read), readings)


def _reading(reading: Reading) -> str:
    module, unit = (f"{reading.module}: " if reading.module else ""), (f" {reading.unit}" if reading.unit else "")
    return clean(f"{module}{reading.name} {reading.value:g}{unit}")


def in_order(session: Session, number: int) -> list[Snapshot]:
    """The snapshots as the columns stand: by time where all have one. Always ``number`` of them."""
    snapshots = session.snapshots
    if len(snapshots) > 1 and all(snapshot.at is not None for snapshot in snapshots):
        snapshots = sorted(snapshots, key=_stamp)
    return [*snapshots, *(Snapshot(phase=None, modules=[]) for _ in range(number - len(snapshots)))][:number]


def _stamp(entry: Snapshot | Event) -> float:
    return entry.at.timestamp() if entry.at else 0.0


def clock(times: list[datetime]) -> tuple[str, Clock]:
    """What all times share, said once (day, zone), and how the rest of each is written."""
    days = {time.date() for time in times}
    zones = {time.isoformat()[-6:] if time.tzinfo else "" for time in times}
    one_day, one_zone = len(days) == 1, len(zones) == 1
    zone = next(iter(zones)) if one_zone else ""
    said = [*(str(day) for day in days if one_day), *([f"UTC{zone}"] if zone else [])]

    def written(time: datetime | None) -> str:
        if time is None:
            return ""
        text = day_and_clock(time)
        return (text[:16] if one_zone else text)[11 if one_day else 0:]

    return ", ".join(said), written


def facts(session: Session) -> tuple[tuple[str, str], ...]:
    vehicle = session.vehicle
    if vehicle is None:
        return ()
    volts = None if vehicle.nominal_volts is None else f"{vehicle.nominal_volts:g} V"
    number = vehicle.batteries or 1
    kind = f" {vehicle.battery}" if vehicle.battery not in (None, "unknown") else ""
    battery = f"{number}{kind} batteries" if number > 1 else f"{kind.strip()} battery" if kind else ""
    drive = vehicle.drive if vehicle.drive != "unknown" else None
    pairs = (("VIN", vehicle.vin), ("model year", vehicle.model_year and str(vehicle.model_year)), ("drive", drive),
             ("system", volts), ("battery", battery))
    return tuple((name, clean(value)) for name, value in pairs if value)


def deeds(session: Session, ordered: list[Snapshot], snaps: tuple[Snap, ...], clock: Clock) -> tuple[Deed, ...]:
    """Events and snapshots in one order where all have times, else the snapshots first."""
    told: list[tuple[Snapshot | Event, Deed]] = [
        (snapshot, Deed(snap.at, f"snapshot {snap.number}, {snap.phase}", snap))
        for snapshot, snap in zip(ordered, snaps, strict=True)]
    told += [(event, Deed(clock(event.at), _event(event))) for event in session.events or []]
    if all(entry.at is not None for entry, _ in told):
        told.sort(key=lambda pair: _stamp(pair[0]))
    return tuple(deed for _, deed in told)


def _event(event: Event) -> str:
    what = event.what if event.what != "other" else event.note or "other"
    if event.module:
        what += f": {event.module}"
    if event.part:
        what += f", {event.part} part"
    if event.answer:
        what += f", {_answered(event)}"
    if event.note and event.what != "other":
        what += f" ({event.note})"
    return clean(what)


def briefly(parts: tuple[Part, ...]) -> str:
    """ "battery failed; low supply found; charging good; key-off draw not tested"."""
    states: dict[str, list[str]] = {"failed": [], "found": [], "good": [], "not tested": []}
    for part in parts:
        if not (part.name == "event" and part.state == "not tested"):
            states.setdefault(part.said, []).append(part.called)
    return "; ".join(f"{', '.join(names)} {state}" for state, names in states.items() if names)


def _answered(event: Event) -> str:
    """What came of an event; a programming that began may have broken off as well."""
    if event.answer == "refused" and event.what == "programmed":
        return "refused or broken off"
    return "answer not known" if event.answer == "unknown" else str(event.answer)


__all__ = ["Clock", "briefly", "clock", "deeds", "facts", "in_order", "snap"]
