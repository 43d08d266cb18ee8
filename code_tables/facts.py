"""What the tables answer with. Every text is a word of :mod:`code_tables.words` or short words of our own."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import NamedTuple


# Not frozen: a frozen one takes five times as long to make, and a batch makes ten of them a session.
@dataclass(slots=True, unsafe_hash=True)
class CodeFacts:
    """What is known of one code, by a row for it or by its range; there is an answer for any text.

    The tables keep one for all who ask: nobody changes it.
    """

    code: str                 #: canonical "P0562", "SPN 168 FMI 4", or the text itself for a maker's own number
    title: str                #: short words of our own; structural words where no row exists
    known: bool               #: True: a row for this code; False: answered by its range
    control: str              #: "standard", "maker", "reserved" or "maker's own number"
    group: str                #: system group of SAE J2012 in words
    system: str               #: "engine", "brakes", "network", "supply", ...
    monitor: str              #: monitor class: "key on", "network", "running", "speed", ...
    monitor_named: bool       #: True: by a row for this code or its failure type; False: by range
    trips: int                #: failing trips until confirmed, 1 or 2
    safety: str | None        #: "brakes", "steering", "restraints", "high voltage" or None; by target too
    supply: str | None        #: a supply code: "low", "high", "fault" (either way); else None
    relation: str | None      #: "pointer", "lost communication", "invalid data", ... or None
    targets: tuple[str, ...]  #: canonical module names the code points to
    noise: str                #: supply-level class: "network", "supply", "self", "electronic", "mechanical"
    needs: str                #: when it turns out real: "repair", "procedure", "supply", "nothing"
    note: str | None          #: edition conflict or other warning
    failure: str | None       #: meaning of the failure type, if given
    sources: tuple[str, ...]  #: source keys
    sag: str = ""             #: how often low supply sets a code of that failure type: "hardly" .. "often" or not said
    flicker: bool = False     #: its failure type says that it comes and goes
    #: Not 0: all codes with this number are answered alike, but for ``code``.
    alike: int = field(default=0, repr=False, compare=False)

    def of(self, code: str) -> CodeFacts:
        """The same said of another ``code``."""
        return CodeFacts(code, self.title, self.known, self.control, self.group, self.system, self.monitor,
                         self.monitor_named, self.trips, self.safety, self.supply, self.relation, self.targets,
                         self.noise, self.needs, self.note, self.failure, self.sources, self.sag,
                         self.flicker, self.alike)


class ModuleFacts(NamedTuple):
    """What is known of one module; an unknown name gets neutral facts."""

    name: str                 #: canonical
    system: str
    safety: str | None
    instance_of: str | None   #: base name of one of several ("door" of "door, front left")
    awake: str                #: when it should answer: "key", "ready", "plug", "trailer", "any" (can't be said)
    sources: tuple[str, ...]


class Rate(NamedTuple):
    """A prior, rate or level of the evidence model."""

    value: float
    unit: str
    source: str
    note: str


class Limit(NamedTuple):
    """A figure of the supply, battery and charging tables; ``at`` is its place in a series (a temperature, say)."""

    value: float
    unit: str
    source: str
    note: str
    at: float | None = None
    system_volts: int | None = None


class Plausibility(NamedTuple):
    """A reading that contradicts what is sound, and the codes it speaks for.

    ``reading`` and ``others`` are names of reading_names.csv; ``supports`` is a pattern as there, held against the
    code's title and failure type. ``ratio``: how much likelier the reading is where the fault is hard than where not.
    """

    key: str
    reading: str
    others: tuple[str, ...]
    unit: str                     #: of ``limit``, unless the condition takes a share
    condition: str                #: a word of words.CONDITIONS
    limit: float
    other_limit: float | None
    state: str                    #: "any", "engine off", "running alone", "cold soak"
    supports: str
    supply: tuple[str, ...]       #: or codes that witness the supply in this way
    relations: tuple[str, ...]    #: or codes with this relation
    where: str                    #: in the reading's own "module", anywhere in the "vehicle", "others" about the module
    ratio: float
    words: str
    source: str


class SharedPart(NamedTuple):
    """One part of a vehicle that several modules tell of in numbers of their own.

    ``words`` and ``beside`` are patterns as in reading_names.csv, held against title and printed text: what names the
    part, and what goes with it once another code names it.
    """

    part: str
    words: str
    beside: str
    where: str
    passes_if: str
    safety: str
    source: str


class Source(NamedTuple):
    """Where a figure comes from and how it was read."""

    citation: str
    how: str
