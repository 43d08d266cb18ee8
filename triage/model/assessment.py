"""One session assessed: the verdict together with everything a page says about it. Reports render this alone."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from triage.model.notices import Notice
from triage.model.session import Session
from triage.model.verdict import FaultVerdict, NextCheck, Verdict

Sight = Literal["seen", "not seen", "not readable"]


@dataclass(slots=True)
class Column:
    """One snapshot as a column head. Volts at the connector; None: nobody read it."""

    name: str                  # "1 before clear"
    at: str | None             # date and time as text, UTC offset kept
    volts: float | None
    lowest_volts: float | None
    engine: str | None
    outside_supply: str | None
    minutes: float | None      # engine run since the snapshot before
    modules: int               # answered
    silent: int                # asked and silent
    codes: int                 # read in this snapshot


@dataclass(slots=True)
class Mark:
    """One fault in one snapshot; ``volts`` is the module's own supply, else the connector's."""

    sight: Sight
    status: str | None
    volts: float | None


@dataclass(slots=True)
class FaultLine:
    """One fault with its reasons, ready to be shown."""

    verdict: FaultVerdict
    printed: str               # the module as the scan printed it
    title: str                 # what the code means, in short words
    failure: str | None        # what its failure type means
    system: str                # "brakes", "engine", ...
    safety: str | None
    band: str                  # words before decibans: "all but certain", "likely", "open", ...
    why: list[str]             # plain sentences, strongest first
    clean: str | None          # how long clean is clean, with the condition it holds for
    note: str | None           # edition conflict or other warning about the code
    marks: list[Mark]          # one a column
    monitor: str = "key on"    # what its monitor needs to run
    record: bool = False       # a stored record of a crash, which is no fault of now
    reaches: frozenset[str] = frozenset()  # systems and safety classes of its module and of one that it finds silent
    came_back: bool = False    # it went and came back at a good supply, so that quiet runs rule nothing out


@dataclass(slots=True)
class Root:
    """One line of the short list: a fault, or a silent module with all the reports of its loss."""

    title: str
    system: str
    safety: str | None
    decibans: float
    why: list[str]
    needs: str
    lines: list[FaultLine]     # the fault itself, or the reports
    reaches: set[str] = field(default_factory=set)  # systems in which it shows: of what repeats it and what is silent


@dataclass(slots=True)
class Group:
    """Faults told together: the unsettled by the step that settles them, the set aside by their reason."""

    head: str
    why: str
    lines: list[FaultLine]
    safety: bool = False


@dataclass(slots=True)
class Assessment:
    """What the lead technician is told, in the order it is told."""

    session: Session
    verdict: Verdict
    columns: list[Column]
    headline: str              # the supply in one line
    complaint: str | None      # the complaint, and what the verdict says to it
    short_list: list[Root]
    unsettled: list[Group]
    set_aside: list[Group]
    count: str                 # "74 read = 3 + 19 + 52"
    next_checks: list[NextCheck]
    cautions: list[str]
    stories: list[str] = field(default_factory=list)  # silent modules, clears that did not take, supply events
    would_change: list[str] = field(default_factory=list)  # what would change the verdict
    notices: list[Notice] = field(default_factory=list)
    verification: list[VerificationLine] = field(default_factory=list)  # what is shown gone since the repair or clear
    gates: list[str] = field(default_factory=list)  # work to be finished before anything is concluded
    after_work: list[str] = field(default_factory=list)  # faults that first appeared after work


VerificationState = Literal["still there", "not yet proven", "outlives a clear", "stored event", "shown gone", "proven",
                            "ready", "not ready"]


@dataclass(slots=True)
class VerificationLine:
    """One fault seen before the repair (or clear), one part of the supply, or the readiness under one inspection rule,
    as it stands since."""

    printed: str               # the module as the scan printed it; "readiness" for an inspection rule; a supply part
    code: str                  # with its failure type; the rule for readiness; empty for a part of the supply
    state: VerificationState
    why: str                   # on what grounds, with the conditions they hold for
    proves: str | None         # what run would prove it; None: nothing more is needed
    fault: str = ""            # the fault as it is named in lists of checks
