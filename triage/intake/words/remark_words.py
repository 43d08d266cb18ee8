"""The words of remarks about a scan as a whole, typed above or below it: "booster still on, 12.9", "running 14.2".

A number that has nothing but such words beside it is the supply; one word of another kind, and it may be of anything.
In small letters without accents, in English, German, French and Spanish. Source: common practice.
"""

from __future__ import annotations

from triage.intake.plain.phrases import word_set

#: The state of the vehicle in one word that stands beside its supply.
STATES = word_set("""
    rpm revved running runing runnin idling idle idles idled koeo koer charging charged float floating steady stable
    held sat supported cranking crank crankin cranked maintainer booster boster charger chargr jump jumped jumppack
    pack donor leerlauf lauft laeuft lief laufend stabil ladegerat ladegeraet starthilfe netzteil standgas ralenti
    tournant tourne chargeur marche demarrage marcha cargador arrancador arrancar arranque arrancando static boosted
    revving""")
#: What is on or off, and that it is.
ON_OR_OFF = word_set("""
    on off without disconnected unplugged removed connected hooked attached clipped an aus ein dran ab weg drauf
    unhooked unclipped pulled switched abgenommen abgeklemmt angeklemmt angeschlossen mis coupe coupee branche
    debranche retire enleve arrete puesto quitado parado apagado encendido conectado desconectado""")
SWITCHED = word_set("""
    key ignition ign engine eng motor moteur lights light lamps headlights blower heater load loads consumers leads
    lead cables cable supply support unit bench psu box pak pac power tender conditioner kl zundung klemme licht
    verbraucher booster stutze contact contacto phares feux luces pinces pinzas truck van car donor clamp clamps
    everything all lader""")
#: Small words, and those for what was done to come to the scan.
SMALL = word_set("""
    a about after again ago all along also an and another any approx around arrival arrived as at back batt
    batteries battery bat before but by ca came circa clean clear cleared clearing cleard clrd clr code codes come
    coming confirmed constant constantly current cycled cycle d dead dip dips dipped dipping down drive driven drove
    drop drops dropped dropping dtcs during done dvom erased everything opened overnight stood parked bonnet hood
    surface engine putting fairly fault faults fell fine first flat for found from full get give go goes going gone
    good got had half has have he held here how i in ish it its just kept last later left let lot low lowest me
    measured meter min mins minute minutes multimeter my myself n next no none not nothing now of ok okay once one
    only or our out over own plus minus posts post pretty put quick ran re read reading reads rest rested resting
    reset rescan rescanned reread roughly round run s same saw says scan scanned scanning scans second see seen self
    she show showed showing shows since so solid some starting still straight take taken taking terminal terminals
    terminaux than that the them then there these they third this those through throughout to today tonight took
    touched touch try turned twice under until up v volt voltage volts w was we went wen were what when where which
    while whole will wiped wiping with yet you km mile miles mi block street road test tested testing spin x xx h hr
    hrs hour hours sec secs seconds stayed stays stay sits sitting sit remained rose rising charge alle alles als am
    auf bei beim batterie bleibt blieb da danach das dem den der des die durchgehend ein eine einmal er erneut erst
    erste ersten es etwa fahrt fehler fur gefahren gelesen ausgelesen auslesen lesen geloscht geloescht gemessen
    gerade geht ging hat hatte ich ihm im immer ist jetzt kam kamen komplett konstant kurz lag liegt mal mehr
    messgerat mit nach nachdem nichts noch nochmal nochmals nur ohne probefahrt raus runde runter runtergefahren
    scannen spannung starten start stand steht um und uhr ungefahr unter vom von vor vorher vorhin vorm wahrend
    waehrend war weiter wieder wir zeigt zuletzt zum zur zweite spater kommt angekommen ankam ankunft rein fallt
    faellt bricht sinkt gefallen zusammen einbruch au aux avant avec apres arrivee c ce ces cela dans de debut
    depuis donne du elle en encore environ est et etait fois il je jusqu l la le les lors lu lue lus mesure mesuree
    mon notre nous on par pas pendant pour puis quand reste rien relu sans sous stable sur tension toujours tombe
    tombee tout tous tours un une voltmetre vers y autour efface effaces effacement defauts maintenant ensuite chute
    essai descend ahora al alrededor antes aun aparte bajo baja bajando bajada bateria cae cayo casi como con cuando
    del desde despues el ella era escaneo esta estaba estable fue ha hasta hay las leido leida lo los llegada llegar
    llegue mas medido medida mide nada o otra para por que queda quedan se segunda sin sobre solo su tras todo todos
    todavia tuvo unos vez voltaje voltios ya borrado borrados codigos fallos averias prueba hung below above plugged
    plug wake woke unten oben vorgefunden arriving boosted scaning wiv agn bak returned fed inside untouched fast
    dot morning evening engin slowly slow plugging hooking connecting looking checking j avais avait donnait""")
#: What a supply may have that is less than what a scan is read at.
LOW = word_set("""
    dip dips dipped dipping drop drops dropped dropping fell down low lowest crank cranking crankin cranked flat
    dead arrival arrived got found before without was when min minimum starten start einbruch bricht fallt faellt
    sinkt runter ankunft ankam vor ohne vorher war tombe chute descend demarrage avant sans arrivee etait baja bajo
    cae cayo arrancar arranque antes sin llegar llegue llegada estaba vorgefunden""")
#: With nothing but these and small words beside it a number may be of anything: "hours 12.4", "left 12.4".
NO_STATE = word_set("""
    hours hour hrs hr h km mile miles mi min mins minute minutes sec secs seconds x xx left road street block drive
    driven drove run ran test tested testing spin code codes dtcs fault faults light lights lamps car truck van
    motor engine eng load loads key clean clear flat uhr stand fahrt fehler probefahrt runde kurz codigos fallos
    averias prueba tours tour essai defauts quick""")
#: Where a vehicle stood while it was scanned.
PLACES = word_set("""
    hard shoulder motorway highway roadside verge layby lay-by services yard depot garage workshop shop driveway drive
    park parking lot ramp lift bay side home standstreifen autobahn hof werkstatt halle parkplatz strassenrand
    strasse hebebuhne betriebshof einfahrt bande arret urgence autoroute cour atelier bord route pont depot arcen
    autopista autovia taller patio aparcamiento elevador cochera""")
#: A scan, and a battery that was charged for it.
OF_SCAN = word_set("""
    scan scans scanned scanning rescan rescanned read reread readout auslesen ausgelesen auslesung eingelesen gelesen
    gescannt lecture lue lu relu relue scanne lectura leido leida releido releida escaneado charged recharged geladen
    aufgeladen nachgeladen vollgeladen charge chargee recharge rechargee cargada cargado recargada recargado""")
KNOWN = STATES | ON_OR_OFF | SWITCHED | SMALL

__all__ = ["KNOWN", "LOW", "NO_STATE", "OF_SCAN", "ON_OR_OFF", "PLACES", "STATES", "SWITCHED"]
