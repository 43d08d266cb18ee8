"""A feed measured at the connector of a module that lies far below the battery, told as the voltage drop that it is.

The supply of the scan may have been read at another moment, so that it must lie further above than one that was read
with the feed; an engine that ran lifts it over what the battery alone has.
"""

from __future__ import annotations

from triage.model.connector_words import BESIDE, pin_of
from triage.model.session import Session, printed_names
from triage.model.snapshot import Reading, Snapshot
from triage.supply.limits import limit

#: With a battery read at another moment, V at a vehicle of 12 V: more than a battery falls by lamps and blower;
#: project's own choice.
APART = 1.2
#: A battery that nothing charges has no more, V at a vehicle of 12 V (common practice: rested and full 12.6 V).
ALONE = 12.6
#: The supply of sensors, V: no feed of a module (common practice).
_REFERENCE = (4.6, 5.4)
_CRANKED = ("crank", "anlass", "demarr", "d\u00e9marr", "arran")


def with_feed_drops(session: Session) -> Session:
    """``session`` with a reading for each such drop, behind the feed that tells it, and for what is read of that feed
    later."""
    if not any(_is_feed(reading) for shot in session.snapshots for reading in shot.readings or ()):
        return session
    said = session.vehicle.nominal_volts if session.vehicle is not None else None
    scale = 2.0 if (said or 0.0) > 18.0 or any((shot.volts or 0.0) > 18.0 for shot in session.snapshots) else 1.0
    names, lost = printed_names(session), set[str]()
    shots = [shot.model_copy(update={"readings": _told(shot, names, scale, lost)}) if shot.readings else shot
             for shot in session.snapshots]
    return session.model_copy(update={"snapshots": shots})


def _is_feed(reading: Reading) -> bool:
    """Whether a reading is what a meter showed at the feed of a module, the starter still."""
    low = reading.name.casefold()
    return (reading.module is not None and (reading.unit or "V").casefold() == "v" and pin_of(low) == "feed"
            and "connector" in low and "drop" not in low and not any(word in low for word in _CRANKED)
            and not _REFERENCE[0] <= reading.value <= _REFERENCE[1])


def _told(shot: Snapshot, names: dict[str, str], scale: float, lost: set[str]) -> list[Reading]:
    """The readings of a scan with the drops; ``lost``: modules of which one was told, added to."""
    readings = list(shot.readings or ())
    found: list[Reading] = []
    for place, one in enumerate(readings):
        found.append(one)
        beside = next((other.value for other in readings[place + 1 :] if other.name == BESIDE), None)
        battery, most = beside, limit("drop positive path")
        if beside is None and shot.volts is not None:
            charged = shot.engine in ("running", "ready") or shot.outside_supply not in (None, "none", "unknown")
            battery = min(shot.volts, ALONE * scale) if charged else shot.volts
            most = APART * scale
        if not _is_feed(one) or one.module is None or battery is None or one.value <= limit("feed lost") * scale:
            continue
        drop = round(battery - one.value, 2)
        if drop > most or one.module in lost:
            lost.add(one.module)
            name = f"voltage drop {names.get(one.module, one.module)} feed, from the battery"
            found.append(Reading(module=one.module, name=name, value=max(drop, 0.0), unit="V"))
    return found


__all__ = ["with_feed_drops"]
