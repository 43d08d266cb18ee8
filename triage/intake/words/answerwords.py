"""The kinds of words that answers are made of, in small letters without accents: :mod:`triage.intake.said.wholeanswer`.

Sources: common practice in English, German, French, Spanish, Italian, Dutch, Swedish, Polish and Portuguese.
"""

from __future__ import annotations

from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set

#: Words that deny.
NO = word_set("""
    no not non without zero never cannot cant nor neither isn isnt wasn wasnt aren arent weren weren didn didnt
    doesn
    doesnt don dont won wont wouldn wouldnt couldn couldnt hasn hasnt haven unable nil
    kein keine keinen keinerlei nicht nichts ohne nie
    pas aucun aucune sans ne jamais ni plus
    sin ningun ninguna ninguno nunca
    nessun nessuna nessuno senza geen niet zonder ingen inget inga inte ej utan brak nie bez sem nenhum nenhuma nao
""")
#: Contact that came to nothing.
BROKEN = word_set("""
    failed fails fail failing failure lost loss refused refuses refusing rejected timeout timeouts timed error
    errors
    fault interrupted dropped unsuccessful impossible unavailable down missing absent incomplete broken problem
    problems
    issue issues faults failures losses
    fehlgeschlagen verloren verweigert abgelehnt ausgeblieben unmoglich unmoeglich gestort gestoert gescheitert
    unterbrochen abgebrochen fehler fehlt ausgefallen verlust
    echec echoue echouee perdu perdue refuse refusee interrompu interrompue coupee coupe erreur absence absente
    perte
    fallo fallida fallido perdida perdido rechazada rechazado imposible interrumpida error ausente
    fallita fallito persa perso rifiutata impossibile interrotta errore mislukt verbroken verloren geweigerd
    misslyckades misslyckad brots forlorad fel utracono utracona blad falhou falha perdida recusada erro
""")
#: Of those, what a lack of is well.
TROUBLE = word_set("error errors fault faults failure failures loss losses problem problems issue issues timeouts "
                   "fehler erreur errore erro fel blad verlust")
#: What does not come about with a silent module: nouns and verbs.
CONTACT = word_set("""
    answer answers answered answering response responses responds responded responding respond resp rsp reply
    replies
    replied replying comm comms com coms communication communications communicate communicates communicated
    communicating communicable link linkup connection connect connects connected connecting contact contactable
    contacted handshake handshaking session sessions access accessible accessed acknowledgement acknowledgment
    acknowledge acknowledged ack dialogue dialog reaction reacts reacted reacting talk talks talking talked speak
    speaking reach reached reachable online responsive init initialise initialize initialised initialized
    initialising
    initializing initialisation initialization identify identified identifying identification ident id sync wake
    woke
    woken wakes waking awaken wakeup echo login logon comunication
    antwort antworten antwortet antwortete geantwortet ruckmeldung rueckmeldung kommunikation kommuniziert
    verbindung
    verbindungsaufbau verbunden verbinden kontakt zugriff zugang sitzung reaktion reagiert lebenszeichen erreichbar
    erreicht erreichen ansprechbar angesprochen ansprechen initialisierung initialisiert identifikation
    identifiziert
    identifizierung meldet gemeldet aufwecken geweckt aufgewacht wach kontaktierbar quittung quittiert handschlag
    diagnosesitzung
    reponse repond repondu connexion connecte liaison acces joignable accessible communique initialise identifie
    identifiee
    respuesta responde respondio identifica inicializa contesta contesto comunicacion comunica conexion conecta
    enlace contacto acceso sesion
    dialogo identificacion inicializacion identificado
    risposta risponde risposto comunicazione connessione collegamento contatto accesso sessione collegato
    antwoord antwoordt communicatie communiceert verbinding verbonden reageert reactie toegang sessie bereikbaar
    svar svarar svarade kommunikation kommunicerar anslutning kontakt forbindelse ansluten atkomst
    odpowiedzi odpowiedz odpowiada odpowiedzial komunikacji komunikacja polaczenia polaczenie lacznosci lacznosc
    kontaktu dostepu sesji
    resposta respondeu comunicacao conexao ligacao contato acesso sessao conectado
""")
#: Of those, the words that alone say that a module did answer.
ANSWERS = word_set("""
    answers answered answering responds responded responding replied replies communicates communicated communicating
    talks talking online reachable connected contactable responsive alive awake identified
    antwortet antwortete geantwortet kommuniziert erreichbar erreicht ansprechbar verbunden wach identifiziert
    reagiert
    repond repondu communique joignable connecte identifie
    responde respondio contesta contesto comunica conecta conectado identificado
    risponde antwoordt communiceert bereikbaar svarar kommunicerar odpowiada
""")
#: A reading that was begun.
READING = word_set("""
    scan scanning read reading readout poll polling query interrogation auslesen auslesung lesen lesung abfrage
    lecture
    lectura lettura leitura escaneo uitlezen avlasning odczyt
""")
#: What the tool did not do with a module that is not there for it.
SEEN = word_set("""
    found detected seen visible heard recognised recognized discovered located
    gefunden erkannt gesehen sichtbar detecte detectee trouve trouvee vu reconnu detectado detectada encontrado
    encontrada reconocido rilevato rilevata trovato trovata gevonden gedetecteerd hittades hittad wykryto znaleziono
    encontrado detetado
""")
SIGNAL = word_set("signal signals data message messages telegram telegrams traffic life signale daten signaux donnees "
                  "senal datos segnale segnali dati signaal sygnalu sinal dados")
