"""What a live value is called: its quantity, number, side and unit, whatever the language and the order of words.

A pattern is groups of words joined by " + ": one word of each group must be there, and none of a group with a minus.
"""

from __future__ import annotations

import unicodedata
from functools import lru_cache
from typing import TYPE_CHECKING

from triage.units import fahrenheit_to_celsius, miles_to_km

if TYPE_CHECKING:
    from code_tables import Tables

Pattern = tuple[tuple[bool, tuple[str, ...]], ...]
#: A longer name is text, not the name of a value.
LONGEST = 120
_SIDES = {
    "front": "front", "vorn": "front", "vorne": "front", "avant": "front", "delantera": "front", "delantero": "front",
    "rear": "rear", "back": "rear", "hinten": "rear", "arriere": "rear", "trasera": "rear", "trasero": "rear",
    "left": "left", "links": "left", "gauche": "left", "izquierda": "left", "izquierdo": "left",
    "right": "right", "rechts": "right", "droite": "right", "droit": "right", "derecha": "right", "derecho": "right",
}
#: Corners in short: front or rear, left or right, in English and German order.
_CORNERS = {
    "fl": ("front", "left"), "lf": ("front", "left"), "vl": ("front", "left"), "fr": ("front", "right"),
    "rf": ("front", "right"), "vr": ("front", "right"), "rl": ("rear", "left"), "lr": ("rear", "left"),
    "hl": ("rear", "left"), "rr": ("rear", "right"), "hr": ("rear", "right"),
}
_TIMES = {"h": 1.0, "hours": 1.0, "hour": 1.0, "std": 1.0, "min": 1 / 60, "minutes": 1 / 60, "s": 1 / 3600}
_PRESSURES = {"kpa": 1.0, "hpa": 0.1, "mbar": 0.1, "bar": 100.0, "psi": 6.894757, "inhg": 3.386389}
_VOLTS = {"v": 1.0, "volt": 1.0, "volts": 1.0, "vdc": 1.0, "mv": 0.001, "kv": 1000.0}


def fold(text: str) -> str:
    """Small letters and figures with single spaces, no accents.

    >>> fold("Kühlmittel-Temperatur (°C)")
    'kuhlmittel temperatur c'
    """
    plain = unicodedata.normalize("NFKD", unicodedata.normalize("NFKD", text).casefold())
    return " ".join("".join(c if c.isalnum() else "" if unicodedata.combining(c) else " " for c in plain).split())


@lru_cache(maxsize=1024)
def compiled(pattern: str) -> Pattern:
    """``pattern`` as groups of folded words, each with whether it is wanted (else: must not be there)."""
    return tuple((not group.startswith("-"), tuple(fold(word) for word in group.removeprefix("-").split("|")))
                 for group in pattern.split(" + ") if group)


def fits(pattern: str, text: str, *, whole: bool) -> bool:
    """Whether folded ``text`` fits. ``whole``: whole words only; else words of four letters and more anywhere
    (a compound holds them), but never those with a figure at an end.

    >>> fits("coolant|kühlmittel + temp", fold("Kühlmitteltemperatur"), whole=False)
    True
    >>> fits("signal low", fold("signal below limit"), whole=True)
    False
    """
    padded = f" {text} "
    return all(wanted == any(
        (f" {word} " in padded) if whole or len(word) < 4 or word[-1:].isdigit() or word[:1].isdigit() else (
            word in text) for word in words)
        for wanted, words in compiled(pattern))


@lru_cache(maxsize=8192)
def quantities(name: str, tables: Tables) -> frozenset[str]:
    """The names of reading_names.csv that a value called ``name`` may go by."""
    if len(name) > LONGEST:
        return frozenset()
    text = fold(name)
    return frozenset(known for known, pattern in tables.reading_names.items() if fits(pattern, text, whole=False))


def sides(text: str) -> frozenset[str]:
    """Front or rear and left or right in folded ``text``.

    >>> sorted(sides("wheel speed fl")) == sorted(sides("left front wheel speed sensor")) == ["front", "left"]
    True
    """
    words = text.split()
    return frozenset([_SIDES[word] for word in words if word in _SIDES] + [
        side for word in words for side in _CORNERS.get(word, ())])


def numbers(text: str, *, name: bool) -> frozenset[int]:
    """Which of several it is, the first left out: "sensor 2" and "sensor B" are {2}. A ``name`` bears a letter last.

    >>> numbers("sensor reference voltage b", name=False) == numbers("5 v reference 2", name=True)
    True
    """
    words = text.split()
    found = {int(word) for word, after in zip(words, [*words[1:], ""], strict=True)
             if word.isascii() and word.isdigit() and len(word) == 1 and after != "v"}
    letters = words[-1:] if name else words
    found |= {"bcd".index(word) + 2 for word in letters if word in ("b", "c", "d")}
    return frozenset(found - {0, 1})


@lru_cache(maxsize=1024)
def _bare(unit: str) -> str:
    """A unit in small letters, without degree signs and blanks."""
    return unit[:40].strip().casefold().replace("°", "").replace("degrees", "deg").replace(" ", "")


def in_unit(value: float, unit: str | None, wanted: str) -> float | None:
    """``value`` in the unit ``wanted`` ("degC", "V", "km/h", "kPa", "%", "h", "count"); None where it is of another.

    No unit is taken as the one wanted, but a temperature above zero may then be in degrees Fahrenheit: None.
    """
    said = _bare(unit) if unit else ""
    if not said:
        return None if wanted == "degC" and value > 0 else value
    if wanted == "degC":
        return value if said in ("c", "degc", "celsius") else (
            fahrenheit_to_celsius(value) if said in ("f", "degf", "fahrenheit") else None)
    if wanted == "km/h":
        return miles_to_km(value) if said in ("mph", "mi/h") else value if said in ("km/h", "kmh", "kph") else None
    if wanted == "%":
        return value if said in ("%", "percent", "pct") else None
    if wanted == "count":
        return value if said in ("cells", "cell", "modules", "blocks", "zellen", "cellules", "celdas") else None
    factor = {"V": _VOLTS, "kPa": _PRESSURES, "h": _TIMES}[wanted].get(said)
    return None if factor is None else value * factor
