"""Where a scan stands (before the clear, after it, after a run, after a repair), and what was done to the vehicle.

>>> [find(text).phase for text in ("pre-scan", "nach dem loschen", "apres 5 min de ralenti", "post repair scan")]
['before-clear', 'after-clear', 'after-run', 'after-repair']
>>> find("no fault here") is None
True
>>> [(event.what, event.note) for event in events("cleared all codes, jump pack connected")]
[('cleared', None), ('outside supply on', 'jump pack')]
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal, NamedTuple

from triage.intake.outside import outside_supply
from triage.intake.patterns import lazily
from triage.intake.remember import remembered
from triage.model.session import What
from triage.model.snapshot import Phase


class PhaseHit(NamedTuple):
    """A phase and the place of the words that say it."""

    start: int
    end: int
    phase: Phase


_W = r"(?<![a-z0-9])"
_E = r"(?![a-z0-9])"
_CLEAR = r"(?:clear(?:ed|ing|ance|s)?|eras(?:e|ed|ing|ure)|delet(?:e|ed|ing|ion)|reset(?:ting)?|wipe[ds]?)"
_OF_CODES = (
    r"(?:the |all |any |dtcs? |codes? |faults? |fault codes? |memory |i |we |a |have been |were |was |"
    r"being |having |first )*"
)
_LOESCH = r"(?:(?:fehler)?(?:speicher)?(?:losch|loesch)\w*|geloscht|geloescht)"
_LO_OF = r"(?:dem |der |des |den |fehlerspeicher |fehler |fehlerspeichers |codes? |aller |allen |ersten |erstem )*"
_EFF = r"(?:effac\w+|suppression)"
_EF_OF = r"(?:l'|le |la |les |des |d'|defauts? |codes? |un |tous |avoir )*"
_BORR = r"(?:borr\w+|eliminar|eliminacion|limpiar|limpieza)"
_BO_OF = r"(?:de |del |el |la |los |las |codigos |haber |averias |fallos |un )*"
_AMOUNT = (
    r"(?:about |approx\.? |ca\.? |etwa |environ |unos |a |an |the |another |einer |einem |un |une |una |"
    r"(?:[0-9]{1,3}(?:[.,][0-9])?|two|three|five|ten|one)[ -]?(?:min(?:ute[sn]?|utos?|s)?|mn|sec\w*|sek\w*|s|"
    r"h|km|miles?|mi|hours?|"
    r"stunden?|heures?|horas?)[ -]?)*"
)
_RUN = (
    r"(?:engine |motor |short |long |quick |warm |brief |kurzer |kurzem |court |corto )*(?:of |at |on |with |"
    r"im |am |de |d'|en |au |al |"
    r"the |engine |motor |mit )*(?:run(?:ning|s)?|ran|idl(?:e|ed|ing)|driv(?:e|en|ing)|drove|road[ -]?test(?:ed|"
    r"ing)?|test[ -]?drive|"
    r"warm[ -]?up|warmed|trip|motorlauf|probefahrt|leerlauf|fahrt|laufen|lauf|motorbetrieb|warmlauf|"
    r"laufenlassen|essai(?: routier)?|"
    r"roulage|ralenti|mise en route|fonctionnement|marche|prueba(?: de carretera| en carretera)?|rodaje|"
    r"recorrido|conduccion|"
    r"funcionamiento|marcha)"
)
#: What was run, and for how long: "running the engine 10 min".
_FOR = (
    r"(?:(?: the| it| up)* (?:engine|motor|van|car)(?![a-z]))?"
    r"(?: (?:for )?(?:about )?[0-9]{1,3} ?(?:min\w*|mn|s|sec\w*|h|hours?)(?![a-z]))?"
)
#: The engine was started: what is asked of it next is asked after a run.
_STARTED = (
    r"(?:after (?:the |an? |having |i |we )*(?:engine )?start(?:ing|ed)?(?:[ -]?up)?(?! of)(?: the|"
    r" it)?(?: up)?(?: engine)?|"
    r"after (?:letting|leaving) (?:it|the engine) (?:run|idle)|nach (?:dem |erfolgtem )*(?:motor)?(?:start|"
    r"starten|anlassen)|"
    r"apres (?:le |avoir )?(?:demarrage|demarre)(?: (?:du )?moteur)?|"
    r"(?:tras|despues de) (?:el |haber )?arran(?:car|que|cado)(?: (?:el |del )?motor)?)"
)
_BEFORE_WORK = (
    r"(?:before (?:i |we |anyone |they )?(?:touch(?:ed|ing)|did|doing|had (?:touched|done)|"
    r"started?) (?:anything|any work|work|it)|"
    r"before anything (?:was |is |had been |got )*(?:done|touched|changed)|before (?:any |the |"
    r"starting )*(?:work|repairs?)|"
    r"as (?:it |they )?(?:came|arrived|received|delivered|presented)(?: in)?|when (?:it|they) (?:came|"
    r"arrived)(?: in)?|"
    r"pre[ -]?repair|vor (?:der |beginn der )*(?:reparatur|instandsetzung|arbeit(?:en)?)|"
    r"avant (?:la )?(?:reparation|intervention)|"
    r"antes de (?:la )?(?:reparacion|intervencion))"
)
_MENDED = (
    r"(?:repair(?:s|ed|ing)?|replac(?:e|ed|ing|ement)|fix(?:ed|ing)?|program(?:med|ming|s)?|reprogram\w*|"
    r"coding|calibrat\w+|"
    r"reparatur|instandsetzung|(?:aus)?tausch|ersatz|programmierung|reparation|remplacement|programmation|"
    r"reparacion|\w{2,20}(?:tausch|wechsel|reparatur)|sustitucion|cambio|programacion|swap(?:ping|ped)?|work|rework|"
    r"new (?:battery|module|part|unit|alternator|wiring|loom))"
)
#: A heading that says no more than when: "Before:", "nachher".
_ALONE = lazily(
    r"[\s\-=#*\[(]*(?:(before|vorher|avant|antes)|(?:after|afterwards|nachher|danach|apres|"
    r"despues))[\s\-=#*\])]*:?[\s=*-]*"
)
_PHASES: tuple[tuple[Phase, re.Pattern[str]], ...] = (
    (
        "after-repair",
        re.compile(
            rf"{_W}(?:(?:after|following|once) {_OF_CODES}(?:\w+ ){{0,3}}?{_MENDED}|post[ -]?(?:{_MENDED})|"
            rf"final scan|"
            rf"post[ -]?scan|"
            rf"(?:nach) (?:dem |der |erfolgter )*(?:\w+ )?{_MENDED}|apres (?:la |le |l'|une )*{_MENDED}|"
            rf"(?:tras|despues de|despues) (?:la |el |una )*{_MENDED}|after-repair|closing scan|quality scan|"
            rf"outgoing scan|"
            rf"ausgangs(?:scan|test)|scan final|repair done){_E}"
        ),
    ),
    (
        "after-run",
        re.compile(
            rf"{_W}(?:(?:after|following|once|post)[ -]{_AMOUNT}{_RUN}{_FOR}|post[ -]?(?:run|drive|idle|road ?test)|"
            rf"after-run|"
            rf"nach (?:dem |der |den )*{_AMOUNT}{_RUN}|nach (?:dem )?{_AMOUNT}motor|apres {_AMOUNT}(?:l'|le |"
            rf"la )*{_RUN}|"
            rf"(?:tras|despues de|despues) {_AMOUNT}(?:la |el |de )*{_RUN}|after [0-9]{{1,3}} ?(?:min\w*|mn|km|"
            rf"miles)|"
            rf"nach [0-9]{{1,3}} ?(?:min\w*|km)|apres [0-9]{{1,3}} ?(?:min\w*|mn|km)|(?:tras|"
            rf"despues de) [0-9]{{1,3}} ?(?:min\w*|km)|{_STARTED}){_E}"
        ),
    ),
    (
        "after-clear",
        re.compile(
            rf"{_W}(?:(?:after|following|once|post)[ -]?{_OF_CODES}{_CLEAR}|{_CLEAR} (?:and|then|,) ?(?:re-?(?:scan|"
            rf"read|check)\w*|(?:scan(?:ned)?|read|checked?) (?:it |them |all )?again)|"
            rf"re-?(?:scan|read|check) after {_OF_CODES}{_CLEAR}|nach {_LO_OF}{_LOESCH}|apres {_EF_OF}{_EFF}|"
            rf"(?:tras|despues|luego) {_BO_OF}{_BORR}|after-clear|(?:codes?|dtcs?|memory|"
            rf"faults?) (?:all )?(?:just )?cleared,? (?:now|then)|"
            rf"re-?scan|second read(?:ing)?|re-?read){_E}"
        ),
    ),
    (
        "before-clear",
        re.compile(
            rf"{_W}(?:(?:before|prior to|pre|ahead of)[ -]?{_OF_CODES}{_CLEAR}|pre[ -]?scan|initial (?:scan|"
            rf"read(?:ing)?)|incoming scan|"
            rf"as[ -](?:found|received|arrived)|(?:codes? )?not (?:yet )?(?:been )?{_CLEAR}(?: yet)?|"
            rf"(?:nothing|none|never|no codes?)(?: (?:has|have|had|is|are|was|were|been|yet))* {_CLEAR}|"
            rf"(?:nichts|noch keine\w*(?: codes?| fehler)?) {_LOESCH}|rien (?:n'a ete )?{_EFF}|"
            rf"nada {_BORR}|vor {_LO_OF}{_LOESCH}|"
            rf"avant {_EF_OF}{_EFF}|"
            rf"antes {_BO_OF}{_BORR}|before-clear|eingangs(?:scan|test|diagnose|auslesung)|lecture initiale|"
            rf"scan initial|lectura inicial|"
            rf"erste auslesung|{_BEFORE_WORK}|noch nicht {_LOESCH}|uncleared|on arrival|bei ankunft|a l'arrivee|"
            rf"first scan){_E}"
        ),
    ),
)
_PHASE_SIGNS = re.compile(
    r"after|before|prior|post|pre|initial|final|as.(?:found|received|arrived)|nach|vor|apres|"
    r"avant|antes|despues|tras|"
    r"scan|clear|closing|read|arriv|ankunft|eingang|ausgang|lect|ausles|erste|losch|follow|"
    r"once|luego|erase|"
    r"noch|repair|as it|when it"
)
_SCAN_HEAD = re.compile(
    r"(?:(?:scan|snapshot|read(?:ing|out)?|pass|session|auslesung|messung|durchgang|lecture|lectura|escaneo|"
    r"balayage|releve|test)\s*"
    r"(?:no\.?|nr\.?|#|number|n°)?\s*[:#]?\s*(?:[1-9][0-9]?|[a-d]|one|two|three|i{1,3})(?: (?:of|von|de|"
    r"/) ?[0-9]{1,2}|/[0-9]{1,2})?"
    r"|(?:first|second|third|fourth|1st|2nd|3rd|4th|next|erster?|zweiter?|dritter?|premiere?|deuxieme|troisieme|"
    r"primera?|segunda?|"
    r"tercera?)\s+(?:scan|snapshot|read(?:ing|out)?|pass|auslesung|messung|durchgang|lecture|lectura|"
    r"escaneo))(?![a-z0-9])"
)


@remembered
def find(low: str) -> PhaseHit | None:
    """The phase that a line in small letters states, the latest if it names several; None where it states none."""
    if len(low) > 600:
        low = low[:600]
    if not _PHASE_SIGNS.search(low):
        return None
    if "  " in low:
        # Places are then a little to the left of where the words stand.
        low = " ".join(low.split())
    if len(low) <= 24 and (alone := _ALONE.fullmatch(low)) is not None:
        return PhaseHit(0, len(low), "after-clear" if alone[1] is None else "before-clear")
    for phase, pattern in _PHASES:
        match = pattern.search(low)
        if match is not None:
            return PhaseHit(match.start(), match.end(), phase)
    return None


def scan_head(low: str) -> re.Match[str] | None:
    """A heading that counts the scans ("Scan 2 of 3"), at the start of a line."""
    return _SCAN_HEAD.match(low)


@dataclass(frozen=True, slots=True)
class Deed:
    """Something done to the vehicle, as :class:`triage.model.session.Event` has it, and the place in the line."""

    start: int
    end: int
    what: What
    note: str | None = None
    part: Literal["new", "used", "repaired"] | None = None
    answer: Literal["accepted", "refused", "unknown"] | None = None


_DEEDS: tuple[tuple[What, re.Pattern[str]], ...] = (
    (
        "cleared",
        re.compile(
            rf"{_W}(?:(?:cleared|erased|deleted|wiped|reset) (?:all |the |every |its |of )*(?:codes?|dtcs?|faults?|"
            rf"memory|"
            rf"memories|modules?|lot|everything|them|fault codes?)(?: all)?|"
            r"(?:all )?(?:codes?|dtcs?|faults?|memory|memories) (?:were |have been |are |all |now |then )*(?:cleared|"
            r"erased|deleted|wiped|reset)|clear(?:ed)? (?:it )?(?:all|codes|command|request)|"
            r"cleared(?! (?:for|to)(?![a-z]))|codes clear(?:ed)?|(?:alle )?fehler(?:speicher|codes)? (?:alle |"
            r"wurden? |komplett )*geloscht|"
            r"(?:alle )?fehler(?:speicher)? (?:alle |wurden? )*geloescht|geloscht|effacement (?:des )?(?:defauts|"
            r"codes)|"
            r"(?:defauts?|codes?) "
            rf"(?:tous )?effaces?|(?:tout|j'ai|ai|avons) efface|efface (?:tous )?(?:les )?(?:defauts|codes)|"
            rf"alles geloscht|todo borrado|(?:he|hemos|se han) borrado|(?:codigos|averias|fallos) borrad[oa]s|"
            rf"borrad[oa]s (?:todos )?(?:los )?(?:codigos|"
            rf"fallos)|se borraron){_E}"
        ),
    ),
    (
        "key cycle",
        re.compile(
            rf"{_W}(?:key cycled?|key[ -]off[ /-]?(?:and )?(?:back )?on|ignition cycled?|cycled (?:the )?(?:key|"
            rf"ignition)|"
            rf"zundung aus (?:und |/ ?)?(?:wieder )?(?:an|ein)|contact coupe puis remis|"
            rf"ciclo de (?:llave|contacto)){_E}"
        ),
    ),
    (
        "battery disconnected",
        re.compile(
            rf"{_W}(?:(?:battery|batt) (?:was |has been )?(?:disconnected|unhooked)|disconnected (?:the )?battery|"
            rf"batterie abgeklemmt|"
            rf"batterie debranchee|bateria desconectada){_E}"
        ),
    ),
    (
        "replaced",
        re.compile(
            rf"{_W}(?:replaced|swapped|renewed|new (?:module|unit|part) fitted|fitted (?:a )?(?:new|used|another)|"
            rf"ersetzt|"
            rf"getauscht|ausgetauscht|remplacee?|sustituid[oa]|reemplazad[oa]|cambiad[oa]){_E}"
        ),
    ),
    (
        "programmed",
        re.compile(
            rf"{_W}(?:(?:re)?programmed|reflashed|flashed|coded|software updated|programmiert|codiert|programmee?|"
            rf"reprogrammee?|programad[oa]|reprogramad[oa]){_E}"
        ),
    ),
    ("paired", re.compile(rf"{_W}(?:paired|keys? learned|angelernt|appairee?|emparejad[oa]){_E}")),
    (
        "calibrated",
        re.compile(
            rf"{_W}(?:(?:re)?calibrated|relearned|zero(?:ed)? (?:the )?(?:steering|angle)|kalibriert|calibree?|"
            rf"calibrad[oa]){_E}"
        ),
    ),
    (
        "actuator test",
        re.compile(
            rf"{_W}(?:actuator test|output test|stellgliedtest|stellglieddiagnose|test actionneurs?|"
            rf"prueba de actuadores){_E}"
        ),
    ),
    (
        "drove",
        re.compile(
            rf"{_W}(?:drove|driven|road tested|test driven|took it (?:out|for a drive)|probefahrt (?:gemacht|"
            rf"durchgefuhrt)|"
            rf"essai routier effectue){_E}"
        ),
    ),
)
_CONNECTED = lazily(
    rf"{_W}(?:connected|hooked up|put on|attached|fitted|applied|switched on|turned on|on|"
    rf"angeklemmt|angeschlossen|"
    rf"branchee?|connectee?|conectad[oa]|puesto){_E}"
)
_TAKEN_OFF = lazily(
    rf"{_W}(?:disconnected|removed|taken off|unplugged|unhooked|off|switched off|abgeklemmt|"
    rf"abgenommen|entfernt|"
    rf"debranchee?|retiree?|deconnectee?|desconectad[oa]|quitad[oa]|retirad[oa]){_E}"
)
_REFUSED = lazily(
    rf"{_W}(?:refused|rejected|failed|not accepted|conditions not (?:correct|met)|would not clear|"
    rf"abgelehnt|refuse|rechazad[oa])"
    rf"{_E}"
)
_ACCEPTED = lazily(rf"{_W}(?:accepted|ok|successful(?:ly)?|erfolgreich|accepte|aceptad[oa]|done){_E}")
_NOT = lazily(
    r"(?<![a-z])(?:not|never|nothing|none|nichts|keine?|rien|nada|before|un|nicht|pas|non|sin|no|vor|avant|antes|"
    r"prior to|without|ohne|"
    r"sans|since|seit|depuis|desde|to be|"
    r"must be|if|after|once|nach|apres|tras|needs?)\s+(?:\w+\s+){0,3}$"
)
_DEED_SIGNS = re.compile(
    r"ed(?![a-z])|eras|clear|cycle|test|drove|driven|off|zundung|losch|tausch|ersetz|effac|"
    r"borra|fahrt|routier|contact|"
    r"abgeklemmt|debranch|descon|conect|jump|charg|lade|booster|spender|donor|arranca|cargador|"
    r"program|angelernt|codiert|"
    r"kalibri|calibr|learn|took|stellglied|actionn|empare|appair|sustitu|reempl|cambiad|"
    r"se borr|geloes|wipe|reset"
)


@remembered
def events(low: str) -> tuple[Deed, ...]:
    """What a line in small letters says was done, in the order of the line."""
    if len(low) > 600 or not _DEED_SIGNS.search(low):
        return ()
    found: list[Deed] = []
    for what, pattern in _DEEDS:
        match = pattern.search(low)
        if match is None or _NOT.search(low[max(0, match.start() - 30) : match.start()]):
            continue
        tail = low[match.end() : match.end() + 60]
        refused = _REFUSED.search(tail) is not None
        answer: Literal["accepted", "refused"] | None = (
            "refused" if refused else "accepted" if what == "cleared" and _ACCEPTED.search(tail) else None
        )
        found.append(Deed(match.start(), match.end(), what, None, _part(low) if what == "replaced" else None, answer))
    kind = outside_supply(low)
    if kind == "none" and _TAKEN_OFF.search(low):
        name = outside_supply(_TAKEN_OFF.sub(" connected ", low))
        if name not in (None, "none"):
            found.append(Deed(0, len(low), "outside supply off", name))
    elif kind not in (None, "none") and _CONNECTED.search(low):
        found.append(Deed(0, len(low), "outside supply on", kind))
    return tuple(sorted(found, key=lambda deed: deed.start))


def _part(low: str) -> Literal["new", "used", "repaired"] | None:
    """Whether the part put in was new, used or repaired."""
    for part, pattern in (
        ("used", r"(?<![a-z])(?:used|second[ -]?hand|gebraucht\w*|occasion|usad[oa])(?![a-z])"),
        ("new", r"(?<![a-z])(?:new|neue?[nrs]?|neuf|neuve|nuev[oa])(?![a-z])"),
        ("repaired", r"(?<![a-z])(?:repaired|rebuilt|refurbished|repariert\w*|reparee?|reparad[oa])(?![a-z])"),
    ):
        if re.search(pattern, low):
            return part  # type: ignore[return-value]
    return None
