"""What stands around a voltage in its line: the words of its own clause before it and behind it, and what they say.

>>> text_before("batt ok, fuel pump 11.8 v", 19, 0), nearest("after repair (new ground strap)   voltage ")
((' fuel pump ', ' fuel pump '), 'voltage')
>>> [names_nothing(own) for own in ("scan today ", "fuel pump today ", "after a test drive ", "monday ", "present ")]
[True, False, True, True, True]
>>> [names_nothing(own) for own in ("was flat (", "van dead (", "horn dead (", "at 2000 rpm ")]
[True, True, False, True]
"""

from __future__ import annotations

import re
from typing import Literal, Protocol

from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import word_set
from triage.intake.said import engine_state, phases
from triage.intake.said.outside import outside_supply
from triage.intake.words import remark_words
from triage.intake.words.volt_words import (
    AFTERWARDS,
    ALTERNATOR,
    ALTERNATORS,
    BREAK,
    CHARGER_AFTER,
    CHARGER_BEFORE,
    CRANKING,
    EARLIER,
    LABEL,
    LOWEST,
    LOWEST_AFTER,
    PUTS_OUT,
    SPECIFIED,
    STATE_WORDS,
    VEHICLE,
)


class Number(Protocol):
    """A number that may be a voltage; ``unit`` whether it says so."""

    @property
    def start(self) -> int: ...
    @property
    def end(self) -> int: ...
    @property
    def value(self) -> float: ...
    @property
    def unit(self) -> bool: ...
    @property
    def round(self) -> bool: ...


def is_specified(low: str, start: int) -> bool:
    """Whether a voltage is what the supply should be, or an end of the range of that.

    >>> low = "specified: 12.3 v to 14.8 v, measured 11.4 v"
    >>> [is_specified(low, low.index(number)) for number in ("12.3", "14.8", "11.4")]
    [True, True, False]
    """
    return SPECIFIED.search(low[max(0, start - 70) : start]) is not None


def is_of_a_distance(low: str, start: int) -> bool:
    """Whether a number without a unit is how far a vehicle was driven, or how long: "Miles: 23,004   Voltage: 12.4 V".

    >>> low = "odometer 23,4  hours: 3.5  battery 12.4  41,090 miles"
    >>> [is_of_a_distance(low, low.index(number)) for number in ("23,4", "3.5", "12.4", "41,090")]
    [True, True, False, True]
    """
    return _THOUSANDS.match(low, start) is not None or _DISTANCE.search(low[max(0, start - 28) : start]) is not None


#: The German key of a vehicle's number, a French end elsewhere.
_IDENT = lazily(r"fin\s?[:=]")
#: Three figures behind a mark are seldom those of a voltage.
_THOUSANDS = lazily(r"[0-9]{1,3}[.,][0-9]{3}(?![0-9])")
_DISTANCE = lazily(
    r"(?<![a-z0-9])(?<![0-9] )(?:miles?|mileage|odo(?:meter)?|kms?|kilomet(?:er|re)s?|(?:km|kilometer)[- ]?stand|"
    r"laufleistung|distance|kilometrage|kilometraje|"
    r"hours|hrs|(?:betriebs|motor)?stunden|heures|horas)(?: reading)?\s{0,2}[:=]?\s{0,3}$"
)
_HIGHEST = lazily(r"(?:max\w*|highest|peak|hochst\w*|plus haute?)(?![a-z])")
_RUNNING = lazily(r"(?:(?:engine|motor|now|at|on|im|am|au) )?(?:running|idle|idling|koer|leerlauf|ralenti|"
                  r"en marcha)(?![a-z])")
