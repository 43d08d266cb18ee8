"""The phrases that say where a scan stands, in small letters without accents.

Each phase is said in several ways. The parts of words that a way cannot do without are quick to look for; its pattern
takes a while to compile, and a text needs few of them.

Source: common practice.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from triage.intake.plain import signs
from triage.intake.plain.patterns import lazily
from triage.intake.words.deed_leads import CLEARED_LEAD, LEAD_SIGNS, MENDED_LEAD, RAN_LEAD
from triage.intake.words.phase_words import (
    AFTER,
    AGAIN,
    AMOUNT,
    AND_DROVE,
    BEFORE,
    BEFORE_WORK,
    BEFORE_WORK_DE,
    BEFORE_WORK_FR_ES,
    BEHIND,
    BO_OF,
    BORR,
    CA_OF,
    CAME_BACK,
    CANC,
    CHARGED_AND,
    CLEAR,
    DONE_DE,
    EF_OF,
    EFF,
    FOR,
    GAP,
    LO_OF,
    LOESCH,
    MENDED,
    MENDED_DE,
    MENDED_ES,
    MENDED_FR,
    MENDED_IT,
    MENDED_NL,
    OF_CODES,
    RAN,
    READ_AGAIN,
    RUN,
    RUN_IT,
    RUN_NL,
    STARTED,
    STARTED_ELSEWHERE,
    THEN,
    THEN_READ,
    WI_OF,
    WIS,
)
from triage.model.snapshot import Phase

#: Behind the voltage of such a heading: "before 11.4 V engine off".
ALONE_TAIL = (
    r"(?:[ ,;/-]{1,3}(?:engine|eng|motor|ign(?:ition)?|key|koeo|koer|on|off|running|idling|aus|an|no|with|charger|"
    r"jump[ -]?pack|connected))*"
)
#: A heading that says no more than when: "Before:", "codes after", "nachher", "repaired", "before: 11.4 V".
ALONE = lazily(
    r"[\s\-=#*\[(]*(?:(?:[89]|[12][0-9]|3[0-2])[.,][0-9]{1,2} ?(?:v(?:olts?)?)?[ ,:-]+)?"
    r"(?:(?:scan|snapshot|reading|read-?out|codes|dtcs|faults|results?|status|state|fehler|zustand|messung|auslesung|"
    r"defauts|lecture|etat|codigos|averias|lectura|estado)(?:\s?[:=])?\s)?"
    r"(?:(before|vorher|avant|antes)|(after|afterwards|nachher|danach|apres|despues)|"
    r"(repaired|fixed|mended|repairs? (?:done|complete[d]?|finished)|repariert|instandgesetzt|repare|reparado)|"
    r"((?:road|drive)[ -]?(?:test|run|cycle) (?:done|complete[d]?|finished)|road[ -]?tested|"
    r"test[ -]?(?:run|drive) (?:done|complete[d]?|finished)|probefahrt (?:gemacht|erfolgt|durchgefuhrt|beendet)|"
    r"essai (?:routier|sur route) (?:fait|effectue|termine)|prueba (?:de|en) (?:carretera|ruta) (?:hecha|realizada)))"
    # "Road test done, scan:"
    r"(?:[,;]?\s(?:and |then |und |dann |et |puis |y |luego )?(?:re-?)?(?:scan(?:ned)?|read-?out|read|auslesung|"
    r"auslesen|ausgelesen|lecture|relecture|relu|lectura|leido|releido)(?: again| erneut| wieder)?)?"
    r"(?:[\s\-=#*\])]*:?[\s=*-]*|\s?[:,(-]\s?(?:[a-z.]{1,10}\s){0,2}[0-9]{1,2}[.,][0-9]{1,3} ?v?(?![0-9a-z.,/]).*|"
    rf"\s(?:[0-9]{{1,2}}[.,][0-9]{{1,3}} ?v(?:olts?)?|(?:[89]|[12][0-9]|3[0-2])[.,][0-9]{{1,2}}){ALONE_TAIL}[\s.)]*)"
)
#: What was measured so is no scan: "voltage on arrival", "Spannung bei Ankunft", "12.1 V on arrival".
_NO_VOLTS = "".join(
    rf"(?<!{word} )(?<!{word} \()" for word in (
        "voltage", "volts", "battery", "batt", "supply", "spannung", "batterie", "tension", "bateria", "tensione",
        "batteria", "spanning", "accu", "[0-9]v", "[0-9] v", "measured", "gemessen", "mesuree", "charge", "state")
)
#: How the vehicle was driven when the fault came, or what it ran out of, is no run for a scan: "after driving through".
_NO_RUN = (
    r"(?! (?:out of|low on|dry|into|through|across|onto|durch|(?:over|uber|sobre) (?![0-9])|"
    r"(?:in|im|dans|en|por|bajo|sous|with|without|mit|ohne|avec|sans|con|sin) "
    r"(?:the |a |an |le |la |el |l'|de l'|une? |una? )?(?:\w{2,9} )?"
    r"(?:rain|snow|water|flood\w*|mud|cold|wet|storm|fog|trailer|caravan|regen|schnee|wasser|anhanger|"
    r"pluie|neige|eau|boue|froid|remorque|lluvia|nieve|agua|barro|frio|remolque)(?![a-z])))"
)


class Way(NamedTuple):
    """One way to say a phase: what every text has that says it so, and the pattern."""

    signs: re.Pattern[str]
    pattern: re.Pattern[str]


def _way(signs: str, phrases: str) -> Way:
    return Way(lazily(signs), lazily(rf"{BEFORE}(?:{phrases}){BEHIND}"))


#: As typed in full, or cut short.
NACH, VOR, APRES = r"(?:nach|n\.)", r"(?:vorm?|(?<![0-9] )v\.)", r"(?:apres|apr\.)"
#: "After that" leads to the next of several, unless something was done to that: "after that was replaced".
NEXT = r"(?!that (?!was |were |had |has |is ))"
#: So does "después" in Spanish where what was done does not follow at once: "después cambio no montado".
THEN_ES = (
    r"(?= del? | (?:la |el |una )?(?:repara|arregl|sustitu|reemplaz|monta|instala|cambio de|cambiar|nuev))(?: de)?")
_NEW_READ = (
    r"again|re-?(?:read|scan|check|test)|gelesen|gescannt|gepruft|lesen|relue?|relect|lecture|lue? |"
    r"leid[oa]|lectura|lei(?:mos)? |volvi|vuelt|volver|relei|reescan"
)
_REPAIR_EN = (
    r"repa|replac|renew|mend|fix|fit|instal|swap|chang|rebuil|refurb|rewir|splic|sold|tight|clean|program|flash|coding|"
    r"calib|new|work"
)
#: What a scan told as the last one is more of: one after the clear.
_SINCE_CLEAR = (
    rf"{AFTER}[ -]{OF_CODES}{CLEAR}|(?:nach|apres|tras|despues)(?: [a-z']+)?? (?:{LOESCH}|{EFF}|{BORR})"
)
_REPAIRED = (
    _way(
        rf"(?:aft|following|once|post).*(?:{_REPAIR_EN})|with (?:a |the )?new|final|closing|quality|outgoing|"
        r"post[ -]?scan|repairs? (?:done|complete|finish|carried)",
        rf"aft {OF_CODES}{MENDED}|(?:aft(?:e?r)|following|once) {NEXT}{OF_CODES}(?:{GAP}(?<!not ){MENDED}|"
        rf"(?:some |this |our |my |doing |did )*(?:re)?work)|post[ -]?(?:{MENDED})|"
        rf"with (?:a |the )?new \w+(?: \w+)?(?: fitted| installed| in(?= ?$|[ ]?[,:;])| on(?= ?$|[ ]?[,:;]))|"
        rf"final (?:scan|check|read(?:ing|-?out)?)|post[ -]?scan(?!\W{{1,3}}(?:{_SINCE_CLEAR}))|"
        rf"repairs? (?:done|complete[d]?|finished|carried out)|after-repair|closing scan|quality scan|outgoing scan",
    ),
    _way(_NEW_READ, rf"(?<!not )(?<!never ){MENDED}(?: \w+){{0,2}}{THEN}(?:final )?{READ_AGAIN}"),
    _way(LEAD_SIGNS, MENDED_LEAD),
    # "With the new battery:", with what was read then.
    _way(
        r"(?:with|mit|avec|con) ",
        r"(?<![a-z0-9])(?<![a-z0-9,;] )"
        r"(?:with (?:a |the )?new (?!code|fault|dtc|scan|read|charger|tool|tester|jump)\w+(?: \w+)?|"
        r"mit (?:der |dem |einer )?neue[rnm] (?!code|fehler|scan|lade|tester|gerat)\w+|"
        r"avec (?:la |le |une? |l')?(?:nouvel(?:le)? \w+|nouveau \w+|\w+ (?:neuve|neuf))|"
        r"con (?:la |el |una? )?(?:nuev[oa] \w+|\w+ nuev[oa]))(?= ?(?::|,? [0-9]{1,2}[.,][0-9]{1,2} ?v|$))",
    ),
    # "Repaired (earth strap replaced)" and no more.
    _way(
        r"repar|repair|fixed|mended|instandg",
        r"(?<![^\s#=*>-])(?<![a-z] )(?:repaired|fixed|mended|repariert|instandgesetzt|repare|reparado)"
        r"(?=\s?\([^()]{3,60}\)[\s:=*-]*$)",
    ),
    _way(
        r"nach|n\.|ausgang|abschluss|ersetz|erneuer|tausch|wechsel|repariert|eingebaut|instand|gereinigt|programmiert|"
        r"montiert|verbaut|gelo",
        rf"{NACH} (?:dem |der |den |des |einem |einer |erfolgte[rmn] )*(?:[\w'/-]+ ){{0,4}}?(?:{MENDED_DE}|{DONE_DE})|"
        rf"{NACH} rep\.?|"
        rf"nach (?:dem |der |einer |einem )?neue[rnm] (?!start|lesen|scan|auslesen)\w+|nachdem {GAP}{DONE_DE}|"
        rf"{DONE_DE}{THEN}{AGAIN}|(?:ausgangs|abschluss)(?:scan|test)",
    ),
    _way(
        r"apr|une fois|remplac|repare|change|monte|pose|soude|final",
        rf"{APRES} (?:avoir |l'|d')?(?:[\w'/-]+ ){{0,4}}?{MENDED_FR}|controle final|"
        rf"une fois {GAP}{MENDED_FR}|(?<!pas )(?<!non )(?:remplace|repare|change|monte|pose|soude)e?s?{THEN}{AGAIN}|"
        rf"scan final|lecture finale",
    ),
    _way(
        r"tras|desp|luego|una vez|reparad|cambiad|sustituid|reemplazad|montad|instalad|soldad|lectura final",
        rf"(?:tras|despues{THEN_ES}|desp\. de|luego de|una vez) {GAP}(?<!no ){MENDED_ES}|"
        rf"(?<!no )(?:reparad|cambiad|sustituid|reemplazad|montad|instalad|soldad)[oa]{THEN}{AGAIN}|lectura final",
    ),
    # What was done stands in brackets behind it: "repaired (earth strap cleaned)".
    _way(
        r"^\W{0,4}(?:repaired|fixed|mended|repariert|instandgesetzt|repare|reparad[oa]) ?\(",
        r"(?<=^)(?:repaired|fixed|mended|repariert|instandgesetzt|repare|reparad[oa])(?= ?\([^()]{3,60}\))",
    ),
    _way(
        r"(?<![a-z0-9])(?:dopo|una volta|na) |scansione|lettura|eindscan",
        rf"(?:dopo|una volta) {GAP}{MENDED_IT}|na (?:[\w'/-]+ ){{0,3}}?{MENDED_NL}|"
        rf"scansione finale|lettura finale|eindscan",
    ),
)
_RUN_SIGNS = (
    r"run|ran|idl|driv|drov|road|test|warm|trip|lauf|fahr|essai|roul|ralenti|route|fonction|march|prueba|roda|recorr|"
    r"condu|trajet|ruta|circul|funcion|start|anlass|demarr|arran|min|mn|km|mile|tour|motor|"
    r"ride|outing|spin|lap|round|block|runde|vuelta|trayec|paseo"
)
_CLEARED = r"clear|clr|eras|delet|reset|wip|losch|loesch|effac|suppress|borr|elimin|limpi"
#: What a vehicle does that waits.
_WAITS = r"(?:wait|rest|sleep|stand|charg|key[ -]off|ignition off|engine off|switched off|asleep)"
_RUN_WAYS = (
    _way(
        rf"(?:aft|following|once|post).*(?:{_RUN_SIGNS})",
        rf"{AFTER}[ -]{AMOUNT}{RUN}{FOR}{_NO_RUN}|post[ -]?(?:run|drive|idle|road ?test|test[ -]?(?:run|drive))|"
        rf"after-run|after [0-9]{{1,3}} ?(?:min\w*|mn|km|miles)(?! (?:of )?{_WAITS})|{STARTED}",
    ),
    _way(
        rf"(?:nach|n\.|apr|tras|desp).*(?:{_RUN_SIGNS})",
        rf"{NACH} (?:dem |der |den )*{AMOUNT}{RUN}{_NO_RUN}|nach (?:dem )?{AMOUNT}motor|"
        rf"{APRES} {AMOUNT}(?:l'|le |la )*{RUN}{_NO_RUN}|"
        rf"(?:tras|despues de|desp\. de|despues) {AMOUNT}(?:la |el |de )*{RUN}{_NO_RUN}|"
        rf"nach [0-9]{{1,3}} ?(?:min\w*|km)|apres [0-9]{{1,3}} ?(?:min\w*|mn|km)|(?:tras|"
        rf"despues de) [0-9]{{1,3}} ?(?:min\w*|km)|{STARTED_ELSEWHERE}",
    ),
    _way(
        r"(?<![a-z0-9])(?:dopo|na) ",
        rf"dopo {AMOUNT}{RUN_IT}|na {AMOUNT}{RUN_NL}|(?:dopo|na) [0-9]{{1,3}} ?(?:min\w*|km)",
    ),
    _way(
        rf"(?:aft|following|once|post|nach|apres|tras|despues|luego).*(?:{_CLEARED}).*"
        r"(?:driv|drov|road|test|trip|fahr|essai|roul|route|ruta|carretera|trajet|autobahn|landstr|way|prueba|roda|recorr|condu|idl|run|lauf|ralenti)",
        rf"(?:{AFTER}[ -]?{OF_CODES}{CLEAR}|(?:nach|n\.) {LO_OF}{LOESCH}|(?:apres|ap\.?) {EF_OF}{EFF}|"
        rf"(?:tras|despues|luego) {BO_OF}{BORR}){AND_DROVE}",
    ),
    _way(_NEW_READ, rf"{RAN}(?![a-z])[^.;:|]{{0,40}}?(?<![a-z]){AGAIN}"),
    _way(LEAD_SIGNS, RAN_LEAD),
    _way(r"(?<![a-z])(?:then|dann|puis|luego)(?![a-z])", THEN_READ),
    _way(
        r"back|return|wieder|zuruck|reven|vuelto|volvie",
        rf"(?:{RAN}|fahrt)(?![a-z])[^.;:|]{{0,40}}?(?<![a-z]){CAME_BACK}|"
        rf"back (?:in )?from (?:(?:its|our|my) )?{AMOUNT}(?:{RUN}|run)",
    ),
)
_CLEAR_WAYS = (
    _way(LEAD_SIGNS, CLEARED_LEAD),
    _way(
        r"(?:aft|following|once|post).*(?:clear|clr|eras|delet|reset|wip)|clear|re-?(?:scan|read)",
        rf"{AFTER}[ -]?{OF_CODES}{CLEAR}|"
        rf"{CLEAR} (?:and|then|,) ?(?:re-?(?:scan|"
        rf"read|check)\w*|(?:scan(?:ned)?|read|checked?) (?:it |them |all )?again)|"
        rf"re-?(?:scan|read|check) after {OF_CODES}{CLEAR}|after-clear|(?:codes?|dtcs?|memory|"
        rf"faults?) (?:all )?(?:just )?cleared,? (?:now|then)",
    ),
    _way(
        _NEW_READ,
        rf"(?<!not )(?<!nothing )(?<!never )(?<!none )(?<!nichts )(?<!rien )(?<!nada )"
        rf"(?:{CLEAR}|{LOESCH}|{EFF}|{BORR})(?![a-z])(?: [\w']+){{0,3}}{THEN}{AGAIN}",
    ),
    _way(
        r"nach|n\.|apr|ap\.? |tras|desp|luego|nada|recien|justo",
        rf"{NACH} {LO_OF}{LOESCH}|(?:{APRES}|ap\.?) {EF_OF}(?:{EFF}|raz|(?:re)?mise a zero)|"
        rf"(?:tras|despues|desp\.|luego) {BO_OF}{BORR}|(?:recien|nada mas|justo (?:al|tras)) {BORR}",
    ),
    _way(
        r"cancell|azzer|reset|wiss|gewist",
        rf"(?:dopo |post[ -]?){CA_OF}{CANC}|na {WI_OF}{WIS}|"
        rf"cancellat[aoie] e rilett[aoie]|gewist en (?:opnieuw|weer) (?:uit)?gelezen",
    ),
)
_BEFORE_WAYS = (
    _way(
        r"clear|clr|eras|delet|reset|wip|scan|initial|first|how |touched|found|receiv|arriv|before|pre|when|as ",
        rf"(?:bef(?:ore)?|(?<!connector )(?<!pin )(?<!fuse )(?<!plug )b4|prior to|pre|"
        rf"ahead of)[ -]?{OF_CODES}{CLEAR}|pre[ -]?scan|before (?:(?:they|it|these|those|codes|faults|dtcs|anything|"
        rf"everything|all|the|i|we|he|she|you) )(?:[\w'/-]+ ){{0,4}}?(?:cleared|erased|deleted|reset|wiped)(?![a-z])|"
        rf"initial (?:scan|read(?:ing)?)|incoming scan|"
        rf"as[ -](?:found|received|arrived)|(?:codes? )?not (?:yet )?(?:been )?{CLEAR}(?: yet)?|"
        rf"(?:nothing|none|never|no codes?)(?: (?:has|have|had|is|are|was|were|been|yet))* {CLEAR}|"
        rf"before-clear|{BEFORE_WORK}|uncleared|{_NO_VOLTS}on arrival(?!\W{{1,4}}(?:now|then|w/|with)(?![a-z])|"
        rf"\W{{1,4}}[0-9]{{1,2}}[.,][0-9]{{1,2}} ?v? (?:now|w/|with)(?![a-z]))|first (?:scan|read(?:ing|-?out)?)|"
        rf"as (?:i|we) found (?:it|them|her|him|the \w+)|"
        r"(?:nothing|not) (?:has been |had been |was |been )?touched(?: yet)?|untouched(?! by)",
    ),
    _way(
        r"losch|loesch|geloscht|geloescht|eingang|ausles|ankunft|vor |angeliefert",
        rf"(?:nichts|noch keine\w*(?: codes?| fehler)?) {LOESCH}|{VOR} {LO_OF}{LOESCH}|ungeloe?scht|"
        rf"(?:ehe|bevor) (?:[\w'/-]+ ){{0,5}}?{LOESCH}|eingangs(?:scan|test|diagnose|auslesung)|"
        rf"erste auslesung|erstauslesung|wie angeliefert|noch nicht {LOESCH}|{_NO_VOLTS}bei ankunft|{BEFORE_WORK_DE}",
    ),
    _way(
        r"effac|suppress|borr|elimin|limpi|initial|inicial|l'arrivee|avant|av\.? |antes",
        rf"rien (?:n'a ete )?{EFF}|nada {BORR}|"
        rf"(?:avant|av\.?) (?:tout |toute )?{EF_OF}(?:{EFF}|raz|(?:re)?mise a zero)|"
        rf"avant qu(?:e |')(?:[\w'/-]+ ){{0,4}}?{EFF}|antes (?:de )?que (?:[\w'/-]+ ){{0,4}}?{BORR}|"
        rf"antes {BO_OF}{BORR}|previo al {BORR}|pre[ -]?borrado|etat initial|lecture initiale|scan initial|"
        rf"lectura inicial|"
        rf"{_NO_VOLTS}a l'arrivee|{BEFORE_WORK_FR_ES}",
    ),
    _way(
        r"cancell|azzer|reset|wiss|gewist|inizial|uitlez|arrivo|aankomst|binnenkomst",
        rf"(?:prima (?=d|che )|(?:pre|ante)[ -]?){CA_OF}{CANC}|prima che (?:[\w'/-]+ ){{0,4}}?{CANC}|"
        rf"voor {WI_OF}{WIS}|voordat (?:[\w'/-]+ ){{0,4}}?{WIS}|(?:nog )?niet gewist|"
        rf"non (?:ancora )?cancellat[aoie]|"
        rf"(?:scansione|lettura) iniziale|eerste uitlezing|{_NO_VOLTS}(?:all'arrivo|bij (?:aankomst|binnenkomst))",
    ),
)
#: The phases in the order in which one outweighs another in the same line.
PHASES: tuple[tuple[Phase, tuple[Way, ...]], ...] = (
    ("after-repair", _REPAIRED), ("after-run", _RUN_WAYS), ("after-clear", _CLEAR_WAYS), ("before-clear", _BEFORE_WAYS),
)


def first_of(ways: tuple[Way, ...], low: str) -> re.Match[str] | None:
    """The leftmost of what several ways find in a text; of two at one place that of the earlier way."""
    found = [match for way in ways if way.signs.search(low) and (match := way.pattern.search(low))]
    return min(found, key=lambda match: match.start(), default=None)


_CHARGED = lazily(rf"(?<![a-z]){CHARGED_AND}")


def begin_of(match: re.Match[str]) -> int:
    """Where the words of a phase begin: behind a charging told with it, which keeps its voltage to itself."""
    charged = _CHARGED.search(match.string, *match.span())
    return charged.end() if charged else match.start()


#: What every text has in which a phase may stand. Those that words of descriptions have within them ("shaft",
#: "electronic", "pressure", "primary") start a word.
PHASE_SIGNS = lazily(
    r"(?<![a-z0-9])(?:aft|b4|post|pre(?!ss|heat|cha|mat|cis|ca|s[eu]|f|n|p|v)|lect|prima(?![a-z])|tras|ante|na |nach|"
    r"vor|n\. |av\. |apr\. |desp\. )|danach|bef|prior|ehe |initial|final|as.(?:found|received|arrived)|apres|avant|"
    r"despues|"
    r"scan|clear|closing|read|arriv|ankunft|eingang|ausgang|ausles|erste|losch|effac|suppress|follow|once|luego|erase|"
    r"noch|repair|as it|when it|again|erneut|wieder|relue?|relect|leid|with (?:a |the )?new|fixed|mended|repar|"
    r"instandg|une fois|una vez|una volta|nueva l|nouvelle l|dopo|voor|gewist|cancellat|all'arrivo|"
    r"back from|how (?:it|they)|(?:without|sans rien|sans|sin|ohne(?: zu)?|n ?'? ?t) (?:clear|eras|wip|delet|"
    r"borr|effac|losch)|"
    r"[0-9] ?(?:min\w*|mn|km|miles?|mi)\.? (?:of )?(?:idl|run|driv|leerl|fahrt|probef|ralenti|roul)|(?:came|"
    r"come|are|were) back|returned|reven|vuelto|volvi|volver |relei|reescan|"
    r"rien |nada |(?:nothing|i|not) (?:found|touched)|untouched|"
    r"inizial|aankomst|binnenkomst|eindscan|road|drive|test[ -]?run|probefahrt|essai|prueba|neu |releid|abschluss|"
    r"mit (?:\w+ )?neue[rnm] |avec (?:\w+ ){0,2}(?:neu[vf]|nouv)|con (?:\w+ ){0,2}nuev|"
    r"angeliefert|recien|justo |borrad|(?<![a-z])(?:then|dann|puis|ensuite)\s?[:,]|(?:de|otra) (?:nuevo|vez)"
)
#: The same word by word, a quick check before those: of signs with a space in them the word that is the rarer one.
PHASE_WORDS = signs.of_pattern(
    r"^(?:aft|b4|post|pre(?!ss|heat|cha|mat|cis|ca|s[eu]|f|n|p|v)|lect|prima(?![a-z])|tras|ante|na$|nach|vor|"
    r"n$|av$|apr?$|desp$|recien|borrad|abschluss|angeliefert|it|new|fois|vez|volta|found|received|rien|nada|nothing|"
    r"not|how|without|sans|sin|ohne|haven|hasn|didn|then|dann|puis|back|reven|vuelto|volve?[ir]|relei|reescan)|touched|return|"
    r"(?:ehe|nueva|nouvelle|neu|recien|justo)$|as.(?:found|received)|danach|bef|prior|initial|final|"
    r"apres|avant|despues|scan|clear|closing|read|arriv|ankunft|eingang|ausgang|ausles|erste|losch|effac|"
    r"suppress|follow|once|luego|erase|noch|repair|again|erneut|wieder|relue?|relect|leid|fixed|mended|repar|instandg|dopo|voor|gewist|cancellat|"
    r"inizial|aankomst|binnenkomst|eindscan|road|probefahrt|^ensuite|nuevo|^nuev[oa]$|^neue[rnm]$|^neu(?:f|ve)$|^nouve(?:l|lle|au)$|^(?:done|complete|finished|essai|prueba)"
)
