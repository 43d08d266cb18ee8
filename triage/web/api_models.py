"""What programs send and get over HTTP. Objects of the job file and the verdict are used as they are."""

from __future__ import annotations

from datetime import datetime
from typing import Annotated, Literal, NotRequired

from pydantic import BaseModel, ConfigDict, Field
from typing_extensions import TypedDict

from triage.model.notices import NoticeJson
from triage.model.session import Event, Vehicle
from triage.model.snapshot import Engine, OutsideSupply, Phase, Snapshot
from triage.model.verdict import Cause, Standing

Cured = Literal["yes", "no", "unknown"]
#: A name of a session as it can be opened here.
Name = Annotated[str, Field(min_length=1, max_length=200)]
Volts = Annotated[float, Field(ge=0, le=40)]
Text = Annotated[str, Field(min_length=1, max_length=8_000_000)]
Short = Annotated[str, Field(max_length=200)]
Number = Annotated[int, Field(ge=1, le=2**53)]


class Sent(BaseModel):
    """Base of what is sent: an unknown key is an error."""

    model_config = ConfigDict(extra="forbid", allow_inf_nan=False)


class Nothing(Sent):
    """A query without values."""


class OfSession(Sent):
    """The session that is meant."""

    name: Name


class ByWhom(OfSession):
    """The session that is meant, and who makes the entry."""

    who: Short | None = None


class VerdictQuery(OfSession):
    """Which verdict, and whether with the sums of the faults."""

    ledger: Literal["yes", "no"] = "no"


class CompareQuery(Sent):
    """Two sessions by name."""

    earlier: Name
    later: Name


class NewSession(Sent):
    """A session to be opened."""

    name: Name
    vehicle: Vehicle | None = None


class PasteSent(Sent):
    """A scan as text. ``phase`` as in the job file; without it the text says, else it is guessed and said."""

    text: Text
    phase: Phase | None = None
    source: Short | None = None
    who: Short | None = None


class Read(Sent):
    """A text to be read, not kept."""

    text: Text


class Correction(Sent):
    """Fields of a snapshot said otherwise; null says "not known". A module is named by its place from 0."""

    snapshot: Number
    phase: Phase | None = None
    volts: Volts | None = None
    lowest_volts: Volts | None = None
    outside_supply: OutsideSupply | None = None
    engine: Engine | None = None
    ran_minutes: Annotated[float, Field(ge=0, le=100_000)] | None = None
    module: Annotated[int, Field(ge=0, le=100_000)] | None = None
    rename: Annotated[str, Field(min_length=1, max_length=120)] | None = None


class TraceSent(Sent):
    """A voltage trace as rows of times and volts."""

    text: Text
    label: Short | None = None


class OutcomeSent(Sent):
    """What was done about a fault, by any name of its module and any spelling of its code; or about all the rest.

    ``rest``: every fault without an outcome, once those of the short list have theirs.
    """

    module: Short | None = None
    code: Short | None = None
    rest: bool = False
    done: Annotated[str, Field(min_length=1, max_length=300)]
    cured: Cured
    found: Cause | None = None


class Problem(TypedDict):
    """What went wrong, in one line."""

    error: str


class SessionLine(TypedDict):
    """One session of the list."""

    name: str
    vehicle: Vehicle | None
    opened_at: datetime
    last_at: datetime
    snapshots: int
    entries: int
    struck: int


class KeptSnapshot(TypedDict):
    """A snapshot that was kept: its number for corrections, its phase and why that phase."""

    id: int
    phase: Phase | None
    phase_why: str


class Kept(TypedDict):
    """What came of a paste."""

    entry: int
    snapshots: list[KeptSnapshot]
    notices: list[NoticeJson]


class Added(TypedDict):
    """The entry that was added."""

    entry: int


class Entry(TypedDict):
    """One act of the record, in words."""

    entry: int
    kind: str
    recorded_at: datetime
    who: str | None
    struck_at: datetime | None
    words: str


class OutcomeTold(TypedDict):
    """One outcome; ``said``: the probability (0..1) that the fault persists, by the verdict it is held against."""

    entry: int
    recorded_at: datetime
    who: str | None
    module: str
    code: str
    failure_type: str | None
    done: str
    cured: Cured
    found: Cause | None
    said: float | None
    standing: Standing | None


class FaultNamed(TypedDict):
    """One fault as the session names it."""

    module: str
    code: str
    failure_type: str | None


class Recorded(TypedDict):
    """The faults whose outcome was recorded, and how many of the session still keep the rates from learning."""

    faults: list[FaultNamed]
    lacking: int


class BinTold(TypedDict):
    """What was said (0..1, the mean) and the share that came true, of the forecasts from ``low`` to ``high``."""

    low: float
    high: float
    count: int
    said: float
    came_true: float


class RateTold(TypedDict):
    """A rate of the tables, what outcomes said for and against it, the rate that is used and its standard deviation."""

    table: float
    hits: int
    misses: int
    used: float
    spread: float
    shown: str


class CalibrationTold(TypedDict):
    """What was said against what came true; ``percentages``: whether there are enough outcomes to show them."""

    outcomes: int
    brier: float | None
    share: float | None
    percentages: bool
    bins: list[BinTold]
    rates: dict[str, RateTold]
    not_counted: dict[str, int]


class Understood(TypedDict):
    """What was understood of a text."""

    snapshots: list[Snapshot]
    vehicle: Vehicle | None
    events: list[Event]
    notices: list[NoticeJson]


class SegmentTold(TypedDict):
    """A stretch of a trace; levels and period of cycling alone. Seconds and volts."""

    kind: str
    start_s: float
    end_s: float
    volts: float
    low_volts: NotRequired[float]
    high_volts: NotRequired[float]
    period_s: NotRequired[float]


class FindingTold(TypedDict):
    """One thing a trace says; the unit is the end of the name of a figure."""

    kind: str
    text: str
    figures: dict[str, int | float | str | None]
    source: str


class TraceSaid(TypedDict):
    """What a trace says; ``entry`` of the record. Seconds and volts."""

    entry: int
    segments: list[SegmentTold]
    findings: list[FindingTold]
    notices: list[NoticeJson]


class Compared(TypedDict):
    """Two sessions side by side, each list in lines for a person."""

    earlier: str
    later: str
    remark: str
    wrong: list[str]
    doubtful: list[str]
    not_held: list[str]
    established: list[str]
    came_back: list[str]
    still_there: list[str]
    new: list[str]
    explained: list[str]
    not_seen_now: list[str]
    not_read_now: list[str]
    supply: list[str]
