"""The state of the engine during a scan, in the wordings of four languages.

>>> [engine(text) for text in ("ign on / eng off", "engine: running", "leerlauf, 14,1 v", "engine control", "key on")]
['off', 'running', 'running', None, None]
>>> engine("14.2 v, engine runing"), engine("engine ruined")
('running', None)
>>> engine("idled another 15 min with headlights and blower on. 12.1 v"), engine("idled 15 min, 12.1 v")
('running', None)
>>> spans("koeo, engine off, abs clean")
((0, 4), (6, 16))
"""

from __future__ import annotations

import re

from triage.intake.plain import signs
from triage.intake.plain.patterns import lazily
from triage.intake.plain.phrases import Phrasebook, word_set, words
from triage.intake.plain.remember import remembered
from triage.intake.plain.slips import one_off
from triage.model.snapshot import Engine

#: "Engine runing", "enigne running".
_SLIPS = " | ".join(
    f"{engine} {state}"
    for engine, state in sorted(
        {("engine", slip) for word in ("running", "idling") for slip in one_off(word)}
        | {(slip, "running") for slip in one_off("engine")}
    )
)
_ENGINE = Phrasebook(
    {
        "off": """
        koeo | k o e o | key on engine off | ignition on engine off | engine off | engine not running | engine
        stopped | engine is off | engine was off | engine still off | motor not running | motor off | eng off | ign
        on eng off | key on eng off | not running | engine not started | engine not on | engine not yet run | engine
        not yet started | engine has not been run | engine not been run | engine at rest | engine static | engine
        hasn t been started | engine has not been started | engine hasn t run | engine not run | without starting |
        engine switched off | engine turned off | engine shut off | zundung ein motor aus | zundung an motor aus |
        motor aus | motor ist aus | motor war aus | motor steht | motor stand | motor nicht gestartet | motor noch
        nicht gestartet | motor noch nicht gelaufen | motor nicht gelaufen | motor lauft nicht | motor laeuft nicht
        | motor lief nicht | motor nicht an | motor abgestellt | motor abgeschaltet | bei stehendem motor |
        stehender motor | bei ausgeschaltetem motor | motor im stillstand | motorstillstand | ohne motorlauf |
        moteur arrete | moteur coupe | moteur a l arret | contact mis moteur arrete | moteur non tournant | moteur
        eteint | moteur non demarre | moteur pas encore demarre | moteur pas encore tourne | moteur pas demarre |
        sans demarrer | moteur ne tourne pas | motor parado | motor apagado | contacto puesto motor parado | motor
        detenido | motor sin arrancar | motor no arrancado | motor aun no arrancado | motor todavia no arrancado |
        sin arrancar | con el motor parado | motor esta parado |
        ready off | ready aus | ready not on | drive not ready | vehicle not ready | sin ready | ready eteint | ready
        apagado""",
        "running": """
        koer | k o e r | key on engine running | engine running | engine is running | engine was running | engine
        still running | engine now running | engine left running | engine kept running | engine on | engine is on |
        idling | at idle | on idle | engine idling | engine at idle | engine ticking over | ticking over | motor
        running | motor on | eng running | eng run | eng on | with the engine running | with it running |
        with it idling | engine started | running
        engine | motor lauft | motor laeuft | motor lief | motor an | motor ist an | motor war an | motor gestartet |
        laufender motor | bei laufendem motor | im leerlauf | motor im leerlauf | moteur tournant | moteur tourne |
        moteur en marche | moteur en route | moteur demarre | moteur allume | au ralenti | moteur au ralenti | motor
        en marcha | motor encendido | motor arrancado | motor funcionando | motor girando | al ralenti | en
        ralenti | """
        + _SLIPS,
        "cranking": "cranking | wird angelassen | en cours de demarrage | arrancando",
        "ready": """
        ready mode | in ready | ready on | drive ready | vehicle ready | ready light on | fahrbereit | im ready modus |
        ready modus | en mode ready | mode ready | ready allume | pret a rouler | modo ready | ready encendido""",
    }
)
#: "11:00, running, 14.2 V", "14,2 V, tournant": all that its clause says, beside the voltage.
_CLAUSE_BEFORE = r"(?:^|[,;(|/+]\s?|\s-\s|\.\s|[0-9]{2}[:.h][0-9]{2},? )"
_RUNS = r"(?:now |still |jetzt |noch )?(?:running|lauft|laeuft|laufend|tournant|tourne|en marche|en marcha|encendido)"
#: A word that says "running" where it is all its clause says, a voltage aside.
_IDLE = lazily(
    r"(?:^|[,;(|/+]\s?|\s-\s|\.\s|[0-9]\s?v(?:olts?)? |[0-9][.,][0-9]{1,2} |@ ?)(?:(?:am|at|on|now|currently|"
    r"jetzt|au|al) )?(?:idle|leerlauf|"
    r"ralenti|standgas|relanti)"
    r"(?:\s?[,;.:)|@]|$|\s-\s| [0-9]{2}(?:[.,][0-9]{1,2}(?![0-9])|\s?v))|"
    r"(?<![a-z])running at [0-9]{2}[.,]?[0-9]?\s?v|"
    # "13.9 V running with lights on", but "12.1 V running low".
    # "12:00 engine run 28.2 V", but "engine run 10 min".
    r"(?<![a-z])(?:engine|motor) run (?:at )?[0-9]{2}[.,][0-9]{1,2} ?v(?![a-z])|"
    rf"{_CLAUSE_BEFORE}{_RUNS}\s?[,;|/-]\s?(?:now |at )?[12][0-9][.,][0-9]|"
    rf"(?<![0-9.])[12][0-9][.,][0-9]{{1,2}} ?v?,? {_RUNS}(?=\s?(?:[,;.)|/]|$|-\s))|"
    r"[0-9]\s?v(?:olts?)?,? (?:(?:with|when|while) (?:it |she )?(?:is |was )?)?running"
    r"(?=\s?(?:[,;.:)(|/]|$|-\s|with |and |at ))"
)
#: The word for a running engine with nothing but a voltage beside it: "running 14.2", "14.0 running".
_BESIDE_NUMBER = lazily(
    r"(?:^|[,;(|/+]\s?|\s-\s|\.\s)(?:[0-9]{1,2}[:.h][0-9]{2},? )?(?:now |still |and |jetzt |noch |toujours )?"
    r"(?:idling|idles|runn?inn?g?|lauft|laeuft|"
    r"laufend|tourn(?:e|ant)|en march[ae]),? (?:at |bei |mit |a )?[12][0-9][.,][0-9]{1,2}(?![0-9.])|"
    r"(?<![0-9.])[12][0-9][.,][0-9]{1,2} ?v? (?:idling|runn?ing|laufend|tournant|en march[ae])(?=[.,;)]|$)"
)
#: An engine speed right beside a voltage: "14.1 V at 1500 rpm", "bei 2000/min 14,3 V"; a freeze frame has such a pair
#: behind a code, or without the small word.
_SPEED = r"[1-9][0-9]{2,3} ?(?:r\.?p\.?m(?![a-z])|(?:1|u|r|tr|t)?/min(?![a-z])|min-1(?![0-9]))"
_VOLTS = r"[12][0-9][.,][0-9]{1,2} ?v(?:olts?)?(?![a-z0-9])"
_BESIDE_SPEED = lazily(
    rf"(?:^|(?<![a-z0-9])(?:at|bei|a|con) |@ ?){_SPEED}(?=\.?[ ,:=]{{1,3}}{_VOLTS})|"
    rf"(?<![0-9.]){_VOLTS},? (?:(?:at|bei|a|con) |@ ?){_SPEED}")
