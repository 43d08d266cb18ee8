"""What measurements of the 12 or 24 V supply are called, as people write them: English, German, French, Spanish.

One table for the reader, that finds them in a text, and for the supply, that judges them.
"""

from __future__ import annotations

import re
from typing import Literal

MeasuredKind = Literal["load test", "rest", "crank", "running", "ripple", "draw", "drop", "one battery", "temperature"]

#: Kind -> words of which one must be in the name. The first kind that fits is taken.
MEASURED: tuple[tuple[MeasuredKind, tuple[str, ...]], ...] = (
    ("load test", ("load test", "half cca", "belastungstest", "essai de charge", "prueba de carga")),
    ("draw", ("key-off draw", "key off draw", "parasitic", "quiescent", "standby current", "sleep current",
              "key-off current", "key off current", "ruhestrom", "courant de repos", "corriente de reposo")),
    ("ripple", ("ripple", "restwelligkeit", "welligkeit", "ondulation", "rizado")),
    ("drop", ("voltage drop", "volt drop", "ground drop", "earth drop", "feed drop", "positive drop", "negative drop",
              "cable drop", "drop on", "drop across", "spannungsabfall", "chute de tension", "caída de tensión",
              "caida de tension")),
    ("crank", ("crank", "starting voltage", "startspannung", "anlassspannung", "tension au démarrage",
               "tensión de arranque")),
    ("rest", ("rested", "resting", "rest voltage", "at rest", "open circuit voltage", "open-circuit voltage", "ocv",
              "ruhespannung", "tension au repos", "tension à vide", "tensión en reposo")),
    ("running", ("charging voltage", "running voltage", "voltage running", "voltage at idle", "idle voltage",
                 "generator output", "alternator output", "converter output", "ladespannung", "tension de charge",
                 "tensión de carga")),
    ("temperature", ("battery temp", "outside temp", "ambient temp", "batterietemp", "außentemp")),
)

_TESTED = re.compile(
    r"(?<![a-z])(?:batter(?:y|ies|ie)|batt|bater[ií]a)\b.{0,14}\b(?:test(?:er|ed|s)?|analy[sz]er)\b|\bbatterie-?test|"
    r"(?<![a-z])(?:test|essai|prueba)\b.{0,10}\b(?:batterie|bater[ií]a|battery)|"
    r"(?<![a-z])(?:batter(?:y|ie)|batt|bater[ií]a)\b.{0,12}\b[0-9]{2,4} ?(?:a|cca|en)? ?(?:/|of|von|sur|de) ?"
    r"[0-9]{2,4}\b")
_BAD = re.compile(r"(?<![a-z])(?:replace|bad|failed|fail|weak|defekt|schlecht|tauschen|ersetzen|remplacer|hs|mauvaise|"
                  r"cambiar|mala|defectuosa)(?![a-z])")
_AGAIN = re.compile(r"(?<![a-z])(?:re-?charge|charge (?:and|&) retest|retest|nachladen|recharger|recargar|not tested|"
                    r"no test)(?![a-z])")
_GOOD = re.compile(r"(?<![a-z])(?:good|passed|pass|ok|okay|gut|i\.?o|bestanden|bonne?|buena|correcta)(?![a-z])")


def battery_tested(low: str) -> Literal["good", "bad", "again"] | None:
    """What a battery tester said, as a line in small letters has it; None where it tells of none.

    >>> [battery_tested(low) for low in ("battery test: passed", "battery tested good, 680/700 cca", "battery low")]
    ['good', 'good', None]
    >>> [battery_tested(low) for low in ("battery b 180 a of 650 replace", "battery tester: good - recharge")]
    ['bad', 'again']
    """
    if _TESTED.search(low) is None:
        return None
    if _BAD.search(low) is not None:
        return "bad"
    if _AGAIN.search(low) is not None:
        return "again"
    return "good" if _GOOD.search(low) is not None else None


__all__ = ["MEASURED", "MeasuredKind", "battery_tested"]
