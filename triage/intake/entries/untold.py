"""Clauses that name a module, have words of an answer in them, and were understood by nobody: told in a notice.

"Steering talks now", "still no steering": something was said of that module, and neither "clean" nor "silent" would be
more than a guess.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Collection, Sequence

from triage.intake.entries import slots
from triage.intake.entries.clauses import Clause, clauses_of
from triage.intake.entries.subjects import is_through, says_behind
from triage.intake.lines.row import Row
from triage.intake.naming.names import tidy
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set, words
from triage.intake.said import states
from triage.intake.said.answeraround import Spoken
from triage.intake.scan.context import Context
from triage.intake.words.answerwords import CONTACT, MUTE

Span = tuple[int, int]

#: Words that say something of a module's answer, and of little else.
_TELLING = (CONTACT | MUTE | word_set(
    "dead silent quiet happy codes dtc dtcs "
    "nothing nichts nix rien nada zilch fehlercode fehlercodes codigos tot stumm "
    "muet muette mudo muda comms")) - word_set(
    "link linkup connection connect connects connected connecting contact access accessed session sessions id ident "
    "init sync login logon acces acceso contacto contatto accesso kontakt enlace liaison verbinden verbunden fel tom "
    "reach reached reaches reaction")
#: "Still no steering", where a sentence or a clause ends.
_STILL_NO = lazily(
    r"(?:still|again|immer noch|weiterhin|toujours|encore|sigue|todavia)\s"
    r"(?:no|without|kein|keine|keinen|pas de|sin)\s$"
)
#: "ABS has C0035, TCM too": the same code, or any.
_TOO = lazily(
    r"\s?[,:]?\s(?:too|as well|also|likewise|same|ebenfalls|auch|ebenso|aussi|tambien|igual)(?=\s*(?:[.,;!)]|$))")
#: "The gearbox won't come up"
_NOT_UP = lazily(
    r"\s(?:[a-z]+\s){0,2}(?:won ?'?t|didn ?'?t|doesn ?'?t|did not|does not|will not|never) "
    r"(?:come|came|show)(?:ed|s)? (?:up|back)")
#: "The BCM has it back"
_HAS_IT = lazily(
    r"\s(?:still |now |also )?(?:has|had|got|shows?|hat|zeigt) (?:it|them|those|both|ihn|ihnen|sie)"
    r"(?: (?:back|again|still|now|too|wieder))?(?=\s*(?:[.,;!)]|$))")
_OPENS = lazily(r"(?:^|[.,;:!?(]|(?<![a-z])(?:and|und|et|y))\s*(?:(?:the|der|die|das|le|la|el)\s|l')?$")
_ENDS = lazily(r"\s*(?:$|[.,;!?)])")
_LONGEST = 100


def note(context: Context, row: Row, owners: Collection[Span]) -> None:
    """Warn of the modules of a sentence that something is told of by no fact (``owners``: the names of those that one
    is told of)."""
    clauses = clauses_of(context, row)
    names = [(start, end) for start, end, _ in context.names.find(row.low)]
    owned = sorted(owners)
    found: list[Span] = []
    for at, clause in enumerate(clauses):
        inside = _between(names, clause)
        if inside and not (clause.codes or clause.doubtful or _between(owned, clause)):
            found += _told(row, clause, inside, bool(at) and bool(clauses[at - 1].codes))
    above = context.builder.module
    for start, end in found:
        printed = tidy(row.text[start:end])
        context.builder.name_module(printed, row.line, row.start + start, row.start + end).unclear = True
    if found:
        context.builder.module = above


def alone(context: Context, row: Row) -> bool:
    """Warn of the module of a short line without codes that nothing else read; whether there is one."""
    if len(row.text) > _LONGEST or row.cells or not context.names.find(row.low):
        return False
    before = len(context.builder.snapshot.modules)
    note(context, row, ())
    return len(context.builder.snapshot.modules) > before


def _between(spans: Sequence[Span], clause: Clause) -> Sequence[Span]:
    """Those of some places, from left to right, that begin in a clause."""
    return spans[bisect_left(spans, (clause.start, 0)) : bisect_left(spans, (clause.end, 0))]


def _told(row: Row, clause: Clause, names: Sequence[Span], behind_code: bool) -> list[Span]:
    """Those of the names in a clause that something is said of."""
    said = not _TELLING.isdisjoint(word for word, _, _ in words(row.low[clause.start : clause.end]))
    if not said and not clause.answers and clause.names:
        # "ABS is showing something stored"
        first = clause.names[0][1]
        said = says_behind(row.low, first) and bool(states.in_text(row.low[first : clause.end]))
    found: list[Span] = []
    for start, end in names:
        if behind_code and is_through(row.low, start):
            continue
        still = _STILL_NO.search(row.low, max(clause.start, start - 24), start) and _ENDS.match(row.low, end)
        too = row.finds.codes and row.finds.codes[0].start < start and _TOO.match(row.low, end) and _OPENS.search(
            row.low, max(clause.start - 1, start - 12), start)
        if said or still or too or _HAS_IT.match(row.low, end) or _NOT_UP.match(row.low, end):
            found.append((start, end))
    return found


def unheard(context: Context, row: Row, hit: Spoken, clauses: list[Clause]) -> None:
    """A warning where something that nobody knows did not answer ("cannot reach the vdm")."""
    names = [name for clause in clauses for name in clause.names]
    said = [other for clause in clauses for other in clause.answers]
    if hit.answer == "silent" and slots.unfilled(row, names, said, hit):
        end = clauses[bisect_right(clauses, hit.start, key=lambda clause: clause.start) - 1].end
        context.builder.notice(
            "warning",
            "something did not answer here, and no module of its name is known: write the name in capital letters, or "
            "alone in a line with \"no answer\"",
            row.line, row.start + hit.start, row.start + end)


__all__ = ["alone", "note", "unheard"]
