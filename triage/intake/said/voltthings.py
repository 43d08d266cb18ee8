"""Voltages that nobody measured: what is allowed, what a socket, an inverter or a sensor is made for, and what one of
several batteries has.

>>> [is_bound(own) for own in ("allowed range ", "zulassiger bereich ", "plage admise : ", "range during the scan ")]
[True, True, True, False]
>>> [is_of_thing(low, low.index("12"), low.index("12") + 4) for low in ("12 v outlet in the boot", "prise 12 v hs")]
[True, True]
>>> low = "12 v at the diagnostic socket"
>>> is_of_thing(low, 0, 4), is_of_thing("obd socket 12 v", 11, 15), is_of_thing("5 volts supply", 0, 7)
(False, False, True)
>>> [in_series(low, low.index("v") - 3, low.index("v") + 1) for low in ("2 x 12 v 225 ah", "24 v, two batteries")]
[False, True]
>>> [of_several(low, low.index("v") - 3, low.index("v") + 1) for low in ("2 x 12 v 225 ah", "two 12 v batteries")]
[True, True]
"""

from __future__ import annotations

from triage.intake.plain.patterns import lazily

#: The number behind names a place to measure at: terminal 30, pin 16.
_TERMINAL = lazily(r"(?<![a-z])(?:kl|klemme|terminal|borne|clamp|clip|pin|t)[. -]{0,2}$")
#: Before two numbers that bound what is allowed, in the clause of both.
_BOUND = lazily(
    r"(?<![a-z])(?:allow(?:ed|able)|permi(?:tted|ssible)|admissible|acceptable|accepted|tolerance|tolerated|"
    r"specified|specifications?|specs?|limits?|nominal|target|should be|must be|(?:operating|working|normal|valid|"
    r"nominal) range|normal(?=[ :=(]{0,3}$)|zulassig\w*|zulaessig\w*|erlaubt\w*|soll\w*|"
    r"toleran[czs]\w*|grenz\w*|vorgabe\w*|nenn\w*|arbeitsbereich|normalbereich|admis(?:e|es|sible)?|admisibles?|"
    r"autorise\w*|toleree?s?|consigne|nominale?s?|permitid[oa]s?|tolerad[oa]s?|limites?|especificad[oa]s?|"
    r"if|wenn|si)(?![a-z])"
)
_LOWER = lazily(r"[0-9] ?v? ?(?:-|\.\.\.?|\u2026|to|and|bis|und|a|et|y) ?$")
_SOCKET = (
    r"(?:(?:power |accessory |auxiliary |aux |lighter |cigar(?:ette)? |boot |rear |front |dash(?:board)? )?"
    r"(?:outlets?|sockets?|plugs?|power points?)|(?:cigar(?:ette)?[ -]?)?lighter|steckdosen?|"
    r"zigarettenanzunder|zigarettenanzuender|bordsteckdosen?|prises?|allume[ -]?cigares?|tomas?(?: de corriente)?|"
    r"enchufes?|encendedor|mechero)"
)
_DEVICE = (
    r"(?:inverters?|converters?|dc[ -]?dc|dashcams?|fridge|cool(?:er|ing)? ?box|compressor|bulbs?|lamps?|"
    r"wandler|wechselrichter|spannungswandler|kuhlbox|onduleur|convertisseur|inversor|convertidor|nevera)"
)
_BEHIND = lazily(rf"[ -]{{0,2}}(?:{_SOCKET}|{_DEVICE})(?![a-z])(?! (?:voltage|reads|measures|shows))")
_BEFORE = lazily(
    rf"(?<![a-z])(?:{_SOCKET}|{_DEVICE}|(?:hard)?wired to)(?: (?:de|en|a|of|the))?[ ]$"
)
#: A device called by what it is made for: "230 V inverter", "Convertisseur 12 V".
_RATED = lazily(
    rf"[0-9]{{2,3}} ?v(?:olts?)? (?:{_SOCKET}|{_DEVICE})|"
    rf"(?:{_SOCKET}|{_DEVICE})(?: (?:de|a))? [0-9]{{2,3}} ?v(?:olts?)?")
_MEASURED_AT = lazily(r"(?<![a-z])(?:obd|dlc|diag\w*|pin|at|on|across|an|bei|sur|measured|gemessen)(?![a-z])")
#: What sensors are fed with.
_FED_BEHIND = lazily(r"[ -]{0,2}(?:dc )?(?:supply|reference|sensors?|rail|feed|versorgung|alimentation|alimentacion)"
                     r"(?![a-z])")
