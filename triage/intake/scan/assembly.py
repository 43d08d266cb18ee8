"""Assembly: what the lines say, gathered into snapshots, modules and codes from the top of the text to its end."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from datetime import datetime, time
from typing import Any

from triage.intake.codes.finds import Found
from triage.intake.plain.characters import Line
from triage.intake.plain.characters import low as small
from triage.intake.said.conditions import Conditions
from triage.intake.said.voltengines import Both
from triage.model.notices import Notice, Severity
from triage.model.session import Event
from triage.model.snapshot import Completeness, Phase, Reading, StatusWord

#: The stand-in for the module of codes that no name stands with.
NOT_STATED = "module not stated"


@dataclass(slots=True)
class CodeDraft:
    """One code of one module, on its way."""

    code: str
    failure_type: str | None
    status: StatusWord | None
    status_byte: int | None
    text: str | None = None
    count: int | None = None
    freeze: dict[str, float] = field(default_factory=dict)
    #: It is stored by the heading of its list or the count above it: a status of its own says more.
    listed: bool = False


@dataclass(slots=True)
class ModuleDraft:
    """One module of one snapshot. ``answer`` is "silent", "clean", "left out" or None (it gave codes, or nothing
    is said)."""

    printed: str
    line: Line
    start: int
    end: int
    answer: str | None = None
    volts: float | None = None
    #: Its voltage stands in a line of its own that is not set in below the heading: it may be the vehicle's.
    volts_in_line: bool = False
    codes: list[CodeDraft] = field(default_factory=list)
    stated: tuple[int, Line, int, int] | None = None
    guessed: bool = False
    canonical: str | None = None
    status_mask: int | None = None
    #: Something stands under it that was not understood: without codes it is not clean.
    unclear: bool = False
    #: The first ``indexed`` of ``codes`` by their number, so that a long list is not gone through for every code.
    by_number: dict[str, list[CodeDraft]] = field(default_factory=dict)
    indexed: int = 0

    def entries(self, number: str) -> list[CodeDraft]:
        """The entries of one code, in their order."""
        while self.indexed < len(self.codes):
            draft = self.codes[self.indexed]
            self.by_number.setdefault(draft.code, []).append(draft)
            self.indexed += 1
        return self.by_number.get(number, [])


@dataclass(slots=True)
class SnapshotDraft:
    """One snapshot on its way."""

    #: Its place among the snapshots as they began.
    number: int = 0
    phase: Phase | None = None
    #: It has a name by which it may go on later.
    named: bool = False
    at: datetime | None = None
    #: The date and time as printed, where day and month can't be told apart.
    written: str = ""
    said: Conditions = field(default_factory=Conditions)
    volts: float | None = None
    #: ``volts`` were read before the battery was charged for the scan.
    volts_before: bool = False
    #: The line that told ``volts``, and where they end in it; the line behind it that told of an outside supply.
    volts_at: tuple[int, int] | None = None
    fed_at: int | None = None
    #: ``volts`` were told in a line that names no scan, above its heading: what else they may be.
    volts_loose: Reading | None = None
    #: ``volts`` may be what the vehicle is made for: a round value without a label.
    volts_nominal: bool = False
    #: ``volts`` are those of a second battery: the number of the line that told them.
    volts_second: int | None = None
    lowest: float | None = None
    #: Two readings, with the engine off and running, and the line that told them.
    by_engine: tuple[Both, Line] | None = None
    end_volts: float | None = None
    #: The voltages in the rows of a table that has a column for them.
    column_volts: list[float] = field(default_factory=list)
    #: What a column for the voltage of the scan holds in the rows of this one.
    row_volts: set[float] = field(default_factory=set)
    modules: dict[str, ModuleDraft] = field(default_factory=dict)
    readings: list[Reading] = field(default_factory=list)
    readiness: dict[str, Completeness] | None = None
    left_out: list[str] = field(default_factory=list)
    #: Where the text says that all modules it does not name hold no codes: line and span.
    rest_clean: tuple[Line, int, int] | None = None
    #: The time of day in the row that it starts with.
    clock: time | None = None
    #: What was changed before it, in the order of the text: it holds where the scan itself says nothing of it.
    changes: list[Conditions] = field(default_factory=list)
    #: Where the text says that it holds the codes of the scan before: line and span.
    like_above: tuple[Line, int, int] | None = None
    #: The status that the text says all codes have that none stands beside.
    of_all: StatusWord | None = None

    @property
    def empty(self) -> bool:
        """Whether nothing has been read of a module yet; a name alone is a heading at most."""
        if self.left_out or self.rest_clean is not None or self.like_above is not None:
            return False
        for module in self.modules.values():
            if module.codes or module.answer is not None or module.stated is not None:
                return False
        return True


class Builder:
    """Gathers one text. ``snapshot`` is the one being read, ``module`` and ``code`` the last that were named."""

    def __init__(self, source: str | None, as_written: Callable[[str], str] = str) -> None:
        self.source = source
        #: Puts back what stood in the text where a word stands for another.
        self.as_written = as_written
        self.snapshots: list[SnapshotDraft] = [SnapshotDraft()]
        self.notices: list[Notice] = []
        self.events: list[Event] = []
        self.vehicle: dict[str, Any] = {}
        #: The nominal voltage is that of a battery, of which a vehicle may have two in series.
        self.of_one_battery = False
        self.module: ModuleDraft | None = None
        self.code: CodeDraft | None = None
        #: A heading repeated: a new snapshot only if a module comes again; those named above the heading.
        self._above_heading: frozenset[str] | None = None
        # The module named last, and whether one was named again in the next row, or behind others.
        self._last, self._again, self._returned = "", False, False
        self.next_phase: Phase | None = None
        #: A status of all codes of the snapshot that a heading announced.
        self.next_of_all: StatusWord | None = None
        self._keys: dict[str, str] = {}
        #: By code: the modules of a name that hold it, in all snapshots.
        self._held: dict[str, list[ModuleDraft]] = {}
        self.restated: list[tuple[int, Line, int, int]] = []

    @property
    def snapshot(self) -> SnapshotDraft:
        """The snapshot being read."""
        return self.snapshots[-1]

    @property
    def may_restart(self) -> bool:
        """Whether a module that comes again does so in another snapshot, with all that were named since it may."""
        return self._above_heading is not None

    @may_restart.setter
    def may_restart(self, may: bool) -> None:
        self._above_heading = frozenset(self.snapshot.modules) if may else None

    def notice(
        self, severity: Severity, message: str, line: Line | None = None, start: int = 0, end: int = 0
    ) -> None:
        """A remark, at a place of the line in plain characters."""
        message = self.as_written(message)
        if line is None:
            self.notices.append(Notice(severity, message, self.source))
            return
        # A name may have got a bracket that was cut off in the text.
        length = len(line.text)
        begin, stop = line.span(min(start, length), min(end, length))
        self.notices.append(Notice(severity, message, self.source, line.number, begin, stop, line.raw))

    def new_snapshot(self, phase: Phase | None = None, *, named: bool = False) -> SnapshotDraft:
        """Start a snapshot, unless the one being read is still empty. ``named``: even if it is, where it has a name."""
        if not self.snapshot.empty or (named and self.snapshot.named):
            self.snapshots.append(SnapshotDraft(number=max(draft.number for draft in self.snapshots) + 1))
        self.module = self.code = None
        self.may_restart = False
        self._last, self._again, self._returned = "", False, False
        if phase is not None:
            self.snapshot.phase = phase
        self.snapshot.of_all, self.next_of_all = self.next_of_all or self.snapshot.of_all, None
        return self.snapshot

    def say_of_all(self, status: StatusWord) -> None:
        """Set the status of all codes of the snapshot being read, or of the next one where its heading stands above."""
        if not self.snapshot.empty and (self.may_restart or self.next_phase is not None):
            self.next_of_all = status
        else:
            self.snapshot.of_all = status

    def begin_next(self) -> None:
        """Begin the scan that what was done tells of, where nothing of it was read yet."""
        if self.next_phase is None:
            return
        if not self.snapshot.empty:
            self.new_snapshot(self.next_phase)
        elif self.snapshot.phase is None:
            self.snapshot.phase = self.next_phase
        self.next_phase = None

    def name_module(self, printed: str, line: Line, start: int, end: int, guessed: bool = False) -> ModuleDraft:
        """The module of that printed name in the snapshot being read; made if it is not there."""
        printed = " ".join(printed.split()) if "  " in printed else printed
        key = self._keys.get(printed)
        if key is None:
            key = self._keys[printed] = " ".join(small(printed).split())
        self.begin_next()
        module = self.snapshot.modules.get(key)
        if module is not None and self._above_heading is not None and key in self._above_heading:
            if self._returned or (self._again and key == self._last):
                # Each row has its module: what stood between two rows is in the list, and begins no other.
                self.may_restart = False
            else:
                self._restart(self._above_heading)
                module = None
        if module is not None:
            self._again, self._returned = self._again or key == self._last, self._returned or key != self._last
        self._last = key
        if module is None:
            module = ModuleDraft(printed, line, start, end, guessed=guessed)
            self.snapshot.modules[key] = module
        if self.module is not module:
            self.code = None
        self.module = module
        return module

    def _restart(self, above: frozenset[str]) -> None:
        """Start a snapshot of the same phase with all modules that were named below its heading."""
        before = self.snapshot
        below = {key: before.modules.pop(key) for key in [*before.modules] if key not in above}
        if before.empty:
            # What stood above says nothing of a module.
            before.modules |= below
            return
        self.new_snapshot(before.phase).modules.update(below)

    def unnamed(self, code: Found | None, line: Line, offset: int) -> ModuleDraft:
        """The module of a code that no name stands with: the only one that held it in the scans before ("came back with
        C0035"), else a stand-in."""
        start, end = (offset + code.start, offset + code.end) if code else (offset, offset)
        now = {} if self.next_phase is not None else self.snapshot.modules
        holders = {small(module.printed): module.printed for module in self._held.get(code.text if code else "", ())
                   if now.get(" ".join(small(module.printed).split())) is not module}
        if len(holders) == 1:
            (printed,) = holders.values()
            self.notice("note", f"no module is named: taken for {printed}, which held it before", line, start, end)
            module = self.name_module(printed, line, start, end)
            # What follows is looked up for itself.
            self.module = None
            return module
        if NOT_STATED not in self.snapshot.modules:
            self.notice("warning", "no module is named for this code: put its name before the code or in a line above",
                        line, start, end)
        return self.name_module(NOT_STATED, line, offset, offset, guessed=True)

    def answer(self, module: ModuleDraft, answer: str) -> None:
        """Set what a module did; one that is not fitted or was not scanned leaves the snapshot."""
        if answer in ("not fitted", "not scanned"):
            self.leave_out(module, answer)
        elif module.answer is None or (answer == "silent" and not module.codes):
            module.answer = answer

    def leave_out(self, module: ModuleDraft, why: str) -> None:
        """Take a module that is not fitted or was not scanned out of the snapshot again."""
        key = " ".join(small(module.printed).split())
        if not module.codes:
            self.snapshot.modules.pop(key, None)
        self.snapshot.left_out.append(module.printed)
        self.notice("note", f"{module.printed}: {why}, left out of the scan", module.line, module.start, module.end)
        if self.module is module:
            self.module = self.code = None

    def add_code(
        self, module: ModuleDraft, found: Found, status: StatusWord | None, text: str | None, line: Line, offset: int
    ) -> CodeDraft:
        """Put a code into a module; the same code with the same failure type and status is kept once."""
        if found.slip is not None:
            shown = line.text[offset + found.start : offset + found.end]
            self.notice("note", f"{shown} read as {found.slip}", line, offset + found.start, offset + found.end)
        draft = self._same(module.entries(found.text), found, status)
        if draft is None:
            draft = CodeDraft(found.text, found.failure_type, status, found.status_byte, text)
            self.hold(module, draft)
        else:
            draft.status = draft.status or status
            draft.failure_type = draft.failure_type or found.failure_type
            draft.status_byte = found.status_byte if draft.status_byte is None else draft.status_byte
            draft.text = draft.text or text
        self.code = draft
        return draft

    def hold(self, module: ModuleDraft, draft: CodeDraft) -> None:
        """Put a code into a module that does not hold it."""
        module.codes.append(draft)
        if module.printed != NOT_STATED:
            self._held.setdefault(draft.code, []).append(module)

    @staticmethod
    def _same(codes: Iterable[CodeDraft], found: Found, status: StatusWord | None) -> CodeDraft | None:
        """The entry that a code seen again belongs to: nothing in it may contradict."""
        for draft in codes:
            if found.failure_type == draft.failure_type and (
                status is None or draft.status is None or status == draft.status
            ):
                return draft
        return None

    def say(self, said: Conditions, snapshot: SnapshotDraft | None = None) -> None:
        """Add what a line says of the state of the vehicle, in a snapshot or that being read; the first statement of
        each kind stands."""
        have = (snapshot or self.snapshot).said
        if said.engine is not None and (have.engine is None or (have.engine_passed and not said.engine_passed)):
            # "After 10 minutes idling" tells of the engine only where nothing else does.
            have.engine, have.engine_passed = said.engine, said.engine_passed
        for name in (
            "ran_minutes",
            "drove",
            "max_speed_kmh",
            "coolant_c",
            "outside_supply",
            "warm_ups",
            "distance_km",
            "minutes",
            "low_seconds",
        ):
            value = getattr(said, name)
            if value is not None and getattr(have, name) is None:
                setattr(have, name, value)
        # "Idled 10 min", and below it "road test 8 km".
        have.drove = have.drove or said.drove
        if said.lamps is not None:
            have.lamps = [*(have.lamps or []), *(lamp for lamp in said.lamps if lamp not in (have.lamps or []))]
        have.lists_read += [name for name in said.lists_read if name not in have.lists_read]
