"""From sessions to verdicts: the one place that joins intake, relations, evidence, supply and explain."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

from triage.evidence.engine import Evidence, fed_tests, weigh_evidence
from triage.evidence.ledger import ledgers
from triage.evidence.sightings import casebook
from triage.explain.bad_path import held_words, set_by_ground
from triage.explain.cautions import cautions
from triage.explain.checks import next_checks
from triage.explain.complaint import complaint_answer
from triage.explain.damage import damages
from triage.explain.fitness import came_back, doubted, stuck_closed, unanswered
from triage.explain.meaning import meaning
from triage.explain.module_checks import inspection_due
from triage.explain.page import (
    columns,
    is_quiet,
    marks,
    supply_headline,
    told_in_ready,
    would_change,
)
from triage.explain.proof_checks import proofs_first
from triage.explain.reasons import CAME_BACK, band, clean_words, reasons
from triage.explain.records import is_record
from triage.explain.recovery import finish_first
from triage.explain.returned import with_returned
from triage.explain.roots import charges_first, count_line, set_aside, short_list, unsettled
from triage.explain.shared import drop_outs
from triage.explain.silence import never_answered, stories
from triage.explain.silent_together import told_as_one
from triage.explain.standing import ASIDE, STANDINGS, Standings, persisting, safety_class, standings
from triage.explain.supply_checks import supply_in_doubt
from triage.explain.supply_since import supply_since
from triage.explain.unasked import NOT_ASKED
from triage.explain.verification import in_states, repair_column, verification
from triage.explain.work import Course, after_work, gates
from triage.intake.naming.modules import resolve
from triage.model.assessment import Assessment, FaultLine, VerificationLine
from triage.model.casebook import SEEN, AtConnector, Casebook, Links, Timeline
from triage.model.chargers import charger_says
from triage.model.drive import is_electric
from triage.model.earlier import EarlierFault
from triage.model.failure_types import one_type, type_notices
from triage.model.notices import Notice
from triage.model.session import Session, printed_names, stamp
from triage.model.verdict import FaultVerdict, NextCheck, SupplyVerdict, Verdict, fault_name
from triage.relations.earlier import recurrences
from triage.relations.names import by_company, by_reports, one_name, under_given_names
from triage.relations.returned import recurred, returned
from triage.relations.targets import links
from triage.relations.timeline import event_columns, timeline
from triage.relations.topology import named_as_scanned
from triage.supply.feed_drops import with_feed_drops
from triage.supply.record import SupplyFacts, supply_record
from triage.supply.since_repair import proved_since

if TYPE_CHECKING:
    from code_tables import Tables
    from code_tables.facts import ModuleFacts
    from triage.model.verdict import LedgerRow


#: Names kept resolved: more than any batch of real vehicles holds.
MOST_NAMES = 8192


class _Names(dict[str, str]):
    """Module names as given -> canonical ones; a look-up costs no call, and what it keeps is bounded."""

    def __init__(self, tables: Tables) -> None:
        super().__init__()
        self.tables = tables

    def __missing__(self, name: str) -> str:
        if len(self) >= MOST_NAMES:
            self.clear()
        self[name] = found = resolve(name, self.tables).canonical
        return found


@lru_cache(maxsize=4)
def _canonical_names(tables: Tables) -> _Names:
    return _Names(tables)


class Worked:
    """All that was worked out for a batch of sessions, for the verdicts and for the pages."""

    def __init__(self, sessions: Sequence[Session], tables: Tables, *, steps: bool = True,
                 topology: Mapping[str, str] | None = None, earlier: Sequence[EarlierFault] = ()) -> None:
        def module_facts(name: str) -> ModuleFacts:
            return tables.module(canonical(name))

        def lost_by(code: str) -> Sequence[str]:
            facts = tables.facts(code, None)
            return facts.targets if facts.relation == "lost communication" else ()

        canonical = _canonical_names(tables).__getitem__
        sessions = [with_feed_drops(session) for session in sessions]
        apart = [by_company(session, canonical, lambda code: tables.facts(code, None).title) for session in sessions]
        missed = [by_reports(session, canonical, lambda name: resolve(name, tables).second, lost_by)
                  for session, _ in apart]
        named = [one_name(session, canonical) for session, _ in missed]
        named = [(session, either | second | other)
                 for (session, other), (_, second), (_, either) in zip(named, missed, apart, strict=True)]
        typed = [one_type(session) for session, _ in named]
        self.tables = tables
        #: Of each session: another name given for a module -> the name it stands under in the casebook.
        self.other_names = [other for _, other in named]
        #: Of each session: what its codes without a failure type stand for.
        self.meant = [meant for _, meant in typed]
        self.book: Casebook = casebook([session for session, _ in typed], tables.facts, module_facts)
        for told, meant in zip(self.book.notices, self.meant, strict=True):
            told += type_notices(meant)
        self.line: Timeline = timeline(self.book, tables, canonical)
        branches = named_as_scanned(self.book, topology) if topology else None
        self.links: Links = links(self.book, self.line, tables, branches)
        if earlier:
            self.links.recurrences = recurrences(
                self.book, self.line, self.links, earlier, tables, canonical)
        self.returns = returned(self.book, self.line, self.links, tables)
        self.links.recurrences |= recurred(self.returns, self.book, tables)
        self.evidence: Evidence = weigh_evidence(
            self.book, self.line, self.links, tables, steps=steps)
        self.standings: Standings = standings(
            self.book, self.links, self.evidence.causes, self.evidence.decibans, self.evidence.clean, tables)
        self.back = came_back(self.book, self.line, self.links, self.evidence.hypotheses.opportunity, tables)
        self.safety = safety_class(self.book, self.links)
        self.back[[fault for fault in self.returns if self.safety[fault]]] = True
        self.names = fault_names(self.book)

    def proofs(self, place: int, supply: Sequence[SupplyVerdict]) -> list[VerificationLine]:
        """What is shown gone since the repair or clear of session ``place``, and what is not."""
        evidence = self.evidence
        return verification(
            self.book.sessions[place], self.book, self.line, self.links, evidence.hypotheses.opportunity,
            evidence.causes, evidence.decibans, self.tables, refused=evidence.weighed.refused, place=place,
            first=charges_first(supply), safety=self.safety)


def fault_names(book: Casebook) -> list[str]:
    """N: every fault as it is named in lists of checks, for example "engine control P0118-16"."""
    return [fault_name(book.module_name[module], code, kind) for module, code, kind in zip(
        book.fault_module.tolist(), book.code, book.failure_type, strict=True)]


def verdicts(sessions: Sequence[Session], tables: Tables, *, ledger: bool = False) -> list[Verdict]:
    """One verdict a session, in the same order; with ``ledger`` each fault carries its sum."""
    if not sessions:
        return []
    work = Worked(sessions, tables, steps=ledger)
    result = verdicts_of(work, ledger=ledger)
    for session, other, meant, verdict in zip(sessions, work.other_names, work.meant, result, strict=True):
        verdict["faults"] = under_given_names(session, other, meant, verdict["faults"])
    return result


def verdicts_of(work: Worked, *, ledger: bool = False) -> list[Verdict]:
    """The verdicts of a worked batch."""
    book, tables = work.book, work.tables
    supplies = [supply_record(session, facts, tables)
                for session, facts in zip(book.sessions, supply_facts(work), strict=True)]
    checks = next_checks(book, work.line, work.links, work.standings, work.evidence.causes, work.evidence.decibans,
                         supplies, tables, work.names, work.back)
    faults = fault_verdicts(work, ledgers(book, work.links, work.evidence) if ledger else None)
    order = np.lexsort((-work.evidence.decibans, work.standings.standing, book.fault_session)).tolist()
    result: list[Verdict] = []
    standing = work.standings.standing.tolist()
    closed = stuck_closed(book, work.standings)
    silent = {int(book.module_session[module]) for module in unanswered(book)}
    checks = [_proofs_first(work, place, checks[place], supplies[place], unfit=place in silent or bool(
        doubted(session.vehicle.complaint if session.vehicle else None)))
              for place, session in enumerate(book.sessions)]
    for place, session in enumerate(book.sessions):
        first, last = int(book.first_fault[place]), int(book.first_fault[place + 1])
        safeties = {safety for safety, where in zip(work.standings.dangers[first:last], standing[first:last],
                                                    strict=True) if safety and where != ASIDE}
        result.append({
            "job": session.job, "faults": [faults[fault] for fault in order[first:last]],
            "supply": supplies[place], "next_checks": checks[place],
            "cautions": cautions(session, safeties, float(work.line.scale[place]), module_names(book, place),
                                 closed=bool(closed[first:last].any()), damage=damages(book, place)),
            "notices": [notice.as_json() for notice in book.notices[place]],
        })
    return result


def _proofs_first(
    work: Worked, place: int, checks: list[NextCheck], supply: Sequence[SupplyVerdict], *, unfit: bool,
) -> list[NextCheck]:
    """The steps of a session, after a repair with the proof of it before what is only done again."""
    book = work.book
    if repair_column(book, work.line, place) is None:
        return checks
    lines = work.proofs(place, supply)
    if is_electric(book.sessions[place], module_names(book, place)):
        told_in_ready((), (), lines)
    return proofs_first(book, work.standings, work.evidence.decibans, work.names, work.tables, place, checks, lines,
                        unfit=unfit)


def module_names(book: Casebook, place: int) -> list[str]:
    """Canonical names of the modules of session ``place``."""
    return [facts.name for facts in book.module_facts[int(book.first_module[place]):int(book.first_module[place + 1])]]


def supply_facts(work: Worked) -> list[SupplyFacts]:
    """What the codes of each session say of the supply, and whether a module said what supply it had."""
    book = work.book
    high: dict[int, set[int]] = {}
    for fault in np.flatnonzero(book.flags(lambda facts: facts.supply == "high")).tolist():
        high.setdefault(int(book.fault_session[fault]), set()).add(int(book.fault_module[fault]))
    ran = _over_while_running(book)
    told = set(book.module_session[~np.isnan(book.module_volts).all(axis=1)].tolist())
    events = work.links.events
    saying = _chargers_say(work)
    return [SupplyFacts(holders, peers, len(high.get(place, ())), scale, place in told, ran[place],
                        tuple(saying.get(place, ())), events[place].local, events[place].flat)
            for place, (holders, peers, scale) in enumerate(zip(
                work.links.supply_codes.max(axis=1).tolist(), work.links.supply_peers.max(axis=1).tolist(),
                work.line.scale.tolist(), strict=True))]


def _chargers_say(work: Worked) -> dict[int, list[str]]:
    """Session -> the codes of its generator or converter that say so, as printed, where its last run reads too low."""
    book, found = work.book, dict[int, list[str]]()
    last = np.array([events.lasting_from if events.lasting == "low" else -1 for events in work.links.events],
                    dtype=np.int64)
    for fault in np.flatnonzero(charger_says(book, last)).tolist() if last.size else ():
        found.setdefault(int(book.fault_session[fault]), []).append(
            f"{book.shown(int(book.fault_module[fault]))} {book.code[fault]}")
    return found


def _over_while_running(book: Casebook) -> list[int]:
    """S: modules that hold an overvoltage code since the clear in the last scan with the engine running."""
    found: list[int] = []
    high = book.flags(lambda facts: facts.supply == "high")
    for place in range(len(book.sessions)):
        runs = np.flatnonzero((book.engine_on[place] == 1.0) & (book.phase[place] > 0))
        mine = slice(int(book.first_fault[place]), int(book.first_fault[place + 1]))
        held = high[mine] & (book.seen[mine, runs[-1]] == SEEN) if runs.size else np.zeros(0, dtype=bool)
        found.append(len(set(book.fault_module[mine][held].tolist())) if held.any() else 0)
    return found


def fault_verdicts(work: Worked, sums: list[list[LedgerRow]] | None) -> list[FaultVerdict]:
    """One entry a fault, in the order of the casebook. The five causes add up to 1 to the last printed digit."""
    book, standing = work.book, work.standings
    causes = np.round(work.evidence.causes, 4)
    top = causes.argmax(axis=1)
    rows = np.arange(book.faults)
    if book.faults:
        causes[rows, top] = np.round(causes[rows, top] + 1.0 - causes.sum(axis=1), 4)
    decibans = (np.round(work.evidence.decibans, 1) + 0.0).tolist()
    module_name = book.module_name
    result: list[FaultVerdict] = []
    for fault, (shares, module, where) in enumerate(zip(
            causes.tolist(), book.fault_module.tolist(), standing.standing.tolist(), strict=True)):
        entry: FaultVerdict = {
            "module": module_name[module], "code": book.code[fault], "failure_type": book.failure_type[fault],
            "causes": {"hard": shares[0], "intermittent": shares[1], "low-voltage": shares[2], "history": shares[3],
                       "echo": shares[4]},
            "decibans": decibans[fault],
            "standing": STANDINGS[where], "needs": standing.needs[fault],
            "explained_by": standing.explained_by[fault],
        }
        if sums is not None:
            entry["ledger"] = sums[fault]
        result.append(entry)
    return result


def assess(session: Session, tables: Tables, notices: Sequence[Notice] = (),
           topology: Mapping[str, str] | None = None, earlier: Sequence[EarlierFault] = ()) -> Assessment:
    """One session with everything a page says about it.

    ``notices`` are those of the reader; ``topology``: canonical module -> branch (triage.relations.topology);
    ``earlier``: the faults of the sessions before at the same vehicle, oldest first.
    """
    work = Worked([session], tables, topology=topology, earlier=earlier)
    verdict = verdicts_of(work, ledger=True)[0]
    book = work.book
    session = book.sessions[0]
    lines = fault_lines(work, verdict)
    shown = [*notices, *book.notices[0]]
    verdict["notices"] = [notice.as_json() for notice in shown]
    refused = work.evidence.weighed.refused
    told = work.links.stories.get(0, [])
    pins = {story.about: story.pins for story in told if story.pins is not None}
    pins |= {work.names[story.head] if story.head >= 0 else story.about: AtConnector(
        None, frozenset(), story.held, book.shown(story.by) if story.by >= 0 else "") for story in told if story.held}
    printed = printed_names(session) | {work.names[story.head]: story.about for story in told if story.head >= 0}
    short = short_list(lines, verdict, printed, pins, never_answered(book, work.links, 0),
                       told_as_one(book, work.links, drop_outs(book, work.links, persisting(work.evidence.causes)), 0))
    finish_first(short, book)
    open_groups = unsettled(lines, verdict["next_checks"], verdict["supply"])
    course = work_course(work)
    proofs = work.proofs(0, verdict["supply"])
    again = {work.names[fault]: told.what for fault, told in work.links.recurrences.items()}
    short = with_returned(short, lines, again, proofs, repaired=repair_column(book, work.line, 0) is not None)
    electric = is_electric(session, module_names(book, 0))
    of_supply = _supply_proofs(work, tables, verdict["supply"], electric=electric)
    proofs = in_states([*proofs, *of_supply])
    if electric:
        told_in_ready(lines, open_groups, proofs)
    return Assessment(
        session=session, verdict=verdict, columns=columns(session, book), headline=supply_headline(session, verdict),
        complaint=complaint_answer(session, short, open_groups, verdict), short_list=short, unsettled=open_groups,
        set_aside=set_aside(lines, was_low=supply_in_doubt(verdict["supply"])), count=count_line(lines),
        next_checks=verdict["next_checks"],
        cautions=verdict["cautions"], stories=stories(book, work.links, refused, 0),
        would_change=would_change(
            lines, verdict, quiet=is_quiet(session, verdict), told={line.printed for line in of_supply}), notices=shown,
        verification=proofs,
        gates=[*(told.message for told in shown if told.of_two_vehicles), *inspection_due(session),
               *gates(course, work.line, tables)],
        after_work=after_work(course, work.line),
    )


def _supply_proofs(
    work: Worked, tables: Tables, supply: Sequence[SupplyVerdict], *, electric: bool,
) -> list[VerificationLine]:
    """What is proven of the supply since the repair, and what is not; nothing where nothing was repaired."""
    book, session, scale = work.book, work.book.sessions[0], float(work.line.scale[0])
    start = repair_column(book, work.line, 0)
    if start is None:
        return []
    since = {int(place) for place in book.order[0][start:]}
    return supply_since(supply, proved_since(session, supply, 12.0 * scale, since), scale, tables, electric=electric)


def earlier_faults(sessions: Sequence[Session], tables: Tables) -> list[EarlierFault]:
    """What ``sessions``, oldest first, have to say of a later one at the same vehicle (``earlier`` of assess)."""
    result = []
    for session, verdict in zip(sessions, verdicts(sessions, tables), strict=True):
        day = next((snapshot.at.date().isoformat() for snapshot in session.snapshots if snapshot.at), session.job)
        result += [EarlierFault(day, fault["module"], fault["code"], fault["failure_type"],
                                min(1.0, fault["causes"]["hard"] + fault["causes"]["intermittent"]))
                   for fault in verdict["faults"]]
    return result


def work_course(work: Worked) -> Course:
    """The events of the one session of ``work`` with the snapshots they stand before."""
    book, session, tables = work.book, work.book.sessions[0], work.tables
    times = [session.snapshots[at].at for at in book.order[0]]
    stamps = [stamp(time) for time in times if time is not None]
    phases = book.phase[0, :len(times)].tolist()
    places = [event_columns(event, stamps if event.at is not None and len(stamps) == len(times) else None, phases)
              for event in session.events or []]
    return Course(session, book, places, lambda name: resolve(name, tables).canonical)


def reaches(work: Worked, fault: int) -> frozenset[str]:
    """The systems and safety classes of the module that holds a fault, and of the one it reports lost."""
    book, target = work.book, int(work.links.target[fault])
    modules = [int(book.fault_module[fault]), *([target] if work.links.lost[fault] >= 0.5 else [])]
    told = [word for module in modules for word in (book.module_facts[module].system, book.module_facts[module].safety)]
    return frozenset(word for word in told if word is not None)


def fault_lines(work: Worked, verdict: Verdict) -> list[FaultLine]:
    """The faults of the one session of ``work``, in the order of the verdict."""
    book, evidence = work.book, work.evidence
    place = {(book.module_name[module], code, kind): fault for fault, (module, code, kind) in enumerate(zip(
        book.fault_module.tolist(), book.code, book.failure_type, strict=True))}
    printed, missed = printed_names(book.sessions[0]), work.standings.unasked
    opportunity = evidence.hypotheses.opportunity
    tested = np.where(fed_tests(book, work.line, work.tables), opportunity, 0.0)
    held = set_by_ground(book, work.links, 0, verdict["supply"])
    result = []
    for entry in verdict["faults"]:
        fault = place[entry["module"], entry["code"], entry["failure_type"]]
        facts = book.facts[fault]
        module = book.module_facts[book.fault_module[fault]]
        why = reasons(book, work.line, work.links, evidence.causes, evidence.weighed.refused, opportunity, fault)
        why += [f"{missed[fault]}, {NOT_ASKED}"] if fault in missed else []
        why += [held_words(held[fault])] if fault in held else []
        # However quiet the runs since: a word of "unlikely" would send nobody to look for it.
        again = bool(work.back[fault]) and entry["standing"] != "short list"
        result.append(FaultLine(
            verdict=entry, printed=printed.get(entry["module"], entry["module"]),
            title=meaning(facts, book.texts.get(fault, ()), listed=bool(module.sources)),
            failure=facts.failure, system=facts.system if facts.system != "other" else module.system,
            safety=work.standings.dangers[fault], band=band(entry["decibans"], back=again),
            why=[*why, CAME_BACK] if again else why,
            clean=clean_words(book, work.links, tested, fault), note=facts.note, marks=marks(book, fault),
            monitor=facts.monitor, record=is_record(book, fault), came_back=again, reaches=reaches(work, fault),
        ))
    return result
