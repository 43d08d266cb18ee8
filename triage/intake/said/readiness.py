"""Which monitors of the emission system have run since the clear, as people write it in four languages.

>>> told("readiness: catalyst ready, evap not ready, o2 heater n/a")
{'catalyst': 'complete', 'evaporative system': 'incomplete', 'oxygen sensor heater': 'not fitted'}
>>> told("all monitors complete except catalyst"), below("not complete: egr and catalyst")
({'all monitors': 'complete', 'catalyst': 'incomplete'}, {'EGR': 'incomplete', 'catalyst': 'incomplete'})
>>> told("catalyst monitor: not complete"), told("catalyst monitor circuit"), told("catalyst complete")
({'catalyst': 'incomplete'}, {}, {})
"""

from __future__ import annotations

from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered
from triage.model.snapshot import Completeness

#: Every monitor is meant that the vehicle has.
ALL = "all monitors"
_MONITORS = (
    ("oxygen sensor heater", r"(?:o2|oxygen|lambda)[ -]?(?:sensors?|sonden?)?[ -]?(?:heaters?|heizung\w*|htr)|ho2s|"
     r"lambda(?:sonden)?heizung|sondenheizung|chauffage (?:de )?(?:la )?sonde\w*(?: (?:lambda|o2))?|"
     r"calefac\w+ (?:de )?(?:la |del )?(?:sonda|sensor)(?: (?:lambda|o2|de oxigeno))?|heaters?|heizung"),
    ("heated catalyst", r"heated cat\w*|beheizter kat\w*|catalyseur chauffe|catalizador calentado"),
    ("NMHC catalyst", r"nmhc(?: cat\w*)?"), ("NOx aftertreatment", r"nox(?: \w+)?|scr"),
    ("catalyst", r"cat(?:alyst|alytic converter|alyseur|alizador)?|kat(?:alysator)?"),
    ("evaporative system", r"evap\w*(?: (?:system|emissions?))?|tank(?:entluftung|system)?|canister|evaporation|"
     r"(?:emisiones )?evaporativ\w+"),
    ("secondary air", r"sec(?:ondary|\.)? air|sekundarluft|air secondaire|aire secundario"),
    ("A/C refrigerant", r"a/c(?: \w+)?|klima\w*|climatisation|aire acondicionado"),
    ("exhaust gas sensor", r"exhaust (?:gas )?sensors?|abgassensor\w*|capteurs? (?:de )?gaz"),
    ("oxygen sensor", r"(?:o2|oxygen|lambda)[ -]?(?:sensors?|sonden?)?|lambdasonden?|sondes? (?:lambda|o2)|"
     r"sondas? (?:lambda|o2)|sensor(?:es)? de oxigeno"),
    ("EGR", r"egr(?:[ /-]?vvt)?(?: system)?|agr|abgasruckfuhrung|rge"),
    ("boost pressure", r"boost(?: pressure)?|ladedruck|suralimentation|turbo"),
    ("particulate filter", r"(?:pm |particulate )filter|dpf|partikelfilter|fap|filtre a particules|"
                           r"filtro de particulas"),
    ("misfire", r"misfires?|(?:verbrennungs|zund)aussetzer|rates?|fallos? de encendido"),
    ("fuel system", r"fuel(?: system)?|kraftstoff(?:system)?|carburant|(?:sistema de )?combustible"),
    ("components", r"(?:comprehensive )?components?|ccm|bauteile|komponenten|composants|componentes"),
)
_INCOMPLETE = (
    r"(?:not|nicht|non|pas|no|yet to be|still to) (?:yet |noch |encore )?(?:completed?|ready|done|finished|set|run|"
    r"fertig|abgeschlossen|bereit|gesetzt|erledigt|termine\w*|prete?s?|complet\w*|finie?s?|list[oa]s?|terminad[oa]s?)|"
    r"incomplet\w*|unvollstandig|inc|unset|open|offen|pending|outstanding")
_NOT_FITTED = (r"n/?a|not (?:fitted|supported|available|applicable|equipped)|unsupported|nicht (?:vorhanden|"
               r"unterstutzt|"
               r"verbaut)|non (?:supporte\w*|equipe\w*|disponible)|no (?:soportad[oa]|disponible|equipad[oa])")
