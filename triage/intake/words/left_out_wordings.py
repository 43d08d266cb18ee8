"""Wordings put together from their parts: a module that is not in the vehicle, or that was not asked.

Each is a sequence of slots, each slot a choice of words; "-" is no word. Sources: common practice.
"""

from __future__ import annotations

Slots = tuple[str, ...]

#: Of a module that the vehicle has not got.
NOT_FITTED: tuple[Slots, ...] = (
    (
        "vehicle | car | truck | van | fahrzeug | vehicule | vehiculo | coche",
        "without it | without this unit | not equipped | ohne dieses system | ohne dieses steuergerat | "
        "sans cet equipement | non equipe | pas equipe | sin este equipo | sin esta centralita | no equipado",
    ),
    ("not | not part of", "- | in | for", "this | the", "build | spec | specification | configuration"),
    ("not", "in | to", "spec"),
    ("never | n", "fitted | installed | equipped"),
    ("deleted | delete", "option"),
    ("n | nie | nie ein", "verbaut | eingebaut"),
    ("jamais", "monte | montee | installe | installee | equipe"),
    ("option", "not fitted | non montee | pas montee | non presente | nicht verbaut"),
    ("opcion", "no montada | no instalada | no incluida"),
    ("n existe", "pas"),
    ("nunca", "montado | montada | instalado | instalada"),
    ("sin", "equipar | instalar"),
    (
        "not",
        "fitted | installed | equipped | present | built in | available | mounted | existing | configured | part",
        "in | on | to | of | for | with",
        "vehicle | this vehicle | the vehicle | car | this car | this model | this variant | this version | "
        "truck | van",
    ),
    ("keine | ohne", "ausstattung | sonderausstattung | einbau"),
    (
        "car | vehicle | truck | van | this one | model | variant",
        "has | have | does not have | doesn t have | hasn t got",
        "none | no such module | no such unit | no such system | one | it | that | this",
    ),
    ("no such", "module | unit | ecu | system | option | thing",
     "- | on this vehicle | in this vehicle | on this one | on this car | on this model | fitted"),
    (
        "nicht",
        "verbaut | vorhanden | eingebaut | ausgestattet | installiert",
        "im fahrzeug | in diesem fahrzeug | bei diesem fahrzeug",
    ),
    (
        "car | van | truck | vehicle | bus | tractor | machine | model",
        "has none | had none | has no such module | has no such thing | doesn t have one | does not have one | "
        "doesn t have it | does not have it | hasn t got one | hasn t got it | has not got one",
    ),
    ("hat", "dieses auto | das auto | dieser wagen | der wagen | dieses fahrzeug | das fahrzeug", "nicht"),
    (
        "ce vehicule | cette voiture | ce camion | ce fourgon | ce modele | le vehicule | la voiture | vehicule | "
        "voiture",
        "n en a pas | n en a aucun | n en est pas equipe",
    ),
    (
        "este coche | este vehiculo | esta furgoneta | este camion | este modelo | el coche | el vehiculo | coche | "
        "vehiculo",
        "no lo tiene | no la tiene | no lo lleva | no la lleva | no tiene ninguno | no lleva ninguno",
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
    # Of several, as the head of a list says it.
    ("non | pas", "montes | montees | equipes | equipees | installes | installees"),
    ("no", "montados | montadas | equipados | equipadas | instalados | instaladas"),
)
#: Of one that nobody asked.
NOT_SCANNED: tuple[Slots, ...] = (
    ("skipped | omitted | excluded | left out | missed out",
     "by me | by us | by user | by the user | by operator | by the operator | from scan | from the scan | of scan | "
     "of the scan | of this scan | this time | on purpose"),
    ("ran out | run out", "of time"),
    ("not", "looked at | tried"),
    ("n", "ausgelesen | gelesen | gepruft | gescannt | abgefragt"),
    ("diesmal | dieses mal | heute", "nicht | nicht mit", "gelesen | ausgelesen | gescannt | gepruft | abgefragt"),
    ("laisse | laissee", "de cote"),
    ("pas | non", "lu | lue | scanne | scannee | teste | interroge", "cette fois"),
    ("no", "leido | leida | escaneado | escaneada | consultado | probado", "esta vez"),
    ("sin", "leer | escanear | consultar"),
    ("no se", "leyo | escaneo | consulto"),
    ("no", "mirado | mirada"),
    (
        "did not | didn t | didnt | have not | haven t | havent | has not been | hasn t been | have not been |"
        " haven t been | "
        "had not been | not been | was not | wasn t | were not | weren t | still to | still have to | yet to |"
        " forgot to | "
        "did not get to | didn t get to | did not get round to | not yet | never | still to be | to be | yet to be",
        "scan | scanned | check | checked | test | tested | poll | polled | query | queried | look at |"
        " looked at | try | "
        "tried | interrogated",
        "- | yet | at all",
    ),
    (
        "did not | didn t | didnt | have not | haven t | hasn t been | has not been | not been | forgot to |"
        " still to | yet to | "
        "never",
        "read | read out",
        "- | yet",
    ),
    # What broke the scan off is no answer of the module.
    ("scan | reading | read | query | abfrage | auslesung | auslesen | lesen | lesung | lecture | interrogation | "
     "lectura | consulta | escaneo",
     "aborted | stopped | cancelled | interrupted | broken off | abgebrochen | unterbrochen | interrompue | "
     "interrompu | arretee | annulee | interrumpida | interrumpido | cancelada | abortada",
     ",not read | not scanned | unread | nicht gelesen | nicht ausgelesen | nicht abgefragt | ungelesen | non lu | "
     "non lue | pas lu | non interroge | no leido | no leida | sin leer"),
    ("scan | reading | query | polling | abfrage | auslesung | auslesen | lesung | lecture | interrogation | lectura | "
     "consulta | escaneo",
     "aborted | cancelled | interrupted | broken off | abgebrochen | unterbrochen | interrompue | "
     "arretee | annulee | interrumpida | interrumpido | cancelada | abortada"),
    ("not", "scanned | read | checked | tested | polled | queried | done", "yet | today | this time | in this scan"),
    ("habe | haben", "nicht | noch nicht", "gelesen | abgefragt | gepruft | gescannt | ausgelesen"),
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
        "lu | lue | lus | lues | scanne | scannee | scannes | scannees | interroge | interrogee | interroges | "
        "interrogees | teste | testee | testes | testees | controle | controles | verifie | verifies | selectionne",
    ),
    (
        "no | aun no",
        "leido | leida | escaneado | escaneada | consultado | consultada | comprobado | comprobada | interrogado | "
        "revisado | seleccionado | probado | analizado | leidos | leidas | escaneados | escaneadas | consultados | "
        "consultadas | comprobados | comprobadas | interrogados | revisados | probados | analizados",
    ),
)
