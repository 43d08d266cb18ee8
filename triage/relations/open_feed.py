"""Fuses that were found with nothing behind them, and the silent modules that are told to hang on them.

What hangs on an open fuse is silent by it: the fuse, its contacts and the wire behind it come before each of the
modules (common practice).
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from triage.model.casebook import SILENT, Casebook
from triage.model.feeding import folded, fuse_number, says_all, tells_feeding
from triage.model.measured_words import is_drop
from triage.model.parts import fuse_open, link_open
from triage.model.session import Event

if TYPE_CHECKING:
    from code_tables import Tables

_ACROSS = re.compile(r"\bacross (?:the )?(?P<part>[^()]{1,60}?) ?(?:\((?P<sides>[^()]{1,80})\))?$", re.IGNORECASE)
_FUSE = re.compile(r"(?<![a-z])(?:fuses?|fusibles?|[a-z]{0,16}sicherung|f ?[0-9]{1,3})(?![a-z0-9])")
#: Words of a module's name that tell no module from another.
_NO_NAME = frozenset(("module", "control", "unit", "ecu", "system", "electronics", "front", "rear", "left", "right"))


class OpenFuse(NamedTuple):
    """``name`` of the fuse, ``words`` that were read or noted of it, ``note`` that calls it blown, empty where none."""

    name: str
    words: str
    note: str


def fed_from(book: Casebook, tables: Tables, session: int, module: int, scale: float) -> OpenFuse | None:
    """The open fuse that a silent module is told to hang on; None where nobody says so, or it was not found open."""
    events = [event for event in book.sessions[session].events or () if event.what == "other" and event.note]
    told = [event.note or "" for event in events if tells_feeding(event.note or "")]
    if not told:
        return None
    fuses = _open_fuses(book, tables, session, events, scale)
    for note in told:
        number = fuse_number(note)
        # "Midi fuse 60 A (K4)" may be read as "midi fuse 60".
        mine = [fuse for fuse in fuses if folded(fuse.name) in folded(note)
                or fuse_number(f"{fuse.name} {fuse.note}") == number] or [
            fuse for fuse in fuses if len(fuses) == 1 and not (number and fuse_number(f"{fuse.name} {fuse.note}"))]
        if mine and _names(book, session, module, note):
            return mine[-1]
    return None


def _open_fuses(
    book: Casebook, tables: Tables, session: int, events: list[Event], scale: float,
) -> list[OpenFuse]:
    """The fuses with too little behind them for a module to live on, the last reading of each, then those that are
    noted blown and that nobody measured."""
    read: dict[str, OpenFuse | None] = {}
    notes = [(event.note or "").strip().rstrip(".") for event in events
             if fuse_open(event.note or "") and link_open(event) is None]
    for at in book.order[session]:
        shot = book.sessions[session].snapshots[at]
        for reading in shot.readings or ():
            found = _ACROSS.search(reading.name) if is_drop(reading) else None
            if found is None or not _FUSE.search(found["part"].casefold()):
                continue
            left = (shot.volts or 12.0 * scale) - abs(reading.value)
            name = found["part"].strip()
            blown = next((note for note in notes if fuse_number(note) == fuse_number(name)), "")
            read[name.casefold()] = OpenFuse(
                name, found["sides"] or f"{reading.value:g} V across it", blown,
            ) if left <= tables.limit("feed lost") * scale else None
    numbers = {fuse_number(name) for name in read}
    known = [fuse for fuse in read.values() if fuse is not None]
    if not read:
        known += [OpenFuse(note, "noted", note) for note in notes if fuse_number(note) not in numbers]
    return known


def _names(book: Casebook, session: int, module: int, note: str) -> bool:
    """Whether a note tells of a module, by a word of one of its names, or of all where it names no module."""
    words = set(re.findall(r"[a-z0-9]{3,}", folded(note)))
    if _told_by(book, module, words):
        return True
    others = range(int(book.first_module[session]), int(book.first_module[session + 1]))
    last = int(np.flatnonzero(book.exists[session])[-1])
    return (says_all(note) and bool(book.state[module, last] == SILENT)
            and not any(_told_by(book, other, words) for other in others))


def _told_by(book: Casebook, module: int, words: set[str]) -> bool:
    names = (book.module_name[module], book.module_facts[module].name, book.shown(module))
    return any(not words.isdisjoint(set(re.findall(r"[a-z0-9]{3,}", folded(name))) - _NO_NAME) for name in names)


__all__ = ["OpenFuse", "fed_from"]
