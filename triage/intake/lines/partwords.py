"""Words of a part between a module and its code: "ABS wheel speed front left C0035" is a code of the ABS.

>>> from code_tables import load
>>> from triage.intake.naming.names import Names
>>> names = Names(load())
>>> module_in(names, "ABS wheel speed front left"), module_in(names, "ABS left front sensor")
('ABS', 'ABS')
>>> module_in(names, "door control module"), module_in(names, "Grain tank sensor box")
('door control module', 'Grain tank sensor box')
"""

from __future__ import annotations

from triage.intake.naming.names import Names
from triage.intake.plain.phrases import word_set, words
from triage.intake.said.near import small
from triage.intake.words.module_words import SIDES

_PARTS = word_set("""
    sensor sensors wheel wheels speed ring rotor tone yaw rate lateral acceleration torque pressure temperature temp
    position level switch valve valves solenoid solenoids relay circuit motor pump supply signal coil heater igniter
    squib impact pretensioner belt buckle actuator input output inlet outlet shaft fluid oil coolant
    raddrehzahl raddrehzahlsensor drehzahlsensor drehzahl drucksensor druck temperatursensor temperatur schalter ventil
    magnetventil relais geber fuhler fuehler stromkreis signalgeber gurtstraffer zunder seitenairbag
    capteur capteurs roue roues vitesse pression position interrupteur vanne electrovanne circuit temperature pompe
    moteur pretensionneur
    captador rueda ruedas velocidad presion interruptor valvula electrovalvula rele circuito temperatura bomba
    pretensor""")
_BETWEEN = word_set("of the in de du des la le l del der die das dem an am im von vom y et und and no nr")


def module_in(names: Names, printed: str) -> str:
    """The listed name that a text starts with where all the rest is words of a part and its side; else the text."""
    if " " not in printed or len(printed) > 70 or names.score(printed) >= 60.0:
        return printed
    low = small(printed)
    parts = words(low)
    rest = [at for at, (word, _, _) in enumerate(parts) if word in _PARTS]
    found = names.find(low) if rest else []
    if not found or found[0][0] or not found[0][2]:
        return printed
    stop = found[0][1]
    if any(
        word not in _PARTS and word not in SIDES and word not in _BETWEEN and not word.isdigit()
        for word, start, _ in parts
        if start >= stop
    ):
        return printed
    # A side is the part's where the tables know no such module of several ("ABS left front", but "door, front left").
    for at, (word, _, _) in enumerate(parts):
        if at > 0 and word in SIDES and parts[at][1] < stop and names.score(printed[:stop]) < 90.0:
            stop = parts[at - 1][2]
            break
    name = printed[:stop].rstrip(" ,;:-")
    return name if names.listed(name) else printed


def part_behind(names: Names, text: str, printed: str) -> str | None:
    """What stands behind a module's printed name in the text before its code where it is words of a part."""
    at = text.find(printed)
    if at < 0 or at + len(printed) >= len(text):
        return None
    whole = text[at:].strip(" :,;-")
    return whole[len(printed) :].strip(" :,;-") if whole != printed and module_in(names, whole) == printed else None


__all__ = ["module_in", "part_behind"]
