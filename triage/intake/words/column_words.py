"""What the head of a column, or a key, may say that the column holds: a role by its wordings in four languages.

Wordings: common practice.
"""

from __future__ import annotations

from triage.intake.plain.phrases import phrase_set
from triage.intake.words.scan_words import SCANS

ROLES: dict[str, frozenset[str]] = {
    "module": phrase_set("""
        module | modules | control module | control unit | ecu | unit | system | controller | module name | ecu
        name | system name | control unit name | node | node name | computer | device | steuergerat | steuergerate
        | stg | sg | modul | steuereinheit | calculateur | calculateurs | organe | boitier | centralita | unidad |
        unidad de control | ecu/module | module/ecu | name of module | sistema | systeme | systeme/calculateur |
        modulo | control units | steuergeratename | name | ucu | module or system | unite | module / system | nombre |
        baugruppe | unidad de mando | uce | reported by | reporting module | reporting ecu |
        reporting control unit | found in
        | stored in | set by | logged by | detected by | affected module | module concerned | source module |
        gemeldet von | gemeldet durch | gespeichert in | gespeichert im | betroffenes steuergerat | signale par |
        centralina | regeleenheid | sterownik | styrenhet |
        einheit | enregistre dans | memorise dans | calculateur concerne | informado por | registrado en | guardado en |
        almacenado en | centralita afectada | control module name | ecu/system | controller name | calc | ug |
        electronic control unit | electronic control units | electronic control module | electronic module |
        electronic unit | electronic system | vehicle system | vehicle module | on-board computer |
        elektronische steuereinheit | elektronisches steuergerat | unite de commande electronique |
        unite electronique | unidad de control electronico | unidad de control electronica | unidad electronica"""),
    "code": phrase_set("""
        code | codes | dtc | dtcs | fault code | fault codes | trouble code | trouble codes | error code | dtc
        code | code no | diagnostic trouble code | fehlercode | fehlercodes | fehler | fehlernummer | fehler nr |
        fehler-nr | fc | n° defaut | n° de defaut | no defaut | numero defaut | numero de defaut | n° code |
        n° de code |
        numero de code | n° dtc | no dtc | nº averia | nº de averia | n.º averia | n.º de averia | num. averia |
        numero averia | numero de averia | nº codigo | nº de codigo | numero de codigo | nº dtc | nº fallo |
        numero de fallo | code-nr | code-nr. | code nr | code nr. | codenummer | dtc-nr | dtc-nr. | dtc nr |
        code defaut | codes defaut | defaut | codigo | codigos | codigo de averia | codigo de
        fallo | codigo dtc | averia | fallo | p-code | fault number | fault no | error | dtc number | dtc no |
        stored code | code (dtc) | dtc/code | code dtc | fehlerort | numero | fault | codigo averia | codigo fallo
        | storungscode | storungscodes | storungsnummer | code anomalie | code d'anomalie | codes d'anomalie | code
        d'erreur | code erreur | codigo de falla | codigos de falla | codigo falla | codigo de error
        | fehlerspeicher | fehlerspeichereintrag | fault memory | fault entry | memory entry |
        fehlereintrag | speichereintrag | malfunction | panne | storung
        | cod | kode | codice | codice guasto | codice errore | guasto | foutcode | storingscode | codigo de falha |
        codigo de avaria | kod | kod bledu | kod usterki | felkod"""),
    "failure_type": phrase_set("""
        ftb | ft | failure type | fault type | sub type | subtype | sub-type | subcode | sub code | symptom | sym |
        fehlerart | fehlertyp | type de defaut | tipo de fallo | failure | sub | fail type | type | type byte | failure
        byte | symptom code | failure type byte | fail. type | symptombyte | symptom byte | symptom-byte | fault symptom
        | sub byte | fehlerartbyte | type defaut | tipo | symptome | sintoma | fault sub type | art | tipo de averia |
        tipo fallo | typ | fehler-typ | fehler-art | untertyp | fehlersymptom | subtyp | unterart | unter-art |
        fehlerunterart | sous-type | sous type | subtipo | subtipo de averia | sub-tipo | type de panne | type du defaut
        | ftb (hex) | ft byte | art des fehlers | symptom-code | caracterisation | caracterizacion | fault byte |
        fehlerbyte | byte de fallo | byte de averia | octet de defaut | subcodigo"""),
    "status": phrase_set("""
        status | state | st | sts | condition | fault status | code status |
        dtc status | fault code status | trouble code status |
        error code status | fehlercodestatus | fehlercode-status | fault state | zustand |
        fehlerstatus | etat | statut | estado | current/stored | etat du defaut | estado del codigo | state of
        fault | stat | present? | active? | vorhanden | present | memory | memoire | memoria | speicher | list |
        category | dtc state | status text | presence | kategorie | status/zustand | code state | present now | now? |
        status now | state now |
        current? | present now? |
        aktiv? | aktuell? | vorhanden? | still present? | etat defaut | etat du code | statut du defaut | etat actuel |
        situacion | estado actual | estado de la averia | estado del fallo | fehlerzustand | dtc-status | statut dtc |
        etat dtc | estado dtc | present ? | actif ? | presente? | activo? | fault present? | stato | stato guasto |
        toestand | stan | felstatus"""),
    "status_byte": phrase_set("""
        status byte | statusbyte | status (hex) | sb | octet d'etat | byte de estado | dtc status byte | status
        hex | status mask | hex status | statusbyte (hex) | status byte (hex)"""),
    "description": phrase_set("""
        description | text | fault text | meaning | title | detail | details | definition | fehlertext |
        beschreibung | bezeichnung | bedeutung | libelle | intitule | designation | descripcion | texto |
        significado | denominacion | desc | fault description | code description | dtc description | what it means
        | comment | comments | remark | remarks | note | notes | info | fehlerbeschreibung | texte | signification
        | klartext | kommentar | commentaire | comentario | explanation | descrizione | omschrijving | descricao | opis
        | beskrivning | bemerkung | anmerkung | hinweis | remarque | observation | observacion | nota"""),
    "count": phrase_set("""
        count | occurrences | occurrence | occ | freq | frequency | counter | times | haufigkeit | zahler |
        compteur | frecuencia | contador | veces | oc | occurrence count | no of occurrences | times seen | hits |
        anzahl | anz | anz. | qty | nb | cant | cant. | cantidad |
        occ count | seen | event count | occurred | number of occurrences | nombre d'occurrences |
        frequence | occurence | occurences"""),
    "count_of_codes": phrase_set("""
        codes found | number of codes | dtc count | no of codes | code count | number of dtcs | faults found |
        fault count | anzahl fehler | fehleranzahl | anzahl codes | nombre de defauts | nombre de codes | nb
        defauts | numero de codigos | total codes | dtcs found | # codes | # dtcs | no. of codes | number of
        faults | numero de averias | faults | count of codes | n codes | defauts | averias | fallos | nb de defauts |
        nombre defauts | numero de fallos | fehlerzahl | anzahl der fehler | numero de codigos de averia |
        number of entries | no of entries | entries | entry count | anzahl eintrage | anzahl der eintrage |
        nombre d'entrees | numero de entradas | number of events | number of dtc | dtc total | fault total |
        fehler gesamt | fehler insgesamt | gesamtfehler | fehler (anzahl) | fehler anz. | anz. fehler | anz fehler |
        total faults | total dtcs | faults total | defauts au total | total defauts | total averias | total fallos"""),
    "volts": phrase_set("""
        voltage | volts | v | supply | u | spannung | tension | voltaje | module voltage | supply voltage | ubat |
        volt | module volts | module supply | battery voltage | batteriespannung | versorgungsspannung | tension
        d'alimentation | ecu voltage | u (v) | volts (v) | battery | bat | batt | vbat | tension (v) | spannung
        (v) | voltage (v) | supply (v) | versorgung | alimentation | alimentacion | tension batterie | tension de
        bateria | battery volts | system voltage | batt. | bat. | u batt | u bat | ubatt | u_batt | u_bat | vbatt |
        v bat | v batt | batterie | bateria | akku | b+ | kl30 | kl 30 | kl. 30 | klemme 30 | terminal 30 | borne 30 |
        u bord | bordspannung | bordnetzspannung | tension alim | tension alim. | tension d'alim | spannungsversorgung |
        tension bat | tension batt | tension bateria | voltios | bordnetz | alim | reseau de bord | red de a bordo |
        alim. | voltaje bateria | u batterie | u bateria"""),
    "lowest_volts": phrase_set("""
        min voltage | min. voltage | minimum voltage | lowest voltage | voltage min | voltage min. | voltage (min) |
        min volts | min. volts | lowest volts | volts min | volts (min) | lowest supply | min. supply | min supply |
        minimalspannung | mindestspannung | min. spannung | minimale spannung | niedrigste spannung | tiefste spannung |
        spannung min | spannung min. | u min | umin | u_min | v min | vmin | v_min | tension min | tension min. |
        tension mini | tension minimale | tension la plus basse | tension minima | tension minimum | voltaje minimo |
        tension mas baja | voltaje min | voltaje min. | min_volts | volts_min | min_voltage | lowest_volts"""),
    "volts_at_fault": phrase_set("""
        voltage at fault | volts at fault | voltage when set | volts when set | voltage at time of fault |
        fault voltage | freeze frame voltage | freeze frame volts | ff voltage | ff volts | voltage at dtc set
        | voltage at set | u at fault | spannung bei fehler | spannung bei fehlereintritt | u bei fehler |
        spannung bei auftreten | tension au defaut | tension lors du defaut | tension a l'apparition | tension
        de averia | tension en averia | voltaje en averia | tension en el fallo"""),
    "answer": phrase_set("""
        result | ergebnis | resultat | resultado | scan result | outcome |
        finding | findings | befund | constat | constatation | hallazgo | hallazgos | verdict | prufergebnis | bilan |
        scanned | entry | eintrag |
        entree | entrada | registro"""),
    "reply": phrase_set("""
        answered | responds | responding | responded | answers | erreichbar | responde | repond | communicates |
        online | response | answer | communication | comms | comm | antwort | kommunikation | reponse | respuesta |
        comunicacion | reply | comm status | com | com status | kommunikationsstatus | connection | verbindung |
        liaison | conexion | dialogue | can | link"""),
    "scan": SCANS,
    "date": phrase_set("""
        date | time | datum | zeit | heure | fecha | hora | date/time | timestamp | scan date | date and time |
        uhrzeit | scan time | date et heure | fecha y hora | datum/uhrzeit | read at | scanned at | taken at | at
        | scanned on | read on | taken on | date of scan | zeitpunkt"""),
    "spn": phrase_set("spn | suspect parameter | spn no | spn number"),
    "fmi": phrase_set("fmi | failure mode | fmi no | fmi number"),
    "source_address": phrase_set("sa | source address | src | source addr | quelladresse | adresse source"),
    "odometer": phrase_set("""
        odometer | mileage | km | distance | kilometerstand | kilometrage | kilometraje | odo | km stand |
        km-stand"""),
    "rpm": phrase_set("rpm | engine speed | drehzahl | regime | regimen | motordrehzahl | regime moteur"),
    "speed": phrase_set("speed | vehicle speed | geschwindigkeit | vitesse | velocidad | km/h"),
    "coolant": phrase_set("coolant | coolant temperature | coolant temp | ect | kuhlmitteltemperatur"),
    "other": phrase_set("""
        supplier | vendor | manufacturer | maker | hersteller | lieferant | fournisseur | fabricant | proveedor |
        fabricante | part number | part no | part no. | p/n | software | sw | software version | hardware | hw |
        calibration |
        cal id | calibration id | serial | serial number | coding | version | connector | location | bay | bus | #
        | no | no. | nr | nr. | pos | item | line | n° | idx | id | dir | adr | teilenummer |
        softwarestand | hardwarestand | codierung | reference | piece | numero de pieza | referencia | fuse |
        network | address | addr | adresse | can id | pin | cvn | version logicielle | diagnostic address | row |
        numero de piece | version de software
        | ecu id | module id | identifier | kennung | identifiant | identificador
        | bus name | protocol | sw version | hw version | priority | severity | lfd | lfd. nr"""),
    "short_name": phrase_set("""
        short name | short | abbreviation | abbr | abbrev | abrev | acronym | short form | kurzname | kurzel | kuerzel |
        kurzbezeichnung | abkurzung | abreviation | abrege | sigle | nom court | abreviatura | siglas |
        nombre corto | short code | mnemonic | abk | kurz | kurzform | kurzzeichen | acronyme | acronimo"""),
}


#: Heads of what is told besides a code, a failure type where the cells hold nothing else.
BESIDE_CODE = frozenset(("zusatz", "zusatzcode", "suffix", "ext", "ext.", "extension", "erweiterung", "addition",
                         "add.", "suffixe", "sufijo", "complement", "complemento", "byte"))

__all__ = ["BESIDE_CODE", "ROLES"]