_CODE = lazily(r"(?<![a-z0-9])[pcbu][0-9a-f]{4}(?![0-9a-z])|freeze|frame")
#: "Idled 15 min with headlights and blower on": it ran while that was read.
_LOADED = lazily(
    r"(?<![a-z])(?:idl(?:e|ed|ing)|ran|run|leerlauf|gelaufen|laufen(?: lassen)?|ralenti|tourn[ea]r?|marcha)(?![a-z])"
    r"[^.;|\n]{0,32}? (?:with|mit|avec|con) (?:[a-z]+ ){0,3}?(?:head ?lights?|lights?|lamps?|blower|heater|heated|"
    r"loads?|"
    r"consumers?|everything|licht|scheinwerfern?|geblase|verbrauchern?|phares|feux|soufflerie|consommateurs|luces|"
    r"faros|ventilador|consumidores|todo)(?![a-z])(?! (?:off|aus|eteints?|apagad[oa]s?)(?![a-z]))")
#: "READY 15 min" of an electric drive.
_READY_FOR = lazily(r"(?<![a-z])ready (?:for |since |seit |depuis )?[0-9]{1,3} ?min")
#: READY as all that its clause says, or right beside the voltage: "read 07:42, READY, 11.9 V", "run READY 14.2 V".
_READY_ALONE = lazily(
    r"(?:^|[,;(|/+-]\s?|\.\s|^scan [0-9]{1,3}: |[0-9]{2}[:.h][0-9]{2} |[0-9] ?v(?:olts?)? |(?<![a-z])(?:run|clear|"
    r"cleared|repair|scan|read|loschen|reparatur|fahrt|lauf|effacement|reparation|essai|borrar|borrado|"
    r"reparacion|prueba|now|still|jetzt|noch|maintenant|encore|ahora|aun|in|on|at|im|with|"
    r"bei|mit|avec|en|con|goes|went|geht|passe|pasa a) )"
    r"(?P<ready>(?:(?:car|van|bus|truck|vehicle|fahrzeug|vehicule|vehiculo|drive|system) (?:is |ist |est |esta )?)?"
    r"ready)(?= ?(?:$|[,;:)|/+]|[.](?: |$)|- |[12][0-9][.,][0-9]|(?:with|and|mit|und|avec|et|con|y) |nothing|nichts|"
    r"rien|nada|ohne|without|sans|sin))"
)
#: Beside it in its line: a voltage, or a word of a scan; and what tells of a readiness code or of one who is ready.
_READY_TOLD = lazily(r"[0-9] ?v(?:olts?)?(?![a-z])|[12][0-9][.,][0-9]|(?<![a-z])(?:scan|read|after|nach|apres|despues|"
                     r"before|vor|avant|antes)(?![a-z])")