_COMPLETE = (r"completed?|ready|done|finished|set|passed|ok|run|fertig|abgeschlossen|bereit|gesetzt|erledigt|"
             r"termine(?:e|s|es)?|prete?s?|complet(?:e|s|es|[oa]s?)?|finie?s?|list[oa]s?|terminad[oa]s?")
_TOKENS = lazily(
    rf"(?<![a-z0-9])(?:(?P<incomplete>{_INCOMPLETE})|(?P<unfitted>{_NOT_FITTED})|(?P<complete>{_COMPLETE})|"
    r"(?P<all>all(?: (?:the )?(?:monitors?|others?|rest))?|every(?:thing)?|(?:the )?(?:rest|others)|reste|resto|"
    r"alle(?:s)?|tous|toutes|todos|todas)|"
    r"(?P<but>except|but|apart from|bar|ausser|bis auf|sauf|excepto|salvo|menos)|"
    + "|".join(rf"(?P<m{at}>{words})" for at, (_, words) in enumerate(_MONITORS))
    + r")(?![a-z0-9])")
_HEAD = lazily(r"(?:obd |i/m |emissions? |abgas)?-?\s?(?:readiness|i/m|monitors?|prufbereitschaft|bereitschaft\w*|"
               r"readinesscode|moniteurs?|disponibilite|monitores|preparacion)(?: (?:status|state|code|monitors?|"
               r"tests?|"
               r"since (?:the )?clear))*(?![a-z])")
_NAMED = lazily(r"(?<![a-z])(?:monitors?|readiness|moniteurs?|monitores|bereitschaft)(?![a-z])")
_SIGN = lazily(r"monitor|readiness|i/m|bereitschaft|moniteur|disponib|preparacion")
#: What else may stand in such a line.
_SMALL = lazily(r"(?:the|is|are|has|have|been|yet|still|now|since|clear|status|state|and|und|et|y|the|ist|sind|"
                r"est|sont|"
                r"esta|estan|of|de|la|le|les|el|los|only|nur|bank|[0-9]+|monitors?|readiness|moniteurs?|monitores|code|"
                r"test|tests|system|systems?|der|die|das)")
_WORD = lazily(r"[a-z0-9/]+")
_LONGEST = 400


@remembered
def heads(low: str) -> bool:
    """Whether a line says that the readiness of monitors follows, and no more."""
    return len(low) <= 40 and (head := _HEAD.match(low)) is not None and not low[head.end() :].strip(" :=-")


@remembered
def told(low: str) -> dict[str, Completeness]:
    """What a line in small letters tells of monitors; {} where it tells something else as well, or of no monitor."""
    if len(low) > _LONGEST or _SIGN.search(low) is None or (_HEAD.match(low) is None and _NAMED.search(low) is None):
        return {}
    return below(low)


def below(low: str) -> dict[str, Completeness]:
    """The same for a line below one that heads monitors."""
    if len(low) > _LONGEST:
        return {}
    head = _HEAD.match(low)
    begin = head.end() if head is not None else 0
    found: dict[str, Completeness] = {}
    names: list[str] = []
    lead: Completeness | None = None
    rest, last = [], begin
    for token in _TOKENS.finditer(low, begin):
        between = low[last : token.start()]
        rest.append(between)
        last = token.end()
        if lead is not None and (";" in between or "." in between):
            lead = None
        if token["but"] is not None:
            # "All complete except the catalyst": what follows is the other way round.
            lead = "incomplete" if "complete" in found.values() else "complete"
            names = []
            continue
        state: Completeness | None = ("incomplete" if token["incomplete"] else "not fitted" if token["unfitted"] else
                                      "complete" if token["complete"] else None)
        if state is None:
            name = ALL if token["all"] else _MONITORS[int(str(token.lastgroup)[1:])][0]
            if lead is not None:
                found[name] = lead
            else:
                names.append(name)
        elif names:
            found |= dict.fromkeys(names, state)
            names = []
        elif low[last : last + 2].strip()[:1] in (":", "(", "="):
            lead = state
        elif not found and head is not None:
            found[ALL] = state
    rest.append(low[last:])
    other = [word for word in _WORD.findall(" ".join(rest)) if not _SMALL.fullmatch(word)]
    # What is said of all comes before what is said of one.
    return {} if names or other else dict(sorted(found.items(), key=lambda one: one[0] != ALL))


__all__ = ["ALL", "below", "heads", "told"]
