"""What is wrong with the vehicle, told anywhere above the first list, whatever else its line tells.

A hard pedal, a heavy wheel, a red lamp and an engine that stalls keep a vehicle off the road: they are never passed
over (common practice). English, German, French, Spanish.

>>> clauses("Van, electric booster, pedal hard, red lamp. Battery was 9.1 V")
['pedal hard', 'red lamp']
>>> clauses("petrol estate, stalls when hot, restarts. battery flat from cranking")
['stalls when hot', 'battery flat from cranking']
>>> clauses("pedal ok, no stall, ABS lamp off, steering rack replaced")
[]
"""

from __future__ import annotations

from triage.intake.plain.characters import low as plain_low
from triage.intake.plain.patterns import lazily
from triage.model.told_low import low_words

_VERY = r"(?:is|was|are|went|goes|gets|got|feels|felt|very|still|so|too|all|quite|rather|a bit|bit|gone|has gone)"
#: A system that has a lamp, a word for a lamp, and what a lamp does that is on.
_SYSTEM = (r"(?:(?:red|brake|abs|airbag|air bag|bag|srs|eps|esp|esc|steering|battery|charge|charging|oil|engine|"
           r"check engine|mil|stop|warning|glow|dpf|coolant|temperature|trailer|amber|yellow|"
           r"orange)[ -]?(?:warning )?)")
_NOT_BAD = r"(?! (?:\w+ ){0,2}(?:off|out|ok|works|gone|test|bulb|fine|good|went out|not on))"
_SAFETY = (
    # English
    rf"pedal (?:{_VERY} ){{0,3}}(?:hard|soft|spongy|stiff|heavy|long|low|dead|to the floor|sink(?:s|ing)?)",
    r"(?:hard|spongy|soft|stiff|heavy|long) (?:brake )?pedal", r"no brakes?(?! (?:codes?|faults?|lamp|light))",
    rf"(?:brakes?|braking) (?:{_VERY} ){{0,3}}(?:hard|soft|weak|poor|bad|pull(?:s|ing)?|grab(?:s|bing)?|lock(?:s|ing)?|"
    r"drag(?:s|ging)?|fail(?:s|ed|ing)?|gone)",
    rf"steer(?:ing)?(?: wheel)? (?:{_VERY} ){{0,3}}(?:heavy|stiff|hard|lock(?:s|ed|ing)?|pull(?:s|ing)?|jerk(?:s|y)|"
    rf"notchy|"
    r"stick(?:s|y)|no assist\w*|without assist\w*)", r"(?:heavy|stiff|hard|no power|no) steering(?! (?:codes?|"
    r"faults?))",
    r"no (?:power |steering |brake )?assist(?:ance)?", r"stall(?:s|ed|ing)", r"cuts? out", r"keeps (?:dying|stalling)",
    r"(?:dies|died|dying|cut out|stopped) (?:on (?:the|a|me|(?:long |steep )?(?:hills?|climbs?))|in|"
    r"when|while|at|under|going|driving)(?! night)",
    r"engine (?:stops|stopped|dies|died)(?! (?:and|by|for) (?:the )?(?:scan|test))",
    rf"red (?:brake |warning |oil |stop )?(?:lamp|light)s?{_NOT_BAD}", rf"brake (?:warning )?(?:lamp|"
    rf"light)s?{_NOT_BAD}",
    # German
    r"(?:brems)?pedal (?:(?:ist|war|wird|sehr|so|ganz) ){0,3}(?:hart|weich|schwammig|schwer|lang|fallt durch)",
    r"(?:hartes|weiches|schwammiges) (?:brems)?pedal", r"keine? bremse?",
    r"bremsen? (?:(?:ist|sind|war|sehr|geht) ){0,2}(?:hart|weich|schlecht|schwach|zieht|blockiert|weg|fest)",
    r"lenkung (?:(?:ist|war|geht|wird|sehr|so|ganz|immer noch|noch) ){0,3}(?:schwer|hart|schwergangig|ruckt|hakt|zieht|"
    r"blockiert|ohne)", r"schwer(?:e|gangige) lenkung", r"(?:keine|ohne) (?:servo\w*|lenkhilfe|bremskraftverstarkung)",
    r"rote?n? (?:warn|brems|kontroll)?(?:lampe|leuchte)", r"(?:brems)warn(?:lampe|leuchte)",
    r"(?:stirbt|geht|ging) (?:\w+ ){0,3}(?:ab|aus)(?= (?:beim|im|in|wenn|auf|an der|wahrend)|\s*(?:[.,;!]|$))",
    r"bleibt (?:\w+ ){0,3}stehen", r"liegen ?geblieben",
    # French
    r"pedale (?:de freins? )?(?:(?:est|etait|tres|devient|trop) ){0,3}(?:dure|molle|spongieuse|longue|s'enfonce)",
    r"plus de freins?", r"freine (?:mal|plus|pas)",
    r"direction (?:(?:est|etait|tres|devient|encore|toujours) ){0,3}(?:dure|lourde|bloquee?|raide)",
    r"plus (?:de |d')?(?:direction assistee|assistance)", r"voyants? (?:de )?(?:rouges?|stop|freins?)",
    r"(?<!de la )cale (?:a|au|quand|en|sans|souvent|tout)", r"s'arrete en roulant",
    # Spanish
    r"pedal (?:de(?:l)? freno )?(?:(?:esta|muy|se pone|va) ){0,3}(?:duro|blando|esponjoso|largo|se hunde)",
    r"sin frenos?(?! averias)", r"no frena", r"direccion (?:(?:esta|muy|se pone|va|sigue) ){0,3}(?:dura|pesada|"
    r"bloqueada|"
    r"se bloquea)", r"sin (?:direccion asistida|asistencia)", r"(?:testigo|luz) (?:de (?:los )?)?(?:roj[oa]|frenos?)",
    r"se (?:cala|para) (?:en|al|cuando|con|sol[oa]|a)")
