"""What the cell of one scan says of the code of its row: that it was not there.

>>> [surely(low) for low in ("no longer set", "did not return", "nicht wiedergekehrt", "not present", "stored")]
[True, True, True, False, False]

Wordings: common practice.
"""

from __future__ import annotations

from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import phrase_set

#: Where the wording is no status and no answer.
GONE = phrase_set("""
    no | n | nein | non | false | gone | cleared | erased | deleted | removed | disappeared | resolved | fixed |
    weg | geloscht | geloescht | verschwunden | behoben | efface |
    effacee | disparu | disparue | parti | borrado | borrada | desaparecido | desaparecida | resuelto | clear | none |
    not any more | kein | keine | keiner | ningun | ninguno | aucun""")
#: Of what was listed before; what is no longer present or active may be stored.
_LISTED = (
    r"(?:set|stored|there|listed|logged|recorded|shown|reported|found|seen|detected|in (?:the )?(?:memory|list))")
_AGAIN = r"(?:return|come back|reset|reappear|recur|re-?occur|set again|come up|show up)"
_DA = r"(?:da|gesetzt|gespeichert|gefunden|eingetragen|gelistet|im (?:fehler)?speicher|abgelegt|hinterlegt)"
_WIEDER = (
    r"(?:wiedergekehrt|wieder ?gekommen|zuruckgekehrt|zurueckgekehrt|zuruckgekommen|zurueckgekommen|"
    r"(?:wieder |erneut |mehr )(?:aufgetreten|gesetzt|gekommen|da|erschienen|gespeichert)|wieder|erneut)")
_MEMORISE = r"(?:memorisee?|enregistree?|en memoire|dans la memoire|liste|listee|la|detectee?|trouvee?)"
_REVENU = r"(?:revenue?|reapparue?|retrouvee?|reconfirmee?)"
_MEMORIZADO = r"(?:memorizad|almacenad|registrad|grabad|listad|detectad|encontrad)[oa]"
_SURELY = lazily(
    rf"(?:is |was |has |are )?(?:no longer|not|no more|never|not longer)(?: re-?)? ?{_LISTED}"
    r"(?: again| any ?more| any longer)?|"
    rf"(?:did|does|has|have|had|do)(?: not|n'?t| n t) (?:yet )?"
    rf"(?:{_AGAIN}|returned|come back|reappeared|recurred|re-?set|re-?occurred)|"
    r"(?:not|never) (?:returned|(?:come|came) back|reappeared|recurred|re-?occurred|re-?set|back)|never returned|"
    r"stayed (?:away|gone|clear|out)|absent|gone after clear|"
    rf"(?:ist |war |wurde )?nicht (?:mehr )?(?:{_DA}|{_WIEDER})|(?:kam|kehrte) nicht (?:wieder|zuruck|zurueck)|"
    r"(?:kein|ohne) (?:eintrag|code|fehler)(?: mehr)?|"
    rf"(?:n'?est |n est )?(?:pas|plus|non|jamais) {_REVENU}|(?:n'?est |n est )?(?:plus|pas|non) {_MEMORISE}|"
    r"ne (?:revient|reapparait) (?:pas|plus)|n'?a pas (?:reapparu|reparu)|"
    rf"(?:ya )?no (?:esta )?{_MEMORIZADO}|ya no (?:esta|aparece|figura|sale)|no (?:ha )?(?:vuelto|reaparecido|"
    r"regresado|volvio|reaparecio|regreso|vuelve|reaparece|regresa|repetido|retorno)"
)


def surely(low: str) -> bool:
    """Whether a cell says so whatever status the same words are in other places ("no longer set")."""
    return _SURELY.fullmatch(" ".join(low.strip(" .()[]-").split())) is not None


__all__ = ["GONE", "surely"]
