"""The words of the phrases that say where a scan stands, in small letters without accents, in English, German,
French, Spanish, Italian and Dutch.

Source: common practice.
"""

from __future__ import annotations

#: No part of a longer word.
BEFORE = r"(?<![a-z0-9])"
BEHIND = r"(?![a-z0-9])"
#: The noun for a clear with what the modules answered: "borrado aceptado"; "clear" alone also means without codes.
CLEAR_TOOK = (
    r"(?:(?<=^)clear(?= (?:ok(?:ay)?|accepted|successful(?:ly)?)\s*(?:[.,;!]|$))|"
    r"(?<![a-z0-9] )clear(?= (?:was )?(?:accepted|confirmed)(?![a-z]))|"
    r"(?:loschung|loeschung|loschen|loeschen|loschvorgang|loeschvorgang)(?= (?:wurde |war |ist )?(?:angenommen|"
    r"bestatigt|akzeptiert|erfolgreich)(?![a-z]))|"
    r"effacement(?= (?:est |a ete )?(?:accepte|confirme|valide|reussi|effectue)(?![a-z]))|"
    r"borrado(?= (?:fue |ha sido )?(?:aceptado|confirmado|correcto|realizado|hecho)(?![a-z])))"
)
#: As typed in full, or in haste: "aft clr", "b4 clearing".
AFTER = r"(?:aft(?:e?r)?|following|once|post)"
#: What was done before the clear in the same words, its voltage and a remark in brackets behind it: "after charging to
#: 12.6 V (charger off) and clearing".
CHARGED_AND = (
    r"(?:(?:(?:battery|full|[0-9]{1,2} ?h(?:ours?|rs)?(?: of)?|batterie|stunden|de la batterie|la bateria) )*"
    r"(?:(?:re-?)?charg(?:e|ing)|(?:auf|nach)?laden|(?:re)?charger?|(?:re)?cargar?)"
    r"(?: (?:the |la |der )?(?:battery|batterie|bateria))?"
    r"(?: (?:to|auf|a|jusqu'a|hasta) [0-9]{1,2}(?:[.,][0-9]{1,2})? ?v(?:olts?)?)?(?: ?\([^()]{1,40}\))?,? "
    r"(?:(?:and|und|et|y)(?: then| dann| puis| luego)? |[+&] ))"
)
CLEAR = (
    r"(?:clear(?:ed|ing|ance|s)?|clr(?:'?d|ed|ing|ng|s)?|eras(?:e|ed|ing|ure)|delet(?:e|ed|ing|ion)|reset(?:ting)?|"
    r"wip(?:e[ds]?|ing))"
)
OF_CODES = (
    r"(?:the |all |any |dtcs? |codes? |faults? |fault codes? |memory |i |we |a |have been |were |was |"
    rf"being |having |first |{CHARGED_AND})*"
)
#: With the umlaut, or written out where a keyboard has none.
GELOESCHT = r"geloe?scht"
LOESCH = rf"(?:(?:fehler)?(?:speicher)?(?:losch|loesch)\w*|{GELOESCHT})"
LO_OF = (
    r"(?:dem |der |des |den |fehlerspeicher |fehler |fehlerspeichers |fsp?[.]? |codes? |aller |allen |ersten |"
    rf"erstem |{CHARGED_AND})*"
)
EFF = r"(?:effac\w*|suppression)"
EF_OF = r"(?:l'|le |la |les |des |d'|defauts? |codes? |un |tous |avoir |" rf"{CHARGED_AND})*"
BORR = r"(?:borr\w+|eliminar|eliminacion|limpiar|limpieza)"
BO_OF = r"(?:de |del |el |la |los |las |codigos |haber |averias |fallos |un |" rf"{CHARGED_AND})*"
CANC = r"(?:cancell\w+|azzer\w+|reset)"
CA_OF = (
    r"(?:della |dello |delle |dei |degli |del |di |la |le |lo |il |i |gli |aver |avere |codici |errori |guasti |"
    r"memoria |la prima )*"
)
WIS = r"(?:(?:uit)?wissen|gewist|resetten|gereset)"
WI_OF = r"(?:het |de |alle |van |foutcodes? |fouten |storingen |storingscodes? |codes? |(?:fout)?geheugen )*"
AMOUNT = (
    r"(?:about |approx\.? |ca\.? |etwa |environ |unos |a |an |the |another |einer |einem |un |une |una |"
    r"(?:[0-9]{1,3}(?:[.,][0-9])?|one|two|three|four|five|ten|fifteen|twenty|thirty|a few|zwei|drei|funf|zehn|"
    r"zwanzig|deux|cinq|dix|quinze|vingt|dos|cinco|diez|quince|veinte)[ -]?(?:min(?:ute[sn]?|utos?|s)?|mn|"
    r"sec\w*|sek\w*|s|h|km|miles?|mi|hours?|"
    r"stunden?|heures?|horas?)[ -]?)*"
)
RUN = (
    r"(?:engine |motor |test |trial |road |short |long |quick |warm |brief |kurzer |kurzem |kleiner |court |corto )*"
    r"(?:of |at |on |with |im |am |de |d'|en |au |al |"
    r"the |le |une? |una |engine |motor |moteur |avoir |fait |haber |hacer |dar |mit )*"
    r"(?:run(?:ning|s)?|ran|idl(?:e|ed|ing)|driv(?:e|en|ing)|drove|road[ -]?test(?:ed|"
    r"ing)?|test[ -]?drive|(?:test|trial|proving|road)[ -]?run|testlauf|probelauf|tour d'essai|vuelta de prueba|"
    r"warm[ -]?up|warmed|trip|motorlauf|probefahrt|leerlauf|fahrt|laufen|lauf|motorbetrieb|warmlauf|"
    r"laufenlassen|fahrzykl\w+|essai(?: routier)?|"
    r"roulage|ralenti|mise en route|fonctionnement|marche|prueba(?: de carretera| en carretera)?|rodaje|"
    r"recorrido|conduccion|"
    r"funcionamiento|marcha|laufende[mn] motor|fahren|(?:test|strassen)fahrt|(?:test|probe)lauf|tourn(?:ant|er?)|"
    r"roule|route(?![a-z])|ruta(?![a-z])|condui(?:te?|re)|trajet|funcionar|conducir|conducido|circular|"
    r"circulado|rodar|rodado|ride(?! (?:height|level|control))|outing|spin|lap(?! belt)|"
    r"(?:spin |lap |loop |once )?(?:a?round|of) the "
    r"(?:block|yard|town|estate)|ausfahrt|runde|rundfahrt|tour(?![a-z]| de cle)|vuelta(?! de llave)|trayecto|paseo)"
)
#: What was run, and for how long: "running the engine 10 min".
FOR = (
    r"(?:(?: the| it| up)* (?:engine|motor|van|car)(?![a-z])(?! (?:ecu|ecm|control|module|unit|management|computer|"
    r"electronics|box|brain|ha[sd]|g[ai]ve|gives|shows?|showed|reports?|threw|got|says?|said|did|answered|is|was)(?![a-z])))?"
    r"(?: (?:for )?(?:about )?[0-9]{1,3} ?(?:min\w*|mn|s|sec\w*|h|hours?)(?![a-z]))?"
)
#: A drive behind the clear of the same sentence: the later event tells. An engine that only runs is one of this scan.
DRIVE = (
    r"(?:(?:short |long |quick |brief |kurzer |kurzem |court |corto )?(?:road[ -]?test|"
    r"(?:test|trial)[ -]?(?:drive|run)|drive[ -]cycles?|drive(?! (?!of |for |[0-9])\w)|"
    r"driving|drove|test[ -]?drove|road[ -]?tested|trip|probefahrt|fahrt|fahren|essai(?: routier| sur route)|roulage|"
    r"prueba (?:de|en) carretera|rodaje|recorrido|conducir|"
    r"(?:(?:de|en|sur|por) )?(?:route|ruta|carretera|conduite|trajet|conduccion)(?! (?:barree|cortada))|"
    r"(?:(?:on the|of|auf der) )?(?:autobahn|landstrasse|motorway|highway)))"
)
AND_DROVE = (
    r"(?: (?!not |no |before |without |nicht |ohne |vor |sans |avant |sin |antes )[\w']+){0,3}?"
    r"(?:,|,? ?(?:and|then|und|dann|anschliessende[rmn]?|puis|et|suivi[es]* d[eu']|y|luego|seguido de|[+&/(-]))"
    rf"(?: (?:then|dann|puis|luego|a|an|the))* ?{AMOUNT}"
    rf"(?:{DRIVE}|[0-9]{{1,3}} ?min\w* (?:of |im |am |de |au |en |d')?(?:idl(?:e|ing)|run(?:ning)?|leerlauf|motorlauf|"
    r"laufen|ralenti))"
    r"(?![a-z0-9])(?! (?:not|to follow|still|next|pending|noch|steht|nicht|pas|reste|a faire|pendiente|no|later|due|"
    r"outstanding|incomplete|required|needed))"
)
#: The engine was started: what is asked of it next is asked after a run.
STARTED = (
    r"(?:after (?:the |an? |having |i |we )*(?:engine )?start(?:ing|ed)?(?:[ -]?up)?(?! of)(?: the|"
    r" it)?(?: up)?(?: engine)?|"
    r"after (?:letting|leaving) (?:it|the engine) (?:run|idle))"
)
STARTED_ELSEWHERE = (
    r"(?:nach (?:dem |erfolgtem )*(?:motor)?(?:start|starten|anlassen)|"
    r"apres (?:le |avoir )?(?:demarrage|demarre)(?: (?:du )?moteur)?|"
    r"(?:tras|despues de) (?:el |haber )?arran(?:car|que|cado)(?: (?:el |del )?motor)?)"
)
BEFORE_WORK = (
    r"(?:(?:without|haven ?'? ?t|hasn ?'? ?t|didn ?'? ?t) (?:yet |been )?(?:clear|eras|delet|wip)\w*|"
    r"before (?:i |we |anyone |they )?(?:touch(?:ed|ing)|did|doing|had (?:touched|done)|"
    r"started?) (?:anything|any work|work|it)|"
    r"before anything (?:was |is |had been |got )*(?:done|touched|changed)|before (?:any |the |"
    r"starting )*(?:work|repairs?)|"
    # A message is passed on "as it came in" as well.
    r"(?<! on )(?<!forward )(?<!forwarded )(?<!along )(?:as|how) (?:it |they )?"
    r"(?:came|arrived|received|delivered|presented)(?: in)?|"
    # "Flat when it came in" is said of the battery.
    r"(?<! flat )(?<! dead )(?<!discharged )when (?:it|they) (?:came|arrived)(?: in)?|"
    r"pre[ -]?repair)"
)
BEFORE_WORK_DE = (
    r"ohne (?:etwas |was )?(?:zu )?loschen|vor (?:der |beginn der )*(?:reparatur|instandsetzung|arbeit(?:en)?)"
)
BEFORE_WORK_FR_ES = (
    r"sans (?:rien )?effacer|sin borrar|avant (?:la )?(?:reparation|intervention)|"
    r"antes de (?:la )?(?:reparacion|intervencion)"
)
#: A repair in each language: what was done, or the part that is new.
MENDED = (
    r"(?:repair(?:s|ed|ing)?|replac(?:e|ed|ing|ement)|renew(?:ed|ing|al)|mend(?:ed|ing)|fix(?:ed|ing)?|fit(?:ted|ting)|"
    r"install(?:ed|ing|ation)|swap(?:s|ped|ping)?|chang(?:ed|ing)(?! (?:gear|into|down|up))|change of|"
    r"(?<!gear )(?<!lane )(?<!state )(?<!mode )change(?! ?(?:gear|into|down|up|over))|rebuil(?:t|ding)|"
    r"refurbish\w*|rewir(?:ed|ing)|splic(?:ed|ing)|solder(?:ed|ing)|tighten(?:ed|ing)|"
    r"clean(?:ed|ing)(?! (?:out )?(?:the |all |of )*(?:codes?|dtcs?|faults?|memor))|(?:re)?program(?:med|ming|s)?|"
    r"reprogram\w*|reflash\w*|coding|calibrat\w+|new (?!scan|read|clear|run|codes?|faults?|dtcs?)[a-z]\w+)"
)
MENDED_DE = (
    r"(?:\w{0,20}(?:reparatur|instandsetzung|behebung|tausch|wechsel|ersatz|erneuerung|einbau|montage|programmierung)|"
    r"(?:aus)?tauschen|wechseln|ersetzen|erneuern|reparieren|einbauen|instandsetzen|reinigen|programmieren|arbeiten)"
)
DONE_DE = (
    r"(?:ersetzt|erneuert|(?:aus)?getauscht|gewechselt|repariert|eingebaut|instandgesetzt|gereinigt|programmiert|"
    r"montiert|(?<!nicht )(?<!nicht mehr )verbaut|gelotet|geloetet)"
)
MENDED_FR = (
    r"(?:repar(?:ee?s?|ations?|er)|remplac(?:ee?s?|ements?|er)|chang(?:ee?s?|ements?|er)|pos(?:e|ee|er)|"
    r"mont(?:e|ee|er|age)|echange|refection|refait[es]?|soud(?:e|ee|er|ure)|nettoy(?:e|ee|er|age)|programmation|"
    r"reprogrammation|intervention|travaux|neu(?:f|ve)|nouve(?:lle|au) (?!lecture|scan)\w+)"
)
MENDED_ES = (
    r"(?:repara(?:r|d[oa]|cion(?:es)?)|arregl(?:o|ar|ad[oa])|cambi(?:o|ar|ad[oa])|sustitu(?:ir|cion|id[oa])|"
    r"reemplaz(?:o|ar|ad[oa])|mont(?:ar|aje|ad[oa])|instal(?:ar|acion|ad[oa])|sold(?:ar|ad[oa]|adura)|"
    r"poner(?! (?:el |un |la |una )?(?:cargador|arrancador|booster|mantenedor|fuente|llave|contacto))|"
    r"programa(?:r|cion|d[oa])|reprogram\w+|intervencion|nuev[oa] (?!lectura|escaneo)\w+)"
)
MENDED_IT = (
    r"(?:ripara(?:zion[ei]|t[aoie]|re)|sostitu(?:zion[ei]|it[aoie]|ire)|cambi(?:o|at[aoie]|are)|monta(?:ggio|t[aoie]|"
    r"re)|"
    r"intervent[oi]|lavor[oi]|(?:ri)?programma(?:zione|t[aoie]|re)|pulizia|saldatura|nuov[aoie] "
    r"(?!lettur|scansion)\w+)"
)
MENDED_NL = (
    r"(?:reparatie|herstel\w*|vervang(?:en|ing)|vervangen|vernieuw(?:en|ing|d)|monteren|montage|inbouw\w*|plaatsen|"
    r"(?:her)?programmeren|werkzaamheden|nieuwe (?!uitlezing|scan)\w+)"
)
RUN_IT = (
    r"(?:breve |lung[oa] |l'|la |il |un |una |un'|di |al |con |aver |motore )*(?:prova(?: su strada)?|"
    r"giro(?: di prova)?|"
    r"guida(?:to)?|test su strada|minimo|avvia(?:mento|to)|messa in moto|motore acceso|in moto|marcia|viaggio|percorso)"
)
RUN_NL = (
    r"(?:korte? |lange? |een |het |de |met |motor )*(?:proefrit(?:je)?|testrit(?:je)?|rit(?:je)?|rijden|gereden|"
    r"stationair(?: draaien| lopen)?|draaien|gedraaid|warmdraaien|warmrijden|start(?:en)?|gestart)"
)
#: The codes are there once more: "these came back", "came back with P0562".
CAME_BACK = (
    r"(?:(?:(?:these|those|they|(?:the |all |[0-9]{1,2} |some )*(?:codes?|faults?|dtcs?)|all|it all|(?:this|the same) "
    r"lot|[0-9]{1,2}) (?:have |all |just |then )*(?:came back|come back|are back|were back|returned)|"
    r"(?:it )?(?:came|comes) back(?= with(?![a-z])|:))"
    r"(?! (?:with )?(?:clean|ok|fine|clear|empty|no|none|nothing|negative|good|without|passed)(?![a-z]))|"
    r"(?:kam(?:en)?|sind) (?:die |alle |sie |diese )*(?:wieder|zuruck)|(?:c'est|est|sont|ils sont) reven\w+|"
    r"(?:han )?(?:vuelto|volvieron))"
)
#: So far or so long, and read then: "5 mile run then read".
THEN_READ = (
    r"[0-9]{1,3} ?(?:min\w*|mn|km|miles?|mi)\.? (?:of |im |de |di )?(?:idle|idling|run|running|drive|leerlauf|"
    r"fahrt|probefahrt|"
    r"ralenti|roulage)(?:,? and|,)? (?:then|dann|puis|luego) (?:re-?)?(?:read|scan(?:ned)?|this|these|"
    r"(?:aus)?gelesen|lue?s?|"
    r"leido)"
)
#: Small words between "after" and what was done.
GAP = r"(?:[\w'/-]+ ){0,6}?"
#: Read once more.
AGAIN = (
    r"(?:(?:read|scan(?:ned)?|check(?:ed)?|test(?:ed)?|tried|looked|pulled)(?: \w+){0,2} again|"
    r"re-?(?:read|scan(?:ned)?|check(?:ed)?|test(?:ed)?)|"
    r"(?:nochmals?|noch (?:ein)?mal|erneut|wieder|neu) (?:\w+ )?(?:(?:aus)?gelesen|gescannt|gepruft|(?:aus)?lesen)|"
    r"relue?|relectur[ae]|nouvelle lecture|lue? (?:de|a) nouveau|releido|(?:leid[oa]|lei|leimos) (?:otra vez|de nuevo)|"
    r"nueva lectura|(?:volvi|volvimos|vuelto|volver) a (?:leer|escanear|pasar)|(?:relei|releimos|reescane\w+))"
)
#: The same of what was only looked at no more than of codes: a fuse was "replaced, checked again" within one scan.
READ_AGAIN = AGAIN.replace("|tried|looked|pulled", "").replace("|check(?:ed)?|test(?:ed)?", "")
THEN = (
    r"(?:[,;:.]| -)?(?: (?:and|&|[+]|then|now|und|dann|et|puis|y|luego|i|we|gleich|sofort|direkt|immediately|straight|"
    r"aussitot|enseguida))* "
)
#: The engine or the vehicle was run.
RAN = (
    r"(?:ran|(?:was |let |left )?(?:it |the engine |engine )(?:run(?:ning)?|idle)|idled|drove|took it (?:out|"
    r"for an?|a?round|"
    r"(?:up|down) the road)|fait (?:le|un) tour|runde gedreht|(?:dado|di) una vuelta|driven|road[ -]?tested|"
    r"test[ -]?drove|warmed (?:it )?up|gefahren|probefahrt|laufen (?:ge)?lassen|gelaufen|(?:fait|laisse) tourner|"
    r"tourne|roule|essai(?: routier)?|conducid[oa]|rodad[oa]|(?:deje|dejado) (?:en marcha|funcionar)|"
    r"(?:tuve|tuvimos|tenido) (?:[\w']+ ){0,3}(?:en marcha|al ralenti)|"
    r"[0-9]{1,3} ?(?:min\w*|mn|km|miles?|mi)\.? (?:of |on |de |en |in |im |am |auf |sur |d')?(?:the |la |der )?"
    r"(?:road|drive|driving|run|running|idle|idling|fahrt|strasse|leerlauf|route|roulage|ralenti|ruta|carretera|marcha|"
    r"rodaje|ralenti))"
)
