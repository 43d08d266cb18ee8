"""A charger of the vehicle that holds codes, and no outside supply: "Charger for the second battery" in the place of a
heading, an address before it perhaps, with codes set in below it."""

from __future__ import annotations

from triage.intake.lines.row import Row
from triage.intake.naming.addresses import BEFORE
from triage.intake.plain.characters import has_digit
from triage.intake.plain.phrases import plain_words, word_set
from triage.intake.said import phases
from triage.intake.said.outside import outside_supply
from triage.intake.scan.context import Context

#: What is said of outside supply.
_CONNECTED = word_set("""
    on off connected attached plugged hooked running used using with external an aus dran angeschlossen angeklemmt mit
    extern externes lauft branche branchee connecte connectee avec externe conectado conectada puesto puesta enchufado
    con externo jump booster starthilfe""")


def is_one(context: Context, row: Row, below: Row) -> bool:
    """Whether a row names such a charger. ``below``: what stands below it."""
    addressed = BEFORE.fullmatch(row.text)
    name = row.low if addressed is None else row.low[addressed.start(1) :]
    before = context.headings_direct + context.headings_after_blank
    return (
        before > 0
        and row.line.indent == context.heading_indent < below.line.indent
        and bool(below.finds.codes)
        and not has_digit(name)
        and outside_supply(name) is not None
        and _CONNECTED.isdisjoint(plain_words(row.low))
        and not phases.events(row.low)
    )


__all__ = ["is_one"]
