"""Things a report tells of beside the modules, of which "none" or "ok" is said too: "Test drive: none", "Fuses: ok".

>>> [alone(low) for low in ("test drive: none", "fuses checked - ok", "probefahrt: keine")]
['test drive', 'fuses checked', 'probefahrt']
>>> [alone(low) for low in ("sunroof: none", "test drive: p0562", "lamps: no response", "fuse box: ok")]
['', '', '', '']
>>> [alone(low) for low in ("sicherung f15 15 a in ordnung", "checked: fuses and relays ok")]
['sicherung f15 15 a', 'checked: fuses and relays']
"""

from __future__ import annotations

from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered
from triage.intake.said.answers import answer_of_cell

_WORK = (
    r"(?:(?:previous|earlier|recent|other|prior|any|recommended|further) )?(?:work|repairs?|jobs?|parts? (?:fitted|"
    r"replaced|changed)|"
    r"modifications?|conversions?|accessories|aftermarket(?: (?:parts|equipment|devices))?|extras|recalls?|campaigns?|"
    r"bulletins?|updates?|actions?|accident damage|water (?:damage|ingress)|damage)(?: (?:done|open|pending|needed|"
    r"found))?"
)
_DRIVE = (
    r"(?:test[ -]?drive|road[ -]?test|test[ -]?run|warm[ -]?up|key cycles?|probefahrt|testfahrt|essai(?: routier|"
    r" sur route)?|"
    r"prueba(?: de carretera| en carretera)?)"
)
_SUPPLY = (
    r"(?:(?:outside|external|extra|additional) (?:supply|power|voltage)|support (?:supply|voltage)|jump[ -]?start|"
    r"fremdspannung|externe versorgung|fremdstart|starthilfe|alimentation externe|alimentacion externa|"
    r"(?:battery|batt|batterie|bateria) (?:condition|state|test|health|terminals?|posts?|clamps?|connections?|"
    r"zustand|test|pole|"
    r"klemmen|etat|estado|bornes)|(?:charging|ladung|charge|carga)(?: system)?(?: test)?)"
)
_LOOKED_AT = (
    r"(?:(?:main |all )?fuses?(?: checked)?|sicherungen|fusibles|grounds?(?: (?:straps?|cables?|points?|checked))?|"
    r"earths?(?: (?:straps?|leads?|points?|cables?|checked))?|ground straps?|massepunkte|massen?|masses|masas|"
    r"(?:drive|alternator|fan|serpentine|aux(?:iliary)?) ?belts?|keilriemen|courroie(?: d'accessoires)?|correa|"
    r"(?:wiring|connectors?|connections?|harness|cables?|plugs)(?: checked)?|visual(?: (?:check|inspection))?|"
    r"sichtprufung|"
    r"(?:oil|coolant|fluid|fuel|brake fluid|adblue) levels?|olstand|kuhlmittelstand|niveaux?(?: d'huile)?|"
    r"nivel(?:es)?(?: de aceite)?|"
    r"tyres?(?: pressures?)?|tires?|reifen|pneus|neumaticos|"
    r"(?:warning |dash(?:board)? |engine )?(?:lights?|lamps?|indicators?)(?: on| lit)?|warnleuchten|kontrollleuchten|"
    r"voyants(?: allumes)?|testigos(?: encendidos)?|key position|ignition(?: state)?|odometer)"
)
_DATA = (
    r"(?:freeze[ -]?frames?(?: data)?|readiness(?: (?:monitors?|tests?))?|monitors?|live data|screenshots?|photos?|"
    r"attachments?|"
    r"customer (?:complaints?|concerns?)|complaints?|concerns?|symptoms?|comments?|remarks?|notes?|beanstandungen|"
    r"bemerkungen|"
    r"anmerkungen|umbauten|nachrustungen|zubehor|vorarbeiten|reparaturen|ruckrufe|freeze-frame-daten|remarques?|"
    r"plaintes?|"
    r"modifications|travaux(?: anterieurs)?|accessoires|rappels|trames figees|observaciones|quejas|modificaciones|"
    r"accesorios|"
    r"reparaciones|trabajos(?: previos)?|campanas|llamadas)"
)
_THING = lazily(
    rf"({_WORK}|{_DRIVE}|{_SUPPLY}|{_LOOKED_AT}|{_DATA})\s*(?:[:=]|\.{{2,}}|\s-+\s|\s{{2,}}|\t|\|)\s*(?=\S)"
)
#: What has no memory for faults, with its number and its rating, and what leads to it on a sheet of tests.
_NUMBER = r"(?: ?(?:no\.?|nr\.?|#)? ?[a-z]{0,3}[0-9]{1,3}[a-z]?)?(?: ?[(]?[0-9]{1,3} ?a(?:mps?)?[)]?)?"
_PLAIN_PART = (
    r"(?:(?:the |all |main |every |die |alle |haupt|les |tous les |toutes les |las |los |todos los |todas las ){0,2}"
    r"(?:fuses?|sicherung(?:en)?|fusibles?|relays?|relais|reles?|grounds?(?: (?:straps?|cables?|points?))?|"
    r"earths?(?: (?:straps?|leads?|points?|cables?))?|masse(?:n|punkte?|kabel|band|s)?|masas?|"
    r"(?:drive |alternator |fan )?belts?|(?:keil|rippen)riemen|courroies?|correas?|wiring|harness|cables?|"
    r"kabel(?:baum)?|leitung(?:en)?|faisceau|cableado|connectors?|stecker|steckverbindung(?:en)?|connecteurs?|"
    r"conector(?:es)?|brake (?:fluid|pads)|bremsflussigkeit|bremsbelage|bulbs?))"
)
_TESTED = (
    r"(?:(?:checked|tested|inspected|verified|(?:ge|uber)pruft|geprueft|kontrolliert|prufung|pruefung|test|"
    r"controles?e?s?|verifiee?s?|comprobad[oa]s?|revisad[oa]s?|verificad[oa]s?)(?: ?[:-] ?| )?)"
)
_LOOKED_AT_ALONE = lazily(
    rf"({_TESTED}?{_PLAIN_PART}{_NUMBER}(?:(?: ?[,/&+] ?| and | und | et | y ){_PLAIN_PART}{_NUMBER}){{0,4}}"
    rf"(?: {_TESTED})?|[a-z][a-z /-]{{2,40}}[:=]? ?[0-9]{{1,4}}(?:[.,][0-9]{{1,3}})? ?(?:k?ohms?|bar|psi|mm|amps?))"
    r"\s*[:=,-]{0,2}\s*(?<![a-z0-9])(?:(?:is|are|all|looks?|seems?|tests?|still|ist|sind|est|sont|son|"
    r"esta|estan) ){0,2}(?:ok(?:ay)?|good|fine|"
    r"pass(?:ed)?|in ordnung|i\.? ?o\.?|gut|bon(?:ne)?s?|bien|correct(?:[oa]|e)?s?|conformes?|en orden|"
    r"buen[oa]s?)[ .!]*"
)
#: One of those by its number, or a place of the workshop, and no more: "Fuse F21, 10A", "Ground point G101", "Bay 4".
_PART_ALONE = lazily(
    rf"(?:{_PLAIN_PART}|bay|lane|key tag|"
    rf"(?:hebebuhne|buhne|pont|poste)(?!\W*[pcbu] ?[0-3][0-9a-f]{{3}}))(?=[^0-9]*[0-9])[ .:,-]{{0,2}}"
    r"(?:(?:no\.?|nr\.?|#|pin|slot|lane|bay)? ?[(]?[a-z]{0,3}[0-9]{1,4}[a-z]?(?: ?a(?:mps?)?)?[)]?[ .:,/-]{0,2}){1,4}"
)
_LONGEST = 70


@remembered
def is_part(low: str) -> bool:
    """Whether a line is a thing without a memory for faults, with its number or rating: no name of a module.

    >>> [is_part(low) for low in ("fuse f21, 10a", "relay k12", "fuse box", "fuse box 2 left", "fusible f12 (15 a)")]
    [True, True, False, False, True]
    """
    return len(low) <= _LONGEST and _PART_ALONE.fullmatch(low) is not None


@remembered
def alone(low: str) -> str:
    """What a line tells that there is nothing of, or that it is in order; "" where it tells anything else. A module
    that did not answer is none of them."""
    if len(low) > _LONGEST:
        return ""
    match = _LOOKED_AT_ALONE.fullmatch(low)
    if match is not None:
        return match[1].strip(" :=,-")
    match = _THING.match(low) if any(mark in low for mark in (":", "=", "  ", "\t", "|", "..", " -")) else None
    if match is None or answer_of_cell(low[match.end() :]) not in ("clean", "not fitted", "not scanned"):
        return ""
    return match[1]
