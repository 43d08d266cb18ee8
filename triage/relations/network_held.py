"""What was measured on the two wires of a network in volts, and with which module unplugged the others came back.

Between messages both wires lie near 2.5 V, and no message takes them below 0.5 V or above 4.5 V (ISO 11898-2): both
below or both above are shorted, or a module holds them there. Then no module on it can answer, each sound. Wires that
touch are the same finding. A module with which unplugged the others answer holds them down, or its branch does.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

from triage.model.parts import says_unplugged
from triage.relations.network_wires import ohms_between

if TYPE_CHECKING:
    from code_tables import Tables
    from triage.model.casebook import Casebook

#: The last words of a reading of one wire.
_WIRE = re.compile(r"(?:^|(?P<bus>.*) )can (?P<side>[hl])$")
#: The others are there again, in four languages, and words that say that they are not.
_BACK = re.compile(r"\b(?:answer\w*|respond\w*|reply|replies|communicat\w*|back|awake|return\w*|online|antwort\w*|"
                   r"wieder|r[ée]pond\w*|revien\w*|contest\w*|vuelv\w*)\b")
_NOT_BACK = re.compile(r"\b(?:no(?:t|ne|thing|body)?|still|never|without|kein\w*|nicht\w*|aucun\w*|pas|ning\w+)\b|"
                       r"unchanged|same")


class Held(NamedTuple):
    """A network that no module on it can use: the measurement in words, and the module whose unplugging freed it."""

    words: str
    by: int = -1


def held_down(book: Casebook, tables: Tables, session: int) -> Held | None:
    """The network of ``session`` that was measured as held down or shorted; None where nothing says so."""
    scanned = book.sessions[session]
    words, pair = "", {}
    for at in book.order[session]:
        for reading in scanned.snapshots[at].readings or ():
            wire = _WIRE.match(reading.name[:80].casefold())
            if wire is not None and (reading.unit or "").casefold() in ("v", "mv"):
                volts = reading.value / (1000.0 if reading.unit != "V" else 1.0)
                pair[wire["bus"] or "", wire["side"]] = volts
                words = words or _both(pair, wire["bus"] or "", tables)
            elif (ohms := ohms_between(reading)) is not None and ohms < tables.limit("bus resistance") * (
                    1.0 - 2.0 * tables.limit("bus resistance tolerance") / 100.0):
                words = words or f"{ohms:g} ohm between the wires, which touch"
    by = _freed_by(book, session)
    if by >= 0:
        freed = f"with {book.shown(by)} unplugged the others answer"
        return Held(f"{words}; {freed}" if words else freed, by)
    return Held(words) if words else None


def _both(pair: dict[tuple[str, str], float], bus: str, tables: Tables) -> str:
    """The first pair of wires of ``bus`` that no message explains, in words; empty where there is none."""
    high, low = pair.get((bus, "h")), pair.get((bus, "l"))
    if high is None or low is None:
        return ""
    told = f"CAN H {high:g} V and CAN L {low:g} V"
    if max(high, low) <= tables.limit("bus wire lowest"):
        return f"{told}: both shorted to ground, or held down by a module"
    if min(high, low) >= tables.limit("bus wire highest"):
        return f"{told}: both shorted to a feed"
    return ""


def _freed_by(book: Casebook, session: int) -> int:
    """The one module with which unplugged the others are said to answer; -1 where none is, or several are."""
    modules = range(int(book.first_module[session]), int(book.first_module[session + 1]))
    found = set()
    for event in book.sessions[session].events or ():
        note = (event.note or "")[:300].casefold()
        if event.module is None or not says_unplugged(event) or not _BACK.search(note) or _NOT_BACK.search(note):
            continue
        name = event.module.casefold()
        found |= {module for module in modules if name in (
            book.module_name[module].casefold(), book.module_facts[module].name, book.shown(module).casefold())}
    return found.pop() if len(found) == 1 else -1


__all__ = ["Held", "held_down"]
