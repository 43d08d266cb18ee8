"""Answers that only the name before them makes one: "TCM clear", and modules that did what the one before did."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of
from triage.intake.read import read_text

RADIO, CLIMATE, ABS, TCM = "radio", "climate control", "anti-lock brakes", "transmission control"


@pytest.mark.parametrize("text", [
    "TCM clear. SRS no comm. ECM P0562 stored.",
    "SRS no comm, TCM clear, ECM P0562 stored",
    "ECM P0562 stored; SRS no comm; TCM is clear",
    "ECM P0562 stored. TCM all clear and SRS no comm.",
    "TCM clr. SRS no comm. ECM P0562 stored.",
])
def test_clear_behind_a_name_is_no_deed(text: str) -> None:
    assert modules_of(text) == {TCM: ["clean"], "restraints": ["silent"], "engine control": ["P0562 stored"]}


@pytest.mark.parametrize("text", [
    "radio won't talk at all, HVAC neither",
    "radio won't talk at all. Neither does the HVAC.",
    "Radio no comms, same for the HVAC",
    "Radio: no answer, HVAC likewise",
    "The radio did not answer, nor did the HVAC",
    "Radio antwortet nicht, Klimaanlage auch nicht",
    "radio muet, HVAC non plus",
    "la radio no responde, HVAC tampoco",
])
def test_a_module_did_as_the_one_before(text: str) -> None:
    assert modules_of(text) == {RADIO: ["silent"], CLIMATE: ["silent"]}


def test_a_clean_module_is_followed_by_another() -> None:
    text = "ABS clean, TCM too, HVAC as well. ECM P0562"
    assert modules_of(text) == {ABS: ["clean"], TCM: ["clean"], CLIMATE: ["clean"], "engine control": ["P0562"]}


def test_a_deed_and_a_code_are_followed_by_nobody() -> None:
    assert modules_of("ABS ok. After radio clear, P0562 in the ECM") == {ABS: ["clean"], "engine control": ["P0562"]}
    assert modules_of("ABS has C0035, TCM too. Radio no answer") == {ABS: ["C0035"], RADIO: ["silent"]}


@pytest.mark.parametrize("head", [
    "Sin comunicación con:", "No hay comunicación con:", "Pas de communication avec:",
    "Sin comunicación con los módulos:", "Keine Verbindung mit:", "No communication with:",
])
def test_a_word_that_leads_to_the_list_below_is_no_module(head: str) -> None:
    text = f"{head}\n   Radio\n   ABS\nAir con\n   B1000 (stored)\n"
    assert modules_of(text) == {"radio": ["silent"], "anti-lock brakes": ["silent"],
                                "air conditioning": ["B1000 stored"]}


@pytest.mark.parametrize(("name", "answer"), [
    ("Dosing box (DCX-AT)", "no codes"), ("Boîtier urée (DCX-EN)", "sans défaut"), ("DCX-E", "sin averías"),
    ("DCX-AN", "keine Fehler"),
])
def test_a_small_word_tied_to_a_name_is_part_of_it(name: str, answer: str) -> None:
    assert [each.printed for each in read_text(f"{name}: {answer}\n", load()).snapshots[0].modules] == [name]


def test_a_small_word_behind_a_dash_and_a_blank_is_none_of_the_name() -> None:
    assert modules_of("No codes - in the radio\nABS - at the moment no codes\n") == {
        "radio": ["clean"], "anti-lock brakes": ["clean"]}
