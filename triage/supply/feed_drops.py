"""A feed measured at the connector of a module or a consumer that lies far below the battery, and a supply that a
module reads so low itself, told as the voltage drop that it is.

The supply of the scan may have been read at another moment, so that it must lie further above than one that was read
with the feed; an engine that ran lifts it over what the battery alone has.
"""

from __future__ import annotations

from triage.model.connector_words import BESIDE, elsewhere, load_of, pin_of
from triage.model.measured_words import TRAILER_SOCKET
from triage.model.session import Session, printed_names
from triage.model.snapshot import Reading, Snapshot
from triage.supply.limits import limit

#: With a battery read at another moment, V at a vehicle of 12 V: more than a battery falls by lamps and blower;
#: project's own choice.
APART = 1.2
#: A battery that nothing charges has no more, V at a vehicle of 12 V (common practice: rested and full 12.6 V).
ALONE = 12.6
#: Less at a consumer that is no module may be what it is meant to have, V; project's own choice.
_CONSUMER = 6.0
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
    """Whether a reading is what a meter showed at the feed of a module or a consumer, or what a module tells of its own
    supply, the starter still."""
    low = reading.name.casefold()
    where = elsewhere(low)
    if (reading.unit or "V").casefold() != "v" or "drop" in low or any(word in low for word in _CRANKED) or (
            _REFERENCE[0] <= reading.value <= _REFERENCE[1]):
        return False
    if where == "own":
        return reading.module is not None
    if _is_socket(reading):
        return True
    if reading.module is None:
        # What is switched, or fed by a control module, may have less with nothing on.
        return where == "place" and pin_of(low) == "feed" and reading.value >= _CONSUMER
    return pin_of(low) == "feed" and "connector" in low


def _is_socket(reading: Reading) -> bool:
    """Whether a reading is that of a feed at the trailer socket with a load on it: without one it shows what a rotten
    wire still carries (common practice)."""
    low = reading.name.casefold()
    return low.startswith(TRAILER_SOCKET) and pin_of(low) == "feed" and load_of(low) == "loaded"


def _told(shot: Snapshot, names: dict[str, str], scale: float, lost: set[str]) -> list[Reading]:
    """The readings of a scan with the drops; ``lost``: what one was told of, added to."""
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
        key = one.module or one.name
        if not _is_feed(one) or battery is None or (
                one.value <= limit("feed lost") * scale and not _is_socket(one)):
            continue
        drop = round(battery - one.value, 2)
        if drop > most or key in lost:
            lost.add(key)
            name = f"voltage drop {names.get(key, key)} feed, from the battery"
            if elsewhere(one.name.casefold()) == "own":
                name = f"voltage drop {names.get(key, key)} supply, by its own reading"
            elif one.module is None:
                name = f"voltage drop, battery to {one.name.partition(',')[0]}"
            name += ", at least" if battery != shot.volts and beside is None else ""
            found.append(Reading(module=one.module, name=name, value=max(drop, 0.0), unit="V"))
    return found


__all__ = ["with_feed_drops"]
