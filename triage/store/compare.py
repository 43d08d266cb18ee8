"""Two sessions at one vehicle, side by side: what came back, what is new, where the earlier verdict was wrong.

Faults are the same where module, code and failure type are (a failure type left out on one side fits any). A
function ``resolve`` makes module names comparable; by default letter case and spaces are all that is folded.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Literal

from triage.model.session import Session
from triage.model.snapshot import Phase, Snapshot
from triage.model.verdict import Standing

Sighting = Literal["seen", "not seen", "not readable"]
Resolve = Callable[[str], str]
Key = tuple[str, str, str | None]
VerdictLike = Mapping[str, Any]


def folded(name: str) -> str:
    """The module name without regard to letter case and spaces."""
    return " ".join(name.split()).casefold()


@dataclass(frozen=True, slots=True)
class PastSighting:
    """One fault in one snapshot of an earlier session; ``volts`` the supply then, V."""

    phase: Phase | None
    at: datetime | None
    sighting: Sighting
    volts: float | None


@dataclass(frozen=True, slots=True)
class PastFault:
    """History evidence: one fault of an earlier session, snapshot by snapshot, and what was said of it."""

    session: str
    module: str
    code: str
    failure_type: str | None
    sightings: tuple[PastSighting, ...]
    standing: Standing | None

    @property
    def at_the_end(self) -> Sighting:
        """What the last snapshot that could read it showed."""
        readable = [past.sighting for past in self.sightings if past.sighting != "not readable"]
        return readable[-1] if readable else "not readable"


@dataclass(frozen=True, slots=True)
class FaultThenNow:
    """One fault in both sessions. Standing and cause None: no verdict spoke of it. ``words`` is one line."""

    module: str
    code: str
    failure_type: str | None
    then: Standing | None
    now: Standing | None
    cause_then: str | None
    cause_now: str | None
    words: str


@dataclass(frozen=True, slots=True)
class SupplyThenNow:
    """One part of the supply in both verdicts; None: the verdict does not speak of it."""

    part: str
    then: str | None
    now: str | None
    words: str


@dataclass(frozen=True, slots=True)
class Comparison:
    """What changed between two sessions. A fault may stand in several lists; each has its line.

    ``came_back``: gone at the end of the earlier session (or never readable there after a sighting), seen now.
    ``still_there``: seen at its end and now. ``new``: seen now only. ``not_seen_now``: its module answered now
    without it. ``not_read_now``: nobody could tell now. ``established``: unsettled then, not now. ``wrong``: set
    aside then, on the short list now: the engine was wrong. ``doubtful``: set aside then, seen again and
    unsettled now. ``set_aside_again``: set aside then, seen again and set aside once more.
    """

    earlier: str
    later: str
    came_back: tuple[FaultThenNow, ...]
    still_there: tuple[FaultThenNow, ...]
    new: tuple[FaultThenNow, ...]
    not_seen_now: tuple[FaultThenNow, ...]
    not_read_now: tuple[FaultThenNow, ...]
    established: tuple[FaultThenNow, ...]
    wrong: tuple[FaultThenNow, ...]
    doubtful: tuple[FaultThenNow, ...]
    set_aside_again: tuple[FaultThenNow, ...]
    supply: tuple[SupplyThenNow, ...]
    supply_read: str

    def lines(self) -> list[str]:
        """The comparison in lines for a person, the engine's own mistakes first."""
        result = []
        for title, faults in (
            ("The engine was wrong", self.wrong), ("The engine may have been wrong", self.doubtful),
            ("Came back", self.came_back), ("Still there", self.still_there), ("New", self.new),
            ("Unsettled then, established now", self.established),
            ("Set aside then and again now", self.set_aside_again), ("Not seen now", self.not_seen_now),
            ("Could not be read now", self.not_read_now),
        ):
            if faults:
                result += [f"{title}:", *(f"  {fault.words}" for fault in faults)]
        result += ["Supply then and now:", f"  {self.supply_read}", *(f"  {part.words}" for part in self.supply)]
        return result


