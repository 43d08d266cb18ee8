"""Voltages in any phrasing, and what each is of: the supply as read, its lowest, the vehicle's nominal, or another
thing altogether.

>>> text = "battery 11,4 V, dipped to 9.2 V while cranking; 5 V reference 4.98 V"
>>> [(volt.value, volt.of) for volt in find(text.lower())]
[(11.4, 'supply'), (9.2, 'lowest'), (5.0, 'other'), (4.98, 'other')]
>>> [(volt.value, volt.of) for volt in find("Kl. 30: 12,1 / 24 V vehicle, batt 10.7".lower())]
[(12.1, 'supply'), (24.0, 'nominal'), (10.7, 'supply')]
"""

from __future__ import annotations

import re
from typing import Literal, NamedTuple

Of = Literal["supply", "lowest", "end", "nominal", "other", "bare", "named"]


class Volt(NamedTuple):
    """One voltage in volts at ``start``..``end``; ``bare`` where no word says what it is of, ``named`` where words
    stand before it that are no supply (a module's name, or a reading's)."""

    start: int
    end: int
    value: float
    of: Of
    labelled: bool


_DIGIT = re.compile(r"[0-9]")
_UNIT = r"(?:v(?:olts?|olt|dc| dc)?|volts?)(?![a-z0-9])"
_VALUE = re.compile(
    rf"(?<![a-z0-9.,])(?:([0-9]{{1,4}}(?:[.,][0-9]{{1,3}})?)\s?{_UNIT}|"
    rf"([0-9]{{1,2}})\s?v\s?([0-9]{{1,2}})(?![0-9a-z])"
    r"|([0-9]{4,5})\s?(?:mv|millivolts?)(?![a-z0-9]))"
)
_LABEL_WORDS = (
    r"(?:battery(?: voltage)?|batt?|batterie(?:spannung)?|bateria|akku|supply(?: voltage)?|system voltage|voltage|"
    r"volts?|"
    r"bordnetz(?:spannung)?|bordspannung|versorgung(?:sspannung)?|spannung|tension(?: batterie| de bateria)?|"
    r"alimentation|"
    r"voltaje|alimentacion|[uv][ _]?batt?|b\+|kl\.?[ ]?(?:30|15)|klemme[ ]?(?:30|15)|terminal[ ]?(?:30|15)|t(?:30|"
    r"15)|"
    r"at (?:the )?(?:obd|pin 16|connector|posts?|terminals?)|module supply|power supply)"
)
_UNITLESS = re.compile(
    rf"(?<![a-z0-9]){_LABEL_WORDS}(?![a-z0-9])(?:[ :=~@(]|is|was|at|now|only|read(?:ing|s)?|start|of|von|bei|de|a|"
    rf"about|ca\.?|"
    r"low(?:est)?|min(?:imum)?|down to|lag|liegt|steht|around|measured|gemessen|\(v\)|\[v\]){0,8}"
    r"([0-9]{1,2}[.,][0-9]{1,3}|[1-3][0-9])(?![0-9a-z%°]|[.,][0-9]|[ ]?(?:a|ah|%|min|minutes|km|mi|°|h|s|ohm|mv|am|"
    r"pm|v|volts?|"
    r"codes?|modules?|dtcs?|faults?|years?|months?|days?)(?![a-z0-9]))"
)
_LABEL = re.compile(rf"(?<![a-z0-9]){_LABEL_WORDS}(?![a-z0-9])")
_LOWEST = re.compile(
    r"(?<![a-z])(?<![0-9])(?<![0-9]\s)(?:lowest|low(?: point| mark)?|min(?:imum|imal)?|dip(?:s|ped)?|drop(?:s|ped)?|"
    r"fell|fall(?:s|ing)?|sag(?:s|ged)?|"
    r"sank|down to|went (?:down )?to|worst|bottom(?:ed)?|tiefst(?:e|er|wert)?|niedrigst(?:e|er)?|kleinst(?:e|er)?|"
    r"minimal(?:e|er)?|"
    r"gefallen|gesunken|abgesackt|eingebrochen|fiel|sank|einbruch|plus bas(?:se)?|minimum|mini|minimale?|chute|"
    r"tombee?|descendue?|"
    r"minim[oa]|mas baj[oa]|cayo|bajo a|caida|bajada|tension basse|while cranking|when cranking|during crank(?:ing)?|"
    r"cranking|beim anlassen|beim starten|au demarrage|al arrancar|during start)(?![a-z])"
)
_END = re.compile(
    r"(?<![a-z])(?:end|at end|finish|am ende|ende|fin|final|afterwards|max(?:imum|imal)?|highest|"
    r"hochst(?:e|er)?|"
    r"plus haute?|maxim[oa])(?![a-z])"
)
_NOMINAL_AFTER = re.compile(
    r"[ -]?(?:system|vehicle|van|truck|car|net|bordnetz|fahrzeug|vehicule|camion|circuit|"
    r"nominal|"
    r"battery system|electrical|electrics|anlage|sistema|vehiculo|nennspannung)(?![a-z])"
)
_NOMINAL_BEFORE = re.compile(r"(?:nominal|nennspannung|system|nominale)(?: voltage| volts?| tension)?[ :=]{0,3}$")
_OTHER = re.compile(
    r"(?<![a-z])(?:reference|ref|sensor|signal|cell|cells|hv|high[ -]voltage|traction|pack|hochvolt|haute tension|"
    r"alta tension|lambda|o2|oxygen|lin|can[ -]?[hl]?|limit|threshold|below|above|under|over|less than|more than|"
    r"schwelle|"
    r"unter|uber|seuil|umbral|spec|target|soll|nominal|setpoint|expected|drop|ripple|pedal|throttle|maf|map|heater|"
    r"glow|"
    r"ground|resistor|diode|>=?|<=?|max allowed|regulator|setting)(?![a-z])|[<>]"
)
_DEVICE_AFTER = re.compile(
    r" ?(?:charger|support|supply unit|power supply|jump pack|booster|ladegerat|chargeur|cargador)(?![a-z])"
)
_VEHICLE = re.compile(
    r"(?<![a-z])(?:van|truck|lorry|car|bus|vehicle|tractor|petrol|diesel|gasoline|electric|hybrid|agm|flooded|"
    r"transporter|lieferwagen|lkw|pkw|fahrzeug|benzin|benziner|fourgon|camion|voiture|vehicule|essence|furgoneta|"
    r"coche|vehiculo|gasolina)(?![a-z])"
)
_BREAK = re.compile(r"[;|\n]|[.,](?=\s)|(?<=\s)[-/](?=\s)")
_STATE_WORDS = re.compile(
    r"(?<![a-z])(?:off|running|idle|idling|koeo|koer|key|ign|ignition|engine|motor|moteur|"
    r"scan|clear|run|"
    r"charger|connected|jump|pack|with|at|on|now|then|start|after|before|and|mit|avec|con)(?![a-z])"
)


