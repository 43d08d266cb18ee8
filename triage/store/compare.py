"""Two sessions at one vehicle, side by side: what came back, what is new, where the earlier verdict was wrong.

Faults are the same where module, code and failure type are (a failure type left out on one side fits any). A
function ``resolve`` makes module names comparable; by default letter case and spaces are all that is folded.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING, Any, Literal

from triage.model.failure_types import one_type
from triage.model.session import Session
from triage.model.snapshot import Phase, Snapshot
from triage.model.verdict import Standing

if TYPE_CHECKING:
    from triage.store.rows import Outcome

Sighting = Literal["seen", "not seen", "not readable"]
Resolve = Callable[[str], str]
Key = tuple[str, str, str | None]
VerdictLike = Mapping[str, Any]
#: A 12 V supply below this was low when a code was seen: at rest, a battery is empty there to a quarter or less.
LOW = 12.0
CURED_WORDS = {"yes": "said to be cured", "no": "not cured", "unknown": "cured or not: unknown"}


def folded(name: str) -> str:
    """The module name without regard to letter case and spaces."""
    return " ".join(name.split()).casefold()


@dataclass(frozen=True, slots=True)
class PastSighting:
    """One fault in one snapshot of a session; ``volts`` the supply then and ``lowest`` since the one before, V."""

    phase: Phase | None
    at: datetime | None
    sighting: Sighting
    volts: float | None
    lowest: float | None


@dataclass(frozen=True, slots=True)
class PastFault:
    """One fault of a session, snapshot by snapshot, and what was said of it."""

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

    def only_below(self, volts: float) -> bool:
        """Whether it was seen only where the supply is known to have been below ``volts``."""
        return all(min((v for v in (past.volts, past.lowest) if v is not None), default=volts) < volts
                   for past in self.sightings if past.sighting == "seen")


@dataclass(frozen=True, slots=True)
class FaultThenNow:
    """One fault in both sessions. Standing and cause None: no verdict spoke of it. ``said`` goes without its name."""

    module: str
    code: str
    failure_type: str | None
    then: Standing | None
    now: Standing | None
    cause_then: str | None
    cause_now: str | None
    said: str

    @property
    def name(self) -> str:
        """ "engine control P0118-16"."""
        return f"{self.module} {self.code}" + (f"-{self.failure_type}" if self.failure_type else "")

    @property
    def words(self) -> str:
        """One line."""
        return f"{self.name}: {self.said}"


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

    ``wrong``: set aside then, on the short list now: the engine was wrong. ``doubtful``: set aside then, seen again,
    and no longer explained by what it was set aside for. ``not_held``: said to be cured then, seen again now.
    ``came_back``: gone at the end of the earlier session (or never readable there after a sighting), seen now.
    ``still_there``: seen at its end and now. ``new``: seen now only. ``established``: unsettled then, not now.
    ``explained``: set aside then, seen again, set aside once more or unsettled with the same cause likeliest and the
    supply low again. ``not_seen_now``: its module answered now without it. ``not_read_now``: nobody could tell now.
    """

    earlier: str
    later: str
    wrong: tuple[FaultThenNow, ...]
    doubtful: tuple[FaultThenNow, ...]
    not_held: tuple[FaultThenNow, ...]
    established: tuple[FaultThenNow, ...]
    explained: tuple[FaultThenNow, ...]
    came_back: tuple[FaultThenNow, ...]
    still_there: tuple[FaultThenNow, ...]
    new: tuple[FaultThenNow, ...]
    not_seen_now: tuple[FaultThenNow, ...]
    not_read_now: tuple[FaultThenNow, ...]
    supply: tuple[SupplyThenNow, ...]
    supply_read: str

    def sections(self) -> list[tuple[str, list[str]]]:
        """Titles with their lines for a person, the engine's own mistakes first; empty lists are left out."""
        result: list[tuple[str, list[str]]] = []
        above: set[FaultThenNow] = set()
        for name, title in TITLES.items():
            faults: tuple[FaultThenNow, ...] = getattr(self, name)
            lines = told(fault for fault in faults if fault not in above)
            again = [fault for fault in faults if fault in above]
            if again:
                lines.append(f"told above: {listed(again)}")
            if lines:
                result.append((title, lines))
            above.update(faults)
        return [*result, ("Supply then and now", [self.supply_read, *(part.words for part in self.supply)])]

    def lines(self) -> list[str]:
        """The sections one below the other, lines set in by two columns."""
        return [line for title, lines in self.sections() for line in (f"{title}:", *(f"  {one}" for one in lines))]


#: The lists of a comparison in the order they are told.
TITLES = {
    "wrong": "The engine was wrong", "doubtful": "The engine may have been wrong",
    "not_held": "Said to be cured then, and back", "established": "Unsettled then, established now",
    "explained": "Set aside then, seen again, and still explained", "came_back": "Came back",
    "still_there": "Still there", "new": "New", "not_seen_now": "Not seen now",
    "not_read_now": "Could not be read now",
}


