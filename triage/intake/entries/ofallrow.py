"""Rows and sentences that tell the status of all codes: of a scan ("Note: all stored, nothing present now"), or of the
module they stand under."""

from __future__ import annotations

from triage.intake.entries import metarow
from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import NOT_SHORT, plain_words, word_set
from triage.intake.said import ofall, phases
from triage.intake.scan.context import Context
from triage.intake.tidying.hearsay import remark_end
from triage.model.snapshot import StatusWord

#: What the codes of more than one module are in.
_OF_A_SCAN = word_set("scan reading readout session note auslesung lesung lecture lectura escaneo")
_SENTENCE = lazily(rf"[;!?\n]\s+|\.{NOT_SHORT}\s+")


def read(context: Context, row: Row) -> bool:
    """Such a row, perhaps behind what names its scan ("After the clear: all pending"); whether it is one."""
    lead, status = 0, ofall.told(row.low, context.translated)
    if status is None and ":" in row.low:
        lead = row.low.rindex(":")
        named = phases.find(row.low[:lead]) is not None or phases.scan_head(row.low[:lead]) is not None
        status = ofall.told(row.low[lead + 1 :], context.translated) if named else None
    if status is None:
        return False
    if lead:
        metarow.read(context, Row(row.line, row.text[:lead], row.start))
    module = context.builder.module
    if module is not None and module.codes and not lead and _is_of_a_module(context, row):
        for code in module.codes:
            code.status = code.status or status
    else:
        _keep(context, status)
    context.open_code = context.open_row = None
    return True


def in_sentences(context: Context, row: Row) -> None:
    """Keep what a sentence among others says so: "11.9 V at the battery. All of them active. BCM: U0100"."""
    begin = 0
    for end in (*(match.end() for match in _SENTENCE.finditer(row.low)), len(row.low)):
        status = ofall.told(row.low[begin:end], context.translated) if begin or end < len(row.low) else None
        if status is not None:
            _keep(context, status)
        begin = end


def _keep(context: Context, status: StatusWord) -> None:
    """Keep the status of all codes of the scan being read that have none of their own."""
    snapshot = context.builder.snapshot
    snapshot.of_all = snapshot.of_all or status


def _is_of_a_module(context: Context, row: Row) -> bool:
    """Whether a row right below the codes of a heading tells of these only."""
    if not context.under_heading or context.blanks or remark_end(row.low):
        return False
    return _OF_A_SCAN.isdisjoint(plain_words(row.low)) and (context.flat or row.line.indent > context.heading_indent)


__all__ = ["in_sentences", "read"]
