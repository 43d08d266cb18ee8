"""Outcomes: what was done and whether it cured, what the rates learn from it, how far the verdicts can be trusted."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any, cast

from triage.cli.keep_options import CAUSES
from triage.cli.keep_rates import Learned, learned, without_cause
from triage.cli.keep_weigh import forecast
from triage.cli.keep_words import faults_of, many, quoted
from triage.errors import InputError
from triage.model.verdict import fault_name

if TYPE_CHECKING:
    from code_tables import Tables
    from triage.model.session import Session
    from triage.model.verdict import Cause
    from triage.store import Calibration
    from triage.store.rows import Cured, Fault, Outcome
    from triage.store.store import Store

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
    from triage.intake.naming.modules import resolve
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
        forecast(store, name)
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
    """Keep one outcome for each of ``faults``, as one act, with what it says of the rates."""
    from triage.store import prior_keys

    cause = cast("Cause | None", found)
    kinds = kinds_of(session, tables) if cause else {}
    store.record_outcomes(
        session.job, [(fault, prior_keys(kinds[fault], cause) if cause and fault in kinds else {}) for fault in faults],
        done=done, cured=cast("Cured", cured), found_cause=cause, who=who)


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
    lines = ["HOW FAR THE VERDICTS CAME TRUE", "", f"  {found.shown}"]
    lines += [f"  said {said if found.enough else repr(said)}: {there} of {many(count, 'fault')} "
              f"{'was' if count == 1 else 'were'} there" + (f", {100 * there / count:.0f} %" if found.enough else "")
              for said, count, there in found.rows()]
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
