"""One module under two names in one session ("ECM" in one scan, "engine control" in the next) is one module.

Two entries of one scan stay two, whatever they are called: a scan lists a module once. Some short names stand for two
modules ("ACM", of the airbags or of the aftertreatment): what it lists tells which.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TypeVar

from triage.model.failure_types import Meant
from triage.model.session import Event, Session
from triage.model.snapshot import ModuleScan, Reading
from triage.model.verdict import FaultVerdict, fault_name

Named = TypeVar("Named", ModuleScan, Reading, Event)


def one_name(session: Session, canonical: Callable[[str], str]) -> tuple[Session, dict[str, str]]:
    """``session`` with the name first given for each module, and every other name given -> that name.

    ``canonical``: any name a person would write -> the module it stands for.
    """
    meant = {scan.module: "" for snapshot in session.snapshots for scan in snapshot.modules}
    for name in meant:
        meant[name] = canonical(name)
    if len(set(meant.values())) == len(meant):
        return session, {}
    names: dict[str, list[str]] = {}
    for name, module in meant.items():
        names.setdefault(module, []).append(name)
    other = {name: group[0] for group in names.values() if len(group) > 1 and not _together(session, group)
             for name in group[1:]}
    return (_renamed(session, other) if other else session), other


#: A short name that is taken for the first module unless all that it lists is of the second.
_EITHER = (("restraints", "reductant"),)
#: What the exhaust aftertreatment of a heavy vehicle reports (SAE J1939-71), by words of the titles.
_AFTERTREATMENT = ("NOx", "SCR", "aftertreatment", "catalyst", "reductant", "particulate")


def by_company(
    session: Session, canonical: Callable[[str], str], title: Callable[[str], str],
) -> tuple[Session, dict[str, str]]:
    """``session`` with a module that goes by an ambiguous short name under the one that its codes are of: codes of
    SAE J1939 alone, some of them of the aftertreatment, are no airbag's. And that name given -> the one used.

    ``title``: code -> what it means.
    """
    given = {scan.module for snapshot in session.snapshots for scan in snapshot.modules}
    if not any(canonical(name) == first for name in given for first, _ in _EITHER):
        return session, {}
    held: dict[str, set[str]] = {}
    for snapshot in session.snapshots:
        for scan in snapshot.modules:
            held.setdefault(scan.module, set()).update(entry.code for entry in scan.codes)
    other = {name: second for first, second in _EITHER for name, codes in held.items()
             if codes and all(code.startswith("SPN ") for code in codes) and canonical(name) == first
             and any(word in title(code) for code in codes for word in _AFTERTREATMENT)
             and second not in held}
    return (_renamed(session, other) if other else session), other


def by_reports(
    session: Session, canonical: Callable[[str], str], second: Callable[[str], str | None],
    missed: Callable[[str], Sequence[str]],
) -> tuple[Session, dict[str, str]]:
    """``session`` with a silent module whose printed name stands for two ("BCM / gateway") under the second of them,
    where others report the loss of that one, of which there is no other, and nobody that of the first. And that name
    given -> the one used.

    ``second``: a name as printed -> the other module it may mean; ``missed``: code -> modules whose loss it reports.
    """
    silent = {scan.module: scan.printed or scan.module for shot in session.snapshots for scan in shot.modules
              if scan.responds is False}
    doubtful = {name: either for name, printed in silent.items() if (either := second(printed)) is not None}
    if not doubtful:
        return session, {}
    scans = [scan for snapshot in session.snapshots for scan in snapshot.modules]
    there = {canonical(scan.module) for scan in scans}
    held = {scan.module for scan in scans if scan.codes}
    lost = {target for code in {entry.code for scan in scans for entry in scan.codes} for target in missed(code)}
    other = {name: meant for name, meant in doubtful.items() if name not in held and meant not in there
             and meant in lost and canonical(name) not in lost}
    return (_renamed(session, other) if other else session), other


def _together(session: Session, names: list[str]) -> bool:
    """Whether one snapshot lists two of ``names``."""
    wanted = set(names)
    return any(len(wanted.intersection(scan.module for scan in snapshot.modules)) > 1
               for snapshot in session.snapshots)


def _renamed(session: Session, other: dict[str, str]) -> Session:
    """A copy with the modules of every snapshot, reading and event under one name each."""
    return session.model_copy(update={
        "snapshots": [snapshot.model_copy(update={
            "modules": [_under(scan, other) for scan in snapshot.modules],
            "readings": snapshot.readings and [_under(reading, other) for reading in snapshot.readings],
        }) for snapshot in session.snapshots],
        "events": session.events and [_under(event, other) for event in session.events],
    })


def _under(entry: Named, other: dict[str, str]) -> Named:
    name = other.get(entry.module or "")
    return entry if name is None else entry.model_copy(update={"module": name})


def under_given_names(
    session: Session, other: dict[str, str], meant: Meant, faults: list[FaultVerdict],
) -> list[FaultVerdict]:
    """``faults``, each once for every name and failure type under which ``session`` (as given) lists its code.

    An entry that gave no type where another did is explained by the fault it stands for.
    """
    if not other and not meant:
        return faults
    given: dict[tuple[str, str, str | None], dict[tuple[str, str | None], None]] = {}
    for snapshot in session.snapshots:
        for scan in snapshot.modules:
            name = other.get(scan.module, scan.module)
            for entry in scan.codes:
                kind = entry.failure_type
                # Of several types the first answers for the entry without one, so that it appears once.
                stands = meant.get((name, entry.code), (kind,))[0] if kind is None else kind
                given.setdefault((name, entry.code, stands), {})[scan.module, kind] = None
    new = {stands: name for name, stands in other.items() if stands not in
           {scan.module for snapshot in session.snapshots for scan in snapshot.modules}}
    faults = [fault | {"explained_by": new[told]} if (told := fault["explained_by"]) in new else fault
              for fault in faults] if new else faults
    return [fault if (name, kind) == (fault["module"], fault["failure_type"]) else _as_given(fault, name, kind)
            for fault in faults for name, kind in given[fault["module"], fault["code"], fault["failure_type"]]]


def _as_given(fault: FaultVerdict, name: str, kind: str | None) -> FaultVerdict:
    """``fault`` as the entry that gave another name for its module, or no failure type, has it."""
    out = fault | {"module": name, "failure_type": kind}
    if kind != fault["failure_type"] and fault["explained_by"] is None:
        out["explained_by"] = fault_name(name, fault["code"], fault["failure_type"])
    return out
