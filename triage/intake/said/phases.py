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
from typing import Literal, NamedTuple

from triage.intake.plain import signs
from triage.intake.plain.patterns import lazily
from triage.intake.plain.remember import remembered
from triage.intake.said import doubts, longago, symptoms, tocome, uncleared, undone, usedparts, voltmoments
from triage.intake.said.durations import in_figures
from triage.intake.said.outside import outside_supply
from triage.intake.words.new_parts import CHANGED, NEW_LATELY
from triage.intake.words.phase_ways import ALONE, PHASE_SIGNS, PHASE_WORDS, PHASES, begin_of, first_of
from triage.intake.words.phase_words import BEFORE, BEHIND, CLEAR_TOOK, GELOESCHT
from triage.model.session import What
from triage.model.snapshot import Phase


class PhaseHit(NamedTuple):
    """A phase and the place of the words that say it."""

    start: int
    end: int
    phase: Phase


#: What a scan is called, beside its number or its place among others.
_A_SCAN = (
    r"(?:scan|snapshot|read(?:ing|-?out)?|pass|(?:[a-z]{3,20}-?)?(?:auslesung|abfrage)|lesung|messung|durchgang|lecture|lectura|"
    r"query|interrogation|consulta|escaneo)"
)
_SCAN_HEAD = lazily(
    # Decorated as headings are: "# Scan 2", "[Session 2]", "*** Read-out 3 ***".
    # "On scan 2 the tool gave:"
    r"(?:[#=*_~+>-]{1,8}\s{0,2})?[(\[]?(?:(?:on|at|in|from|bei|beim|bei der|lors du|a la|en la)\s(?:the\s)?)?"
    r"(?:(?:full|complete|total|whole|quick|global|diagnostic) )?"
    rf"(?:(?:{_A_SCAN}|(?:run|lauf|passe|pasada)(?=\s*#?\s*[1-9]\s*(?:[:.,(/=-]|$))|"
    r"session|sitzung|seance|sesion|balayage|releve|test|visit|besuch|visite|visita)\s*"
    r"(?:no\.?|nr\.?|#|number|n°)?\s*[:#]?\s*(?:[1-9][0-9]?|[a-d]|one|two|three|i{1,3})(?: (?:of|von|de|"
    r"/) ?[0-9]{1,2}|/[0-9]{1,2})?"
    r"|(?:first|second|third|fourth|1st|2nd|3rd|4th|next|erster?|zweiter?|dritter?|premiere?|deuxieme|troisieme|"
    rf"primera?|segunda?|tercera?)\s+{_A_SCAN}"
    rf"|(?:[1-9][.)]\s?)?(?:#\s?[1-9]|[1-9](?:st|nd|rd|th|e|re|er|eme|ere|a|o))\s+{_A_SCAN}(?=\s*(?:[:=(*#~)\],-]|$))"
    # Read once more: whether it was cleared for that is not said.
    r"|(?:re-?(?:scan|read(?:ing)?)|scan again)(?=\s*(?:[:=(*#~,;-]|[0-9]{1,2}[.,][0-9]|$))"
    # "2. 16:57", and the supply at most
    r"|[1-9][.)]\s?(?:[01]?[0-9]|2[0-3])[:h][0-5][0-9](?=\s*(?:[,-]\s?)?(?:(?:[a-z]{1,10}\s){0,2}[0-9]{1,2}[.,][0-9]{1,2}\s?v"
    r"(?:olts?)?\W*)?$)"
    # "Tue 7:45 scan key on"
    r"|(?:(?:mon|tues?|wed(?:nes)?|thur?s?|fri|sat(?:ur)?|sun)(?:day)?[.,]? )?(?:[01]?[0-9]|2[0-3])[:.h][0-5][0-9],? "
    r"(?:re-?)?(?:scan|read-?out)(?=\s?(?:[:,]|$)| (?:key|koe[or]|engine|ign|batt|[0-9]{1,2}[.,][0-9]))"
    rf"|[1-9]\.\s?(?!pass|read(?!ing|-?out)){_A_SCAN}(?=\s*(?:[:=(*#~)\]-]|$)))(?![a-z0-9])"
)


