"""The words around a voltage, in small letters without accents, in English, German, French, Spanish and a little
Italian and Dutch.

Source: common practice. Every pattern is tried at one place or in a window of at most 80 characters.
"""

from __future__ import annotations

from triage.intake.plain.patterns import lazily

_PLACE = (
    r"(?:obd(?:[ -]?(?:ii|2))?|dlc|pin[ ]?16|diag(?:nostic|nose)?[ -]?(?:connector|socket|plug|port|stecker|buchse)|"
    r"(?:battery |batterie)?(?:posts?|terminals?|poles?|clamps?|pole|polen)|"
    r"connector|socket|prise(?: obd| diag(?:nostic)?)?|conector(?: obd)?|bornes?)"
)
_WORDS = (
    r"(?:battery(?: (?:voltage|volts?|supply))?|(?:batts?|bat)\.?(?:[ -]?(?:voltage|volts?|spannung))?|"
    r"batteries|batterie(?:n|spannung)?|baterias?|akkus?|(?:ecu |module |line |sensor |ignition |vehicle |"
    r"(?:on[ -]?)?board |electrical |12[ -]?v )?supply"
    r"(?: voltage| volts?)?|(?:system|vehicle|(?:on[ -]?)?board(?: (?:net(?:work)?|system|supply))?|line|module|"
    r"charging|rest(?:ing)?|static|open circuit|terminal|"
    r"main|ecu|"
    r"ignition|idle) voltage|ocv|voltages?|volt(?:s|ios)?|"
    r"(?:bord|bordnetz|versorgungs|modul|(?:steuer)?gerate|ruhe|lade|leerlauf|klemmen|netz|system|betriebs|minimal|"
    r"mindest|mindestbatterie|minimale?[ ]?batterie)(?:spannung|-?spg\.?)|(?:starter)?batterie-?spg\.?|bordnetz|"
    r"(?:spannungs|strom)?versorgung|spannung|spg|"
    r"(?:le )?reseau (?:de bord|electrique)|(?:la )?red (?:de a bordo|electrica)|"
    r"tension(?: (?:de (?:la )?)?(?:batterie|bateria|bord|reseau|red|alimentacion)| d'alimentation| aux bornes)?|"
    r"alim(?:entation|\.)?|voltaje(?: de (?:la )?bateria)?|alimentacion|[uv][ _.-]?(?:batt?|b|min)(?![a-z])|b[ ]?\+|"
    r"(?:kl\.?|klemme|terminal|borne|clamp|clip|kl-)[ ]?(?:30|15)|t(?:30|15)|"
    r"(?:starter|haupt|zusatz|zweit|hilfs|fahrzeug|bord|aufbau)-?batterie(?:spannung)?|(?:start|hoofd|hulp)accu|"
    r"(?:accu|batterij|boord(?:net)?|voedings?)?spanning|accu|batterij|batteria|"
    r"(?:tensione|voltaggio)(?: (?:della |di )?(?:batteria|bordo|alimentazione))?|"
    rf"(?:at|an|across|am|a la|en el|sur la|aux?) (?:the |der |dem |den |les? )?{_PLACE}|{_PLACE}(?=\s?[:=]|"
    rf"\s[0-9]|\s*$| "
    r"(?:is|was|voltage|reads?))|(?:while|when|during|throughout) (?:the |my )?(?:scan(?:ning|ned)?|"
    r"read(?:ing|-?out)?)|"
    r"(?:beim|wahrend(?: des| dem)?) (?:(?:aus|ab)?lesen|scan(?:nen)?s?)|"
    r"(?:pendant|lors de) la lecture|durante la lectura|"
    r"power supply|power|(?:volt|multi)?meter|dmm|dvom|charging|"
    r"v(?=[ ]?=))"
)
#: What the alternator gives is the supply where nothing else tells it.
_ALTERNATOR = r"(?<![a-z])(?:alternat(?:or|eur)?|lichtmaschinen?|lima|generator|generateur|alternador|generador)"
ALTERNATORS = lazily(rf"{_ALTERNATOR}(?![a-z])")
#: "The alternator was new in May, it's putting out 14.3 V"
PUTS_OUT = lazily(
    r"(?<![a-z])(?:it'?s|it is|it|die|sie|il|elle) (?:now |only |still )?(?:putting out|puts out|giving(?: out)?|gives|"
    r"making|makes|pumping out|liefert|bringt|gibt|ladt mit|donne|debite|sort|da|entrega) ?(?:about |around |only )?$"
)
ALTERNATOR = lazily(
    rf"{_ALTERNATOR}"
    r"(?:[ ](?:output|voltage|charg\w{1,6}|"
    r"at|is|was|reads?|puts|putting|out|gives|giving|makes|making|shows?|now|b[+]|liefert|bringt|gibt|ladt|mit|"
    r"sortie|debite|"
    r"donne|charge|tension|salida|carga|da|a|de)){0,4}[ ]?[:=(@]?[ ]?$"
)
LABEL = lazily(rf"(?<![a-z0-9]){_WORDS}(?![a-z0-9])")
#: What may stand between a label and a number without a unit.
_FILL = (
    r"is|was|were|at|now|only|just|still|about|around|approx|ca|read(?:ing|s)?|shows?|show(?:ing|ed)|says|"
    r"said|sits?|sitting|sat|start|start of scan|of|on|the|measured?|measures|measuring|gemessen|"
    r"v(?:olts?)?(?![a-z0-9])|"
    r"down|up|low|key|ign|von|bei|de|a|en|du|des|lag|liegt|steht|hat|hatte|ist|war|zeigt|noch|nur|est|etait|es|era|"
    r"actual|present|currently|value|wert|current|key on|koeo|koer|running"
)
FILLED = lazily(rf"(?:(?<![a-z])(?:{_FILL})(?![a-z])|[ :=~@(\"')\[\]\t.+-]){{0,12}}")
#: What may stand between a word for the lowest and a number without a unit.
LOWEST_FILLED = lazily(
    r"(?:(?<![a-z])(?:voltage|supply|battery|batt?|volts?|v|value|reading|seen|recorded|was|is|of|to|at|about|"
    r"only|i|we|it|saw|got|measured|ever|fue|era|war|etait|ich|gemessen|vu|vi|auf|"
    r"bis|a|hasta|jusqu'a|spannung|wert|during scan|while scanning|batterie|tension|bateria|von|de)(?![a-z])|"
    r"[ :=~(.]){0,8}"
)
_FALL = (
    r"(?:dip(?:s|ped|ping)?|drop(?:s|ped|ping)|drop to|fell|fall(?:s|ing|en)?|sag(?:s|ged|ging)?|sank|sunk|sinks?|"
    r"went (?:right )?down|pulled? down|dragged down|collapsed?|bottom(?:ed|s)?(?: out)?|as low as|"
    # "It is down to 11.4 V" tells what it is now.
    r"(?<!is )(?<!is now )(?<!'s )down to|"
    r"(?:ab|ein)?gefallen|(?:ab)?gesunken|abgesackt|eingebrochen|zusammengebrochen|fiel|faellt|fallt|sinkt|bricht|"
    r"einbruch|"
    r"chute|tombe[er]?|descend(?:ue?|u)?|cayo|cae|caida|bajo (?:a|hasta)|baja (?:a|hasta)|bajada|desciende|descendio)"
)
#: Behind the number of a terminal nothing counts minutes: "KL30 min 12.3 V".
_AT_TERMINAL = "|".join(
    rf"(?<={name}{gap}(?:30|15) )" for name in ("kl", "kl.", "klemme", "terminal", "borne", "clamp", "t")
    for gap in ("", " ")
)
_LEAST = (
    rf"(?:lowest|worst|(?:(?<![0-9])(?<![0-9]\s)(?<![1ur]/)(?<![0-9]{{3}}/)|{_AT_TERMINAL})min|minim(?:u[mn]|al|"
    rf"ale?r?|ales?)|"
    r"mini|minim[oa]|"
    r"(?:minimal|mindest|tiefst|kleinst)(?:e[rsn]?|wert|spannung)?|minimalspannung|mindestspannung|tiefstwert|"
    r"(?:tief|niedrig)st(?:e[rsn]?)?|(?:au )?plus bas(?:se)?|mas baj[oa]|"
    r"tension basse|low(?:[ -]?(?:point|mark|water mark)|(?=\s?[:=]))|[uv][ _.-]?min)"
)
_CRANK = (
    r"(?:(?:while|when|during|on|under|at) (?:engine )?(?:crank(?:ing)?|start(?:ing|-up)?(?! of))|"
    r"(?:while|when|whenever|as) (?:the engine|engine|it|he|she|we|i|you|they)(?: was| is)? "
    r"(?:crank(?:ed|s|ing)?|turn(?:ed|s|ing) over)|"
    # "Won't crank" is a complaint, no moment of a reading.
    r"(?<!n't )(?<!nt )(?<!no )(?<!no-)(?<!not )(?<!cannot )(?<!before )(?<!prior to )crank(?:ing?|s(?= (?:at|to) ))?|"
    r"(?:beim|bei|wahrend|waehrend) (?:an)?(?:lassen|starten|startversuch(?:en)?|start)|startvorgang|"
    r"(?:on|at|during|in) (?:the |an? |my |each |every )?(?:start(?:ing)?|cranking) attempt|"
    r"(?:when|while|as) (?:trying|(?:i|we|he|she|they|you) tr(?:y|ied)) to (?:start|crank)(?: it)?|"
    r"(?:a la|lors de la|pendant la) tentative de demarrage|al intentar arrancar(?:lo)?|"
    r"(?:au|pendant le|lors du) demarrage|(?:al|durante el) arran(?:car|que))"
)
CRANKING = lazily(_CRANK)
#: Of a key that a program writes as one word: "lowestVoltage".
_KEY = r"(?:lowest|min(?:imum)?)(?:battery|supply|system)?(?:voltage|volts?)"
LOWEST = lazily(
    rf"(?<![a-z])(?:{_LEAST}|{_FALL}|{_CRANK}|{_KEY})(?![a-z])|^[ (]*low (?!batt|volt|supply|system)")
