"""The parts of a page about the session as a whole: columns, marks, headline, complaint, what would change it."""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence

from triage.explain.complaint import listed
from triage.explain.heard import AREAS
from triage.explain.supply_checks import OVER, path_of_reason, supply_in_doubt
from triage.model.assessment import Column, FaultLine, Group, Mark, Sight, VerificationLine
from triage.model.casebook import Casebook
from triage.model.drive import in_ready
from triage.model.fed import alone
from triage.model.session import Session, day_and_clock
from triage.model.snapshot import STATUS_WORDS, Snapshot
from triage.model.verdict import Verdict

_SIGHTS: dict[int, Sight] = {1: "seen", 0: "not seen", -1: "not readable"}


def columns(session: Session, book: Casebook) -> list[Column]:
    """One column a snapshot, in time order."""
    heads = []
    for number, place in enumerate(book.order[0], start=1):
        snapshot = session.snapshots[place]
        answered = [scan for scan in snapshot.modules if scan.responds is not False or scan.codes]
        heads.append(Column(
            name=f"{number} {(snapshot.phase or 'phase not said').replace('-', ' ')}",
            at=day_and_clock(snapshot.at) if snapshot.at else None,
            volts=snapshot.volts, lowest_volts=snapshot.lowest_volts, engine=snapshot.engine,
            outside_supply=_fed_by(session, snapshot), minutes=snapshot.ran_minutes, modules=len(answered),
            silent=len(snapshot.modules) - len(answered), codes=sum(len(scan.codes) for scan in answered),
        ))
    return heads


def _fed_by(session: Session, snapshot: Snapshot) -> str | None:
    """What fed the vehicle, as the scan says, or as the supply is judged where it says nothing."""
    if snapshot.outside_supply is not None or not alone(session, snapshot):
        return snapshot.outside_supply
    return "driven" if snapshot.drove else "none"


def marks(book: Casebook, fault: int) -> list[Mark]:
    """The fault's mark in every snapshot, with the module's own volts where it gave them."""
    session, module = int(book.fault_session[fault]), int(book.fault_module[fault])
    result = []
    for column in range(len(book.order[session])):
        own, supply = float(book.module_volts[module, column]), float(book.volts[session, column])
        volts = own if own == own else supply
        word = int(book.status[fault, column])
        result.append(Mark(_SIGHTS[int(book.seen[fault, column])], STATUS_WORDS[word] if word >= 0 else None,
                           volts if volts == volts else None))
    return result


#: A reason longer than this is cut in the headline; it stands in full below.
LONGEST = 80


def supply_headline(session: Session, verdict: Verdict) -> str:
    """The supply in one line: what failed first, then what was found good, then what nobody tested."""
    entries = {entry["part"]: entry for entry in verdict["supply"]}
    parts = []
    for part in ("charging", "battery", "event", "key-off draw", "cables and grounds"):
        entry = entries[part]
        if entry["state"] == "failed":
            parts.append(f"{part} failed ({_in_short(entry['why'])})")
    if entries["event"]["state"] == "proven":
        parts += [f"overvoltage found ({why.removeprefix(OVER)})" if why.startswith(OVER) else
                  f"low supply found ({why})" for why in entries["event"]["why"].split("; ")]
    discharged = entries["battery"]["why"].startswith("discharged")
    if discharged:
        parts.append("battery found " + entries["battery"]["why"].split(":")[0].split(" with ")[0])
    if entries["charging"]["state"] == "proven":
        parts.append(f"charging good ({entries['charging']['why']})")
    good = [part for part in ("battery", "key-off draw", "cables and grounds") if entries[part]["state"] == "proven"]
    if good:
        # Of cables only the paths that somebody measured are good.
        told = [path for reason in entries["cables and grounds"]["why"].split("; ") if (path := path_of_reason(reason))]
        parts.append(f"{listed(good)} good" + (f" as measured ({', '.join(told)})"
                                               if told and "cables and grounds" in good else ""))
    quiet = is_quiet(session, verdict)
    open_parts = [part if part != "battery" or not discharged else "battery once charged"
                  for part, entry in entries.items() if entry["state"] == "not tested" and part != "event"]
    if quiet:
        parts.append("nothing says that it was weak" + (f"; {listed(open_parts)} not tested" if open_parts else ""))
    elif open_parts:
        parts.append(f"not tested: {', '.join(open_parts)}")
    return "; ".join(parts) or "nothing is known of the supply"


