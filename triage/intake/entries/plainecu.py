"""A plain "ECU" beside named modules: "ECU: P0622" over "ABS: no faults" is the engine's control unit.

Only where no line names the engine's otherwise, and "ECU" is no key before the names of modules.

>>> from code_tables import load
>>> from triage.intake.naming.names import Names
>>> from triage.intake.lines.rows import rows_of
>>> texts = ("ECU: P0622\\nABS: no faults", "ECU: P0622\\nEngine: no faults\\nABS ok", "ECU: ABS\\nECU: P0562")
>>> [is_engine(rows_of(text), Names(load())) for text in texts]
[True, False, False]
"""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.codes.found import Found
from triage.intake.lines.layouts import Row
from triage.intake.naming.linking import strip_links
from triage.intake.naming.names import Names
from triage.intake.plain.patterns import lazily
from triage.intake.said.answers import answer_of_cell, spoken
from triage.intake.scan.assembly import ModuleDraft
from triage.intake.scan.context import Context

_PLAIN = lazily(r"(?:the |my |le |la |el |die |das |l')?ecu(?![a-z0-9])\s*(?:[:=>-]+\s*)?(?!\s*[0-9])")
_ENGINE = "engine control"


def is_engine(rows: Sequence[Row], names: Names) -> bool:
    """Whether lines that start with a plain "ECU" tell of the engine's control unit in this text."""
    plain = {at for at, row in enumerate(rows) if "ecu" in row.low and _tells(row)}
    if not plain or any(code.text[:1] in "BC" for at in plain for code in rows[at].finds.codes):
        # Codes of the body or the chassis stand in no engine's control unit.
        return False
    others = False
    for at, row in enumerate(rows):
        if row.head:
            return False
        if row.blank or at in plain:
            continue
        found = names.find(row.low[:200])
        if any(names.match(row.text[start:end]).canonical.startswith(_ENGINE) for start, end, _ in found):
            return False
        match = _PLAIN.match(row.low)
        if match is not None and any(start == match.end() for start, _, _ in found):
            # "ECU: ABS": a key.
            return False
        others = others or bool(found and not found[0][0])
    return others


def _tells(row: Row) -> bool:
    """Whether a line is a plain "ECU" with its codes or its answer."""
    match = _PLAIN.match(row.low) if not row.cells or len(row.cells) < 2 or row.kind == "gap" else None
    if match is None:
        return False
    if row.finds.codes:
        return not strip_links(row.text[: row.finds.codes[0].start])
    return _answer(row.low[match.end() :]) is not None


def _answer(low: str) -> str | None:
    """The answer that stands behind the name, alone or first in a sentence."""
    whole = answer_of_cell(low)
    hits = spoken(low) if whole is None else ()
    if len(hits) == 1 and not hits[0].doubtful and not strip_links(low[: hits[0].start]):
        return hits[0].answer
    return whole


def module(context: Context, row: Row, code: Found | None) -> ModuleDraft | None:
    """The engine's control unit, where the text before a code of the row is a plain "ECU" and its links."""
    if context.under_heading or code is None or _PLAIN.match(row.low) is None:
        return None
    if strip_links(row.text[: row.finds.codes[0].start]) or context.names.find(row.low[: code.start]):
        return None
    return _named(context, row)


def answered(context: Context, row: Row) -> bool:
    """A plain "ECU" with its answer; whether the row was one."""
    match = _PLAIN.match(row.low)
    answer = _answer(row.low[match.end() :]) if match is not None else None
    if answer is None or context.names.find(row.low):
        return False
    context.close_module()
    context.builder.answer(_named(context, row), answer)
    context.under_heading = context.live_data = False
    return True


def _named(context: Context, row: Row) -> ModuleDraft:
    at = row.low.index("ecu")
    draft = context.builder.name_module(row.text[at : at + 3], row.line, row.start + at, row.start + at + 3)
    draft.canonical = _ENGINE
    return draft


__all__ = ["answered", "is_engine", "module"]