#: Behind a number.
LOWEST_AFTER = lazily(
    rf"(?:(?:was|is|being|war|etait|era) (?:the |its |das |der |die |le |la |el )?|"
    # "6.3 V at lowest"; "at min. rpm" tells when it was read.
    r"(?:at|as|am|im|als|beim|au|comme|como) (?:its |the |le |un |el )?"
    r"(?![a-z.]{3,9} (?:rpm|speed|idle|load|dreh|regi)))?"
    rf"(?:{_LEAST}|{_FALL}|{_CRANK}|"
    r"as (?:the )?lowest|low(?![a-z])(?! batt| volt))(?![a-z])"
)
AFTERWARDS = lazily(
    r"(?<![a-z])(?:end|at (?:the )?end|finish|am ende|ende|fin|final|afterwards|max(?:im(?:um|al|ale?))?|"
    r"highest|peak|"
    r"hochst(?:e[rsn]?|wert)?|plus haute?|maxim[oa])(?![a-z])"
)
#: What the supply was before something was connected: lower than what is read now.
EARLIER = lazily(
    r"(?:before (?:that|this)|beforehand|"
    r"previously|zuvor|davor|avant (?:ca|cela)|auparavant|antes de (?:eso|esto))(?![a-z])"
)
#: What it was earlier, behind another voltage.
PRIOR = lazily(r"[ (,]*(?:vorher|before|avant|antes)[ :=]*")
NOMINAL_AFTER = lazily(
    r"[ -]{0,3}(?:sys(?:tem)?|vehicle|van|truck|car|net|bordnetz|fahrzeug|vehicule|camion|circuit|nominal|"
    r"battery system|electrical|electrics|anlage|sistema|vehiculo|nennspannung)(?![a-z])"
    # The label of a row: "12V supply (V)".
    r"|[ -]{0,3}(?:supply|battery|batterie|bateria|voltage|spannung|versorgung)[ ]?[(\[]v(?:olts?)?[)\]]"
)
#: "14 volt side too low": a part of the vehicle's network by its round voltage.
SIDE_AFTER = lazily(r"[ -]{1,3}(?:side|rail|seite|schiene|netzseite)(?![a-z])")
NOMINAL_BEFORE = lazily(
    r"(?:nominal|nennspannung|system|nominale|bordnetz|anlage|reseau de bord|red de a bordo)"
    r"(?: voltage| volts?| tension)?[ :=]{0,3}$")