@remembered
def find(low: str) -> PhaseHit | None:
    """The phase that a line in small letters states, the latest if it names several; None where it states none."""
    if len(low) > 600:
        low = low[:600]
    untouched = uncleared.span(low)
    if not _holds_signs(low):
        return PhaseHit(*untouched, "before-clear") if untouched else None
    low = in_figures(symptoms.left_out(tocome.done(low)))
    if "  " in low:
        # Places are then a little to the left of where the words stand.
        low = " ".join(low.split())
    if len(low) <= 60 and (alone := ALONE.fullmatch(low)) is not None:
        phase: Phase = ("before-clear", "after-clear", "after-repair", "after-run")[(alone.lastindex or 1) - 1]
        return PhaseHit(0, alone.end(alone.lastindex or 0), phase)
    for phase, ways in PHASES:
        match = first_of(ways, low)
        if match is not None:
            return PhaseHit(begin_of(match), match.end(), phase)
    return PhaseHit(*untouched, "before-clear") if untouched else None


def _holds_signs(low: str) -> bool:
    """Whether a text has what every text has in which a phase stands."""
    return signs.of(low) & PHASE_WORDS != 0 and PHASE_SIGNS.search(low) is not None


def is_alone(low: str) -> bool:
    """Whether a line says when a scan was taken, its voltage perhaps, and no more: "before 11.4 engine off"."""
    return len(low) <= 60 and _holds_signs(low) and ALONE.fullmatch(low) is not None


def may_stand_in(low: str) -> bool:
    """Whether a phase or the number of a scan may stand in a text in small letters; surely none where not."""
    return _holds_signs(low) or _SCAN_HEAD.match(low) is not None


_PLACE = lazily(
    r"(?:1st|2nd|3rd|4th|first|second|third|fourth|last|final|erster?|zweiter?|dritter?|letzter?|premiere?|deuxieme|"
    r"troisieme|primera?|segund[oa]|tercer[oa]?)(?: (?:scan|read|reading|pass|go|check|try|auslesung|lecture|lectura))?"
)


def is_place(low: str) -> bool:
    """Whether a text is the place of a scan among others and no more: "2nd", "first scan"."""
    return _PLACE.fullmatch(low) is not None


def scan_head(low: str) -> re.Match[str] | None:
    """A heading that counts the scans ("Scan 2 of 3"), at the start of a line."""
    return _SCAN_HEAD.match(low)


class Deed(NamedTuple):
    """Something done to the vehicle, as :class:`triage.model.session.Event` has it, and the place in the line."""

    start: int
    end: int
    what: What
    note: str | None = None
    part: Literal["new", "used", "repaired"] | None = None
    answer: Literal["accepted", "refused", "unknown"] | None = None


#: How work on a module's software ended before it was done: it holds what nobody knows.
_BROKEN = (
    r"(?:was |wurde |ist |a ete |est |fue |ha sido )?(?:aborted|failed|interrupted|stopped|cancelled|broke off|"
    r"died|crashed|hung|froze|timed out|not completed|abgebrochen|"
    r"fehlgeschlagen|unterbrochen|echoue|interrompue?|abortad[oa]|fallid[oa]|interrumpid[oa]|cancelad[oa])"
)
#: Behind what was put in: nothing more, or when it was.
_AT_ONCE = r"(?=\s*(?:[,.;]|$|[(@]?\s?(?:at |um |a |a las )?[0-9]{1,2}[:.h][0-9]{2}(?![0-9]|\s?v)))"
#: When it was, and what came of it: "deleted 10:00 accepted".
_AT = (r" (?:at |a |a las )?[0-9]{1,2}[:.h][0-9]{2},? ?(?:(?:all )?(?:accepted|ok|done|refused)|accepte|refuse|"
       r"aceptado|rechazado)?\s*(?:[.,;]|$)")
