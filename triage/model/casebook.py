"""The casebook: many sessions side by side as arrays, so that all their faults are weighed at once.

Index letters used everywhere: ``S`` sessions, ``K`` snapshots of a session (padded to the longest), ``M`` modules
(of all sessions, one after another), ``N`` faults (likewise). A padded or unknown place holds NaN in a float
array and -1 in an integer array.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, NamedTuple

import numpy as np
from numpy.typing import NDArray

from triage.model.connector_words import Pin
from triage.model.notices import Notice
from triage.model.session import Session
from triage.model.shared_silence import SharedSilence
from triage.model.supply_event import SupplyEvents

if TYPE_CHECKING:
    from code_tables import CodeFacts, ModuleFacts

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]

SEEN, NOT_SEEN, NOT_READABLE = 1, 0, -1
ANSWERS, SILENT, NOT_ASKED = 1, 0, -1


@dataclass(slots=True)
class Casebook:
    """Arrays for a batch of sessions. Volts V, minutes min; ``seen`` one of SEEN, NOT_SEEN, NOT_READABLE."""

    sessions: list[Session]
    notices: list[list[Notice]]
    # Snapshots, S x K.
    exists: Bools
    phase: Ints          # 0 before-clear .. 3 after-repair
    volts: Floats        # as read
    lowest: Floats       # lowest since the snapshot before
    low_seconds: Floats  # time below the low level, s
    minutes: Floats      # engine run before this snapshot, since the one before
    drove: Floats        # 1, 0 or NaN
    speed: Floats        # highest, km/h
    coolant: Floats      # degrees Celsius
    engine_on: Floats    # running or ready while scanned: 1, 0 or NaN
    outside: Ints        # outside supply connected: 1, 0 or -1
    pending_read: Ints   # pending codes were read: 1, 0 or -1
    # Modules, M and M x K.
    module_session: Ints
    module_name: list[str]
    module_facts: list[ModuleFacts]
    state: Ints          # ANSWERS, SILENT, NOT_ASKED
    module_volts: Floats
    # Faults, N and N x K.
    fault_session: Ints
    fault_module: Ints
    code: list[str]
    failure_type: list[str | None]
    facts: list[CodeFacts]
    kinds: list[CodeFacts]  # the facts that differ in more than the code, each once
    kind: Ints           # N: place among the kinds
    seen: Ints
    status: Ints         # index into STATUS_WORDS, -1 none
    status_byte: Ints    # 0..255, -1 none
    byte_word: Ints      # what the byte says: index into STATUS_WORDS, one more for "passing", -1 none
    byte_tested: Ints    # tested since the clear, by the byte: 1, 0 or -1
    byte_lately: Ints    # failed in this operation cycle or the one before, by the byte: 1, 0 or -1
    frame_volts: Floats  # what a freeze frame holds; nan for nothing
    frame_distance: Floats  # km
    frame_speed: Floats  # km/h
    frame_rpm: Floats    # 1/min
    count: Ints
    first_fault: Ints    # S + 1: faults of session s are first_fault[s]:first_fault[s + 1]
    first_module: Ints   # S + 1: likewise for modules
    texts: dict[int, list[str]] = field(default_factory=dict)  # fault -> what it was printed with, in time order
    printed: list[dict[str, str]] = field(default_factory=list)  # S: module -> its name as the scan printed it
    order: list[list[int]] = field(default_factory=list)  # places of the snapshots in the job, in time order

    @property
    def faults(self) -> int:
        """N."""
        return len(self.code)

    def shown(self, module: int) -> str:
        """A module as the scan printed it."""
        name = self.module_name[module]
        return self.printed[int(self.module_session[module])].get(name, name) if self.printed else name

    def flags(self, ask: Callable[[CodeFacts], bool]) -> Bools:
        """N: what ``ask`` says of the facts of each fault but for the code's own number; it is asked once a kind."""
        return np.asarray(np.array([ask(facts) for facts in self.kinds], dtype=bool)[self.kind])

    def numbers(self, ask: Callable[[CodeFacts], int]) -> Ints:
        """N: likewise a whole number."""
        return np.asarray(np.array([ask(facts) for facts in self.kinds], dtype=np.int64)[self.kind])


class PartTest(NamedTuple):
    """What became of the codes with a part unplugged for the scan in ``column``: the faults that ``went`` with it, and
    those of that ``part`` which its open plug ``made``."""

    column: int
    part: str
    went: list[int]
    made: list[int]


