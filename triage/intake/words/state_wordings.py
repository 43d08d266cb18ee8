"""Wordings of a code's status put together from their parts.

Each is a sequence of slots, each slot a choice of words; "-" is no word. Sources: common practice.
"""

from __future__ import annotations

Slots = tuple[str, ...]

_MOMENT = (
    "now | right now | just now | at the moment | at this moment | at this point | at present | at this time | "
    "currently | at time of scan | at the time of the scan | at the time of scan | at scan time | during the scan | "
    "at time of test | this time | today"
)
_ONCE = "before | earlier | in the past | previously | some time ago | a while ago"
_DERZEIT = "aktuell | momentan | derzeit | zurzeit | zur zeit | im moment | im augenblick | jetzt | gerade"
_MAINTENANT = "actuellement | en ce moment | maintenant | pour le moment | pour l instant"
_AHORA = "actualmente | ahora | en este momento | por ahora"
_FAULT = "fault | malfunction | error | failure | code | dtc | defect"
_TRIP = "trip | cycle | drive cycle | driving cycle | drive | ignition cycle"
_STORED: tuple[Slots, ...] = (
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
    (
        "in history | in memory | stored | memory | history | logged | saved | held",
        "not present | not active | not failing | not current | not currently present | not currently active | "
        "no longer present | no longer active | inactive | passive | ok now",
        f"- | {_MOMENT}",
    ),
    (
        "not | no longer | not longer | not currently | currently not | not presently | presently not | isn t |"
        " is not | isnt | wasn t | "
        "was not | no more | isn t currently | is no longer | was no longer | not always | is currently not",
        "present | active | current | failing",
        f"- | any more | anymore | any longer | {_MOMENT}",
    ),
    (
        "not | isn t | not currently",
        "there | showing | seen | set",
        f"any more | anymore | any longer | {_MOMENT}",
    ),
    ("no longer | is no longer", "there | showing | shown | seen | set", f"- | {_MOMENT}"),
    ("was | were", "present | active | there | failing", f"- | {_ONCE} | once"),
    ("previously | formerly", "detected"),
    ("previously | formerly", "set | seen | logged | stored | present | active | failing | failed | current"),
    ("prev | prior | past | ex | hist | historically | earlier", "active | present | current | actv | act"),
    ("precedemment | anciennement | auparavant", "actif | active | present | presente"),
    ("previamente | anteriormente | antes", "activo | activa | presente"),
    ("set | seen | logged | stored | recorded", _ONCE),
    ("comes | came | coming", "and", "goes | went | going"),
    ("occasional | occasionally", "- | fault | code | active | present | failing"),
    ("inactive | passive", _MOMENT),
    ("memory | history", "code | codes | fault | entry"),
    ("in the | from | from the | out of", "memory | fault memory | history"),
    (
        "stored | history | historic | historical | inactive | intermittent | sporadic | past | previous |"
        " passive | soft | "
        "memorised | memorized | latched | old",
        "fault | code | dtc | failure",
    ),
    ("passed | test passed | tested ok | passing", "since | since then | again since | now"),
    ("stored | saved | logged | held | present | kept | still",
     "in memory | in fault memory | in the memory | in history"),
    (
        "liegt | fehler liegt | steht | besteht | fehler besteht | tritt | ist | fehler ist | war",
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
    (_DERZEIT, "nicht | nicht mehr | kein", "vorhanden | aktiv | anliegend | prasent | fehler"),
    ("nicht mehr", "aktuell | vorhanden | aktiv | anliegend | da"),
    ("nicht | nicht mehr", _DERZEIT, "vorhanden | aktiv | anliegend | prasent"),
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
        "n est | n etait | non | pas | plus | actuellement non | actuellement pas",
        "- | pas | plus | pas actuellement | plus actuellement",
        "present | presente | actif | active | actuel | actuelle",
        f"- | {_MAINTENANT}",
    ),
    (
        "defaut | code",
        "memorise | passe | fugitif | intermittent | sporadique | enregistre | ancien | inactif | non present | "
        "historique | en memoire | stocke | non actif",
    ),
    ("memorise | enregistre | stocke", "en memoire"),
    ("etait | a ete", "present | presente | actif | active | detecte"),
    ("n est", "plus", "la"),
    ("present | actif | apparu", "auparavant | precedemment"),
    (
        "no | ya no | actualmente no | ahora no | no esta | ya no esta | no se encuentra | ya no se encuentra",
        "presente | activo | activa | actual | vigente",
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
    ("estuvo | estaba | fue", "presente | activo | activa"),
    ("presente | activo | visto", "anteriormente"),
)
_CURRENT: tuple[Slots, ...] = (
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
    ("still | now | currently | is | is still", "there | showing", f"- | {_MOMENT} | all the time"),
    ("present | active | failing | current | there | set | live", f"{_MOMENT} | all the time | on this scan"),
    ("active | current | live | hard | static | present | solid", "fault | code | dtc | failure"),
    ("failed | fails | failing", _MOMENT),
    (
        "liegt | fehler liegt | steht | fehler steht",
        f"- | {_DERZEIT} | noch | weiterhin | immer noch | noch immer | standig | staendig | dauernd | permanent",
        "vor | an",
    ),
    ("besteht | fehler besteht", f"noch | weiterhin | {_DERZEIT}"),
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
    ("toujours | encore", "la"),
    (
        "esta | sigue | aun | todavia | actualmente | ahora | fallo | averia | codigo | sigue estando | aun esta | "
        "todavia esta | esta actualmente",
        "presente | activo | activa | vigente",
        f"- | {_AHORA}",
    ),
    ("presente | activo | activa", f"{_AHORA} | ahora mismo"),
    ("sigue | todavia | aun", "ahi | saliendo"),
)
_PENDING: tuple[Slots, ...] = (
    (
        "failed | fault | seen | detected | failing",
        "once | one time | on one trip | on 1 trip | once only | only once | on first trip | first time",
        "- | not confirmed | not yet confirmed | unconfirmed",
    ),
    ("waiting for | awaiting | wait for | needs", "2nd | second | next | another | a second | the second", _TRIP),
    ("1st | first | one | 1 | single", _TRIP, "- | only | fault | code | failure | fail | detection"),
    ("confirmation", "pending | awaited | outstanding"),
    ("pending", "this cycle | this trip | this drive | this drive cycle | this ignition cycle"),
    ("wartet auf | warten auf", "bestatigung | zweiten zyklus | nachsten zyklus"),
    ("einmal | erstmals | erstmalig", "aufgetreten | erkannt", "- | nicht bestatigt | unbestatigt"),
    ("premier | 1er | premiere", "cycle | occurrence | trajet", "- | de conduite"),
    ("primer | 1er", "ciclo", "- | de conduccion"),
    ("pending | maturing | temporary | unconfirmed | provisional | one trip", "fault | code | dtc | failure"),
    ("pending", "this | first | 1st | one | 1 | on first | on one | current", _TRIP),
    ("not | not yet | still not | isn t | not been", "confirmed | matured | mature"),
    ("waiting for | awaiting | needs", "confirmation"),
    ("waiting | yet | still", "to confirm | to be confirmed"),
    ("to be | still to be", "confirmed"),
    (
        "vorlaufiger | unbestatigter | vorlaeufiger | unbestaetigter | ausstehender | nicht bestatigter",
        "fehler | eintrag",
    ),
    ("ausstehende | anstehende | schwebende | vorlaufige | vorlaeufige | unbestatigte | unbestaetigte | "
     "nicht bestatigte", "fehler | eintrage | fehlereintrage | fehlercodes | codes | dtcs"),
    ("defauts | codes | fallos | averias | codigos", "en attente | provisoires | non confirmes | pendientes | "
     "no confirmados | provisionales"),
    ("pas | pas encore | non | non encore | n est pas | n est pas encore", "confirme | confirmee"),
    ("no | aun no | todavia no | sin", "confirmado | confirmada | confirmar"),
    ("defaut | code | fallo | averia | codigo", "en attente | non confirme | pendiente | no confirmado | provisoire"),
    ("en attente de | en attente | attente de | attente | att | a | reste a", "confirmation | confirmer | conf"),
    ("pendiente de | por | falta | falta por", "confirmar | confirmacion | la confirmacion"),
    ("pending | pendiente | en attente | ausstehend", "1 | one | un | ein | 1er | first",
     "trip | cycle | ciclo | zyklus"),
    ("bestatigung | bestaetigung", "fehlt | steht | ausstehend", "- | noch | noch aus | aus"),
    ("confirmation", "manquante | manque encore"),
    ("confirmacion", "pendiente"),
)
_CONFIRMED: tuple[Slots, ...] = (
    (
        "confirmed | conf | matured | mature",
        "2 trips | two trips | 2 trip | two trip | 2nd trip | second trip | on 2nd trip | on 2 trips | over 2 trips | "
        "after 2 trips | in 2 trips | by 2 trips | 2 cycles | two cycles | twice",
    ),
    ("2 | two", "trip | trips", "fault | code | failure | confirmed"),
    ("failed", "twice | two times | on 2 trips | on two trips"),
    ("confirmed | mature | matured", "fault | code | dtc | failure | entry"),
    ("2 | two", "trips | trip | cycles | cycle", "confirmed | matured"),
    (
        "now | already | fully | been | has been | since | schon | bereits | inzwischen | voll | deja | bien | ya | "
        "desormais",
        "confirmed | matured | bestatigt | bestaetigt | confirme | confirmado | confirmada",
    ),
    ("bestatigter | bestaetigter", "fehler | eintrag"),
    ("defauts | codes | fallos | averias | codigos", "confirmes | confirmados | confirmadas"),
    ("bestatigte | bestaetigte", "fehler | eintrage | fehlereintrage | fehlercodes | codes | dtcs"),
    ("fehler | defaut | code | fallo | averia | codigo", "bestatigt | confirme | confirmado | confirmada"),
)
#: The wordings by what they say.
PATTERNS: dict[str, tuple[Slots, ...]] = {
    "stored": _STORED,
    "pending": _PENDING,
    "confirmed": _CONFIRMED,
    "current": _CURRENT,
}