#: Each deed, what every text has that says it, and the pattern.
_DEEDS: tuple[tuple[What, re.Pattern[str], re.Pattern[str]], ...] = (
    (
        "cleared",
        lazily(r"clear|clr|eras|delet|wip|reset|losch|geloes|effac|borr|cancell|gewist| (?:out|raus)(?![a-z])"),
        lazily(
            rf"{BEFORE}(?:(?:cleared|erased|deleted|wiped|reset) (?:all |the |every |its |of )*(?:codes?|dtcs?|faults?|"
            rf"memory|memories|modules?|lot|everything|them|it|fault codes?)(?: all)?|"
            rf"(?:(?:erased|wiped|deleted)(?: all)?|reset all)(?=\s*(?:[.,;:=*#~|)\]]|$)|\s+-|{_AT})|"
            r"(?<=^)(?:all )?(?:the )?(?:codes?|faults?|dtcs?) out(?=\s*(?:[.,;]|$))|(?:alle )?(?:fehler|"
            r"codes) raus(?=\s*(?:[.,;]|$))|"
            r"(?:all )?(?:codes?|dtcs?|faults?|memory|memories) (?:were |have been |are |all |now |then )*(?:cleared|"
            r"erased|deleted|wiped|reset)|clear(?:ed)? (?:it )?(?:all|codes|command|request)|"
            rf"clear (?:was )?done(?=\s*(?:[.,;]|$))|{CLEAR_TOOK}|"
            r"cleared(?! (?:for|to)(?![a-z]))|clr'?d(?: all)?|clrs? (?:it )?(?:all|codes?|dtcs?|everything|the lot)|"
            r"codes clear(?:ed)?|(?:alle )?fehler(?:speicher|"
            r"codes)? (?:alle |"
            rf"wurden? |komplett )*{GELOESCHT}|"
            rf"{GELOESCHT}|(?:efface|borrad[oa])(?={_AT}|\s*(?:[,.;]|$|"
            rf"et (?:roul|fait|condui|essay|refait|re?lue?|rescann|a la )|y ))|effacement (?:des )?(?:defauts|"
            r"codes)|"
            r"(?:defauts?|codes?) "
            rf"(?:tous )?effaces?|(?:tout|j'ai|ai|avons) efface|efface (?:tous )?(?:les )?(?:defauts|codes)|"
            r"todo borrado|borrado todo|efface tout|(?:he|hemos|se han) borrado|(?:codigos|averias|fallos) borrad[oa]s|"
            rf"borrad[oa]s (?:todos )?(?:los )?(?:codigos|"
            rf"fallos)|se borraron|(?:borre|borramos)(?![a-z])|"
            rf"(?:codici|errori|guasti|memoria)(?: guasti| errori)?(?: tutti)? cancellat[aoie]|"
            rf"cancellat[aoie] (?:tutti )?(?:i |gli |la )?(?:codici|errori|guasti|memoria)|"
            rf"(?:codes|storingen|fouten|foutcodes|(?:fout)?geheugen)(?: zijn| allemaal)? gewist|alles gewist){BEHIND}"
        ),
    ),
    (
        "key cycle",
        lazily(r"cycle|key|zundung|contact|ciclo"),
        lazily(
            rf"{BEFORE}(?:key cycled?|key[ -]off[ /-]?(?:and )?(?:back )?on|ignition cycled?|cycled (?:the )?(?:key|"
            rf"ignition)|"
            rf"zundung aus (?:und |/ ?)?(?:wieder )?(?:an|ein)|contact coupe puis remis|"
            rf"ciclo de (?:llave|contacto)){BEHIND}"
        ),
    ),
    (
        "battery disconnected",
        lazily(r"disconn|unhook|abgeklemmt|debranch|desconect"),
        lazily(
            rf"{BEFORE}(?:(?:battery|batt) (?:was |has been )?(?:disconnected|unhooked)|disconnected (?:the )?battery|"
            rf"batterie abgeklemmt|"
            rf"batterie debranchee|bateria desconectada){BEHIND}"
        ),
    ),
    (
        "replaced",
        lazily(r"replac|swap|renew|new |neu|nuev|fitted|install|put in|tausch|ersetz|erneuer|remplac|sustitu|reempl|"
               r"cambiad|chang|wechselt|baut|montiert|monte|pose|mont[ao]|pus|puesto"),
        lazily(
            rf"{BEFORE}(?:replaced|swapped|renewed|new (?:module|unit|part) fitted|"
            rf"(?<!no )new (?!codes?|faults?|dtcs?|scans?|reads?|(?:\w+ )?(?:lamps?|lights?|messages?|noises?|leaks?)"
            rf"(?![a-z]))(?:[a-z]+ ){{1,5}}?(?:(?:fitted|installed|put in|in|on){_AT_ONCE}|"
            rf"(?:fitted|installed|put in)(?= (?:and|then|now|today|this morning|yesterday|last (?:week|month)|on "
            rf"[a-z]+day)(?![a-z])))|"
            rf"neue[rnsm]? [a-z-]+ (?:[a-z-]+ ){{0,3}}?(?:rein|drin|drauf|eingebaut|verbaut|montiert)|"
            rf"(?:batterie|bateria|piece|calculateur|capteur|alternateur|sensor) (?:neu(?:f|ve)?|nuev[oa])"
            rf"(?: posee?| montee?| puest[oa])?"
            rf"{_AT_ONCE}|fitted (?:a )?(?:new|used|another)|"
            rf"(?:fitted|installed|put in) (?:a |an |the |his |her |their )?(?:(?:new|used|bigger|larger|agm|efb) )*"
            rf"(?:{CHANGED})(?! (?:charger|tester|clamp|maintainer|cable|sensor))|"
            rf"(?:{CHANGED}) (?:was|were|has been|had been) (?:fitted|installed|put in)|"
            r"(?:batterie|lichtmaschine|steuergerat|[a-z]*sensor) (?:wurde )?(?:selbst )?(?:eingebaut|verbaut|"
            r"montiert)|"
            r"(?:monte|pose|installe) (?:une? |la |le )?(?:nouvelle |autre )?(?:batterie|alternateur|calculateur|"
            r"capteur)|"
            r"(?:monto|montado|puso|puesto|instalo|instalado) (?:una? |la |el )?(?:nueva |otra )?(?:bateria|alternador|"
            r"sensor)|"
            rf"ersetzt|erneuert|{usedparts.FITTED}|"
            rf"(?:{CHANGED})s? (?:(?:was|were|has been|have been|now|just|wurden?) )*(?:changed|gewechselt|"
            rf"changee?s?)|"
            rf"changed (?:the |a |its |both )?(?:[a-z0-9]+ )?(?:{CHANGED})s?|"
            rf"(?<=[+&] )(?:an? )?new (?:[a-z0-9]+ )?(?:{CHANGED})|"
            rf"{NEW_LATELY}|"
            rf"getauscht|ausgetauscht|remplacee?|sustituid[oa]|reemplazad[oa]|cambiad[oa]){BEHIND}"
        ),
    ),
    (
        "programmed",
        lazily(r"program|flash|coded|codiert|software|update"),
        lazily(
            rf"{BEFORE}(?:(?:re)?programmed|reflashed|"
            rf"(?<!lamp )(?<!lamps )(?<!light )(?<!lights )flashed|"
            rf"coded|software updated|programmiert|codiert|programmee?|"
            rf"reprogrammee?|programad[oa]|"
            rf"reprogramad[oa]|"
            # What was done, by its noun and how it ended: "recovery flash of the TCM finished", "programming aborted".
            rf"(?:re)?(?:programming|flash(?:ing)?|coding)(?! (?:cable|tool|device|unit|station|mode|memory|error|"
            rf"required|needed|incomplete))(?= (?:of|was|is|done|ok|complete[d]?|finished|passed|"
            rf"successful\w*|{_BROKEN})(?![a-z]))|"
            rf"update(?= (?:{_BROKEN})(?![a-z]))|"
            rf"(?:software |firmware |calibration )update(?= (?:of|was|done|ok|complete[d]?|finished|"
            rf"{_BROKEN})(?![a-z]))|"
            rf"(?:programmierung|codierung|flashen|software-?update)(?= (?:von|des|der|{_BROKEN})(?![a-z]))|"
            rf"(?:re)?programm?(?:ation|acion)(?= (?:du|de|del|{_BROKEN})(?![a-z]))){BEHIND}"
        ),
    ),
    (
        "paired",
        lazily(r"paired|learned|angelernt|appair|empare"),
        lazily(rf"{BEFORE}(?:paired|keys? learned|angelernt|appairee?|emparejad[oa]){BEHIND}"),
    ),
    (
        "calibrated",
        lazily(r"calib|kalibri|learn|zero"),
        lazily(
            rf"{BEFORE}(?:(?:re)?calibrated|relearned|zero(?:ed)? (?:the )?(?:steering|angle)|kalibriert|calibree?|"
            rf"calibrad[oa]){BEHIND}"
        ),
    ),
    (
        "actuator test",
        lazily(r"test|stellglied|actua"),
        lazily(
            rf"{BEFORE}(?:actuator test|output test|stellgliedtest|stellglieddiagnose|test actionneurs?|"
            rf"prueba de actuadores){BEHIND}"
        ),
    ),
    (
        "drove",
        lazily(r"drove|driven|tested|took|fahrt|routier"),
        lazily(
            rf"{BEFORE}(?:drove|driven|road tested|test driven|took it (?:out|for a (?:drive|spin|run)|"
            rf"(?:round|around) the block|(?:up|down) the road)|probefahrt (?:gemacht|"
            rf"durchgefuhrt)|"
            rf"essai routier effectue){BEHIND}"
        ),
    ),
)
_CONNECTED = lazily(
    rf"{BEFORE}(?:connected|hooked up|put on|attached|fitted|applied|switched on|turned on|on|"
    rf"angeklemmt|angeschlossen|branchee?|connectee?|conectad[oa]|puesto){BEHIND}"
)
_TAKEN_OFF = lazily(
    rf"{BEFORE}(?:disconnected|removed|taken off|unplugged|unhooked|off|switched off|abgeklemmt|"
    rf"abgenommen|entfernt|debranchee?|retiree?|deconnectee?|desconectad[oa]|quitad[oa]|retirad[oa]|"
    rf"(?:ab|weg|runter|fuera)(?= (?:um |a las )?[0-9]{{1,2}}[:.h][0-9]|\s*(?:[.,;)]|$))){BEHIND}"
)
_REFUSED = lazily(
    rf"{BEFORE}(?:refused|rejected|failed|not accepted|conditions not (?:correct|met)|would not clear|"
    rf"abgelehnt|refuse|rechazad[oa]){BEHIND}"
)
_ACCEPTED = lazily(
    rf"{BEFORE}(?:accepted|ok|successful(?:ly)?|erfolgreich|angenommen|accepte|aceptad[oa]|done){BEHIND}")
