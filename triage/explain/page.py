"""The parts of a page about the session as a whole: columns, marks, headline, complaint, what would change it."""

from __future__ import annotations

from triage.model.assessment import Column, FaultLine, Group, Mark, Root, Sight
from triage.model.casebook import Casebook
from triage.model.session import Session
from triage.model.snapshot import STATUS_WORDS
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
            at=snapshot.at.isoformat(sep=" ", timespec="minutes") if snapshot.at else None,
            volts=snapshot.volts, lowest_volts=snapshot.lowest_volts, engine=snapshot.engine,
            outside_supply=snapshot.outside_supply, minutes=snapshot.ran_minutes, modules=len(answered),
            silent=len(snapshot.modules) - len(answered), codes=sum(len(scan.codes) for scan in answered),
        ))
    return heads


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


def printed_names(session: Session) -> dict[str, str]:
    """Module name in the job -> the name as the scan printed it, where it says."""
    return {scan.module: scan.printed for snapshot in session.snapshots for scan in snapshot.modules if scan.printed}


def supply_headline(session: Session, verdict: Verdict) -> str:
    """The supply in one line: what failed first, then what is proven, then what nobody tested."""
    entries = {entry["part"]: entry for entry in verdict["supply"]}
    parts = []
    for part in ("charging", "battery", "event", "key-off draw", "cables and grounds"):
        entry = entries[part]
        if entry["state"] == "failed":
            parts.append(f"{part} failed ({entry['why']})")
    if entries["event"]["state"] == "proven":
        parts.append(f"low-supply event proven ({entries['event']['why']})")
    if entries["battery"]["why"].startswith("discharged"):
        parts.append("battery found " + entries["battery"]["why"].split(":")[0])
    if entries["charging"]["state"] == "proven":
        parts.append(f"charging proven ({entries['charging']['why']})")
    open_parts = [part for part, entry in entries.items() if entry["state"] == "not tested" and part != "event"]
    if open_parts:
        parts.append(f"not tested: {', '.join(open_parts)}")
    return "; ".join(parts) or "nothing is known of the supply"


def complaint_answer(session: Session, short: list[Root], groups: list[Group]) -> str | None:
    """The complaint, and what the verdict has to say to it."""
    complaint = session.vehicle.complaint if session.vehicle else None
    if not complaint:
        return None
    if short:
        return f"{complaint}: look first at this: {short[0].title}"
    if groups:
        open_codes = sum(len(group.lines) for group in groups)
        are = "code is" if open_codes == 1 else "codes are"
        return f"{complaint}: nothing on the short list explains it yet; {open_codes} {are} open"
    return f"{complaint}: no code explains it; the supply is the first thing to prove"


def would_change(lines: list[FaultLine], verdict: Verdict) -> list[str]:
    """What would change the verdict: the measurements nobody made and the tests nobody could run."""
    told = []
    told += [f"{entry['part']}: {entry['why']}" for entry in verdict["supply"]
             if entry["state"] == "not tested" and entry["part"] != "event"]
    unread = [line for line in lines if line.verdict["standing"] == "unsettled" and line.marks
              and line.marks[-1].sight == "not readable"]
    if unread:
        modules = sorted({line.printed for line in unread})
        told.append(f"an answer from {', '.join(modules)}, which could not be read in the last snapshot")
    if any(mark.volts is None for line in lines for mark in line.marks):
        told.append("the supply at the snapshots where nobody read it")
    return told


__all__ = ["columns", "complaint_answer", "marks", "printed_names", "supply_headline", "would_change"]
