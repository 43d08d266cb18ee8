"""Sentences that say that nothing was cleared: "I have cleared nothing yet", "noch nicht geloscht", "j'ai rien efface".

They are said of the vehicle as it stands, wherever in a text they are: behind the modules they begin no scan.

>>> [span(low) is not None for low in ("i have erased nothing", "dont clear anything yet", "p0420 would not clear")]
[True, True, False]
"""

from __future__ import annotations

from triage.intake.plain import signs
from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered

_DONE = r"(?:cleared|erased|deleted|wiped)"
_DO = r"(?:clear|erase|delete|wipe)"
_CODES = r"(?:the |any |these |those |all |of )*(?:codes?|dtcs?|faults?|fault codes?|memory|anything|it|them|this|that)"
_NEVER = r"(?:not|never|n ?'? ?t)"
_YET = r"(?:yet|so far|as yet|at all|before|up to now|until now)"
_WAYS = (
    # "I have cleared nothing", "nothing cleared so far", "none of it has been erased"
    rf"{_DONE} (?:nothing|none)(?: of (?:it|them))?|"
    rf"(?:nothing|none(?: of (?:it|them|the codes))?) (?:(?:has|have|had|is|are|was|were|been|yet) )*{_DONE}|"
    # "I have not cleared it", "codes were not cleared", "hasn't been wiped yet"
    rf"(?:i|we)(?:'ve| have|'d| had)?(?: ?have| ?did| ?has)? ?{_NEVER} (?:(?:yet|even|actually|been) )*"
    rf"(?:{_DONE}|{_DO})|"
    rf"(?:have|has|had|was|were|are|is) ?{_NEVER} (?:(?:yet|been|being) )*{_DONE} {_YET}|"
    rf"(?:have|has) ?n ?'? ?t (?:yet )?{_DONE} {_CODES}|did ?{_NEVER} {_DO} {_CODES}|"
    rf"{_CODES} (?:(?:have|has|had|were|was|are) ?)?{_NEVER} (?:yet )?(?:been )?(?:yet )?{_DONE}|"
    rf"not (?:yet )?(?:been )?{_DONE} yet|"
    # What must not be done was not.
    rf"(?:do ?n ?'? ?t|do not|please leave|leave) {_DO} {_CODES}|(?:do ?n ?'? ?t|do not) {_DO} (?:yet|until)|"
    # German
    r"(?:nichts|noch nicht|noch nix|nix|noch keine?n?|keine?n?(?: einzige[nr]?)?)(?: (?:davon|fehler|codes?|speicher|"
    r"fehlerspeicher|eintrag|eintrage|bisher|bislang))* geloe?scht|"
    r"(?:fehler(?:speicher)?|codes?|ich habe|wir haben|hab)(?: (?:wurden?|ist|sind|sie|es|ihn|bisher|bislang|auch))* "
    r"(?:noch )?nicht geloe?scht|"
    # French
    r"(?:(?:je |on |nous )?n'?(?:ai|a|avons)? ?|j'ai |j ai |ai |on a )?(?:encore )?(?:rien|pas)(?: encore)?"
    r"(?: ete)? efface(?!r)\w*|aucun (?:defaut|code) (?:n'a ete )?efface|"
    r"(?:defauts?|codes?) non effaces?|(?:defauts?|codes?) pas (?:encore )?effaces?|"
    # Spanish
    r"no (?:he|hemos|ha|han|se ha|se han) (?:aun |todavia )?borrado(?: nada)?|sin borrar nada|nada borrado|"
    r"(?:aun|todavia) no (?:he |se ha |se han )?borr\w+|(?:codigos|averias|fallos) (?:aun |todavia )?no borrad[oa]s|"
    # Italian, Dutch
    r"non (?:ho|abbiamo|ha)(?: ancora)? cancellato(?: nulla| niente)?|nog niets gewist|niets gewist|nog niet gewist"
)
_UNCLEARED = lazily(rf"(?<![a-z])(?:{_WAYS})(?![a-z])")
#: What was tried and not done, or is told of one code, says that there was a clear: "could not be cleared".
_TRIED = lazily(r"(?<![a-z])(?:could|can|konn\w+|liess\w*|lasst|pu|peut|pudo|puede|wo|would|will|does|tried|again)\W?$")
_SIGNS = signs.of_pattern(r"clear|eras|delet|wip|loe?sch|effac|borr|cancell|gewist")


@remembered
def span(low: str) -> tuple[int, int] | None:
    """Where a text in small letters says that nothing was cleared; None where it does not."""
    if not signs.of(low) & _SIGNS:
        return None
    for match in _UNCLEARED.finditer(low):
        if not _TRIED.search(low, max(0, match.start() - 12), match.start()):
            return match.span()
    return None
