"""Wordings of the trade in English, German, French and Spanish, the commonest of Italian, Dutch, Portuguese, Polish and
Swedish too, in small letters without accents.

German words are listed with "ae, oe, ue" too where people type them so. Sources: common practice; the two traps
"permanent" and "static" (in many translations: present now, not a code of J1979 service 0A) are resolved in
:mod:`triage.intake.said.states`.
"""

from __future__ import annotations

from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import Phrasebook, phrase_set, word_set
from triage.intake.words import state_wordings, wordings

#: Status of a code. "permanent?" is decided by the language of the text.
STATES = Phrasebook(
    {
        # What descriptions say of a module's memory, and of parts: "system disabled, information stored".
        "": """
        information stored | info stored | data stored | values stored | data saved | values saved | information saved
        | daten gespeichert | informationen gespeichert | werte gespeichert | donnees enregistrees | donnees memorisees
        | datos guardados | informacion guardada | stored value | stored values | saved value | saved values | stored
        reading | stored readings | stored setting | stored settings | valeur memorisee | valeurs memorisees | valeur
        enregistree | valor memorizado | valor almacenado | valor guardado | valores almacenados | active grille |
        active grilles | memory reset | memory erased | memory lost | memory loss | memory error | memory corrupt |
        memory corrupted | memory failure | memory checksum | module memory fault | unit memory fault |
        internal memory fault | memory fault detected""",
        "stored": """
        stored | store | stor | sto | strd | his | archived | memo | fug | ausente |
        antiguo | antigua | almac | espor | sporad | inakt | hinterlegt | eingetragen | geheilt | abgeheilt |
        test not failed |
        old one | not pres | not prsnt | not actv | gesp | sp |
        abgel | spor | vergangenheit | mem | inact | history | historic |
        historical | hist | past | previous | previously active | prev | previous fault | memory | in memory |
        memorised | memorized | memorised fault | inactive | non active | not active | no longer active | passive |
        sporadic | intermittent | interm | not present | not current | not failing now | not currently present | not
        presently active | currently not present | no longer present | not present now | not currently active | isn t
        present | is not present | not active now | no longer current | not failing | aged | old | latched | logged |
        saved | recorded | held | dormant | occurred | was active | present in memory | currently inactive | at present
        not active | not there now | not now | healed | gespeichert | historie | historisch | passiv | sporadisch
        | nicht vorhanden | momentan nicht vorhanden | derzeit nicht vorhanden | zurzeit nicht vorhanden | aktuell nicht
        vorhanden | nicht mehr vorhanden | nicht aktiv | nicht mehr aktiv | inaktiv | nicht aktuell | im speicher |
        abgelegt | abgespeichert | vergangen | fruher | frueher | nicht prasent | nicht praesent | zeitweise |
        zeitweise auftretend | zeitweilig | unterbrochen auftretend | gerade nicht vorhanden | nicht anliegend |
        liegt nicht an | memorise | memorisee | memorises | memorisees | enregistre | enregistree | enregistres |
        stocke | stockee | stockes | passe | historique | historiques | inactif | inactifs | inactive | non
        present | non presente | pas present | plus
        present | non actif | plus actif | pas actif | n est plus present | n est plus actif | fugitif | fugitifs |
        fugitive | fugitives | enregistrees | inactives |
        sporadique | sporadiques | intermittents | intermittente | en memoire | ancien | absent | absente |
        absents | absent actuellement | actuellement absent | passif | actuellement non
        present | defaut fugitif | defaut memorise | non actuel | non permanent | almacenado | almacenada |
        almacenados | almacenadas | memorizado | memorizada | memorizados | memorizadas | guardado | guardada |
        guardados | historico | historica | historicos | pasado | inactivo | inactivos | inactiva | pasivo |
        pasiva | no presente | ya no presente | no activo | ya no activo | no activa | ya no esta
        presente | ya no esta activo | esporadico | esporadica | esporadicos | esporadicas | inactivas | historicas |
        registrados | registradas | pasivos | pasivas | intermitente | en memoria | registrado | registrada
        | no actual | anterior | no vigente | no permanente | actualmente no presente | actualmente inactivo |
        memorizzato | memorizzata | memorizzati | salvato | archiviato | registrato | storico | inattivo | inattiva |
        passivo | passiva | passato | sporadico | sporadica | non attivo | non attiva | non attuale | in memoria |
        opgeslagen | in geheugen | in het geheugen | historie | inactief | passief | niet actief | niet aanwezig |
        niet actueel | niet meer aanwezig | niet meer actief | intermitterend |
        armazenado | armazenada | armazenados | gravado | registado | inativo | inativa | nao presente | nao ativo |
        nao ativa | passado | em memoria | na memoria |
        zapisany | zapisana | zapisane | zapamietany | historyczny | nieaktywny | nieaktywna | nieobecny |
        sporadyczny | w pamieci |
        lagrad | lagrat | lagrade | sparad | historisk | inaktiv | ej aktiv | inte aktiv | ej aktuell | ej narvarande |
        i minnet""",
        "pending": """
        pending | pend | pdg | failed this cycle | failed this drive cycle | failed this driving cycle |
        failed in this cycle | failed once | unconf | tentative | preliminary | pte | pdte | en espera | a la espera |
        en att |
        unbest | ausst | unreif | reift noch | pnd | pndg | maturing | immature | provisional | not confirmed |
        unconfirmed |
        not yet confirmed | first trip | one trip | 1 trip | 1st trip | awaiting confirmation | temporary | waiting |
        not matured | ausstehend | anstehend | schwebend | anhangig | anhaengig | vorlaufig | vorlaeufig |
        nicht bestatigt | nicht bestaetigt |
        noch nicht bestatigt | noch nicht bestaetigt | unbestatigt | unbestaetigt | temporar | temporaer | en attente
        | provisoire | non confirme | non confirmee | pas confirme | pas encore confirme | temporaire | pendiente |
        pendientes | pendente | no confirmado | no confirmada | aun no confirmado | provisorio | sin confirmar |
        temporal | in attesa | pendenti | non confermato | non confermata | non ancora confermato | provvisorio |
        in afwachting | voorlopig | onbevestigd | niet bevestigd | nog niet bevestigd | pendentes | nao confirmado |
        nao confirmada | oczekujacy | niepotwierdzony | vantande | obekraftad | ej bekraftad""",
        "confirmed": """
        confirmed | conf | cnf | cnfd | confd | mature | matured | bestatigt | bestaetigt | confirme | confirmee |
        confirmes | confirmado | confirmada | confirmados | confermato | confermata | confermati | bevestigd |
        potwierdzony | potwierdzona | bekraftad | bekraftat""",
        "current": """
        persistent | ongoing | persistant | persiste | persistente | fijo | fixe | dauernd | dauerfehler |
        current | curr | cur | crnt | actv | pres | psnt | prsnt | prst | akt | aktv | akitv | vorh |
        current now | present | present now | presently
        active | currently present | currently active | active | active now | act | failing | failing now | failed
        now | fails now | now | here now
        | on now | still active | still present | test failed | test fehlgeschlagen | test nicht bestanden |
        test echoue | test en echec | test fallido | static | hard | hard fault | live | permanently
        present | there now | is present | is active | continuous | actual | now present | fault present | actively
        failing | vorhanden | aktuell | aktiv | statisch | anliegend | liegt an | liegt aktuell an | gegenwartig |
        gegenwaertig | standig | staendig | dauerhaft | momentan vorhanden | derzeit vorhanden | jetzt vorhanden |
        aktuell vorhanden | prasent | praesent | noch vorhanden | derzeit aktiv | aktuell aktiv | steht an |
        permanent vorhanden | standig vorhanden | staendig vorhanden | zurzeit vorhanden | actuel | actuelle |
        actuels | actif
        | actifs | presente | presentes | en cours | statique | actuellement present | toujours present |
        defaut present | present
        actuellement | permanent present | constant | encore present | presents | activo | activa | activos | activas |
        actives | actuales | vigentes | estaticos | estaticas |
        estatico | estatica | vigente | presente ahora | actualmente presente | actualmente activo | aun presente |
        sigue presente | continuo | todavia presente |
        attivo | attiva | attivi | attuale | attualmente presente | in corso |
        actueel | aanwezig | actief | huidig | nog aanwezig | nu aanwezig |
        ativo | ativa | ativos | atual | atualmente presente | em curso |
        aktywny | aktywna | aktywne | aktualny | biezacy | obecny |
        narvarande | pagaende""",
        "permanent?": """
        permanent | perm | permanente | permanentes | permanents | permanenter | statisch permanent""",
        "permanent": """
        permanent dtc | pdtc | permanent code | permanent codes | permanent list | service 0a | mode 0a | mode 10 |
        not erasable | non erasable | permanent fault code | permanent trouble code | modus 0a | servicio 0a | mode
        $0a | modo 0a | permanent obd""",
    },
    state_wordings.PATTERNS,
    more="""
        only | yet | so far | as yet | to date | for now | for the moment | again | still | nur | bisher | bislang |
        bis jetzt | wieder | noch | seulement | uniquement | encore | pour l instant | pour le moment | a ce jour |
        de nouveau | solo | solamente | unicamente | aun | todavia | por ahora | por el momento | hasta ahora |
        de nuevo""",
    # "ECM now only P0562" counts the codes.
    alone=phrase_set("now | on now | present | actual | hard | current"),
)
#: The service that a list was read by, behind its head: "(mode 07)", "- service $03", "($0A)".
SERVICE = lazily(
    r"[\s(\[,/-]+(?:(?:obd ?(?:ii|2)? )?(?:mode|service|sid|modus|dienst|servicio|modo)\s?(?:0x|\$)?0?[0-9a]|\$0[0-9a])"
    r"(?:\s?[)\]])?$"
)
#: Words that stand beside a status and say nothing of their own.
STATE_FILLER = word_set("""
    status state condition st fault faults code codes dtc dtcs is are was and the a zustand fehler stand etat statut
    defaut code defauts estado fallo codigo averia type fehlerstatus fehlercode list mil on off lamp test at
    time of this same trouble all al both each these every alle beide beides tous toutes todos todas ambos
    in im en dans ist et y und error failure diagnostic now currently bit der des le la el los
    las les von zum zur only just yet still nur lediglich bisher bislang noch seulement uniquement juste encore solo
    solamente unicamente aun todavia
""")
#: Beside "confirmed" they say in one word that the fault is not there now.
_DENIED = word_set("inactive absent dormant passive inactif inactifs inaktiv passiv inactivo inactivos ausente")
#: Words that are a status only in a place made for one, because descriptions use them too.
DOUBTFUL_STATES = phrase_set("""
    current | active | present | permanent | history | open | actual | passive | static | memory | intermittent | now
    | hard | past | old | previous | live | continuous | temporary | on now | store | constant | act | hist | conf |
    perm | prev | curr | pend | latched | occurred | waiting | dormant | aged | mature | passe | presente |
    intermittente | intermitente | continuo | temporal | temporaire | aktiv | passiv | anterior | ancien | actif |
    actuel | activo | inactive | fruher | logged | saved | recorded | held | sporadic | failing | absent actuellement
    | mem | pres | sto | stor | actv | crnt | cur | akt | aktv | vorh | spor | gesp | sp | abgel
    | inact | inaktiv | inactif | inactivo
    | inactiva | activa | actifs | inactifs | actuels | archived | memo | fug
    | ausente | antiguo | antigua | almac | espor | sporad | inakt | hinterlegt | eingetragen | geheilt | abgeheilt
    | not passing | unconf | tentative | preliminary | pte | pdte | en espera | a la espera | ausst | unreif |
    persistent | ongoing
    | persistant | persiste | persistente | fijo | fixe | dauernd | dauerfehler
""")

