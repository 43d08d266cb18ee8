"""After a repair or a clear: which faults are shown gone, which are not yet proven and what run would prove them.

Nothing is ever called mended: a clean test says "gone for now", with its conditions; the bound that so many clean tests
leave stands with the sums. A permanent code outlives a clear by design (40 CFR 86.010-18
(k)(4)(iv)(F)) and a crash record is a stored event: neither says anything about the clear.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from triage.explain.cycles import (
    federal_limits,
    figures_of,
    has_ratio,
    just_cleared,
    readiness_limits,
    unset_monitors,
    within,
)
from triage.explain.proving import RUNS, condition_of, proving_run, was_met
from triage.explain.reasons import phase_words
from triage.explain.standing import HARD, INTERMITTENT, safety_class
from triage.model.assessment import VerificationLine, VerificationState
from triage.model.casebook import NOT_READABLE, NOT_SEEN, SEEN, Casebook, Links, Timeline
from triage.model.crash import crash_record
from triage.model.fed import alone
from triage.model.session import Session, printed_names
from triage.model.status import read_status
from triage.model.triggers import Trigger
from triage.model.verdict import CAUSES, fault_name

if TYPE_CHECKING:
    from code_tables import Tables
    from triage.model.casebook import Bools, Floats
    from triage.model.snapshot import Snapshot

ORDER: tuple[VerificationState, ...] = ("still there", "not yet proven", "outlives a clear", "stored event",
                                        "proven", "shown gone", "not ready", "ready")
READINESS = "readiness"
#: A clear this likely was noted or lies in the phases; less is a guess.
CLEARED = 0.9
PERMANENT = 4


@dataclass(slots=True)
class Since:
    """One session from the column right after its last repair (or, without one, its first clear) on."""

    session: Session
    book: Casebook
    line: Timeline
    link: Links
    opportunity: Floats
    causes: Floats
    decibans: Floats
    tables: Tables
    safety: Bools
    refused: Floats | None
    place: int
    first: str | None = None
    start: int = 0
    repair: bool = False
    words: dict[tuple[str, str, str | None], list[set[str | None]]] = field(default_factory=dict)

    @property
    def columns(self) -> range:
        """Snapshot columns from the start on."""
        return range(self.start, len(self.book.order[self.place]))

    @property
    def scale(self) -> float:
        """Nominal volts / 12."""
        return float(self.line.scale[self.place])


def verification(
    session: Session, book: Casebook, line: Timeline, link: Links, opportunity: Floats, causes: Floats,
    decibans: Floats, tables: Tables, *, refused: Floats | None = None, place: int = 0, first: str | None = None,
    safety: Bools | None = None,
) -> list[VerificationLine]:
    """One line a fault of session ``place`` seen before the repair, then one an inspection rule for the readiness read
    since, or at all where there was neither repair nor clear.

    ``opportunity`` N x K, ``causes`` N x 5, ``decibans`` N; ``refused`` N: chance that the fault's module did not take
    the clear; ``first``: what has to be so before an engine is run for a proof; ``safety`` N: faults
    of a safety class, where that is known already.
    """
    since = Since(session, book, line, link, opportunity, causes, decibans, tables,
                  safety_class(book, link) if safety is None else safety, refused, place, first)
    if not _find_start(since):
        return _readiness(since)
    since.words = _words(since)
    names = printed_names(session)
    found: list[tuple[int, bool, float, VerificationLine]] = []
    for fault in range(int(book.first_fault[place]), int(book.first_fault[place + 1])):
        if not (book.seen[fault, :since.start] == SEEN).any():
            continue
        state, why, proves = _judge(since, fault)
        module = book.module_name[book.fault_module[fault]]
        kind = book.failure_type[fault]
        found.append((ORDER.index(state), not since.safety[fault], -float(decibans[fault]), VerificationLine(
            names.get(module, module), book.code[fault] + (f"-{kind}" if kind else ""), state, why, proves,
            fault_name(module, book.code[fault], kind))))
    found.sort(key=lambda entry: entry[:3])
    return [*(entry[3] for entry in found), *_readiness(since)]


def in_states(lines: Iterable[VerificationLine]) -> list[VerificationLine]:
    """Lines by their state, those of readiness last, else as they stand."""
    return sorted(lines, key=lambda line: len(ORDER) if line.printed == READINESS else ORDER.index(line.state))


def repair_column(book: Casebook, line: Timeline, place: int) -> int | None:
    """The column right after the last repair of session ``place``; None: there was none."""
    rows = slice(int(book.first_module[place]), int(book.first_module[place + 1]))
    columns = range(1, len(book.order[place]))
    renewed = {line.renewed[fault] for fault in range(int(book.first_fault[place]), int(book.first_fault[place + 1]))
               if fault in line.renewed}
    repairs = [column for column in columns if line.repaired[rows, column].any() or column in renewed or (
        book.phase[place, column] == 3 and book.phase[place, column - 1] != 3)]
    return repairs[-1] if repairs else None


def _find_start(since: Since) -> bool:
    """Set the start to the column after the last repair, else after the first clear; False: there is neither."""
    book, line, place = since.book, since.line, since.place
    rows = slice(int(book.first_module[place]), int(book.first_module[place + 1]))
    clears = [column for column in range(1, len(book.order[place]))
              if (line.clear[rows, column] >= 0.5).any() or line.refused[rows, column].any()]
    repaired = repair_column(book, line, place)
    since.repair = repaired is not None
    since.start = repaired if repaired is not None else clears[0] if clears else 0
    return since.start > 0


def _words(since: Since) -> dict[tuple[str, str, str | None], list[set[str | None]]]:
    """The status words a code was listed with, by snapshot column (one code can stand in several lists)."""
    order = since.book.order[since.place]
    found: dict[tuple[str, str, str | None], list[set[str | None]]] = {}
    for column, at in enumerate(order):
        for scan in since.session.snapshots[at].modules:
            for entry in scan.codes:
                key = (scan.module, entry.code, entry.failure_type)
                found.setdefault(key, [set() for _ in order])[column].add(entry.status)
    return found


Judgement = tuple[VerificationState, str, str | None]


def _judge(since: Since, fault: int) -> Judgement:
    """State, grounds and proving run of one fault seen before the start."""
    book, facts = since.book, since.book.facts[fault]
    module = book.module_name[book.fault_module[fault]]
    back = [column for column in since.columns if book.seen[fault, column] == SEEN]
    words = since.words[module, book.code[fault], book.failure_type[fault]]
    if back and crash_record(facts, book.texts.get(fault, ())):
        return "stored event", ("record of a crash: a stored event that can't be cleared, and no fault by itself; its "
                                "staying says nothing about the clear"), None
    if back and all(words[column] == {"permanent"} for column in back):
        return _permanent(since, fault, back)
    readable = [column for column in since.columns if book.seen[fault, column] != NOT_READABLE]
    if not readable:
        return "not yet proven", f"its module was not read after the {'repair' if since.repair else 'clear'}", (
            f"an answer from it, then {_run(since, fault)}")
    if back and back[-1] == readable[-1]:
        return _listed(since, fault, back)
    return _absent(since, fault, back, readable)


def _permanent(since: Since, fault: int, back: list[int]) -> Judgement:
    """A code in the list of permanent codes alone: 40 CFR 86.010-18 (b)(3)(iii), (k)(4)(iv)(F)."""
    book, facts = since.book, since.book.facts[fault]
    figures = figures_of(since.tables)
    trip = (f"a trip of {figures.engine_seconds:.0f} s, {figures.moving_seconds:.0f} s of it at "
            f"{figures.moving_speed:.0f} km/h and more and {figures.idle_seconds:.0f} s of idle in one piece")
    cleared = (since.line.clear[book.fault_module[fault], since.start:back[-1] + 1] >= 0.5).any()
    if not cleared:
        proves = (f"it goes by itself after {figures.good_cycles_to_lamp_off} driving cycles in which its monitor ran "
                  "clean")
    elif has_ratio(facts.monitor):
        proves = "it goes by itself at the end of a driving cycle in which its monitor ran clean"
    else:
        proves = (f"it goes by itself after one clean run of its monitor and {trip}, in the same driving cycle or "
                  "another")
    return "outlives a clear", ("permanent code: it outlives a clear by design and says nothing about now; no longer "
                                "listed as confirmed or pending"), proves


def _listed(since: Since, fault: int, back: list[int]) -> Judgement:
    """A code that the last reading still lists."""
    book, line, facts = since.book, since.line, since.book.facts[fault]
    module, last = int(book.fault_module[fault]), back[-1]
    where = phase_words(book, since.place, last)
    words = since.words[book.module_name[module], book.code[fault], book.failure_type[fault]][last]
    byte = int(book.status_byte[fault, last])
    now = read_status(byte).now if byte >= 0 else "unknown"
    run = _run(since, fault)
    if "current" in words or now == "failing":
        return "still there", f"failing {where}", None
    refused = line.refused[module, since.start:last + 1].any() or (
        since.refused is not None and since.refused[fault] > 0.5)
    if refused:
        return "not yet proven", (f"still listed {where}, but its module did not take the clear: the entry may be "
                                  "old"), f"clear it again and write down the answer, then {run}"
    if now == "passing":
        return "not yet proven", f"still in memory {where}, yet its latest test passed", f"clear it, then {run}"
    before = max(column for column in range(since.start) if book.seen[fault, column] == SEEN)
    cleared = (line.clear[module, before + 1:back[0] + 1] >= CLEARED).any()
    if not cleared and since.decibans[fault] < since.tables.rate("standing.short"):
        return "not yet proven", (f"still listed {where}, and no clear is noted since it was first read: the entry may "
                                  "be old"), f"clear it, then {run}"
    low = _supply(since, fault, last) is False
    # A safety code stays "there" where it may be; of one seen at a low supply alone nobody knows.
    if since.decibans[fault] < 0.0 and not facts.supply and (low or not since.safety[fault]):
        top = int(since.causes[fault].argmax())
        other = "that supply alone can set it" if low else f"more likely {CAUSES[top]} than there now"
        return "not yet proven", f"listed again {where}: {other}", f"clear it, then {run}"
    verb = "came back" if cleared else "still listed"
    if words <= {"pending", None} and "pending" in words and facts.trips == 2:
        return "still there", (f"{verb} {where} as pending: it failed in one cycle, and a second failing one in a row "
                               "confirms it"), None
    return "still there", f"{verb} {where}", None


def _absent(since: Since, fault: int, back: list[int], readable: list[int]) -> Judgement:
    """A code that the last reading does not list: how often was it tested, and was it tested at all?"""
    book = since.book
    clean = [column for column in readable if book.seen[fault, column] == NOT_SEEN and column > max(back, default=-1)]
    tests, chance, doubts = _tests(since, fault, clean)
    where = phase_words(book, since.place, clean[-1])
    run = _run(since, fault)
    if back:
        return "not yet proven", (f"listed {phase_words(book, since.place, back[-1])} and absent since: it comes and "
                                  "goes, or was cleared again"), f"several times: {run}"
    need = since.tables.rate("standing.tested_safety" if since.safety[fault] else "standing.tested")
    if not tests or chance < need:
        short = "" if not tests else f"; {tests} clean {'test' if tests == 1 else 'tests'} only"
        return "not yet proven", f"absent {where}, but {doubts or 'its monitor can have missed it'}{short}", run
    little = "; one clean test says little" if tests == 1 else ""
    counted = f"{tests} clean {'test' if tests == 1 else 'tests'} at good supply, the last {where}"
    if since.line.new_module[book.fault_module[fault], since.start:].any():
        counted += ", in another module than the one that set it"
    target = int(since.link.target[fault])
    if target >= 0 and since.link.lost[fault] >= 0.5:
        return "not yet proven", (f"absent {where}, but {book.shown(target)}, which it reported lost, stays "
                                  "silent"), f"an answer from {book.shown(target)}, then {run}"
    if since.decibans[fault] >= 0.0:
        kind = "as an intermittent" if since.causes[fault, INTERMITTENT] > since.causes[fault, HARD] else "on balance"
        return "not yet proven", (f"absent in {counted}, yet it persists {kind}{little}"), (
            f"several times, with its trigger present: {run}")
    # A clean test counts only where the trigger was present; it is said where the fault may well be an intermittent.
    only = ", and only in these conditions" if since.causes[fault, INTERMITTENT] >= 0.02 else ""
    return "shown gone", f"gone for now: {counted}{only}{little}", None


def _tests(since: Since, fault: int, clean: list[int]) -> tuple[int, float, str]:
    """Clean tests among the columns ``clean``, the chance that at least one was real, and what was in doubt.

    A two-trip code without the pending list read shows only after two failing cycles in a row, so two such columns
    make one test (13 CCR 1968.2 (d)(2.2)).
    """
    book, facts, place = since.book, since.book.facts[fault], since.place
    least = since.tables.rate("standing.tested")
    read, unread, missed, doubts = 0, 0, 1.0, list[str]()
    trigger = _trigger(since, fault)
    for column in clean:
        seen_pending = facts.trips == 1 or _pending_read(since, fault, column)
        chance = float(since.opportunity[fault, column])
        if not seen_pending:
            share = "pending.not_read" if book.pending_read[place, column] == 0 else "pending.unsaid"
            chance = min(chance / since.tables.rate(share), 0.97)
        supply = _supply(since, fault, column)
        if not supply:
            doubts.append("nobody read the supply" if supply is None else "the supply was too low to trust it")
        elif facts.supply and book.outside[place, column] != 0 and not alone(
                since.session, since.session.snapshots[book.order[place][column]]):
            doubts.append("outside supply was connected" if book.outside[place, column] == 1 else
                          "nobody said that outside supply was off")
        elif chance < least:
            doubts.append(f"its monitor needs {RUNS[facts.monitor][0]} and can hardly have run")
        elif trigger is not None and not was_met(trigger, since.session.snapshots[book.order[place][column]],
                                                 since.tables):
            doubts.append(f"it is told to come {trigger.when}, and nobody said that this was so in a clean scan")
        elif not seen_pending:
            unread += 1
            missed *= 1.0 if unread % 2 else 1.0 - chance
            doubts.append("it is a two-trip code after one trip, and the pending list was not read")
        else:
            read += 1
            missed *= 1.0 - chance
    return read + unread // 2, 1.0 - missed, doubts[-1] if doubts else ""


def _pending_read(since: Since, fault: int, column: int) -> bool:
    """Whether a pending entry would have been seen: the list was read, or status bytes or words show that it was."""
    if since.book.pending_read[since.place, column] >= 0:
        return bool(since.book.pending_read[since.place, column])
    module = since.book.module_name[since.book.fault_module[fault]]
    snapshot = since.session.snapshots[since.book.order[since.place][column]]
    return any(entry.status == "pending" or entry.status_byte is not None
               for scan in snapshot.modules if scan.module == module for entry in scan.codes)


def _supply(since: Since, fault: int, column: int) -> bool | None:
    """Whether silence at this supply can be trusted; None: nobody read it. A module's own volts go first."""
    book, scale, rate = since.book, since.scale, since.tables.rate
    own = float(book.module_volts[book.fault_module[fault], column])
    volts = own if own == own else float(book.volts[since.place, column])
    if float(book.lowest[since.place, column]) < rate("supply.clean_lowest") * scale:
        return False
    return None if volts != volts else volts >= rate("supply.good") * scale