def is_label(low: str) -> bool:
    """Whether the whole of ``low`` says that a supply voltage follows."""
    return _LABEL.fullmatch(low.strip(" .:=")) is not None


def find(low: str) -> list[Volt]:
    """The voltages of one line of text in small letters. Linear in its length."""
    if _DIGIT.search(low) is None:
        return []
    has_unit = "v" in low
    found: list[Volt] = []
    taken = bytearray(len(low))
    last = 0
    if has_unit:
        for match in _VALUE.finditer(low):
            if match[4] is not None:
                value = int(match[4]) / 1000
            else:
                value = float((match[1] or f"{match[2]}.{match[3]}").replace(",", "."))
            found.append(_judged(low, match.start(), match.end(), value, last))
            last = match.end()
            taken[match.start() : last] = b"\1" * (last - match.start())
    if "." in low or "," in low or has_unit or "b" in low or "k" in low or "t" in low:
        for match in _UNITLESS.finditer(low):
            if 1 in taken[match.start(1) : match.end(1)]:
                continue
            value = float(match[1].replace(",", "."))
            volt = _judged(low, match.start(1), match.end(1), value, max(0, match.start() - 24))
            found.append(
                Volt(volt.start, volt.end, value, "supply" if volt.of in ("bare", "nominal") else volt.of, True)
            )
    return sorted(found, key=lambda volt: volt.start)


def _describes(low: str, start: int, end: int, value: float, label: bool) -> bool:
    """Whether a round 12 or 24 V belongs to a description ("delivery van, petrol, 12 V", "12 V charger connected")."""
    if value not in (6, 12, 24, 48) or "." in low[start:end] or "," in low[start:end]:
        return False
    if _DEVICE_AFTER.match(low, end):
        return True
    first = max(0, start - 80)
    sentence = low[max(low.rfind(". ", first, start), low.rfind(";", first, start), first) : start]
    return not label and _VEHICLE.search(sentence) is not None


def _judged(low: str, start: int, end: int, value: float, last: int) -> Volt:
    """What one voltage is of, by the words around it in its own clause."""
    before = low[max(last, start - 48) : start]
    # Look back no further than the last break, unless nothing but the break stands there.
    own = before
    for mark in _BREAK.finditer(before):
        own = before[mark.end() :]
    if own is not before and not own.strip(" :=~(@"):
        own = ""
    for mark in reversed(list(_BREAK.finditer(before))):
        if before[mark.end() :].strip(" :=~(@"):
            before = before[mark.end() :]
            break
    after = low[end : end + 28]
    cut = _BREAK.search(after)
    after = after[: cut.start()] if cut is not None else after
    label = _LABEL.search(before) is not None or _LABEL.search(after) is not None
    if _describes(low, start, end, value, label):
        return Volt(start, end, value, "nominal", True)
    if _NOMINAL_AFTER.match(low, end) or _NOMINAL_BEFORE.search(before):
        return Volt(start, end, value, "nominal" if value in (6, 12, 24, 48) else "supply", True)
    if _OTHER.search(own) or re.match(r"[ ]?(?:reference|ref|supply [ab12]|sensor|signal|limit)(?![a-z])", after):
        return Volt(start, end, value, "other", label)
    lowest = _LOWEST.match(after.lstrip(" (,"))
    # "14.2 V (lowest 12.3 V)": the word belongs to the number behind it.
    if lowest is not None and re.match(r"[ :=~]*[0-9]", after.lstrip(" (,")[lowest.end() :]):
        lowest = None
    if _LOWEST.search(before) or lowest is not None:
        return Volt(start, end, value, "lowest", True)
    if _END.search(before) or _END.match(after.lstrip(" (")):
        return Volt(start, end, value, "end", True)
    if label:
        return Volt(start, end, value, "supply", True)
    words = re.sub(r"[^a-z ]", " ", own).split()
    plain = not words or _STATE_WORDS.search(words[-1]) is not None or len(words[-1]) <= 2
    return Volt(start, end, value, "bare" if plain else "named", False)
