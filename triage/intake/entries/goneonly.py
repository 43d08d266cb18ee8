"""A module of which a scan says nothing but that its codes are gone: it was read, and holds none of them now.

``ABS: C0035 gone`` below a clear is as good as ``ABS: no codes``, unless an earlier scan of the text gives the module
further codes: of those nothing is said. "C0035 cleared" tells what was done, and nothing of what was read.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.said import gone
from triage.intake.scan.assembly import ModuleDraft, SnapshotDraft
from triage.intake.scan.context import Context

#: Behind a code that shares what is said of the next: "P0562 and U0100 did not return".
_LISTED = lazily(r"[\s,&/+]*(?:and |und |et |y )?[\s]*[pcbu][0-9]")
#: Behind the name of a module whose codes are told of: no other words come before the first.
_BESIDE = lazily(r"[\s:=,;|.()\[\]>*-]*[pcbu] ?[0-9].*")
_BRACKETED = lazily(r"[\s>*-]*[\[(<]\s*([^\[\]()<>]{2,40}?)\s*[\])>]\s*[:=-]?\s*[pcbu] ?[0-9]")
_DEED = lazily(r"clear|erased|geloscht|efface|supprim|borrad|eliminad")


def answer(context: Context, drafts: Sequence[SnapshotDraft]) -> None:
    """Give each such module the answer of one without codes, and tell so in a notice."""
    told = _told(context)
    _enter(context, drafts, told)
    held: dict[str, set[str]] = {}
    for draft in drafts:
        for module in draft.modules.values():
            name = module.canonical or context.names.match(module.printed).canonical
            codes = told.get(module.line.number)
            nothing_else = not module.codes and module.answer is None and held.get(name, set()) <= (codes or set())
            if codes and nothing_else and _BESIDE.fullmatch(module.line.low, module.end):
                module.answer, module.unclear = "clean", False
                context.builder.notice(
                    "note", f"{module.printed}: {' and '.join(sorted(codes))} told to be gone: taken for a module "
                    "without codes", module.line, module.start, module.end)
            held.setdefault(name, set()).update(code.code for code in module.codes)


def _enter(context: Context, drafts: Sequence[SnapshotDraft], told: Mapping[int, set[str]]) -> None:
    """Put a listed name that leads such a line in brackets ("( Airbag )  B0028 gone") into the scan of the lines around
    it; between two scans nobody can tell which is meant."""
    at = sorted((module.line.number, place) for place, draft in enumerate(drafts) for module in draft.modules.values())
    known = {number for number, _ in at}
    for row in context.rows:
        lead = _BRACKETED.match(row.low) if row.line.number in told and row.line.number not in known else None
        if lead is None or not context.names.listed(row.text[slice(*lead.span(1))]):
            continue
        above = [place for number, place in at if number < row.line.number][-1:]
        below = [place for number, place in at if number > row.line.number][:1] or above
        printed = row.text[slice(*lead.span(1))]
        if above and above == below and printed not in drafts[above[0]].modules:
            start, end = (row.start + place for place in lead.span(1))
            drafts[above[0]].modules[printed] = ModuleDraft(printed, row.line, start, end)


def _told(context: Context) -> dict[int, set[str]]:
    """By the number of a line that names no other code: the codes that it says are gone."""
    found: dict[int, set[str]] = {}
    other: set[int] = set()
    for row in context.rows:
        if row.finds.codes:
            other.add(row.line.number)
        lost = False
        for code in reversed(row.finds.mentions):
            end = gone.end(row.low, code.end)
            lost = bool(end and not _DEED.search(row.low, code.end, end)) or (
                lost and _LISTED.match(row.low, code.end) is not None)
            if lost:
                found.setdefault(row.line.number, set()).add(code.text)
            else:
                other.add(row.line.number)
    return {number: codes for number, codes in found.items() if number not in other}


def leads(row: Row) -> bool:
    """Whether a row with codes first tells that another one is gone: what stands before its codes is no name of a
    module ("PCM P0562 gone, B1000 still there in the light bar")."""
    first = row.finds.codes[0].start
    return any(code.end < first and gone.end(row.low, code.end) for code in row.finds.mentions)


__all__ = ["answer", "leads"]
