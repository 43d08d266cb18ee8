"""The state of the vehicle during a scan: engine, minutes run, driven or not, outside supply, lamps, lists read,
counters since the clear.

>>> found = find("koeo, jump pack connected, ran 5 min, warm-ups since clear: 3")
>>> found.engine, found.outside_supply, found.ran_minutes, found.warm_ups
('off', 'jump pack', 5.0, 3)
>>> find("moteur tournant depuis 2 min, chargeur débranché".replace("é", "e")).engine
'running'
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field, fields
from operator import attrgetter

from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import Phrasebook
from triage.intake.plain.remember import remembered
from triage.intake.said import distances, phases, tocome, voltengines
from triage.intake.said.durations import in_figures
from triage.intake.said.engine_state import beside_number, engine, spans
from triage.intake.said.outside import outside_supply
from triage.model.snapshot import Engine, ListRead, OutsideSupply
from triage.units import fahrenheit_to_celsius, miles_to_km


@dataclass(slots=True)
class Conditions:
    """What one line says. None, or an empty list, where it says nothing."""

    engine: Engine | None = None
    #: The engine is only said to have run before the scan.
    engine_passed: bool | None = None
    ran_minutes: float | None = None
    drove: bool | None = None
    max_speed_kmh: float | None = None
    coolant_c: float | None = None
    outside_supply: OutsideSupply | None = None
    lamps: list[str] | None = None
    lists_read: list[ListRead] = field(default_factory=list)
    warm_ups: int | None = None
    distance_km: float | None = None
    minutes: float | None = None
    low_seconds: float | None = None

    def any(self) -> bool:
        """Whether the line says anything of this."""
        return any(value not in (None, []) for value in _EVERYTHING(self))


_EVERYTHING = attrgetter(*(each.name for each in fields(Conditions)))

_RUN_WORDS = (
    r"(?:idl(?:e|ed|ing)|r[au]n(?:ning|s)?|engine (?:run|running|on)|warm[ -]?up|leerlauf|motorlauf|"
    r"laufzeit|gelaufen|"
    r"lauf|lief|laufen|laufende[mnr]?|ralenti|tourn(?:e|er|ant)|marche|funcion(?:o|ando)|marcha|encendido|running time|"
    r"run time|"
    r"engine runtime|driv(?:e|en|ing)|drove|test drive|road ?test|probefahrt|fahrt|gefahren|essai|roule|"
    r"conduccion|"
    r"prueba|conducido|rode|anduve|conduje|circule|rodado)"
)
#: The road behind an amount of time: "30 min de route", "20 min Autobahn".
_ROAD = (
    r"(?:(?:de |d'|sur |en |por |auf der |auf |on the |of )?(?:route|autoroute|roulage|conduite|trajet|ruta|carretera|"
    r"autopista|circulacion|trayecto|autobahn|landstrasse|stadtverkehr|motorway|highway))"
)
_AMOUNT = (
    r"([0-9]{1,3}(?:[.,][0-9])?)[ -]?(min(?:ute[sn]?|utos?|s)?|mn|sec(?:onds?)?|sek(?:unden)?|s|h|hours?|"
    r"stunden?|heures?|horas?)"
)
_MINUTES = lazily(
    rf"(?<![a-z]){_RUN_WORDS}(?![a-z])[^0-9;|]{{0,22}}?(?<![0-9.,]){_AMOUNT}(?![a-z])"
    rf"|(?<![0-9.,]){_AMOUNT}(?![a-z])\.?(?:[ -](?:of|at|im|de|d'|engine|motor|moteur|with|the|on|a|am|bei|en|au|al|"
    rf"avec|le|con|el|mit)){{0,4}}[ -]?"
    rf"(?<![a-z])(?:{_RUN_WORDS}|{_ROAD})(?![a-z])"
)
_DROVE = Phrasebook(
    {
        "yes": """
        minute drive | minutes drive | min drive | mins drive | mile drive | miles drive | km drive | quick drive |
        short drive | long drive | went for a drive | mile run | miles run | km run | for a spin | up the
        road and back | round the block |
        around the block | took it round | took it out | tour du pate de maisons | tour du quartier | vuelta a la
        manzana | runde gedreht |
        road test | road tested | roadtest | test drive | test run | test drove | test driven | drove | driven |
        drive cycle done | drive cycle | probefahrt | gefahren | fahrt | essai routier | roule | essai sur route |
        prueba de carretera | conducido | prueba en carretera | recorrido |
        rode | anduve | conduje | circule | rodado | min de route | mn de route | minutes de route | km de route |
        min d'autoroute | minutes d'autoroute | km d'autoroute | min de roulage | minutes de roulage | km de roulage |
        min de conduite | minutes de conduite | min de ruta | minutos de ruta | km de ruta | min de carretera |
        minutos de carretera | km de carretera | min de autopista | minutos de autopista | km de autopista |
        km por carretera | km autobahn | min autobahn | minuten autobahn | km landstrasse | km on the motorway |
        miles on the motorway | min on the motorway | minutes on the motorway | miles of motorway""",
        "no": """
        not driven | no road test | without driving | did not drive | no test drive | no test run | not moved |
        ohne probefahrt | nicht gefahren | keine probefahrt | sans essai routier | pas roule | no conducido |
        sin prueba de carretera | not drove | sin conducir""",
    }
)
#: In the phase of a scan: "after drive 8 km", "post-drive"; of a complaint ("dies after driving") it is none.
_AFTER_DRIVE = lazily(r"(?<![a-z])(?:driv(?:e|ing|en)|trajet|fahren|conduire|conducir|circuler|circular)(?![a-z])")
#: What was not done, or is still to be: "not yet driven", "has not been road tested", "noch nicht gefahren".
_NOT_BEFORE = lazily(
    r"(?<![a-z])(?:not|never|n ?'? ?t|without|nicht|nie|ohne|pas|jamais|non|sans|no|nunca|sin|mai|niet|zonder|"
    r"yet to be|still to be)\s(?:(?:yet|been|be|even|actually|being|having|a|any|noch|auch|bisher|encore|ete|fait|"
    r"ha|han|se|he|sido|aun|todavia|ancora|nog|mit|dem|the|it|der|la|le|el|eine?r?|un|une|una|engine|motor|moteur)\s)*$"
)
_NOT_BEHIND = lazily(
    r"\s?(?:[:=(-]\s?)?(?:(?:is|was|has been|est|wurde|ist|steht|fue)\s)?(?:not(?! ok)(?: yet)?(?: been)?"
    r"(?: (?:done|made|possible|carried out|performed|driven|run|allowed))?(?: yet)?(?=\s*(?:[.,;)]|$))|"
    r"(?:no|none|nein|keine|non|aucun|ninguna)(?=\s*(?:[.,;)]|$))|pending|outstanding|still to (?:do|come|be done)|"
    r"(?:noch )?nicht (?:gemacht|durchgefuhrt|erfolgt|moglich)|noch (?:aus|offen)|noch nicht(?=\s*(?:[.,;)]|$))|"
    r"ausstehend|(?:pas (?:encore )?|non )(?:fait|effectue|possible|realise)e?|reste a faire|a faire|"
    r"(?:aun |todavia )?no (?:realizad|hech|efectuad)[oa]|sin hacer|pendiente)(?![a-z])"
)
_SPEED = lazily(r"(?<![0-9.,])([0-9]{1,3})\s?(km/h|kmh|kph|mph)(?![a-z])")
_LAMPS = lazily(
    r"(?<![a-z])(?:(?:warning |indicator |dash(?:board)? )?(?:lamps?|lights?|tell-?tales?|"
    r"warnings?)(?: lit| that are)?"
    r"(?: on| lit)?|kontrollleuchten?|kontrolllampen?|warnleuchten?|warnlampen?|leuchten|lampen|"
    r"voyants?(?: allumes?)?|"
    r"temoins?|testigos?(?: encendidos?)?|luces)\s*[:=]\s*(.{1,200})$"
)
_LAMP_ON = lazily(
    r"(?<![a-z])(mil|engine lamp|check engine|abs lamp|brake lamp|airbag lamp|charge lamp|"
    r"battery lamp|"
    r"engine light|abs light|brake light|airbag light|battery light|charge light|srs light|"
    r"malfunction lamp)"
    r"\s?(?:is |lamp )?(?:on|lit)(?![a-z])"
)
_NONE = lazily(r"(?:none|no|keine|aucun|aucune|ninguno|ninguna|all off|off|0|-|nil|aus)\s*\.?")
_LISTS = lazily(
    r"(?<![a-z])(pending|confirmed|permanent|stored|ausstehende?|bestatigte|gespeicherte|permanente|en attente|"
    r"confirmes|"
    r"pendientes|confirmados|permanents|permanentes)\s?(?:and (pending|permanent|confirmed)\s?)?(?:trouble |fault |"
    r"dtc )?"
    r"(?:codes?|dtcs?|fehler(?:codes)?|list(?:s|e)?|codigos|defauts)?\s*(?:(?:list )?(?:was|were|also)?\s?(?:also )?"
    r"(?:read|checked|requested|scanned|gelesen|lus?|leidos?)(?![a-z])|\s*[:=]\s*(?:none|keine|aucun|ninguno|0|"
    r"no)(?![a-z]))"
)
_LISTS_KEY = lazily(
    r"(?<![a-z])(?:lists?(?: of codes)? read|lists read|code lists|read|gelesene listen|listen|"
    r"listes lues|listas "
    r"leidas)\s*[:=]\s*([a-z0, /+&]{4,80})"
)
_LIST_WORD: dict[str, ListRead] = {
    "pending": "pending",
    "ausstehend": "pending",
    "ausstehende": "pending",
    "en attente": "pending",
    "attente": "pending",
    "pendientes": "pending",
    "confirmed": "confirmed",
    "stored": "confirmed",
    "bestatigte": "confirmed",
    "gespeicherte": "confirmed",
    "confirmes": "confirmed",
    "confirmados": "confirmed",
    "permanent": "permanent",
    "permanente": "permanent",
    "permanents": "permanent",
    "permanentes": "permanent",
}
_SINCE = lazily(
    r"since\s+(?:the\s+|last\s+|codes?\s+|dtcs?\s+|faults?\s+|were\s+|was\s+)*(?:clear|eras|reset)|"
    r"seit\s+(?:dem\s+|der\s+|"
    r"letztem\s+|letzter\s+)*(?:losch|loesch)|depuis\s+(?:l'|le\s+|la\s+|dernier\s+)*effac|"
    r"desde\s+(?:el\s+|la\s+|ultimo\s+)*borr"
)
_WARM_UPS = lazily(
    r"(?<![a-z])(?:warm[ -]?ups?|warm[ -]?up cycles?|warmlaufe|warmlaufzyklen|aufwarmzyklen|"
    r"cycles de chauffe|"
    r"echauffements|mises en temperature|ciclos de calentamiento|calentamientos)(?![a-z])"
)
_NUMBER = lazily(r"(?<![0-9a-z.,])([0-9]{1,6}(?:[.,][0-9]{1,2})?)\s?([a-z/°]{0,8})")
_COOLANT = lazily(
    r"(?<![a-z])(?:coolant|ect|kuhlmittel(?:temperatur)?|kuehlmittel(?:temperatur)?|"
    r"liquide de refroidissement|"
    r"refrigerante|temp(?:erature)? (?:moteur|motor))(?: temp(?:erature)?)?\s?[:=]?\s?(?:at |was |"
    r"is )?"
    r"(-?[0-9]{1,3}(?:[.,][0-9])?)\s?°?\s?([cf])(?![a-z])"
)
_LOW_TIME = lazily(
    r"(?<![a-z])(?:below|under|unter|sous|bajo)\s+[0-9]{1,2}(?:[.,][0-9])?\s?v[a-z]*\s+(?:for|"
    r"fur|pendant|durante)\s+"
    r"(?:about\s+)?([0-9]{1,4})\s?(s|sec(?:onds?)?|sek(?:unden)?|min(?:utes?|uten)?)(?![a-z])"
)
_TRIGGER = lazily(
    r"km|mile|lead|kabel|cable|pince|eng|motor|moteur|koe|idl|crank|arran|anlass|demarr|startvor|lancement|ready|run|ran|driv|drov|fahr|roul|essai|prueba|min|charg|"
    r"lade|jump|booster|"
    r"donor|spender|supply|fremd|exter|connected|battery|cargador|lamp|light|leucht|"
    r"voyant|testig|mil|"
    r"list|read|gelesen|pending|permanent|warm|since|seit|depuis|desde|coolant|ect|kuhl|ralenti|"
    r"pack|boster|nichts ang|nichts dran|rien de|nada con|spin|tour|vuelta|chrg|lief|lauf|laeuf|march|tourn|block|took|"
    r"standgas|starthilf|stutz|stuetz|support|maintain|conditioner|stabili|donneur|donante|"
    r"temoin|luces|telltale|warnings|cables|pinces|pinzas|psu|netzteil|fuente|fehler|refriger|"
    r"liquide|recorr|rod[eao]|anduve|condu|circul|"
    r"road|test|below|under|unter|sous|bajo|refroid|temp|nothing|rpm"
)


@remembered
def find(low: str) -> Conditions:
    """What one line of text in small letters says of the state of the vehicle. Linear in its length."""
    found, told = Conditions(), low
    if len(low) > 2000 or not _TRIGGER.search(low):
        return found
    low = tocome.done(low)
    if _SINCE.search(low):
        low = _since_clear(low, found)
    both = voltengines.both(low)
    found.engine = engine(low if both is None else low[: both.span[0]] + ", " + low[both.span[1] :])
    # "Charging proven (14.2 V running)" tells of the scan only where nothing else does.
    found.engine_passed = (found.engine == "running" and (_ran_before(low) or beside_number(low))) or None
    _run(low, found)
    found.outside_supply = outside_supply(told)
    _lamps(low, found)
    _lists(low, found)
    coolant = _COOLANT.search(low)
    if coolant is not None:
        degrees = float(coolant[1].replace(",", "."))
        found.coolant_c = round(fahrenheit_to_celsius(degrees), 1) if coolant[2] == "f" else degrees
    low_time = _LOW_TIME.search(low)
    if low_time is not None:
        found.low_seconds = float(low_time[1]) * (60 if low_time[2].startswith("min") else 1)
    return found


#: So far before a voltage it begins.
_NEAR = 160


@remembered
def run_spans(low: str) -> list[tuple[int, int]]:
    """Where a line says how long the engine ran, and that the vehicle was driven. Not to be changed: each voltage of a
    line asks."""
    ran = [match.span() for match in _MINUTES.finditer(in_figures(low))]
    return [*ran, *((hit.start, hit.end) for hit in _DROVE.find(low)), *distances.spans(low)]


def ends_run(low: str, at: int) -> bool:
    """Whether what says how long the engine ran ends right before a place: "20 min round the block 14.6 v"."""
    first = max(0, at - _NEAR)
    return any(first + end <= at <= first + end + 2 for _, end in run_spans(low[first : at + 1]))


def _ran_before(low: str) -> bool:
    """Whether a line says only that the engine ran before the scan: "after 10 minutes idling"."""
    phase = phases.find(low)
    return phase is not None and phase.phase == "after-run" and all(
        phase.start <= start and end <= phase.end for start, end in spans(low))


#: The engine ran where the vehicle stood, in four languages: a drive would be said.
_STOOD = lazily(
    r"(?<![a-z])(?:idl(?:e|ed|ing)|tick(?:ing)?[ -]?over|in the (?:bay|workshop|garage|shop|yard)|on the (?:ramp|lift)|"
    r"stationary|standing still|parked|not moved|engine (?:was |is |left )?(?:running|run|ran|on)|engine ran|"
    r"(?:im )?leerlauf|im stand|in der (?:werkstatt|halle)|motor (?:lief|laeuft|lauft|laufend)|(?:au )?ralenti|"
    r"a l'arret|moteur tournant|(?:al )?ralenti|en el taller|parado|motor en marcha)(?![a-z])")


def _run(low: str, found: Conditions) -> None:
    figures = in_figures(low)
    figures = low if figures == low else " ".join(figures.split())
    told = _MINUTES.finditer(figures)
    match = next((each for each in told if not _undone(figures, each.start(), len(figures))), None)
    if match is not None:
        amount, unit = (match[1], match[2]) if match[1] else (match[3], match[4])
        value = float(amount.replace(",", "."))
        found.ran_minutes = value / 60 if unit.startswith("s") else value * 60 if unit.startswith("h") else value
    drove = ["no" if _undone(low, hit.start, hit.end) else hit.meaning for hit in _DROVE.find(low)]
    drove += ["yes" for span in distances.spans(low) if not _undone(low, *span)]
    far = not drove and distances.bare(low) is not None
    if not drove and (far or _AFTER_DRIVE.search(low)) and (phase := phases.find(low)) is not None and (
            phase.phase == "after-run" and (far or _AFTER_DRIVE.search(low[phase.start : phase.end + 1]))):
        drove = ["yes"]
    if drove:
        found.drove = "no" not in drove
        speed = _SPEED.search(low)
        if speed is not None and found.drove:
            value = float(speed[1])
            found.max_speed_kmh = round(miles_to_km(value), 1) if speed[2] == "mph" else value
    elif found.ran_minutes and _STOOD.search(low):
        found.drove = False


def _undone(low: str, start: int, end: int) -> bool:
    """Whether a run or a drive at a place of a line did not take place, or not yet.

    >>> [find(low).drove for low in ("not yet driven", "road test: not done", "noch nicht gefahren", "driven 5 km")]
    [False, False, False, True]
    """
    return _NOT_BEFORE.search(low, max(0, start - 40), start) is not None or _NOT_BEHIND.match(low, end) is not None


def _lamps(low: str, found: Conditions) -> None:
    match = _LAMPS.search(low)
    if match is not None:
        if _NONE.fullmatch(match[1].strip()):
            found.lamps = []
        elif not re.search(r"[pcbu][0-3][0-9a-f]{3}", match[1]):
            names = (
                re.sub(r"\s*(?:on|lit|lamp|light|an|allume|encendido)\s*$", "", name.strip(" .()"))
                for name in re.split(r"[,;/+&]|\s(?:and|und|et|y)\s", match[1])
            )
            found.lamps = [name for name in names if name and len(name) <= 40]
        return
    lit = [re.sub(r" (?:lamp|light)$", "", match[1]) for match in _LAMP_ON.finditer(low)]
    if lit:
        found.lamps = lit


def _lists(low: str, found: Conditions) -> None:
    key = _LISTS_KEY.search(low)
    words: list[str | None] = []
    if key is not None:
        words += re.split(r"[^a-z]+", key[1])
    for match in _LISTS.finditer(low):
        words += [match[1], match[2]]
    for word in words:
        name = _LIST_WORD.get(word or "")
        if name is not None and name not in found.lists_read:
            found.lists_read.append(name)


def _since_clear(low: str, found: Conditions) -> str:
    """Counters of a line that speaks of the time since the clear: warm-ups, kilometres, minutes; what else it says."""
    parts = re.split(r"[,;|]\s|\sand\s", low)
    about = [bool(_SINCE.search(part) or _WARM_UPS.search(part)) for part in parts]
    first, last = about.index(True), len(about) - about[::-1].index(True)
    # "Since clear: 3 warm-ups, 20 km, 50 min" counts to the end of its line.
    last = len(parts) if re.match(r"[^a-z]*(?:counters? )?(?:since|seit|depuis|desde)", parts[first]) else last
    for part in parts[first:last]:
        for match in _NUMBER.finditer(part):
            value, unit = float(match[1].replace(",", ".")), match[2]
            if unit in ("km", "kilometer", "kilomete"):
                found.distance_km = value
            elif unit in ("mi", "miles", "mile"):
                found.distance_km = round(miles_to_km(value), 1)
            elif unit.startswith("min"):
                found.minutes = value
            elif unit in ("h", "hours", "hour", "stunden"):
                found.minutes = value * 60
            elif _WARM_UPS.search(part):
                found.warm_ups = int(value)
            elif re.search(r"distance|entfernung|strecke|distancia", part) and found.distance_km is None:
                found.distance_km = value
            elif re.search(r"(?<![a-z])(?:time|minutes|zeit|temps|tiempo)(?![a-z])", part) and found.minutes is None:
                found.minutes = value
    return ", ".join(parts[:first] + parts[last:])
