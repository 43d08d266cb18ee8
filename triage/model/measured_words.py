"""What measurements of the 12 or 24 V supply are called, as people write them: English, German, French, Spanish.

One table for the reader, that finds them in a text, and for the supply, that judges them.
"""

from __future__ import annotations

import re
from typing import Literal

from triage.model.snapshot import Reading

MeasuredKind = Literal["load test", "rest", "crank", "running", "ripple", "draw", "drop", "one battery", "temperature",
                       "unsteady", "found"]

#: The name of a supply that the meter would not show steadily.
UNSTEADY = "unsteady supply"
#: The name of what a battery had before something was connected that feeds the vehicle.
AS_FOUND = "battery as found"
#: The name of what a module feeds its sensors with, and what stands before the part that was unplugged meanwhile.
REFERENCE, UNPLUGGED = "5 V reference", "unplugged: "
#: Where a trailer is fed from the vehicle that draws it.
TRAILER_SOCKET = "trailer socket"
#: Kind -> words of which one must be in the name. The first kind that fits is taken.
MEASURED: tuple[tuple[MeasuredKind, tuple[str, ...]], ...] = (
    ("unsteady", (UNSTEADY,)), ("found", (AS_FOUND,)),
    ("load test", ("load test", "half cca", "belastungstest", "essai de charge", "prueba de carga")),
    ("draw", ("key-off draw", "key off draw", "parasitic", "quiescent", "standby current", "sleep current",
              "key-off current", "key off current", "draw after", "battery drain", "drain after", "ruhestrom",
              "courant de repos", "corriente de reposo", "consumo en reposo", "courant de veille", "courant de fuite",
              "consommation au repos", "consumo parásito", "consumo parasito", "fuga de corriente", "kriechstrom")),
    ("ripple", ("ripple", "restwelligkeit", "welligkeit", "ondulation", "rizado")),
    ("drop", ("voltage drop", "volt drop", "volts drop", "ground drop", "earth drop", "feed drop", "positive drop",
              "negative drop", "cable drop", "drop on", "drop across", "spannungsabfall", "masseabfall",
              "spannungsverlust", "chute de tension", "perte de tension", "caída de tensión", "caida de tension",
              "pérdida de tensión", "perdida de tension", "ground loss", "earth loss", "masseverlust", "massefall",
              "chute de masse", "perte de masse", "chute sur la masse", "perte sur la masse", "caída de masa",
              "caida de masa", "pérdida de masa", "perdida de masa", "caída de tierra", "caida de tierra")),
    ("crank", ("crank", "starting voltage", "startspannung", "anlassspannung", "tension au démarrage",
               "tensión de arranque")),
    ("rest", ("rested", "resting", "rest voltage", "at rest", "open circuit voltage", "open-circuit voltage", "ocv",
              "ruhespannung", "tension au repos", "tension à vide", "tensión en reposo")),
    ("running", ("charging voltage", "running voltage", "voltage running", "voltage at idle", "idle voltage",
                 "generator output", "alternator output", "converter output", "ladespannung", "tension de charge",
                 "tensión de carga")),
    ("temperature", ("battery temp", "outside temp", "ambient temp", "batterietemp", "außentemp")),
)

#: What a name says of a path without current.
UNLOADED = ("no load", "without load", "unloaded", "ohne last", "sans charge", "sin carga")

