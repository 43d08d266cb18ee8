"""Keys that ask for the name of a module in many words: "Unit name", "nom du calculateur".

All invented; wordings: common practice.
"""

from __future__ import annotations

import pytest
from reads import modules_of, printed

KEYS = [
    "Unit name", "Control unit name", "Device", "Device name", "Node", "System name", "Name of the module",
    "Module label",
    "Steuergerätebezeichnung", "Name des Steuergeräts", "Nom du calculateur", "Nombre de la centralita",
]


@pytest.mark.parametrize("key", KEYS)
@pytest.mark.parametrize("mark", [":", " :", " ="])
def test_a_key_for_the_name_of_a_module_opens_it(key: str, mark: str) -> None:
    text = f"{key}{mark} PSCM\nStatus: no faults found\n\n{key}{mark} GW\nNumber of faults: 1\nDTC: U0401:00\n"
    text += "Status: stored\n"
    assert modules_of(text) == {"power steering": ["clean"], "gateway": ["U0401-00 stored"]}
    assert printed(text) == "PSCM: clean; GW: U0401-00"


@pytest.mark.parametrize("key", ["Unit name", "Device name"])
def test_such_a_key_opens_a_module_that_no_table_lists(key: str) -> None:
    text = f"{key} 1: Quantum flummery\nCode: B1318\n\n{key} 2: ABS\nResult: zero codes\n"
    assert printed(text) == "Quantum flummery: B1318; ABS: clean"


def test_the_name_of_somebody_opens_no_module() -> None:
    text = "User name: Max\nFile name: scan.txt\nUnit name: ABS\nCode: C0035\n"
    assert printed(text) == "ABS: C0035"


@pytest.mark.parametrize("key", ["Calculateur:", "Calculateur.....:", "Calculateur ="])
def test_a_key_and_its_value_that_are_a_listed_name_together(key: str) -> None:
    text = f"{key} Direction assistée\nCode défaut: U3003\n\n{key} Climatisation\nCode défaut: aucun\n"
    assert printed(text) == "Direction assistée: U3003; Climatisation: clean"


def test_a_name_that_begins_with_the_word_of_its_key() -> None:
    text = "Module: Module de porte (DDM): aucun défaut\nModule: Radio: aucun défaut\n"
    assert printed(text) == "Module de porte (DDM): clean; Radio: clean"


def test_a_blank_line_in_a_block_parts_nothing() -> None:
    text = "Unit: Airbag\nCode: U0415\n\nFTB: 54\nText: Invalid data\nStatus: pending\n\nUnit: ABS\nResult: 0 DTCs\n"
    assert modules_of(text) == {"restraints": ["U0415-54 pending"], "anti-lock brakes": ["clean"]}
    text = "Unit: Airbag\nCode: U0415\nStatus: stored\n\nText: Invalid data\nCode: U0416\nStatus: pending\n"
    assert modules_of(text) == {"restraints": ["U0415 stored", "U0416 pending"]}