_OTHER = (
    rf"{_SYSTEM}(?:lamp|light)s?{_NOT_BAD}", r"limp(?:s|ed|ing)?(?: home)?(?: mode)?(?! over)", r"no boost",
    r"derat(?:e|ed|es)",
    r"(?:loses|lost|no) power(?= (?:when|on|at|up|under)|\s*(?:[.,;!]|$))", r"runs? (?:\w+ )?rough", r"misfir(?:es|"
    r"ing)",
    r"(?:does ?n[o']?t|does not|won'?t|wouldn'?t|would not|will not|can'?t|doesnt|wouldnt) (?:even )?(?:crank|start|"
    r"turn over|wake(?: up)?|fire|run|unlock|charge|go (?:in)?(?:to )?ready)",
    r"no[ -](?:crank|start)", r"(?:cranks|turns over) (?:very )?slow(?:ly)?", r"slow crank(?:ing)?", r"just clicks",
    r"(?:dim lights|lights (?:go |went |are )?dim)", r"flat batt(?:ery|eries)?",
    r"batt(?:ery|eries)? (?:(?:was|is|went|goes|keeps going|gone|all) ){0,2}(?:flat|dead|weak)",
    r"(?:all|went|goes|died|keeps going|found|was|is) flat(?! (?:tyre|tire|spot|at|road))", r"flat after",
    r"dead as|(?:completely|totally|stone) dead", r"(?:needs? a jump|jump ?start needed|needed a jump)",
    r"(?:abs|airbag|esp|eps|motor|batterie|lade|ol|servo)[ -]?(?:kontroll|warn)?(?:lampe|leuchte)(?: \w+){0,2} (?:an|"
    r"leuchtet|brennt|blinkt)", r"notlauf\w*", r"(?:springt|startet|dreht) (?:\w+ ){0,2}nicht(?: mehr)?(?: an| durch)?",
    r"batterien? (?:(?:war|ist|sind|immer|standig) ){0,2}(?:platt|leer|tot|schwach)", r"orgelt nur",
    r"voyants? (?:abs|airbag|esp|direction|moteur|batterie|huile|allumes?)", r"mode degrade", r"demarre (?:pas|plus|"
    r"mal)",
    r"batterie (?:a plat|morte|hs|vide)", r"ralenti (?:haut|instable)",
    r"testigos? (?:de (?:la |el )?)?(?:abs|airbag|esp|eps|motor|bateria|aceite|"
    r"encendidos?)", r"modo (?:de )?emergencia",
    r"(?:no|cuesta) arranca(?:r)?", r"no gira", r"bateria (?:descargada|muerta|agotada)")
