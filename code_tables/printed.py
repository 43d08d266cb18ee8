"""What the text printed beside a maker's code tells where no table knows the code: that it is about the supply, or
about another module (:mod:`code_tables.printed_network`, :mod:`code_tables.printed_pointers`).

A maker's number has no fixed meaning, its printed text has: "B1318 Battery voltage low" is a supply code whatever the
number (common practice). The text of a code that a table knows is not asked.

>>> [direction(text) for text in ("Battery voltage low", "Versorgungsspannung niedrig", "Sensor supply voltage low")]
['low', 'low', None]
>>> [direction(text) for text in ("System voltage above limit", "High voltage battery, low", "Lamp circuit low")]
['high', None, None]
>>> [direction(text) for text in ("supply low", "power supply too high", "fuel supply low", "low supply", "low power")]
['low', 'high', None, 'low', None]
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable
from dataclasses import replace
from functools import lru_cache

from code_tables.facts import CodeFacts, ModuleFacts
from code_tables.printed_network import spoken
from code_tables.printed_pointers import pointed_at

POINTER = "pointer"

_OF_SUPPLY = re.compile(
    r"(?<![a-z])(?:(?:system|battery|batt|vehicle|ecu|module|control module|control unit|device|board ?net|supply|"
    r"power supply|terminal 30|kl\.? ?30|b\+|ignition)(?: supply| power| feed)? (?:voltage|volts?)|supply voltage|"
    r"(?<![a-z] )(?:power |voltage )?supply(?= (?:too )?(?:low|high)(?![a-z]))|"
    r"(?<=low )(?:power )?supply$|(?<=high )(?:power )?supply$|"
    r"under ?voltage|"
    r"overvoltage|over ?voltage|unterspannung|uberspannung|versorgungsspannung|bordnetzspannung|batteriespannung|"
    r"kl(?:emme)?\.? ?30(?![0-9])|tension (?:de )?(?:la )?batterie|tension d'?alimentation|sous-?tension|surtension|"
    r"tension (?:de )?(?:la )?bateria|tension de alimentacion|subtension|sobretension)(?![a-z])"
)
_LOW = re.compile(
    r"(?<![a-z])(?:low|too low|below|under ?voltage|undervoltage|less than|minimum|niedrig|unterspannung|"
    r"unterschritten|unter|faible|basse|insuffisante|inferieure|sous-?tension|baja|bajo|insuficiente|subtension)(?![a-z])"
)
_HIGH = re.compile(
    r"(?<![a-z])(?:high|too high|above|over ?voltage|overvoltage|exceed\w*|hoch|uberspannung|uberschritten|elevee|"
    r"haute|superieure|surtension|alta|alto|elevada|sobretension)(?![a-z])"
)
#: The voltage of something else: a sensor, the traction battery, one cell, an output.
_OF_ANOTHER = re.compile(
    r"(?<![a-z])(?:sensor|sensors|reference|signal|cell|cells|high[ -]voltage|hv|traction|hochvolt|haute tension|"
    r"alta tension|heater|lamp|bulb|motor|actuator|valve|solenoid|relay|coil|injector|output|switch|key|remote|"
    r"transmitter|tyre|tire|backup|emergency|siren|aux\w*|second|geber|schlussel|capteur|cle|llave|mando)(?![a-z])"
)


@lru_cache(maxsize=8192)
def direction(text: str) -> str | None:
    """"low" or "high" where ``text`` says that the supply was; None where it says neither or anything else."""
    if len(text) > 120:
        return None
    folded = unicodedata.normalize("NFKD", text.casefold())
    low = "".join(char for char in folded if not unicodedata.combining(char))
    if not _OF_SUPPLY.search(low) or _OF_ANOTHER.search(low):
        return None
    down, up = _LOW.search(low), _HIGH.search(low)
    return None if bool(down) == bool(up) else "low" if down else "high"


def _none(name: str) -> ModuleFacts | None:
    return None


def _listed(facts: ModuleFacts) -> ModuleFacts | None:
    return facts if facts.sources else None


def with_text(
    facts: CodeFacts, texts: list[str], module: Callable[[str], ModuleFacts], own: str = "",
    fitted: Callable[[str], ModuleFacts | None] = _none,
) -> CodeFacts:
    """``facts`` of a code no table knows, with what its printed ``texts`` say of the supply or of another module;
    ``module``: what is known of a module by any name; ``own``: the canonical name of the one that holds the code;
    ``fitted``: the one of the vehicle's modules that a name can only mean; it goes before what it means elsewhere."""
    if facts.known or facts.supply is not None or facts.targets:
        return facts
    if facts.relation is None:
        said = {found for text in texts if (found := direction(text)) is not None}
        if len(said) == 1:
            # It watches what the module is fed with, whatever others of its range wait for: C0899 of SAE J2012.
            return replace(facts, system="supply", supply=said.pop(), noise="supply", needs="supply", monitor="key on",
                           monitor_named=True, alike=0)
    told = {(report[0], target.name): target for text in texts if (report := _told(text)) is not None
            and (target := fitted(report[1]) or _listed(module(report[1]))) is not None}
    if len(told) != 1:
        return facts
    ((relation, name), target), = told.items()
    if name == own:
        return facts
    safety = facts.safety or target.safety
    if relation == POINTER:
        # As a standard pointer has it: P0700 of SAE J2012.
        return replace(facts, relation=relation, targets=(name,), noise="electronic", monitor="key on",
                       monitor_named=True, safety=safety, alike=0)
    return replace(facts, relation=relation, targets=(name,), noise="network", monitor="network", monitor_named=True,
                   safety=safety, alike=0)


def _told(text: str) -> tuple[str, str] | None:
    """What ``text`` says of another module, and how it names it."""
    report = spoken(text)
    if report is None and (name := pointed_at(text)) is not None:
        return POINTER, name
    return report