_FINISHED = lazily(
    r"(?:[ ,:-]|(?<![a-z])(?:again|and|then|now|it|tool|said|says|was|this time|second time|nochmal|wieder|jetzt|und|"
    r"de nouveau|et|maintenant|otra vez|y|ahora)(?![a-z])){0,8}(?:successful(?:ly)?|success|complete[d]?|finished|"
    r"ok(?:ay)?|"
    r"passed|done|erfolgreich|fertig|i\.? ?o\.?|reussie?|terminee?|correct[oa]?|con exito|terminad[oa]|bien)(?![a-z])")
_SENTENCE = lazily(r"[.;!](?=\s)")
_SECOND_TRY = lazily(
    r"(?<![a-z])(?:(?:second|2nd|2\.|third|3rd|next|another|zweite[rnms]?|nachste[rnms]?|deuxieme|segund[oa]) "
    rf"(?:try|attempt|go|time|versuch|anlauf|essai|fois|intento|vez)){_FINISHED.pattern}")
#: Behind what was programmed and when: "programmed: gearbox, 2026-03-04 09:30, aborted".
_ENDED = lazily(rf"(?:\s?:)?(?:[^.;:]|[:.](?=[0-9])){{0,60}}?(?<![a-z])(?:{_BROKEN})(?![a-z])")
#: Two labels of a screen beside each other, or one with its key.
_LABELS = lazily(r"\S\s{3,}\S+(?:\s\S+)?(?:\s{3,}\S|$)|(?<![a-z0-9])f(?:[1-9]|1[0-2])(?![0-9])")
#: What empties a memory and is no deed: a description of a fault ("memory reset by undervoltage").
_CAUSE = (
    r"(?:(?:an?|the|une?|la|le|el|il|too|supply|battery|system|terminal|zu|einen?|die|den|der|geringe|niedrige)\s+|l')*"
    r"(?:under-? ?volt|low |loss of|power|voltage|supply|brown-? ?out|watchdog|interruption|unterspannung|spannungs|"
    r"unterbrechung|stromausfall|sous-?tension|coupure|perte|chute|tension|subtension|baja|bajada|perdida|caida|corte|"
    r"falta)"
)
_BY_CAUSE = lazily(rf"\s*(?:by|due to|because of|through|durch|wegen|par|a cause d[eu']|por|debido a)\s+{_CAUSE}")
_CAUSE_BEFORE = lazily(rf"(?<![a-z])(?:durch|wegen)\s+{_CAUSE}\w*\s+(?:\w+\s+)?$")
#: A word of each text that tells of a deed.
_DEED_SIGNS = signs.of_pattern(
    r"ed(?![a-z])|eras|clear|clr|cancell|gewist|cycle|test|drove|driven|off|zundung|losch|tausch|ersetz|erneuer|effac|"
    r"borr|fahrt|routier|contact|"
    r"abgeklemmt|debranch|descon|conect|jump|charg|lade|booster|spender|donor|arranca|cargador|"
    r"program|angelernt|codiert|"
    r"kalibri|calibr|learn|took|stellglied|actionn|empare|appair|sustitu|reempl|cambiad|"
    r"geloes|^new$|neue|neu[fv]?(?![a-z])|neuve|nuev|wipe|reset|^(?:out|raus|put)$|remplac|"
    r"wechselt|change|[a-z]baut|montiert|(?:monte|pose|installe)e?(?![a-z])|"
    r"(?:montad|instalad|puest)[oa]|(?:monto|puso|instalo)$"
)


