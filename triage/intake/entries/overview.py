"""Modules of which a list at the top only counts the codes, named again above these: in the same words or in some of
them ("EECU engine ..... 2 faults", and further down "Control unit EECU: engine", "engine" or "EECU")."""

from __future__ import annotations

from triage.intake.entries.headname import Heading
from triage.intake.lines.row import Row
from triage.intake.naming.heads import role_of
from triage.intake.naming.names import tidy
from triage.intake.plain.characters import has_letter
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import WORD, word_set
from triage.intake.said.answers import answer_of_cell
from triage.intake.said.counts import stated_count
from triage.intake.said.near import small
from triage.intake.scan.assembly import ModuleDraft
from triage.intake.scan.context import Context

#: The number of a list before a name.
_NUMBERED = lazily(r"^[0-9]{1,3}[.)]\s+")
#: Likeness of what may be the name of a module.
_LIKELY = 60.0
#: What a name may be given without.
_KINDS = word_set(
    "control unit module ecu controller system the address addr steuergerat calculateur boitier centralita unidad "
    "modulo de du la le el"
)


def counted_cell(context: Context, row: Row) -> Heading | None:
    """A name nobody knows and the count of its codes in two cells, among rows of known names with the like."""
    told = _told(row)
    if told is None or context.names.score(told[0]) >= _LIKELY or role_of(small(told[0])) is not None:
        return None
    beside = context.rows[max(context.at - 1, 0) : context.at + 2]
    known = any(
        other is not row and (like := _told(other)) is not None and context.names.score(like[0]) >= _LIKELY
        for other in beside
    )
    return Heading(told[0], 0, len(told[0]), told[1]) if known else None


def _told(row: Row) -> tuple[str, int] | None:
    """The name and the count of a row of two cells."""
    if row.kind not in ("gap", "\t", "|") or row.roles is not None or row.finds.codes:
        return None
    if row.cells is None or len(row.cells) != 2:
        return None
    name, said = row.cells
    stated = stated_count(said.low)
    if not has_letter(name.low) or stated is None:
        return (name.text, 0) if has_letter(name.low) and answer_of_cell(said.low) == "clean" else None
    alone = not said.low[: stated[1]].strip(" (") and said.low[stated[2] :].strip() in ("", "(s)", "(n)", "(es)")
    return (name.text, stated[0]) if alone else None


def counted(context: Context, text: str) -> ModuleDraft | None:
    """The module of exactly that name, whose codes were counted and are still to come."""
    module = context.builder.snapshot.modules.get(" ".join(small(tidy(text)).split()))
    return module if module is not None and _is_to_come(module) else None


def as_counted(context: Context, printed: str, count: int | None) -> str:
    """A heading's name as the list at the top has it, where it can be no other of that; else as it stands."""
    modules = context.builder.snapshot.modules
    if " ".join(small(printed).split()) in modules:
        return printed
    told = _words(_NUMBERED.sub("", printed))
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
