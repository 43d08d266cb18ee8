"""Response bytes inside a pasted text: found, read by :mod:`triage.intake.raw`, put under the heading above."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.scan.assembly import NOT_STATED, Builder, CodeDraft, ModuleDraft
from triage.intake.scan.context import Context
from triage.model.session import Event

if TYPE_CHECKING:
    from triage.intake.raw.blocks import RawModule

_HEX = lazily(r"[0-9A-Fa-f]{2}(?<![0-9A-Za-z]..)(?:(?:[ ,][0-9A-Fa-f]{2}){2,}(?![0-9A-Za-z])|[0-9A-Fa-f]{4,})")


def blocks(rows: Sequence[Row]) -> dict[int, int]:
    """Runs of response bytes: index of the first row to the index after the last."""
    if not any(_looks_raw(row) for row in rows if not row.blank):
        return {}
    from triage.intake.raw.blocks import raw_blocks  # few texts hold bytes, and its modules are a tenth of the reader

    # A row of a table that holds a code tells no bytes, whatever its numbers are: "... / 0x710 | 44".
    return dict(raw_blocks(["" if row.roles and row.finds.codes else row.text for row in rows]))


def _looks_raw(row: Row) -> bool:
    """Whether a row may hold bytes: pairs of hexadecimal digits, or a long run of them with digits in it. Quick."""
    match = _HEX.search(row.text) if not row.finds.codes else None
    if match is None or not any(c.isdigit() for c in match[0]):
        return False
    return len(match[0]) >= 0.25 * len(row.text)


def read(context: Context, first: int, last: int) -> None:
    """Read one run of bytes into the snapshot being read."""
    from triage.intake.raw.blocks import read_raw

    rows = context.rows[first:last]
    reading, notices = read_raw([row.text for row in rows], context.builder.source, first_line=rows[0].line.number)
    context.builder.notices += notices
    if reading is None:
        return
    said = context.builder.snapshot.said
    for module in reading.modules:
        _module(context, rows[0], module)
    if reading.since_clear is not None:
        said.warm_ups = reading.since_clear.warm_ups if said.warm_ups is None else said.warm_ups
        said.distance_km = reading.since_clear.distance_km if said.distance_km is None else said.distance_km
        said.minutes = reading.since_clear.minutes if said.minutes is None else said.minutes
    said.engine = said.engine or reading.engine
    said.ran_minutes = reading.ran_minutes if said.ran_minutes is None else said.ran_minutes
    if reading.readiness is not None:
        context.builder.snapshot.readiness = reading.readiness


def _module(context: Context, row: Row, raw: RawModule) -> None:
    """One responder as a module of the snapshot; what has no identifier belongs to the heading above."""
    builder = context.builder
    if raw.printed is not None:
        draft = builder.name_module(raw.printed, row.line, row.start, row.start + len(row.text))
    elif builder.module is not None and context.under_heading:
        draft = builder.module
    else:
        draft = builder.name_module(raw.module or NOT_STATED, row.line, row.start, row.start + len(row.text))
    draft.canonical = draft.canonical or raw.module
    if raw.codes or raw.lists_read or raw.responds:
        draft.answer = draft.answer or ("clean" if raw.responds else "silent")
    draft.volts = raw.volts if draft.volts is None else draft.volts
    draft.status_mask = raw.status_mask if draft.status_mask is None else draft.status_mask
    for name in raw.lists_read:
        context.saw_list(name)
    for lamp in raw.lamps or []:
        builder.snapshot.said.lamps = [*(builder.snapshot.said.lamps or []), lamp]
    _codes(builder, draft, raw)
    if raw.vin is not None:
        context.facts.vins.append(raw.vin)
        context.facts.values.setdefault("vin", raw.vin)
    if raw.cleared is not None:
        builder.events.append(Event(what="cleared", module=raw.module, answer=raw.cleared))
    builder.snapshot.readings += list(raw.readings.values())


def _codes(builder: Builder, draft: ModuleDraft, raw: RawModule) -> None:
    """The codes of a responder, each with what was stored with it."""
    for entry in raw.codes:
        code = CodeDraft(entry.code, entry.failure_type, entry.status, entry.status_byte, entry.text, entry.count)
        if entry.code == raw.freeze_code and raw.freeze_frame is not None:
            code.freeze = {name: value for name, value in raw.freeze_frame.model_dump().items() if value is not None}
        builder.hold(draft, code)
