"""What says of a deed that it was not done: before it ("not replaced", "noch nix ersetzt") or behind ("swapped? no").

>>> [before(low, low.index("ersetzt")) for low in ("hab noch nix ersetzt", "sicherung ersetzt")]
[True, False]
>>> [behind(low) for low in (" hab ich noch nichts", "? no", " nothing yet", " nothing but a fuse", ", nichts")]
[True, True, True, False, False]
"""

from __future__ import annotations

import re

from triage.intake.plain.patterns import lazily

#: What was done before the deed, so that "after" is said of that: "after charging overnight cleared".
_DONE_FIRST = (
    r" (?:(?:the|a|an|full|some|dem|der|die|das|voller|vollem|une?|la|le|el|una?|toute|toda) ){0,2}"
    r"(?:(?:re-?)?(?:charg\w*|lad(?:en|ung|ezeit))|auflad\w+|nachlad\w+|carga\w*|jump[ -]?start\w*|starthilfe|waiting|"
    r"standing|rest|warten|standzeit|attente|espera\w*|drive|driving|road test|probefahrt|fahrt|essai|trajet|prueba|"
    r"repairs?|reparatur|reparation|reparacion)(?![a-z])")
_NOT = lazily(
    r"(?<![a-z])(?:(?:have|has|had|did|was|were|is|are|do|does|ca|could|would)n ?'? ?t|cannot|not|never|nothing|none|"
    # What may be done was not.
    r"(?:can|may|might|could|shall|peu(?:t|vent)|doi(?:t|vent)|pueden?|deben?)(?= (?:only |\w+ly )?(?:be|etre|ser) )|"
    r"niet|geen|senza|zonder|prima|dopo|na|voor|nichts|nix|nischt|nich|net|ned|nimmer|keine?|kein[rsnm]|rien|nada|before|"
    r"ain ?'? ?t|(?:have|has|had|did|was|were|is|do|does)nt|nowt|"
    r"un|nicht|pas|non|sin|no|vor|avant(?! (?:droite?|gauche|[dg])(?![a-z]))|antes|"
    r"prior to|without|ohne|"
    r"sans|since|seit|depuis|desde|to be|ehe|bevor|"
    r"must be|if|(?:after|once|nach|apres|tras)(?!" + _DONE_FIRST + r")|needs?)\s+(?:\w+\s+){0,3}$"
)
#: Behind a deed: a question nobody said yes to, or the answer no ("battery swapped? NO", "codes cleared: no"), or that
#: it was done to nothing.
_UNDONE = lazily(
    r"\s?(?:(?:nothing|none|nichts|rien|nada)(?! (?:but|except|else|ausser|sauf|salvo|than)(?![a-z]))(?![a-z])|"
    # German puts it last: "ersetzt hab ich noch nichts".
    r"(?:(?:hab|habe|haben|wurden?|ist|sind|war|waren)(?: (?:ich|wir|hier|es|sie|aber|bisher|noch)){0,3} )"
    r"(?:nichts|nix|nischt|nicht|nich|keine?[rsnm]?)(?![a-z])|"
    r"(?:nix|nowt|nothing|none)(?! (?:but|except|else|than|als|wie)(?![a-z]))(?![a-z])|"
    r"werden(?![a-z])|\?+(?!\s*(?:yes|y|ja|oui|si|done)(?![a-z]))|"
    r"[:=]\s*(?:no|n|not yet|nein|noch nicht|non|pas encore|none)(?![a-z]))"
)
_NOBODY = lazily(
    r"(?<![a-z])(?:no|none|nobody|nothing|never|neither|nichts|keine?[rs]?|niemand|aucune?|rien|personne|ningun[oa]?|nada|"
    r"nadie|customer|owner|driver|client|cliente|kunde)(?![a-z])")


def before(low: str, start: int) -> bool:
    """Whether what stands before a deed at a place of a line in small letters says that it was not done."""
    return _NOT.search(low[max(0, start - 30) : start]) is not None


def behind(tail: str) -> bool:
    """Whether what stands right behind a deed says that it was not done."""
    return _UNDONE.match(tail) is not None


def is_refused(found: re.Match[str] | None, tail: str) -> bool:
    """Whether what was found behind a deed says that it was refused: not by a person, and not that nobody did."""
    return found is not None and _NOBODY.search(tail, 0, found.start()) is None


__all__ = ["before", "behind", "is_refused"]