UNIT = word_set("""
    unit units module modules ecu ecus sg stg systems steuergerate modulos calculateurs centralitas controller
    device node address adresse box system modul steuergerat steuereinheit geraet gerat
    calculateur
    boitier centralita modulo unidad centralina regeleenheid styrenhet sterownik sterownika
""")
#: What several of them are called above a list of their names.
SEVERAL = word_set(
    "modules units ecus systems controllers nodes steuergerate calculateurs centralitas modulos unidades"
)
#: One word that says it all.
MUTE = word_set("""
    mute muted silent asleep sleeping offline
    inaccessible inaccesible inaccesibles inaccessibles
    unresponsive nonresponsive unreachable uncontactable incommunicado nocomm nocomms
    nocom
    nocoms noresponse noresp noreply noanswer noack timeout timedout stumm unerreichbar muet muette muets muettes
    injoignable injoignables mudo
    muda incomunicado muto muta irraggiungibile onbereikbaar stum tyst nieosiagalny inacessivel
""")
#: How often it was tried; of those, the words that say that it was.
TRIED = word_set("""
    tried try tries trying attempt attempts attempted attempting retry retries retried pinged asked called polled
    versucht versuche versuch versuchen probiert essaye essais essai tente tentative tentatives intentado intentos
    intento intente probado probe provato tentativi geprobeerd pogingen forsok forsokt prob proby tentei tentativas
""")
TRIES = TRIED | word_set("""
    times time twice once thrice again repeatedly x mal zweimal dreimal mehrmals wiederholt fois deux trois
    plusieurs within innerhalb
    veces vez dos tres varias volte keer ganger razy vezes several multiple two three four five ten zwei drei few
    second third seconds sec secs
""")
NOTHING = word_set("nothing nichts nix rien nada niente niks inget ingenting nic zilch nowt nuthin nothin")
#: Words that change nothing of an answer.
FILLER = word_set("""
    the a an of from to with in on by at for is was were are be been being has have had having does do did would
    could
    can will shall may might it its itself this that any all still yet now again also just only even there here
    me us
    we i he she t s so far up out back after when while during received returned established possible made given
    bus can tool tester scanner diagnostic diagnostics diagnosis control request requests key
    ignition
    off via over since
    due because owing but then valid positive proper diag waiting awaiting opened open started start built set
    obtain establish
    etablir etablit aufbauen aufzubauen establecer tras received obtained got get came come sent completely
    totally fully simply currently
    der die das dem den des ein eine einen auf zu zum zur mit von vom im am bei ist war sind hat haben wurde werden
    wird konnte kann lasst sich nach auch immer mehr mehrfach erhalten moglich moeglich aufgebaut noch gar uberhaupt
    vorhanden mangels wegen vollstandig
    le la les l du de des d un une au aux est etait ont a avec par sur dans il elle se possible etablie etabli etre
    recue peut encore toujours apres y en
    el los las lo del al una es esta estaba ha han con por para su posible establecida recibida despues aun todavia
    il lo gli dal dalla con dopo het een de van na met efter fran av od z ze po o os as ao da do apos com
    hubo habia hay dio dieron obtuvo logro recibio consiguio eu donne donnee obtenu obtenue es gab gibt kam kommt bekam
    bekommen err nrc
""")
#: Keys for what a module answered.
ANSWER_KEYS = word_set("""
    result outcome verdict finding findings ergebnis befund prufergebnis resultat constat constatation bilan resultado
    hallazgo hallazgos response answer reply antwort reponse respuesta
""")
#: Trouble codes and what else a memory holds.
CODES = word_set("""
    code codes dtc dtcs fault faults faultcode faultcodes faultcount error errors entry entries malfunction
    malfunctions defect
    defects trouble flt flts failure failures
    fehler fehlern fehlercode fehlercodes fehlereintrag fehlereintrage fehlereintraege eintrag eintrage eintraege
    event events ereignis ereignisse ereignissen evenement evenements evento eventos
    storung storungen stoerung stoerungen storungscode storungscodes storcode storcodes fehleranzahl fehlerzahl
    defaut defauts erreur erreurs panne pannes anomalie anomalies
    codigo codigos fallo fallos averia averias errores dtc incidencia incidencias anomalia
    errore errori guasto guasti codice codici anomalie avaria
    fout fouten foutcode foutcodes storing storingen fel felkod felkoder blad bledy bledow kod kody kodow usterek
    usterki falha falhas avarias erro erros
""")
NONE = word_set("""
    no not non neither zero 0 none nil without free nothing
    kein keine keinen keinerlei nicht ohne frei null pas aucun aucune sans
    sin ningun ninguna ninguno cero libre nessun nessuna nessuno senza zero geen zonder nul inga ingen inget
    utan noll
    brak bez sem nenhum nenhuma nao
""")
#: Of those, what a denial turns round.
DENIES = word_set("not never isn nicht nie pas non niet inte ej nao")
FREE = word_set("free without frei ohne libre sans sin senza zonder utan bez sem")
#: What a code is that counts now, and what only some are.
PRESENT = word_set("""
    active stored current present confirmed existing actual hard
    aktive aktiven aktuelle aktuellen gespeicherte gespeicherten gespeichert vorhandene vorhandenen aktiv aktuell
    actif actifs actuel actuels present presents memorise memorises enregistre enregistres confirme confirmes
    activo activos activa activas actual actuales presente presentes almacenado almacenados confirmado confirmados
    memorizado memorizados attivo attivi memorizzato memorizzati actieve opgeslagen aktiva lagrade aktywnych
    zapisanych ativos ativas armazenados
""")
PARTIAL = word_set("""
    pending history historic historical past permanent intermittent sporadic previous inactive passive
    ausstehend ausstehende ausstehenden anstehende anhangige anhangigen sporadische sporadischen passive passiven
    vergangene historische permanente permanenten inaktive
    attente historique historiques permanents fugitif fugitifs passe pendiente pendientes historico historicos
    permanentes esporadico esporadicos pasado inactivo inactivos
""")
#: Where the codes would be, or who looked.
_AROUND = word_set("""
    found detected recorded logged set reported registered saved available exist returned seen shown showing listed
    held total count number amount anzahl nombre numero quantity diagnostic logs read this time present moment
    or and
    nor und oder noch et ou ni y o u e och eller i lub gefunden hinterlegt abgelegt erkannt festgestellt
    eingetragen gesetzt detecte detectes trouve trouves stocke stockes releve enregistree detectado detectados
    encontrado encontrados registrado registrados guardado guardados trovato trovati gevonden hittades wykryto
    encontrados whatsoever either mil related obd recognised recognized determined erfasst registriert reconnu reconnue
    reconnus constate constates reconocido reconocida reconocidos reconocidas riconosciuto riconosciuti
""")
MEMORY = word_set("""
    memory memories speicher fehlerspeicher ereignisspeicher storspeicher memoire memoria geheugen foutgeheugen minne
    felminne pamiec
""")
EMPTY = word_set("""
    empty clear clean blank ok okay leer sauber sain saine vide vierge propre vacia vacio limpia limpio vuota vuoto leeg
    tom tomt
    pusta vazia
""")
#: A word that speaks well of a module or of the contact with it.
WELL = word_set("""
    ok okay good fine healthy passed pass established successful
    gut ordnung steht bon bonne bien buena correcta correcto bene goed bra dobrze
""")
#: Contact that came about, where nothing denies it.
MADE = word_set("established up aufgebaut hergestellt etablie etabli establecida possible")
#: With a denial, what could not be done.
ABLE = word_set("could couldn couldnt can cannot cant unable able possible konnte kann moglich moeglich lasst possible "
                "posible pudo puede pu")
