"""Answers of modules that a sentence names in another place: "Scanned engine, ABS and airbag. Engine P0335, the other
two are clean", "Checked radio and ABS. Both dead"."""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.entries.clauses import Clause
from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.said.answeraround import Spoken
from triage.intake.said.attribution import Fact, Span
from triage.intake.scan.context import Context

_TWO, _THREE, _FOUR = "two|2|beiden|zwei|deux|dos", "three|3|drei|trois|tres", "four|4|vier|quatre|cuatro"
_NUMBER = rf"(?:({_TWO})|({_THREE})|({_FOUR}))"
#: Before the answer, in its clause.
_OTHERS = lazily(
    rf"(?<![a-z])(?:(?:the )?(?:other|remaining) {_NUMBER}|die (?:anderen|ubrigen) {_NUMBER}|les {_NUMBER} autres|"
    rf"(?:los|las) otr[oa]s {_NUMBER}|all {_NUMBER}|(both|beide|les deux|los dos|ambos))"
    r"(?: of them| davon| d'entre eux)?(?:\s[a-z]+)?(?:\s[a-z]+)?\s*$"
)
_MOST_BEFORE = 60


def named(context: Context, row: Row, fact: Fact, hit: Spoken, clauses: Sequence[Clause],
          facts: Sequence[Fact]) -> list[Span]:
    """The names, told of by nothing else, of the modules that an answer without a name is told of; none where their
    number is another than that told."""
    clause = next((clause for clause in clauses if clause.start <= fact.start < clause.end), None)
    if clause is None or clause.names:
        return []
    match = _OTHERS.search(row.low, max(clause.start, hit.start - _MOST_BEFORE), hit.start)
    if match is None:
        return []
    number = next((2 + (at - 1) % 3 if at < 16 else 2 for at in range(1, 17) if match[at] is not None), 0)

    def module(name: Span) -> str:
        return context.names.match(row.text[name[0] : name[1]]).canonical

    told = {module(name) for other in facts for name in other.owners}
    found: dict[str, Span] = {}
    for name in (name for before in clauses for name in before.names if before.start < clause.start):
        if module(name) not in told:
            found.setdefault(module(name), name)
    return list(found.values()) if len(found) == number else []


__all__ = ["named"]