def compare_sessions(
    earlier: Session, earlier_verdict: VerdictLike | None, later: Session, later_verdict: VerdictLike | None,
    resolve: Resolve = folded,
) -> Comparison:
    """Hold ``later`` against ``earlier``, an earlier session at the same vehicle, with their verdicts if made."""
    past = past_faults(earlier, earlier_verdict, resolve)
    present = past_faults(later, later_verdict, resolve)
    lists: dict[str, list[FaultThenNow]] = {name: [] for name in (
        "came_back", "still_there", "new", "not_seen_now", "not_read_now", "established", "wrong", "doubtful",
        "set_aside_again")}
    read_then, read_now = (
        {module for snapshot in session.snapshots for module in _answers(snapshot, resolve)}
        for session in (earlier, later))
    causes_then, causes_now = _causes(earlier_verdict, resolve), _causes(later_verdict, resolve)
    for key, partner in _pairs(past, present):
        then, now = past.get(key), present.get(partner)
        state, tail = _state(key, then, now, read_then, read_now)
        stood, stands = then.standing if then else None, now.standing if now else None
        judgements = _judgements(state, stood, stands)
        shown = now or then
        assert shown is not None  # every pair has at least one side
        name = f"{shown.module} {shown.code}" + (f"-{shown.failure_type}" if shown.failure_type else "")
        said = "; ".join(part for part in (tail, _said(stood, stands)) if part)
        fault = FaultThenNow(
            shown.module, shown.code, shown.failure_type, stood, stands, causes_then.get(key),
            causes_now.get(partner), f"{name}: {said}")
        for chosen in (state, *judgements):
            lists[chosen].append(fault)
    return Comparison(
        earlier=earlier.job, later=later.job, supply=_supply(earlier_verdict, later_verdict),
        supply_read=f"read {_volts(earlier)} then, {_volts(later)} now",
        **{name: tuple(faults) for name, faults in lists.items()})


def past_faults(
    session: Session, verdict: VerdictLike | None = None, resolve: Resolve = folded,
) -> dict[Key, PastFault]:
    """Each fault of a session with its sightings: what an earlier session has to say in a later one."""
    names: dict[Key, tuple[str, str, str | None]] = {}
    for snapshot in session.snapshots:
        for scan in snapshot.modules:
            for entry in scan.codes:
                key = _key(scan.module, entry.code, entry.failure_type, resolve)
                names.setdefault(key, (scan.module, entry.code, entry.failure_type))
    standings = {_key(fault["module"], fault["code"], fault["failure_type"], resolve): fault["standing"]
                 for fault in (verdict or {}).get("faults", ())}
    read = [_answers(snapshot, resolve) for snapshot in session.snapshots]
    return {
        key: PastFault(session.job, *name, tuple(
            PastSighting(snapshot.phase, snapshot.at, _sighting(answers, key), snapshot.volts)
            for snapshot, answers in zip(session.snapshots, read, strict=True)), standings.get(key))
        for key, name in names.items()
    }


def with_history(later: Session, earlier: Iterable[Session]) -> Session:
    """``later`` with the snapshots and events of earlier sessions (oldest first) put before its own."""
    before = list(earlier)
    events = [event for session in (*before, later) for event in session.events or ()]
    return later.model_copy(update={
        "snapshots": [snapshot for session in (*before, later) for snapshot in session.snapshots],
        "events": events or later.events})


def _key(module: str, code: str, failure_type: str | None, resolve: Resolve) -> Key:
    return resolve(module), "".join(code.split()).upper(), failure_type.upper() if failure_type else None


def _answers(snapshot: Snapshot, resolve: Resolve) -> dict[str, set[Key]]:
    """For each module that answered, what it held."""
    found: dict[str, set[Key]] = {}
    for scan in snapshot.modules:
        if scan.responds is not False:
            found.setdefault(resolve(scan.module), set()).update(
                _key(scan.module, entry.code, entry.failure_type, resolve) for entry in scan.codes)
    return found