#: "Zero stored": what is stored is codes.
COUNTED = word_set("zero 0 nil none")
KEPT = word_set("stored found logged recorded present set detected active")
OF_SILENCE = NO | BROKEN | CONTACT | READING | SEEN | SIGNAL | UNIT | MUTE
OF_CODES = CODES | NONE | PRESENT | PARTIAL | _AROUND | MEMORY | EMPTY | UNIT
#: Words that stand for a whole answer, and abbreviations.
SHORT = {
    **dict.fromkeys(
        ("n/r", "nr", "n.r", "t/o", "no rx", "no-rx", "n/resp", "not found", "not detected", "nicht gefunden"),
        "silent",
    ),
    **dict.fromkeys(
        (
            "clr", "zero", "null fehler", "healthy", "not faulty", "faultless", "error free", "error-free", "code free",
            "code-free", "codefree", "errorfree", "faultfree", "no flts", "bon", "cero",
        ),
        "clean",
    ),
}
#: What speaks of a module rather than of anything else.
SPOKEN_OF = CODES | MEMORY | CONTACT | SIGNAL | MUTE | READING | UNIT
#: A text without one of these says nothing of the kind.
TELLING = CONTACT | READING | SEEN | SIGNAL | MUTE | CODES | MEMORY | WELL | NOTHING | word_set(
    "n nr t clr zero healthy faulty faultless free codefree errorfree faultfree cero no"
)
#: The same with a slip in that word.
LEADING = TELLING | NO | BROKEN | NONE | EMPTY
#: "U/s" before an answer: out of order.
OUT_OF_ORDER = word_set("u s")
#: Words that the vocabulary of wordings knows besides, and all of them; those in which a slip can be told.
_OF_WORDINGS = word_set("stored found there dead clean clear empty joy luck sign life")
EVERY = OF_SILENCE | OF_CODES | FILLER | TRIES | NOTHING | WELL | MADE | ABLE | ANSWERS | KEPT | _OF_WORDINGS
LONG = tuple(sorted(word for word in EVERY if len(word) >= 5))
#: The commonest of five letters with one left out, where that makes no word of its own.
LEFT_OUT = {
    word[:at] + word[at + 1 :]: word
    for word in ("codes", "fault", "faults", "found", "reply", "clear", "clean")
    for at in range(1, 5)
}
for _own in ("code", "clan", "fund", "rely", "faut", "faul"):
    LEFT_OUT.pop(_own, None)
