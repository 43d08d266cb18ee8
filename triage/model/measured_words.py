"""What measurements of the 12 or 24 V supply are called, as people write them: English, German, French, Spanish.

One table for the reader, that finds them in a text, and for the supply, that judges them.
"""

from __future__ import annotations

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

__all__ = ["MEASURED", "MeasuredKind"]