def _sighting(answers: Mapping[str, set[Key]], key: Key) -> Sighting:
    if key[0] not in answers:
        return "not readable"
    return "seen" if key in answers[key[0]] else "not seen"


def _pairs(past: Mapping[Key, PastFault], present: Mapping[Key, PastFault]) -> list[tuple[Key, Key]]:
    """Keys of the same fault in both sessions; a key without a partner stands with itself."""
    pairs, taken = [], set(past) & set(present)
    for key in past:
        partner = key
        if key not in present:
            partner = next((other for other in present if other not in taken and other[:2] == key[:2]
                            and (other[2] is None or key[2] is None)), key)
        taken.add(partner)
        pairs.append((key, partner))
    return pairs + [(key, key) for key in present if key not in taken]


def _state(
    key: Key, then: PastFault | None, now: PastFault | None, read_then: set[str], read_now: set[str],
) -> tuple[str, str]:
    """The list a fault belongs in by its sightings, and the words for it."""
    if then is None:
        return "new", "new" if key[0] in read_then else "seen now; its module was not read then"
    if now is None:
        return ("not_seen_now", "seen then, not now") if key[0] in read_now else (
            "not_read_now", "seen then; its module was not read now")
    if then.at_the_end == "seen":
        return "still_there", "seen to the end then, and seen now"
    return "came_back", "gone at the end then, seen again now"


def _judgements(state: str, then: Standing | None, now: Standing | None) -> list[str]:
    """The further lists, by what the two verdicts said."""
    if then == "unsettled" and now in ("short list", "set aside"):
        return ["established"]
    if then == "set aside" and state in ("came_back", "still_there"):
        return {"short list": ["wrong"], "unsettled": ["doubtful"], "set aside": ["set_aside_again"]}.get(
            now or "", ["doubtful"])
    return []


def _said(then: Standing | None, now: Standing | None) -> str:
    if then == "set aside" and now == "short list":
        return "set aside then, on the short list now: the engine was wrong to set it aside"
    if then is None and now is None:
        return ""
    return f"{then or 'no verdict'} then, {now or 'no verdict'} now"


def _causes(verdict: VerdictLike | None, resolve: Resolve) -> dict[Key, str]:
    return {_key(fault["module"], fault["code"], fault["failure_type"], resolve):
            max(fault["causes"], key=fault["causes"].__getitem__)
            for fault in (verdict or {}).get("faults", ()) if fault["causes"]}


def _supply(earlier: VerdictLike | None, later: VerdictLike | None) -> tuple[SupplyThenNow, ...]:
    """The parts of the supply in both verdicts; several of a kind (events) are taken in order."""
    then, now = _parts(earlier), _parts(later)
    result = []
    for part, number in dict.fromkeys((*then, *now)):
        was, is_now = then.get((part, number)), now.get((part, number))
        words = f"{part}: {_part(was)} then, {_part(is_now)} now"
        result.append(SupplyThenNow(
            part, None if was is None else was["state"], None if is_now is None else is_now["state"], words))
    return tuple(result)


def _parts(verdict: VerdictLike | None) -> dict[tuple[str, int], Mapping[str, str]]:
    found: dict[tuple[str, int], Mapping[str, str]] = {}
    for row in (verdict or {}).get("supply", ()):
        found[row["part"], sum(part == row["part"] for part, _ in found)] = row
    return found


def _part(row: Mapping[str, str] | None) -> str:
    if row is None:
        return "not spoken of"
    return f"{row['state']} ({row['why']})" if row.get("why") else row["state"]


def _volts(session: Session) -> str:
    """The supply of a session in words: "9.2 to 14.1 V in 3 snapshots"."""
    read = [volts for snapshot in session.snapshots for volts in (snapshot.volts, snapshot.lowest_volts)
            if volts is not None]
    count = len(session.snapshots)
    where = f"in {count} snapshot{'' if count == 1 else 's'}"
    if not read:
        return f"no voltage {where}"
    low, high = min(read), max(read)
    return f"{low:g} V {where}" if low == high else f"{low:g} to {high:g} V {where}"
