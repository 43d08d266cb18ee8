"""What is wrong with the vehicle, plainly said in a head line between strokes, dashes or commas, without a key.

>>> told("Ref 5512 // minibus, diesel // click click no crank", "ref 5512 // minibus, diesel // click click no crank")
'click click no crank'
>>> told("Hi all, the yellow pickup won't start", "hi all, the yellow pickup won't start")
"the yellow pickup won't start"
>>> told("City bus 31, 24 V, doors dead on Monday", "city bus 31, 24 v, doors dead on monday")
'doors dead on Monday'
>>> told("Van, diesel. windows dead, battery went flat", "van, diesel. windows dead, battery went flat")
'windows dead, battery went flat'
>>> told("Truck ABS, dead", "truck abs, dead") is None, told("Engine, no start", "engine, no start") is None
(True, True)
"""

from __future__ import annotations

from triage.intake.plain.patterns import lazily
from triage.intake.said import phases

_THING = (
    r"(?:van|minivan|car|estate|truck|lorry|tractor|(?:mini|linien|reise|stadt|schul)?bus|coach|pick-?up|saloon|sedan|"
    r"hatchback|suv|motorhome|supermini|mpv|coupe|berline|citadine|monospace|berlina|monovolumen|"
    r"camper|harvester|combine|excavator|digger|loader|forklift|[a-z]{0,12}wagen|[a-z]{0,8}transporter|kombi|auto|"
    r"pkw|lkw|traktor|schlepper|bagger|stapler|fourgon|utilitaire|voiture|camion|camionnette|tracteur|pelle|"
    r"furgon(?:eta)?|coche|excavadora|carretilla)"
)
_OF_VEHICLE = rf"(?:(?:the|this|that|our|my|her|his|a|der|die|das|le|la|el|un|une) (?:[a-z]+ ){{0,2}}?{_THING} )"
#: The vehicle, a job's number or a greeting stands in the same line: it is a head line, and no module's row.
_HEAD = lazily(
    r"\s*(?:(?:ref(?:erence)?|job|(?:work |repair )?order|ticket|case|call|ro|wo|auftrag|dossier|orden|referencia)"
    r"[ .:#]{0,3}(?:no|nr|n)?[ .:#]{0,3}[a-z]{0,3}-?[0-9]|"
    r"(?:hi|hello|hey|dear|(?:good )?(?:morning|afternoon|evening)|hallo|moin|guten (?:morgen|tag)|bonjour|salut|hola|"
    rf"buen[oa]s (?:dias|tardes))(?![a-z])|{_OF_VEHICLE})"
)
#: The engine behind it: "2.0 diesel", "1,6 l".
_FUEL = r"(?:\s(?:diesel|petrol|gas|hybrid|electric|benziner?|essence|gasolina))?"
ENGINE = rf"{_FUEL}(?:\s[0-9][.,][0-9](?:\s?l(?:itres?|iter)?)?)?{_FUEL}"
_VEHICLE = lazily(
    rf"(?!(?:can|lin|most|data)[ -]?bus)(?:[a-z'-]+ ){{0,4}}{_THING}(?:\s(?:small|large|old))?(?:\s(?:12|"
    rf"24) ?v)?(?:\s(?:tractor )?unit)?"
    rf"(?:\s(?:no\.? ?|nr\.? ?|#)?[0-9]{{1,4}})?{ENGINE}"
)
_AUX = r"(?:won'?t|will not|would not|wouldn'?t|does not|doesn'?t|did not|didn'?t|do not|don'?t|not|never|refuses to)"
_LAMP = (
    r"(?:(?:all|many|several|both|some|multiple|warning|dash(?:board)?|engine|check engine|abs|airbag|battery|charge|"
    r"mil|"
    r"oil|esp|esc|dsc|eps|tpms|srs|traction|brake|steering|[+&,/]|and) )*"
    r"(?:lamps?|lights?|mil|tell-?tales?)"
)
#: What empties a battery standing.
_LEFT_ON = (
    r"(?:(?:head|side|parking |interior |hazard |cabin )?(?:lights?|lamps?) (?:were |was |had been )?left on"
    r"(?! the (?:bench|floor|shelf))|"
    r"left (?:the |its |his |her )?(?:\w+ )?(?:lights?|lamps?) on|"
    r"(?:stand|park|innen|warnblink)?licht (?:brannte|angelassen|an ?gelassen|blieb an|war an)|"
    r"(?:phares?|feux|veilleuses?|plafonnier) restee?s? allumee?s?|(?:luces|faros) (?:quedaron |se quedaron )?"
    r"(?:encendid[oa]s|puest[oa]s)|luz (?:interior|de techo|de posicion|de cruce) (?:(?:se )?quedo )?"
    r"(?:encendid|puest)a)"
)
_SAID = (
    rf"(?:{_LEFT_ON}|"
    rf"no[ -](?:crank(?:ing)?|start)|non[ -]?start(?:er)?|crank(?:s|ing)? (?:but |and )?(?:no start|slow(?:ly)?)|"
    rf"slow (?:to )?crank(?:ing)?|(?:starts? (?:badly|poorly|hard)|hard(?: to)? start(?:ing)?)|"
    rf"(?:keeps?|kept|always) (?:going|running|getting|draining) (?:flat|dead|down)|(?:goes|went) flat|"
    rf"{_AUX} (?:start|crank|turn(?:ing)? over|fire(?: up)?|starting|cranking|"
    r"(?:go|switch|get|come) (?:in)?(?:to )?ready)|"
    rf"towed in|no ready|geht nicht (?:auf|in) ready|passe pas en ready|no pasa a ready|"
    rf"flat battery|battery (?:is |was |keeps going |goes |went )?(?:flat|dead)|dead battery|"
    rf"(?:just |only )?click(?:s|ing)(?: only)?|limp mode|cuts out|stalls|keeps (?:dying|stalling)|"
    rf"{_LAMP} (?:(?:is|are|came|come|comes|stays?) )?(?:on|lit|flashing)|"
    r"springt (?:schlecht |gar )?nicht(?: mehr)? an|startet nicht(?: mehr)?|dreht nicht(?: durch| mehr)?|batterie leer|"
    r"leere batterie|klickt nur|notlauf|geht (?:immer )?aus|"
    r"(?:kontroll|warn)?(?:lampen?|leuchten?) (?:an|brenn(?:t|en)|leuchte(?:t|n)|ein)|"
    r"(?:ne |n')?(?:demarre|tourne) (?:pas|plus)|batterie (?:a plat|morte|hs|vide)|en panne|"
    r"voyants? (?:[a-z]+ )?allumes?|no (?:arranca|enciende|gira)|bateria (?:descargada|muerta|agotada)|"
    r"(?:testigos?|luces) encendid[oa]s?)"
)
_PLAIN = lazily(rf"(?<![a-z]){_SAID}(?![a-z])")
#: Said of nothing but a vehicle, so that a line of its own needs no vehicle beside it.
_ALONE = lazily(
    rf"\s*(?:(?:it|engine|vehicle|motor) )?(?:no[ -](?:crank|start)|{_AUX} (?:start|crank|turn over|"
    r"go (?:in)?(?:to )?ready)|"
    r"springt (?:schlecht |gar )?nicht(?: mehr)? an|startet nicht(?: mehr)?|(?:ne |n')?demarre (?:pas|plus)|no arranca)"
    r"[\s.!]*"
)
#: A word that tells of a module as well: only on its own, or of the vehicle in the same breath.
_DEAD = lazily(
    rf"(?:{_OF_VEHICLE}(?:is |was |ist |war |est |esta )?|(?:it'?s |is |was |he'?s |she'?s ))?"
    r"(?:(?:completely|totally|stone|all|found|ganz|vollig|completement) )?(?:dead|tot|mort|morte|muert[oa])"
    r"(?: (?:again|today|overnight|this morning|in the morning|on arrival|heute|ce matin|hoy|esta manana))?"
)
_DAY = (
    r"(?:mon|tues|wednes|thurs|fri|satur|sun)days?|(?:montag|dienstag|mittwoch|donnerstag|freitag|samstag|sonntag)|"
    r"(?:lundi|mardi|mercredi|jeudi|vendredi|samedi|dimanche)|(?:lunes|martes|miercoles|jueves|viernes|sabado|domingo)"
)
_DAYTIME = r"(?: (?:mornings?|afternoon|evening|night|morgen|fruh|abend|matin|soir|manana|tarde|noche))?"
#: A day before that of the scan: what was dead then did not answer the customer, and nobody had asked it for codes.
_THEN = (
    rf"(?:(?:on |since |since last |last |am |seit |depuis |le |el |desde (?:el )?)(?:{_DAY}){_DAYTIME}|"
    rf"yesterday{_DAYTIME}|overnight|last (?:night|week)|(?:over|since|after) the weekend|since yesterday|"
    r"(?:since|for) (?:[a-z]+|[0-9]{1,3}) "
    rf"(?:days?|weeks?)|gestern{_DAYTIME}|seit gestern|hier{_DAYTIME}|depuis hier|desde ayer|ayer)"
)
_DEAD_THEN = lazily(
    r"(?:[a-z'-]+ ){1,4}?(?:completely |totally |all |ganz )?(?:dead|not working|(?:stopped|never) working|"
    rf"inoperative|tot|ohne funktion|mort(?:e?s?)|muert[oa]s?) (?:again )?{_THEN}"
)
#: Wrong as well, beside what surely is: "windows dead, heater dead", "3rd time", "multiple lights".
_ALSO = lazily(
    r"(?<![a-z])(?:dead|not working|(?:stopped|never|does ?n'?t|do ?n'?t) work(?:s|ing)?|inop(?:erative)?|flaky|"
    r"intermittent(?:ly)?|flash\w*|flicker\w*|nois\w+|smell\w*|dim|weak|stuck|twice|sometimes|again|"
    r"(?:[0-9](?:st|nd|rd|th)|second|third) time|keeps?|(?:multiple|several|many|warning|all) (?:lamps?|lights?)|"
    r"goes (?:nuts|mad|crazy|out)|"
    r"tot|funktionier(?:t|en) nicht|ohne funktion|flacker\w+|mal wieder|mort(?:e?s)?|marche(?:nt)? (?:pas|plus)|"
    r"clignot\w+|"
    r"encore|muert[oa]s?|no funcionan?|parpadean?|otra vez)(?![a-z])"
)
_LED = lazily(r"\s*(?:this|it|that|here|here's|it's|hier|das|c'est|es|esta|ceci) .*(?:that|which|der|die|das|qui|que) ")
#: What a row of a list of modules has in it.
_LISTED = lazily(r":|(?<![a-z0-9])[pcbu][0-3][0-9a-f]{3}(?![a-z0-9])|\t|\|")
#: In capitals, short for a module: whether that is dead the scan tells.
_MODULE = lazily(r"(?<![A-Za-z])[A-Z]{2,5}(?![A-Za-z])")
_NO_COMPLAINT = lazily(
    r"[0-9][.,]?[0-9]* ?v(?![a-z])|(?<![a-z])(?:module|ecu|unit|control|answer|respon\w+|reply|comm\w*|codes?|dtcs?|"
    r"faults?|fehler|steuergerat|antwort\w*|calculateur|modulo|if|when|until|fixed|repaired|no longer|now (?:ok|fine))"
    r"(?![a-z])"
)
#: Hardly a complaint is told without one of these.
_SIGNS = lazily(r"start|crank|dead|flat|click|lamp|light|limp|batter|mort|muert|tot|demarr|arranc|bater|allum|"
                    r"luces|luz |springt|licht|phares|feux|faros|plafonnier|"
                    r"dreht|turn|notlauf|geht|leucht|panne|testig|gira|stall|dying|cuts|fir[ei]|"
                    r"enciende|mil|"
                    r"tourne|working|inop|funktion")