_SAID = r"(?:good|bad|pass(?:ed|es)?|fail(?:ed|s)?|ok(?:ay)?|replace|weak|bestanden|schlecht|defekt|tauschen)"
#: A current, or a conductance, beside the rated one.
_OF_RATED = r"[0-9]{2,4} ?(?:a|cca|en)? ?(?:/|of|von|sur|de) ?(?:rated |nenn )?[0-9]{2,4}\b"
_FIGURES = re.compile(rf"\b{_OF_RATED}|\b[0-9]{{1,3}} ?%")
_TESTED = re.compile(
    r"\bload[ -]?test(?:ed|s)?\b(?=.{0,24}\b[0-9]{2,4} ?(?:a|cca|en)? ?(?:/|of) ?(?:rated )?[0-9]{2,4}\b|"
    rf".{{0,40}}\b{_SAID}\b)|"
    r"(?<![a-z])(?:batter(?:y|ies|ie)|batt|bater[ií]a)\b.{0,14}\b(?:test(?:er|ed|s)?|analy[sz]er)\b|\bbatterie-?test|"
    # "Battery charged and passed tester"
    r"(?<![a-z])(?:batter(?:y|ies|ie)|batt|bater[ií]a)(?: (?:was|is|now|fully|(?:re-?)?charged|and|then|has|"
    r"(?:auf)?geladen|und|charg[ée]e|et|cargada|y)){1,6} "
    r"(?:(?:passed|passes|failed|fails)(?: (?:on|the|a|its|load|battery))* test\w*|"
    r"tested|getestet|gepr(?:ü|ue|u)ft|test[ée]e|probada|comprobada)(?![a-z])|"
    r"(?<![a-z])(?:conductance|leitwert|conductancia)[ -]?(?:test\w*|messung)?\b.{0,12}[0-9]{2,4}|"
    rf"(?<![a-z])(?:conductance|leitwert|conductancia)[ -]?(?:test\w*|messung)\b.{{0,12}}\b{_SAID}\b|"
    r"(?<![a-z])(?:soh|state of health|gesundheitszustand|[eé]tat de sant[eé]|estado de salud) ?[:=]? ?[0-9]{1,3} ?%|"
    r"(?<![a-z])cca(?: |-)test(?:ed)?\b.{0,8}\b[0-9]{2,4}|"
    rf"(?<![a-z])cca ?[:=]? ?{_OF_RATED}|"
    r"(?<![a-z])(?:test|essai|prueba)\b.{0,10}\b(?:batterie|bater[ií]a|battery)|"
    r"(?<![a-z])(?:batter(?:y|ie)|batt|bater[ií]a)\b.{0,12}\b[0-9]{2,4} ?(?:a|cca|en)? ?(?:/|of|von|sur|de) ?"
    r"[0-9]{2,4}\b")
_BAD = re.compile(r"(?<![a-z])(?:replace|bad|failed|fail|weak|defekt|schlecht|tauschen|ersetzen|remplacer|hs|mauvaise|"
                  r"cambiar|mala|defectuosa)(?![a-z])")
_AGAIN = re.compile(r"(?<![a-z])(?:re-?charge|charge (?:and|&) retest|retest|nachladen|recharger|recargar|not tested|"
                    r"no test)(?![a-z])")
_GOOD = re.compile(r"(?<![a-z])(?:good|passed|pass|ok|okay|gut|i\.?o|bestanden|bonne?|buena|correcta)(?![a-z])")

_NEGATIVE = re.compile(
    r"(?<![a-z])(?:ground|earth|negative|neg|masse|minus|tierra|masa|motor-?masse|gnd)(?![a-z])|masse|ground|"
    r"earth|-ve|borne -|"
    r"(?<![a-z])b-(?![a-z])|\(-\)|(?<![a-z])(?:block|engine)\b.{0,20}\b(?:to|and)\b.{0,12}\b(?:body|chassis|frame)\b|"
    r"(?<![a-z])(?:body|chassis|frame)\b.{0,12}\b(?:to|and)\b.{0,20}\b(?:block|engine|body|chassis|frame)\b")
_POSITIVE = re.compile(
    r"drop across (?:the )?(?:\w+ )?(?:link|fuse|relay|f ?[0-9]|\w*sicherung|\w*switch|isolator|fusible|"
    r"relais|rel[eé])|"
    r"positiv|plus|(?<![a-z])(?:feeds?|pos|live side|charge cable|(?:generator|alternator) to batt\w*)(?![a-z])|b ?\+|"
    r"\+ve|(?<![a-z0-9])\+ ?(?:side|post|terminal|cable|lead)|\(\+\)")
