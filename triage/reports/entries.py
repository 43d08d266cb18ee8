"""The entries of a page as plain strings with their units: what the view is made of."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from triage.model.assessment import Sight
from triage.model.notices import Notice

#: Roots told in full, and roots told at all before a count takes over (those of a safety class always are).
FULL, MOST = 3, 5
#: Lines told of one group before a count takes over, again but for the safety classes.
GROUP_MOST = 6


class Sign(NamedTuple):
    """One fault in one snapshot. ``figure`` is the supply in volts without unit, "?" where nobody read it."""

    sight: Sight
    status: str
    figure: str

    @property
    def volts(self) -> str:
        """ "11.1 V" or "supply not read"."""
        return "supply not read" if self.figure == "?" else f"{self.figure} V"

    @property
    def words(self) -> str:
        """Status and supply: "confirmed 10.8 V", "stored, supply not read"."""
        if not self.status:
            return self.volts
        return f"{self.status}{',' if self.figure == '?' else ''} {self.volts}"


class Sum(NamedTuple):
    """One row of a ledger; ``decibans`` "+3.1", without unit."""

    what: str
    decibans: str
    source: str


class Line(NamedTuple):
    """One fault."""

    module: str          # as printed
    code: str            # with its failure type
    meaning: str
    system: str
    safety: str | None
    cause: str           # the likeliest of the five, in words
    sure: str            # words before decibans
    decibans: str        # "+13.8 dB"
    total: str           # "+13.8"
    needs: str
    why: tuple[str, ...]
    clean: str | None
    note: str | None
    signs: tuple[Sign, ...]
    sums: tuple[Sum, ...]

    @property
    def name(self) -> str:
        """ "Engine (ECM) P0118"."""
        return f"{self.module} {self.code}"


class Item(NamedTuple):
    """One root of the short list. ``fault`` False: a story such as a silent module, with its reports as lines.

    A story may stand without a line (a supply that still fails) and without decibans.
    """

    title: str
    system: str
    safety: str | None
    sure: str
    decibans: str
    needs: str
    why: tuple[str, ...]
    lines: tuple[Line, ...]
    fault: bool

    @property
    def judged(self) -> str:
        """Words before decibans: "very likely, +13.8 dB"; "" where neither is said."""
        return ", ".join(part for part in (self.sure, self.decibans) if part)


class Bundle(NamedTuple):
    """A group of the unsettled (head: the step that settles them) or of the set aside (head: the reason)."""

    head: str
    lines: tuple[Line, ...]

    @property
    def safety(self) -> tuple[Line, ...]:
        """The lines of a safety class; these never stand behind a count."""
        return tuple(line for line in self.lines if line.safety)

    def shown(self, show_all: bool) -> tuple[tuple[Line, ...], int]:
        """The lines to tell, and how many stay behind a count."""
        if show_all or len(self.lines) <= GROUP_MOST:
            return self.lines, 0
        told = tuple(line for place, line in enumerate(self.lines) if line.safety or place < GROUP_MOST)
        hidden = len(self.lines) - len(told)
        return (told, hidden) if hidden > 1 else (self.lines, 0)


class Check(NamedTuple):
    """One step."""

    do: str
    gate: str | None
    where: str
    minutes: str         # "15 minutes"
    passes: str
    settles: tuple[str, ...]
    gain: str            # "1.84 bits"


class Proof(NamedTuple):
    """Faults of one state since the repair, told for the same reason; ``proves``: the run that would prove them gone.

    ``names``: codes under their modules. A line about readiness is one of its own.
    """

    state: str
    names: str
    why: str
    proves: str | None
    readiness: bool

    @property
    def told(self) -> str:
        """The reason, and the run where one is needed."""
        if not self.proves:
            return self.why
        by_itself = self.proves.startswith("it ")
        return f"{self.why}; {self.proves}" if by_itself else f"{self.why}; to prove it: {self.proves}"


class Snap(NamedTuple):
    """One snapshot as a column head."""

    number: str
    phase: str
    at: str
    volts: float | None
    lowest: float | None
    supply: str          # "11.1 V, lowest 7.8 V"
    state: str           # "engine off, nothing connected"
    noted: str           # the same without what nobody noted
    read: str            # "10 modules answer, 1 silent, 25 codes"
    readings: tuple[str, ...]

    @property
    def figure(self) -> str:
        """ "11.1 V" or "not read"."""
        return "not read" if self.volts is None else f"{self.volts:.1f} V"


class Part(NamedTuple):
    """One part of the supply: proven, failed or not tested."""

    name: str
    state: str
    why: str

    @property
    def said(self) -> str:
        """The state in a word that can't be taken for its opposite: a draw that is "proven" reads like one to hunt."""
        return self.state if self.state != "proven" else "found" if self.name == "event" else "good"

    @property
    def called(self) -> str:
        """The part by a name that needs no context: an event is a low supply or an overvoltage."""
        if self.name != "event":
            return self.name
        return "overvoltage" if self.why.startswith("overvoltage: ") else "low supply"


class Deed(NamedTuple):
    """One thing done: an event, or the taking of a snapshot (``snap``). ``when`` "" where nobody noted it."""

    when: str
    what: str
    snap: Snap | None = None


@dataclass(frozen=True, slots=True)
class View:
    """All a report says, in the order it is said."""

    job: str
    title: str
    facts: tuple[tuple[str, str], ...]   # about the vehicle: name, value
    complaint: str | None
    answer: str | None                   # the complaint and what the verdict says to it
    supply: str
    supply_briefly: str                  # by state alone, without the reasons
    parts: tuple[Part, ...]
    snaps: tuple[Snap, ...]
    day: str                             # day and zone that all times share: "2025-01-20, UTC+01:00"
    deeds: tuple[Deed, ...]              # events and snapshots in the order of their times
    gates: tuple[str, ...]               # work to be finished before anything is concluded
    items: tuple[Item, ...]
    unsettled: tuple[Bundle, ...]
    aside: tuple[Bundle, ...]
    count: str
    after_work: tuple[str, ...]          # codes that came with the work
    proofs: tuple[Proof, ...]            # where each fault stands since the repair, and readiness
    stories: tuple[str, ...]
    untested: tuple[str, ...]
    checks: tuple[Check, ...]
    changes: tuple[str, ...]
    cautions: tuple[str, ...]
    notices: tuple[Notice, ...]

    def ranked(self, show_all: bool = False) -> tuple[tuple[Item, ...], tuple[Item, ...], int]:
        """Roots told in full, roots told in short, and how many stay behind a count (none of a safety class)."""
        if show_all:
            return self.items, (), 0
        full, later = self.items[:FULL], self.items[FULL:]
        short = tuple(item for place, item in enumerate(later) if place < MOST - FULL or item.safety)
        return full, short, len(later) - len(short)

    @property
    def lines(self) -> tuple[Line, ...]:
        """Every fault, short list first."""
        return (*(line for item in self.items for line in item.lines),
                *(line for bundle in self.unsettled for line in bundle.lines),
                *(line for bundle in self.aside for line in bundle.lines))


__all__ = [
    "FULL", "GROUP_MOST", "MOST", "Bundle", "Check", "Deed", "Item", "Line", "Part", "Proof", "Sign", "Snap", "Sum",
    "View",
]
