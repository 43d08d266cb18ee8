"""From sessions to the casebook: every fault against every snapshot, seen, not seen or not readable.

A module that stayed silent, was not scanned, or answered with its list in doubt gives no sighting either way.
A code with a status byte whose failure bits are all clear (only "not tested" bits set, for example 50 hex) is in
the list because it can be set, not because it was: it counts as not seen (ISO 14229-1, status of DTC).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import lru_cache
from typing import TYPE_CHECKING, Any

import numpy as np

from code_tables.in_module import in_module
from code_tables.printed import with_text
from triage.evidence.fitted import the_one_called
from triage.evidence.full_lists import mark_full_lists
from triage.evidence.supply_read import unlikely_volts, volts_or_nan
from triage.model.casebook import ANSWERS, NOT_ASKED, NOT_READABLE, NOT_SEEN, SEEN, SILENT, Casebook
from triage.model.notices import Notice
from triage.model.session import Session, printed_names, stamp
from triage.model.snapshot import PHASES, STATUS_WORDS, ModuleScan, Snapshot
from triage.model.status import CONFIRMED, FAILED_SINCE_CLEAR, FAILED_THIS_CYCLE, PENDING, TEST_FAILED, read_status

if TYPE_CHECKING:
    import pandas as pd

    from code_tables import CodeFacts, ModuleFacts

PHASE_INDEX = {phase: place for place, phase in enumerate(PHASES)}
STATUS_INDEX: dict[str | None, int] = {word: place for place, word in enumerate(STATUS_WORDS)}
STATUS_INDEX[None] = -1
#: Said by a status byte alone: tested in this cycle and not failing.
PASSING = len(STATUS_WORDS)
#: Bits that say a failure was ever found: failed now, this cycle, pending, confirmed, since clear.
FAILURE_BITS = 0x2F
UNKNOWN = float("nan")


def casebook(
    sessions: Sequence[Session],
    code_facts: Callable[[str, str | None], CodeFacts],
    module_facts: Callable[[str], ModuleFacts],
) -> Casebook:
    """The casebook of ``sessions``; ``code_facts`` and ``module_facts`` look up the tables."""
    orders, notices = [], []
    for session in sessions:
        order, told = snapshot_order(session)
        orders.append(order)
        notices.append(told + unlikely_volts(session))
    width = max((len(order) for order in orders), default=0) or 1
    gather = _Gatherer(width, code_facts, module_facts)
    for session, order in zip(sessions, orders, strict=True):
        gather.add(session, order)
    book = gather.finish(list(sessions), notices, orders)
    mark_full_lists(book)
    return book


@lru_cache(maxsize=65536)
def byte_says(byte: int, mask: int) -> tuple[int, int, int, int]:
    """The byte as kept, the word it stands for (a place in STATUS_WORDS, PASSING, or -1), tested since the clear,
    failed in this operation cycle or the one before.

    The last two are 1, 0 or -1 (the module does not tell). ISO 14229-1, status of DTC; ``mask``: the bits it keeps. A
    confirmed code is no longer pending when one whole cycle has passed it.
    """
    status = read_status(byte, mask)
    # Bit 0 is the latest result; where the module keeps the bits and none failed in this cycle, it is of an older one.
    stale = status.bit(FAILED_THIS_CYCLE) is False and status.bit(FAILED_SINCE_CLEAR) is True
    if status.now == "failing" and not stale:
        word = STATUS_INDEX["current"]
    elif status.now == "passing":
        word = PASSING
    else:
        word = STATUS_INDEX["confirmed" if status.confirmed else "pending" if status.pending else "stored"]
    tested = status.tested_since_clear
    lately = -1
    if byte & mask & (TEST_FAILED | FAILED_THIS_CYCLE | PENDING):
        lately = 1
    elif mask & PENDING and byte & mask & CONFIRMED:
        lately = 0
    return byte & mask, word, -1 if tested is None else int(tested), lately


def snapshot_order(session: Session) -> tuple[list[int], list[Notice]]:
    """Places of the snapshots in time order: by their times where all have one, else as they stand."""
    snapshots = session.snapshots
    order = list(range(len(snapshots)))
    told: list[Notice] = []
    stamps = [stamp(snapshot.at) for snapshot in snapshots if snapshot.at is not None]
    if len(order) > 1 and len(stamps) == len(order):
        by_time = sorted(order, key=lambda place: stamps[place])
        if by_time != order:
            told.append(Notice("warning", "the snapshots are not in the order of their times; they are taken by time"))
            order = by_time
    phases = [PHASE_INDEX[phase] for place in order if (phase := snapshots[place].phase) is not None]
    # "after-clear" after a run or a repair is a second clear, which is in order; a scan before the clear is not.
    if any(phase == 0 and any(before > 0 for before in phases[:at]) for at, phase in enumerate(phases)):
        told.append(Notice("warning", "a before-clear snapshot follows a later one: it is taken as it stands, "
                                      "as a new start; check the order of the files or their phases"))
    if snapshots and not any(phase > 0 for phase in phases):
        told.append(Notice("note", "no snapshot after a clear: nothing has been tested since"))
    return order, told


class _Gatherer:
    """Collects plain lists while it walks the sessions once, then turns them into arrays."""

    def __init__(
        self, width: int,
        code_facts: Callable[[str, str | None], CodeFacts], module_facts: Callable[[str], ModuleFacts],
    ) -> None:
        self.width = width
        self.code_facts = code_facts
        self.module_facts = module_facts
        self.snapshot_rows: list[tuple[float, ...]] = []
        self.snapshot_at: list[int] = []
        self.module_session: list[int] = []
        self.module_name: list[str] = []
        self.answered: list[int] = []
        self.silent: list[int] = []
        self.module_volts: list[tuple[int, float]] = []
        self.fault_session: list[int] = []
        self.fault_module: list[int] = []
        self.code: list[str] = []
        self.failure_type: list[str | None] = []
        #: Every code once, and which of them each fault is.
        self.kinds: dict[tuple[str, str | None], int] = {}
        self.kind: list[int] = []
        self.cell_at: list[int] = []
        self.cell_word: list[int] = []
        self.bytes: list[tuple[int, int, int, int, int]] = []
        #: Of the cells, those whose status byte has no failure bit.
        self.untouched: list[int] = []
        self.texts: dict[int, list[str]] = {}
        self.printed: list[dict[str, str]] = []
        self.counts: list[tuple[int, int]] = []
        self.frames: list[tuple[int, float | None, float | None, float | None, float | None]] = []
        self.first_fault = [0]
        self.first_module = [0]

    def add(self, session: Session, order: list[int]) -> None:
        """Take in one session."""
        here = len(self.first_fault) - 1
        width = self.width
        modules: dict[str, int] = {}
        holding: dict[int, list[tuple[int, ModuleScan]]] = {}
        answered, silent, known = self.answered.append, self.silent.append, modules.get
        free = len(self.module_name)
        printed: dict[str, str] = {}
        for column, place in enumerate(order):
            snapshot = session.snapshots[place]
            self.snapshot_at.append(here * width + column)
            self.snapshot_rows.append(snapshot_row(snapshot))
            for scan in snapshot.modules:
                # A field of a model is looked up by way of its class; its dictionary is half the way.
                said = scan.__dict__
                name, codes, volts = said["module"], said["codes"], said["volts"]
                module = known(name)
                if module is None:
                    module = modules[name] = free
                    free += 1
                at = module * width + column
                if said["printed"]:
                    printed[name] = said["printed"]
                if volts is not None:
                    self.module_volts.append((at, volts))
                if codes:
                    answered(at)
                    holding.setdefault(module, []).append((column, scan))
                elif said["responds"] is False:
                    silent(at)
                else:
                    answered(at)
        self.module_name += modules
        self.module_session += [here] * len(modules)
        self.first_module.append(free)
        for module in sorted(holding):
            self._add_codes(module, here, holding[module])
        self.first_fault.append(len(self.code))
        self.printed.append(printed if order == sorted(order) else printed_names(session))

    def _add_codes(self, module: int, here: int, scans: list[tuple[int, ModuleScan]]) -> None:
        """Take in the codes of one module in all its snapshots."""
        width = self.width
        faults: dict[tuple[str, str | None], int] = {}
        known, cell_at, cell_word = faults.get, self.cell_at, self.cell_word
        free = before = len(self.code)
        for column, scan in scans:
            mask = 255 if scan.status_mask is None else scan.status_mask
            for entry in scan.codes:
                said = entry.__dict__
                key = (said["code"], said["failure_type"])
                fault = known(key)
                if fault is None:
                    fault = faults[key] = free
                    free += 1
                at = fault * width + column
                byte, frame, count = said["status_byte"], said["freeze_frame"], said["count"]
                if said["text"]:
                    self.texts.setdefault(fault, []).append(said["text"])
                if byte is not None:
                    self.bytes.append((at, *byte_says(byte, mask)))
                    if not byte & FAILURE_BITS:
                        self.untouched.append(len(cell_at))
                cell_at.append(at)
                cell_word.append(STATUS_INDEX[said["status"]])
                if count is not None:
                    self.counts.append((at, count))
                if frame is not None:
                    stored = frame.__dict__
                    self.frames.append((at, stored["volts"], stored["distance_km"], stored["speed_kmh"],
                                        stored["engine_rpm"]))
        kinds = self.kinds
        for code, failure_type in faults:
            self.code.append(code)
            self.failure_type.append(failure_type)
            self.kind.append(kinds.setdefault((code, failure_type), len(kinds)))
        self.fault_module += [module] * (free - before)
        self.fault_session += [here] * (free - before)

    def finish(self, sessions: list[Session], notices: list[list[Notice]], orders: list[list[int]]) -> Casebook:
        """The arrays."""
        width, modules, faults = self.width, len(self.module_name), len(self.code)
        snapshots = np.full((len(sessions) * width, len(SNAPSHOT_FIELDS)), np.nan)
        snapshots[self.snapshot_at] = np.array(self.snapshot_rows).reshape(-1, len(SNAPSHOT_FIELDS))
        column = {name: snapshots[:, place].reshape(-1, width) for place, name in enumerate(SNAPSHOT_FIELDS)}
        state = np.full(modules * width, NOT_ASKED)
        # Two entries of one module in one snapshot: an answer from either is an answer.
        state[self.silent] = SILENT
        state[self.answered] = ANSWERS
        module_volts = np.full(modules * width, np.nan)
        for place, volts in self.module_volts:
            module_volts[place] = volts
        fault_module = np.array(self.fault_module, dtype=np.int64)
        grid = state.reshape(modules, width)
        kinds = [self.code_facts(code, failure_type) for code, failure_type in self.kinds]
        self._tell_in_place(kinds)
        answers, answer = _apart(kinds)
        module_facts = {name: self.module_facts(name) for name in set(self.module_name)}
        return Casebook(
            sessions=sessions, notices=notices, exists=column["exists"] == 1,
            phase=_whole(column["phase"]), volts=column["volts"], lowest=column["lowest"],
            low_seconds=column["low_seconds"], minutes=column["minutes"], drove=column["drove"],
            speed=column["speed"], coolant=column["coolant"], engine_on=column["engine_on"],
            outside=_whole(column["outside"]), pending_read=_whole(column["pending_read"]),
            module_session=np.array(self.module_session, dtype=np.int64), module_name=self.module_name,
            module_facts=[module_facts[name] for name in self.module_name], state=grid,
            module_volts=module_volts.reshape(modules, width),
            fault_session=np.array(self.fault_session, dtype=np.int64), fault_module=fault_module,
            code=self.code, failure_type=self.failure_type,
            facts=[kinds[kind] for kind in self.kind],
            kinds=answers, kind=np.array(answer, dtype=np.int64)[np.array(self.kind, dtype=np.int64)],
            first_fault=np.array(self.first_fault), first_module=np.array(self.first_module), order=orders,
            texts=self.texts, printed=self.printed,
            **self._cells(grid[fault_module] if faults else np.empty((0, width), dtype=np.int64)),
        )

    def _tell_in_place(self, kinds: list[CodeFacts]) -> None:
        """Give faults of which their module, or their printed text, says what their number does not a kind of their
        own."""
        more: dict[CodeFacts, int] = {}
        for fault, kind in enumerate(self.kind):
            facts, module = kinds[kind], self.fault_module[fault]
            holder = self.module_facts(self.module_name[module])
            told = in_module(facts, holder)
            if (texts := self.texts.get(fault)) is not None and not facts.known:
                told = with_text(told, texts, self.module_facts, holder.name, self._fitted_beside(module))
            if told is not facts:
                if told not in more:
                    more[told] = len(kinds)
                    kinds.append(told)
                self.kind[fault] = more[told]

    def _fitted_beside(self, holder: int) -> Callable[[str], ModuleFacts | None]:
        """What a name can mean among the other modules of the vehicle that ``holder`` is fitted to."""
        session = self.module_session[holder]
        others = [(self.module_name[module], self.printed[session].get(self.module_name[module], ""))
                  for module in range(self.first_module[session], self.first_module[session + 1]) if module != holder]

        def meant(name: str) -> ModuleFacts | None:
            listed = self.module_facts(name)
            if listed.sources and listed.name in {self.module_facts(module).name for module, _ in others}:
                return listed
            found = the_one_called(name, others)
            return self.module_facts(found) if found is not None else None

        return meant

    def _cells(self, module_state: Any) -> dict[str, Any]:
        """The arrays of fault x snapshot; ``module_state`` is N x K."""
        shape = module_state.shape
        seen = np.where(module_state == ANSWERS, NOT_SEEN, NOT_READABLE).reshape(-1)
        status, byte, count = (np.full(seen.size, -1) for _ in range(3))
        frames = np.full((4, seen.size), np.nan)
        # A byte without a failure bit: the code can be set, it was not. Listed twice, seen if either entry says so.
        cell_at = np.array(self.cell_at, dtype=np.int64)
        failed = np.ones(cell_at.size, dtype=bool)
        failed[self.untouched] = False
        seen[cell_at[~failed]] = NOT_SEEN
        seen[cell_at[failed]] = SEEN
        # Of two words for one code the one nearer to the present counts: current, then stored, pending ...
        words = np.array(self.cell_word, dtype=np.int64)
        for word in range(len(STATUS_WORDS) - 1, -1, -1):
            status[cell_at[words == word]] = word
        if self.counts:
            places, values = zip(*self.counts, strict=True)
            # Arrays hold no number of any size.
            count[list(places)] = [max(-_MOST_COUNTED, min(value, _MOST_COUNTED)) for value in values]
        if self.frames:
            stored = np.array(self.frames, dtype=float).T
            frames[:, stored[0].astype(np.int64)] = stored[1:]
        byte_word, byte_tested, lately = (np.full(seen.size, -1) for _ in range(3))
        if self.bytes:
            says = np.array(self.bytes)
            at = says[:, 0]
            byte[at], byte_word[at], byte_tested[at], lately[at] = says[:, 1:].T
        arrays = {"seen": seen, "status": status, "status_byte": byte, "byte_word": byte_word,
                  "byte_tested": byte_tested, "byte_lately": lately, "count": count, "frame_volts": frames[0],
                  "frame_distance": frames[1], "frame_speed": frames[2], "frame_rpm": frames[3]}
        return {name: array.reshape(shape) for name, array in arrays.items()}


def _apart(kinds: list[CodeFacts]) -> tuple[list[CodeFacts], list[int]]:
    """The facts that differ in more than the code, and the place among them of each of ``kinds``."""
    places: dict[int, int] = {}
    answers: list[CodeFacts] = []
    which = []
    for at, facts in enumerate(kinds, start=1):
        place = places.setdefault(facts.alike or -at, len(answers))
        if place == len(answers):
            answers.append(facts)
        which.append(place)
    return answers, which


SNAPSHOT_FIELDS = ("exists", "phase", "volts", "lowest", "low_seconds", "minutes", "drove", "speed", "coolant",
                   "engine_on", "outside", "pending_read")
_MOST_COUNTED = 2**31 - 1
_OUTSIDE = {None: -1.0, "unknown": -1.0, "none": 0.0, "charger": 1.0, "jump pack": 1.0, "donor vehicle": 1.0}
_ENGINE = {None: UNKNOWN, "unknown": UNKNOWN, "off": 0.0, "cranking": 0.0, "running": 1.0, "ready": 1.0}


def snapshot_row(snapshot: Snapshot) -> tuple[float, ...]:
    """One row of numbers in the order of SNAPSHOT_FIELDS."""
    lists = snapshot.lists_read
    drove = snapshot.drove
    return (
        1.0,
        -1.0 if snapshot.phase is None else float(PHASE_INDEX[snapshot.phase]),
        volts_or_nan(snapshot.volts), volts_or_nan(snapshot.lowest_volts), _or_nan(snapshot.low_seconds),
        UNKNOWN if snapshot.ran_minutes is None or snapshot.ran_minutes < 0 else snapshot.ran_minutes,
        UNKNOWN if drove is None else float(drove), _or_nan(snapshot.max_speed_kmh), _or_nan(snapshot.coolant_c),
        _ENGINE[snapshot.engine], _OUTSIDE[snapshot.outside_supply],
        -1.0 if lists is None else float("pending" in lists),
    )


def _or_nan(value: float | None) -> float:
    return UNKNOWN if value is None else value


def _whole(values: Any) -> Any:
    return np.where(np.isnan(values), -1, values).astype(np.int64)


def sightings_table(book: Casebook) -> pd.DataFrame:
    """The long table, one row a fault and snapshot: session, module, code, snapshot place, sighting and supply."""
    import pandas as pd

    row, column = np.nonzero(book.exists[book.fault_session])
    session = book.fault_session[row]
    names = np.array(book.module_name, dtype=object)
    words = np.array([*STATUS_WORDS, None], dtype=object)
    return pd.DataFrame({
        "job": np.array([entry.job for entry in book.sessions], dtype=object)[session],
        "fault": row,
        "module": names[book.fault_module[row]],
        "code": np.array(book.code, dtype=object)[row],
        "failure_type": np.array(book.failure_type, dtype=object)[row],
        "snapshot": column,
        "phase": np.array([*PHASES, None], dtype=object)[book.phase[session, column]],
        "sighting": np.array(["not readable", "not seen", "seen"], dtype=object)[book.seen[row, column] + 1],
        "status": words[book.status[row, column]],
        "status_byte": book.status_byte[row, column],
        "volts": np.where(np.isnan(book.module_volts[book.fault_module[row], column]),
                          book.volts[session, column], book.module_volts[book.fault_module[row], column]),
        "lowest_volts": book.lowest[session, column],
        "minutes": book.minutes[session, column],
    })
