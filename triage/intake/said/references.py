"""Codes that stand behind a pointer to something to read: a chart, a page of the manual, a bulletin. They say where to
look things up, and nothing of the vehicle.

>>> texts = ("u0140 lost (work through u0121 first)", "sensor, compare u0121 in the manual",
...          "vgl. anleitung u0121", "chart for u0121 does not fit", "bulletin 4-55 is about u0121",
...          "we compare u0121", "work through ecm u0121")
>>> [points_at(text, text.index("u0121"), text.index("u0121") + 5) for text in texts]
[True, True, True, True, True, False, False]
"""

from __future__ import annotations

from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set

_MATTER = (
    r"(?:(?:fault|test|flow|trouble|diagnostic|wiring|repair|workshop|service|technical) ?)?(?:charts?|tables?|trees?|"
    r"procedures?|routines?|guides?|manuals?|handbooks?|books?|plans?|sheets?|diagrams?|schematics?|leaflets?|"
    r"bulletins?|"
    r"tsbs?|articles?|pages?|sections?|chapters?|instructions?|steps?|\w*anleitung(?:en)?|\w*plan|\w*blatt|"
    r"\w*handbuch|\w*tabelle|kapitel|abschnitt|seite|merkblatt|fiches?|procedures?|tableaux?|manuel|notice|chapitre|"
    r"fichas?|procedimientos?|tablas?|guias?|boletin(?:es)?|capitulo|esquema|hoja|pagina)"
)
_VERB = (
    r"(?:see|refer(?:ring)? to|compare(?: with| to)?|consult|check|follow|work through|go through|run through|"
    r"start with|begin with|as per|per|according to|siehe|"
    r"vgl\.?|vergleiche|beachte|beachten|gemass|gemas|laut|nach|"
    r"voir|consulter|comparer(?: a| avec)?|suivre|selon|commencer par|cf\.?|ver|vease|consultar|consulte|"
    r"comparar(?: con)?|"
    r"seguir|segun|empezar por)"
)
_FIRST = r"(?:first|also|erst|zuerst|zunachst|auch|d'abord|en premier|aussi|primero|antes|tambien)"
_THE = r"(?:the|our|a|an|der|die|das|den|dem|zur|zum|la|le|les|l'|el|los|las|une?|una?)"
_OF = r"(?:for|of|on|about|to|covers|concerns|zu|zum|fur|uber|von|pour|de|sur|du|para|sobre|del)"
_ABOUT = r"(?:for|on|about|covers|concerns|zu|zum|fur|uber|pour|sur|para|sobre)"
_CODE = r"(?:(?:codes?|dtcs?|fehler|defaut|codigo)\s+)?[\"'(]?$"
#: "See first the chart U0121", "refer to the procedure for P0685"; "chart for P0420", "bulletin 4-55 is about U0100".
_BY_MATTER = lazily(
    rf"(?<![a-z]){_VERB}\s+(?:{_FIRST}\s+)?(?:{_THE}\s*)?{_MATTER}\s+(?:{_OF}\s+)?(?:{_THE}\s+)?{_CODE}|"
    rf"(?<![a-z]){_MATTER}\s+(?:[a-z0-9./-]{{1,12}}\s+)?(?:(?:is|are|ist|est|es)\s+)?{_ABOUT}\s+{_CODE}|"
    rf"(?:[(,;]|(?<![a-z]){_FIRST})\s*(?:{_THE}\s*)?{_MATTER}\s+$")
#: "See first P0560"; "compare P0642" is told by what stands behind: "in the manual", "first".
_BY_VERB = lazily(rf"(?<![a-z])(?:see|refer to|siehe|voir|cf\.?|ver|vease|vgl\.?)\s+{_FIRST}\s+{_CODE}")
_LED = lazily(rf"(?<![a-z]){_VERB}\s+(?:{_FIRST}\s+)?{_CODE}")
_BEHIND = lazily(
    rf"\s+(?:{_FIRST}(?![a-z])|(?:in|im|dans|en|from|aus|auf|on)\s+(?:{_THE}\s*)?{_MATTER}(?![a-z])|"
    rf"{_MATTER}(?![a-z]))")
