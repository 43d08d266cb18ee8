"""A generator that is cut off from the battery: the link between them measured open, or the generator far above it.

An engine that runs so has a generator without a battery to hold its voltage: the regulator chases it and every feed
behind it may see too much (load dump, ISO 16750-2). So this is told as failed charging, and no run is proposed while
it stands. A link that was measured again and holds, a new one, or a battery that was seen charging since ends it.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from triage.model.parts import link_open, link_renewed
from triage.model.session import Session
from triage.supply.limits import limit, system_of
from triage.supply.named import Measured, measured

#: How the reason ends that tells of it: the next checks go by these words.
CUT_OFF = "the generator is cut off from the battery"
#: Links that a generator charges through; a numbered fuse feeds a consumer, and "midi" is a size, no place. A
#: link that nobody names may be the one: a test left out costs less than a generator that runs without its battery.
_CHARGING_LINK = re.compile(
    r"(?<![a-z])(?:links?|fusible|schmelzsicherung|hauptsicherung|isolator|cut-?off|master|trennschalter|coupe-?circuit)"
    r"(?![a-z])|(?<![a-z])(?:main|mega|battery|alternator|generator) ?-?(?:(?:mega|midi|maxi) ?-?)?fuse")
#: Named after what it feeds, the link is of that consumer.
_AT_GENERATOR = re.compile(r"(?<![a-z])(?:alternator|generator|lichtmaschine|alternateur|alternador)(?![a-z])")
#: A voltage across a part that takes this share of the system's own leaves nothing behind it; project's own choice.
_OPEN_SHARE = 0.5


class _Read(NamedTuple):
    """A reading with the place of its snapshot."""

    place: int
    one: Measured


def cut_off(session: Session, nominal: float) -> str | None:
    """Why the generator is cut off from the battery, or far above what it may give; None where nothing says so."""
    system = system_of(nominal)
    reads = [_Read(place, one) for place, snapshot in enumerate(session.snapshots)
             for reading in snapshot.readings or () if (one := measured(reading)) is not None]
    if any(link_renewed(event) for event in session.events or ()):
        return None
    found = _open_links(reads, nominal)
    if found and not _charged_since(session, max(read.place for read in found), system):
        return f"{_part(found[-1].one.name)} is open: {CUT_OFF}"
    told = next((note for event in session.events or () if (note := link_open(event)) is not None), None)
    if told is not None and not _charged_since(session, -1, system):
        return f"{CUT_OFF}: noted \u201c{told}\u201d"
    return _far_above(reads, system)


def _open_links(reads: list[_Read], nominal: float) -> list[_Read]:
    """Links that were measured open; the last reading of each counts."""
    last: dict[str, _Read] = {}
    for read in reads:
        part = read.one.name.partition(" (")[0].casefold()
        if read.one.kind == "drop" and "across" in part and _CHARGING_LINK.search(part):
            last[part] = read
    return [read for read in last.values() if read.one.value >= _OPEN_SHARE * nominal]


def _far_above(reads: list[_Read], system: int) -> str | None:
    """The generator's own voltage above what any module is bound to bear: no outside supply gives that."""
    top = limit("overvoltage above", system)
    at_generator = [read for read in reads if read.one.kind == "running" and _AT_GENERATOR.search(
        read.one.name.casefold())]
    over = [read for read in at_generator if read.one.value > top]
    if not over or over[-1] is not at_generator[-1]:
        return None
    place, one = over[-1]
    said = f"{one.name} {one.value:.1f} V: overvoltage at the generator, above {top:.0f} V"
    battery = [read.one.value for read in reads if read.place == place and read.one.kind == "running"
               and read not in at_generator]
    if battery and battery[-1] < limit("charging lowest", system):
        said += f", while the battery has {battery[-1]:.1f} V: {CUT_OFF}"
    return said


def _charged_since(session: Session, place: int, system: int) -> bool:
    """Whether a later scan saw the battery charged with nothing connected."""
    return any(shot.engine in ("running", "ready") and shot.outside_supply == "none" and shot.volts is not None
               and shot.volts >= limit("charging lowest", system) for shot in session.snapshots[place + 1:])


def _part(name: str) -> str:
    """The part that a drop was measured across, with what was read."""
    return re.sub(r"^.*?\bacross (?:the )?", "", name, count=1)


__all__ = ["CUT_OFF", "cut_off"]
