"""What the readers of single rows share: builder, names, style of the text, and where the reading stands."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any, Literal

from triage.intake.codes.pieces import Legend
from triage.intake.lines.row import Row
from triage.intake.naming.names import Names
from triage.intake.said import dates, happenings, volts
from triage.intake.said.clearanswers import Part
from triage.intake.said.pins import PinPath
from triage.intake.scan import between
from triage.intake.scan.assembly import Builder, CodeDraft, SnapshotDraft
from triage.intake.scan.style import Style
from triage.model.connector_words import Pin
from triage.model.snapshot import ListRead, Phase, Reading, StatusWord

#: What the next lines that are only names stand for, after a heading such as "No answer:".
ListOf = Literal["silent", "clean", "not fitted", "not scanned"]


@dataclass(slots=True)
class Connector:
    """The connector of a module at which somebody measures; ``at``: the row that spoke of it last."""

    module: str
    at: int
    #: What its pins are, by their numbers, and the feeds that have the supply to battery minus.
    roles: dict[str, Pin] = field(default_factory=dict)
    fed: set[str] = field(default_factory=set)
    #: What was read between two of its pins.
    across: list[tuple[Reading, PinPath]] = field(default_factory=list)


@dataclass(slots=True)
class Context:
    """The state of reading one text from top to bottom."""

    builder: Builder
    names: Names
    style: Style
    rows: list[Row]
    translated: bool
    order: dates.Order | None
    legend: Legend = ()
    #: The status of the codes that have no mark of the legend.
    unmarked: StatusWord | None = None
    page_marks: set[int] = field(default_factory=set)
    #: A heading of a list of codes ("Pending codes:"); ``section_of_module`` while it belongs to one module.
    section: StatusWord | None = None
    section_of_module: bool = False
    #: The status that the whole text tells a line to head a list with, by its place.
    status_places: dict[int, StatusWord] = field(default_factory=dict)
    list_of: ListOf | None = None
    live_data: bool = False
    #: Where the last code's line ended, for lines that go on with its description.
    open_code: CodeDraft | None = None
    open_row: Row | None = None
    tail: str = ""
    tail_status: StatusWord | None = None
    heading_indent: int = 0
    #: The marks before the module's name in its heading ("---", "##").
    heading_lead: str = ""
    #: A rule stands right below it.
    heading_ruled: bool = False
    #: The module came from a heading: rows without one are its own.
    under_heading: bool = False
    blanks: int = 0
    #: A blank line stood since the last row about a module.
    parted: bool = False
    pending_values: dict[str, str] = field(default_factory=dict)
    in_freeze_frame: bool = False
    complaint_open: bool = False
    facts: happenings.Facts = field(default_factory=lambda: happenings.Facts())
    asked_order: bool = False
    #: Snapshots by the value of a scan column.
    scans: dict[str, SnapshotDraft] = field(default_factory=dict)
    #: The time of the scan by row, in a table that says it in every row.
    row_times: dict[int, datetime] = field(default_factory=dict)
    pending_freeze_volts: float | None = None
    #: Rows about the scan that stand after the modules of one and may belong to the next.
    held: list[between.Held] = field(default_factory=list)
    #: Where this text keeps its voltages, once that is asked.
    habit: between.Habit | None = None
    #: The supply of scans that a line tells together by their phases.
    supply_by_phase: dict[Phase, float] = field(default_factory=dict)
    #: The place of the row being read.
    at: int = 0
    #: The place of the last row that told of the scan and of no module.
    told_at: int = -1
    #: Supply voltages used, to judge them together at the end.
    volts_seen: list[tuple[float, Row, volts.Volt]] = field(default_factory=list)
    last_date: datetime | None = None
    #: Codes stand as far left as their headings: indentation says nothing in this text.
    flat: bool = False
    #: Whether long lines go on further right than their codes.
    hanging: bool = False
    #: Every heading of the text has its number.
    numbered: bool = False
    #: What tells a heading by what stands behind its name, where every heading of the text has that.
    head_mark: Callable[[Row], bool] | None = None
    key_block: bool = False
    #: The places of lines with the voltage of the module in the line above.
    own_volts: set[int] = field(default_factory=set)
    #: A line that is a status and nothing else heads the lines with codes below it in this text.
    status_heads: bool = False
    #: How far right the first name of a list stands ("No answer:").
    list_item: tuple[str, int] | None = None
    #: The name found in a text that starts at a place of its row; a long paste holds most of its lines again and again.
    headings: dict[tuple[str, int], Any] = field(default_factory=dict)
    #: By mark: how many lines put it between a listed name and what is said of the module.
    marked: dict[str, int] = field(default_factory=dict)
    #: Whether descriptions stand in the line below their codes, once that is asked.
    described_below: bool | None = None
    #: Unknown names that stand before codes in this text, once that is asked.
    coded_names: frozenset[str] | None = None
    #: The clauses of the sentence being read.
    clauses: tuple[Row, list[Any]] | None = None
    #: The longest line of the text: one that ends near it may have been wrapped.
    width: int = 80
    #: The longest line with a code, for lines of a text that was wrapped narrower than its head.
    code_width: int = 80
    #: The length of the longest description in a column behind the codes, and whether the headings of the text stand
    #: behind blank lines, once that is asked.
    told_width: int | None = None
    set_apart: bool | None = None
    #: Whether the rest of a description stands below it in its column, once that is asked.
    wraps_in_column: bool | None = None
    #: By the place of a row: what a module answered to the clear that a row above tells of.
    clear_answers: dict[int, Part] = field(default_factory=dict)
    #: How many headings stood behind a blank line, and how many did not.
    headings_after_blank: int = 0
    headings_direct: int = 0
    #: The place of the last row of a test of what the vehicle draws with the key off.
    drawing: int | None = None
    #: That of the last row that heads or lists monitors and whether they have run.
    readiness: int | None = None
    #: The connector that was measured last.
    connector: Connector | None = None
    #: The places of rows in which measurements may stand.
    measured_rows: list[int] = field(default_factory=list)
    #: The text speaks of a scan without naming a module ("all modules: no codes").
    saw_scan: bool = False

    def refuse(self, row: Row) -> None:
        """A warning for each place of the row that looks like a code and can't be read as one."""
        if row.finds.refusals and self.builder.module is not None:
            self.builder.module.unclear = True
        for refusal in row.finds.refusals:
            self.builder.notice(
                "warning", refusal.message, row.line, row.start + refusal.start, row.start + refusal.end
            )

    def section_status(self) -> StatusWord | None:
        """The status that the heading of the list gives, if one is open."""
        return self.section

    def close_module(self) -> None:
        """Forget what belongs to the module just read."""
        if self.section_of_module:
            self.section, self.section_of_module = None, False
        self.open_code = self.open_row = None
        self.in_freeze_frame = False
        self.pending_values = {}

    def saw_list(self, name: ListRead) -> None:
        """Note that a list of codes was read."""
        lists = self.builder.snapshot.said.lists_read
        if name not in lists:
            lists.append(name)