def is_quiet(session: Session, verdict: Verdict) -> bool:
    """Whether nothing speaks of a weak supply: no reading, no code, no measurement, no complaint."""
    complaint = session.vehicle.complaint if session.vehicle else None
    event = next(entry for entry in verdict["supply"] if entry["part"] == "event")
    return (not supply_in_doubt(verdict["supply"]) and event["why"].startswith("no low-supply code")
            and "overvoltage" not in event["why"] and "nobody read" not in event["why"]
            and not _of_supply(complaint or ""))


#: "Dead" is said of a horn and of a switch too: of the supply it is said where the whole vehicle is.
_WHOLE_DEAD = re.compile(r"(?<![a-z])(?:car|vehicle|van|truck|bus|lorry|everything|completely|totally|stone|all)"
                         r"(?: \w+){0,2} dead|dead (?:car|vehicle|in the|after|on)|(?:^|[.,;] *)dead(?:$|[.,;])")


def _of_supply(complaint: str) -> bool:
    """Whether a complaint speaks of the supply."""
    low = complaint.lower()
    return _WHOLE_DEAD.search(low) is not None or any(word in low for word in AREAS["supply"] if word != "dead")


#: How the reason of a part begins that nobody measured at all.
_NOBODY = ("no rested voltage", "no reading", "nobody measured")


def _in_short(why: str) -> str:
    """The first reason alone, without what stands in brackets and after the verdict."""
    first = re.sub(r" \([^()]*\)", "", why.split("; ")[0])
    head, colon, tail = first.partition(": ")
    return first if len(first) <= LONGEST or not colon else f"{head}: {tail.split(': ')[0]}" if (
        len(head) < LONGEST // 2) else head


def would_change(
    lines: list[FaultLine], verdict: Verdict, *, quiet: bool = False, told: Collection[str] = (),
) -> list[str]:
    """What would change the verdict: the measurements nobody made and the tests nobody could run. ``quiet``: nothing
    speaks of a weak supply, so that the parts of it which nobody measured are told in the headline alone; ``told``:
    parts that are told elsewhere on the page."""
    missing = []
    missing += [f"{entry['part']}: {entry['why']}" for entry in verdict["supply"]
             if entry["state"] == "not tested" and entry["part"] not in ("event", *told)
             and not (quiet and entry["why"].startswith(_NOBODY))]
    unread = [line for line in lines if line.verdict["standing"] == "unsettled" and line.marks
              and line.marks[-1].sight == "not readable"]
    if unread:
        modules = sorted({line.printed for line in unread})
        missing.append(f"an answer from {', '.join(modules)}, which could not be read in the last snapshot")
    if any(mark.volts is None for line in lines for mark in line.marks):
        missing.append("the supply at the snapshots where nobody read it")
    return missing


def told_in_ready(lines: Sequence[FaultLine], groups: Sequence[Group], proofs: Sequence[VerificationLine]) -> None:
    """Tell the runs of an electric vehicle in its own words, in place."""
    for line in lines:
        line.why[:] = [in_ready(reason) for reason in line.why]
    for group in groups:
        group.head = in_ready(group.head)
    for proof in proofs:
        proof.why, proof.proves = in_ready(proof.why), in_ready(proof.proves) if proof.proves else proof.proves


__all__ = ["columns", "is_quiet", "marks", "supply_headline", "told_in_ready", "would_change"]