_NOT_READY = lazily(r"(?<![a-z])(?:sans|to be|monitors?|readiness|catalyst|"
                    r"evap|egr|o2|misfire|customer|collection|pick[ -]?up|parts?|order|inspection)(?![a-z])")
#: "Won't go in READY", "geht nicht in READY", "no entra en modo READY".
_NEVER_READY = lazily(r"(?<![a-z])(?:not|never|no|won'?t|doesn'?t|didn'?t|can'?t|cannot|refuses to|nicht|kein|nie|pas|"
                      r"jamais|nunca)(?![a-z])[^.;,:()0-9]{0,24}$")
_NO_BEHIND = lazily(r"\s?[:=]?\s?(?:no|not|nein|nicht|non|pas|off|aus)(?![a-z])")
_TAKEN = r"(?:taken|made|done|run|read|captured|recorded|was|were|been|while|it|all|codes)"
#: What was done while the starter turned: a lowest voltage "while cranking" says nothing of the scan.
_WHILE_CRANKING = lazily(
    r"(?<![a-z])(?:scan|scanned|re-?scan|read|read[ -]?out|reading|poll|polled|snapshot|test|tested)"
    rf"(?: {_TAKEN}){{0,3}} "
    r"(?:while|whilst|when|during) (?:the )?(?:engine |motor |starter )?(?:was |is |being )?crank(?:ing|ed)(?![a-z])|"
    r"(?<![a-z])(?:abfrage|scan|auslesung|auslesen|gescannt|ausgelesen|gelesen|abgefragt)(?: erfolgte| war)? "
    r"(?:wahrend|waehrend|beim) (?:des |dem )?(?:anlassens?|motorstarts?|startvorgangs?|anlassvorgangs?)(?![a-z])|"
    r"(?<![a-z])(?:wahrend|waehrend|beim) (?:des |dem )?(?:anlassens?|motorstarts?|startvorgangs?|anlassvorgangs?) "
    r"(?:gescannt|ausgelesen|gelesen|abgefragt)(?![a-z])|"
    r"(?<![a-z])(?:lecture|releve|scan|interrogation|lue?s?|scanne)(?: (?:faite?|prise?|effectuee?|realisee?))? "
    r"(?:pendant|durant|lors|au cours) (?:du |le |la |de )?(?:demarrage|lancement)(?![a-z])|"
    r"(?<![a-z])(?:lectura|escaneo|escaneado|leido|scan|diagnosis)(?: (?:tomad[ao]|hech[ao]|realizad[ao]))? "
    r"(?:durante|mientras) (?:el |se )?(?:arranque|arrancaba)(?![a-z])"
)
_ENGINE_KEY = lazily(
    r"(?<![a-z])(?:engine|motor|moteur|eng|engine state|key state|motorzustand|etat moteur|"
    r"estado motor)"
    r"(?: state| status)?\s*(?:[:=]|\s-)\s*([a-z]+)"
)
_ENGINE_VALUES: dict[str, Engine] = {
    "off": "off",
    "stopped": "off",
    "static": "off",
    "eteint": "off",
    "detenido": "off",
    "aus": "off",
    "steht": "off",
    "arrete": "off",
    "coupe": "off",
    "parado": "off",
    "apagado": "off",
    "koeo": "off",
    "running": "running",
    "lief": "running",
    "tourne": "running",
    "on": "running",
    "run": "running",
    "idle": "running",
    "idling": "running",
    "lauft": "running",
    "laeuft": "running",
    "an": "running",
    "tournant": "running",
    "koer": "running",
    "encendido": "running",
    "ralenti": "running",
    "leerlauf": "running",
    "marche": "running",
    "cranking": "cranking",
    "ready": "ready",
    "unknown": "unknown",
}
_ENGINE_SIGNS = signs.of_pattern(
    r"eng|mot(?:or|eur)|koe|idl|tick|cran|ready|leerlauf|ralenti|arran|demarr|running|fahrbereit|anlass|startvor|"
    r"lancement|pret|rpm|r\.p\.m|/min|min-1"
)
#: A part of every word for the starter turning.
_STARTER_WORDS = ("crank", "anlass", "motorstart", "startvorg", "demarrage", "lancement", "arran")
#: "Im Motor steht P0562" and "check engine on" say nothing of the engine's state.
_NOT_BEFORE = ("im ", "check ")
#: Where a line names several, the one that says most.
_RANK: tuple[Engine, ...] = ("ready", "off", "running")