def _run(since: Since, fault: int) -> str:
    """The run that would prove the fault gone."""
    return proving_run(since.book.facts[fault], since.tables, since.scale, first=since.first, repair=since.repair,
                       trigger=_trigger(since, fault))


def _trigger(since: Since, fault: int) -> Trigger | None:
    """The condition that makes a clean test of it a clean one. That of the complaint counts for what may be behind
    it."""
    vehicle = since.session.vehicle
    open_ = float(since.decibans[fault]) > since.tables.rate("standing.aside")
    module = since.book.module_facts[since.book.fault_module[fault]]
    return condition_of(since.book.facts[fault], module.system, since.book.texts.get(fault, ()),
                        vehicle.complaint if vehicle and open_ else None)


# --- readiness -------------------------------------------------------------------------------------------------

def _readiness(since: Since) -> list[VerificationLine]:
    """The last readiness read since the start against each inspection rule that applies."""
    vehicle = since.session.vehicle
    drive = vehicle.drive if vehicle else None
    order = since.book.order[since.place]
    read = [column for column in since.columns if since.session.snapshots[order[column]].readiness]
    if not read or drive == "electric":
        return []
    snapshot = since.session.snapshots[order[read[-1]]]
    unset = unset_monitors(snapshot.readiness or {})
    where = phase_words(since.book, since.place, read[-1])
    told = f"{len(unset)} not complete {where}: {', '.join(unset)}" if unset else f"all complete {where}"
    counters = snapshot.since_clear
    codes = sum(len(scan.codes) for scan in snapshot.modules if scan.module == "engine control")
    if just_cleared(unset, codes, since.tables, warm_ups=counters.warm_ups if counters else None,
                    distance=counters.distance_km if counters else None):
        told += "; memory was cleared a short while ago"
    proves = f"mixed drives from a cold start until complete: {', '.join(unset)}" if unset else None
    told += _permanent_words(snapshot)
    year = vehicle.model_year if vehicle else None
    if year is None:
        limits = federal_limits(since.tables)
        rules = "; ".join(f"federal, model year {limit.years}: {limit.words}" for limit in limits)
        state: VerificationState = "not yet proven" if unset else "ready"
        if unset and not any(within(unset, limit) for limit in limits):
            # Whatever its year, no rule lets it pass.
            state, told = "not ready", f"not to be presented for inspection before they are complete: {told}"
        return [VerificationLine(READINESS, "model year not said", state, f"{told} ({rules})", proves)]
    lines = []
    for limit in readiness_limits(year, drive, since.tables):
        passes = within(unset, limit)
        lines.append(VerificationLine(
            READINESS, f"{limit.rule} inspection", "ready" if passes else "not ready",
            f"{told}; the {limit.rule} limit for model year {year} is {limit.words}", None if passes else proves))
    return lines


def _permanent_words(snapshot: Snapshot) -> str:
    """That permanent codes outlive the clear, and what takes them (40 CFR 86.010-18 (b)(3)(iii))."""
    held = dict.fromkeys(entry.code for scan in snapshot.modules for entry in scan.codes if entry.status == "permanent")
    if not held:
        return ""
    return (f"; permanent {', '.join(held)}: no clear takes {'it' if len(held) == 1 else 'them'}, only the own monitor "
            "once it has run and passed")


__all__ = ["in_states", "repair_column", "verification"]
