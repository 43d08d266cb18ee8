"""The words that say where a scan stands, in small letters without accents, in English, German, French, Spanish,
Italian and Dutch.

Source: common practice.
"""

from __future__ import annotations

import re

from triage.intake.plain.patterns import lazily
from triage.model.snapshot import Phase

#: No part of a longer word.
BEFORE = r"(?<![a-z0-9])"
BEHIND = r"(?![a-z0-9])"
#: As typed in full, or in haste: "aft clr", "b4 clearing".
_AFTER = r"(?:aft(?:e?r)?|following|once|post)"
_CLEAR = (
    r"(?:clear(?:ed|ing|ance|s)?|clr(?:'?d|ed|ing|ng|s)?|eras(?:e|ed|ing|ure)|delet(?:e|ed|ing|ion)|reset(?:ting)?|"
    r"wip(?:e[ds]?|ing))"
)
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
_CANC = r"(?:cancell\w+|azzer\w+|reset)"
_CA_OF = (
    r"(?:della |dello |delle |dei |degli |del |di |la |le |lo |il |i |gli |aver |avere |codici |errori |guasti |"
    r"memoria |la prima )*"
)
_WIS = r"(?:(?:uit)?wissen|gewist|resetten|gereset)"
_WI_OF = r"(?:het |de |alle |van |foutcodes? |fouten |storingen |storingscodes? |codes? |(?:fout)?geheugen )*"
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
    r"the |le |engine |motor |moteur |avoir |fait |haber |hacer |mit )*"
    r"(?:run(?:ning|s)?|ran|idl(?:e|ed|ing)|driv(?:e|en|ing)|drove|road[ -]?test(?:ed|"
    r"ing)?|test[ -]?drive|"
    r"warm[ -]?up|warmed|trip|motorlauf|probefahrt|leerlauf|fahrt|laufen|lauf|motorbetrieb|warmlauf|"
    r"laufenlassen|essai(?: routier)?|"
    r"roulage|ralenti|mise en route|fonctionnement|marche|prueba(?: de carretera| en carretera)?|rodaje|"
    r"recorrido|conduccion|"
    r"funcionamiento|marcha|laufende[mn] motor|fahren|(?:test|strassen)fahrt|tourn(?:ant|er?)|roule|condui(?:te?|re)|"
    r"trajet|funcionar|conducir|conducido|circular|circulado|rodar|rodado)"
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
    r"as (?:it |they )?(?:came|arrived|received|delivered|presented)(?: in)?|when (?:it|they) (?:came|arrived)(?: in)?|"
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
_MENDED_IT = (
    r"(?:ripara(?:zion[ei]|t[aoie]|re)|sostitu(?:zion[ei]|it[aoie]|ire)|cambi(?:o|at[aoie]|are)|monta(?:ggio|t[aoie]|"
    r"re)|"
    r"intervent[oi]|lavor[oi]|(?:ri)?programma(?:zione|t[aoie]|re)|pulizia|saldatura|nuov[aoie] "
    r"(?!lettur|scansion)\w+)"
)
_MENDED_NL = (
    r"(?:reparatie|herstel\w*|vervang(?:en|ing)|vervangen|vernieuw(?:en|ing|d)|monteren|montage|inbouw\w*|plaatsen|"
    r"(?:her)?programmeren|werkzaamheden|nieuwe (?!uitlezing|scan)\w+)"
)
_RUN_IT = (
    r"(?:breve |lung[oa] |l'|la |il |un |una |un'|di |al |con |aver |motore )*(?:prova(?: su strada)?|"
    r"giro(?: di prova)?|"
    r"guida(?:to)?|test su strada|minimo|avvia(?:mento|to)|messa in moto|motore acceso|in moto|marcia|viaggio|percorso)"
)
_RUN_NL = (
    r"(?:korte? |lange? |een |het |de |met |motor )*(?:proefrit(?:je)?|testrit(?:je)?|rit(?:je)?|rijden|gereden|"
    r"stationair(?: draaien| lopen)?|draaien|gedraaid|warmdraaien|warmrijden|start(?:en)?|gestart)"
)
#: Small words between "after" and what was done.
_GAP = r"(?:[\w'/-]+ ){0,6}?"
#: Read once more.
_AGAIN = (
    r"(?:(?:read|scan(?:ned)?|check(?:ed)?|test(?:ed)?|tried|looked|pulled)(?: \w+){0,2} again|"
    r"re-?(?:read|scan(?:ned)?|check(?:ed)?|test(?:ed)?)|"
    r"(?:nochmals?|noch (?:ein)?mal|erneut|wieder|neu) (?:\w+ )?(?:(?:aus)?gelesen|gescannt|gepruft|(?:aus)?lesen)|"
    r"relue?|relecture|nouvelle lecture|lue? (?:de|a) nouveau|releido|leid[oa] (?:otra vez|de nuevo)|nueva lectura)"
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
#: Behind the voltage of such a heading: "before 11.4 V engine off".
ALONE_TAIL = (
    r"(?:[ ,;/-]{1,3}(?:engine|eng|motor|ign(?:ition)?|key|koeo|koer|on|off|running|idling|aus|an|no|with|charger|"
    r"jump[ -]?pack|connected))*"
)
#: A heading that says no more than when: "Before:", "codes after", "nachher", "repaired", "before: 11.4 V".
ALONE = lazily(
    r"[\s\-=#*\[(]*(?:(?:[89]|[12][0-9]|3[0-2])[.,][0-9]{1,2} ?(?:v(?:olts?)?)?[ ,:-]+)?"
    r"(?:(?:scan|reading|read-?out|codes|dtcs|faults|results?|status|state|fehler|zustand|messung|defauts|"
    r"lecture|etat|codigos|averias|lectura|estado)\s)?"
    r"(?:(before|vorher|avant|antes)|(after|afterwards|nachher|danach|apres|despues)|"
    r"(repaired|fixed|mended|repairs? (?:done|complete[d]?|finished)|repariert|instandgesetzt|repare|reparado))"
    r"(?:[\s\-=#*\])]*:?[\s=*-]*|\s?[:,(-]\s?(?:[a-z.]{1,10}\s){0,2}[0-9]{1,2}[.,][0-9]{1,3} ?v?(?![0-9a-z.,/]).*|"
    rf"\s(?:[0-9]{{1,2}}[.,][0-9]{{1,3}} ?v(?:olts?)?|(?:[89]|[12][0-9]|3[0-2])[.,][0-9]{{1,2}}){ALONE_TAIL}[\s.)]*)"
)
#: Each phase, parts of words of which a text has at least one wherever the phase is said, and the pattern. The parts
#: are quick to look for; the long patterns take a while to compile and most texts need two of the four at most.
PHASES: tuple[tuple[Phase, re.Pattern[str], re.Pattern[str]], ...] = (
    (
        "after-repair",
        re.compile(
            r"repa|replac|remplac|reemplaz|renew|mend|fix|fit|instal|swap|chang|rebuil|refurb|rewir|splic|sold|soud|"
            r"tight|clean|program|flash|coding|calib|new|neu|nouv|nuev|work|tausch|wechsel|ersatz|ersetz|erneuer|"
            r"einbau|"
            r"eingebaut|instand|mont|reinig|arbeit|gelo|pos|echange|refection|refait|nettoy|intervenc|intervent|"
            r"travaux|"
            r"arregl|cambi|sustitu|poner|final|closing|quality|outgoing|ausgang|ripar|sostit|lavor|puliz|salda|nuov|"
            r"herst|"
            r"vervang|vernieuw|inbouw|plaats|werk|nieuw"
        ),
        lazily(
            rf"{BEFORE}(?:aft {_OF_CODES}{_MENDED}|(?:aft(?:e?r)|following|once) {_OF_CODES}(?:{_GAP}{_MENDED}|"
            rf"(?:some |this |our |my |doing |did )*(?:re)?work)|post[ -]?(?:{_MENDED})|"
            rf"with (?:a |the )?new \w+(?: \w+)?(?: fitted| installed| in(?= ?$|[ ]?[,:;])| on(?= ?$|[ ]?[,:;]))|"
            rf"{_MENDED}(?: \w+){{0,2}}{_THEN}(?:final )?{_READ_AGAIN}|"
            rf"final (?:scan|check|read(?:ing|-?out)?)|post[ -]?scan|"
            rf"repairs? (?:done|complete[d]?|finished|carried out)|"
            rf"nach (?:dem |der |den |des |einem |einer |erfolgte[rmn] )*(?:[\w'/-]+ ){{0,4}}?{_MENDED_DE}|"
            rf"nach (?:dem |der |einer |einem )?neue[rnm] (?!start|lesen|scan|auslesen)\w+|nachdem {_GAP}{_DONE_DE}|"
            rf"{_DONE_DE}{_THEN}{_AGAIN}|apres (?:avoir |l'|d')?(?:[\w'/-]+ ){{0,4}}?{_MENDED_FR}|"
            rf"une fois {_GAP}{_MENDED_FR}|(?:remplace|repare|change)e?s?{_THEN}{_AGAIN}|"
            rf"(?:tras|despues(?: de)?|luego de|una vez) {_GAP}{_MENDED_ES}|"
            rf"(?:reparad|cambiad|sustituid|reemplazad)[oa]{_THEN}{_AGAIN}|(?:dopo|una volta) {_GAP}{_MENDED_IT}|"
            rf"na (?:[\w'/-]+ ){{0,3}}?{_MENDED_NL}|scansione finale|lettura finale|eindscan|after-repair|closing scan|"
            rf"quality scan|outgoing scan|ausgangs(?:scan|test)|scan final|lecture finale|lectura final){BEHIND}"
        ),
    ),
    (
        "after-run",
        re.compile(
            r"run|ran|idl|driv|drove|road|test|warm|trip|lauf|fahr|leer|essai|roul|ralenti|route|fonction|march|prueba|"
            r"roda|recorr|condu|trajet|circul|funcion|start|anlass|demarr|arran|min|mn|km|mile|tourn|motor|prova|giro|"
            r"guida|avvia|"
            r"moto|marc|viagg|percors|rit|rij|reden|draai|stationair"
        ),
        lazily(
            rf"{BEFORE}(?:{_AFTER}[ -]{_AMOUNT}{_RUN}{_FOR}|"
            rf"post[ -]?(?:run|drive|idle|road ?test)|after-run|"
            rf"nach (?:dem |der |den )*{_AMOUNT}{_RUN}|nach (?:dem )?{_AMOUNT}motor|apres {_AMOUNT}(?:l'|le |"
            rf"la )*{_RUN}|"
            rf"(?:tras|despues de|despues) {_AMOUNT}(?:la |el |de )*{_RUN}|after [0-9]{{1,3}} ?(?:min\w*|mn|km|miles)|"
            rf"nach [0-9]{{1,3}} ?(?:min\w*|km)|apres [0-9]{{1,3}} ?(?:min\w*|mn|km)|(?:tras|"
            rf"despues de) [0-9]{{1,3}} ?(?:min\w*|km)|{_STARTED}|"
            rf"dopo {_AMOUNT}{_RUN_IT}|na {_AMOUNT}{_RUN_NL}|(?:dopo|na) [0-9]{{1,3}} ?(?:min\w*|km)|"
            rf"(?:{_AFTER}[ -]?{_OF_CODES}{_CLEAR}|nach {_LO_OF}{_LOESCH}|apres {_EF_OF}{_EFF}|"
            rf"(?:tras|despues|luego) {_BO_OF}{_BORR}){_AND_DROVE}|"
            rf"{_RAN}(?![a-z])[^.;:|]{{0,40}}?(?<![a-z]){_AGAIN}){BEHIND}"
        ),
    ),
    (
        "after-clear",
        re.compile(
            r"clear|clr|eras|delet|reset|wip|losch|loesch|effac|suppress|borr|elimin|limpi|scan|read|cancell|azzer|"
            r"wiss|gewist|rilett"
        ),
        lazily(
            rf"{BEFORE}(?:{_AFTER}[ -]?{_OF_CODES}{_CLEAR}|"
            rf"(?<!not )(?<!nothing )(?<!never )(?<!none )(?<!nichts )(?<!rien )(?<!nada )"
            rf"(?:{_CLEAR}|{_LOESCH}|{_EFF}|{_BORR})(?![a-z])(?: [\w']+){{0,3}}{_THEN}{_AGAIN}|"
            rf"{_CLEAR} (?:and|then|,) ?(?:re-?(?:scan|"
            rf"read|check)\w*|(?:scan(?:ned)?|read|checked?) (?:it |them |all )?again)|"
            rf"re-?(?:scan|read|check) after {_OF_CODES}{_CLEAR}|nach {_LO_OF}{_LOESCH}|apres {_EF_OF}{_EFF}|"
            rf"(?:tras|despues|luego) {_BO_OF}{_BORR}|(?:dopo |post[ -]?){_CA_OF}{_CANC}|na {_WI_OF}{_WIS}|"
            rf"cancellat[aoie] e rilett[aoie]|gewist en (?:opnieuw|weer) (?:uit)?gelezen|after-clear|(?:codes?|dtcs?|"
            rf"memory|"
            rf"faults?) (?:all )?(?:just )?cleared,? (?:now|then)|"
            rf"re-?scan|second read(?:ing)?|re-?read){BEHIND}"
        ),
    ),
    (
        "before-clear",
        re.compile(
            r"clear|clr|eras|delet|reset|wip|losch|loesch|effac|suppress|borr|elimin|limpi|scan|cancell|azzer|wiss|"
            r"gewist|initial|"
            r"inizial|uitlez|inicial|found|receiv|"
            r"arriv|eingang|erste|before|avant|vor|antes|pre|as |when|ankunft"
        ),
        lazily(
            rf"{BEFORE}(?:(?:bef(?:ore)?|(?<!connector )(?<!pin )(?<!fuse )(?<!plug )b4|prior to|pre|"
            rf"ahead of)[ -]?{_OF_CODES}{_CLEAR}|pre[ -]?scan|"
            rf"initial (?:scan|read(?:ing)?)|incoming scan|"
            rf"as[ -](?:found|received|arrived)|(?:codes? )?not (?:yet )?(?:been )?{_CLEAR}(?: yet)?|"
            rf"(?:nothing|none|never|no codes?)(?: (?:has|have|had|is|are|was|were|been|yet))* {_CLEAR}|"
            rf"(?:nichts|noch keine\w*(?: codes?| fehler)?) {_LOESCH}|rien (?:n'a ete )?{_EFF}|"
            rf"nada {_BORR}|vor {_LO_OF}{_LOESCH}|"
            rf"(?:ehe|bevor) (?:[\w'/-]+ ){{0,5}}?{_LOESCH}|avant (?:tout |toute )?{_EF_OF}{_EFF}|"
            rf"avant qu(?:e |')(?:[\w'/-]+ ){{0,4}}?{_EFF}|antes (?:de )?que (?:[\w'/-]+ ){{0,4}}?{_BORR}|"
            rf"antes {_BO_OF}{_BORR}|"
            rf"(?:prima (?=d|che )|(?:pre|ante)[ -]?){_CA_OF}{_CANC}|prima che (?:[\w'/-]+ ){{0,4}}?{_CANC}|"
            rf"voor {_WI_OF}{_WIS}|voordat (?:[\w'/-]+ ){{0,4}}?{_WIS}|(?:nog )?niet gewist|"
            rf"non (?:ancora )?cancellat[aoie]|"
            rf"(?:scansione|lettura) iniziale|eerste uitlezing|all'arrivo|bij (?:aankomst|binnenkomst)|before-clear|"
            rf"eingangs(?:scan|test|diagnose|auslesung)|lecture initiale|scan initial|lectura inicial|"
            rf"erste auslesung|{_BEFORE_WORK}|noch nicht {_LOESCH}|uncleared|on arrival|bei ankunft|a l'arrivee|"
            rf"first scan){BEHIND}"
        ),
    ),
)
PHASE_SIGNS = re.compile(
    r"aft|bef|b4|prior|ehe |post|pre|initial|final|as.(?:found|received|arrived)|nach|vor|apres|"
    r"avant|antes|despues|tras|"
    r"scan|clear|closing|read|arriv|ankunft|eingang|ausgang|lect|ausles|erste|losch|follow|once|luego|erase|"
    r"noch|repair|as it|when it|again|erneut|wieder|relue?|leid|with (?:a |the )?new|fixed|mended|repar|instandg|"
    r"une fois|una vez|una volta|nueva l|nouvelle l|prima|dopo|voor|(?<![a-z])na |ante|gewist|cancellat|all'arrivo|"
    r"inizial|aankomst|binnenkomst"
)
