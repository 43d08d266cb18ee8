"""Numbers by which a vehicle is told from all others, and what was built into it, at the head of a scan. In their
labels a module's name may stand ("Chassis no. 572092", "Engine no. 33812", "Transmission: automatic").
"""

from __future__ import annotations

from triage.intake.plain.characters import has_digit
from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered

_NUMBER_WORD = (
    r"(?:[ -]?(?:serial |ident(?:ification)?[ -]?)?(?:number|nummer|no|nr|num|id)|[ -]serial|[ ](?:de )?serie)"
)
#: By these the vehicle is told from all others; the name of a module stands in some of them.
_OF_VEHICLE = (
    r"(?:chassis|frame|fahrgestell|fahrzeug(?:[ -]?ident)?|fz[ .-]{0,2}ident|fg(?:st)?|bastidor|cuadro|rahmen|vin|"
    r"v\.i\.n|fin|vehicle|vehicule|vehiculo|truck|lorry|van|car|bus|wagen|fleet|flotten?|asset|plant|machine|maschinen?)"
)
_PART = (
    r"(?:engine|motor|moteur|gearbox|transmission|getriebe|boite|caja|axle|achs|achse|body|cab|cabin|karosserie|aufbau|"
    r"carroceria|carrosserie|trailer|anhanger|remorque|remolque|key|schlussel|radio|tachograph)"
)
#: Its digits: a VIN, or a shorter number.
_VALUE = r"[a-z]{0,4}[ -]?[0-9][a-z0-9./ -]{2,24}"
#: A letter more or less is a slip.
_VIN = r"(?=[a-z]{0,12}[0-9])[a-z0-9]{14,20}"
_STOP = r"(?=\s*(?:$|[,;|(]|\s{2}|\s-\s|\t))"
_NUMBERED = rf"{_NUMBER_WORD}\.?\s{{0,2}}[:=#]?\s{{0,2}}"
_BEFORE = r"(?:n[o\u00b0.]{1,2}|no\.|nr\.?|num(?:ero)?\.?) ?(?:de |du |del |d')?(?:la |le )?"
#: "chassis no. ...", "n° de chassis ...", "chassis n° ...", and a VIN behind the word alone.
_VEHICLE = lazily(
    rf"(?:(?:{_OF_VEHICLE}{_NUMBERED}|{_BEFORE}{_OF_VEHICLE}\s?[:=]?\s{{0,2}}|"
    rf"{_OF_VEHICLE} ?n[o\u00b0.]{{1,2}}\s?[:=]?\s?)"
    rf"(?:{_VIN}|{_VALUE}){_STOP}|{_OF_VEHICLE}\s{{0,2}}[:=]?\s{{0,2}}{_VIN}{_STOP})"
)
_OF_PART = lazily(
    rf"(?:{_PART}{_NUMBERED}|{_BEFORE}{_PART}\s?[:=]?\s{{0,2}}|{_PART} ?n[o\u00b0.]{{1,2}}\s?[:=]?\s?)"
    rf"{_VALUE}{_STOP}"
)
#: What was built into the vehicle: "Transmission: automatic".
_BUILT = lazily(
    r"(?:transmission|gearbox|getriebe|boite(?: de vitesses)?|caja(?: de cambios)?|cambio|transmision)\s?[:=-]\s?"
    r"(?:[0-9]{1,2}[ -]?(?:speed|gang|vitesses|velocidades)[ -]{0,2})?"
    r"(?:auto(?:mati(?:c|k|que|ca|co|kgetriebe))?|manual|manuelle?|schalt(?:er|getriebe|ung)?|cvt|dct|dual clutch|"
    r"[0-9]{1,2}[ -]?(?:speed|gang|vitesses|velocidades))[ .]?$"
)


@remembered
def of_vehicle(low: str) -> str:
    """Whether a line begins with a number of the vehicle, in whose label the name of a module may stand: "sure",
    "likely" where it may be the number of a control unit too, or "".

    >>> told = ("chassis no. xxab5h3rv3la572092", "n° de chassis : 572092", "engine no. 33812", "chassis", "engine 2")
    >>> [of_vehicle(low) for low in told]
    ['sure', 'sure', 'likely', '', '']
    """
    if not has_digit(low):
        return "sure" if _BUILT.match(low) is not None else ""
    if len(low) > 160:
        return ""
    if _VEHICLE.match(low) is not None or _BUILT.match(low) is not None:
        return "sure"
    return "likely" if _OF_PART.match(low) is not None else ""
