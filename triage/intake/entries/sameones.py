"""Codes that are told to be the same as in the scan before, with no name: "same two U1113 both active"."""

from __future__ import annotations

from triage.intake.codes.finds import Found
from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.scan.assembly import NOT_STATED, ModuleDraft
from triage.intake.scan.context import Context

#: Right before a code that was told of before.
_SAME = lazily(
    r"(?<![a-z])(?:same|still|again|(?:der|die) ?selben?|gleichen?|immer noch|meme|memes|toujours|mism[oa]s?|todavia)"
    r"(?: (?:the|two|three|both|pair of|old|codes?|die|der|beiden?|zwei|les|deux|los|dos))* $"
)


def holders(context: Context, row: Row, code: Found) -> list[ModuleDraft]:
    """The modules of a code that is told to be the same as before, where several held it in the scan before: "same two
    U1113 both active"."""
    if _SAME.search(row.low, max(0, code.start - 40), code.start) is None:
        return []
    builder = context.builder
    earlier = next((each for each in reversed(builder.snapshots[:-1]) if not each.empty), None)
    names = [each.printed for each in (earlier.modules.values() if earlier is not None else ())
             if each.printed != NOT_STATED and each.entries(code.text)]
    if len(names) < 2:
        return []
    start, end = row.start + code.start, row.start + code.end
    builder.notice("note", f"no module is named: taken for {' and '.join(names)}, which held it before", row.line,
                   start, end)
    found = [builder.name_module(name, row.line, start, end) for name in names]
    builder.module = None
    return found


__all__ = ["holders"]
