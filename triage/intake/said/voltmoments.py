"""When a vehicle had a voltage, by the words beside it: before the battery was charged, at the scan, or when a code was
set.

>>> low = "found the battery at 9.8v when i got there, put a charger on, now 12.4v"
>>> moment(low, 21, 25), moment(low, 66, 71)
('earlier', 'now')
>>> at_fault("voltage when code was set 9.6 v", 26, 31), at_fault("voltage when codes were read 11.6 v", 29, 35)
(True, False)
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Literal

from triage.intake.plain.patterns import lazily

Moment = Literal["earlier", "now", "scan", "charged", "another day", ""]

#: What feeds a vehicle from outside, in one word.
_DEVICE = (
    r"(?:charger|booster|jump[ -]?(?:pac?k|starter|box)|pack|b(?=o+s)[ost]{2,5}e?r|boost(?:ing)?|support|"
    r"(?:jump )?leads|ladegerat|starthilfe|"
    r"chargeur|cargador|arrancador)"
)
#: When the battery was seen before it was charged for the scan.
_EARLIER = (
    r"(?:wh?en (?:i|we) (?:first )?(?!read|scan|clear|check|measur|test|ran|start|crank|drove|left|finish|was|"
    r"were|had)[a-z]{3,9}"
    r"(?: (?:there?|here|it|in|out|to|up|her|him|them))*|"
    r"(?:on|at|upon) (?:my |our )?arrival|found (?:it |the (?:battery|car|van|truck|vehicle) )?(?:sitting )?(?:at|"
    r"with)|"
    r"this morning|yesterday|last night|(?:before|prior to) (?:the )?(?:charg(?:e|er|ing)|jump(?:ing)?|boost(?:ing)?)|"
    r"at first|to (?:begin|start) with|initially|originally|(?:(?:dead|stone|completely) )?flat(?: at| on)?|found at|"
    r"arrived (?:to|at)(?= )|(?:batt(?:ery)?|it|van|car|truck|stone|completely|totally) (?:was |is )?dead|"
    r"dead (?:at|on)|"
    rf"before (?:i|we|he|she|they) (?:had )?(?:put|connected|hooked(?: up)?|clipped|stuck|attached|got) (?:on )?"
    rf"(?:the |a |an |any |my |our ){{0,2}}{_DEVICE}(?: (?:on|up|to))?|"
    rf"bevor (?:ich|wir) (?:das |den |die |ein |mein ){{0,2}}{_DEVICE}|"
    rf"avant (?:de (?:mettre|brancher|poser|connecter)|que je (?:mette|branche)) (?:le |un |mon )?{_DEVICE}|"
    rf"antes de (?:poner|conectar|enchufar) (?:el |un |mi )?{_DEVICE}|"
    rf"(?:before|prior to|without|w/o|ohne|vor|avant|sans|antes del?|sin) (?:(?:the|a|an|any|my|dem|das|der|le|"
    rf"la|el) )?{_DEVICE}|"
    r"(?:bei|zu) (?:meiner |unserer |der )?ankunft|beim (?:ankommen|eintreffen)|"
    r"als (?:ich|wir) (?:ankam(?:en)?|kam(?:en)?|dort ankam)|"
    r"heute (?:morgen|fruh)|"
    r"gestern|vor dem (?:auf)?laden|zuerst|anfangs|vorgefunden|"
    r"a (?:mon|notre|l') ?arrivee|en arrivant|quand (?:je suis|nous sommes) arrives?|ce matin|hier|avant (?:la |"
    r"de )?(?:re)?charger?|"
    r"au debut|initialement|"
    r"al llegar|a (?:mi|nuestra) llegada|cuando (?:llegue|llegamos)|esta manana|ayer|antes de (?:la carga|"
    r"cargar(?:la)?)|"
    r"al principio|inicialmente)"
)
_NOW = (
    r"(?:now|right now|currently|at (?:the )?(?:time|moment|start) of (?:the |this |my )?(?:scan(?:ning)?|"
    r"read(?:ing|out)?)|"
    r"(?:at|for|during|on|before|while|when) (?:the |this )?(?:scan(?:s|ned|ning)?|read(?:ing|-?out)?)|then scanned|"
    r"(?:with|on|w/) ?(?:the |a )?(?:(?:battery )?charger|jump[ -]?(?:pack|starter)|booster|maintainer|"
    r"power supply)(?: on)?|(?:with|w/|mit|avec|con)(?: (?:it|one|ihm|lui|el))?(?=\s*(?:[.,;)]|$))|"
    r"(?:alles |komplett )?(?:aus)?gelesen|"
    r"(?:afterwards|after|danach|ensuite|apres|despues|luego)(?=\s*(?:[.,;)]|$))|"
    r"jetzt|nun|aktuell|(?:beim|zum|wahrend des) (?:scan(?:nen)?s?|auslesen)|"
    r"(?:mit|am) (?:dem )?ladegerat|"
    r"maintenant|actuellement|(?:au moment|lors|pendant) (?:du scan|de la lecture)|"
    r"(?:avec|sur) (?:le )?chargeur|"
    r"ahora|actualmente|(?:al|durante el) (?:escanear|escaneo)|(?:en el momento|durante) (?:del escaneo|de la lectura|"
    r"la lectura)|(?:con|en) (?:el )?cargador)"
)
#: What it had then was lower before.
_CHARGED = (
    r"(?:after (?:the |a |an )?(?:overnight )?(?:re)?(?:charg(?:e|ing)|jump(?:ing)?)|"
    r"(?:(?:re)?charged|boosted|jumped) (?:it |the battery )?(?:up )?(?:to|overnight to)|"
    r"nach dem (?:auf)?laden|(?:auf)?geladen auf|apres (?:la )?(?:re)?charger?|(?:re)?charge[e]? (?:jusqu')?a|"
    r"despues de (?:la carga|cargar(?:la)?)|cargad[oa] (?:a|hasta)|tras (?:la carga|cargar(?:la)?))"
)
#: Behind one that a battery had at rest, or before "then", that a charger went on: it was read before that.
_SUPPORT = (
    r"(?:(?:the |a |my |our |put |connected |hooked up |fitted |switched |supporting |support |battery |bench )"
    r"{0,4}(?:charger|power supply|supply unit|maintainer|jump[ -]?pack|booster|support)"
    r"(?: (?:was |is |went )?(?:put )?(?:on|connected|attached|hooked up|fitted))?)"
)
_RESTED = r"(?:rested|resting|at rest|standing|static|off[ -]load|unloaded|without (?:a |the )?charger)"
_THEN = r"(?:[,;. ]{1,3}|\s-\s)(?:and )?"
_SUPPORTED_LATER = lazily(
    rf"[ ]?(?:v(?:olts?)?(?![a-z]))?[ (]{{0,2}}(?:{_RESTED}[)]?{_THEN}(?:then )?|{_THEN}then ){_SUPPORT}(?![a-z])"
)
#: "Reading at 13.4 V" that begins its clause, "then put the charger on: 13.4 V"
_READ_AT = lazily(
    r"(?:(?:^|[.;,(:]\s)(?:then |now |and )?(?:gelesen bei|(?:tout |todo )?(?:lue?s?|leid[oa]s?) a|"
    r"(?:reading|scan|scanned|scanning|(?:all )?read(?:-?out)?|codes read)(?: (?:everything|all|it|them|the lot|"
    r"all of it|was|is|done)){0,2}(?: (?:with|on|under)(?: [a-z]{1,10}){1,3})? at) |"
    rf"(?<![a-z])then {_SUPPORT}[:,] ?(?:now )?)$"
)
#: Something feeds the vehicle at what stands behind: "put a charger on it, 12.9", "booster dran 12,5".
_FED = lazily(
    rf"(?<![a-z])(?<!no )(?<!kein )(?<!keine )(?<!sans )(?<!sin ){_DEVICE}(?: (?:is|was|still|now|just|hooked|"
    rf"noch|jetzt|toujours))* (?:on|up|connected|dran|drauf|an|"
    r"angeklemmt|angeschlossen|branche|conectado|puesto)(?: (?:it|there|since|now))*(?:[,;:.]| -)?"
    r"(?: (?:then|dann|danach|nun|puis|ensuite|luego))?"
    r"(?:,? ?(?:and|so|which|und|et|y)? ?(?:(?:i|we|it|that|es|das|ich) |j')?(?:got|gave(?: me)?|have|had|saw|read|"
    r"showed|came up to|went (?:up )?to|brought it (?:up )?to|hatten?|gab|zeigte|kam auf|avai[st]|donnait|"
    r"tenia|daba))? ?$"
)
#: Days and weeks before the scan.
_ANOTHER_DAY = lazily(
    r"(?<![a-z])(?:last (?:week|month|year|winter|summer|service|visit|time)|(?:[0-9]{1,2}|a few|some|two|three) "
    r"(?:days?|weeks?|months?|years?) ago|the other day|"
    r"letzte[nrs]? (?:woche|monat|jahr|winter|sommer|mal)|vor (?:[0-9]{1,2}|einigen|ein paar|zwei|"
    r"drei) (?:tagen|wochen|"
    r"monaten|jahren)|(?:la )?(?:semaine|annee|fois) derniere|(?:le )?mois dernier|il y a (?:[0-9]{1,2}|"
    r"quelques|deux|trois) "
    r"(?:jours|semaines|mois|ans)|(?:la )?semana pasada|(?:el )?(?:mes|ano) pasado|hace (?:[0-9]{1,2}|unos|dos|tres) "
    r"(?:dias|semanas|meses|anos))(?![a-z])"
)
_CHARGED_SAID = lazily(rf"(?<![a-z]){_CHARGED}(?![a-z])")
_EARLIER_SAID = lazily(rf"(?<![a-z]){_EARLIER}(?![a-z])")
_NOW_SAID = lazily(rf"(?<![a-z]){_NOW}(?![a-z])")
_MOMENTS: tuple[tuple[Moment, re.Pattern[str]], ...] = (
    ("earlier", _EARLIER_SAID), ("charged", _CHARGED_SAID), ("now", _NOW_SAID),
)
_TODAY = lazily(r"(?<![a-z])(?:now|currently|jetzt|nun|maintenant|ahora|adesso|nu)(?![a-z])")
_WAS = lazily(
    r"(?<![a-z])(?:was|were|had been|war(?:en)?|lag(?:en)?|etait|estaba|era|stond|was op)(?: (?:at|about|only|just|"
    r"down to|"
    r"nur|bei|auf|noch|a|en|op)){0,2} $"
)
#: "6.4 V, jump pack connected, now 11.1 V"
_NOW_LATER = lazily(
    r"[,;.(](?: [a-z][a-z -]{2,40}[,;.])? ?(?:now|jetzt|maintenant|ahora)(?: at| is| bei| a)? ?[0-9]{1,2}[.,][0-9]")
#: "Now 12.1 without a charger", "it is 12.1 now without the charger": not what it was before one went on.
_IS_NOW = lazily(r"(?<![a-z])(?:now|jetzt|nun|maintenant|ahora)(?: [a-z']{1,6}){0,2} $")
_WITHOUT = lazily(
    r"[ ,(]{0,3}(?:v(?:olts?)?(?![a-z]))?[ ,(]{0,3}(now |jetzt |nun |maintenant |ahora )?"
    r"(?:without|w/o|ohne|sans|sin) ")
_SCANNED_AT = lazily(r"(?<![a-z])(?:scanned|gelesen|lue?|leid[oa]) (?:it )?(?:at|bei|a) [0-9]")
#: "It was at 7.8 V, scan after 2 hrs on the charger 12.4 V"
_AT_SCAN = lazily(
    r"(?<![a-z])(?:scan(?:ned|ning)?|read-?out|auslesung|ausgelesen|lecture|lue?s?|lectura|leid[oa]s?|"
    r"(?:re)?charged|geladen|charge|"
    r"(?:on|am|sur|con|en) (?:(?:the|a|el|le) )?(?:charger|ladegerat|chargeur|cargador))(?![a-z])"
)
_NEXT_VOLTS = lazily(r"(?<![0-9.,])1[0-9][.,][0-9]")
_WAS_VOLTS = lazily(
    r"(?<![a-z])(?:was|were|had(?: been)?|only had|war(?:en)?|hatten?|(?:n'|n )?avait|etait|estaba|tenia)"
    r"(?: (?:at|about|only|just|down to|nur|noch|bei|auf|plus qu[e']|a|en|solo)){0,2} ?"
    r"[0-9]{1,2}[.,][0-9]{1,2} ?v?(?![0-9a-z])"
)
_NO_SCAN = lazily(r"(?<![a-z])(?:lowest|min(?:imum)?(?= ?[:=0-9])|crank|fell|dip|drop|tiefst|plus bas)|[;!?]")


#: Between the number and what is said of it behind it.
_NUMBER = lazily(r"[ :=~(]{0,3}[0-9]")
_BEHIND = lazily(r"[ ,(]{0,3}(?:v(?:olts?)?(?![a-z]))?[ ,(]{0,3}")
_CLAUSE = lazily(r"\s-{0,2}>\s?|[;.!?)(]\s|[,;]\s|\.$|\s-\s|(?<![a-z])(?:and|und|et|y|then|but|dann|puis|"
                 r"luego)(?![a-z])")
#: Where what is said of a voltage ends.
_STOP = lazily(r"[,;.()!?]|[0-9]|\s-\s|(?<![a-z])(?:and|und|et|y|then|but|dann|puis|luego)(?![a-z])")
#: "Voltage when the code was set", "Spannung bei Fehlereintritt": what a module stored with its code.
_CODE = r"(?:(?:fault|trouble|error) codes?|codes?|faults?|dtcs?|errors?|failures?)"
_NOT_READ = r"(?![a-z])(?! ?(?:codes? ?|memory )?(?:were |was )?(?:read|scan|clear|eras|delet))"
_SET = r"(?:set(?:ting)?|stored|logged|recorded|occurr(?:ed|ence)|triggered|detected|happened|registered)"
_AT_FAULT = lazily(
    rf"(?<![a-z])(?:(?:at|during|on) (?:the )?(?:time (?:of )?)?(?:the |this )?(?:{_CODE}(?: {_SET})?|"
    rf"{_SET} ?(?:of )?{_CODE})"
    rf"{_NOT_READ}|(?:when|as|while) (?:the |this )?(?:{_CODE}|it) (?:was |were |is |has |had |got )?(?:been )?{_SET}|"
    rf"when (?:first )?(?:set|stored|logged|recorded)(?![a-z])|{_CODE} (?:set|occurrence|freeze frame) voltage|"
    r"(?:bei|beim|zum zeitpunkt|wahrend)(?: (?:der|des|dem))? (?:fehler(?:eintritts?|setzens?|auftretens?|eintrags?|"
    r"speicherung|ablage)?|auftretens?(?: des fehlers)?|setzens?(?: des (?:codes|fehlers))?)(?![a-z])"
    r"(?! (?:aus)?lesen| loschen)|"
    r"(?:lors|au moment|a l'instant|pendant)(?: de| du| d')? ?(?:l'|la |le )?(?:apparition (?:du )?|"
    r"enregistrement (?:du )?|"
    r"memorisation (?:du )?)?(?:defaut|code defaut|code|panne)(?![a-z])|"
    r"(?:al|en el momento|cuando|durante)(?: de| se)?(?: la| el|l)? ?(?:aparicion |registro |producirse |aparecer )?"
    r"(?:de(?:l)? )?(?:la |el )?(?:averia|fallo|codigo)(?![a-z]))"
)
_CHARGING = lazily(
    r"(?<![a-z])(?:(?:re)?charged(?: (?:it|up|overnight))*|(?:auf)?geladen|(?:re)?chargee?|(?:re)?cargad[oa]|"
    r"scanned)(?![a-z])"
)
#: What is said behind a code is said of it: "B2C31 failing now".
_CODE_TOLD = lazily(r"(?<![a-z0-9])[pcbu][0-3][0-9a-f]{3}(?![a-z])")
_WINDOW = 60


def at_fault(low: str, start: int, end: int) -> bool:
    """Whether the words beside a voltage say that a code was set at it."""
    return _at_fault(low[max(0, start - _WINDOW) : start], low[end : end + _WINDOW])


@lru_cache(maxsize=8192)
def _at_fault(before: str, after: str) -> bool:
    """The same of the text right before a voltage and right behind it, which stand so in line after line."""
    return _said_behind(after, _AT_FAULT) or _AT_FAULT.search(before, _clause(before)) is not None


def another_day(low: str) -> bool:
    """Whether a text tells of days or weeks before the scan.

    >>> another_day("cleared last week by another garage"), another_day("cleared last")
    (True, False)
    """
    return _ANOTHER_DAY.search(low) is not None


def tells_fault(low: str) -> bool:
    """Whether a line holds words for the moment at which a code was set."""
    return _AT_FAULT.search(low) is not None


def moment(low: str, start: int, end: int) -> Moment:
    """When the vehicle had a voltage: before the battery was charged ("earlier"), behind that ("charged"), at the scan
    ("now", plainly "scan"), or nothing is said."""
    before = low[max(0, start - _WINDOW) : start]
    told = _moment(before, low[end : end + _WINDOW])
    if told in ("", "now", "charged") and (then := _was_then(low, start)):
        return then
    return told


def _was_then(low: str, start: int) -> Moment:
    """The moment of one of two voltages of which the first was and the second is that of the scan, or of the battery
    charged for it: "it was at 7.8 V, scan after 2 hrs on the charger 12.4 V"; "" where no two are told so."""
    first = max(0, start - 2 * _WINDOW)
    match = next((each for each in _WAS_VOLTS.finditer(low, first, start + _WINDOW) if each.end() > first), None)
    if match is None:
        return ""
    number = _NEXT_VOLTS.search(low, match.end(), match.end() + 2 * _WINDOW)
    if number is None or _NO_SCAN.search(low, match.end(), number.start()):
        return ""
    unit = _BEHIND.match(low, number.end())
    behind = _STOP.search(low, unit.end() if unit is not None else number.end())
    if not (_AT_SCAN.search(low, match.end(), number.start()) or _AT_SCAN.search(
            low, number.end(), behind.start() if behind is not None else len(low))):
        return ""
    return "earlier" if match.start() < start < match.end() else "scan" if number.start() == start else ""


@lru_cache(maxsize=8192)
def _moment(before: str, after: str) -> Moment:
    """The same of the text right before a voltage and right behind it."""
    after = after[: coded.start()] if (coded := _CODE_TOLD.search(after)) is not None else after
    if _said_behind(after, _ANOTHER_DAY) or _ANOTHER_DAY.search(before, _clause(before)):
        return "another day"
    if _WAS.search(before) is not None and (
            _TODAY.search(after) or _TODAY.search(before) or _SCANNED_AT.search(after)):
        # "It was 10.6 V, now 13.5 V", "was 12 V, scanned at 11.4"
        return "earlier"
    if _SUPPORTED_LATER.match(after) or _NOW_LATER.search(after):
        return "earlier"
    if _READ_AT.search(before):
        return "scan"
    if (bare := _WITHOUT.match(after)) is not None and (bare[1] or _IS_NOW.search(before)):
        return "now"
    clause = _clause(before)
    for when, pattern in _MOMENTS:
        if _said_behind(after, pattern) or pattern.search(before, clause) is not None:
            return when
    if _FED.search(before):
        return "now"
    if not before[clause:].strip() and clause:
        # "Flat when I arrived, 6.4 V"
        told = before[: clause].rstrip(" ,;.-(")
        first = _clause(told)
        if not any(map(str.isdigit, told[first:])) and _EARLIER_SAID.search(told, first):
            return "earlier"
    return ""


_AT_REST = lazily(
    r"[ ]?(?:v(?:olts?)?(?![a-z]))?[ (,]{0,3}(?:(?:after|nach|apres|tras) (?:an? |[0-9]{1,2} ?)?"
    r"(?:h|hrs?|hours?|min\w*|std|stunden|heures|horas|night)? ?)?"
    r"(?:(?:at|of|in|au|en) )?(?:rest(?:ing|ed)?|ruhe|repos|reposo)(?![a-z])")


def rested(low: str, end: int) -> bool:
    """Whether a voltage that ends there is said to be that of a battery at rest, behind it.

    >>> rested("charged it, 12.7 v at rest", 18), rested("12.6 v after 2h rest", 6), rested("12.6 v, the rest ok", 6)
    (True, True, False)
    """
    return _AT_REST.match(low, end) is not None


def was(low: str, start: int) -> bool:
    """Whether a voltage at a place is told as what the supply was: "it was down to 10.7 V"."""
    return _WAS.search(low, max(0, start - _WINDOW), start) is not None


def _clause(before: str) -> int:
    """Where the last clause of a text begins."""
    return max((match.end() for match in _CLAUSE.finditer(before)), default=0)


def spans(low: str) -> list[tuple[int, int]]:
    """The places of such words in a line, and of those that tell of charging the battery."""
    patterns = (*(pattern for _, pattern in _MOMENTS), _CHARGING)
    return [match.span() for pattern in patterns for match in pattern.finditer(low)]


def _said_behind(after: str, pattern: re.Pattern[str]) -> bool:
    """Whether a wording stands behind a voltage: at once, or in the same clause and before any other number."""
    gap = _BEHIND.match(after)
    said = pattern.match(after, gap.end()) if gap is not None else None
    if said is not None:
        # "9.8 V, after charging 12.4 V": said of the next one.
        return not ("," in after[: said.start()] and _NUMBER.match(after, said.end()))
    stop = _STOP.search(after)
    return pattern.search(after, 0, stop.start() if stop is not None else len(after)) is not None
