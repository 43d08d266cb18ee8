"""Remarks: what somebody wrote between the lines of a scan, for whoever reads it.

>>> texts = ("(will ring back later)", "// rang customer", "Customer called, please check", "(Fridge unit)")
>>> [is_remark(text, text.lower()) for text in texts]
[True, True, True, False]
"""

from __future__ import annotations

from triage.intake.plain.phrases import plain_words, word_set
from triage.intake.said.answers import spoken
from triage.intake.words.vocabulary import STATES

#: Words of sentences from one person to another; no name of a module holds them.
_PERSONAL = word_set(
    "will would should could might must rang ring ringing called calls phoned phone please thanks thank asked asks "
    "told "
    "tells said says wants wanted needs later tomorrow today yesterday tonight maybe probably perhaps think thinks "
    "thought looks looked seems seemed guess hope hopefully sorry remember forgot we you he she they my our your "
    "his her bitte danke spater morgen heute gestern vielleicht wahrscheinlich kunde angerufen wir "
    "demain hier merci peut rappeler client appele nous vous il elle manana ayer gracias quizas cliente llamar llamado"
)
#: What begins a note to oneself, two words or more: "see photo 3", "revoir fusible F25".
_ORDERS = word_set("see check recheck ask remember siehe prufen nachfragen voir revoir verifier demander ver revisar "
                   "comprobar preguntar")
#: What such a note is about; "check engine" is a lamp.
_OF_ORDERS = word_set("photo photos picture fuse fuses connector plug earth ground strap page foto bild sicherung "
                      "stecker masse seite fusible connecteur prise conector toma masa pagina again nochmal encore")
_PLANS = word_set("will would tomorrow later needs wants maybe morgen spater demain manana")
_LEAST, _MOST = 2, 14


def is_plan(low: str) -> bool:
    """Whether a remark tells of what is still to come: no scan was taken yet.

    >>> is_plan("will scan again after road test"), is_plan("we cleared the codes")
    (True, False)
    """
    return not _PLANS.isdisjoint(plain_words(low))


def is_remark(text: str, low: str) -> bool:
    """Whether a line without codes is a remark: behind a mark for one, or a sentence about people and plans.

    Nothing that holds an answer, a status or a colon is one: it may tell of a module.
    """
    if len(text) > 120 or ":" in text or "=" in text or "|" in text:
        return False
    if text.startswith("//"):
        return not spoken(low)
    found = plain_words(low)
    orders = bool(found) and found[0] in _ORDERS and not _OF_ORDERS.isdisjoint(found)
    if not _LEAST <= len(found) <= _MOST or (_PERSONAL.isdisjoint(found) and not orders):
        return False
    said = [hit for hit in spoken(low) if not (hit.doubtful and low[hit.start : hit.end].startswith(("look", "seem")))]
    return not STATES.find(low) and not said
