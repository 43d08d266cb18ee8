"""Wordings put together from their parts: what a module did when it was asked, however a report says it.

Each is a sequence of slots, each slot a choice of words; "-" is no word. Sources: common practice.
"""

from __future__ import annotations

Slots = tuple[str, ...]

_SILENT: tuple[Slots, ...] = (
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
        "response | answer | reply | replies | comm | comms | com | coms | communication | communications | contact | "
        "connection | reaction | dialogue",
        "- | possible | established | received | at all | on bus | detected",
    ),
    (
        "communication | comm | comms | connection | dialogue",
        "failed | failure | fail | error | fault | timeout | timed out | impossible | not possible | not established | "
        "aborted | interrupted | unsuccessful | could not be established | cannot be established | down",
    ),
    ("antwortet | antworten | reagiert | reagieren | kommuniziert | kommunizieren | meldet sich", "nicht"),
    ("antwortet | reagiert | kommuniziert", "nicht mehr | gar nicht | uberhaupt nicht | ueberhaupt nicht"),
    (
        "keine | ohne",
        "antwort | kommunikation | verbindung | reaktion | ruckmeldung | rueckmeldung",
        "- | moglich | moeglich | erhalten | vorhanden | aufgebaut",
    ),
    (
        "kommunikation | verbindung | verbindungsaufbau | kommunikationsaufbau",
        "fehlgeschlagen | nicht moglich | nicht moeglich | gestort | gestoert | unterbrochen | gescheitert | "
        "fehlerhaft | unmoglich | unmoeglich",
    ),
    ("nicht", "ansprechbar | erreichbar | kommunikationsfahig | geantwortet | erreicht | kontaktierbar"),
    ("ne | n", "repond | repondent | communique | communiquent | dialogue | dialoguent", "pas | plus"),
    ("n a | n ont", "pas", "repondu | communique | dialogue"),
    (
        "pas de | aucune | aucun | sans | absence de",
        "reponse | communication | dialogue | connexion | liaison | contact",
        "- | possible | etablie | recue",
    ),
    (
        "communication | dialogue | connexion | liaison",
        "impossible | echouee | echoue | interrompue | interrompu | non etablie | en echec | coupee",
    ),
    ("echec de | echec de la | erreur de", "communication | connexion | liaison | dialogue"),
    ("no", "responde | responden | contesta | contestan | comunica | comunican | respondio | contesto | conecta"),
    ("no ha | no han", "respondido | contestado | comunicado"),
    (
        "sin | no hay | ninguna",
        "respuesta | comunicacion | conexion | contacto",
        "- | posible | establecida | recibida",
    ),
    ("comunicacion | conexion", "fallida | imposible | interrumpida | no posible | no establecida | erronea"),
    ("fallo de | error de | fallo en la", "comunicacion | conexion"),
)
_KINDS = (
    "codes | code | dtc | dtcs | fault | faults | fault codes | fault code | trouble codes | trouble code | error | "
    "errors | error codes | error code | faultcodes | fault entries | fault memory entries | malfunctions | entries | "
    "diagnostic trouble codes"
)
_FEHLER = (
    "fehler | fehlercode | fehlercodes | fehlereintrag | fehlereintrage | fehlereintraege | eintrag | eintrage | "
    "eintraege | dtc | dtcs | code | codes | storung | storungen | stoerungen | fehlerspeichereintrag | "
    "fehlerspeichereintrage | fehlermeldung | fehlermeldungen | befund"
)
_CLEAN: tuple[Slots, ...] = (
    (
        "no | zero | 0 | without | without any | free of",
        "- | stored | active | present | current | actual",
        _KINDS,
        "- | found | stored | detected | present | recorded | logged | set | reported | registered | "
        "in memory | read | "
        "returned | saved | available | exist | were found | were stored | are stored | are present | in module",
    ),
    ("none | nothing", "found | stored | present | detected | recorded | reported | logged | set | to report"),
    ("no", "defects | issues | problems | malfunction", "- | found | detected"),
    (
        "kein | keine | keinen | 0 | ohne",
        "- | gespeicherten | gespeicherte | aktiven | aktive | vorhandenen",
        _FEHLER,
        "- | gespeichert | gefunden | vorhanden | abgelegt | hinterlegt | erkannt | festgestellt | eingetragen | "
        "gesetzt | im speicher | im fehlerspeicher",
    ),
    ("nichts | nix", "gespeichert | gefunden | abgelegt | hinterlegt | eingetragen"),
    (
        "aucun | aucune | pas de | pas d | sans | 0 | zero",
        "code | codes | defaut | defauts | code defaut | codes defaut | codes defauts | code de defaut | erreur | "
        "erreurs | dtc | panne | pannes | anomalie | anomalies",
        "- | memorise | memorises | memorisee | detecte | detectes | detectee | enregistre | enregistres | present | "
        "presents | presente | trouve | trouves | stocke | stockes | releve | releves | en memoire | signale",
    ),
    ("rien", "a signaler | en memoire | memorise | trouve"),
    (
        "sin | ningun | ninguna | no hay | 0 | cero",
        "codigo | codigos | fallo | fallos | averia | averias | error | errores | dtc | dtcs | codigos de averia | "
        "codigos de fallo | codigo de averia | codigo de fallo | codigos de error | defectos | incidencias | anomalias",
        "- | almacenado | almacenados | almacenada | almacenadas | memorizado | memorizados | memorizada | "
        "memorizadas | "
        "registrado | registrados | registrada | registradas | detectado | detectados | detectada | detectadas | "
        "encontrado | encontrados | encontrada | encontradas | guardado | guardados | guardadas | presente | presentes "
        "| en memoria",
    ),
)
_NOT_FITTED: tuple[Slots, ...] = (
    (
        "not",
        "fitted | installed | equipped | present | built in | available | mounted | existing | configured | part",
        "in | on | to | of | for | with",
        "vehicle | this vehicle | the vehicle | car | this car | this model | this variant | this version | "
        "truck | van",
    ),
    ("keine | ohne", "ausstattung | sonderausstattung | einbau"),
    (
        "nicht",
        "verbaut | vorhanden | eingebaut | ausgestattet | installiert",
        "im fahrzeug | in diesem fahrzeug | bei diesem fahrzeug",
    ),
    ("nicht", "im fahrzeug | bestuckt | vorgesehen | konfiguriert"),
    ("nicht im fahrzeug | im fahrzeug nicht", "verbaut | vorhanden | eingebaut"),
    (
        "non | pas | absent",
        "- | monte | equipe | installe | present",
        "sur ce vehicule | sur le vehicule | dans ce vehicule | sur ce modele",
    ),
    (
        "no",
        "montado | montada | equipado | equipada | instalado | instalada | presente | disponible",
        "en este vehiculo | en el vehiculo | en este modelo",
    ),
)
_NOT_SCANNED: tuple[Slots, ...] = (
    (
        "not | not yet | never | wasn t | was not",
        "scanned | read | polled | queried | checked | tested | selected | interrogated | requested | examined | "
        "addressed | asked",
    ),
    ("scan | scanning | reading | read | test | query", "skipped | aborted | cancelled | not done | omitted"),
    (
        "nicht | noch nicht",
        "gelesen | abgefragt | gepruft | geprueft | gescannt | ausgelesen | angesprochen | getestet | angefragt | "
        "untersucht | ausgewahlt",
    ),
    (
        "non | pas | pas encore",
        "lu | lue | scanne | scannee | interroge | interrogee | teste | testee | controle | verifie | selectionne",
    ),
    (
        "no | aun no",
        "leido | leida | escaneado | escaneada | consultado | consultada | comprobado | comprobada | interrogado | "
        "revisado | seleccionado | probado | analizado",
    ),
)
#: The wordings by what they say.
PATTERNS: dict[str, tuple[Slots, ...]] = {
    "silent": _SILENT,
    "clean": _CLEAN,
    "not fitted": _NOT_FITTED,
    "not scanned": _NOT_SCANNED,
}