@dataclass(slots=True)
class Timeline:
    """What was done between the snapshots. ``K`` entries speak of the time since the snapshot before."""

    clear: Floats        # M x K: chance that the module's list was cleared
    refused: Bools       # M x K: a clear was tried here and the module refused it
    accepted: Bools      # M x K: a clear was tried here and the module itself accepted it
    said_taken: Bools    # M x K: likewise, as far as was said of the whole vehicle
    work: Bools          # M x K: programmed, unplugged, battery off, actuator test: codes may come from the work
    repaired: Bools      # M x K: something was repaired or replaced that this module watches
    new_module: Bools    # M x K: another module stands here from this snapshot on
    cycled: Bools        # S x K: somebody noted a key cycle, or work that takes one, since the snapshot before
    scale: Floats        # S: nominal volts / 12, so that levels of a 12 V system can be used
    tests: dict[int, PartTest] = field(default_factory=dict)  # session -> what was unplugged for its last scan

    renewed: dict[int, int] = field(default_factory=dict)  # fault -> the column right after its part was replaced

    def read_at_least(self, volts: Floats, level: float) -> Bools:
        """S x K: the supply was read at ``level`` V of a 12 V system or more; where nobody read it, it was not.
        ``volts``: S x K, as read, NaN where it was not."""
        return np.asarray(np.nan_to_num(volts / self.scale[:, None], nan=0.0) >= level)

    def mended(self, book: Casebook) -> Bools:
        """N x K: something was repaired or replaced that the fault is about, or that its module watches. A sensor of
        speed is proved by a drive alone: that it was replaced mends nothing yet."""
        found = np.asarray(self.repaired[book.fault_module])
        for fault, column in self.renewed.items():
            found[fault, column] |= "speed sensor" not in book.facts[fault].title
        return found

    def gone_in_tests(self, shape: tuple[int, ...]) -> Bools:
        """N x K: absences that a part which was unplugged accounts for: they say nothing of now."""
        found = np.zeros(shape, dtype=bool)
        for test in self.tests.values():
            found[test.went, test.column] = True
        return found

    def never_took(self, module: int, column: int) -> bool:
        """Whether a clear was refused by the module and none taken by it, up to a snapshot."""
        upto = slice(0, column + 1)
        return bool(self.refused[module, upto].any()) and not bool((self.clear[module, upto] >= 0.5).any())


class AtConnector(NamedTuple):
    """What was measured at the connector of a module. ``lost``: the pin that has nothing; ``sound``: those that are
    good; ``words``: the figures, "0.3 V on its feed, supply 13.4 V"; ``holder``: of a network that was measured, the
    module that holds it down; ``blown``: the note of a fuse or link that is open; ``fuse``: the fuse that was found
    open and that it is told to hang on; ``wired``: both ends of its network answer where its own plug is; ``how`` the
    lost pin is lost: "has no feed", "loses 1.9 V on its ground"; ``alive``: a module may work on what it leaves."""

    lost: Pin | None
    sound: frozenset[Pin]
    words: str
    holder: str = ""
    blown: str = ""
    fuse: str = ""
    wired: bool = False
    how: str = ""
    alive: bool = False


@dataclass(slots=True)
class Story:
    """What would explain the reports of one session. ``decibans``: against the supply event alone."""

    kind: str                 # "silent module", "branch", "gateway", "network", "lone reporter"
    about: str                # the module or branch to check first
    modules: list[int]        # silent modules it explains
    reporters: list[int]      # modules that report their loss
    contradicting: list[str]  # what does not fit
    decibans: float
    rivals: list[str] = field(default_factory=list)  # what a check has to tell apart
    pins: AtConnector | None = None  # what was measured at the connector of a silent module
    head: int = -1            # of kind "network": the fault that reports the network they are on
    held: str = ""            # likewise: what was measured on its wires that lets nobody answer
    by: int = -1              # likewise: the module with which unplugged the others answer
    fitted: str = ""          # why a silent module that never answered should be there, where somebody says so


class FeedLoss(NamedTuple):
    """A module that lost its own feed for a moment: the ``reports`` of its loss and its ``own`` codes of that feed."""

    module: int
    reports: list[int]
    own: list[int]


class Contradiction(NamedTuple):
    """A reading that a sound part would not give: what it says and how much it counts for a fault."""

    what: str      # in words, with the value
    source: str    # the rule and where it comes from
    ratio: float   # odds ratio, above 1: how much likelier the reading is where the fault is hard


class Recurrence(NamedTuple):
    """What an earlier session says of a fault: in words, and the odds ratios it gives; none is below 1."""

    what: str
    hard: float
    intermittent: float


@dataclass(slots=True)
class Links:
    """Which fault speaks of which module."""

    relation: Ints       # N: 0 none, else 1 + place in RELATIONS
    target: Ints         # N: module it points to in the same session, -1 none or not in the session
    target_state: Ints   # N x K: ANSWERS, SILENT, NOT_ASKED of the target
    target_active: Ints  # N x K: 1 the target holds a fault of its own, 0 it holds none, -1 not readable
    lost: Floats         # N: chance that the module reported lost is dead or cut off, 0 where it answers
    proven: Bools        # N: it is silent at good supply, so the report is true while that lasts
    unexplained: Floats  # N: share of its silence that a low supply does not account for, 1 at good supply
    silent: Floats       # M: chance that a silent module is dead or cut off
    supply_codes: Ints   # S x K: modules that hold a supply code in this snapshot
    supply_peers: Ints   # S x K: modules that answered in this snapshot
    lone: Ints           # N x K: 1 its module alone holds a low-supply code since the clear, 2 at a full supply, else 0
    events: list[SupplyEvents]  # S: the supply events that codes and readings prove
    stories: dict[int, list[Story]] = field(default_factory=dict)  # session -> stories, where a module is silent
    contradictions: dict[int, Contradiction] = field(default_factory=dict)  # fault -> the strongest reading for it
    feed_losses: dict[int, list[FeedLoss]] = field(default_factory=dict)  # session -> modules that lost their feed
    findings: dict[int, list[str]] = field(default_factory=dict)  # session -> what its readings say, a sentence each
    shared: dict[int, list[SharedSilence]] = field(default_factory=dict)  # session -> modules silent at the same times
    recurrences: dict[int, Recurrence] = field(default_factory=dict)  # fault -> what an earlier session says of it


RELATIONS = ("pointer", "lost communication", "invalid data", "incompatible software", "bus")
POINTER, LOST, INVALID, INCOMPATIBLE, BUS = 1, 2, 3, 4, 5