_UNIT_AND_GAP = lazily(r"^[0-9.,]*\s?(?:v(?:olts?)?(?![a-z]))?[ (,]*")
#: Set off from a voltage, words that lead to the next: "12.3 V      Lowest while cranking: 8.4 V".
_LEADS_ON = lazily(r"\s{2,}[a-z][^:=]{2,50}[:=]\s*")
_BRACKETED = lazily(r"\([^()]*\)")
#: When it was measured: they name nothing that it may be of.
_DAYS = word_set("""
    this today tonight yesterday now then nun dann danach maintenant puis ensuite ahora luego
    morning afternoon evening monday tuesday wednesday thursday friday saturday
    sunday mon tue wed thu fri sat sun heute gestern jetzt morgen fruh vormittag nachmittag abend montag dienstag
    mittwoch donnerstag freitag samstag sonntag aujourd hui hier matin soir lundi mardi mercredi jeudi vendredi samedi
    dimanche hoy ayer manana tarde lunes martes miercoles jueves viernes sabado domingo oggi ieri mattina sera vandaag
    gisteren ochtend middag avond
    jan feb mar apr may jun jul aug sep sept oct nov dec january february march april june july august september
    october november december januar februar marz mai juni juli oktober dezember janvier fevrier mars avril juin juillet
    aout septembre octobre novembre decembre enero febrero marzo abril mayo junio julio agosto septiembre octubre
    noviembre diciembre""")

#: What heads a screen or a page: "ALL SYSTEMS     12.4 V".
_OF_ALL = word_set("""
    all whole complete full total entire vehicle car system systems modules ecus units controllers network overview
    summary status result results report diagnosis diagnostics list check test health alle gesamt ganzes fahrzeug
    systeme steuergerate ubersicht gesamtubersicht ergebnis ergebnisse bericht tous toutes les vehicule calculateurs
    systemes resume resultat resultats rapport todos los sistemas vehiculo completo resumen resultado resultados
    informe scan scans quick global readout diagnose protokoll scanbericht diagnosebericht fehlerspeicher
    fehlerubersicht fehlerliste kurztest schnelltest gesamttest systemtest autoscan diagnostico escaneo lecture""")

#: "At 2000 rpm 14.3 V": how fast the engine ran meanwhile.
_SPEED = lazily(r"[0-9]{3,4} ?(?:r\.?p\.?m\.?|(?:1|u|r|tr|t)?/min|min-1)[ ,:=]*$")

#: "It was flat (5.1 V)": of a battery, which nobody names.
_FLAT = word_set("""
    flat dead discharged drained empty leer leergezogen entladen tiefentladen platt tot plat vide dechargee descargada
    descargado muerta vacia war ist etait est era estaba esta""")

#: Between a vehicle's word and its nominal voltage: "minibus 12, 24 V".
_ITS_NUMBER = lazily(r"\s?(?:(?:no|nr)\.?\s?|#)?[0-9]{0,4}[,\s]{1,3}")


def is_made(low: str, start: int, own: str) -> bool:
    """Whether a voltage is what the alternator makes, named right before it or, before "it's putting out", earlier."""
    return ALTERNATOR.search(own) is not None or (
        PUTS_OUT.search(own) is not None and ALTERNATORS.search(low, max(0, start - 120), start) is not None)


#: "Measured 11.6 V", "on a mesuré 11,6 V": who measured, and no word for what.
_MEASURED = word_set("""
    measured measuring metered gemessen abgelesen wurde wurden hab habe haben mesure mesuree releve relevee
    medido medida leido leida he hemos se ha ai avons on est etait era fue just i we only still about approx ich wir nur
    noch ca etwa rund a seulement encore environ solo unos""")
_MEASURES = word_set(
    "measured measuring metered gemessen abgelesen mesure mesuree releve relevee medido medida leido leida")
#: Behind a number: a pin, a connector with its own number, a sensor or a wire, which is not where the supply is.
_AT_A_PART = lazily(
    r"[ ,(]{0,3}(?:at|on|across|in|from|an|am|bei|im|a|au|sur|en)(?: (?:the|der|dem|das|la|le|el))? "
    r"(?:[a-z-]{2,20}[ -])?(?:pin (?!16(?![0-9]))[0-9]|"
    r"(?:stecker|connector|conector|connecteur|fiche|plug) [a-z]{0,2}[0-9]|"
    r"(?:sensor|capteur|geber|fuhler|wire|leitung|kabel|fil|cable|injector|lamp|lampe|relay|relais)(?![a-z]))")
