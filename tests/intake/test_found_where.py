"""Who has which codes where, in sentences: "j'ai P0335 dans l'injection et U0121 au combiné"."""

from __future__ import annotations

import pytest

import code_tables
from triage.intake.read import read_text

TABLES = code_tables.load()


def told(text: str) -> dict[str, list[str] | None]:
    """By canonical module of the only snapshot: its codes, None where it is silent."""
    [snapshot] = read_text(text, TABLES).snapshots
    return {module.module: [code.code for code in module.codes] if module.responds else None
            for module in snapshot.modules}


@pytest.mark.parametrize("text", [
    "J'ai P0335 présent dans l'injection et U0121 mémorisé dans le combiné, ABS muet.",
    "J'avais P0335 présent dans l'injection et U0121 mémorisé au tableau de bord, l'ABS restait muet.",
    "Il reste P0335 présent sur l'injection et U0121 mémorisé sur le combiné. ABS muet.",
    "Tengo P0335 presente en el motor y U0121 guardado en el cuadro. ABS mudo.",
    "Queda P0335 presente en el motor y U0121 guardado en el cuadro, el ABS no contesta.",
    "Ich habe P0335 aktuell im Motor und U0121 gespeichert im Kombi, ABS stumm.",
    "I have P0335 current in the engine and U0121 stored in the cluster, ABS silent.",
])
def test_each_code_is_in_its_place(text: str) -> None:
    assert told(text) == {"engine control": ["P0335"], "instrument cluster": ["U0121"], "anti-lock brakes": None}


def test_what_somebody_lost_contact_with_is_no_place() -> None:
    assert told("Combiné : U0121 perte de communication au calculateur ABS. Moteur P0335.") == {
        "instrument cluster": ["U0121"], "engine control": ["P0335"]}


@pytest.mark.parametrize("text", [
    "La boîte et l'airbag étaient vides et l'ABS restait muet.",
    "Ni la boîte ni l'airbag n'ont de défaut, l'ABS est muet.",
    "Rien ni dans la boîte ni dans l'airbag. ABS muet.",
    "Rien dans la boîte ni dans l'airbag. ABS muet.",
    "Nada ni en el cambio ni en el airbag. ABS mudo.",
    "Gearbox and airbag were empty, nothing coming back from the ABS.",
])
def test_empty_ones_beside_a_silent_one(text: str) -> None:
    assert told(text) == {"transmission control": [], "restraints": [], "anti-lock brakes": None}


@pytest.mark.parametrize("text", [
    "Chargeur à 13,2 V : P0335 présent dans l'injection, ABS sans défaut.",
    "Charger at 13.2 V: P0335 current in the engine, ABS clean.",
    "Cargador a 13,2 V: P0335 presente en el motor, ABS sin fallos.",
    "Ladegerät auf 13,2 V: P0335 aktuell im Motor, ABS fehlerfrei.",
])
def test_a_charger_with_its_voltage_holds_no_code(text: str) -> None:
    assert told(text) == {"engine control": ["P0335"], "anti-lock brakes": []}


def test_a_verb_in_one_letter_is_no_number_of_a_module() -> None:
    assert told("La boîte a P0700, l'ABS U0100.") == {"transmission control": ["P0700"], "anti-lock brakes": ["U0100"]}
    assert told("Door a P0562, and door b U0100") == {"door A": ["P0562"], "door B": ["U0100"]}


@pytest.mark.parametrize("text", [
    "Impossible d'entrer dans l'ABS et dans le combiné. Moteur P0263.",
    "Je n'arrive pas à entrer dans l'ABS ni dans le combiné. Moteur P0263.",
    "No puedo entrar ni en el ABS ni en el cuadro. Motor P0263.",
    "Can't get into the ABS or the dash. Engine P0263.",
])
def test_what_nobody_gets_into_is_silent(text: str) -> None:
    assert told(text) == {"anti-lock brakes": None, "instrument cluster": None, "engine control": ["P0263"]}


@pytest.mark.parametrize("well", ["perfect", "spot on", "nickel", "perfecto", "tipptopp"])
def test_words_for_well(well: str) -> None:
    assert told(f"ABS {well}, airbag {well}, engine P0263.") == {
        "anti-lock brakes": [], "restraints": [], "engine control": ["P0263"]}
    assert told(f"Radiator {well}\nABS fuse {well}\nEngine P0263") == {"engine control": ["P0263"]}


@pytest.mark.parametrize("text", [
    "Brakes ok on the road test\nEngine P0263", "Bremsen ok bei der Probefahrt\nMotor P0263",
    "Freins ok sur route\nMoteur P0263", "Frenos ok en carretera\nMotor P0263"])
def test_what_went_well_on_the_road_was_not_read(text: str) -> None:
    assert told(text) == {"engine control": ["P0263"]}