#: "Checked for P0455 as well: not there."
_LOOKED_FOR = lazily(
    r"(?<![a-z])(?:checked|looked|searched|asked|tested|gesucht|gepruft|geschaut|cherche|verifie|buscado|comprobado)\s+"
    rf"(?:[a-z]+\s+){{0,2}}?(?:for|nach|auf)?\s*{_CODE}")
_NOT_THERE = lazily(
    r"[^.!?;]{0,60}?(?:[:,(-]|\bbut|\band|\baber|\bund|\bmais|\bet|\bpero|\by)\s*"
    r"(?:it (?:is|was) |is |was |ist |est )?(?:not|nothing|"
    r"none|absent|negative|nicht|nichts|keiner?|absente?|pas|rien|negati[fv]o?|no|nada|ausente)(?![a-z])"
    r"(?!\s(?:confirmed|active|current|yet))")
#: "Not the P0420 from last year"; "the P0455 on the old invoice is not in any unit today".
_NOT_THE = lazily(r"(?<![a-z])(?:not|nicht|pas|no es|no)\s+(?:the|der|den|die|das|le|la|el|l')\s*$")
_OF_OLD = lazily(
    r"\s+(?:(?:is|are|was|ist|est|es)\s+)?(?:from|of|on|in|off|vom|von|aus|auf|de|du|d'|sur|del)\s*(?:the |an? |"
    r"der |dem |"
    r"einer |la |le |l'|el |una? )?(?:old|last|previous|former|earlier|first|other|alten?|letzte[nrs]?|vorige[nrs]?|"
    r"fruheren?|"
    r"ancien(?:ne)?|dernier|derniere|precedente?|annee|viej[oa]|antigu[oa]|anterior|ultim[oa]|ano)(?![a-z])")
_IS_NOT = lazily(
    r"[^.;:]{0,40}?\s(?:is|ist|est|esta|was|war|n'est)\s+(?:gone|not|no longer|nowhere|in no|weg|verschwunden|nicht|"
    r"in keine[mr]|"
    r"nirgends|pas|plus|parti|absent|dans aucun|en ningun|ya no)(?![a-z])")
#: The last words of what leads to such a code: where none of them stands before it, no pattern need be tried.
ENDS = word_set(
    "the der den die das le la el l plan sheet prufblatt schaltplan prufanleitung nach auf gesucht gepruft cherche "
    "verifie buscado comprobado for of on about to covers concerns zu zum fur uber von pour de sur du para sobre "
    "del see compare with consult check follow through per siehe vgl vergleiche beachte beachten gemas gemass laut "
    "voir consulter comparer a avec suivre selon par cf ver vease consultar consulte comparar con seguir segun por "
    "first also erst zuerst zunachst auch abord premier aussi primero antes tambien code codes dtc dtcs fehler "
    "defaut codigo chart charts table tables tree trees procedure procedures routine routines guide guides manual "
    "manuals handbook handbooks book books plans sheets diagram diagrams schematic schematics page pages section "
    "sections chapter chapters instruction instructions step steps anleitung reparaturanleitung prufplan ablaufplan "
    "handbuch tabelle kapitel abschnitt fiches tableau manuel notice chapitre ficha fichas procedimiento "
    "procedimientos tabla tablas guia guias boletin capitulo esquema hoja pagina")
_REACH = 60


def points_at(low: str, start: int, end: int) -> bool:
    """Whether the code at a place is what something to read is about, or is headed by, or was looked for in vain."""
    window = low[max(0, start - _REACH) : start]
    if _BY_MATTER.search(window) is not None or _BY_VERB.search(window) is not None:
        return True
    of_old = _OF_OLD.match(low, end)
    if of_old is not None and (_NOT_THE.search(window) is not None or _IS_NOT.match(low, of_old.end()) is not None):
        return True
    if _LOOKED_FOR.search(window) is not None and _NOT_THERE.match(low, end) is not None:
        return True
    return _LED.search(window) is not None and _BEHIND.match(low, end) is not None


__all__ = ["ENDS", "points_at"]