#: "Lowest 6.9 V, present 12.1 V", "24 V vehicle, measured 24.9 V"
_NOW = word_set("present current currently presently actual actually aktuell derzeit momentan actuel actuelle "
                "actuellement actualmente "
                "bei nur noch knapp etwa circa ungefahr rund solo apenas seulement")


_SCANNED = remark_words.OF_SCAN | remark_words.PLACES | word_set("""
    then now again next here still all fully full overnight over night done whole of on in at the a an my our it was
    is to up and back quick last first second today dann jetzt nochmal nochmals wieder hier noch alle voll uber nacht
    auf im am in an der die das dem den zum zur und danach puis encore ici tout toute sur au aux dans le la les d de
    du l un une et ensuite luego otra vez aqui todo toda en el los del y despues neu erneut nouveau nouvelle nuevo
    nuevamente""")


#: Of another vehicle, which feeds this one.
_OTHERS = word_set("""
    donor other second another my our no spender anderer anderes zweites fremdes autre donneur otro otra segundo segunda
    donante""")


def names_nothing(own: str, after: str = "") -> bool:
    """Whether the words before a voltage name nothing that it may be of but the vehicle; ``after``: those behind it."""
    words = re.sub(r"[^a-z ]", " ", own).split()
    if not _MEASURES.isdisjoint(words) and _AT_A_PART.match(after) is not None:
        return False
    if not words or own.rstrip(" (").endswith("@") or of_the_scan(own) or _is_small(words[-1]) or _SPEED.search(own):
        return True
    if len(words) < 4 and VEHICLE.fullmatch(words[-1]) is not None and _OTHERS.isdisjoint(words):
        # "Tipper 25.1 V with the engine running"
        return True
    while words and words[-1] in _DAYS:
        words.pop()
    if not _MEASURES.isdisjoint(words) and _MEASURED.issuperset(words):
        return True
    if words and words[-1] in _FLAT and len(words[-1]) > 3:
        while words and (words[-1] in _FLAT or _is_small(words[-1])):
            words.pop()
        return not words or VEHICLE.search(words[-1]) is not None
    if not remark_words.OF_SCAN.isdisjoint(words) and _SCANNED.issuperset(words):
        # "Scan on the hard shoulder 12.5 V", "charged 12.8 V"
        return True
    return not words or _is_small(words[-1]) or _OF_ALL.issuperset(words) or _NOW.issuperset(words)


def _is_small(word: str) -> bool:
    """Whether a word names nothing that has a voltage."""
    return len(word) <= 2 or STATE_WORDS.search(word) is not None


def nearest(own: str) -> str:
    """Of the words before a voltage those that speak of it: words for the scan are set off from it by a wide gap, and
    what stands in brackets behind them tells of that ("after repair (new ground strap) 12.7 V")."""
    if "(" in own and of_the_scan(outer := _BRACKETED.sub(" ", own)):
        own = outer
    scan, gap, rest = own.rstrip().rpartition("  ")
    return rest if gap and of_the_scan(scan.rstrip().rsplit("  ", 1)[-1]) else own


def of_the_scan(own: str) -> bool:
    """Whether the words before a voltage tell of the scan, and so name nothing else that it may be of: "after a test
    drive 14.1 V", "mit Ladegerat dran 13,1 V"."""
    own = own.strip(" (#*=-")
    told = phases.scan_head(own) is not None or phases.find(own) is not None or bool(engine_state.spans(own))
    told = told or any(deed.what in ("cleared", "drove") for deed in phases.events(own))
    return told or outside_supply(own) not in (None, "none")


