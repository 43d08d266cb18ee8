"""Modules of which a list at the top only counts the codes, named again above these: in the same words or in some of
them ("EECU engine ..... 2 faults", and further down "Control unit EECU: engine", "engine" or "EECU")."""

from __future__ import annotations

from triage.intake.naming.names import tidy
from triage.intake.plain.phrases import WORD, word_set
from triage.intake.said.near import small
from triage.intake.scan.assembly import ModuleDraft
from triage.intake.scan.context import Context

#: What a name may be given without.
_KINDS = word_set(
    "control unit module ecu controller system the address addr steuergerat calculateur boitier centralita unidad "
    "modulo de du la le el"
)


def counted(context: Context, text: str) -> ModuleDraft | None:
    """The module of exactly that name, whose codes were counted and are still to come."""
    module = context.builder.snapshot.modules.get(" ".join(small(tidy(text)).split()))
    return module if module is not None and _is_to_come(module) else None


def as_counted(context: Context, printed: str, count: int | None) -> str:
    """A heading's name as the list at the top has it, where it can be no other of that; else as it stands."""
    modules = context.builder.snapshot.modules
    if " ".join(small(printed).split()) in modules:
        return printed
    told = _words(printed)
    if not told:
        return printed
    found = [
        module for module in modules.values()
        if _is_to_come(module) and told <= _words(module.printed)
        and (count is None or module.stated is None or module.stated[0] == count)
    ]
    return found[0].printed if len(found) == 1 else printed


def _is_to_come(module: ModuleDraft) -> bool:
    """Whether the codes of a module were counted, and none of them has been read."""
    return module.stated is not None and module.stated[0] > 0 and not module.codes


def _words(printed: str) -> set[str]:
    return {word for word in WORD.findall(small(printed)) if word not in _KINDS}


__all__ = ["as_counted", "counted"]
