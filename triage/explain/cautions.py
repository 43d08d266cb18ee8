"""The usual cautions for what this session touches. They defer to the maker's procedure and to licensed practice."""

from __future__ import annotations

import re
from collections.abc import Iterable

from triage.explain.damage import damage_cautions
from triage.explain.fitness import doubted
from triage.model.drive import is_electric
from triage.model.parts import leads_reversed
from triage.model.session import Session

GENERAL = ("Follow the vehicle maker's procedure and local rules; restraint, high-voltage, brake and steering work is "
           "for qualified people.")
BY_SAFETY = {
    "restraints": "Restraints: read and record the codes before the battery is disconnected, then wait the maker's "
                  "time; never probe or unplug a restraint part with the battery connected, nor clear a stored "
                  "crash record.",
    "high voltage": "High voltage: a silent or switched-off system is not a dead one; made safe and proved dead by a "
                    "qualified person before work, and the 12 V supply off as well.",
    "brakes": "Brakes: secure the vehicle against rolling and do not judge by a road test until braking is proved.",
    "steering": "Steering: no road test while assistance or its sensors may be at fault; where a drive is named, "
                "steering is tried standing and at walking pace first.",
}
#: What a complaint tells that nobody should find out by driving (common practice).
COMPLAINED = {
    "brakes": "Not on the road: the complaint tells of the brakes or of a red lamp; they are tested standing, by a "
              "qualified person, before anybody drives.",
    "steering": "Not on the road: the complaint tells of the steering itself; it is tested standing, by a qualified "
                "person, before anybody drives.",
}
STALLS = ("It is said to stall: with the engine the assistance of brakes and steering goes too; not among traffic "
          "until that is found.")
_STALLS = re.compile(r"\b(?:stall(?:s|ed|ing)|cuts? out|keeps dying|dies (?:when|while|at|on)|"
                     r"stirbt \w{0,8} ?ab|geht \w{0,8} ?aus|bleibt (?:\w+ )?stehen|cale|"
                     r"s['’]arr[êe]te en roulant|se (?:cala|para))\b", re.IGNORECASE)
JUMP = ("Jump starting: equal nominal voltages, eye protection, lamps and accessories off, ground lead away from the "
        "battery, never a frozen battery, never 24 V on a 12 V vehicle.")
CLOSED = ("A contactor is said to be stuck closed: the high-voltage bus may stay live, and neither the key off nor "
          "the service plug proves it dead; absence of voltage is measured by a qualified person.")
REVERSED = ("Leads reversed: links and fuses may be open and rectifiers broken without a code; rule out a short behind "
            "each open one before it is renewed.")
JUMP_24 = ("Jump starting: equal nominal voltages, 24 V across the whole pair and never across one battery of it, eye "
           "protection, lamps and accessories off, ground lead away from the batteries, never a frozen battery.")
RUNNING = "Running engine: lead exhaust away, keep hands and clothes from belts and fans, parking brake on."
PROGRAM = ("Programming needs a stable supply (12.6 to 14.5 V at a 12 V vehicle unless the maker says otherwise); a "
           "plain charger is not one.")


def cautions(session: Session, safeties: set[str], scale: float, modules: Iterable[str] = (), *,
             closed: bool = False, damage: Iterable[str] = ()) -> list[str]:
    """Cautions for ``session``; ``safeties``: the safety classes its open faults touch; ``modules``: those scanned;
    ``closed``: a contactor may be stuck closed; ``damage``: what happened to the vehicle ("crash")."""
    found = [*damage_cautions(damage), *([CLOSED] if closed else [])]
    complaint = (session.vehicle.complaint if session.vehicle else None) or ""
    stalls = [STALLS] if _STALLS.search(complaint) else []
    found = [*(COMPLAINED[name] for name in doubted(complaint)), *stalls, *found]
    found += [BY_SAFETY[name] for name in BY_SAFETY if name in safeties]
    vehicle = session.vehicle
    drive = vehicle.drive if vehicle else None
    electric = is_electric(session, modules)
    if (drive == "hybrid" or electric) and "high voltage" not in safeties:
        found.append(BY_SAFETY["high voltage"])
    outside = {snapshot.outside_supply for snapshot in session.snapshots}
    low = any(volts is not None and volts < 11.5 * scale for snapshot in session.snapshots
              for volts in (snapshot.volts, snapshot.lowest_volts))
    if low or outside & {"jump pack", "donor vehicle"}:
        found.append(JUMP_24 if scale > 1.5 else JUMP)
    if leads_reversed(session):
        found.append(REVERSED)
    if not electric and (low or any(
            snapshot.engine == "running" or (snapshot.ran_minutes or 0) > 0 for snapshot in session.snapshots)):
        found.append(RUNNING)
    if any(event.what in ("programmed", "replaced") for event in session.events or []):
        found.append(PROGRAM)
    return [*found, GENERAL]