#: Where the probes of a meter stand for a voltage drop.
_POINT = (
    r"(?:(?:batt(?:ery|erie)?|bat|neg(?:ative)?|pos(?:itive)?|minus|plus|b ?[+-]|posts?|terminals?|poles?|clamps?|"
    r"(?:engine |motor)?block|engine|gearbox|body|chassis|frame|earth|ground|masse|strap|stud|starter|alternator|"
    r"generator|fuse ?box|(?:bloc|bloque) (?:moteur|motor)|karosserie|getriebe|motor|polklemme|moteur|caisse|"
    r"borne|batterie|carroceria|of|the|case|"
    r"housing|casing|lead|cable|rh|lh|point|[-+])[ .]{0,2})")
_GROUND_OF = r"(?:grounds?|earth|masse|masa|tierra)"
_TO = r"(?:to|->|nach|gegen|zu[rm]?|a|vers|hasta|contra)"
_POST = (r"(?:(?:batter(?:y|ie)|bater[ií]a|batt)[ -]?(?:neg(?:ative|ativ[eo]?)?|minus|moins|-)|"
         r"moins (?:de la )?batterie|minus(?:pol)? (?:der )?batterie|negativo (?:de la )?bater[ií]a|batterie-?minus)")
_BETWEEN = re.compile(
    rf"(?<![a-z]){_POINT}{{1,4}}(?:to|->|nach|gegen|zu[rm]?|a|jusqu'a|hasta|und|and|et|y|/|vers|contra) ?(?:the |"
    rf"der |dem |la |le |"
    rf"el )?{_POINT}|"
    # The ground of a module against the post: "ground EPS to battery neg", "moins batterie a masse ABS".
    rf"(?<![a-z]){_GROUND_OF}(?: (?:of|at|the|an|am|der|des|dem|von|de|du|la|le|el|del)){{0,2}}"
    rf"(?: [a-z0-9/-]+){{1,3}}? {_TO} (?:the |der |dem |la |le |el |den )?{_POST}|"
    rf"(?<![a-z]){_POST} {_TO} (?:the |der |dem |la |le |el )?(?:[a-z0-9/-]+ ){{1,3}}?{_GROUND_OF}(?![a-z])|"
    # And its feed against the other.
    rf"(?<![a-z])(?:b ?\+|(?:batter(?:y|ie)|bateria|batt)[ -]?(?:plus|pos(?:itiv[eo]?)?|\+)|plus batterie|\+ batterie) "
    rf"{_TO} (?:the |der |dem |la |le |el )?(?:[a-z0-9/-]+ ){{1,3}}?(?:feed|plug|connector|pin|supply|stecker|"
    rf"einspeisung|connecteur|alimentation|conector|alimentacion)(?![a-z])")

#: What was taken off the battery while its current was read: a fuse, a connector, a module; a current named after a
#: fuse is not the whole vehicle's. The key and what feeds the vehicle from outside are none of that.
_OFF = (r"(?:pulled|removed|unplugged|disconnected|un-plugged|dis-?connected|isolated|taken out|lifted|out|gezogen|"
        r"raus|herausgezogen|entfernt|abgesteckt|abgeklemmt|ausgesteckt|debranchee?|débranchée?|retiree?|retirée?|"
        r"enlevee?|enlevée?|deconnectee?|déconnectée?|desconectad[oa]|desenchufad[oa]|quitad[oa]|sacad[oa])")
_PULLED = re.compile(
    rf"(?<![a-z])(?:pull(?:ing)?|unplug(?:ging)?|disconnect(?:ing)?|remov(?:e|ing)|sans|without|ohne|sin|"
    rf"en retirant|en enlevant|en [oô]tant|en d[eé]branchant|(?:al )?(?:quitar|desconectar|sacar|"
    rf"desenchufar)|(?:quit|desconect|sac|desenchuf)ando)\b"
    rf"(?=.{{0,24}}(?:\bf ?[0-9]|fuse|relay|module|plug|connector|sicherung|relais|steuerger|fusible|modul|rel[eé]|"
    rf"stereo|radio|unit|alternator|amp))|(?<![a-z]){_OFF}(?![a-z])|"
    r"\b(?:f|fuse|fuses|sicherung|si|fusible) ?[0-9]{1,3}\b|\b(?:fuse|relay|sicherung|fusible)\b.{0,40}"
    r"\b(?:drops?|brings?|takes?|cuts?|falls?|goes|went|senkt|fällt|faellt|sinkt)\b|"
    r"(?<![a-z])(?:ab|heraus|aus)?(?:ziehen|stecken|klemmen|bauen)(?![a-z])")