def told(faults: Iterable[FaultThenNow]) -> list[str]:
    """One line for all the faults of which the same is said: a weak supply brings the same dozen back each time."""
    by_words: dict[str, list[FaultThenNow]] = {}
    for fault in faults:
        by_words.setdefault(fault.said, []).append(fault)
    lines = []
    for said, group in by_words.items():
        lines.append(f"{listed(group)}: {said}" if len(group) == 1 else f"{said} ({len(group)}): {listed(group)}")
    return lines


def listed(faults: Iterable[FaultThenNow]) -> str:
    """Their names, those of one module together: "engine control P0118, P0562-16; gateway U0100"."""
    names: dict[str, list[str]] = {}
    for fault in faults:
        names.setdefault(fault.module, []).append(fault.name.removeprefix(f"{fault.module} "))
    return "; ".join(f"{module} {', '.join(codes)}" for module, codes in names.items())


def compare_sessions(
    earlier: Session, earlier_verdict: VerdictLike | None, later: Session, later_verdict: VerdictLike | None,
    resolve: Resolve = folded, outcomes: Iterable[Outcome] = (),
) -> Comparison:
    """Hold ``later`` against ``earlier``, an earlier session at the same vehicle, with their verdicts if made.

    ``outcomes``: what was done about the faults of the earlier one; of several for one fault the last counts.
    """
    past = past_faults(earlier, earlier_verdict, resolve)
    present = past_faults(later, later_verdict, resolve)
    lists: dict[str, list[FaultThenNow]] = {name: [] for name in TITLES}
    read_then, read_now = (
        {module for snapshot in session.snapshots for module in _answers(snapshot, resolve)}
        for session in (earlier, later))
    causes_then, causes_now = _causes(earlier_verdict, resolve), _causes(later_verdict, resolve)
    work = {_key(one.module, one.code, one.failure_type, resolve): one for one in outcomes}
    low = LOW * ((later.vehicle.nominal_volts if later.vehicle else None) or 12.0) / 12.0
    for key, partner in _pairs(past, present):
        then, now = past.get(key), present.get(partner)
        shown = now or then
        assert shown is not None  # every pair has at least one side
        state, tail = _state(key, then, now, read_then, read_now)
        cause_then, cause_now = causes_then.get(key), causes_now.get(partner)
        stood, stands = then.standing if then else None, now.standing if now else None
        same = cause_then is not None and cause_then == cause_now and now is not None and now.only_below(low)
        chosen = [state, *_judgements(state, stood, stands, same)]
        said = [tail, _stood(stood, cause_then, stands, cause_now, then is None, now is None)]
        if "wrong" in chosen:
            said.append("the engine was wrong to set it aside")
        if key in work:
            said.append(f"done then: {work[key].done}, {CURED_WORDS[work[key].cured]}")
            if work[key].cured == "yes" and now is not None and then is not None:
                chosen.append("not_held")
        fault = FaultThenNow(shown.module, shown.code, shown.failure_type, stood, stands, cause_then, cause_now,
                             "; ".join(part for part in said if part))
        for name in chosen:
            lists[name].append(fault)
    return Comparison(
        earlier=earlier.job, later=later.job, supply=_supply(earlier_verdict, later_verdict),
        supply_read=f"read {_volts(earlier)} then, {_volts(later)} now",
        **{name: tuple(faults) for name, faults in lists.items()})


def past_faults(
    session: Session, verdict: VerdictLike | None = None, resolve: Resolve = folded,
) -> dict[Key, PastFault]:
    """Each fault of a session with its sightings: what an earlier session has to say in a later one."""
    session, _ = one_type(session)
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
            PastSighting(snapshot.phase, snapshot.at, _sighting(answers, key), snapshot.volts, snapshot.lowest_volts)
            for snapshot, answers in zip(session.snapshots, read, strict=True)), standings.get(key))
        for key, name in names.items()
    }


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


def _judgements(state: str, then: Standing | None, now: Standing | None, same_cause: bool) -> list[str]:
    """The further lists, by what the two verdicts said."""
    if then == "unsettled" and now in ("short list", "set aside"):
        return ["established"]
    if then == "set aside" and state in ("came_back", "still_there"):
        if now == "short list":
            return ["wrong"]
        return ["explained" if now == "set aside" or (now == "unsettled" and same_cause) else "doubtful"]
    return []


def _stood(
    then: Standing | None, cause_then: str | None, now: Standing | None, cause_now: str | None, is_new: bool,
    is_gone: bool,
) -> str:
    """What the two verdicts said: "set aside then (low voltage), short list now (hard)"."""
    parts = []
    for standing, cause, when, absent in ((then, cause_then, "then", is_new), (now, cause_now, "now", is_gone)):
        if not absent:
            why = f" ({cause.replace('-', ' ')})" if cause else ""
            parts.append(f"{standing or 'no verdict'} {when}{why}")
    return ", ".join(parts) if then or now else ""


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
        if was is not None and is_now is not None and _part(was) == _part(is_now):
            words = f"{part}: {_part(was)}, then and now"
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
