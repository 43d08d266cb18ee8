"""What was done and that a scan followed, as one writes it above the list of that scan, in small letters without
accents: "new battery in, scanned after that:", "alles gelöscht, danach:", "di una vuelta de 27 km y leí de nuevo:".

Source: common practice.
"""

from __future__ import annotations

from triage.intake.words.phase_words import BORR, DONE_DE, EFF, GELOESCHT, MENDED_FR, RAN

#: Where such a lead begins: the line, a sentence, or what stands behind the time of a message.
_BEGIN = r"(?:(?<=^)|(?<=[.!?;/] )|(?<=[.!?;/])|(?<=[0-9]:[0-5][0-9] ))"
#: No deed is told of where one of these stands before it.
_DENIES = (
    r"(?!(?:before|b4|prior|pre|without|not|never|no|nothing|none|if|when|until|vor|bevor|ehe|ohne|nicht|nichts|nie|"
    r"kein\w*|wenn|bis|avant|sans|pas|rien|jamais|si|antes|sin|nada|nunca|hasta|after|once|nach|apres|tras|"
    r"despues|did|needs?|wants?|please|pls|bitte|can|could|will|should|must)(?![a-z]))"
)
#: Who did it, or what it was done to.
_WHO = rf"(?:{_DENIES}[\w'-]{{1,20}},? ){{0,5}}?"
#: From the deed to the scan.
_ON = r"(?![a-z0-9])[^.;:|]{0,50}?(?:,|(?<= )(?:and|und|et|y|then|dann|puis|luego)(?= )|[+&/-]|\.) ?"
_SCAN = r"(?:scan(?:ned)?|read(?:ing|[ -]?out)?)"
_AGAIN = r"(?: (?:again|once more|after(?:wards| that| this)?|now|then|since))"
#: That it was read then.
_SO_READ = (
    rf"(?:(?:(?:i|we|then|now|and|just) )*(?:re-?)?{_SCAN}(?: (?:it|them|all|everything))?{_AGAIN}?|"
    rf"(?:the )?(?:new|second|2nd|third|3rd|next|another|fresh) {_SCAN}|then|after that|afterwards|"
    r"danach|dann|anschliessend|hinterher|(?:(?:dann|danach|jetzt) )?(?:(?:noch ?mals?|noch einmal|wieder|erneut|neu) "
    r")?(?:(?:aus)?gelesen|gescannt)|(?:neuer|zweiter|nachster|nochmaliger) (?:scan|durchgang)|"
    r"(?:neue|zweite|nachste|erneute) (?:auslesung|abfrage|messung)|scan danach|"
    r"(?:et )?(?:puis|ensuite|apres ca|apres cela)|(?:la )?(?:nouvelle|deuxieme|seconde) lecture|nouveau scan|"
    r"relecture|(?:j'ai |on a |et )?relue?|(?:j'ai |on a )?lue? (?:de|a) nouveau|"
    r"(?:y )?(?:luego|despues|a continuacion)|(?:nueva|segunda) (?:lectura|consulta)|nuevo escaneo|"
    r"(?:he |hemos )?(?:re)?(?:lei|leimos|leo|leido|leida)(?: (?:otra vez|de nuevo|todo))*)"
)
#: The list follows; behind a comma it may follow in the same line.
_FOLLOWS = r"(?=\s*(?::|[-=*#]+\s*$|,\s|,?$|- ))"
#: A few words for the part, and that it sits in its place now.
_NEW_IN = (
    r"(?:(?:new|other|fresh|different) [a-z]+ (?:[a-z]+ ){0,3}?(?:in|on|fitted|installed)|"
    r"neue[rns]? [a-z-]+ (?:[a-z-]+ ){0,3}?(?:rein|drin|drauf|eingesetzt))"
)
_MENDED = (
    r"(?:repaired|replaced|renewed|mended|fixed|fitted|installed|swapped|changed|rebuilt|rewired|spliced|soldered|"
    r"tightened|cleaned|(?:re)?programmed|reflashed)"
)
_MENDED_ES = (
    r"(?:repar(?:e|amos|ad[oa]s?)|arregl(?:e|amos|ad[oa]s?)|cambi(?:e|amos|ad[oa]s?)|sustitu(?:i|imos|id[oa]s?)|"
    r"reemplac(?:e|amos)|reemplazad[oa]s?|mont(?:e|amos|ad[oa]s?)|instal(?:e|amos|ad[oa]s?)|sold(?:e|amos|ad[oa]s?)|"
    r"(?:pus(?:e|imos)|puest[oa]s?)|limpi(?:e|amos|ad[oa]s?)|program(?:e|amos|ad[oa]s?)|nuev[oa] (?:puest|montad)[oa])"
)
_MENDED_FR = rf"(?:{MENDED_FR}|mise? en place)"
_CLEARED = (
    rf"(?:cleared|clr'?d|erased|deleted|wiped|reset|{GELOESCHT}|"
    rf"(?:efface(?:e?s)?|{EFF})|(?:borre|borramos|borrad[oa]s?|{BORR}))"
)
_RAN = (
    rf"(?:{RAN}|(?:went|been|took (?:it|her|him)|taken) (?:for a|(?:a?round|up|down|out)(?![a-z]))|"
    r"fait [0-9]{1,3} ?(?:km|min\w*)|(?:di|dimos) una vuelta|hice [0-9]{1,3} ?km|(?:conduje|rode|circule)(?![a-z]))"
)
_TAIL = rf"{_ON}{_SO_READ}{_FOLLOWS}"
#: "New battery in, cleared, read again" tells of the clear.
_NO_CLEAR = rf"(?![^.;:|]{{0,50}}?(?<![a-z]){_CLEARED}(?![a-z]))"
MENDED_LEAD = rf"{_BEGIN}{_WHO}(?:{_MENDED}|{_NEW_IN}|{DONE_DE}|{_MENDED_FR}|{_MENDED_ES}){_NO_CLEAR}{_TAIL}"
CLEARED_LEAD = rf"{_BEGIN}{_WHO}{_CLEARED}{_TAIL}"
RAN_LEAD = rf"{_BEGIN}{_WHO}{_RAN}{_TAIL}"
#: What every text has in which such a lead stands.
LEAD_SIGNS = (
    r"scan|read|(?<![a-z])(?:then|after|danach|dann|puis|ensuite|luego|despues|lu|lei|leo|leimos)(?![a-z])|afterwards|"
    r"anschliessend|hinterher|gelesen|auslesung|abfrage|messung|durchgang|lecture|relu|lectura|consulta|continuacion|"
    r"escaneo|leid"
)
