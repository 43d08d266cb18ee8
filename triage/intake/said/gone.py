"""Words behind a code that say that it is in the memory no more: "gone now", "did not return", "weg", "ya no sale".
What is no longer present or active may still be stored: that is a status (``said/states.py``).

>>> [end("p0562 " + said, 5) > 0 for said in ("gone now", "was there but gone", "not back", "nicht mehr")]
[True, True, True, True]
>>> [end("p0562 " + said, 5) > 0 for said in ("not present", "was there", "gone up to 3", "came back", "cleared codes")]
[False, False, False, False, False]

Wordings: common practice.
"""

from __future__ import annotations

from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set

_NOW = r"(?:now|jetzt|nun|inzwischen|maintenant|ahora|since|seitdem|depuis|today|heute)"
_GONE = lazily(
    r"(?:[\s,()=:-]*(?:codes?|stored|pending|current|confirmed|that|which|now|is|are|was|were|has|have|had been|been|"
    r"there|before|earlier|but|and|since|ist|sind|war|da|aber|jetzt|nun|inzwischen|est|sont|etait|mais|maintenant|"
    r"ha|han|estaba|pero|ahora|have all|both|all)(?![a-z]))*[\s,(]*"
    r"(?:did(?: not|n'?t) (?:return|come back|reset|reappear|set again|come up)|"
    r"(?:[:=-]{1,2}>? ?)?gone(?! up)(?! through)(?! (?:to|into|from|high|low|open|bad|faulty))|"
    r"disappeared|vanished|went away|"
    r"cleared(?: and)?(?: did not return| stayed away| gone)?(?=[\s.,;)]|$)(?! code| dtc| fault| all)|"
    r"not returned|not come back|"
    r"not back(?![a-z])|not reappeared|"
    r"stayed (?:away|gone|clear)|no longer (?:there|stored|set|listed|shown)|never (?:came back|returned)|"
    r"no more(?= ?(?:[.,;)]|$))|"
    r"(?:kam|kamen|kommt|kommen) nicht (?:mehr|wieder|zuruck)|weg(?![a-z])|verschwunden|nicht wieder|"
    r"nicht mehr(?: (?:gekommen|wiedergekommen|aufgetaucht))?(?= ?(?:[.,;)]|$))|"
    r"(?:geloscht|efface[es]{0,2}|supprimee?s?|borrad[oa]s?|eliminad[oa]s?)(?= ?(?:[.,;)]|$))|"
    r"n'?est pas revenue?|ne revient (?:pas|plus)|n'?apparait plus|plus la(?![a-z])|"
    r"(?:\.{2,} ?|\u2026 ?|[:-] )?(?:not (?:there|found|seen|listed|set)|nicht (?:da|gefunden|gesetzt)|pas la|"
    r"no esta)(?=[.,;)]|$)|a disparu|disparue?s?|ya no (?:sale|salen|aparece|aparecen|vuelve|figura)|"
    r"ya no(?= ?(?:[.,;)]|$))|"
    r"no (?:ha |han )?(?:volvio|vuelto|vuelve|vuelven|regreso|volvieron|reaparece|reaparecio|reaparecido)|"
    rf"desapareci(?:o|do|da))(?: {_NOW}(?![a-z]))?"
)
#: The first two letters of what :data:`_GONE` may start with.
_STARTS = word_set(
    "co st pe cu th wh no is ar wa we ha si es so bo al di go cl ne ka ko ve va ni n' na de pa be ea bu an et ma ab "
    "da je nu in ji nu pl ya ge ef su bo el ah =>") | {"a "}


def end(low: str, at: int) -> int:
    """Where words behind a place end that say that what stands before it is gone; 0 where none do."""
    ahead = low[at : at + 12].lstrip(" \t,().:=>-\u2026")[:2]
    match = _GONE.match(low, at, at + 80) if ahead in _STARTS or len(ahead) < 2 < len(low) - at else None
    return match.end() if match is not None else 0


__all__ = ["end"]