#: "12 V supply: 12.1 V", "12V 10.9": the round number only tells which supply the next one is of.
NOMINAL_THEN = lazily(
    r"(?:(?:6|12|24|48)[ -]?v)?(?:,(?= (?:beim|bei der|when|read|scanned|a la|al|lors de) ))?[ -]{0,3}"
    r"(?:(?:supply|battery|batteries|batts?|bats?|batterien|baterias|"
    r"(?:zusatz|hilfs|starter|haupt|versorgungs)batterien?|aux(?:iliary|iliaire)?|auxiliar|starter|main|leisure|"
    r"service|second(?:ary)?|principale?|sys(?:tem)?|net|rail|side|line|feed|circuit|electrics|bordnetz|seite|netz|"
    r"cote|lado|"
    r"bordspannung|batterie|bateria|reseau|red|voltage|spannung|tension|at|is|was|reads|now|only|hat|bei|a|"
    r"sat|sits|sitting|stood|stands|shows|showed|showing|holding|lag|liegt|zeigt|est|etait|esta|estaba|"
    r"measured|reading|value|mesuree?|relevee?|gemessen|medid[oa]|start|beginn?|beginning|debut|inicio|of|the|du|del|"
    r"beim|bei der|(?:aus)?lesen|auslesung|when|read|scanned|lors de|la|lecture|al|leer|lectura|"
    r"check|scan|test|present|current|actual|actuelle?|aktuell|momentan|actualmente)[.,]?"
    r"[ -]{0,2}){0,6}\)?[ ]?[:=]?[ ]?[0-9]{1,2}[.,][0-9]"
)
#: "12 V charged, 12.7 V", "12 V flat again": which battery it is, before what was done to it or how it was.
NOMINAL_STATE = lazily(
    r"[ -]{0,3}(?:(?:supply|system|side|net|bordnetz|battery|batt|batterie|bateria)[ ])?"
    r"(?:(?:is|was|has|had|been|now|just|fully|over ?night|again|then|wieder|voll|ganz|war|ist|wurde|completely|a ete|"
    r"est|etait|estaba|esta|ha sido)[ ]){0,3}"
    r"(?:re-?)?(?:charged|flat|dead|drained|discharged|geladen|aufgeladen|nachgeladen|leer|entladen|chargee?|"
    r"rechargee?|"
    r"dechargee?|a plat|cargad[oa]|recargad[oa]|descargad[oa]|agotad[oa])(?![a-z])"
)
OTHER = lazily(
    r"(?<![a-z])(?:reference|ref|sensor(?! supply)|signal|cells?|hv|high[ -]voltage|traction|"
    r"pack(?! (?:(?:is|was|now|still|just|taken) )?(?:on|off)(?![a-z]))|hochvolt|"
    r"haute tension|alta tension|lambda|o2|oxygen|lin|can[ -]?[hl]?|limit|threshold|"
    # Where a thing lies, when it was left: "water under the seat, batt 12.1 V"
    rf"(?:below|above|under(?! crank| start)|over(?! ?night)|less than|more than|unter|uber)"
    rf"(?! (?!(?:the |min\S* |max\S* |normal |rated |der |die )*{_WORDS}).*(?<![a-z]){_WORDS}(?![a-z0-9]))|"
    r"schwelle|seuil|umbral|spec|target|soll|nominal|setpoint|expected|"
    r"drop(?! to)|ripple|"
    r"pedal|throttle|maf|map|heater|glow|ground|resistor|diode|max allowed|regulator|setting|"
    r"should be)(?![a-z])|(?<![->])>=?(?![>=]|\s{2})|(?<!<)<=?(?![<=]|\s{2})"
)
#: Before a voltage that should be, or both ends of its range: "Specified: 12.3 V to 14.8 V", "Soll 12,3 V bis".
SPECIFIED = lazily(
    r"(?<![a-z])(?:spec(?:s|ified|ifications?)?|target|soll(?:werte?|spannung|bereich)?|vorgabe|vorgeschrieben|"
    r"consigne|"
    r"prescrit[es]{0,2}|especificad[oa]|especificacion|expected|required|allowed|permitted|permissible|acceptable|"
    r"toleran(?:ce|z)|limits|(?:zul(?:a|ae)ssig|erlaubt)(?:e[rs]?)?|(?:normal|nominal|operating) range|"
    r"should be)(?![a-z])(?: (?:supply|voltage|volts|values?|range|limits|bereich|wert|spannung|is|are|of|between|from|"
    r"von|zwischen|de|entre)){0,3}\s{0,3}[:=(]?\s{0,3}(?:[0-9]{1,2}(?:[.,][0-9]{1,2})?\s?(?:v(?:olts?)?)?\s{0,2}"
    r"(?:to|-|\u2013|\.{2,3}|bis|a|et|and|und|y|up to)\s{0,2})?$"
)
#: What the supply never went below was its lowest, as told: "never fell below 11.2 V", "stayed above 11.8 V".
_BELOW = (
    r"(?:below|under|less than|lower than|unter|sous|en dessous de|au[- ]dessous de|bajo(?: de)?|debajo de|"
    r"por debajo de|menos de|moins de)"
)
_ABOVE = r"(?:above|over|higher than|uber|ueber|au[- ]dessus de|por encima de|encima de|mas de|plus de)"
NEVER_BELOW = lazily(
    rf"(?<![a-z])(?:(?:never|nie|niemals|jamais|nunca|(?:did not|didn'?t|was not|wasn'?t|fiel nicht|sank nicht|"
    rf"pas (?:descendue?|tombee?)|no (?:bajo|cayo)))(?: [a-z]{{1,12}}){{0,3}} {_BELOW}|"
    rf"(?:stay(?:ed|s)|remained|kept|held|always|blieb|immer|restee?|toujours|siempre|(?:se )?mantuvo)"
    rf"(?: [a-z]{{1,12}}){{0,2}} {_ABOVE})[ ](?:the |les |los )?$"
)
#: A demand, or a fault to come, and nothing measured: "must never fall below 11 V".
DEMANDED = lazily(
    r"(?<![a-z])(?:must|should|shall|may|can|could|to|let|ensure|darf|soll\w*|muss|kann|doit|devrait|peut|debe|deberia|"
    r"puede)(?![a-z])"
)
#: What a charger was set to give is no reading: "charger set to 13.8 V".
SET_TO = lazily(
    r"(?<![a-z])(?:set|adjusted|dialled in|eingestellt|gestellt|regle|ajustado|puesto) (?:to|at|auf|a|sur|en)\s*$"
)
OTHER_AFTER = lazily(r"[ ]?(?:reference|ref|supply [ab12]|sensor|signal|limit|threshold|drop|"
                     # How fast the supply falls: "0.1 V per minute", "0,2 V/h".
                     r"(?:/ ?|(?:per|each|every|pro|je|par|por) )(?:s|sec|second|min|minutes?|h|hour|sekunde|stunde|"
                     r"heure|minuto|hora)(?![.:=]? ?[0-9])"
                     # "12.7 V / min. voltage 8.8 V" tells the lowest.
                     r"(?!\.? ?(?:volt|spannung|tension|u[ -]?bat|batt?|supply)))(?![a-z])")