@remembered
def events(low: str) -> tuple[Deed, ...]:
    """What a line in small letters says was done, in the order of the line."""
    if len(low) > 600 or not signs.of(low) & _DEED_SIGNS:
        return ()
    low, sure = tocome.done(low), longago.left_out(doubts.left_out(low))
    untouched = uncleared.span(low) or (0, 0)
    found: list[Deed] = []
    for what, sign, pattern in _DEEDS:
        match = pattern.search(low) if sign.search(low) else None
        if match is not None and what == "cleared":
            match = next((each for each in pattern.finditer(low) if not _has_cause(low, *each.span())
                          and not untouched[0] <= each.start() < untouched[1]), None)
        if match is not None and what == "programmed":
            # "Update of the TCM started 9:10, programming aborted": how it ended tells.
            match = next((each for each in pattern.finditer(low) if _ENDED.match(low, each.end())), match)
        if match is not None and match[0].startswith("clear ") and _LABELS.search(low):
            # "F1 Back   F2 Clear all": labels of a screen, and nothing that was done.
            continue
        if match is None or undone.before(low, match.start()):
            continue
        if what in doubts.OF_DEEDS and sure[match.start()] == " ":
            continue
        tail = low[match.end() : match.end() + 60]
        if undone.behind(tail) or (what == "cleared" and voltmoments.another_day(tail[:40].split(",")[0])):
            continue
        told = _REFUSED.search(tail)
        refused = (undone.is_refused(told, tail) if what == "cleared" else told is not None) or (
            what == "programmed" and _ENDED.match(tail) is not None)
        answer: Literal["accepted", "refused"] | None = (
            "refused" if refused else "accepted" if _is_accepted(what, tail) else None
        )
        part = usedparts.part_of(low) if what == "replaced" else None
        found.append(Deed(match.start(), match.end(), what, None, part, answer))
        if what == "programmed" and answer == "refused" and (stop := _SENTENCE.search(low, match.end())) is not None:
            # "Flashing failed at 62 %. Flashed again, ok": the second try tells how it ended.
            found += [deed._replace(start=deed.start + stop.end(), end=deed.end + stop.end())
                      for deed in events(low[stop.end() :]) if deed.what == "programmed" and deed.answer != "refused"]
            if (again := _SECOND_TRY.search(low, stop.end())) is not None:
                found.append(Deed(*again.span(), what, None, part, "accepted"))
    kind = outside_supply(low)
    if kind == "none" and _TAKEN_OFF.search(low):
        name = outside_supply(_TAKEN_OFF.sub(" connected ", low))
        if name not in (None, "none"):
            found.append(Deed(0, len(low), "outside supply off", name))
    elif kind not in (None, "none") and _CONNECTED.search(low):
        found.append(Deed(0, len(low), "outside supply on", kind))
    return tuple(sorted(found, key=lambda deed: deed.start))


#: Where a scan stands that was taken when something was just done.
_AFTER: dict[What, Phase] = {"cleared": "after-clear", "drove": "after-run", "replaced": "after-repair"}


def of_cell(low: str) -> Phase | None:
    """Where a scan stands by what is said of it alone: by the phase, or by no more than what was done before it.

    >>> of_cell("after the run"), of_cell("cleared"), of_cell("2")
    ('after-run', 'after-clear', None)
    """
    hit = find(low)
    if hit is not None:
        return hit.phase
    deeds = events(low)
    return _AFTER.get(deeds[-1].what) if deeds else None


def _is_accepted(what: What, tail: str) -> bool:
    """Whether what stands behind a deed says that it was taken, or done to its end."""
    return (what == "cleared" and _ACCEPTED.search(tail) is not None) or (
        what == "programmed" and _FINISHED.match(tail) is not None)


def _has_cause(low: str, start: int, end: int) -> bool:
    """Whether what was emptied at a place was so by a supply too low: nobody cleared it."""
    return _BY_CAUSE.match(low, end) is not None or _CAUSE_BEFORE.search(low, max(0, start - 60), start) is not None
