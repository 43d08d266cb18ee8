"""Work done: what has to be finished before anything is concluded, and the codes that came with the work.

A module that was replaced, or programmed at a doubtful supply, is judged after it has been programmed; a used one may
bring another vehicle's codes, VIN and crash record (common practice). A code that appeared after work is first
suspected to be a connector left off or a key-on with a module unplugged (common practice): it is told in a list of
its own until it has been cleared once more and read after a key cycle.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from datetime import datetime
from typing import TYPE_CHECKING

from triage.explain.meaning import wants_procedure
from triage.explain.reasons import phase_words
from triage.model.casebook import NOT_SEEN, SEEN, Casebook, Timeline
from triage.model.crash import crash_record
from triage.model.parts import of_part, says_unplugged
from triage.model.session import Event, Session, has_clock, printed_names, stamp

if TYPE_CHECKING:
    from code_tables import Tables

SET_UP = ("programmed", "paired", "calibrated")
WORK = ("replaced", *SET_UP, "battery disconnected", "actuator test")
#: A supply is the same for so long, with nothing told of it, s; project's own choice.
OCCASION_S = 4 * 3600.0
_VOLTS = re.compile(r"(\d{1,2}(?:[.,]\d{1,2})?) ?V\b")


class Course:
    """The work of session ``place``: its events with the snapshot columns they stand before, and the module names.

    ``columns_of``: for each event of the session the columns it stands right before (empty: after the last, or not
    placed). ``canonical``: a written module name to its canonical one.
    """

    def __init__(self, session: Session, book: Casebook, columns_of: Sequence[Sequence[int]],
                 canonical: Callable[[str], str], place: int = 0) -> None:
        self.session, self.book, self.place, self.canonical = session, book, place, canonical
        self.columns = len(book.order[place])
        self.modules = range(int(book.first_module[place]), int(book.first_module[place + 1]))
        self.faults = range(int(book.first_fault[place]), int(book.first_fault[place + 1]))
        self.events = list(zip(session.events or [], columns_of, strict=True))
        self.events = [self.events[at] for at in _in_order([event for event, _ in self.events])]
        self.printed = printed_names(session)

    def module_of(self, event: Event) -> int | None:
        """The scanned module an event speaks of; None: none, the whole vehicle, or a part that is no module."""
        if event.module is None:
            return None
        name = self.canonical(event.module)
        return next((module for module in self.modules if self.book.module_name[module] == event.module
                     or self.book.module_facts[module].name == name), None)

    def name(self, module: int) -> str:
        """The module as the scan printed it."""
        name = self.book.module_name[module]
        return self.printed.get(name, name)

    def code(self, fault: int) -> str:
        """The code with its failure type."""
        kind = self.book.failure_type[fault]
        return f"{self.book.code[fault]}{'-' + kind if kind else ''}"


def _in_order(events: list[Event]) -> list[int]:
    """Places of the events by their times where all have one, else as they stand."""
    times = [event.at for event in events]
    stamps = [time.timestamp() for time in times if time is not None]
    if len(stamps) < len(events):
        return list(range(len(events)))
    return sorted(range(len(events)), key=lambda at: stamps[at])


# --- gates -----------------------------------------------------------------------------------------------------

def gates(course: Course, line: Timeline, tables: Tables) -> list[str]:
    """What comes before any conclusion, one sentence a gate: "program it before judging it"."""
    told: list[str] = []
    for at, (event, columns) in enumerate(course.events):
        module = course.module_of(event)
        if event.what == "replaced" and module is not None and not of_part(event):
            told += _replaced(course, at, module, event)
        if event.what in SET_UP and module is not None and not _done_again(course, at, module):
            told += _programmed(course, line, tables, event, module, columns)
    told += _battery_off(course)
    return list(dict.fromkeys(told))


def _later(course: Course, at: int, module: int, whats: Sequence[str]) -> list[Event]:
    """Events after the one at ``at`` that did one of ``whats`` to ``module``."""
    return [event for event, _ in course.events[at + 1:] if event.what in whats and event.answer != "refused"
            and (course.module_of(event) == module or (event.module is None and event.what != "replaced"))]


def _replaced(course: Course, at: int, module: int, event: Event) -> list[str]:
    name = course.name(module)
    told = []
    spent = event.part == "used" and course.book.module_facts[module].safety == "restraints" and bool(
        _records(course, module))
    if not spent and not _later(course, at, module, SET_UP):
        wants = [course.code(fault) for fault in course.faults if course.book.fault_module[fault] == module
                 and course.book.facts[fault].needs == "procedure" and SEEN in course.book.seen[fault]]
        asks = f" (it says so itself: {', '.join(wants)})" if wants else ""
        told.append(f"{name} was replaced and no programming is on record{asks}: program it before judging it, unless "
                    "the maker says that it needs none")
        told += _follow(course, module)
    if event.part == "used":
        told.append(_used(course, module))
    return told


def _follow(course: Course, module: int) -> list[str]:
    """What other modules say of configuration, VIN or key while one is not set up: it may only follow from that."""
    book = course.book
    others: dict[str, list[str]] = {}
    for fault in course.faults:
        read = book.seen[fault][book.seen[fault] >= 0]
        if book.fault_module[fault] != module and wants_procedure(book.facts[fault], book.texts.get(fault, ())) and (
                SEEN in read[-1:]):
            others.setdefault(course.name(int(book.fault_module[fault])), []).append(course.code(fault))
    if not others:
        return []
    told = ", ".join(f"{name} {' '.join(dict.fromkeys(codes))}" for name, codes in others.items())
    return [f"{told} may only follow from {course.name(module)}: read them again after it is programmed, before "
            "anything is written there"]


def _used(course: Course, module: int) -> str:
    """A used module: what it may bring, and what of that is seen."""
    book, name = course.book, course.name(module)
    mine = [fault for fault in course.faults if book.fault_module[fault] == module]
    records = _records(course, module)
    vin = [course.code(fault) for fault in mine if book.code[fault] == "U3002"]
    seen = [f"crash record {', '.join(records)}"] * bool(records) + [f"VIN code {', '.join(vin)}"] * bool(vin)
    far = _from_elsewhere(course, module)
    seen += [far] if far else []
    tail = f"; seen here: {'; '.join(seen)}" if seen else ""
    if records and book.module_facts[module].safety == "restraints":
        return (f"{name} is a used part: its codes, VIN and crash record may be another vehicle's{tail}; don't leave "
                "it fitted, don't program it and don't clear it while a crash record stands: write its codes down, fit "
                "a new one, or one that the maker approves, and program that before judging it")
    crash = ", and don't clear it while a crash record stands" if records else ""
    return (f"{name} is a used part: its codes, VIN and crash record may be another vehicle's{tail}; read and write "
            f"them down, give it this vehicle's VIN and program it before judging it{crash}")


def _records(course: Course, module: int) -> list[str]:
    """The codes of a module that are the stored record of a crash."""
    book = course.book
    return [course.code(fault) for fault in course.faults if book.fault_module[fault] == module and crash_record(
        book.facts[fault], book.texts.get(fault, ()))]


def _from_elsewhere(course: Course, module: int) -> str | None:
    """A freeze frame further on than any other module of this vehicle has ever been (by a tenth and more)."""
    own, others = 0.0, 0.0
    for snapshot in course.session.snapshots:
        for scan in snapshot.modules:
            for entry in scan.codes:
                distance = entry.freeze_frame.distance_km if entry.freeze_frame else None
                if distance is not None and scan.module == course.book.module_name[module]:
                    own = max(own, distance)
                elif distance is not None:
                    others = max(others, distance)
    return f"a freeze frame at {own:.0f} km where other modules stand at {others:.0f} km" if (
        others > 0 and own > 1.1 * others) else None


def _done_again(course: Course, at: int, module: int) -> bool:
    """Whether the same was done to the module once more, later: only the last time counts."""
    return bool(_later(course, at, module, (course.events[at][0].what,)))


def _programmed(course: Course, line: Timeline, tables: Tables, event: Event, module: int,
                columns: Sequence[int]) -> list[str]:
    name = course.name(module)
    system = 24 if line.scale[course.place] > 1.5 else 12
    low, high = tables.limit("programming lowest", system), tables.limit("programming highest", system)
    band = f"{low:.1f} to {high:.1f} V, unless the maker says otherwise"
    if event.answer == "refused" and event.what == "programmed":
        noted = _VOLTS.search((event.note or "")[:2000])
        at = f" at {noted[1]} V" if noted else ""
        return [f"the programming of {name} was refused or broke off{at}: find out why and finish it with a stabilised "
                f"supply ({band}) before anything is cleared, run or judged"]
    if event.answer == "refused":
        return [f"{name} refused to be {event.what}: find out why and do it again before judging it"]
    if event.what != "programmed":
        return []
    found = _supply_at(course, event, columns[0] if columns else course.columns)
    if not found:
        return [f"{name} was programmed at a supply that is not on record ({band}): check its software number and, in "
                "doubt, program it again with a stabilised supply before judging it"]
    outside = [(volts, where) for volts, where in sorted(found) if not low <= volts <= high]
    if not outside:
        return []
    volts, where = outside[0]
    how = "only " if volts < low else ""
    return [f"{name} was programmed at {how}{volts:.1f} V ({where}; {band}): program it again with a stabilised supply "
            "before judging it"]


def _supply_at(course: Course, event: Event, column: int) -> list[tuple[float, str]]:
    """The supply while ``event`` went on, V, and where it was read: in its note, a reading, else the scans around it.

    A scan with the engine running tells nothing of it, nor does one on the other side of a change of outside supply,
    nor one of another occasion.
    """
    noted = _VOLTS.search((event.note or "")[:2000])
    if noted:
        return [(float(noted[1].replace(",", ".")), "as noted")]
    book, snapshots = course.book, course.session.snapshots
    order = book.order[course.place]
    around = [at for at in (column - 1, column) if 0 <= at < course.columns
              and _same_occasion(event, snapshots[order[at]].at)]
    for at in around:
        for reading in snapshots[order[at]].readings or []:
            if "programm" in reading.name.lower() and (reading.unit or "V").upper() == "V":
                return [(reading.value, f"reading: {reading.name}")]
    events = [entry for entry, _ in course.events]
    mine = next(at for at, entry in enumerate(events) if entry is event)
    switched = [at for at, (entry, columns) in enumerate(course.events) if entry.what.startswith("outside supply")
                and (columns[0] if columns else course.columns) == column]
    seen = []
    for at in around:
        between = any(place < mine for place in switched) if at < column else any(place > mine for place in switched)
        volts = book.volts[course.place, at]
        if volts == volts and book.engine_on[course.place, at] != 1 and not between:
            seen.append((float(volts), f"read {phase_words(book, course.place, at).split(' at ')[0]}"))
    return seen


def _same_occasion(event: Event, at: datetime | None) -> bool:
    """Whether an event may be of the same hours as a scan: the battery of another day tells nothing of it."""
    if event.at is None or at is None:
        return True
    if not has_clock(event.at):
        return event.at.date() == at.date()
    return abs(stamp(event.at) - stamp(at)) <= OCCASION_S


def _battery_off(course: Course) -> list[str]:
    """A disconnected battery: learned values and readiness went with it (common practice; 40 CFR 86.010-18 (k)(4))."""
    off = [at for at, (event, _) in enumerate(course.events) if _takes_power(event)]
    if not off:
        return []
    disconnected = any(course.events[at][0].what == "battery disconnected" for at in off)
    head = ("the battery was disconnected: learned values are lost and readiness is erased" if disconnected else
            "the battery was replaced: unless the supply was held meanwhile, learned values are lost and readiness is "
            "erased")
    relearned = any(event.what == "calibrated" for event, _ in course.events[off[-1] + 1:])
    relearn = "" if relearned else "relearn them as the maker says (idle, steering angle zero, windows) and "
    known = "" if disconnected else ("; where the vehicle watches its battery's charge, the new one is registered, or "
                                     "it is charged as the old one was")
    return [f"{head}; {relearn}drive until the monitors have run before judging codes that ask for learning{known}"]


def _takes_power(event: Event) -> bool:
    """Whether the 12 V battery came off in this event."""
    told = f"{event.module or ''} {event.note or ''}".lower()
    traction = any(word in told for word in ("hybrid", "high voltage", "high-voltage", "traction", "pack", "energy"))
    return event.what == "battery disconnected" or (event.what == "replaced" and "battery" in told and not traction)


# --- codes that came with the work -----------------------------------------------------------------------------

def work_columns(course: Course, line: Timeline) -> list[int]:
    """The snapshot columns that work stands right before, whatever module it was done to."""
    book, place = course.book, course.place
    found = {column for event, columns in course.events for column in columns[:1]
             if event.what in WORK or says_unplugged(event)}
    rows = slice(course.modules.start, course.modules.stop)
    for column in range(1, course.columns):
        # A scan after a repair means that something was worked on, noted or not.
        repaired = book.phase[place, column] == 3 and book.phase[place, column - 1] != 3
        if repaired or line.work[rows, column].any():
            found.add(column)
    return sorted(found)


def after_work(course: Course, line: Timeline) -> list[str]:
    """The faults that first appeared after work and have not been cleared and read after a key cycle since."""
    book, place = course.book, course.place
    work = work_columns(course, line)
    told = []
    for fault in course.faults:
        seen = [column for column in range(course.columns) if book.seen[fault, column] == SEEN]
        if not seen:
            continue
        first = seen[0]
        since = [column for column in work if column <= first]
        # Without a clean reading before the work nobody knows that the code came with it.
        clean = since and any(book.seen[fault, column] == NOT_SEEN for column in range(since[-1]))
        if not clean or _judged_since(course, line, fault, first):
            continue
        module = int(book.fault_module[fault])
        told.append(f"{course.name(module)} {course.code(fault)}: {book.facts[fault].title}, first seen "
                    f"{phase_words(book, place, first)}")
    return told


def _judged_since(course: Course, line: Timeline, fault: int, first: int) -> bool:
    """Whether the fault was cleared once more after it appeared and its module read after a key cycle."""
    book, place = course.book, course.place
    module = int(book.fault_module[fault])
    for column in range(first + 1, course.columns):
        if line.clear[module, column] < 0.5 or line.refused[module, column]:
            continue
        cleared = max((at for at, (event, columns) in enumerate(course.events)
                       if event.what == "cleared" and column in columns), default=len(course.events))
        for later in range(column, course.columns):
            keyed = any(event.what == "key cycle" and later in columns[:1] and (later > column or at > cleared)
                        for at, (event, columns) in enumerate(course.events))
            # Minutes before the scan right after the clear may have been run before the clear.
            ran = later > column and (book.minutes[place, later] > 0 or book.engine_on[place, later] == 1)
            if (keyed or ran) and book.seen[fault, later] in (SEEN, NOT_SEEN):
                return True
    return False


__all__ = ["Course", "after_work", "gates", "work_columns"]