#: An inspection that waits, or that the vehicle did not pass: what a clear would put off.
_DUE = (
    r"(?:(?:emissions?|annual|state|vehicle|road ?worthiness|periodic|technical|smog) )*(?:inspection|mot|smog "
    r"(?:check|test)|emissions? test) (?:is |was |it |again )*(?:due|on|this|next|tomorrow|today|booked|refused|failed|"
    r"in (?:[0-9]|a |one|two|three))",
    r"failed (?:its |the |an )?(?:(?:emissions?|annual|state) )?(?:inspection|mot|smog (?:check|test)|emissions? test)",
    r"(?:tuv|hu|au|abgasuntersuchung|hauptuntersuchung)(?:[ -]?termin)? (?:ist |war |steht )*(?:am|fallig|nachste|"
    r"morgen|heute|diese|im|in|an|nicht bestanden|durchgefallen)",
    r"controle technique (?:est |le |prevu |a )*(?:lundi|mardi|mercredi|jeudi|vendredi|samedi|demain|prevu|refuse|dans|"
    r"la semaine|passer|[0-9])",
    r"itv (?:es |el |para )*(?:lunes|martes|miercoles|jueves|viernes|sabado|manana|esta semana|la semana|en|pendiente|"
    r"rechazada|no pasada|[0-9])",
)
_SAID = lazily(rf"(?<![a-z])(?:{'|'.join(_SAFETY)}|{'|'.join(_OTHER)}|{'|'.join(_DUE)})(?![a-z])")
_WAITS = lazily(rf"(?<![a-z])(?:{'|'.join(_DUE)})(?![a-z])")
_GRAVE = lazily(rf"(?<![a-z])(?:{'|'.join(_SAFETY)})(?![a-z])")
_CUT = lazily(r"[.;!?|](?=\s|$)|,(?![0-9])|\s[-\u2013\u2014/+|]+\s|//")
#: Said of what is none, or no longer, or would be.
_DENIED = lazily(
    r"(?<![a-z])(?:no|not|never|without|if|until|nicht|kein\w*|nie|ohne|wenn|falls|pas|jamais|sans|si|nunca|sin|"
    r"(?:was|were) (?:only )?told|check for|ask (?:about|if))(?: \w+){0,2} $")
_NOW_WELL = lazily(
    r" (?:\w+ ){0,3}(?:no longer|no more|fixed|repaired|cured|replaced|renewed|any ?more|nicht mehr(?! an| durch)|"
    r"behoben|repariert|ersetzt|plus|repare\w*|remplace\w*|ya no|reparad\w*|cambiad\w*)(?![a-z])")
_VALUE = lazily(r"[0-9]{1,2}(?:[.,][0-9]{1,2})? ?v(?:olts?)?(?![a-z])|(?<![0-9])[0-9]{1,2}[.,][0-9](?![0-9])")
_LEAD = lazily(r"(?:and|und|et|y|also|with|mit|avec|con|after that|then)\s+")
_LONGEST, _MOST = 400, 5


def clauses(text: str) -> list[str]:
    """The clauses of a line that say what is wrong with the vehicle, as written."""
    low = plain_low(text)
    if len(text) > _LONGEST or len(low) != len(text) or _SAID.search(low) is None:
        return []
    found: list[str] = []
    begin = 0
    for end in [*(cut.start() for cut in _CUT.finditer(low)), len(low)]:
        piece, told = low[begin:end], None
        for told in _SAID.finditer(piece):
            if _DENIED.search(piece[: told.start()]) is None and _NOW_WELL.match(piece, told.end()) is None:
                break
            told = None
        if told is not None and len(found) < _MOST:
            value = _VALUE.search(piece, told.end())
            told_text = text[begin + _led(piece, told.start()) : begin + (value.start() if value else len(piece))]
            found.append(" ".join(told_text.split()).strip(" -,:;/+("))
        begin = end + 1
    return found


def _led(piece: str, start: int) -> int:
    """Where a clause begins behind what leads to it, or behind a figure: what stands before that is of something
    else."""
    colon = piece.rfind(": ", 0, start)
    first = colon + 2 if colon >= 0 else 0
    for value in _VALUE.finditer(piece, first, start):
        first = value.end()
    lead = _LEAD.match(piece[first:].lstrip())
    return first + len(piece[first:]) - len(piece[first:].lstrip()) + (lead.end() if lead is not None else 0)


def is_grave(text: str) -> bool:
    """Whether a clause tells what keeps a vehicle off the road.

    >>> is_grave("Pedal hart"), is_grave("dim lights")
    (True, False)
    """
    return _GRAVE.search(plain_low(text)) is not None


def joined(known: str | None, told: list[str]) -> str | None:
    """The complaint of a text: what was read as one, with what was told besides that keeps a vehicle off the road or
    of a flat battery, first, and an inspection that waits, last; or all that was told.

    >>> joined("battery flat", ["stalls when hot", "battery flat", "dim lights"]), joined(None, ["dim lights"])
    ('stalls when hot, battery flat', 'dim lights')
    >>> joined("MIL on", ["inspection on Monday"]), joined("heater dead", ["flat after ten days"])
    ('MIL on, inspection on Monday', 'flat after ten days, heater dead')
    """
    if known is None:
        return ", ".join(dict.fromkeys(told)) or None
    more = [one for one in dict.fromkeys(told) if plain_low(one) not in plain_low(known)]
    first = [one for one in more if is_grave(one) or (low_words(one) is not None and low_words(known) is None)]
    return ", ".join([*first, known, *(one for one in more if _WAITS.search(plain_low(one)))])


__all__ = ["clauses", "is_grave", "joined"]
