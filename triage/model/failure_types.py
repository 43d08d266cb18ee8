"""One code printed with its failure type in one scan and without it in the next is one fault.

Scan tools differ in whether they show the failure type (SAE J2012-DA). Read to the letter, the code with it would be
gone after the clear and the one without it new: a fault that never left would look like noise. Two entries of one list
stay two, for a list holds a code once, but a permanent code (service 0A of SAE J1979 has no room for a type) is the one
beside it. Where a module holds several types of the code, the one without says that at least one of them is there, and
since hiding a hard fault is the worse mistake it counts for all of them.
"""

from __future__ import annotations

from collections.abc import Mapping

from triage.model.notices import Notice
from triage.model.session import Session
from triage.model.snapshot import CodeEntry, ModuleScan
from triage.model.verdict import fault_name

#: (module, code) -> the failure types that its entries without one stand for.
Meant = Mapping[tuple[str, str], tuple[str, ...]]


def one_type(session: Session) -> tuple[Session, Meant]:
    """``session`` with the failure type that entries without one stand for, and what they stand for."""
    typed: dict[tuple[str, str], dict[str, None]] = {}
    bare: dict[tuple[str, str], None] = {}
    together: set[tuple[str, str]] = set()
    for snapshot in session.snapshots:
        for scan in snapshot.modules:
            listed: dict[str, bool] = {}
            for entry in scan.codes:
                said = entry.__dict__
                code, kind = said["code"], said["failure_type"]
                key = (scan.module, code)
                if kind is None:
                    bare[key] = None
                else:
                    typed.setdefault(key, {})[kind] = None
                if said["status"] != "permanent" and listed.setdefault(code, kind is None) != (kind is None):
                    together.add(key)
    meant = {key: tuple(typed[key]) for key in bare if key in typed and key not in together}
    return (_with_types(session, meant) if meant else session), meant


def _with_types(session: Session, meant: Meant) -> Session:
    return session.model_copy(update={"snapshots": [
        snapshot.model_copy(update={"modules": [_typed(scan, meant) for scan in snapshot.modules]})
        for snapshot in session.snapshots]})


def _typed(scan: ModuleScan, meant: Meant) -> ModuleScan:
    codes: list[CodeEntry] = []
    for entry in scan.codes:
        kinds = meant.get((scan.module, entry.code), ()) if entry.failure_type is None else ()
        codes += [entry.model_copy(update={"failure_type": kind}) for kind in kinds] or [entry]
    return scan if len(codes) == len(scan.codes) and codes == scan.codes else scan.model_copy(update={"codes": codes})


def type_notices(meant: Meant) -> list[Notice]:
    """What was taken for what, in words: nothing is joined in silence."""
    return [Notice("note", f"{fault_name(module, code, None)} without a failure type is taken for "
                           + " and ".join(fault_name(module, code, kind) for kind in kinds)
                           + ", which another scan shows")
            for (module, code), kinds in meant.items()]
