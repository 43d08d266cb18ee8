"""Headings with a number and a word for a module before each name, and their addresses. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans
from triage.intake.plain.characters import lines
from triage.intake.tidying import keysections


@pytest.mark.parametrize("word", ["System", "Modul", "Module", "Système", "Unidad", "ECU"])
def test_a_word_for_a_module_behind_the_number(word: str) -> None:
    text = f"1 {word} Kestrel mast\nC0035: low\n2 {word} ABS\nC0040: high\n5 {word} Radio\nU0100: lost\n"
    assert modules_of(text) == {"Kestrel mast": ["C0035"], "anti-lock brakes": ["C0040"], "radio": ["U0100"]}


def test_such_headings_below_a_summary() -> None:
    text = ("Summary\n1 Toit ouvrant : 1 défaut\n2 Calculateur moteur : 1 défaut\n3 Radio : RAS\n4 ABS : 1 défaut\n\n"
            "Details\n1 Système Toit ouvrant\n"
            "Défauts inactifs\nB1000, électronique, compteur 3\n2 Système Calculateur moteur\n"
            "Défauts actifs\nP0562, tension, compteur 2\n4 Système ABS\nDéfauts inactifs\nC0035, capteur, compteur 7\n")
    assert modules_of(text) == {"sunroof": ["B1000 stored"], "engine control": ["P0562 current"],
                                "radio": ["clean"], "anti-lock brakes": ["C0035 stored"]}


def test_a_word_that_is_part_of_some_names_stays() -> None:
    found = lines("1 Radio\nB1000\n2 Module Kestrel\nB1001\n3 ABS\nC0035\n4 Module Falcon\nB1002\n")
    assert keysections.named(found) == found


@pytest.mark.parametrize("address", ["(0x724)", "[0x7A]", "($1F)", "[$72C]"])
def test_an_address_behind_a_name_that_nobody_lists(address: str) -> None:
    text = f"Unit: KESTREL {address}\nB1000 stored\nUnit: ABS (0x760)\nC0035 stored\n"
    assert modules_of(text) == {"KESTREL": ["B1000 stored"], "anti-lock brakes": ["C0035 stored"]}


def test_a_scan_in_brackets_above_keys_with_accents() -> None:
    text = ("[Lecture avant effacement]\nModule : ABS\nCode : C0035\nÉtat : mémorisé\n\n[Lecture après réparation]\n"
            "Module : ABS\nCode : C0035\nÉtat : présent\n\n[Lecture après effacement]\nModule : ABS\nCode : C0040\n")
    assert scans(text) == ["before-clear | ABS: C0035 stored", "after-repair | ABS: C0035 current",
                           "after-clear | ABS: C0040"]


def test_a_pair_of_numbers_wrapped_below_in_which_no_code_is_found_alone() -> None:
    text = "SPN=110 FMI=0 - Coolant hot - Engine -\nstored\nSPN=190  FMI=2 - Engine speed - ABS -\nactive\n"
    assert modules_of(text) == {"engine control": ["SPN 110 FMI 0 stored"],
                                "anti-lock brakes": ["SPN 190 FMI 2 current"]}


@pytest.mark.parametrize(
    "heads", [("Inactive faults", "Active faults"), ("stored", "active"), ("Gespeichert", "Aktiv")])
def test_a_status_between_the_key_of_a_module_and_its_only_code(heads: tuple[str, str]) -> None:
    text = (f"Module: Sunroof\n{heads[0]}\nB1000, electronics\nModule: Engine\n{heads[1]}\nP0562, low\n"
            f"Module: ABS\n{heads[1]}\nC0035\n")
    assert modules_of(text) == {"sunroof": ["B1000 stored"], "engine control": ["P0562 current"],
                                "anti-lock brakes": ["C0035 current"]}
