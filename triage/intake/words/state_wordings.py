"""Wordings of a code's status put together from their parts.

Each is a sequence of slots, each slot a choice of words; "-" is no word. Sources: common practice.
"""

from __future__ import annotations

from triage.intake.words import turned_wordings

Slots = tuple[str, ...]

_MOMENT = (
    "now | right now | just now | at the moment | at this moment | at this point | at present | at this time | "
    "currently | at time of scan | at the time of the scan | at the time of scan | at scan time | during the scan | "
    "at time of test | this time | today | at scan | at test | during test | during scan | during the test | "
    "in this scan | on this scan"
)
_ONCE = "before | earlier | in the past | previously | some time ago | a while ago"
_DERZEIT = (
    "aktuell | momentan | derzeit | zurzeit | zur zeit | z zt | zzt | z z | im moment | im augenblick | jetzt | "
    "gerade | zum zeitpunkt der prufung | zum zeitpunkt des tests | zum testzeitpunkt | beim test | beim auslesen"
)
_MAINTENANT = (
    "actuellement | en ce moment | maintenant | pour le moment | pour l instant | au moment du test | lors du test | "
    "pendant le test | au moment de la lecture | lors de la lecture"
)
_AHORA = (
    "actualmente | ahora | en este momento | por ahora | en el momento de la prueba | durante la prueba | "
    "en el momento de la lectura | durante la lectura | al leer"
)
_FAULT = "fault | malfunction | error | failure | code | dtc | defect"
_TRIP = "trip | cycle | drive cycle | driving cycle | drive | ignition cycle"
_TRIPS = (
    "trip | trips | cycle | cycles | drive cycle | drive cycles | driving cycle | driving cycles | drives | "
    "ignition cycles | key cycles"
)
_TWO = "2 | two | both | 2nd | second | the second"
_ENTRY = "fault | code | dtc | failure | entry | record"
_FAHRTEN = "zyklen | fahrzyklen | fahrten | zyklus | fahrzyklus | fahrt"
_VORHANDEN = "vorhanden | aktiv | anliegend | prasent | aktuell | vorh | akt | anl"
_CONFIRMES = "confirme | confirmee | confirmes | conf"
_CONFIRMADOS = "confirmado | confirmada | confirmados | conf"
_SURE = "confirmed | conf | confd | matured | bestatigt | bestaetigt | confirme | confirmee | confirmado | confirmada"
_ACTIF = ("present | presente | presents | presentes | actif | active | actifs | actives | actuel | actuelle | "
          "actuels | actuelles")
_ACTIVO = ("presente | presentes | activo | activa | activos | activas | actual | actuales | vigente | vigentes")
_MEMORISE = ("memorise | memorisee | memorises | memorisees | enregistre | enregistree | enregistres | enregistrees | "
             "stocke | stockes | en memoire")
_MEMORIZADO = ("memorizado | memorizada | memorizados | memorizadas | almacenado | almacenada | almacenados | "
               "almacenadas | guardado | guardados | registrado | registrados | en memoria")
_SEEN = (f"{_SURE} | {_MEMORISE} | {_MEMORIZADO} | stored | in memory | memory | in history | history | historic | "
         "logged | saved | held | recorded | latched | gespeichert | abgelegt | im speicher")
