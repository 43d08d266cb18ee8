"""What stands around a wording and turns what it says: "tried it twice, nothing", "not ok", "no codes could be"."""

from __future__ import annotations

import re

from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import Hit

#: "Nothing" is an answer at the end of its clause ("radio - nothing"); elsewhere any thing ("nothing connected").
NOTHING = frozenset(["nothing", "nichts", "nix", "rien", "nada", "nuthin", "nothin", "nowt", "nuffin", "zilch"])
#: Who tried to reach a module, and how often.
_TRIED = lazily(
    r"(?<![a-z])(?:tried|try|tries|trying|attempt(?:s|ed)?|retr(?:y|ied|ies)|pinged|versucht?|versuche|probiert|essaye|"
    r"essais?|tente|tentatives?|intent(?:ado|os|e|o)|provato|tentativi|geprobeerd|pogingen)(?![a-z])[^.;!?]*$"
)
#: The last is of "n.i.O.": not in order.
_DENIED = lazily(
    r"(?<![a-z])(?:not|no|never|n'?t|nicht|kein|keine|pas|non) (?:any |all |quite |yet |really )?$|"
    r"(?<![a-z0-9])n\s?\.\s?$"
)
_UNREAD = lazily(
    r" (?:could|can|konnten?|peu(?:ven)?t|response|repl(?:y|ies)|answer|reader|data|due to (?:no|lost|lack)|"
    r"because (?:no|it|of no)|wegen|weil)(?![a-z])"
)
A_DEED = lazily(r"(?<![a-z])(?:clear|eras|reset|delet|losch|geloscht|efface|borr|program|adapt|calibr|replac|swap)")
_TRIED_SO = lazily(
    r"[^.;!?]{0,12}(?<![a-z])(?:tried|tries|attempts?|versucht|versuche[n]?|essais|tentatives|intentos|retries)(?![a-z])"
)


def undone(low: str, hit: Hit) -> bool:
    """Whether the words around say that a module is not clean, or was not read: "not ok", "no codes could be read"."""
    if hit.meaning != "clean":
        return False
    before = low[max(0, hit.start - 12) : hit.start]
    return _DENIED.search(before) is not None or _UNREAD.match(low, hit.end) is not None


def tried(low: str, hit: Hit, what: re.Pattern[str] | None = None) -> bool:
    """Whether "nothing" is what came of trying to reach a module: silence. ``what``: of trying something else."""
    if hit.phrase not in NOTHING:
        return False
    before, behind = low[max(0, hit.start - 60) : hit.start], low[hit.end : hit.end + 30]
    hit_tried = _TRIED.search(before) or _TRIED_SO.match(behind)
    return hit_tried is not None and (what is None or what.search(before) is not None)


__all__ = ["A_DEED", "NOTHING", "tried", "undone"]
