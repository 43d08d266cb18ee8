"""What the resistance between the two wires of a network says, measured with the supply off.

A terminator of 120 ohm closes each end (ISO 11898-2), so that 60 ohm are both of them, 120 ohm one alone: the other is
missing, or the line to it is open, and a module that stays silent may lie behind that. The last reading counts.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from triage.model.casebook import SILENT, Casebook, Links
from triage.model.snapshot import Reading

if TYPE_CHECKING:
    from code_tables import Tables

#: Between the two wires, by the name of the reading.
_BETWEEN = re.compile(
    r"can ?-?h(?:igh)?\b.{0,12}\b(?:can ?-?)?l(?:ow)?\b|(?:^|[a-z] )can(?: bus)?$|"
    r"\b(?:network|bus|can|j1939|terminat\w+)(?: \w+){0,2} resistance|resistance.{0,20}\b(?:network|bus|can|j1939)\b|"
    r"abschlusswiderstand|r[ée]sistance (?:du )?(?:bus|r[ée]seau)|resistencia (?:del )?(?:bus|red)")
_TO_GROUND = re.compile(r"ground|earth|gnd|masse|tierra|plus|feed|batter|supply")
_OHMS = {"ohm": 1.0, "ohms": 1.0, "\u03c9": 1.0, "kohm": 1000.0, "k ohm": 1000.0, "kohms": 1000.0}


def read_wires(book: Casebook, link: Links, tables: Tables) -> None:
    """Add what the resistance of a network says to the ``findings`` of ``link``."""
    for place in range(len(book.sessions)):
        if (wires := wires_read(book, tables, place)) is not None:
            silent = _silent(book, place) if wires.above else []
            told = f"{wires.words}; {', '.join(silent)}, silent, may lie behind that" if silent else wires.words
            link.findings[place] = [told, *link.findings.get(place, [])]


class Wires(NamedTuple):
    """The last resistance read between the two wires of a network, in words. ``whole``: both ends answer; ``above``:
    it is more than both ends give."""

    words: str
    whole: bool
    above: bool


def wires_read(book: Casebook, tables: Tables, place: int) -> Wires | None:
    """What session ``place`` measured between the two wires of a network; None where nobody did."""
    session = book.sessions[place]
    if not any(snapshot.readings for snapshot in session.snapshots):
        return None
    read = [(reading, ohms) for at in book.order[place] for reading in session.snapshots[at].readings or ()
            if (ohms := ohms_between(reading)) is not None]
    if not read:
        return None
    reading, ohms = read[-1]
    return Wires(f"{reading.name} {ohms:g} ohm: {_words(ohms, tables)}", both_ends(ohms, tables),
                 ohms > tables.limit("bus resistance"))


def both_ends(ohms: float, tables: Tables) -> bool:
    """Whether that much between the two wires of a network says that both of its terminators answer."""
    both = tables.limit("bus resistance")
    return abs(ohms - both) <= tables.limit("bus resistance tolerance") / 100.0 * both


def ohms_between(reading: Reading) -> float | None:
    """The resistance between the two wires of a network, ohm; None where the reading is of something else."""
    low, factor = reading.name[:200].casefold(), _OHMS.get((reading.unit or "").casefold())
    if factor is None or not _BETWEEN.search(low) or _TO_GROUND.search(low):
        return None
    return reading.value * factor


def _words(ohms: float, tables: Tables) -> str:
    both, one = tables.limit("bus resistance"), tables.limit("bus resistance one end")
    share = tables.limit("bus resistance tolerance") / 100.0
    if both_ends(ohms, tables):
        return f"both terminators answer ({both:.0f} ohm)"
    if abs(ohms - one) <= share * one:
        return (f"one terminator alone answers ({one:.0f} ohm, both are {both:.0f}): the other is missing, or the line "
                "to it is open")
    if ohms > one:
        return "no terminator answers: the line is open on both sides of where it was measured"
    if ohms < both:
        return f"less than the {both:.0f} ohm of both terminators: the wires touch, or a third terminator is fitted"
    return f"between one terminator ({one:.0f} ohm) and both ({both:.0f} ohm): a bad joint or a wrong terminator"


def _silent(book: Casebook, place: int) -> list[str]:
    """Modules that were silent whenever they were asked."""
    modules = range(int(book.first_module[place]), int(book.first_module[place + 1]))
    asked = {module: book.state[module][book.state[module] >= 0] for module in modules}
    return [book.shown(module) for module, states in asked.items() if states.size and bool(
        np.all(states == SILENT))]


__all__ = ["Wires", "both_ends", "ohms_between", "read_wires", "wires_read"]