#: Words of their own that are a letter or two off one of an answer.
NO_SLIPS = word_set("""
    connector connectors conductor corrected collected detective defective reactive relation clearance cleared
    stores scored shored sorted score codec coder flight native motive presence answerable
""")
#: One module, whichever it is. Several of them head a list of names.
IT = word_set(
    "module unit ecu controller node address adresse system computer device station it one addressee "
    "steuergerat modul gerat einheit steuereinheit teilnehmer calculateur boitier unite boitiers "
    "centralita unidad modulo sistema equipo"
)
#: What may stand beside it and the answer.
BESIDE_IT = word_set(
    "a an the this that its of from by with in on at to for and was were is has have had been be control command any "
    "so far yet now here could can established possible received found stored present "
    "der die das dem den des diesem dieses diese dieser ein eine einem einer vom von zum zur mit im in ins am auf ist "
    "war wurde werden moglich vorhanden gespeichert abgelegt hinterlegt erhalten hergestellt aufgebaut "
    "le la les l un une du de d dans avec ce cet cette au est etait possible memorise memorises enregistre enregistres "
    "tried twice times after attempts attempt tries retries versuche versuchen nach mal essais tentatives apres "
    "intentos tras veces presents recu recue trouve trouves etablie commande "
    "el los las uno del con en esta este esa ese se ha sido posible almacenado almacenados almacenada almacenadas "
    "memorizado memorizados memorizada memorizadas recibida encontrado encontrados encontrada encontradas mando "
    "presente presentes establecida"
)
#: What stands in a cell for which there is nothing to say.
NOTHING_SAID = frozenset((
    "n/a", "n.a", "n.a.", "n / a", "na", "n/d", "n.d", "k.a", "k. a", "k.a.", "s/o", "not applicable", "entfallt",
    "sans objet", "no aplica",
))

#: What is said of a thing that is flat or fails, behind the word for that and before it.
FLAT_THEN = lazily(
    r"\s+(?:(?:start(?:er|ing)?|12 ?v|24 ?v|main|service)\s+)?(?:batter|batt|akku|bateria|cells?|shorts?|tank|12 ?v)"
)
FLAT_THING = lazily(
    r"(?<!hv )(?<!ht )(?<!voltage )(?<!traction )(?<!drive )(?<![a-z])(?:batter(?:y|ies|ie|ien)|batts?|akkus?|"
    r"baterias?|tanks?|reservoir|deposito|lamps?|lights?|horns?|speedo(?:meter)?|gauges?|buttons?|cruise|"
    r"clock|on (?:the )?wheel)(?:,?\s(?:is|was|were|are|ist|war|sind|waren|est|etait|sont|esta|estaba|estan|"
    r"completely|totally|komplett|total|ganz|totalement|completamente|all|quite|found|gone|again|wieder|stone|both|beide))*\s*$"
)
