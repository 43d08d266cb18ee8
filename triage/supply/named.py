"""What a measurement is of, by its name and unit: "key-off draw after 60 min", "voltage drop, engine ground".

Names are taken as people write them; what is of the high-voltage pack is left alone.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Literal, NamedTuple

from triage.model.measured_words import MEASURED, UNLOADED, MeasuredKind, path_of, pulled
from triage.model.snapshot import OutsideSupply, Reading

Kind = MeasuredKind
Path = Literal["ground", "positive"]

#: Of another battery, or a wish and no reading.
_NOT = ("hybrid", "traction", "high voltage", "high-voltage", "hv ", "cell", "pack", "target", "set point", "setpoint",
        "desired", "command", "soll", "consigne")
#: A module's own voltage is not what a meter reads at the battery.
_AT_VEHICLE = ("crank", "running", "one battery")
_UNITS: dict[str, dict[str, float]] = {
    "V": {"v": 1.0, "volt": 1.0, "volts": 1.0, "vdc": 1.0, "v dc": 1.0, "mv": 0.001, "v ac": 1.0, "vac": 1.0,
          "mv ac": 0.001},
    "mA": {"ma": 1.0, "a": 1000.0, "amp": 1000.0, "amps": 1000.0, "µa": 0.001, "ua": 0.001},
    "degC": {"°c": 1.0, "c": 1.0, "degc": 1.0, "deg c": 1.0, "degrees c": 1.0},
}
_ONE_BATTERY = re.compile(r"\b(?:(?:battery|batterie|batería|bateria|batt) ?#? ?(?P<number>[12ab])|"
                          r"(?P<word>first|second|front|rear|left|right|upper|lower) battery)\b")
_SPAN = re.compile(r"((?:\d{1,4}(?:[.,]\d{1,2})?)|half an|\b(?:an|one|two|three|una?|une|eine[rm]?|zwei|deux|dos)) ?"
                   r"(hours?|hrs?|h|minutes?|min|std|stunden?|heures?|horas?)\b")
_NUMBERS = {"half an": 0.5, "two": 2.0, "zwei": 2.0, "deux": 2.0, "dos": 2.0, "three": 3.0}
_SECOND = ("2", "b", "second", "rear", "right", "lower")


class Measured(NamedTuple):
    """One measurement: ``value`` in V, mA or degrees Celsius by its kind. ``hours``: a time that its name says."""

    kind: Kind
    value: float
    name: str
    hours: float | None = None
    path: Path | None = None
    under_load: bool = True
    second: bool = False
    outside: OutsideSupply | None = None
    #: Whether a fuse was pulled or a module unplugged, so that a current is not the whole vehicle's.
    pulled: bool = False


def measured(reading: Reading) -> Measured | None:
    """What ``reading`` measures of the 12 or 24 V supply; None where it is something else.

    >>> measured(Reading(name="key-off draw after 60 min", value=0.31, unit="A"))
    Measured(kind='draw', value=310.0, name='key-off draw after 60 min', hours=1.0, path=None, under_load=True, \
second=False, outside=None, pulled=False)
    """
    parsed = _parsed(reading.name[:200])
    if parsed is None:
        return None
    kind, hours, path, loaded, second, outside = parsed
    if reading.module is not None and kind in _AT_VEHICLE:
        return None
    unit = "mA" if kind == "draw" else "degC" if kind == "temperature" else "V"
    said = " ".join((reading.unit or "").strip().casefold().split())
    factor = _UNITS[unit].get(said)
    if factor is None:
        if said or kind == "temperature":
            return None
        # A draw without a unit is in amperes where it is below what any vehicle draws in milliamperes.
        factor = 1000.0 if kind == "draw" and reading.value < 5.0 else 1.0
    value = reading.value * factor
    if kind in ("load test", "rest", "crank", "running", "one battery") and not 2.0 <= value <= 60.0:
        return None
    return Measured(kind, value, reading.name[:200].strip(), hours, path, loaded, second, outside,
                    kind == "draw" and pulled(reading.name[:200].casefold()))


@lru_cache(maxsize=4096)
def _parsed(
    name: str,
) -> tuple[Kind, float | None, Path | None, bool, bool, OutsideSupply | None] | None:
    """Kind, hours, path, under load, second battery and outside supply that a name tells."""
    low = f"{' '.join(name.casefold().replace('jump pack', 'jump-pack').split())} "
    pair = _ONE_BATTERY.search(low)
    kind = next((kind for kind, words in MEASURED if any(word in low for word in words)), None)
    if kind is None and pair is None:
        return None
    bare = low.replace("jump-pack", "")
    # A drop is read by a meter, with a pump or a lamp commanded on.
    if any(word in bare for word in _NOT if kind != "drop" or word != "command"):
        return None
    span = _SPAN.search(low)
    hours = None
    if span:
        number = float(span[1].replace(",", ".")) if span[1][0].isdigit() else _NUMBERS.get(span[1], 1.0)
        hours = number / (60.0 if span[2].startswith("min") else 1.0)
    second = pair is not None and (pair["number"] or pair["word"]) in _SECOND
    loaded = not any(word in low for word in UNLOADED)
    return kind or "one battery", hours, path_of(low), loaded, second, _outside(low)


def _outside(low: str) -> OutsideSupply | None:
    """The outside supply that a name speaks of."""
    if "nothing connected" in low:
        return "none"
    words: tuple[tuple[str, OutsideSupply], ...] = (
        ("jump-pack", "jump pack"), ("charger", "charger"), ("donor", "donor vehicle"))
    return next((what for word, what in words if word in low), None)


__all__ = ["Kind", "Measured", "Path", "measured"]