_BUT = ",- | but | but is | but now | and | aber | jedoch | und | mais | et | pero | y"
_STORED: tuple[Slots, ...] = (
    *turned_wordings.STORED,
    # What a memory holds and what is so now: the second says which.
    (_SEEN, _BUT, f",- | {_MOMENT}",
     ",not | no longer | not longer | not currently | not presently | isn t | is not | no more",
     "present | active | current | failing | live | there | showing",
     f"- | any more | anymore | any longer | {_MOMENT}"),
    (_SEEN, _BUT, ",inactive | passive | inaktiv | passiv | gone now | ok now | verschwunden | weg | nicht akut | "
     "disparu | absent | plus la | plus visible | desaparecido | ausente",
     f"- | any more | anymore | any longer | {_MOMENT}"),
    (_SEEN, _BUT, f",- | {_DERZEIT}", ",nicht | nicht mehr", _VORHANDEN),
    (_SEEN, _BUT, f",- | {_MAINTENANT}", ",non | pas | plus | n est plus | n est pas | ne sont plus",
     f"{_ACTIF} | la", f"- | {_MAINTENANT}"),
    (_SEEN, _BUT, f",- | {_AHORA}", ",no | ya no | no esta | ya no esta | no estan", _ACTIVO, f"- | {_AHORA}"),
    ("occurred | happened | seen | detected | failed | failing | was set | present | active", _ONCE),
    ("past | old | earlier | former | previous | historic", "fault | faults | failure | event | error | malfunction"),
    (
        _FAULT,
        "not present | not active | no longer present | no longer active | absent | inactive | stored | in memory | "
        "in history | not failing | not current | passive | previously active",
        f"- | {_MOMENT}",
    ),
    ("not", "failing | failed", f"any more | anymore | {_MOMENT}"),
    ("history | historic | memory | stored | past | logged", "only"),
    ("not", "repeated | recurring | recurred | reoccurring | reoccurred | seen since | seen again | set again"),
    ("not | non | no longer", "pres | prsnt | act | actv | curr | cur | crnt | current"),
    ("now | currently", "passing"),
    ("passes", "now"),
    (
        "not | no longer | not longer | not currently | currently not | not presently | presently not | isn t |"
        " is not | isnt | wasn t | "
        "was not | no more | isn t currently | is no longer | was no longer | not always | is currently not",
        "present | active | current | failing | live | occurring | happening | evident",
        f"- | any more | anymore | any longer | {_MOMENT}",
    ),
    ("not | isn t | is not | isnt | no longer", _MOMENT,
     "present | active | current | failing | there | set | showing"),
    (
        "not | isn t | not currently",
        "there | showing | seen | set",
        f"any more | anymore | any longer | {_MOMENT}",
    ),
    ("no longer | is no longer", "there | showing | shown | seen | set", f"- | {_MOMENT}"),
    ("was | were | had been", "present | active | there | failing", f"- | {_ONCE} | once"),
    ("was | were | has been", "present | active | there | failing | current",
     "not any more | not anymore | not any longer | no more | no longer | not now | but not now | now not | isn t now"),
    ("previously | formerly", "detected"),
    ("previously | formerly", "set | seen | logged | stored | present | active | failing | failed | current"),
    ("prev | prior | past | ex | hist | historically | earlier", "active | present | current | actv | act"),
    ("precedemment | anciennement | auparavant", "actif | active | present | presente"),
    ("previamente | anteriormente | antes", "activo | activa | presente"),
    ("set | seen | logged | stored | recorded", _ONCE),
    ("comes | came | coming", "and", "goes | went | going"),
    ("occasional | occasionally", "- | fault | code | active | present | failing"),
    ("inactive | passive | absent | dormant", _MOMENT),
    ("memory | history", "code | codes | fault | entry"),
    ("in the | from | from the | out of", "memory | fault memory | history"),
    (
        "stored | history | historic | historical | inactive | intermittent | sporadic | past | previous |"
        " passive | soft | "
        "memorised | memorized | latched | old | logged",
        _ENTRY,
    ),
    ("passed | test passed | tested ok | passing", "since | since then | again since | now"),
    ("stored | saved | logged | held | present | kept | still",
     "in memory | in fault memory | in the memory | in history"),
    (
        "liegt | liegen | fehler liegt | steht | stehen | besteht | bestehen | fehler besteht | tritt | treten | ist | "
        "sind | fehler ist | war | waren",
        f"- | {_DERZEIT} | noch",
        "nicht | nicht mehr",
        "vor | an | auf | vorhanden | aktiv | aktuell | prasent | anliegend",
    ),
    ("besteht | fehler besteht", "nicht mehr | nicht"),
    ("war", "- | fruher | frueher | zuvor | vorher | ehemals", "vorhanden | aktiv | da"),
    ("fruher | frueher | zuvor | vorher | ehemals | vormals", "aufgetreten | aktiv | vorhanden | gespeichert"),
    ("fruher | frueher | zuvor | vorher | ehemals | vormals", "aktive | aktiver | vorhandene | aufgetretene",
     "- | fehler | fehlercodes | eintrage | codes | dtcs"),
    ("defauts | codes", "auparavant | precedemment | anciennement", "actifs | presents"),
    ("fallos | codigos | averias", "previamente | anteriormente | antes", "activos | activas | presentes"),
    (_DERZEIT, "nicht | nicht mehr | kein | n", f"fehler | {_VORHANDEN}"),
    ("fehler | eintrag | code", _DERZEIT, "nicht | nicht mehr | n", _VORHANDEN),
    ("nicht mehr", f"da | {_VORHANDEN}"),
    ("nicht | nicht mehr", _DERZEIT, _VORHANDEN),
    ("nicht | n", _VORHANDEN),
    ("sporadisch | zeitweilig | zeitweise | gelegentlich", "aufgetreten"),
    ("nicht | nicht mehr | seither nicht | seitdem nicht | seither nicht mehr | seitdem nicht mehr",
     "wiederholt | reproduzierbar"),
    (
        "sporadischer | gespeicherter | passiver | inaktiver | abgelegter | zeitweiliger | historischer | alter | "
        "zeitweise auftretender | vergangener | nicht aktiver | nicht vorhandener",
        "fehler | eintrag | fehlereintrag | fehlercode",
    ),
    (
        "sporadische | gespeicherte | passive | inaktive | abgelegte | historische | alte | vergangene | "
        "nicht aktive | nicht vorhandene",
        "fehler | eintrage | fehlereintrage | fehlercodes | codes",
    ),
    ("defauts | codes", "memorises | passes | fugitifs | intermittents | sporadiques | enregistres | inactifs"),
    ("fallos | averias | codigos", "memorizados | almacenados | pasados | esporadicos | intermitentes | historicos | "
     "guardados | inactivos | memorizadas | almacenadas | pasadas | esporadicas | historicas | inactivas"),
    ("fehler | eintrag", "gespeichert | abgelegt | passiv | sporadisch | inaktiv | nicht vorhanden | nicht aktiv"),
    ("tritt | trat", "sporadisch | zeitweise | gelegentlich | manchmal", "- | auf"),
    ("im", "fehlerspeicher | speicher | ereignisspeicher", "- | abgelegt | gespeichert | hinterlegt"),
    (
        "n est | n etait | ne sont | n etaient | non | pas | plus | actuellement non | actuellement pas",
        "- | pas | plus | pas actuellement | plus actuellement",
        _ACTIF,
        f"- | {_MAINTENANT}",
    ),
    (
        "defaut | code",
        "memorise | passe | fugitif | intermittent | sporadique | enregistre | ancien | inactif | non present | "
        "historique | en memoire | stocke | non actif",
    ),
    ("memorise | enregistre | stocke", "en memoire"),
    ("nicht", "akut"),
    (_DERZEIT, "passiv | inaktiv"),
    ("absent | absente | absents | inactif | inactive | inactifs", _MAINTENANT),
    ("ausente | ausentes | inactivo | inactiva | inactivos", _AHORA),
    ("absent | inactive", _MOMENT),
    ("gone | now", "inactive"),
    ("etait | a ete", "present | presente | actif | active | detecte"),
    ("n est | ne sont", "plus", "la"),
    ("pas | non | plus", "reapparu | revenu | repete | reproduit"),
    ("vu | apparu | detecte", "avant | auparavant | precedemment"),
    ("present | actif | apparu", "auparavant | precedemment"),
    (
        "no | ya no | actualmente no | ahora no | no esta | ya no esta | no se encuentra | ya no se encuentra | "
        "no estan | ya no estan",
        _ACTIVO,
        f"- | {_AHORA}",
    ),
    (
        "fallo | averia | codigo | error",
        "memorizado | memorizada | almacenado | almacenada | pasado | pasada | esporadico | esporadica |"
        " intermitente | "
        "historico | historica | guardado | guardada | registrado | registrada | inactivo | inactiva | no presente",
    ),
    ("almacenado | guardado | registrado | memorizado", "en memoria | en la memoria"),
    ("ya no | ahora no", "esta | aparece | sale | sigue"),
    ("no", "act | pres | se repite | repetido | ha vuelto | ha vuelto a salir | reaparece"),
    ("fallo | averia | codigo | error", "antiguo | antigua"),
    ("estuvo | estaba | fue", "presente | activo | activa"),
    ("presente | activo | visto", "anteriormente"),
)
_CURRENT: tuple[Slots, ...] = (
    *turned_wordings.CURRENT,
    (_SURE, _BUT, f",- | still | is still | {_MOMENT}", ",active | present | failing", f"- | {_MOMENT}"),
    (_SURE, _BUT, f",- | noch | weiterhin | {_DERZEIT}", ",vorhanden | aktiv | anliegend | prasent"),
    (_SURE, _BUT, f",- | toujours | encore | {_MAINTENANT}", ",present | presente | actif | active",
     f"- | {_MAINTENANT}"),
    (_SURE, _BUT, f",- | aun | todavia | {_AHORA}", ",presente | activo | activa", f"- | {_AHORA}"),
    (
        "occurring | happening | is occurring | is happening | still occurring | still happening | failing | "
        "still failing | is failing | keeps failing",
        f"- | {_MOMENT}",
    ),
    ("fault | malfunction | error | failure | defect", "present | active | exists | is present | is active | current | "
     "still present | still active | currently present | currently active | detected", f"- | {_MOMENT}"),
    ("hard | solid | static | active | current", "fault | failure", "present | active | now"),
    ("detected | seen", "now | right now | at present"),
    ("present | active | failing | failed | fails", "at | on | during",
     "test | this test | scan | this scan | testing"),
    (
        "still | currently | presently | now | permanently | actively | is still | is currently | is now |"
        " are still | "
        "are currently | is | are | always",
        "present | active | current | failing",
        f"- | {_MOMENT} | all the time | on this scan",
    ),
    ("still | now | currently | is | is still | permanently | always", "there | showing",
     f"- | {_MOMENT} | all the time"),
    ("exists | existing", _MOMENT),
    (_MOMENT, "present | active | failing | current | there | set | live | failed"),
    ("present | active | failing | current | there | set | live", f"{_MOMENT} | all the time | on this scan"),
    ("active | current | live | hard | static | present | solid", "fault | code | dtc | failure"),
    ("failed | fails | failing", _MOMENT),
    (
        "liegt | liegen | fehler liegt | steht | stehen | fehler steht",
        f"- | {_DERZEIT} | noch | weiterhin | immer noch | noch immer | standig | staendig | dauernd | permanent",
        "vor | an",
    ),
    ("besteht | fehler besteht", f"noch | weiterhin | {_DERZEIT}"),
    ("besteht", "weiter | weiterhin"),
    ("ist", "da"),
    ("harter", "fehler"),
    (_DERZEIT, "vorh"),
    (f"noch | immer noch | noch immer | wieder | weiterhin | {_DERZEIT}", "da"),
    (
        "ist | fehler ist | war",
        f"- | {_DERZEIT} | noch | weiterhin | immer noch",
        "vorhanden | aktiv | prasent | praesent | statisch",
    ),
    (
        f"{_DERZEIT} | noch | weiterhin | immer noch | noch immer | permanent | standig | staendig | dauerhaft |"
        f" dauernd",
        "vorhanden | aktiv | anliegend | prasent | praesent",
    ),
    (
        "statischer | aktiver | aktueller | vorhandener | anliegender | standiger | staendiger | dauerhafter |"
        " aktuell "
        "vorhandener",
        "fehler | eintrag | fehlereintrag | fehlercode",
    ),
    (
        "statische | aktive | aktuelle | vorhandene | anliegende | standige | staendige | aktuell vorhandene",
        "fehler | eintrage | fehlereintrage | fehlercodes | codes",
    ),
    ("defauts | codes", "presents | actifs | actuels"),
    ("fallos | averias | codigos", "presentes | activos | activas | actuales | vigentes"),
    ("fehler", "vorhanden | aktiv | aktuell | statisch | prasent | aktuell vorhanden"),
    ("tritt", f"- | {_DERZEIT} | standig | staendig | immer | permanent", "auf"),
    (
        "toujours | encore | actuellement | est | est toujours | est encore | est actuellement | defaut | code",
        "present | presente | actif | active | actuel",
        f"- | {_MAINTENANT}",
    ),
    ("present | presente | actif | active",
     f"{_MAINTENANT} | a la lecture | lors de la lecture | au moment de la lecture"),
    ("toujours | encore | est", "la"),
    ("defaut", "fixe | persistant"),
    (
        "esta | sigue | aun | todavia | actualmente | ahora | fallo | averia | codigo | sigue estando | aun esta | "
        "todavia esta | esta actualmente",
        "presente | activo | activa | vigente",
        f"- | {_AHORA}",
    ),
    ("presente | activo | activa", f"{_AHORA} | ahora mismo"),
    ("sigue | todavia | aun | esta", "ahi | saliendo"),
    ("en", "curso"),
    ("fallo | averia", "fijo | fija | persistente | en curso"),
)
_PENDING: tuple[Slots, ...] = (
    ("failed | failing | fails | test failed | seen | set | detected | occurred", _BUT,
     ",unconfirmed | not confirmed | not yet confirmed | still not confirmed | not matured | not mature",
     "- | yet | so far"),
    ("aufgetreten | erkannt | fehlgeschlagen", _BUT, ",nicht | noch nicht", "bestatigt | bestaetigt"),
    ("detecte | apparu | vu | en echec", _BUT, ",non | pas | pas encore | non encore", "confirme | confirmee"),
    ("detectado | visto | fallido", _BUT, ",no | aun no | todavia no | sin", "confirmado | confirmada | confirmar"),
    (
        "failed | fault | seen | detected | failing",
        "once | one time | on one trip | on 1 trip | once only | only once | on first trip | first time",
        "- | not confirmed | not yet confirmed | unconfirmed",
    ),
    ("waiting for | awaiting | wait for | waits for | needs",
     "2nd | second | next | another | a second | the second | one more | 1 more", _TRIP),
    ("1st | first | one | 1 | single", _TRIP, "- | only | fault | code | failure | fail | detection"),
    ("pending | provisional | unconfirmed", "- | for | in | since | since the", "this | last",
     f"start | run | {_TRIP}"),
    ("2nd | second", _TRIP, "pending | awaited | outstanding | needed | required"),
    ("confirmation", "- | is | still | is still", "pending | awaited | outstanding | missing | open | due | to follow"),
    ("waiting | waits | wait | yet | has yet | remains", "to confirm | to be confirmed | for confirmation"),
    ("wartet auf | warten auf | warte auf",
     "bestatigung | zweiten zyklus | nachsten zyklus | zweiten fahrzyklus | nachsten fahrzyklus | 2 fahrzyklus | "
     "zweite fahrt | nachste fahrt"),
    ("bestatigung | bestaetigung", "- | noch", "fehlt | fehlt noch | steht aus | steht noch aus | ausstehend | offen"),
    ("zu | noch zu", "bestatigen | bestaetigen"),
    ("nicht | noch nicht", "best | bestat | bestaet | gereift"),
    ("1 | erster | nur 1 | nur ein", "fahrzyklus"),
    ("einmal | erstmals | erstmalig", "aufgetreten | erkannt", "- | nicht bestatigt | unbestatigt"),
    ("premier | 1er | premiere", "cycle | occurrence | trajet", "- | de conduite"),
    ("primer | 1er", "ciclo", "- | de conduccion"),
    ("pending | maturing | temporary | unconfirmed | provisional | one trip", _ENTRY),
    ("not | not yet | still not | isn t | not been", "confirmed | matured | mature | conf | confd | cnf", "- | yet"),
    ("waiting | yet | still", "to confirm | to be confirmed"),
    ("waiting for | awaiting | needs", "confirmation"),
    ("waiting | yet | still", "to confirm | to be confirmed"),
    ("to be | still to be", "confirmed"),
    (
        "vorlaufiger | unbestatigter | vorlaeufiger | unbestaetigter | ausstehender | anhangiger | nicht bestatigter",
        "fehler | eintrag",
    ),
    ("ausstehende | anstehende | schwebende | anhangige | anhaengige | vorlaufige | vorlaeufige | "
     "unbestatigte | unbestaetigte | nicht bestatigte",
     "fehler | eintrage | fehlereintrage | fehlercodes | codes | dtcs"),
    ("defauts | codes | fallos | averias | codigos", "en attente | provisoires | non confirmes | pendientes | "
     "no confirmados | provisionales"),
    ("pas | pas encore | non | non encore | n est pas | n est pas encore", _CONFIRMES),
    ("no | aun no | todavia no | sin", f"confirmar | {_CONFIRMADOS}"),
    ("defaut | code | fallo | averia | codigo", "en attente | non confirme | pendiente | no confirmado | provisoire"),
    ("en attente de | en attente | en att de | attente de | att de | att | attente | attend",
     "confirmation | confirmer | conf"),
    ("a | reste a | encore a", "confirmer | conf | etre confirme"),
    ("en cours de", "confirmation"),
    ("confirmation", "en attente | manquante | attendue | a venir"),
    ("apparu | vu | detecte", "une", "fois"),
    ("pendiente | pend | pte | pdte | falta | a falta | esperando | en espera | a la espera", "- | de | por",
     "confirmar | confirmacion | conf"),
    ("por | a", "confirmar | confirmacion"),
    ("visto | detectado", "una", "vez"),
    ("pending | pendiente | en attente | ausstehend", "1 | one | un | ein | 1er | first",
     "trip | cycle | ciclo | zyklus"),
    ("confirmacion", "pendiente"),
)
_CONFIRMED: tuple[Slots, ...] = (
    ("confirmed | conf | confd | matured | mature", "- | in | on | over | after | by | for | with | across",
     "twice | 2nd trip | on 2nd trip"),
    ("confirmed | conf | confd | matured | mature", "- | in | on | over | after | by | for | with | across", _TWO,
     _TRIPS),
    (_TWO, _TRIPS, "confirmed | conf | confirmation"),
    ("2 | two | 2nd | second", "trip | cycle", _ENTRY),
    ("confirmed | conf | matured", "- | fault | code | dtc", "by | through | via | with",
     "- | the | a | its", "ecu | module | control unit | controller | unit | test | self test | selftest | monitor"),
    ("2 | zwei | nach 2 | nach zwei | in 2 | in zwei | uber 2 | uber zwei", _FAHRTEN, "bestatigt | bestaetigt"),
    ("bestatigt | bestaetigt", "nach | in | uber | -", "2 | zwei", _FAHRTEN),
    ("bestatigt | bestaetigt", "durch | vom | von | per", "- | das",
     "steuergerat | sg | test | selbsttest | eigentest"),
    ("2 | deux", "cycles | trajets", _CONFIRMES),
    (_CONFIRMES, "sur | apres | en | -", "2 | deux", "cycles | trajets"),
    (_CONFIRMES, "par", "- | le | un", "calculateur | test | autotest | boitier"),
    ("2 | dos", "ciclos | viajes", _CONFIRMADOS),
    (_CONFIRMADOS, "en | tras | por | con | -", "2 | dos", "ciclos | viajes"),
    (_CONFIRMADOS, "por | con | tras | mediante", "- | la | el | un",
     "centralita | unidad | test | autotest | prueba | ecu"),
    ("failed | seen | detected", "twice | two times | on 2 trips | on two trips"),
    ("confirmed | mature | matured", _ENTRY),
    ("conf", "d"),
    (
        "now | already | fully | been | has been | since | is | was | ist | wurde | est | a ete | esta | ya esta | "
        "schon | bereits | inzwischen | voll | deja | bien | ya | desormais",
        "confirmed | matured | bestatigt | bestaetigt | confirme | confirmado | confirmada",
    ),
    ("bestatigter | bestaetigter", "fehler | eintrag"),
    ("defauts | codes | fallos | averias | codigos", "confirmes | confirmados | confirmadas"),
    ("bestatigte | bestaetigte", "fehler | eintrage | fehlereintrage | fehlercodes | codes | dtcs"),
    ("fehler | defaut | code | fallo | averia | codigo", "bestatigt | confirme | confirmado | confirmada"),
)
_PERMANENT: tuple[Slots, ...] = (
    ("permanent | permanent dtc | permanent code | permanent fault",
     "not erasable | not clearable | non erasable | cannot be erased | can t be erased | cannot be cleared | "
     "can t be cleared",
     "- | by tool | by the tool | by scan tool | by a scan tool | with the tool | with a scan tool | by tester"),
)
#: The wordings by what they say.
PATTERNS: dict[str, tuple[Slots, ...]] = {
    "stored": _STORED,
    "pending": _PENDING,
    "confirmed": _CONFIRMED,
    "current": _CURRENT,
    "permanent": _PERMANENT,
}
