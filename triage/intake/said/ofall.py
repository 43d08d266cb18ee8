"""What a remark says of all codes of a scan: "Note: all stored, nothing present now", "none of these is active".

>>> told("note: all codes in this scan are confirmed", False), told("(everything is history, none active)", False)
('confirmed', 'stored')
>>> told("none of these is present now", False), told("no active codes", False), told("all codes cleared", False)
('stored', None, None)
"""

from __future__ import annotations

from functools import lru_cache

from triage.intake.plain import signs
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import Hit, plain_words, word_set, words
from triage.intake.said import states
from triage.intake.words.vocabulary import STATES
from triage.model.snapshot import StatusWord

_ALL = word_set(
    "all every everything each alle alles allesamt samtliche saemtliche jeder tous toutes tout todos todas todo"
)
_NONE = word_set(
    "none nothing neither nix keiner keine keines kein nichts aucun aucune rien ninguno ninguna ningun nada"
)
#: "Not one is active".
_NOT_ONE = lazily(r"(?<![a-z])(?:not (?:a single )?one|nicht einer|nicht einer|pas un seul|ni uno)(?![a-z])")
#: What is said of all of them, and where they stand.
_THEM = word_set("""
    code codes dtc dtcs fault faults error errors entry entries trouble fehler fehlercodes codes eintrag eintrage
    eintraege fehlereintrage defaut defauts panne pannes codigo codigos fallo fallos averia averias of them these those
    which ones the that in this scan scans read reading readout readings list lists listed here below above shown
    following found recorded is are was were being as per status state reads show shows just still so now at time of
    davon von diesen sind ist waren war im in der die das dieser diesem dieses hier oben unten aufgefuhrten folgenden
    auslesung lesung liste scan als
    les le la l ces cette ce dans lecture liste ci dessous dessus est sont etaient etait de d
    los las el estos estas esta este estan son es eran lista lectura aqui abajo arriba escaneo de del en
""")
#: Of those, the words that say which codes are meant, so that what denies them is no answer of a module.
_THESE = word_set("them these those which davon diesen ces estos estas")
_PARTS = lazily(r"[,;.]|\s-{1,2}\s|(?<![a-z])(?:but|and|und|aber|et|mais|y|pero)(?![a-z])")
#: The words for a remark before it.
_REMARK = lazily(
    r"[\s(\[*>\"'#/+-]*(?:(?:please )?(?:notes?|nb|n\.b|remarks?|comments?|status|info|hinweise?|bemerkung|anmerkung|"
    r"remarque|nota|observacion|comentario|commentaire)\s?[:.-]+\s*)?"
)
_LONGEST = 110
_SIGN = signs.of_words((_ALL | _NONE | word_set("not pas ni nicht")).__contains__)


@lru_cache(maxsize=8192)
def told(low: str, translated: bool) -> StatusWord | None:
    """The status that a text says all codes have, if it says nothing else; None for any other text."""
    if not 0 < len(low) <= _LONGEST or not signs.of(low) & _SIGN:
        return None
    remark = _REMARK.match(low)
    low = _NOT_ONE.sub(lambda match: "none".ljust(len(match[0])), low[remark.end() if remark is not None else 0 :])
    said: set[StatusWord] = set()
    denied = sure = False
    for part in _PARTS.split(low):
        if not (plain := plain_words(part)):
            continue
        hits = _statuses(part)
        if hits is None:
            return None
        status = states.most_telling(hits, translated)
        if _NONE.isdisjoint(plain):
            # "All stored, not present": what follows is said of all as well.
            said.add(status)
            sure = sure or not _ALL.isdisjoint(plain)
        elif status == "current":
            denied, sure = True, sure or not _THESE.isdisjoint(plain)
        else:
            return None
    if not sure or len(said) > 1 or (denied and "current" in said):
        return None
    return next(iter(said), "stored")


def _statuses(part: str) -> tuple[Hit, ...] | None:
    """The statuses in a clause that says of all, or of none, that they are so, and nothing else."""
    hits = STATES.find(part)
    rest = [word for word, start, _ in words(part) if not any(hit.start <= start < hit.end for hit in hits)]
    subjects = sum(word in _ALL or word in _NONE for word in rest)
    if not hits or subjects > 1 or (not subjects and rest):
        return None
    return hits if all(word in _THEM or word in _ALL or word in _NONE for word in rest) else None


__all__ = ["told"]
