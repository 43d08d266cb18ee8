"""A line that says the codes of a scan are those of the scan before: "same codes as before except ABS"."""

from __future__ import annotations

from triage.intake.entries import answerrow
from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.said.answers import spoken
from triage.intake.scan.context import Context

_SAME = lazily(
    r"[\s>*-]{0,4}(?:(?:(?:all|exactly|again|still|now) ){0,2}(?:the )?same (?:codes?|faults?|dtcs?|list|again|as)|"
    r"(?:die )?(?:gleichen?|selben|dieselben) (?:fehler(?:codes)?|codes?|eintrage)|(?:les )?memes (?:codes|defauts)|"
    r"(?:los )?mismos (?:codigos|fallos))(?![a-z])"
    r"(?: (?:again|wieder|encore|otra vez|all|as|come|came|back|are|were|stored|(?:the )?(?:first|last) (?:scan|time)|"
    r"before|above|wie|vorher|vor|zuvor|oben|qu'avant|qu'au|que|avant|antes|earlier|in all modules))*"
)
_BUT = lazily(
    r"[\s,;(-]{1,3}(?:except(?:ed|ing)?(?: for| in)?|apart from|but(?: for)?|bar|other than|bis auf|aus?ser|sauf|"
    r"a part|menos|excepto|salvo)\s+(?=\S)|[,;]\s+(?=\S)"
)
_LONGEST = 120


def read(context: Context, row: Row) -> bool:
    """Note of the scan that begins here that it holds the codes of the one before; whether the row says so."""
    said = _SAME.match(row.low) if len(row.low) <= _LONGEST and not row.finds.codes else None
    if said is None:
        return False
    but = _BUT.match(row.low, said.end())
    others = context.names.find(row.low[but.end() :]) if but is not None else []
    if (but is None and row.low[said.end() :].strip(" .!")) or (but is not None and not others):
        return False
    builder = context.builder
    if builder.next_phase is not None and not builder.snapshot.empty:
        builder.new_snapshot(builder.next_phase)
        builder.next_phase = None
    place = row.line, row.start, row.start + len(row.text)
    if not builder.snapshot.empty or not any(
            module.codes for scan in builder.snapshots[:-1] for module in scan.modules.values()):
        builder.notice("warning", "of which scan these codes are is not clear: nothing was taken over; write them out",
                       *place)
        return True
    builder.snapshot.like_above = place
    context.saw_scan = True
    for start, end, _ in others:
        begin = start + (but.end() if but is not None else 0)
        builder.name_module(row.text[begin : begin + end - start], row.line, row.start + begin,
                            row.start + begin + end - start)
    if but is not None and (hits := list(spoken(row.low[but.end() :]))):
        answerrow.read(context, row.part(but.end()), context.at, hits)
    return True


__all__ = ["read"]
