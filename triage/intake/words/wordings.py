"""Wordings put together from their parts: what a module did when it was asked, however a report says it.

Each is a sequence of slots, each slot a choice of words; "-" is no word. Sources: common practice.
"""

from __future__ import annotations

from triage.intake.words import left_out_wordings

Slots = tuple[str, ...]

#: What a count of codes is of, as a pattern: "2 faults", "3 flt", "4 Fehler".
CODES = (
    r"(?:codes? defauts?|fehlercodes?|codes?|dtcs?|faults?|flts?|errors?|errs?|fehler(?:(?:speicher)?eintrage?)?|"
    r"eintrage?|defauts?|averias?|fallos?|codigos?|errores|entr(?:y|ies|ees?|adas?)|pannes?|storung(?:en|scodes?)?|"
    r"anomal(?:y|ies?|ias?)|malfunctions?|registros?)"
)

_COULD_NOT = (
    "could not | couldn t | couldnt | cannot | can t | cant | can not | unable to | was unable to | were unable to | "
    "not able to | wasn t able to | was not able to | failed to | fails to | did not manage to | didn t manage to | "
    "don t | do not | won t let me | never managed to"
)
_NO_TIENE = "no tiene | no tienen | ya no tiene | ya no tienen"
_SILENT: tuple[Slots, ...] = (
    ("k", "antwort | antw | komm | kommunikation | verbindung | verb | reaktion | ruckmeldung"),
    ("n", "erreichbar | ansprechbar"),
    ("keine", "diagnose", "moglich | moeglich"),
    ("falla | fallo | falla la | fallo la", "comunicacion | conexion"),
    ("no se puede | no se pudo | no se ha podido | no puede", "conectar | comunicar | acceder | entrar | contactar"),
    ("no", "accede | entra"),
    ("no se deja", "leer | escanear | conectar"),
    (
        _COULD_NOT,
        "talk to | speak to | reach | connect to | connect with | communicate with | contact | access | get into | "
        "get in to | get through to | get hold of | get in touch with | get an answer from | get a response from | "
        "get any response from | get any answer from | get anything from | get anything out of | get a thing out of | "
        "get a thing from | get a word out of | raise | log into | "
        "log on to | ping | open | wake | wake up | see | find | establish communication with |"
        " establish comms with | "
        "get comms with | get communication with",
    ),
    (
        _COULD_NOT,
        "get in | get in it | get into it | get in there | get in at all | get it to talk | get it to answer |"
        " get it to respond | get it to communicate | get it to wake up",
        "- | at all",
    ),
    ("no way", "in | into | in to"),
    ("stone | completely | totally | absolutely", "dead | silent"),
    ("dead | quiet | mute | not alive | stone dead", "on", "- | the",
     "bus | network | can | can bus | can-bus | data bus | line"),
    ("kein | keinen", "mucks"),
    (
        "komme | komm | kam | kommt | kamen | komme ich | komm ich | kam ich | kommt man",
        "nicht",
        "rein | hinein | in das steuergerat",
    ),
    (
        "komme | komm | kam | kommt | kamen | komme ich | komm ich | kam ich | kommt man",
        "nicht",
        "ins | in das | in die | in den | an das | an die | an den | ans",
    ),
    (
        "impossible d | impossible de | n arrive pas a | n arrivais pas a | n ai pas pu | pas pu | pas reussi a | "
        "pas moyen d | pas moyen de",
        "entrer | rentrer | acceder | me connecter | se connecter",
        "- | ni",
        "dans | a | au",
    ),
    ("pas moyen d | pas moyen de", "entrer | y entrer | communiquer | joindre"),
    ("no puedo | no pude | no se pudo | no logro | no consigo | imposible", "entrar | comunicar", "- | ni en"),
    (
        f"{_COULD_NOT} | not possible to | wasn t possible to | was not possible to",
        "establish | make | set up | get | open | start | initiate | obtain",
        "- | a | any",
        "communication | communications | comms | connection | contact | session | link",
        "- | with it | with module | with the module | with ecu | with the ecu | at all",
    ),
    (_COULD_NOT, "read | be read | be accessed | be opened | be found | be seen | be woken | comm | comms"),
    (
        "no answer | no reply | no response | nothing",
        "off",
    ),
    (
        "nothing | nothing back | nothing at all | no sign of life | no joy | no luck | no sign | not a peep | "
        "no life | not a word | not a word back | not a sound",
        "from | out of | with | of",
    ),
    ("nothing | nothing at all", "coming back | comes back | came back | came back at all"),
    ("nothing | nothing at all", "came | comes | coming | came back | is coming | was heard | heard", "from | out of"),
    ("stays | stayed | remains | remained | keeps | kept", "mute | silent"),
    ("bleibt | blieb | bleiben | blieben", "stumm | tot"),
    ("kam | kommt | kamen", "- | gar | uberhaupt", "nichts | nix | keine antwort", "- | zuruck"),
    ("reste | restait | est reste | est restee", "muet | muette"),
    ("rien", "n est venu | ne vient | n est revenu | ne revient | n est arrive | n arrive"),
    ("queda | quedo | se queda | se quedo | sigue | permanece", "mudo | muda"),
    ("no", "llego | llega | vino | viene", "nada"),
    (
        "did not | didn t | didnt | does not | doesn t | doesnt | never",
        "come up | came up | show up | showed up | shows up | appear | appeared | pop up | show",
        "on scan | on the scan | in scan | in the scan | on the bus | on the tool | on the scanner | on tool |"
        " on scanner",
    ),
    ("taucht | tauchte", "im scan nicht auf | nicht im scan auf"),
    ("erscheint | erschien", "im scan nicht | nicht im scan"),
    ("n apparait pas | n est pas apparu | n apparaissait pas", "au scan | dans le scan | sur le scan | sur la valise"),
    ("no aparece | no aparecio | no sale | no salio", "en el escaneo | en el escaner | en la maquina"),
    ("not", "seen | found | detected | visible | heard", "on bus | on the bus | on can | on network | in scan"),
    (
        "won t | wont | would not | wouldn t | refuses to | refused to | did not | didn t | does not | doesn t |"
        " cannot",
        "talk | speak | respond | answer | communicate | connect | wake up | comm | say",
        "at all | to me | to us | to anything | to scanner | to the scanner | to tool | to the tool | anything",
    ),
    (
        "konnte nicht | konnten nicht | lasst sich nicht | laesst sich nicht | liess sich nicht | kann nicht | nicht",
        "erreichen | ansprechen | auslesen | erreicht werden | angesprochen werden | ausgelesen werden | "
        "kontaktieren | auslesbar | lesbar",
    ),
    (
        "kein zugriff | kein zugang | keine verbindung | keine kommunikation | kein durchkommen",
        "auf | zu | zum | zur | mit",
    ),
    (
        "impossible de | impossible d | n ai pas pu | pas pu | pas reussi a | n arrive pas a",
        "communiquer avec | joindre | dialoguer avec | lire | entrer en communication avec | acceder a | contacter |"
        " entrer dans | rentrer dans | entrer en contact avec",
    ),
    (
        "ne veut pas | ne voulait pas | n a pas voulu | ne veut plus | refuse de | refusait de | a refuse de",
        "communiquer | repondre | dialoguer | parler | se connecter | rien dire",
    ),
    ("sin", "contestar | responder | comunicar | conectar | respuesta ninguna"),
    ("sans", "repondre | communiquer | dialoguer"),
    ("ohne", "zu antworten | zu reagieren"),
    (
        "no quiere | no queria | no quiso | se niega a",
        "comunicar | comunicarse | responder | contestar | hablar | conectar | conectarse",
    ),
    (
        "will nicht | wollte nicht | weigert sich | mag nicht",
        "- | mit mir | mit dem tester",
        "antworten | reden | sprechen | kommunizieren | zu antworten",
    ),
    (
        "doesn t want to | didn t want to | does not want to | did not want to | refuses to | refused to",
        "talk | answer | respond | communicate | connect | speak",
        "- | to me | at all",
    ),
    (
        "no se pudo | no se puede | no pude | no puedo | no logro | imposible | no ha sido posible",
        "comunicar con | comunicarse con | acceder a | conectar con | contactar con | leer | contactar",
    ),
    (
        "did not | didn t | didnt | does not | doesn t | doesnt | do not | don t | will not | won t | wont | "
        "would not | "
        "wouldn t | could not | couldn t | cannot | can t | cant | can not | unable to | was unable to | "
        "failed to | fails to | "
        "fail to | refused to | refuses to | never | not able to",
        "respond | answer | reply | communicate | connect | talk | be reached | be contacted | come online | wake up",
    ),
    (
        "not | isn t | is not | aren t | are not | wasn t | was not | stopped | currently not | still not",
        "responding | answering | replying | communicating | talking | reachable | online | contactable",
    ),
    ("never | not | has not | hasn t", "responded | answered | replied | communicated | connected"),
    (
        "no | without | zero",
        "response | answer | reply | replies | resp | ans | comm | comms | com | coms | communication | "
        "communications | contact | "
        "connection | reaction | dialogue",
        "- | possible | established | received | at all | on bus | detected",
    ),
    (
        "communication | comm | comms | connection | dialogue",
        "failed | failure | fail | error | fault | timeout | timed out | impossible | not possible |"
        " not established | "
        "aborted | interrupted | unsuccessful | could not be established | cannot be established | down",
    ),
    ("antwortet | antworten | reagiert | reagieren | kommuniziert | kommunizieren | meldet sich | antwortete | "
     "antworteten | reagierte | reagierten", "nicht"),
    ("nicht", "antworten | reagieren | geantwortet haben | erreichbar waren | erreichbar sind"),
    ("bekomme | bekam | krieg | kriege | kriegte | komme | kam | bekommen | kriegen | kommen", "ich | wir | man",
     "nicht | nie", "- | ran | rein | drauf | dran | an | hinein | darauf"),
    ("meldete sich | meldeten sich | melden sich", "nicht | nie | gar nicht"),
    ("hat sich | haben sich", "- | auch | leider | gar | uberhaupt", "nicht | nie", "- | mehr", "gemeldet"),
    ("antwortet | reagiert | kommuniziert", "nicht mehr | gar nicht | uberhaupt nicht | ueberhaupt nicht"),
    (
        "keine | ohne",
        "antwort | kommunikation | verbindung | reaktion | ruckmeldung | rueckmeldung | antw | komm | kommunik | verb",
        "- | moglich | moeglich | erhalten | vorhanden | aufgebaut",
    ),
    (
        "kommunikation | verbindung | verbindungsaufbau | kommunikationsaufbau",
        "fehlgeschlagen | nicht moglich | nicht moeglich | gestort | gestoert | unterbrochen | gescheitert | "
        "fehlerhaft | unmoglich | unmoeglich",
    ),
    ("kein", "verbindungsaufbau | kommunikationsaufbau | kontakt | signal | durchkommen", "- | moglich"),
    ("nicht", "ansteuerbar | ansprechbar | erreichbar | kommunikationsfahig | geantwortet | erreicht | kontaktierbar"),
    ("ne | n", "repond | repondent | communique | communiquent | dialogue | dialoguent | repondait | repondaient | "
     "communiquait | communiquaient | dialoguait | dialoguaient", "pas | plus"),
    ("n a | n ont", "pas", "repondu | communique | dialogue"),
    ("n a | n ont", "pas donne | donne aucune | pas renvoye", "de reponse | reponse"),
    ("no hubo | no se obtuvo | no se recibio", "respuesta | comunicacion | contacto"),
    ("no", "localizable | accesible | localizado"),
    ("no da", "senal | senales | respuesta"),
    (
        "pas de | aucune | aucun | sans | absence de | n a plus de | n a plus aucune | plus aucune",
        "reponse | communication | dialogue | connexion | liaison | contact | rep | com | comm | communic",
        "- | possible | etablie | recue",
    ),
    (
        "communication | dialogue | connexion | liaison | com | comm",
        "impossible | echouee | echoue | interrompue | interrompu | non etablie | en echec | coupee",
    ),
    ("echec de | echec de la | erreur de", "communication | connexion | liaison | dialogue"),
    ("no", "responde | responden | contesta | contestan | comunica | comunican | respondio | contesto | conecta | "
     "respondia | respondian | contestaba | contestaban | comunicaba | comunicaban | conectaba"),
    ("no ha | no han", "respondido | contestado | comunicado"),
    (
        f"sin | no hay | ninguna | {_NO_TIENE}",
        "respuesta | comunicacion | conexion | contacto | resp | com | comunic",
        "- | posible | establecida | recibida",
    ),
    ("imposible | fue imposible | es imposible | no fue posible | no es posible | no se consigue | no se logra",
     "comunicar | conectar | contactar | establecer comunicacion | establecer conexion"),
    ("comunicacion | conexion", "fallida | imposible | interrumpida | no posible | no establecida | erronea"),
    ("fallo de | error de | fallo en la | falla la | fallo la | falla de", "comunicacion | conexion"),
)
_KINDS = (
    "codes | code | dtc | dtcs | fault | faults | fault codes | fault code | trouble codes | trouble code | error | "
    "errors | error codes | error code | faultcodes | fault entries | fault memory entries | malfunctions |"
    " entries | "
    "diagnostic trouble codes"
)
_FEHLER = (
    "fehler | fehlercode | fehlercodes | fehlereintrag | fehlereintrage | fehlereintraege | eintrag | eintrage | "
    "eintraege | dtc | dtcs | code | codes | storung | storungen | stoerungen | storungscode | storungscodes | "
    "fehlerspeichereintrag | fehlerspeichereintrage | fehlermeldung | fehlermeldungen | befund"
)
_AUCUN = (
    "aucun | aucune | pas de | pas d | sans | 0 | zero",
    "code | codes | defaut | defauts | code defaut | codes defaut | codes defauts | code de defaut | erreur | "
    "erreurs | dtc | panne | pannes | anomalie | anomalies",
    "- | memorise | memorises | memorisee | detecte | detectes | detectee | enregistre | enregistres | present | "
    "presents | presente | trouve | trouves | stocke | stockes | releve | releves | en memoire | signale",
)
_CODIGOS = (
    "codigo | codigos | fallo | fallos | averia | averias | error | errores | dtc | dtcs | codigos de averia | "
    "codigos de fallo | codigo de averia | codigo de fallo | codigos de error | defectos | incidencias | anomalias"
)
_AVERIAS = (
    _CODIGOS,
    "- | almacenado | almacenados | almacenada | almacenadas | memorizado | memorizados | memorizada | memorizadas | "
    "registrado | registrados | registrada | registradas | detectado | detectados | detectada | detectadas | "
    "encontrado | encontrados | encontrada | encontradas | guardado | guardados | guardadas | presente | presentes | "
    "en memoria",
)
_CLEAN: tuple[Slots, ...] = (
    (
        "nothing | nothing at all",
        "in | on | under | in memory | logged | set | showing | recorded | wrong | listed | left",
    ),
    (
        "nothing | none",
        "stored | found | logged | recorded | showing | set | is stored | was stored | is logged | was found |"
        " is found | is set",
        "in | on",
    ),
    ("esta | va | todo", "bien"),
    (
        "doesn t | does not | don t | do not | doesnt | dont | didn t | did not",
        "have | show | hold",
        "anything | any codes | any faults | any dtcs | a code | a single code | a fault | codes | faults | dtcs",
        "- | in it | in there | in memory | stored | logged",
    ),
    (
        "hasn t | has not | hasnt | haven t",
        "got",
        "anything | any codes | any faults | any dtcs | a code | a single code | a fault",
        "- | in it | in there | in memory | stored | logged",
    ),
    ("not a", "thing | sausage", "in it | in there | stored | logged"),
    ("not a single", "code | fault | dtc | error", "- | in it | in there | stored | logged"),
    ("clear | free", "of", "- | any | all", "faults | codes | dtcs | errors"),
    ("is | are | was | seems | all | perfectly | quite", "happy"),
    (
        "all | is | was | are | were | still | now | reads | read | came up | comes up | came back | looks | scanned",
        "clean | fine | good | ok | okay",
    ),
    ("came up | comes up | reads", "clear | empty"),
    ("no", "codes | faults | dtcs", "left | any more | anymore | remaining"),
    ("fs | fsp | fehlersp | fehlerspeicher | speicher", "leer | ist leer | sauber | ist sauber"),
    ("codes | code | faults | fault | dtcs | dtc", "not found | not present | none"),
    ("nothing", "any more | anymore | any longer", "- | in | on | stored | logged"),
    ("nichts | nix | gar nichts", "- | mehr", "drin | im | in | im speicher | drinnen | dabei"),
    ("nichts | nix", "mehr", "- | da | vorhanden"),
    ("rien", "ni", "dans | en"),
    ("nada", "ni", "en"),
    ("n a de | n ont de | n a d | n ont d", *_AUCUN[1:]),
    ("rien", "dans | en | cote | du tout | de memorise | d enregistre | en memoire"),
    ("nada", "en | en memoria | dentro | guardado | memorizado | almacenado | registrado"),
    ("alles", "ok | gut | in ordnung | sauber | i o"),
    ("tout", "va bien | est ok | ok | est bon | bon"),
    ("todo", "bien | ok | correcto | en orden"),
    (
        "no | zero | 0 | without | without any | free of",
        "- | stored | active | present | current | actual",
        _KINDS,
        "- | found | stored | detected | present | recorded | logged | set | reported | registered | "
        "in memory | read | "
        "returned | saved | available | exist | were found | were stored | are stored | are present | in module",
    ),
    ("none | nothing", "found | stored | present | detected | recorded | reported | logged | set | to report"),
    ("no", "defects | issues | problems | problem | malfunction", "- | found | detected"),
    ("keine", "auffalligkeiten | auffaelligkeiten"),
    (
        "kein | keine | keinen | 0 | ohne",
        "- | gespeicherten | gespeicherte | aktiven | aktive | vorhandenen",
        _FEHLER,
        "- | gespeichert | gefunden | vorhanden | abgelegt | hinterlegt | erkannt | festgestellt | eingetragen | "
        "gesetzt | drin | im speicher | im fehlerspeicher",
    ),
    ("nichts | nix", "- | mehr", "gespeichert | gefunden | abgelegt | hinterlegt | eingetragen"),
    _AUCUN,
    ("plus aucun | plus aucune | plus de | plus d | n a plus aucun | n a plus aucune | n a plus de | n a plus d | "
     "n ont plus aucun | n ont plus aucune | n ont plus de | n ont plus d | il n y a plus de", *_AUCUN[1:]),
    ("plus rien | n a plus rien | n ont plus rien",
     "- | dans | en | cote | en memoire | dedans | a signaler | de memorise"),
    (
        "n a | n ont | n affiche | n affichent | ne montre | ne montrent | ne presente | ne presentent | ne contient | "
        "ne contiennent | n y a",
        *_AUCUN,
    ),
    ("n a | n ont", "rien", "- | en memoire | dedans"),
    ("ya no", "sale | salen | aparece | aparecen | queda | quedan | hay | tiene | tienen | da",
     f"nada | ningun codigo | ningun fallo | ninguna averia | {_CODIGOS}", "- | en | en memoria"),
    ("ya | ya esta | ya estan", "limpio | limpia | limpios | limpias | nada | sin nada"),
    ("ya", "sin", _CODIGOS),
    ("limpios | limpias | propres | vacios | vacias | vides",),
    ("est | sont | etait | etaient", "- | tous | toutes",
     "propre | propres | sain | saine | sains | saines"),
    ("esta | estan | estaba | estaban", "- | todo | todos", "sano | sana | sanos | sanas"),
    ("rien", "a signaler | en memoire | memorise | trouve"),
    ("sin | ningun | ninguna | no hay | 0 | cero", *_AVERIAS),
    (f"{_NO_TIENE} | no presenta | no presentan | no muestra | no muestran | no registra | no registran | no contiene",
     "- | ningun | ninguna", *_AVERIAS),
)
#: What says nothing of the kind, though it holds words that do.
_NEITHER: tuple[Slots, ...] = (
    (
        "no | without | zero | 0",
        "comm | comms | communication | communications | com | connection | response | link",
        "error | errors | fault | faults | problem | problems | issue | issues | failures | timeouts | losses",
    ),
    ("no | without", "fault | dtc | error | code", "memory"),
    # Silent, or without codes?
    ("says | said | sagt | sagte", "nothing | nichts | nix | gar nichts | uberhaupt nichts | nothing at all"),
    ("ne dit | ne disait | dit", "- | plus", "rien | rien du tout"),
    ("sagt | sagte", "nichts mehr | nix mehr"),
    # No "n/a", and "more faults than before".
    ("n a | n ont", "plus | pas | aucun | aucune | que | garde | gardait | conserve | toujours | encore | jamais"),
    ("plus de | plus d", *_AUCUN[1:], "que | qu"),
    ("no dice | no decia | dice", "nada"),
    (f"{_NO_TIENE} | no hay | sin", _CODIGOS, "pendiente | pendientes"),
    (f"{_NO_TIENE} | no hay | sin", "fallo | fallos | error | errores", "de"),
)
#: The wordings by what they say.
PATTERNS: dict[str, tuple[Slots, ...]] = {
    "": _NEITHER,
    "silent": _SILENT,
    "clean": _CLEAN,
    "not fitted": left_out_wordings.NOT_FITTED,
    "not scanned": left_out_wordings.NOT_SCANNED,
}