#: What a module did when it was asked.
ANSWERS = Phrasebook(
    {
        "silent": """
        no resp | no rsp | no response | no answer | did not
        answer | didn t answer | didnt answer | does not answer | doesn t answer |
        won t answer | wont answer | would not answer | wouldn t answer | never answered | not answering | did not
        respond | didn t respond | didnt respond | does not respond | doesn t respond | not responding | not
        responded | failed to respond | failed to answer | fails to respond | no reply | did not reply | didn t reply
        | no replies | not replying | unresponsive | no comm | no comms | no com | no coms | no communication | no
        communications | not communicating | does not communicate | doesn t communicate | won t communicate | not
        talking | won t talk | cannot communicate | can t communicate | unable to communicate | could not communicate
        | couldn t communicate | communication failed | communication failure | communication error | comm failure |
        comm error | comms failed | comms error | comms fail | comm fail | communication timeout | timeout | timed
        out | time out | times out | no contact | nothing back | nothing came back | nothing heard | no joy | silent |
        heard nothing |
        stayed silent | was silent | is silent | unreachable | not reachable |
        offline | off line | could not be reached | couldn t be reached | cannot be reached | can t be
        reached | no connection | could not connect | couldn t connect | cannot connect | can t connect | failed to
        connect | connection failed | no link | no data | dead | not heard | no ack | no session | no reaction | no
        comunication | no respone | no responce | no reponse | no respose | not respond | noresponse | did not anwser
        | without answer | without response | keine antwort | antwortet nicht | antwortete nicht | antworten nicht |
        hat nicht geantwortet | haben nicht geantwortet | nicht geantwortet | ohne antwort | nicht erreichbar |
        unerreichbar | keine kommunikation | kommuniziert nicht | keine verbindung | kein kontakt |
        kommunikationsfehler | kommunikation gestort | kommunikation fehlgeschlagen | zeituberschreitung |
        zeitueberschreitung | stumm | meldet sich nicht | reagiert nicht | keine reaktion | keine ruckmeldung | keine
        rueckmeldung | verbindung fehlgeschlagen | keine daten | schweigt | bleibt stumm | nicht ansprechbar | pas de
        reponse | ne repond pas | ne repondent pas | repond pas | repondent pas | repond
        plus | ne repond plus | n a pas repondu | n ont pas repondu | aucune reponse | sans
        reponse | non repondu | ne repond plus | pas de communication | pas de com | aucune communication | ne
        communique pas | communication impossible | echec de communication | erreur de communication | muet | muette
        | injoignable | injoignables | muets | muettes | non joignables | mudos | mudas | inaccesibles |
        delai depasse | hors ligne | pas de contact | pas de dialogue | dialogue impossible | sans
        communication | connexion impossible | pas de connexion | non joignable | reste muet | sin respuesta | no
        responde | no responden | no respondio | no respondieron | no contesta | no contesto | no ha respondido |
        ninguna respuesta | sin comunicacion | no comunica | no hay comunicacion | no hay respuesta | error de
        comunicacion | fallo de comunicacion | tiempo agotado | tiempo de espera agotado | mudo | muda | sin contacto
        | fuera de linea | sin conexion | no se comunica | incomunicado | tiempo excedido | no alcanzable |
        inaccesible | no da respuesta | tot""",
        "clean": """
        ok rien | ok nothing | ok nada | ok nichts | ok none |
        no trouble found | no troubles found | no issue found | no issues found | nil faults | nil codes | nil dtcs |
        nil dtc | nil fault codes |
        no codes | no code | no dtc | no dtcs | no fault | no faults | no fault codes | no fault code | no trouble
        codes | no trouble code | no errors | no error | no error codes | no codes found | no codes stored | no
        faults found | no faults stored | no dtcs found | no dtc found | no dtcs stored | no code found | no codes
        present | no dtcs present | no faults present | no stored codes | no stored dtcs | no stored faults | no
        active codes | no issues | no problems | nothing stored | nothing found | nothing there | none | none found |
        none stored | none present | nil | clean | is clean | came back clean | clear | all clear | ok | okay | o k |
        0 codes | 0 dtcs | 0 dtc | 0 faults | 0 fault codes | 0 errors | zero codes | zero dtcs | pass | passed |
        fault free | without faults | without fault | without codes | free of faults | no entries | no entry | no
        faults recorded | no codes recorded | no codes set | no codes logged | no dtcs set | no cdoes | no coded | no
        fautls | no diagnostic trouble codes | no trouble codes found | no current codes | empty | no findings | fine
        | good | kein fehler | keine fehler | keine fehlercodes | kein fehlercode | keine dtc | keine dtcs | keine
        codes | keine fehler gespeichert | kein fehler gespeichert | keine fehler gefunden | keine fehler vorhanden |
        keine fehlereintrage | keine eintrage | keine eintraege | kein eintrag | kein fehlereintrag | i o | io | in
        ordnung | fehlerfrei | ohne fehler | ohne eintrag | ohne befund | o b | fehlerspeicher leer | speicher leer |
        keine storungen | keine stoerungen | 0 fehler | sauber | leer | nichts gespeichert | kein befund | kein code
        | keine fehlercodes gespeichert | alles in ordnung | keine | pas de defaut | pas de defauts | aucun defaut |
        aucun code | aucun code defaut | aucun defaut memorise | aucun defaut detecte | aucun defaut enregistre | pas
        de code | pas de codes | pas de code defaut | sans defaut | sans defauts | sans code | sans codes | ras | r a
        s | 0 defaut | 0 defauts | 0 code | aucun | aucune | aucune erreur | pas d erreur | sans erreur | neant |
        rien a signaler | zero defaut | vide | propre | sain | saine |
        nickel | impec | impeccable | perfect | spot on | perfecto | perfecta | tiptop | tip top | tipptopp |
        sin fallos | sin fallo | sin codigos | sin codigo | sin
        averias | sin averia | sin errores | sin error | ningun codigo | ningun fallo | ninguna averia | ningun error
        | no hay codigos | no hay fallos | no hay averias | no hay errores | 0 codigos | 0 fallos | 0 averias | 0
        errores | limpio | limpia | ninguno | ninguna | sin dtc | sin novedad | correcto | sin defectos | sin codigos
        de averia | sin codigos de fallo | nothing | nuthin | nothin | nowt | nuffin | zilch |
        zip | sod all | bugger all | naff all |
        nichts | nix | rien | nada | nff | unauffallig | fehlerlos |
        memoria vacia | sin memoria de averias | libre de fallos | sin registros | foutloos | in orde | sem defeitos |
        felfri | w porzadku""",
        "not fitted": """
        inexistant | n fitted | sin este equipo | vehiculo sin este equipo |
        not fitted | not installed | not equipped | not present | n a | not available | not supported
        | not built in | not on this vehicle | not in this vehicle | does not exist | not applicable |
        option not fitted | unequipped | isn t fitted | is not fitted | not existing | absent | without this
        option | not part of this
        vehicle | nicht verbaut | nicht vorhanden | nicht ausgestattet | nicht eingebaut | nicht verfugbar | nicht
        verfuegbar | nicht ausgerustet | entfallt | entfaellt | nicht installiert | nicht unterstutzt | non monte |
        non equipe | non equipee | non present | non installe | pas monte | pas equipe | non disponible | pas present
        | non prise en charge | non fourni | pas installe | absente | non montee | no montado | no equipado | no
        instalado | no disponible | no presente | no existe | no incluido | no equipada | no montada | no instalada |
        ausente | no lleva | no aplica | sin montar | non montato | non installato | non equipaggiato |
        niet gemonteerd | niet geinstalleerd | niet aanwezig | nao instalado | nao montado | nao equipado |
        nie zamontowany | nie zainstalowany | ej monterad | inte monterad | ej installerad""",
        "not scanned": """
        weggelassen | not scanned | skipped | not checked | not tested | not read | not selected | not asked |
        not polled | not queried | was not read | was not scanned | not yet scanned | not done | not interrogated |
        passed over | scan aborted | aborted | cancelled | not included | left out | unscanned | not examined
        | to be scanned | still to
        scan | not run | excluded | nicht gelesen | ubersprungen | uebersprungen | nicht gepruft | nicht geprueft |
        nicht abgefragt | nicht gescannt | nicht ausgelesen | nicht angesprochen | ausgelassen | abgebrochen | nicht
        getestet | nicht ausgewahlt | nicht ausgewaehlt | nicht untersucht | non lu | non lue | non scanne | non
        scannee | ignore | non interroge | non interrogee | non teste | non controle | pas lu | pas scanne | pas
        interroge | saute | non selectionne | pas teste | non verifie | omitido | omitida | no leido | no leida | no
        escaneado | saltado | no consultado | no comprobado | no interrogado | no revisado | no seleccionado | no
        probado | no escaneada | no analizado""",
    },
    wordings.PATTERNS,
)
#: Words that may stand beside an answer without being part of a module's name.
ANSWER_FILLER = word_set("""
    module modules control unit ecu status state result has have had is are was were the there with found stored
    and all codes dtc dtcs response answer steuergerat steuergerate ergebnis status hat ist sind antwort
    calculateur resultat etat a est ont centralita resultado estado ha esta tiene y but so it its to request
    scan at in this to now still again came back read reading complete completed fully done here no
""")
#: What a failure type is called beside its code.
TYPE_LABEL = (
    r"(?:ftb?|fail(?:ure)? ?type(?: byte)?|fault ?type|sub[- ]?(?:type|typ|code)|symptom(?: byte)?|fehlerart|fehlertyp|"
    r"unterart|untertyp|sous[- ]type|type (?:de |du )?(?:d[eé]faut|panne)|sub-?tipo|tipo de (?:fallo|aver[ií]a))"
)


def denies(phrase: str) -> bool:
    """Whether a status of what is stored says beside "confirmed" that the fault is not there now: "not present"."""
    return " " in phrase or phrase in _DENIED