#: Words beside the state that say nothing of a module.
_BESIDE = word_set("the is was now key on ignition ign kl 15 and und et y state status with der le la el est")


@remembered
def engine(low: str) -> Engine | None:
    """The state that a line in small letters states; key on alone says nothing of the engine."""
    key = _ENGINE_KEY.search(low)
    if key is not None and key[1] in _ENGINE_VALUES:
        return _ENGINE_VALUES[key[1]]
    if _read_while_cranking(low) is not None:
        return "cranking"
    said = [hit.meaning for hit in _ENGINE.find(low) if not low[: hit.start].endswith(_NOT_BEFORE)
            and not (hit.meaning == "ready" and _NEVER_READY.search(low[: hit.start]) is not None)]
    for state in _RANK:
        if state in said:
            return state
    if not said and (_READY_FOR.search(low) is not None or _ready(low) is not None):
        return "ready"
    if not said and _LOADED.search(low) is not None:
        return "running"
    return "running" if not said and (_IDLE.search(low) or _BESIDE_NUMBER.search(low) or _at_speed(low)) else None


def _ready(low: str) -> re.Match[str] | None:
    """Where a line says READY of the drive with no word for it.

    >>> [engine(text) for text in ("third read 07:42, ready, 11.9 v", "after run ready 14.2 v", "ready. 13.9 v")]
    ['ready', 'ready', 'ready']
    >>> [engine(text) for text in ("catalyst ready, 12.1 v", "not ready, 11.9 v", "ready for collection, 12.4 v")]
    [None, None, None]
    """
    if "ready" not in low or _NOT_READY.search(low) is not None or _READY_TOLD.search(low) is None:
        return None
    found = _READY_ALONE.search(low)
    if found is None or _NEVER_READY.search(low[: found.start("ready")]) or _NO_BEHIND.match(low, found.end()):
        return None
    return found


def _at_speed(low: str) -> re.Match[str] | None:
    """Where a line tells the speed that the engine ran with when a voltage was read.

    >>> engine("14.1 v at 1500 rpm"), engine("bei 2000/min 14,3 v"), engine("p0118 at 850 rpm, 14.2 v")
    ('running', 'running', None)
    """
    return _BESIDE_SPEED.search(low) if _CODE.search(low) is None else None


def _read_while_cranking(low: str) -> re.Match[str] | None:
    """Where a line says that the scan itself was taken while the starter turned the engine.

    >>> engine("read out during cranking"), engine("scan taken, 8.9 v while cranking")
    ('cranking', None)
    """
    return _WHILE_CRANKING.search(low) if any(word in low for word in _STARTER_WORDS) else None


def beside_number(low: str) -> bool:
    """Whether only the voltage beside it makes a word speak of the engine.

    >>> beside_number("booster off. running 14.2"), beside_number("engine running 14.2")
    (True, False)
    """
    return _BESIDE_NUMBER.search(low) is not None and not _ENGINE.find(low)


@remembered
def alone(low: str) -> bool:
    """Whether a line says nothing but the engine's state: "Engine: off", "engine running"; it names no module.

    >>> alone("engine: off"), alone("key on, engine off"), alone("engine control"), alone("engine: off 12.1 v")
    (True, True, False, False)
    """
    if len(low) > 60:
        return False
    found = spans(low)
    rest = [word for word, start, _ in words(low) if not any(first <= start < end for first, end in found)]
    return bool(found) and all(word in _BESIDE for word in rest)


@remembered
def spans(low: str) -> tuple[tuple[int, int], ...]:
    """Where a line speaks of the engine's state: "engine off" names no module there."""
    if not signs.of(low) & _ENGINE_SIGNS:
        return ()
    key = _ENGINE_KEY.search(low)
    found = tuple((hit.start, hit.end) for hit in _ENGINE.find(low) if not low[: hit.start].endswith(_NOT_BEFORE))
    cranked = _read_while_cranking(low)
    found = (*found, cranked.span()) if cranked is not None else found
    speed = _at_speed(low)
    found = (*found, speed.span()) if speed is not None else found
    ready = _ready(low)
    found = (*found, ready.span("ready")) if ready is not None else found
    return (*found, key.span()) if key is not None and key[1] in _ENGINE_VALUES else found
