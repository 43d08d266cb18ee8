"""The small words of sentences in four languages: what leads to a name, joins names and codes, ends a clause.

Source: common practice. Every pattern is tried at one place or in a short window.
"""

from __future__ import annotations

import re

from triage.intake.phrases import WORD, word_set

_ARTICLE = r"(?:(?:the|dem|der|den|die|das|le|la|les|el|los|las|both|all|my|either|any|a|an|un|une|una)\s+|l')"
#: Abbreviations that keep their full stop inside a sentence.
ABBREVIATED = word_set(
    "batt bat min max kl no nr approx ca temp volt comm comms syst sens mod "
    "elec trans pos neg bzw resp incl inkl vgl st sat ltd cent elect electr ctrl cont eng susp diag nav aux inst "
    "instr pass "
    "lh rh dr mot calc mod modul"
)
#: Status words that are written short, with a full stop.
SHORT_STATES = word_set("hist act conf cnf pend perm stor sto curr cur mem pres akt gesp spor vorh pndg")
#: The end of a clause.
STRONG = re.compile(
    r"[;\n|]|[.!?]+(?=\s|$)|\s/\s|\s(?:but|whereas|while|however|though|although|aber|wahrend|jedoch|mais|"
    r"tandis que|pero|"
    r"mientras|sondern)\s"
)
#: The end of a clause or of one piece of it.
PIECE = re.compile(
    r"[;\n|,](?=\s|$)|[.!?](?=\s|$)|\s[/-]\s|\s(?:but|whereas|while|however|aber|wahrend|mais|pero|mientras|and|"
    r"und|et|y|&|"
    r"then|dann|puis|luego)\s"
)
#: The mark at the end of a piece.
PIECE_MARK = re.compile(r"[;\n|,:.!?)](?=\s|$)|\s[-(]\s?|$")
#: A word that leads to the module of a code.
LEADS_IN = re.compile(
    r"(?<![a-z])(?:in|inside|within|on|at|from|by|for|under|im|ins|aus|vom|von|bei|beim|dans|du|de|des|en|sur|del)\s+"
    rf"{_ARTICLE}{{0,2}}"
)
#: The same, right before a name.
LED = re.compile(LEADS_IN.pattern + "$")
#: Behind an answer: what leads to its module.
OF = re.compile(
    r"(?:\s(?:at all|yet|whatsoever|either|today|this time|possible|stored|found|set|logged|present|back|"
    r"received|moglich|"
    r"gespeichert|vorhanden|memorise|almacenados?))?\s*[-,]?\s?(?<![a-z])"
    r"(?:in|inside|within|on|from|with|to|of|for|by|at|von|vom|aus|bei|beim|im|in der|in dem|mit|zu|zum|zur|auf|"
    r"an|de|du|des|"
    rf"dans|avec|a|au|aux|sur|del|en|con|desde|por)\s+{_ARTICLE}{{0,2}}(?=\S)"
)
ARTICLES = re.compile(rf"\s+{_ARTICLE}{{0,2}}(?=\S)")
#: Where the place of a name behind "in" or "from" ends.
SLOT_END = re.compile(
    r"[;,:.(|\n?!](?=\s|$)|\s\(|[)\]|]|\s[/-]\s|\s(?:and|und|et|y|or|oder|ou|o|nor|&|\+|plus|but|while|which|"
    r"that|is|are|was|"
    r"were|has|have|had|did|does|with|at|when|after|before|during|aber|hat|ist|mit|mais|pero|est|a|ont|tiene|"
    r"est[ao]n?|"
    r"again|still|either|today|yet|now|so)(?=\s|$)"
)
#: What ties codes of one list together.
CODE_JOIN = re.compile(
    r"[\s,&+/()\[\]:-]*(?:(?:and|und|et|y|e|plus|or|sowie|as well as|also|then|the|codes?|both|with|all|is|are|code)"
    r"[\s,&+/()\[\]:-]*){0,4}"
)
#: What ties names together.
NAME_JOIN = re.compile(
    r"[)\]]?\s*(?:,\s*(?:and|und|et|y|or|nor)?|and|und|et|y|e|or|oder|ou|nor|noch|ni|&|\+|/(?!\s)|plus|sowie|"
    r"as well as|and also|"
    rf"and from|or from)\s*(?:in\s+)?{_ARTICLE}{{0,2}}"
)
_VERBS = (
    r"has|have|had|has got|have got|shows?|showing|showed|gave|gives|reports?|reported|reporting|logged|logs|"
    r"sets?|threw|"
    r"throws|got|gets|came (?:up|back) with|comes up with|come up with|comes back with|holds|held|flagged|flags|"
    r"stores|"
    r"stored|kept|carries|returned|returns|lists|contains|"
    r"hat|haben|hatte|meldet|melden|meldete|zeigt|zeigen|steht|stehen|liefert|speichert|enthalt|a|ont|affiche|"
    r"affichent|"
    r"indique|remonte|remontent|presente|contient|donne|tiene|tienen|muestra|muestran|presenta|registra|da|dio|"
    r"contiene|with|"
    r"mit|avec|con"
)
#: A verb or a mark between a module and its codes.
SAYS = re.compile(
    rf"\s*(?::|=|\s-|\s>)\s*$|\s(?:still\s|also\s|only\s|now\s|just\s)?(?:{_VERBS})\s(?:(?:code|codes|dtc|dtcs|"
    rf"fault|faults|only|"
    r"just|now|stored|still|also|den|die|le|les|el|los|fehler|fehlercode|defaut|codigo|a|both|the|current|pending|"
    r"confirmed|active|following|two|three|one|nur|noch|und)[\s:]*)*$"
)
VERB = re.compile(rf"(?<![a-z])(?:{_VERBS})(?![a-z])")
#: Behind a plain word that is a module here.
DOES = re.compile(
    r"\s*(?::|(?:module|control|unit|ecu)\b|(?:has|have|had|shows?|gave|gives|reports?|set|sets|did|does|do|is|"
    r"are|was|were|"
    r"won|would|could|can|never|hat|haben|meldet|zeigt|antwortet|ne |n'|a |ont |affiche|tiene|no |muestra|still|"
    r"also|logged|"
    r"came|steht|stayed|ok|clean|silent|with|not|both|dead|fine|good|nothing|sans|sin|ohne)\b)|"
    r"\s*[pcbu][0-3][0-9a-f]{3}|"
    r"\s*(?:,|and|und|et|y|&|or)\s"
)
#: Small words between a subject and what it did.
LIGHT = re.compile(
    r"[\s:,(=>-]*(?:(?:is|are|was|were|be|has|have|had|still|also|both|all|now|module|modules|control|unit|ecu|"
    r"came|comes|come|"
    r"back|read|reads|reading|up|again|then|so|far|just|only|simply|completely|totally|either|of|them|the|which|"
    r"that|it|they|"
    r"seems?|appears?|looks?|stays?|stayed|remains?|remained|got|gets|gave|with|shows?|showing|showed|reports?|"
    r"reported|"
    r"logged|logs|currently|apparently|unfortunately|ist|sind|war|waren|hat|haben|auch|noch|immer|leider|wieder|hier|"
    r"steuergerat|est|sont|etait|ont|a|aussi|toujours|encore|reste|calculateur|esta|estan|es|son|tiene|tienen|"
    r"sigue|tambien|"
    r"todavia|aun|centralita|state|status|codes?|faults?|result|x)[\s:,(=>-]*){0,6}"
)
#: What opens a list of codes that is of another module than the one before: "there is", "got".
OPENS = re.compile(
    r"(?<![a-z])(?:got|found|there (?:is|are|was|were)|there's|i have|we have|we got|saw|es gibt|gibt es|il y a|"
    r"hay)(?![a-z])"
)
#: A number behind a name, and what says that it counts codes: "ECM 3 codes".
COUNT_TAIL = re.compile(r"\s[0-9]{1,3}$")
COUNTED = re.compile(
    r"\s*(?:x\s)?(?:(?:stored|active|fault|trouble)\s)?(?:codes?|faults?|dtcs?|fehler|defauts?|averias?|"
    r"fallos?)(?![a-z])"
)
#: Words of the text between a code and "in" that say nothing of another thing.
BACK_FILL = word_set(
    "both all is are was were set sitting found logged stored recorded which that the code codes dtc dtcs fault "
    "faults status "
    "state present showing shows came comes coming reported reports and as it also again only still now been "
    "being und ist "
    "sind im est sont et esta estan y fehler defaut codigo a"
)
#: Words that are never (part of) the name of a module.
NO_NAME = word_set(
    "i we you he she they it its this that these those which what who there here then now scan scanned scans "
    "scanning code "
    "codes dtc dtcs fault faults list lists everything nothing anything something one ones none both rest other "
    "others all "
    "every each car vehicle truck today yesterday morning afternoon lunch night before after when while during "
    "please thanks "
    "hi hello morning regards customer memory history range time times range tolerance order place stock both "
    "same place "
    "to of for called came went got get was were is are with without about into onto "
    "them him her me us my your our his their not no yes maybe page line report file mail message picture photo "
    "ich wir es er sie das dies alle alles nichts kunde fahrzeug heute gestern speicher fehlerspeicher hallo gruss "
    "je nous il elle on ce cela tout rien client vehicule aujourd hui hier memoire bonjour yo nosotros el ella "
    "esto todo "
    "nada cliente vehiculo hoy ayer memoria hola "
)
#: Words that are part of names, and none alone.
NOT_ALONE = word_set(
    "ignition key engine motor moteur battery batterie bateria voltage spannung tension volts supply charger bank "
    "cylinder "
    "circuit sensor signal side left right front rear upper lower module control unit system ecu"
)
#: A name in front of "and" and another one.
JOINED_BEFORE = re.compile(
    r"(?:^|[,;.:]\s|\s/\s)(?:the\s|der\s|die\s|le\s|la\s|el\s)?([a-z0-9][\w./-]{1,20}(?:\s[a-z0-9][\w./-]{0,20}){0,3})\s"
    r"(?:and|und|et|y|&|or)\s(?:the\s|der\s|die\s|le\s|la\s|el\s)?$"
)
#: Small words before a status: "which is stored", "both confirmed".
STATUS_LEAD = re.compile(
    r"^[\s,]*(?:(?:which|that|and|is|are|was|were|both|all|it|they|currently(?= (?:in|stored))|as|being|set|the|"
    r"ist|sind|und|"
    r"est|sont|es|son|est[ao]n?|y|et)\s+)+(?=\S)",
    re.IGNORECASE,
)
THROUGH = re.compile(
    r"(?:with|to|from|by|mit|zu|von|zum|zur|avec|con|du|de|del|vers|of|for|data)\s+(?:the\s+|dem\s+|der\s+|"
    r"le\s+|la\s+|"
    r"el\s+|l')?$"
)
COMMS = re.compile(
    r"(?:comm\w*|contact|data|signal|message|kommunikation|verbindung|daten|communication|comunicacion|datos|lost|"
    r"lamp request)[a-z ]{0,24}$"
)
#: An answer around a name: "no gateway fitted", "no ABS codes", "kein Anhängersteuergerät verbaut".
CIRCUMFIX = re.compile(
    r"(?<![a-z])(?:(?:there is |there s |it has |has |have )?no|kein(?:e[nrs]?)?|pas d(?:e |')|aucune?|sin|"
    r"no (?:hay|lleva|tiene))\s+"
    r"(?P<name>(?!other|more|further|codes?|faults?|dtcs?)[a-z][\w'./-]{1,20}(?:\s[a-z0-9][\w'./-]{0,20}){0,3}?)"
    r"(?:\s(?:module|unit|ecu|control unit|steuergerat))?\s(?:is |was )?"
    r"(?:(?P<fit>(?:fitted|installed)(?: (?:to|on|in) (?:this|the) (?:one|vehicle|van|car|truck|bus))?|"
    r"(?:on|in) this (?:one|vehicle|van|car|truck|bus|model)|"
    r"verbaut|eingebaut|monte[es]{0,2}|equipe[es]{0,2}|installe[es]{0,2}|montad[oa]|instalad[oa]|equipad[oa]|"
    r"en este (?:coche|vehiculo)|sur ce(?:tte)? (?:vehicule|voiture|modele))|"
    r"(?P<codes>codes?|faults?|dtcs?)|(?:response|comms?|communication|answer|reply))(?![a-z])"
)


def strong(low: str, start: int, end: int) -> bool:
    """Whether a clause ends between two places."""
    return clause_end(low, start, end) >= 0


def clause_end(low: str, start: int, end: int) -> int:
    """Where the first clause that ends between two places does: at a full stop (not of an abbreviation), a semicolon,
    "but"; -1 where none does."""
    for match in STRONG.finditer(low, start, end):
        if match[0][0] != "." or match[0][:2] == "..":
            return match.start()
        word = WORD.findall(low[max(0, match.start() - 12) : match.start()])
        if not word or word[-1] not in ABBREVIATED | SHORT_STATES:
            return match.start()
    return -1


def subject_of(low: str, start: int, end: int) -> bool:
    """Whether nothing but small words, a mark or a verb stands between a name and what it did."""
    if end - start > 90:
        return False
    if LIGHT.fullmatch(low, start, end) is not None:
        return True
    says = SAYS.search(low, start, end)
    return says is not None and LIGHT.fullmatch(low, start, says.start()) is not None
