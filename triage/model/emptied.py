"""What somebody says emptied a battery while the vehicle stood: a consumer left on, many tries to start, a long stand.

With the cause told nobody measures the current with the key off for it first; only a battery that goes flat once more
asks for that (common practice). All in four languages.
"""

from __future__ import annotations

import re

from triage.model.session import Session

_CONSUMER = (
    r"(?:(?:interior|boot|dome|cabin|reading|side|parking|head|hazard|work)[ -]?)?(?:lights?|lamps?)|headlights?|"
    r"hazards?|radio|stereo|heater|blower|fridge|cool ?box|ignition|key|inverter|dash ?cam|tail ?lift")
_LONG = (r"(?:all|over|for|since|the whole) (?:the |a |an |one |two |three )?"
         r"(?:night|day|week(?:end)?s?|hours?|month|friday)")
_COUNT = r"(?:[0-9]{1,2}|a few|some|several|two|three|four|six|many)"
_EMPTIED = re.compile(
    rf"(?<![a-z])(?:(?:{_CONSUMER}) (?:(?:was|were|been|had been) )?(?:left |kept )?on (?:{_LONG}|overnight)|"
    rf"(?:{_CONSUMER}) (?:(?:was|were|been|had been) )?(?:left|kept|stayed) (?:on(?! the )|running)|"
    rf"left (?:the |its |his |her )?(?:{_CONSUMER}) (?:on(?! the )|running)|"
    rf"(?:because|b/c|cos|due|from|by) (?:of |to )?(?:the |all the |a )?(?:{_CONSUMER})(?=[.,;]|$)|"
    r"(?:from|after|by|with) (?:all )?(?:the |that )?(?:long |endless |much |so much )?cranking|"
    r"(?:door|boot|tailgate|hatch|bonnet) (?:was |were )?(?:left |not )?(?:open|ajar|shut) (?:all|over ?night)|"
    r"(?:stood|standing|sat|parked|stored|laid up|unused|not (?:used|driven|run)|off the road) (?:unused |up )?"
    rf"(?:for |since )?(?:over |about |nearly )?(?:{_COUNT} |the |a )?(?:weeks?|months?|years?|winter)|"
    r"(?:licht|innenlicht|standlicht|radio|z[uü]ndung|warnblinker|standheizung|k[uü]hlbox) (?:war |ist |hat )?"
    r"(?:(?:die ganze nacht|das ganze wochenende|[uü]ber nacht|nachts) (?:an|gebrannt|gelaufen)|an ?gelassen|brannte|"
    r"lief durch|an geblieben|blieb an)|durch (?:das |das viele |langes )?(?:orgeln|anlassen)|"
    r"(?:stand|gestanden|stillgelegt) (?:seit )?(?:[0-9]{1,2}|einige|mehrere|zwei|drei) (?:wochen|monate)|"
    r"(?:phares?|feux|veilleuses?|plafonnier|contact|autoradio|chauffage) (?:est |sont )?(?:rest[ée]e?s? "
    r"(?:allum[ée]e?s?|mis|branch[ée]e?s?)|allum[ée]e?s? (?:toute la nuit|tout le week-?end))|"
    r"(?:immobilis[ée]e?|arr[eê]t[ée]e?|pas roul[ée]) (?:depuis |pendant )?(?:[0-9]{1,2}|quelques|plusieurs) "
    r"(?:semaines|mois)|luz (?:interior|de techo) encendida|"
    r"(?:luces|faros|luz|radio|contacto|calefacci[oó]n) (?:se )?(?:qued(?:[oó]|aron) (?:encendid[oa]s?|puest[oa]s?)|"
    r"(?:encendid[oa]s?|puest[oa]s?) toda la noche)|"
    r"(?:parad[oa]|sin usar|sin mover) (?:desde hace |durante )?(?:[0-9]{1,2}|unas|varias|dos|tres) (?:semanas|meses))"
    r"(?![a-z])")
_DENIED = re.compile(r"(?<![a-z])(?:no|not|nothing|never|nicht|nichts|kein\w*|rien|pas|nada|ninguna?)"
                     r"(?: \w+){0,2}$")
_LONGEST = 600


def emptied_by(session: Session) -> str | None:
    """The words that say what emptied the battery; None where nobody says it.

    >>> from triage.model.session import Vehicle
    >>> [emptied_by(Session(job="j", snapshots=[], vehicle=Vehicle(complaint=said))) for said in (
    ...     "interior light on all weekend, just clicks", "died flat last night b/c of the heater", "ABS lamp on",
    ...     "battery flat from all the cranking", "stood for 6 weeks", "nothing left on, flat again")]
    ['interior light on all weekend', 'b/c of the heater', None, 'from all the cranking', 'stood for 6 weeks', None]
    """
    vehicle = session.vehicle
    notes = [event.note for event in session.events or ()]
    for said in (vehicle.complaint, vehicle.label, *notes) if vehicle is not None else notes:
        low = (said or "")[:_LONGEST].lower()
        for found in _EMPTIED.finditer(low):
            if _DENIED.search(low[:found.start()].rstrip()) is None:
                return found[0]
    return None


__all__ = ["emptied_by"]
