"""Leads, fluids and belts that are called by what they join or run in: "ground strap engine to body", "engine oil".

What is spoken of is the strap or the oil; the engine, the body or the gearbox beside it are places.

>>> def told(low): return [low[start:end] for start, end in find(low)]
>>> told("engine to body ground strap replaced"), told("ran out of engine oil, replaced"), told("engine replaced")
(['engine to body ground strap'], ['engine oil'], [])
>>> told("cambiada la trenza de masa motor-carroceria"), told("masse moteur-carrosserie remplacee")
(['trenza de masa motor-carroceria'], ['masse moteur-carrosserie'])
>>> told("filtre a huile moteur remplace"), told("sensor de aceite sustituido")
([], [])
>>> told("replaced body control module, ground strap"), told("engine oil pressure sensor replaced")
(['ground strap'], [])
"""

from __future__ import annotations

from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered

_LEADS = (
    r"(?:(?:la |de |du )?(?:tresse|cable|fil)s? de (?:la )?masse|(?:trenza|cinta|malla|cable)s? de (?:la )?masa|"
    r"(?:ground(?:ing)?|earth(?:ing)?|bonding|battery|starter|alternator|generator|charge|main|negative|positive|neg|pos|"
    r"b ?[+-]) ?(?:strap|braid|cable|lead|wire|point|connection)s?|(?:jumper |ground |earth )?(?:straps?|braids?|"
    r"leads?)|"
    r"cables?|grounds?|earths?|"
    r"masse(?:band|bander|kabel|leitung|verbindung|punkt|anschluss)?|(?:plus|lade|anlasser|batterie)(?:kabel|leitung)|"
    r"tresses?|masses?|trenzas?|masas?)")
_FLUIDS = (
    r"(?:(?:gear(?:box)?|motor|hydraulic|steering|brake|transmission|power steering|washer) ?(?:oil|fluid)|oil|coolant|"
    r"antifreeze|fluid|atf|grease|"
    r"(?:motor|getriebe|servo|hydraulik|achs)?(?:oel|ol)|kuhl(?:mittel|wasser|flussigkeit)|bremsflussigkeit|"
    r"huile|liquides?(?: de (?:frein|refroidissement|direction))?|"
    r"aceite|liquido(?: de (?:frenos?|direccion))?|refrigerante|anticongelante)")
_BELTS = (r"(?:(?:drive |fan |aux(?:iliary)? |timing |v-?|serpentine |poly ?-?v ?|cam ?)?belts?|"
          r"(?:keil|zahn|antriebs|rippen|keilrippen)?riemen|courroies?(?: d'accessoires| de distribution)?|"
          r"correas?(?: de (?:accesorios|distribucion))?)")
#: Where leads are bolted, fluids run and belts turn.
_PLACE = (
    r"(?:engine|motor|moteur|block|motorblock|bloc|bloque|body|bodywork|bodyshell|shell|karosserie|karo|caisse|carrosserie|"
    r"carroceria|gearbox|transmission|getriebe|boite(?: de vitesses)?|caja(?: de cambios)?|chassis|chasis|fahrgestell|"
    r"frame|"
    r"rahmen|cab|kabine|cabine|cabina|battery|batterie|bateria|alternator|generator|lichtmaschine|alternateur|"
    r"alternador|starter(?: motor)?|anlasser|demarreur|arranque|bulkhead|spritzwand|axle|achse|fuse ?box|abs)"
    r"(?! (?:control|module|modul|unit|ecu|computer|steuergerat|calculateur|centralita|sensor|pump))")
_JOIN = (r"(?:to|and|between|of|from|for|on|at|in|the|und|zwischen|an|am|zum|zur|von|der|die|den|dem|et|entre|a|au|de|"
         r"du|des|la|le|les|y|el|al|del|->)")
_GAP = r"(?: ?[-/] ?| |')"
_WORD = rf"(?:{_PLACE}|{_JOIN})"
#: Behind the head noun: no part that is only called by it ("oil pressure sensor", "belt tensioner").
_NO_PART = (r"(?![a-z])(?!-?[a-z])(?! (?:pressure|level|temp\w*|sensor|pump|filter|cooler|switch|module|control|unit|"
            r"tensioner|"
            r"fuse|relay|fault|drop|resistance|leak|light|lamp|warning|circuit|test|is|was (?:ok|fine|good)|ok|"
            r"good)(?![a-z]))")
_PHRASE = lazily(rf"(?<![a-z])(?<! a )(?<! de )(?<! du )(?<! d')(?<! del )"
                 rf"(?:{_PLACE}{_GAP}(?:{_WORD}{_GAP}){{0,5}}|)(?:{_LEADS}|{_FLUIDS}|{_BELTS}){_NO_PART}"
                 rf"(?:{_GAP}(?:{_JOIN}{_GAP}){{0,3}}{_PLACE}(?![a-z])){{0,3}}")
_SIGNS = lazily(
    r"strap|braid|lead|cable|ground|earth|wire|mass|masa|kabel|leitung|tresse|fil|trenza|cinta|malla|oil|fluid|coolant|antifr|"
    r"atf|grease|oel|ol(?![a-z])|kuhl|flussig|huile|liqui|aceite|refriger|congel|belt|riemen|courroie|correa")


@remembered
def find(low: str) -> tuple[tuple[int, int], ...]:
    """The places of such phrases in a line in small letters, the places that they join among their words."""
    if len(low) > 400 or _SIGNS.search(low) is None:
        return ()
    return tuple(match.span() for match in _PHRASE.finditer(low))


#: Between a deed and what it was done to.
_BESIDE = lazily(r"\s?(?:(?:the|a|an|new|both|all|das|die|der|den|ein|eine|neue?[nrs]?|la|le|les|l'|une?|el|los|las|"
                 r"was|were|has been|is|now|wurde|ist|a ete|est|fue|por) ?){0,3}")
_AND = lazily(r"(?<![a-z])(?:and|und|et|y|plus|with|mit|avec|con)(?![a-z])|[+&]")


def beside(low: str, phrase: tuple[int, int], deed: tuple[int, int], last: int) -> bool:
    """Whether a phrase is all that a deed, at its place, was done to: it stands right before or behind it, and its
    clause, which ends at ``last``, names no second thing with it."""
    if phrase[0] <= deed[0] < phrase[1] or phrase[0] < deed[1] <= phrase[1]:
        return False
    gap = (phrase[1], deed[0]) if phrase[1] <= deed[0] else (deed[1], phrase[0])
    return _BESIDE.fullmatch(low, *gap) is not None and _AND.search(low, phrase[1], last) is None


__all__ = ["beside", "find"]