_PARTS = lazily(r"\s*(?://+|\s[-\u2013\u2014/|]+\s|,(?![0-9])|[;|\u00b7]|[.!](?=\s|$))\s*")


def alone(low: str) -> bool:
    """Whether a whole line in small letters says that the vehicle does not start."""
    return len(low) <= 40 and _ALONE.fullmatch(low) is not None


def stands_in(low: str) -> bool:
    """Whether a complaint stands anywhere in a line in small letters."""
    return _PLAIN.search(low) is not None


def told(text: str, low: str) -> str | None:
    """What a head line says is wrong; None where it says nothing of it, or is none. ``low``: the same in small
    letters."""
    if alone(low):
        return text.strip(" .!")
    if not 12 <= len(text) <= 160 or len(text) != len(low) or not _SIGNS.search(low):
        return None
    parts: list[tuple[int, int]] = []
    start = 0
    for cut in _PARTS.finditer(low):
        parts.append((start, cut.start()))
        start = cut.end()
    parts.append((start, len(low)))
    whole = [(begin + len(low[begin:end]) - len(low[begin:end].lstrip()), end) for begin, end in parts if begin < end]
    vehicle = any(_VEHICLE.fullmatch(low[begin:end].strip()) for begin, end in whole)
    # "Won't start, dash dead, towed in": what says so of a vehicle alone needs none beside it.
    alone_said = len(whole) > 1 and any(
        _ALONE.fullmatch(low[begin:end].strip()) for begin, end in whole[: 1 + (len(whole) > 2)]) and (
        _LISTED.search(low) is None)
    if not (vehicle or alone_said or _HEAD.match(low)):
        return None
    vehicle = vehicle or alone_said
    sure = {(begin, end) for begin, end in whole if _is_complaint(low[begin:end].strip(), vehicle)}
    said = [part for part in whole if part in sure or (sure and _is_too(text[slice(*part)], low[slice(*part)]))]
    return ", ".join(text[begin + _led(low[begin:end]) : end].strip() for begin, end in said) or None


def _led(part: str) -> int:
    """Where in a part the complaint begins that stands behind the vehicle: "this is that van that goes flat"."""
    wrong = _PLAIN.search(part)
    lead = _LED.match(part) if wrong is not None else None
    return wrong.start() if wrong is not None and lead is not None and lead.end() == wrong.start() else 0


def _is_too(text: str, low: str) -> bool:
    """Whether a part of the line says what else is wrong."""
    return (_ALSO.search(low) is not None and _NO_COMPLAINT.search(low) is None and _MODULE.search(text) is None
            and not phases.may_stand_in(low) and not phases.events(low))


def _is_complaint(part: str, vehicle: bool) -> bool:
    """Whether a part of the line says what is wrong."""
    if _NO_COMPLAINT.search(part):
        return False
    if vehicle and _DEAD_THEN.fullmatch(part) is not None:
        return True
    dead = _DEAD.fullmatch(part)
    return _PLAIN.search(part) is not None or (dead is not None and (vehicle or " " in part))
