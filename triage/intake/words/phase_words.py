"""The words that say where a scan stands, in small letters without accents, in English, German, French and Spanish.

Source: common practice.
"""

from __future__ import annotations

import re

from triage.intake.plain.patterns import lazily
from triage.model.snapshot import Phase

#: No part of a longer word.
BEFORE = r"(?<![a-z0-9])"
BEHIND = r"(?![a-z0-9])"
_CLEAR = r"(?:clear(?:ed|ing|ance|s)?|eras(?:e|ed|ing|ure)|delet(?:e|ed|ing|ion)|reset(?:ting)?|wip(?:e[ds]?|ing))"
_OF_CODES = (
    r"(?:the |all |any |dtcs? |codes? |faults? |fault codes? |memory |i |we |a |have been |were |was |"
    r"being |having |first )*"
)
#: With the umlaut, or written out where a keyboard has none.
GELOESCHT = r"geloe?scht"
_LOESCH = rf"(?:(?:fehler)?(?:speicher)?(?:losch|loesch)\w*|{GELOESCHT})"
_LO_OF = r"(?:dem |der |des |den |fehlerspeicher |fehler |fehlerspeichers |codes? |aller |allen |ersten |erstem )*"
_EFF = r"(?:effac\w+|suppression)"
_EF_OF = r"(?:l'|le |la |les |des |d'|defauts? |codes? |un |tous |avoir )*"
_BORR = r"(?:borr\w+|eliminar|eliminacion|limpiar|limpieza)"
_BO_OF = r"(?:de |del |el |la |los |las |codigos |haber |averias |fallos |un )*"
_AMOUNT = (
    r"(?:about |approx\.? |ca\.? |etwa |environ |unos |a |an |the |another |einer |einem |un |une |una |"
    r"(?:[0-9]{1,3}(?:[.,][0-9])?|one|two|three|four|five|ten|fifteen|twenty|thirty|a few|zwei|drei|funf|zehn|"
    r"zwanzig|deux|cinq|dix|quinze|vingt|dos|cinco|diez|quince|veinte)[ -]?(?:min(?:ute[sn]?|utos?|s)?|mn|"
    r"sec\w*|sek\w*|s|h|km|miles?|mi|hours?|"
    r"stunden?|heures?|horas?)[ -]?)*"
)
_RUN = (
    r"(?:engine |motor |short |long |quick |warm |brief |kurzer |kurzem |court |corto )*(?:of |at |on |with |"
    r"im |am |de |d'|en |au |al |"
    r"the |engine |motor |mit )*(?:run(?:ning|s)?|ran|idl(?:e|ed|ing)|driv(?:e|en|ing)|drove|road[ -]?test(?:ed|"
    r"ing)?|test[ -]?drive|"
    r"warm[ -]?up|warmed|trip|motorlauf|probefahrt|leerlauf|fahrt|laufen|lauf|motorbetrieb|warmlauf|"
    r"laufenlassen|essai(?: routier)?|"
    r"roulage|ralenti|mise en route|fonctionnement|marche|prueba(?: de carretera| en carretera)?|rodaje|"
    r"recorrido|conduccion|"
    r"funcionamiento|marcha)"
)
#: What was run, and for how long: "running the engine 10 min".
_FOR = (
    r"(?:(?: the| it| up)* (?:engine|motor|van|car)(?![a-z]))?"
    r"(?: (?:for )?(?:about )?[0-9]{1,3} ?(?:min\w*|mn|s|sec\w*|h|hours?)(?![a-z]))?"
)
#: A drive behind the clear of the same sentence: the later event tells. An engine that only runs is one of this scan.
_DRIVE = (
    r"(?:(?:short |long |quick |brief |kurzer |kurzem |court |corto )?(?:road[ -]?test|test[ -]?drive|drive[ -]cycles?|"
    r"drive(?! (?!of |for |[0-9])\w)|"
    r"driving|drove|test[ -]?drove|road[ -]?tested|trip|probefahrt|fahrt|fahren|essai(?: routier| sur route)|roulage|"
    r"prueba (?:de|en) carretera|rodaje|recorrido|conducir))"
)
_AND_DROVE = (
    r"(?: (?!not |no |before |without |nicht |ohne |vor |sans |avant |sin |antes )[\w']+){0,3}?"
    r"(?:,|,? ?(?:and|then|und|dann|anschliessende[rmn]?|puis|et|suivi[es]* d[eu']|y|luego|seguido de|[+&/(-]))"
    rf"(?: (?:then|dann|puis|luego|a|an|the))* ?{_AMOUNT}"
    rf"(?:{_DRIVE}|[0-9]{{1,3}} ?min\w* (?:of |im |am |de |au |en |d')?(?:idl(?:e|ing)|run(?:ning)?|leerlauf|motorlauf|"
    r"laufen|ralenti))"
    r"(?![a-z0-9])(?! (?:not|to follow|still|next|pending|noch|steht|nicht|pas|reste|a faire|pendiente|no|later|due|"
    r"outstanding|incomplete|required|needed))"
)
#: The engine was started: what is asked of it next is asked after a run.
_STARTED = (
    r"(?:after (?:the |an? |having |i |we )*(?:engine )?start(?:ing|ed)?(?:[ -]?up)?(?! of)(?: the|"
    r" it)?(?: up)?(?: engine)?|"
    r"after (?:letting|leaving) (?:it|the engine) (?:run|idle)|nach (?:dem |erfolgtem )*(?:motor)?(?:start|"
    r"starten|anlassen)|"
    r"apres (?:le |avoir )?(?:demarrage|demarre)(?: (?:du )?moteur)?|"
    r"(?:tras|despues de) (?:el |haber )?arran(?:car|que|cado)(?: (?:el |del )?motor)?)"
)
_BEFORE_WORK = (
    r"(?:before (?:i |we |anyone |they )?(?:touch(?:ed|ing)|did|doing|had (?:touched|done)|"
    r"started?) (?:anything|any work|work|it)|"
    r"before anything (?:was |is |had been |got )*(?:done|touched|changed)|before (?:any |the |"
    r"starting )*(?:work|repairs?)|"
    r"as (?:it |they )?(?:came|arrived|received|delivered|presented)(?: in)?|when (?:it|they) (?:came|"
    r"arrived)(?: in)?|"
    r"pre[ -]?repair|vor (?:der |beginn der )*(?:reparatur|instandsetzung|arbeit(?:en)?)|"
    r"avant (?:la )?(?:reparation|intervention)|"
    r"antes de (?:la )?(?:reparacion|intervencion))"
)
#: A repair in each language: what was done, or the part that is new.
_MENDED = (
    r"(?:repair(?:s|ed|ing)?|replac(?:e|ed|ing|ement)|renew(?:ed|ing|al)|mend(?:ed|ing)|fix(?:ed|ing)?|fit(?:ted|ting)|"
    r"install(?:ed|ing|ation)|swap(?:s|ped|ping)?|chang(?:ed|ing)(?! (?:gear|into|down|up))|change of|rebuil(?:t|ding)|"
    r"refurbish\w*|rewir(?:ed|ing)|splic(?:ed|ing)|solder(?:ed|ing)|tighten(?:ed|ing)|"
    r"clean(?:ed|ing)(?! (?:out )?(?:the |all |of )*(?:codes?|dtcs?|faults?|memor))|(?:re)?program(?:med|ming|s)?|"
    r"reprogram\w*|reflash\w*|coding|calibrat\w+|new (?!scan|read|clear|run|codes?|faults?|dtcs?)[a-z]\w+)"
)
_MENDED_DE = (
    r"(?:\w{0,20}(?:reparatur|instandsetzung|tausch|wechsel|ersatz|erneuerung|einbau|montage|programmierung)|"
    r"(?:aus)?tauschen|wechseln|ersetzen|erneuern|reparieren|einbauen|instandsetzen|reinigen|programmieren|arbeiten)"
)
_DONE_DE = (
    r"(?:ersetzt|erneuert|(?:aus)?getauscht|gewechselt|repariert|eingebaut|instandgesetzt|gereinigt|programmiert|"
    r"montiert|gelotet|geloetet)"
)
_MENDED_FR = (
    r"(?:repar(?:ee?s?|ations?|er)|remplac(?:ee?s?|ements?|er)|chang(?:ee?s?|ements?|er)|pos(?:e|ee|er)|"
    r"mont(?:e|ee|er|age)|echange|refection|refait[es]?|soud(?:e|ee|er|ure)|nettoy(?:e|ee|er|age)|programmation|"
    r"reprogrammation|intervention|travaux|neu(?:f|ve)|nouve(?:lle|au) (?!lecture|scan)\w+)"
)
_MENDED_ES = (
    r"(?:repara(?:r|d[oa]|cion(?:es)?)|arregl(?:o|ar|ad[oa])|cambi(?:o|ar|ad[oa])|sustitu(?:ir|cion|id[oa])|"
    r"reemplaz(?:o|ar|ad[oa])|mont(?:ar|aje|ad[oa])|instal(?:ar|acion|ad[oa])|sold(?:ar|ad[oa]|adura)|poner|"
    r"programa(?:r|cion|d[oa])|reprogram\w+|intervencion|nuev[oa] (?!lectura|escaneo)\w+)"
)
#: Small words between "after" and what was done.
_GAP = r"(?:[\w'/-]+ ){0,6}?"
#: Read once more.
_AGAIN = (
    r"(?:(?:read|scan(?:ned)?|check(?:ed)?|test(?:ed)?|tried|looked|pulled)(?: \w+){0,2} again|"
    r"re-?(?:read|scan(?:ned)?|check(?:ed)?|test(?:ed)?)|"
    r"(?:nochmals?|noch (?:ein)?mal|erneut|wieder|neu) (?:\w+ )?(?:(?:aus)?gelesen|gescannt|gepruft|(?:aus)?lesen)|"
    r"relue?|relecture|nouvelle lecture|lue? (?:de|a) nouveau|releido|leid[oa] (?:otra vez|de nuevo)|"
    r"nueva lectura)"
)
#: The same of what was only looked at no more than of codes: a fuse was "replaced, checked again" within one scan.
_READ_AGAIN = _AGAIN.replace("|tried|looked|pulled", "").replace("|check(?:ed)?|test(?:ed)?", "")
_THEN = r"(?:[,;:.]| -)?(?: (?:and|then|now|und|dann|et|puis|y|luego|i|we))* "
#: The engine or the vehicle was run.
_RAN = (
    r"(?:ran|(?:was |let |left )?(?:it |the engine |engine )run(?:ning)?|idled|drove|driven|road[ -]?tested|"
    r"test[ -]?drove|warmed (?:it )?up|gefahren|probefahrt|laufen (?:ge)?lassen|gelaufen|(?:fait|laisse) tourner|"
    r"tourne|roule|essai(?: routier)?|conducid[oa]|rodad[oa]|(?:deje|dejado) (?:en marcha|funcionar))"
)
#: A heading that says no more than when: "Before:", "codes after", "nachher", "repaired", "before: 11.4 V".
ALONE = lazily(
    r"[\s\-=#*\[(]*(?:(?:scan|reading|read-?out|codes|dtcs|faults|results?|status|state|fehler|zustand|messung|defauts|"
    r"lecture|etat|codigos|averias|lectura|estado)\s)?"
    r"(?:(before|vorher|avant|antes)|(after|afterwards|nachher|danach|apres|despues)|"
    r"(repaired|fixed|mended|repairs? (?:done|complete[d]?|finished)|repariert|instandgesetzt|repare|reparado))"
    r"(?:[\s\-=#*\])]*:?[\s=*-]*|\s?[:,(-]\s?(?:[a-z.]{1,10}\s){0,2}[0-9]{1,2}[.,][0-9]{1,3} ?v?(?![0-9a-z.,/]).*|"
    r"\s[0-9]{1,2}[.,][0-9]{1,3} ?v(?:olts?)?[\s.)]*)"
)
#: Each phase, parts of words of which a text has at least one wherever the phase is said, and the pattern. The parts
#: are quick to look for; the long patterns take a while to compile and most texts need two of the four at most.
PHASES: tuple[tuple[Phase, re.Pattern[str], re.Pattern[str]], ...] = (
    (
        "after-repair",
        re.compile(
            r"repa|replac|remplac|reemplaz|renew|mend|fix|fit|instal|swap|chang|rebuil|refurb|rewir|splic|sold|soud|"
            r"tight|clean|program|flash|coding|calib|new|neu|nouv|nuev|work|tausch|wechsel|ersatz|ersetz|erneuer|einbau|"
            r"eingebaut|instand|mont|reinig|arbeit|gelo|pos|echange|refection|refait|nettoy|intervenc|intervent|travaux|"
            r"arregl|cambi|sustitu|poner|final|closing|quality|outgoing|ausgang"
        ),
        lazily(
            rf"{BEFORE}(?:(?:after|following|once) {_OF_CODES}(?:{_GAP}{_MENDED}|"
            rf"(?:some |this |our |my |doing |did )*(?:re)?work)|"
            rf"post[ -]?(?:{_MENDED})|"
            rf"with (?:a |the )?new \w+(?: \w+)?(?: fitted| installed| in(?= ?$|[ ]?[,:;])| on(?= ?$|[ ]?[,:;]))|"
            rf"{_MENDED}(?: \w+){{0,2}}{_THEN}(?:final )?{_READ_AGAIN}|"
            rf"final (?:scan|check|read(?:ing|-?out)?)|post[ -]?scan|"
            rf"repairs? (?:done|complete[d]?|finished|carried out)|"
            rf"nach (?:dem |der |den |des |einem |einer |erfolgte[rmn] )*(?:[\w'/-]+ ){{0,4}}?{_MENDED_DE}|"
            rf"nach (?:dem |der |einer |einem )?neue[rnm] (?!start|lesen|scan|auslesen)\w+|nachdem {_GAP}{_DONE_DE}|"
            rf"{_DONE_DE}{_THEN}{_AGAIN}|apres (?:avoir |l'|d')?(?:[\w'/-]+ ){{0,4}}?{_MENDED_FR}|"
            rf"une fois {_GAP}{_MENDED_FR}|(?:remplace|repare|change)e?s?{_THEN}{_AGAIN}|"
            rf"(?:tras|despues(?: de)?|luego de|una vez) {_GAP}{_MENDED_ES}|"
            rf"(?:reparad|cambiad|sustituid|reemplazad)[oa]{_THEN}{_AGAIN}|after-repair|closing scan|quality scan|"
            rf"outgoing scan|ausgangs(?:scan|test)|scan final|lecture finale|lectura final){BEHIND}"
        ),
    ),
    (
        "after-run",
        re.compile(
            r"run|ran|idl|driv|drove|road|test|warm|trip|lauf|fahr|leer|essai|roul|ralenti|route|fonction|march|prueba|"
            r"rodaj|rodad|recorr|conduc|funcion|start|anlass|demarr|arran|min|mn|km|mile|tourn|motor"
        ),
        lazily(
            rf"{BEFORE}(?:(?:after|following|once|post)[ -]{_AMOUNT}{_RUN}{_FOR}|"
            rf"post[ -]?(?:run|drive|idle|road ?test)|after-run|"
            rf"nach (?:dem |der |den )*{_AMOUNT}{_RUN}|nach (?:dem )?{_AMOUNT}motor|apres {_AMOUNT}(?:l'|le |"
            rf"la )*{_RUN}|"
            rf"(?:tras|despues de|despues) {_AMOUNT}(?:la |el |de )*{_RUN}|after [0-9]{{1,3}} ?(?:min\w*|mn|km|"
            rf"miles)|"
            rf"nach [0-9]{{1,3}} ?(?:min\w*|km)|apres [0-9]{{1,3}} ?(?:min\w*|mn|km)|(?:tras|"
            rf"despues de) [0-9]{{1,3}} ?(?:min\w*|km)|{_STARTED}|"
            rf"(?:(?:after|following|once|post)[ -]?{_OF_CODES}{_CLEAR}|nach {_LO_OF}{_LOESCH}|apres {_EF_OF}{_EFF}|"
            rf"(?:tras|despues|luego) {_BO_OF}{_BORR}){_AND_DROVE}|"
            rf"{_RAN}(?![a-z])[^.;:|]{{0,40}}?(?<![a-z]){_AGAIN}){BEHIND}"
        ),
    ),
    (
        "after-clear",
        re.compile(r"clear|eras|delet|reset|wip|losch|loesch|effac|suppress|borr|elimin|limpi|scan|read"),
        lazily(
            rf"{BEFORE}(?:(?:after|following|once|post)[ -]?{_OF_CODES}{_CLEAR}|"
            rf"(?<!not )(?<!nothing )(?<!never )(?<!none )(?<!nichts )(?<!rien )(?<!nada )"
            rf"(?:{_CLEAR}|{_LOESCH}|{_EFF}|{_BORR})(?![a-z])(?: [\w']+){{0,3}}{_THEN}{_AGAIN}|"
            rf"{_CLEAR} (?:and|then|,) ?(?:re-?(?:scan|"
            rf"read|check)\w*|(?:scan(?:ned)?|read|checked?) (?:it |them |all )?again)|"
            rf"re-?(?:scan|read|check) after {_OF_CODES}{_CLEAR}|nach {_LO_OF}{_LOESCH}|apres {_EF_OF}{_EFF}|"
            rf"(?:tras|despues|luego) {_BO_OF}{_BORR}|after-clear|(?:codes?|dtcs?|memory|"
            rf"faults?) (?:all )?(?:just )?cleared,? (?:now|then)|"
            rf"re-?scan|second read(?:ing)?|re-?read){BEHIND}"
        ),
    ),
    (
        "before-clear",
        re.compile(
            r"clear|eras|delet|reset|wip|losch|loesch|effac|suppress|borr|elimin|limpi|scan|initial|inicial|found|receiv|"
            r"arriv|eingang|erste|before|avant|vor|antes|pre|as |when|ankunft"
        ),
        lazily(
            rf"{BEFORE}(?:(?:before|prior to|pre|ahead of)[ -]?{_OF_CODES}{_CLEAR}|pre[ -]?scan|initial (?:scan|"
            rf"read(?:ing)?)|incoming scan|"
            rf"as[ -](?:found|received|arrived)|(?:codes? )?not (?:yet )?(?:been )?{_CLEAR}(?: yet)?|"
            rf"(?:nothing|none|never|no codes?)(?: (?:has|have|had|is|are|was|were|been|yet))* {_CLEAR}|"
            rf"(?:nichts|noch keine\w*(?: codes?| fehler)?) {_LOESCH}|rien (?:n'a ete )?{_EFF}|"
            rf"nada {_BORR}|vor {_LO_OF}{_LOESCH}|"
            rf"(?:ehe|bevor) (?:[\w'/-]+ ){{0,5}}?{_LOESCH}|avant (?:tout |toute )?{_EF_OF}{_EFF}|"
            rf"avant qu(?:e |')(?:[\w'/-]+ ){{0,4}}?{_EFF}|antes (?:de )?que (?:[\w'/-]+ ){{0,4}}?{_BORR}|"
            rf"antes {_BO_OF}{_BORR}|before-clear|eingangs(?:scan|test|diagnose|auslesung)|lecture initiale|"
            rf"scan initial|lectura inicial|"
            rf"erste auslesung|{_BEFORE_WORK}|noch nicht {_LOESCH}|uncleared|on arrival|bei ankunft|a l'arrivee|"
            rf"first scan){BEHIND}"
        ),
    ),
)
PHASE_SIGNS = re.compile(
    r"after|before|prior|ehe |post|pre|initial|final|as.(?:found|received|arrived)|nach|vor|apres|"
    r"avant|antes|despues|tras|"
    r"scan|clear|closing|read|arriv|ankunft|eingang|ausgang|lect|ausles|erste|losch|follow|"
    r"once|luego|erase|"
    r"noch|repair|as it|when it|again|erneut|wieder|relue?|leid|with (?:a |the )?new|fixed|mended|repar|instandg|"
    r"une fois|una vez|nueva l|nouvelle l"
)
