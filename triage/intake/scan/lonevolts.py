"""The supply of a scan that nothing else told: where one row of a table calls a voltage the supply, it is that,
whatever the columns are for the other rows, and a notice says so. Of sentences the readers of sentences have judged.
"""

from __future__ import annotations

from triage.intake.lines.row import Row
from triage.intake.said import tocome, volts
from triage.intake.scan.assembly import SnapshotDraft
from triage.intake.scan.context import Context

#: Longer lines are sentences with more than the supply in them.
_LONGEST = 120


def take(context: Context) -> None:
    """Give each scan without a supply the one its lines tell, where they tell no other. Linear."""
    wanting = [draft for draft in context.builder.snapshots if draft.volts is None and _told_by_none(draft)]
    if not wanting:
        return
    rows: dict[int, list[Row]] = {draft.number: [] for draft in wanting}
    for number, row in zip(context.scan_of_row, context.rows, strict=False):
        if number in rows and row.cells and not row.finds.codes and row.aside is None and len(row.text) < _LONGEST:
            rows[number].append(row)
    for draft in wanting:
        _take(context, draft, rows[draft.number])


def _told_by_none(draft: SnapshotDraft) -> bool:
    """Whether no voltage at all was read of a scan."""
    return (draft.by_engine is None and draft.end_volts is None and not draft.row_volts and not draft.column_volts
            and all(module.volts is None for module in draft.modules.values()))


def _take(context: Context, draft: SnapshotDraft, rows: list[Row]) -> None:
    taken = {value for value, _, _ in context.volts_seen} | {reading.value for reading in draft.readings} | {
        value for module in draft.modules.values() for code in module.codes for value in code.freeze.values()}
    found = [(volt, row) for row in rows for volt in volts.find(tocome.clauses_done(row.low))
             if volt.labelled and volt.of in ("supply", "lowest") and volt.value not in taken]
    supply = {volt.value for volt, _ in found if volt.of == "supply"}
    lowest = {volt.value for volt, _ in found if volt.of == "lowest"}
    row = next((row for volt, row in found if volt.of == "supply"), None)
    if row is None or len(supply) > 1 or context.names.find(row.low):
        return
    draft.volts = supply.pop()
    if draft.lowest is None and len(lowest) == 1:
        draft.lowest = lowest.pop()
    context.builder.notice("note", f"{draft.volts:g} V taken for the supply of this scan", row.line, row.start,
                           row.start + len(row.text))


__all__ = ["take"]
