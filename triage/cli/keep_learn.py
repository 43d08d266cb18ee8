"""Outcomes: what was done and whether it cured, what the rates learn from it, and how far the verdicts can be trusted.

Priors are learned from finished sessions alone: those in which every fault has an outcome with the cause found.
Where only the faults that somebody repaired have one, nearly all were real, and a prior learned from them would call
every code real; the same choice among faults is known in statistics as verification bias.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, cast

from triage.cli.keep_options import CAUSES
from triage.cli.keep_words import fault_name, faults_of, many, quoted
from triage.errors import InputError
from triage.model.notices import Notice

if TYPE_CHECKING:
    from code_tables import Tables
    from triage.model.session import Session
    from triage.model.verdict import Cause
    from triage.store import Calibration, UpdatedRate
    from triage.store.rows import Cured, Outcome
    from triage.store.store import Store

Fault = tuple[str, str, str | None]
#: A rate that moved by less is named without its figures.
LEAST_TOLD = 0.005


@dataclass(frozen=True, slots=True)
class Learned:
    """``rates`` by key after the outcomes of finished sessions; ``open`` maps an unfinished one to what it lacks."""

    rates: dict[str, UpdatedRate]
    open: dict[str, int]

    @property
    def outcomes(self) -> int:
        """Outcomes that reached the rates (each speaks of the five causes of one kind of code)."""
        return sum(rate.counts.total for key, rate in self.rates.items() if key.endswith(".hard"))

    def tables(self, base: Tables) -> Tables:
        """``base`` with the learned rates."""
        if not self.rates:
            return base
        return base.with_rates({key: rate.mean for key, rate in self.rates.items()}, "your shop's outcomes")

    def notices(self) -> list[Notice]:
        """What was changed, one line a kind of code: never silently."""
        kinds = dict.fromkeys(key.split(".")[1] for key in self.rates)
        return [Notice("note", f"rates learned from outcomes, {kind} codes: {self._words(kind)}") for kind in kinds]

    def _words(self, kind: str) -> str:
        """The five rates of one kind of code; those that hardly moved are told together."""
        keys = {cause: f"prior.{kind}.{cause}" for cause in CAUSES}
        rates = {cause: self.rates[key] for cause, key in keys.items() if key in self.rates}
        moved = {cause: rate for cause, rate in rates.items() if abs(rate.mean - rate.table) >= LEAST_TOLD}
        said = [f"{cause}: {rate.shown}, {rate.used}" for cause, rate in moved.items()]
        if len(moved) < len(rates):
            still = ", ".join(cause for cause in rates if cause not in moved)
            said.append(f"{still}: moved by less than {LEAST_TOLD:g}")
        return "; ".join(said)


def learned(store: Store, base: Tables, without: str | None = None) -> Learned:
    """The rates after the outcomes in ``store``. The outcome recorded last for a fault is the one that counts.

    ``without`` names a session that is about to be weighed: what was found in it must not weigh in its own favour.
    """
    from triage.store import beta_update
    from triage.store.results import rate_counts

    sessions: dict[str, dict[Fault, Outcome]] = {}
    for outcome in store.outcomes():
        if outcome.session == without:
            continue
        fault = (outcome.module, outcome.code, outcome.failure_type)
        sessions.setdefault(outcome.session, {})[fault] = outcome
    finished: list[Outcome] = []
    lacking: dict[str, int] = {}
    for name, last in sessions.items():
        lacks = without_cause(store.session_object(name), last)
        if lacks:
            lacking[name] = len(lacks)
        else:
            finished += last.values()
    counts = rate_counts(finished)
    return Learned({key: beta_update(base.rate(key), hits=count.hits, misses=count.misses)
                    for key, count in counts.items() if key in base.rates}, lacking)


def without_cause(session: Session, last: Mapping[Fault, Outcome]) -> list[Fault]:
    """The faults of a session whose cause nobody has recorded."""
    return [fault for fault in faults_of(session) if fault not in last or last[fault].found_cause is None]


def kinds_of(session: Session, tables: Tables) -> dict[Fault, str]:
    """The kind of code of every fault, as the priors are sorted by."""
    from triage.assess import Worked
    from triage.evidence.parameters import KINDS
    from triage.evidence.prior import kinds

    work = Worked([session], tables)
    book = work.book
    return {(book.module_name[module], code, failure): KINDS[kind] for module, code, failure, kind in zip(
        book.fault_module.tolist(), book.code, book.failure_type, kinds(book, work.links).tolist(), strict=True)}


def find_fault(session: Session, module: str, code: str, tables: Tables) -> Fault:
    """The fault that is meant, by any name of its module and any spelling of its code. Raises InputError."""
    from triage.intake.modules import resolve
    from triage.model.codes import parse

    asked = parse(code)
    text, failure = (asked.text, asked.failure_type) if asked else (code.strip(), None)
    there = faults_of(session)
    by_code = [fault for fault in there if fault[1].casefold() == text.casefold()
               or (asked is not None and (held := parse(fault[1])) is not None and held.text == asked.text)]
    canonical = resolve(module, tables).canonical
    found = [fault for fault in by_code if module.casefold() in (fault[0].casefold(), there[fault].casefold())
             or resolve(fault[0], tables).canonical == canonical]
    exact = [fault for fault in found if (fault[2] or "").casefold() == (failure or "").casefold()]
    found = exact or ([] if failure else found)
    if len(found) == 1:
        return found[0]
    shown = ", ".join(fault_name(*fault) for fault in (found or by_code or list(there))[:6])
    if found:
        raise InputError(f"session {session.job!r} holds several faults {module} {code}: {shown}; say which")
    raise InputError(f"session {session.job!r} holds no fault {module} {code}; it holds {shown or 'none'}")


def record_outcome(
    db: str | None, name: str, fault: tuple[str, str] | None, *, done: str, cured: str, found: str | None,
    who: str | None,
) -> tuple[list[str], dict[str, Any]]:
    """Keep the outcome of one fault (module and code as said), or of all without one; lines and the same as JSON."""
    from code_tables import load
    from triage.cli.keep_visit import kept

    tables = load()
    with kept(db) as store:
        session = store.session_object(name)
        faults = the_rest(store, session) if fault is None else [find_fault(session, *fault, tables)]
        record(store, session, faults, tables, done=done, cured=cured, found=found, who=who)
        lines = outcome_lines(store, session, faults, cured, found, tables)
        now = learned(store, tables)
    answer = {"session": name, "faults": [{"module": module, "code": code, "failure_type": failure}
                                          for module, code, failure in faults],
              "done": done, "cured": cured, "found": found, "rates": rates_json(now), "not_counted": now.open}
    return lines, answer


def record(
    store: Store, session: Session, faults: Sequence[Fault], tables: Tables, *, done: str, cured: str,
    found: str | None, who: str | None,
) -> None:
    """Keep one outcome for each of ``faults``, with what it says of the rates."""
    from triage.store import prior_keys

    kinds = kinds_of(session, tables)
    for module, code, failure in faults:
        kind = kinds.get((module, code, failure))
        rates = prior_keys(kind, cast("Cause", found)) if kind and found else {}
        store.record_outcome(session.job, module, code, failure, done=done, cured=cast("Cured", cured),
                             found_cause=cast("Cause | None", found), rates=rates, who=who)


def the_rest(store: Store, session: Session) -> list[Fault]:
    """The faults without an outcome. Raises InputError while one of them stands on the short list."""
    have = {(o.module, o.code, o.failure_type) for o in store.outcomes(session.job)}
    rest = [fault for fault in faults_of(session) if fault not in have]
    verdicts = store.verdicts(session.job)
    listed = {(f["module"], f["code"], f["failure_type"]) for f in verdicts[-1].verdict["faults"]
              if f["standing"] == "short list"} if verdicts else set()
    named = [fault_name(*fault) for fault in rest if fault in listed]
    if named:
        raise InputError(f"still on the short list without an outcome: {', '.join(named)}; record these one by one "
                         "before the rest")
    if not rest:
        raise InputError(f"every fault of session {session.job!r} has an outcome already")
    return rest


def outcome_lines(store: Store, session: Session, faults: Sequence[Fault], cured: str, found: str | None,
                  tables: Tables) -> list[str]:
    """What was recorded, what the verdict had said of it, and what becomes of the rates."""
    shown = store.calibration()
    last = {(o.module, o.code, o.failure_type): o for o in store.outcomes(session.job)}
    result = {"yes": "cured", "no": "not cured", "unknown": "cured or not: unknown"}[cured]
    lines = [f"{session.job}: {many(len(faults), 'outcome')} recorded, {result}"
             + (f", found {found}" if found else "")]
    for fault in faults[:6]:
        said = last[fault].said
        stood = "no verdict spoke of it" if said is None else (
            f"the verdict had said: {last[fault].standing}, {shown.show(said)}")
        lines.append(f"  {fault_name(*fault)}: {stood}")
    if len(faults) > 6:
        lines.append(f"  and {len(faults) - 6} more")
    return lines + rate_lines(store, session, faults, last, found, tables)


def rate_lines(store: Store, session: Session, faults: Sequence[Fault], last: Mapping[Fault, Outcome],
               found: str | None, tables: Tables) -> list[str]:
    """The rates the outcome speaks of, and whether they are in use yet."""
    if found is None:
        return ["  the rates learn from the cause found: add --found " + "|".join(CAUSES)]
    now = learned(store, tables)
    lacks = len(without_cause(session, last))
    if lacks:
        return [f"  rates: not counted yet, {lacks} of {many(len(faults_of(session)), 'fault')} of this session lack "
                "an outcome with its cause; with the repaired ones alone every code would look real",
                f"  the others at one go: triage outcome {quoted(session.job)} --rest --done ... --cured yes --found "
                "low-voltage"]
    kinds = kinds_of(session, tables)
    return _used(now, list(dict.fromkeys(f"prior.{kinds[fault]}.{found}" for fault in faults if fault in kinds)))


def _used(now: Learned, keys: Sequence[str]) -> list[str]:
    return [f"  rate {key}: {now.rates[key].shown}; {now.rates[key].used}" for key in keys if key in now.rates]


def calibration_lines(found: Calibration, now: Learned) -> list[str]:
    """The page about how far the verdicts can be trusted, and the rates as they are used."""
    from triage.store import band

    lines = ["HOW FAR THE VERDICTS CAME TRUE", "", f"  {found.shown}"]
    lines += [f"  {part.shown}" if found.enough else
              f"  said {band(part.said)!r}: {round(part.came_true * part.count)} of {part.count} came true"
              for part in found.bins]
    lines += ["", "RATES AFTER YOUR OUTCOMES", ""]
    if not now.rates:
        lines.append("  as in the tables: no session is finished yet (every fault with an outcome and its cause)")
    for kind in dict.fromkeys(key.split(".")[1] for key in now.rates):
        lines.append(f"  {kind} codes")
        lines += [f"    {cause}: {rate.shown}; {rate.mean:.3f} is used" for cause in CAUSES
                  if (rate := now.rates.get(f"prior.{kind}.{cause}")) is not None]
    lines += [f"  {name}: not counted, {many(lacks, 'fault')} without an outcome and its cause"
              for name, lacks in now.open.items()]
    return lines


def rates_json(now: Learned) -> dict[str, Any]:
    """The learned rates for a program."""
    return {key: {"table": rate.table, "hits": rate.counts.hits, "misses": rate.counts.misses,
                  "used": round(rate.mean, 6), "spread": round(rate.spread, 6), "shown": rate.shown}
            for key, rate in now.rates.items()}


def calibration_json(found: Calibration, now: Learned) -> dict[str, Any]:
    """The calibration page for a program."""
    return {
        "outcomes": found.count, "brier": found.brier, "share": found.share, "percentages": found.enough,
        "bins": [{"low": part.low, "high": part.high, "count": part.count, "said": part.said,
                  "came_true": part.came_true} for part in found.bins],
        "rates": rates_json(now), "not_counted": now.open}