#: What is no supply of the vehicle, with the plug it was measured at: "trailer socket pin 9", "at the sensor plug".
_THING = (
    r"(?:trailer|tow(?:ing|bar)?|caravan|sensor|injector|actuator|lamp|bulb|relay|solenoid|switch|motor|headlight|"
    r"accessory|cigar(?:ette)?(?: lighter)?|lighter|usb|anhanger|geber|fuhler|lampen|remorque|capteur|remolque)"
)
_PLUG = r"(?:plug|socket|connector|harness|pin|stecker|steckdose|kupplung|dose|prise|connecteur|fiche|conector|enchufe)"
OTHER_PLACE = lazily(rf"(?<![a-z]){_THING}[ -]?{_PLUG}(?![a-z])")
OTHER_PLACE_AFTER = lazily(
    rf"[ ]?(?:at|on|across|in|from|an|am|bei|im|a|au|sur|en)(?: (?:the|der|dem|das|la|le|el))? "
    rf"{_THING}[ -]?{_PLUG}(?![a-z])"
)
#: A supply told twice, at the start of a scan and at its end: "12.1 V at start, 11.4 V at end".
START_BEFORE = lazily(r"(?<![a-z])start(?![a-z])[ :=]*$")
START_AFTER = lazily(r"[ (]*(?:(?:at |on )?(?:the )?(?:scan )?(?:start|beginning)|(?:am |zu |zum )(?:anfang|beginn|"
                     r"start)|"
                     r"au (?:debut|depart)|al (?:inicio|principio|comienzo))(?![a-z])[ )]*(?=[,;/&:]| and| to|$|[0-9])")