_NOT_PULLED = re.compile(
    rf"(?<![a-z])(?:keys?|fob|ignition key|schl(?:ü|ue?)ssel|clé|cle|llave|contacto?|ignition|charger|"
    rf"ladeger(?:ä|ae?)t|chargeur|cargador|jump[ -]?pack|booster|leads?|meter|trailer|"
    rf"nothing|nothing else|no fuses?|hood latch)"
    rf"(?: (?:was|is|and fob))? (?:all )?{_OFF}(?![a-z])|"
    r"(?:\b(?:f|fuse|sicherung|fusible) ?[0-9]{1,3} )?\b(?:is |was |put |plugged |all )?(?:back|refitted|wieder)"
    r"(?: (?:back|in|drin|on|gesteckt))?(?![a-z])|"
    r"(?<![a-z])(?:run|timed?|times|cooled|ran|(?:lights?|lamps?)(?: \w+)?) out(?![a-z])|"
    r"without (?:pulling|anything|any)")


def path_of(low: str) -> Literal["ground", "positive"] | None:
    """The path along which a voltage drop was measured, by its name in small letters.

    >>> [path_of(low) for low in ("neg post to block", "b+ post to starter stud", "plus side", "block to body", "ecm")]
    ['ground', 'positive', 'positive', 'ground', None]
    """
    return "ground" if _NEGATIVE.search(low) else "positive" if _POSITIVE.search(low) else None


def is_drop(reading: Reading) -> bool:
    """Whether a reading is a voltage drop in volts along a path, under load as far as its name says.

    >>> [is_drop(Reading(name=name, value=0.9, unit=unit)) for name, unit in (("voltage drop rear ground", "V"),
    ...     ("voltage drop rear ground, no load", "V"), ("ground resistance", "ohm"))]
    [True, False, False]
    """
    low, unit = reading.name[:200].casefold(), (reading.unit or "V").casefold()
    drop = next(words for kind, words in MEASURED if kind == "drop")
    return unit in ("v", "volt", "volts") and any(word in low for word in drop) and not any(
        word in low for word in UNLOADED)


def between_points(low: str) -> bool:
    """Whether a text in small letters names the two points of a path that a meter stands on.

    >>> [between_points(low) for low in ("neg post to block cranking", "battery minus to engine", "12.6 to 9.8 v")]
    [True, True, False]
    """
    return _BETWEEN.search(low) is not None


def pulled(low: str) -> bool:
    """Whether something was taken off while a current was read, by its name in small letters.

    >>> [pulled(low) for low in ("with f27 pulled", "door module unplugged", "f27 drops it to", "key out", "1 h")]
    [True, True, True, False, False]
    """
    return _PULLED.search(_NOT_PULLED.sub(" ", low)) is not None


def battery_tested(low: str) -> Literal["good", "bad", "again", "figures"] | None:
    """What a battery tester said, as a line in small letters has it, or that it gave figures alone; None where it tells
    of none.

    >>> [battery_tested(low) for low in ("battery test: passed", "battery tested good, 680/700 cca", "battery low")]
    ['good', 'good', None]
    >>> [battery_tested(low) for low in ("battery b 180 a of 650 replace", "battery tester: good - recharge")]
    ['bad', 'again']
    >>> [battery_tested(low) for low in ("conductance test: bad", "battery test: soh 62 %, cca 310/640", "soh 62 %")]
    ['bad', 'figures', 'figures']
    """
    if _TESTED.search(low) is None:
        return None
    if _BAD.search(low) is not None:
        return "bad"
    if _AGAIN.search(low) is not None:
        return "again"
    if _GOOD.search(low) is not None:
        return "good"
    return "figures" if _FIGURES.search(low) is not None else None


__all__ = ["AS_FOUND", "MEASURED", "REFERENCE", "TRAILER_SOCKET", "UNLOADED", "UNPLUGGED", "UNSTEADY", "MeasuredKind",
           "battery_tested", "between_points", "is_drop", "path_of", "pulled"]
