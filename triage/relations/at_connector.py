"""What was measured at the connector of a module that stays silent: whether its feed and its ground reach it.

A module without feed or ground is dead by them, and one that has both is not: then its network lines are next and
itself last (common practice). The last reading of a pin counts; of several feeds the lowest, since one lost is enough.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from triage.model.casebook import AtConnector, Casebook
from triage.model.connector_words import Pin, missing, pin_of
from triage.model.measured_words import is_drop
from triage.model.parts import fuse_open
from triage.model.snapshot import Reading
from triage.relations.network_wires import both_ends, ohms_between
from triage.relations.open_feed import fed_from

if TYPE_CHECKING:
    from code_tables import Tables

OHMS = ("ohm", "ohms", "\u03c9")
#: A hundredth of a volt is rounding, not a drop.
ROUNDING = 0.01


class _Read(NamedTuple):
    """One reading of a pin. ``good`` None: it can't be told."""

    good: bool | None
    words: str


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
            if own and not is_drop(entry) and (pin := pin_of(name)) is not None:
                judged = (_feed if pin == "feed" else _ground)(entry, snapshot.volts, tables, scale)
                if judged is not None:
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


def _taken_together(read: dict[tuple[Pin, str], _Read]) -> AtConnector:
    lost = next(((pin, judged.words) for (pin, _), judged in read.items() if judged.good is False), None)
    if lost is not None:
        return AtConnector(lost[0], frozenset(), lost[1])
    doubtful = {pin for (pin, _), judged in read.items() if judged.good is None}
    return AtConnector(None, frozenset(pin for pin, _ in read if pin not in doubtful),
                       ", ".join(judged.words for judged in read.values()))


def _feed(entry: Reading, supply: float | None, tables: Tables, scale: float) -> _Read | None:
    """A feed: lost where a module can't live on it, good where it has what the supply has, else it can't be told: the
    supply may have been another when the meter was put on it."""
    volts = _volts(entry)
    if volts is None:
        return None
    good: bool | None = None
    if volts <= tables.limit("feed lost") * scale:
        good = False
    elif volts >= (tables.limit("feed alive") * scale if supply is None
                   else supply - tables.limit("drop positive path") - ROUNDING):
        good = True
    against = f", supply {supply:.1f} V" if supply is not None else ""
    return _Read(good, f"{volts:g} V on its feed{against}")


def _ground(entry: Reading, supply: float | None, tables: Tables, scale: float) -> _Read | None:
    """A ground: by its resistance, by the drop to the battery, or measured from plus, where it shows the supply."""
    volts = _volts(entry)
    if volts is None:
        if (entry.unit or "").casefold() not in OHMS:
            return None
        return _Read(entry.value <= tables.limit("ground resistance"), f"{entry.value:g} ohm to ground")
    from_plus = volts >= tables.limit("feed alive") * scale
    good = from_plus or volts <= tables.limit("drop ground path")
    return _Read(good, f"{volts:g} V {'from plus to its ground' if from_plus else 'on its ground'}")


def _volts(entry: Reading) -> float | None:
    unit = (entry.unit or "").casefold()
    return entry.value / 1000.0 if unit == "mv" else entry.value if unit in ("v", "volt", "volts") else None


__all__ = ["at_connector"]
