"""What was measured at the connector of a module that stays silent: whether its feed and its ground reach it.

A module without feed or ground is dead by them, and one that has both is not: then its network lines are next and
itself last (common practice). The last reading of a pin counts; of several feeds the lowest, since one lost is enough.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

from triage.model.casebook import AtConnector, Casebook
from triage.model.connector_words import Pin, missing, pin_of
from triage.model.measured_words import is_drop
from triage.model.parts import fuse_open
from triage.model.snapshot import Reading, Snapshot
from triage.relations.network_wires import both_ends, ohms_between
from triage.relations.open_feed import fed_from

if TYPE_CHECKING:
    from code_tables import Tables

OHMS = ("ohm", "ohms", "\u03c9")
#: A hundredth of a volt is rounding, not a drop.
ROUNDING = 0.01
#: Below this no control module is meant to work, V at a vehicle of 12 V (ISO 16750-2, code A).
DEAD = 6.0
#: Less on a feed is nothing, V; and what a battery has that nobody read, V at a vehicle of 12 V.
NOTHING, FULL = 0.5, 12.0
#: Words of modules that places and shared grounds are called by as well.
_PLACES = frozenset(("engine", "motor", "moteur", "body", "gearbox", "getriebe", "transmission", "chassis", "trailer",
                     "remorque", "remolque", "anhänger", "battery"))


class _Read(NamedTuple):
    """One reading of a pin. ``good`` None: it can't be told; ``how``, ``alive``: as in :class:`AtConnector`."""

    good: bool | None
    words: str
    how: str = ""
    alive: bool = False


def at_connector(book: Casebook, tables: Tables, session: int, module: int, scale: float = 1.0) -> AtConnector | None:
    """What the readings and notes of ``session`` say of the pins of ``module``; None where they say nothing.

    ``scale``: nominal volts / 12.
    """
    scanned = book.sessions[session]
    names = {name.casefold() for name in (
        book.module_name[module], book.module_facts[module].name, book.shown(module))}
    read: dict[tuple[Pin, str], _Read] = {}
    blown, wires = "", ""
    for at in book.order[session]:
        snapshot = scanned.snapshots[at]
        for entry in snapshot.readings or ():
            name = entry.name.casefold()
            # "Gateway feed", put down without saying of which module it is.
            own = entry.module.casefold() in names if entry.module is not None else any(
                name.startswith(f"{one} ") for one in names)
            pin = pin_of(name)
            if pin is not None and (judged := _judged(entry, pin, snapshot, tables, scale, names, own=own)) is not None:
                read[pin, name] = judged
            elif own and (ohms := ohms_between(entry)) is not None:
                wires = f"{ohms:g} ohm between its network wires" if both_ends(ohms, tables) else ""
    for event in scanned.events or ():
        if event.what == "other" and event.module is not None and event.module.casefold() in names:
            pin = missing((event.note or "").casefold())
            if pin is not None:
                read[pin, ""] = _Read(False, f"no {pin} found at its connector")
            elif fuse_open(event.note or ""):
                blown = (event.note or "").strip().rstrip(".")
                read["feed", "fuse"] = _Read(False, f"noted: {event.note}")
    found = _taken_together(read) if read else None
    if wires and (found is None or found.lost is None):
        found = found or AtConnector(None, frozenset(), "")
        found = found._replace(words=", ".join(filter(None, (found.words, wires))), wired=True)
    if (found is None or found.lost is None) and "feed" not in (found.sound if found is not None else ()) and (
            open_fuse := fed_from(book, tables, session, module, scale)) is not None:
        return AtConnector("feed", frozenset(), f"it hangs on {open_fuse.name}: {open_fuse.words}",
                           blown=open_fuse.note, fuse=open_fuse.name)
    return found._replace(blown=blown) if found is not None and found.lost == "feed" else found


def _judged(
    entry: Reading, pin: Pin, snapshot: Snapshot, tables: Tables, scale: float, names: set[str], *, own: bool,
) -> _Read | None:
    """What a reading says of a ``pin``; ``own``: it is put down for the module of ``names``."""
    supply, low = snapshot.volts, entry.name.casefold()
    if is_drop(entry):
        # What is lost on a feed is told with the feed itself.
        return _ground(entry, supply, tables, scale, drop=True) if pin == "ground" and (
            own or _of_own_ground(low, names)) else None
    if not own:
        return None
    if pin == "ground":
        return _ground(entry, supply, tables, scale, drop=False)
    fallen = any(is_drop(other) and other.module == entry.module and pin_of(other.name.casefold()) == "feed"
                 for other in snapshot.readings or ())
    return _feed(entry, supply, tables, scale, fallen=fallen)


def _of_own_ground(low: str, names: set[str]) -> bool:
    """Whether the path of a drop is the ground of one module, by its name: not one that a place is called by as well.

    >>> [_of_own_ground(low, {"eps", "engine"}) for low in ("voltage drop eps ground to battery", "drop engine ground")]
    [True, False]
    """
    return any(re.search(rf"(?<![^\W_]){re.escape(name)}(?![^\W_])", low) for name in names - _PLACES)


def _taken_together(read: dict[tuple[Pin, str], _Read]) -> AtConnector:
    lost = next(((pin, judged) for (pin, _), judged in read.items() if judged.good is False), None)
    if lost is not None:
        pin, judged = lost
        return AtConnector(pin, frozenset(), judged.words, how=judged.how or f"has no {pin}", alive=judged.alive)
    doubtful = {pin for (pin, _), judged in read.items() if judged.good is None}
    return AtConnector(None, frozenset(pin for pin, _ in read if pin not in doubtful),
                       ", ".join(judged.words for judged in read.values()))


def _feed(entry: Reading, supply: float | None, tables: Tables, scale: float, *, fallen: bool) -> _Read | None:
    """A feed: lost where a module can't live on it, good where it has what the supply has, else it can't be told: the
    supply may have been another when the meter was put on it. ``fallen``: it lies below the battery of then."""
    volts = _volts(entry)
    if volts is None:
        return None
    good: bool | None = None
    if volts <= tables.limit("feed lost") * scale or (fallen and volts < DEAD * scale):
        good = False
    elif volts >= (tables.limit("feed alive") * scale if supply is None
                   else supply - tables.limit("drop positive path") - ROUNDING):
        good = True
    against = f", supply {supply:.1f} V" if supply is not None else ""
    how = f"has only {volts:g} V on its feed" if good is False and volts >= NOTHING else ""
    return _Read(good, f"{volts:g} V on its feed{against}", how)


def _ground(entry: Reading, supply: float | None, tables: Tables, scale: float, *, drop: bool) -> _Read | None:
    """A ground: by its resistance, by the drop to the battery, or measured from plus, where it shows the supply."""
    volts = _volts(entry)
    if volts is None:
        if (entry.unit or "").casefold() not in OHMS:
            return None
        return _Read(entry.value <= tables.limit("ground resistance"), f"{entry.value:g} ohm to ground")
    alive = tables.limit("feed alive") * scale
    from_plus = volts >= alive and not drop
    good = from_plus or volts <= tables.limit("drop ground path")
    return _Read(good, f"{volts:g} V {'from plus to its ground' if from_plus else 'on its ground'}",
                 "" if good else f"loses {volts:g} V on its ground",
                 (supply if supply is not None else FULL * scale) - volts >= alive)


def _volts(entry: Reading) -> float | None:
    unit = (entry.unit or "").casefold()
    return entry.value / 1000.0 if unit == "mv" else entry.value if unit in ("v", "volt", "volts") else None


__all__ = ["at_connector"]
