"""Programming that broke off: it is finished before anything is cleared, run or judged."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from triage.explain.case import UNREAD_LIST, Case, gate_of
from triage.explain.module_checks import in_order
from triage.model.assessment import Root
from triage.model.casebook import NOT_READABLE, SEEN, Casebook
from triage.model.session import Session
from triage.model.verdict import NextCheck

if TYPE_CHECKING:
    from triage.model.casebook import Floats

#: What a code is called by which a module says so itself (SAE J2012: P0602).
_SAYS_SO = ("module not programmed", "programming error", "programming incomplete")
_CURRENT = 0


def unfinished(book: Casebook, case: Case, modules: Sequence[int]) -> list[int]:
    """Modules whose last programming was refused or broke off, or that say themselves, now, that they hold none."""
    broken = broken_off(book.sessions[case.place])
    says = {int(book.fault_module[fault]) for fault in case.open if _says_so(book, case, fault)}
    return [module for module in modules if module in says or not broken.isdisjoint(
        name.casefold() for name in (book.module_name[module], book.module_facts[module].name,
                                     case.name(book.module_name[module])))]


def broken_off(session: Session) -> set[str]:
    """The names, in small letters, of modules whose last programming was refused or broke off."""
    last: dict[str, str | None] = {}
    for event in in_order(session.events or []):
        if event.what == "programmed" and event.module is not None:
            last[event.module.casefold()] = event.answer
    return {name for name, answer in last.items() if answer == "refused"}


def finish_first(roots: Sequence[Root], book: Casebook) -> None:
    """Say of a module of the list that is silent since its programming broke off that this is finished first."""
    broken = broken_off(book.sessions[0])
    for module, facts in enumerate(book.module_facts) if broken else ():
        shown = book.shown(module)
        if broken.isdisjoint(name.casefold() for name in (book.module_name[module], facts.name, shown)):
            continue
        for root in roots:
            if root.title.startswith(f"{shown} is silent: "):
                root.title = (f"{shown} is silent and its programming was refused or broke off: finish that before its "
                              "branch and the modules that complain")


def _says_so(book: Casebook, case: Case, fault: int) -> bool:
    """Whether a code says that its module is not programmed, and is current or established in the last scan of it."""
    told = " ".join((book.facts[fault].title, *(() if book.facts[fault].known else book.texts.get(fault, ())))).lower()
    if not any(words in told for words in _SAYS_SO):
        return False
    read = [at for at, seen in enumerate(book.seen[fault].tolist()) if seen != NOT_READABLE]
    return bool(read) and book.seen[fault, read[-1]] == SEEN and (
        book.status[fault, read[-1]] == _CURRENT or fault in case.listed)


def recovery_checks(
    book: Casebook, case: Case, modules: Sequence[int], bits: Floats, names: list[str], records: Sequence[str],
) -> list[NextCheck]:
    """The programming of such modules, to its end. ``records``: modules, as printed, with a crash record."""
    checks: list[NextCheck] = []
    for module in modules:
        name, safety = case.name(book.module_name[module]), book.module_facts[module].safety
        faults = [fault for fault in case.open if book.fault_module[fault] == module
                  and book.facts[fault].monitor != "event"]
        gates = ["the crash record written down first; it is not to be cleared"] if name in records else []
        gates += [str(gate_of(safety))] if safety in ("high voltage", "restraints") else []
        checks.append({
            "do": f"finish the programming of {name}: recover it by the maker's procedure, from the start",
            "where": f"{name}, at a stabilised supply, nothing switched on meanwhile", "minutes": 30.0,
            "passes_if": "the programming ends without an error, its codes go and stay away after a key cycle",
            "settles": [names[fault] for fault in faults],
            "gain_bits": round(UNREAD_LIST + float(bits[faults].sum()) * 0.8, 2), "gate": "; ".join(gates) or None})
    return checks


def behind(checks: Sequence[NextCheck], case: Case, book: Casebook, modules: Sequence[int]) -> list[NextCheck]:
    """Steps that clear or run something, each only once the programming of ``modules`` is finished."""
    if not modules:
        return list(checks)
    told = " and ".join(case.name(book.module_name[module]) for module in modules)
    first = f"the programming of {told} finished first"
    return [{**check, "gate": "; ".join(filter(None, (first, check["gate"])))} for check in checks]


__all__ = ["behind", "broken_off", "finish_first", "recovery_checks", "unfinished"]