_FED_BEFORE = lazily(r"(?<![a-z])(?:sensor|geber|capteur)[ -]?(?:supply|versorgung|feed|voltage)[ :=]{0,3}$")
_TYRE = lazily(r"[0-9]/[0-9]{2,3} ?z?r ?[0-9]{2}(?:[.,]5)?c? ?$")
_TIMES = lazily(r"(?<![0-9])[2-8] ?[x*\u00d7] ?$")
_SOME = r"(?:two|both|twin|pair of|several|beiden?|zwei|deux|dos|three|drei|trois|tres|four|vier|quatre|cuatro|[2-8])"
_COUNTED = lazily(rf"(?<![a-z0-9]){_SOME} $")
_BATTERIES = r"(?:batter(?:y|ies|ien|ie|ie?s)|batts?|baterias?|akkus?|accus)"
_BATTERIES_BEHIND = lazily(rf"[ -]{{0,2}}(?:(?:agm|efb|gel|lead|starter|main) )?{_BATTERIES}(?![a-z])")
_TOGETHER = lazily(
    rf"[ -]{{0,2}}(?:(?:supply|system|electrics|anlage|bordnetz|net|versorgung|battery bank|bank) ?)?"
    rf"[,(/;:-]? ?\(?(?:with |from |mit |avec |con )?{_SOME} (?:[x*\u00d7] ?)?(?:12 ?v )?{_BATTERIES}(?![a-z])"
)


def is_bound(own: str) -> bool:
    """Whether the words of the clause before two numbers say that they bound what is allowed."""
    return _BOUND.search(own) is not None


def ends_bounds(own: str) -> bool:
    """Whether a clause holds the lower of such bounds right before the upper one: "allowed 9 to "."""
    return _LOWER.search(own[-16:]) is not None and is_bound(own)


def is_of_thing(low: str, start: int, end: int) -> bool:
    """Whether a whole number of volts is what a thing is made for that stands right beside it."""
    if low[start : start + 2].strip("v -") == "5":
        before = low[max(0, start - 24) : start]
        return _FED_BEHIND.match(low, end) is not None or _FED_BEFORE.search(before) is not None
    if _BEHIND.match(low, end) is not None:
        return True
    before = low[max(0, start - 40) : start]
    found = _BEFORE.search(before)
    return found is not None and _MEASURED_AT.search(before, 0, found.start()) is None and (
        _MEASURED_AT.match(before, found.start()) is None)


def is_nobodys(low: str, start: int, end: int) -> bool:
    """Whether a whole number of volts is that of a thing, or of one of several batteries, or no voltage but the speed
    index of a tyre.

    >>> is_nobodys("tyres 205/55 r16 91v", 17, 20)
    True
    """
    return is_of_thing(low, start, end) or of_several(low, start, end) or (
        _TYRE.search(low[max(0, start - 20) : start]) is not None)


def of_several(low: str, start: int, end: int) -> bool:
    """Whether a whole number of volts is what each of several batteries has: that of the vehicle may be another."""
    before = low[max(0, start - 12) : start]
    if _TIMES.search(before) is not None:
        return True
    return _COUNTED.search(before) is not None and _BATTERIES_BEHIND.match(low, end) is not None


def in_series(low: str, start: int, end: int) -> bool:
    """Whether a whole number of volts is what the batteries counted beside it make together."""
    return _TOGETHER.match(low, end) is not None


def is_place(low: str, start: int, text: str) -> bool:
    """Whether a whole number is that of a terminal or a pin, and nothing read at those of the battery.

    >>> [is_place(low, len(low) - 2, "12") for low in ("connector x14 terminal 12", "battery terminal 12", "supply 12")]
    [True, False, False]
    """
    before = low[max(0, start - 28) : start]
    return _TERMINAL.search(before) is not None and (text in ("15", "16", "30") or "bat" not in before)


def is_rated(low: str) -> bool:
    """Whether a text is the name of a device with the voltage it is made for.

    >>> [is_rated(low) for low in ("230 v inverter", "convertisseur 12 v", "inverter 11.9 v", "battery 12 v")]
    [True, True, False, False]
    """
    return "v" in low and _RATED.fullmatch(low.strip()) is not None


__all__ = ["ends_bounds", "in_series", "is_bound", "is_nobodys", "is_of_thing", "is_place", "is_rated", "of_several"]