END_FOLLOWS = lazily(r"[^;\n]{0,48}(?<![a-z])(?:end|finish|lowest|min(?:imum)?|minimal|ende|tiefster?|fin|final|"
                     r"plus bas|mas bajo)(?![a-z])")
DEVICE_AFTER = lazily(
    r"[ -]?(?:charger|support|supply unit|power supply|jump pack|booster|ladegerat|chargeur|cargador|"
    r"(?:(?:starter|main|agm|efb|gel|lead|lithium|auxiliary)[ -])?"
    r"(?:battery|batteries|batterien?|bateria|akku)(?! at ))(?![a-z])"
)
#: What a charger can give, or is made for: "14 V charger", "charger with 14 V", "battery charger 12 V"; a scan's own
#: voltage on one stands behind "on", or has a decimal.
CHARGER_AFTER = lazily(
    r"[ -]?(?:(?:battery|bench|mains)[ -])?(?:charger|supply unit|power supply|jump[ -]?pack|booster|ladegerat|"
    r"chargeur|cargador)(?![a-z])"
)
CHARGER_BEFORE = lazily(
    r"(?<![a-z])(?<!on )(?<!on the )(?<!with )(?<!with the )(?<!on a )(?<!with a )(?<!am )(?<!mit )(?<!au )(?<!sur )"
    r"(?:(?:battery|bench|mains)[ -])?(?:charger|jump[ -]?pack|booster|ladegerat|chargeur|cargador)"
    r"(?:( (?:with|mit|avec|con|de|of|a|rated))| ?[(]?)\s?$"
)
#: Before what a charger is connected to: "with a booster on 12 V, 11.2 V".
CONNECTED_TO = lazily(
    r"(?<![a-z])(?:charger|maintainer|jump[ -]?pack|booster|(?:power )?supply|pack|ladegerat|chargeur|cargador)"
    r"(?: (?:is|was|connected|hooked up))* (?:on|to|an|sur|a) (?:the )?$"
)
#: What a battery can do stands beside its nominal voltage: "12 V 70 Ah 640 A", "12V (AGM) 760 A EN", "70 Ah 12 V".
_RATING = (
    r"(?:(?:[0-9] ?x ?)?[0-9]{1,3}(?:[.,][0-9])? {0,3}ah|[0-9]{2,4} {0,3}(?:cca|mca|en|sae|din|iec|jis)|"
    r"[0-9]{3,4} {0,3}a(?:mps?)?|"
    r"[0-9]{2,4} {0,3}a(?:mps?)? {0,3}[(]?(?:cca|ca|en|sae|din|iec|jis|cranking|cold))(?![a-z])"
)
RATED = lazily(rf"[ ,/(;:-]{{0,3}}(?:(?:agm|efb|gel|flooded|lead|nass)[ ,/)(-]{{1,3}})?{_RATING}")
RATED_BEFORE = lazily(r"[0-9] {0,3}(?:ah|cca|a {1,3}(?:en|sae|din))[ ,/(-]{1,3}$")
VEHICLE = lazily(
    r"(?<![a-z])(?:van|truck|lorry|car|bus|vehicle|tractor|petrol|diesel|gasoline|electric|hybrid|agm|flooded|"
    r"transporter|lieferwagen|lkw|pkw|fahrzeug|benzin|benziner|fourgon|camion|voiture|vehicule|essence|furgoneta|"
    r"coche|vehiculo|gasolina|(?:mini|midi|auto|reise|linien|schul|stadt)bus|coach|minivan|pick-?up|camper|motorhome|"
    r"tipper|dumper|excavator|digger|loader|harvester|combine|forklift|traktor|schlepper|bagger|stapler|tracteur|camionnette|"
    r"porteur|benne|ensileuse|moissonneuse|kipper|utilitaire|autocar|camioneta|furgon|excavadora|carretilla)(?![a-z])"
)
#: Right behind a nominal voltage the kind of vehicle that has it: "12 V diesel panel van", "24 V city bus".
VEHICLE_THEN = lazily(
    rf"[ -]{{1,3}}(?:(?:small|big|large|city|light|heavy|panel|flat[ -]?bed|family|old|new)[ -]){{0,2}}"
    rf"(?:{VEHICLE.pattern}|saloon|estate|hatch(?:back)?|sedan|coupe|convertible|suv|mpv|kombi|limousine|berline|"
    r"break|berlina|trailer|tanker|tipper)(?![a-z])(?! battery| batterie| bateria)"
)
#: Ends of a clause; a full stop behind an abbreviation is none.
BREAK = lazily(
    r"(?<!min)(?<!min\.)(?<!mini)(?<!imum)(?<!lowest)(?<!max)(?<!max\.);|[|\n]|,(?=\s|[a-z])|"
    r"(?<!min)(?<!max)(?<!mini)(?<!bat)(?<!batt)(?<!volt)(?<!kl)(?<!ca)(?<!approx)(?<!spg)\.(?=\s)|"
    r"(?<=\s)[-/](?=\s)"
)
STATE_WORDS = lazily(
    r"(?<![a-z])(?:off|running|idle|idling|koeo|koer|key|ign|ignition|engine|motor|moteur|"
    r"scan|clear|run|charger|connected|jump|pack|with|at|on|now|then|start|after|before|and|mit|avec|con|"
    r"rest(?:ing|ed)?|standing|static|unloaded|ruhe|repos|reposo|cranking|"
    r"got|had|have|has|was|is|only|about|saw|seen|measured|showing|shows|reads|reading)(?![a-z])"
)
#: "12.1 at the battery": what stands right behind a number without a unit.
AT_SUPPLY = lazily(
    rf"\s?(?:volts?\s|v\s)?(?:at|on|across|an|am|a|en|sur|aux?|in|measured at|gemessen an)\s(?:the |der |dem |"
    rf"den |las? |"
    rf"les? )?(?:battery|batt|batterie|bateria|{_PLACE}|kl\.? ?30|klemme 30)(?![a-z])"
)
#: "13.1 on the charger", "11.8 at rest": likewise behind a number with a decimal.
AT_STATE = lazily(
    r"\s(?:(?:on|with|am|an|mit|sur|avec|con|al) (?:the |a |dem |der |einem |le |un |el )?(?:(?:battery|bench) )?"
    r"(?:charger|maintainer|jump[ -]?pack|booster|ladegerat|chargeur|cargador)|at rest|resting|in ruhe|au repos|"
    r"en reposo)(?![a-z])"
)
#: Units and things counted, behind a number that is then no voltage.
OTHER_UNIT = lazily(
    r"\s?(?:[%°]|(?:a(?! (?:l'|la |mon |notre ))|ah|amps?|min(?=[a-z])(?!im)\w*|"
    r"min(?=\s{1,3}(?:idle|run|drive|of|at|on|leerlauf|ralenti))|km/?h?|kmh|mi|miles|mph|h|"
    r"hrs?|hours?|s|sec\w*|ms|ohms?|"
    r"kohms?|mv|mw|kw|w(?!/)|hp|ps|am(?! (?:anfang|ende|schluss|start|beginn)(?![a-z]))|pm|uhr|bar|mbar|psi|kpa|mpa|"
    r"hz|khz|rpm|c|f|deg|degc|celsius|l|litres?|liters?|gal|g|"
    r"mg|kg|t|tons?|tonnes?|tonnen?|cc|ccm|lbs?|mm|cm|m|nm|x|times|mal|fois|veces|codes?|modules?|dtcs?|faults?|"
    r"fehler|defauts?|averias?|years?|"
    r"yrs?|jahre?|"
    r"ans|anos|months?|days?|weeks?|tage?|jours?|dias?|cycles?|of)(?![a-z0-9]))"
)
#: A digit with one of the letters that a voltage or its label needs.
SIGNS = lazily(r"[0-9]")