def is_of_a_charger(low: str, number: Number, own: str) -> bool:
    """Whether a round number with its unit is what a charger can give: "14 V charger", "battery charger 12 V"; ``own``:
    the words of its clause before it ("supply 14 V charger on" was measured)."""
    if not (number.unit and number.round):
        return False
    before = CHARGER_BEFORE.search(low[max(0, number.start - 40) : number.start])
    if before is not None:
        return before[1] is not None or number.value in (6, 12, 24, 48)
    return CHARGER_AFTER.match(low, number.end) is not None and LABEL.search(own) is None


def extreme(before: str, own: str, after: str, dipped: bool = False) -> Literal["supply", "lowest", "end"] | None:
    """Whether the words around a voltage say that it is the lowest, or the last or highest; ``dipped``: the one before
    it in the line is lower, and the lowest."""
    behind = after.lstrip(" (,")
    if LOWEST_AFTER.match(behind):
        return "lowest"
    if _HIGHEST.match(behind):
        return "end"
    if LOWEST.search(own):
        return "lowest"
    if EARLIER.match(own.lstrip(" (")) or EARLIER.match(behind):
        # Before the engine was cranked it was what it is.
        return "supply" if dipped else "lowest"
    if AFTERWARDS.search(own) or (AFTERWARDS.match(behind) and not _IDENT.match(behind)):
        return "end"
    # "Cranking ok, 14.1 V running": said of another moment.
    return "lowest" if LOWEST.search(before) and not _RUNNING.match(behind) else None


#: Between a break and a number that stands behind it: marks, the quotes of its cell ("Lowest";"9.4 V").
_LEADING = " :=~(@\""


def text_before(low: str, start: int, last: int) -> tuple[str, str]:
    """The text before a number up to the last break with words behind it, and up to the very last break."""
    before = own = low[max(last, start - 60) : start]
    breaks = list(BREAK.finditer(before))
    if not breaks:
        return before, own
    own = before[breaks[-1].end() :]
    if last and own.strip(_LEADING):
        # What stood before the break belonged to the voltage before it.
        return own, own
    if last and not own.strip(_LEADING):
        return own, ""
    for mark in reversed(breaks):
        if before[mark.end() :].strip(_LEADING):
            before = before[mark.end() :]
            break
    return before, own if own.strip(_LEADING) else ""


def text_after(low: str, end: int, stop: int) -> str:
    """The text behind a number up to a break. Before the next number of one clause it is that one's, unless words
    for the lowest stand behind both: "9.4 V min 12.6 V max"."""
    after = low[end : min(end + 28, stop)]
    cut = BREAK.search(after)
    if cut is not None:
        return after[: cut.start()]
    if "(" in after and stop < len(low) and ")" not in low[end:stop]:
        # "11.1 V (lowest while cranking 8.4 V)" tells of the second in brackets.
        return after[: after.index("(")]
    if stop >= len(low) or (stop > end + 28 and not _LEADS_ON.fullmatch(low, end, min(stop, end + 60))):
        return after
    behind = _UNIT_AND_GAP.sub("", low[stop : stop + 24])
    if "(" in after or CRANKING.match(behind):
        # "11.1 V (min 8.4 V at start)" tells twice of the second.
        return ""
    return after if LOWEST_AFTER.match(behind) or _HIGHEST.match(behind) else ""


def is_beside_vehicle(low: str, start: int) -> bool:
    """Whether a vehicle's word, perhaps with its number, stands right before a place."""
    near = low[max(0, start - 40) : start]
    return any(_ITS_NUMBER.fullmatch(near, match.end()) for match in VEHICLE.finditer(near))


def filled(before: str, words: re.Pattern[str], filler: re.Pattern[str]) -> bool:
    """Whether the last of ``words`` in a text is followed by nothing but small words."""
    end = -1
    for match in words.finditer(before):
        end = match.end()
    return end >= 0 and filler.fullmatch(before, end) is not None
