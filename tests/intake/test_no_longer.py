"""What is told in the past tense, what is no longer there, and what was connected before the next read-out."""

from __future__ import annotations

import pytest

import code_tables
from triage.intake.read import read_text

TABLES = code_tables.load()


def told(text: str) -> list[dict[str, list[str] | None]]:
    """By snapshot, by canonical module: its codes, None where it is silent."""
    return [{module.module: [code.code for code in module.codes] if module.responds else None
             for module in snapshot.modules} for snapshot in read_text(text, TABLES).snapshots]


@pytest.mark.parametrize("text", [
    "Gearbox: nothing any more. ABS C0045.",
    "Now the gearbox has nothing any more, ABS still has C0045 current.",
    "Getriebe: nichts mehr. ABS: C0045 aktuell.",
    "Im Getriebe ist nichts mehr drin, das ABS hat weiter C0045 aktuell.",
    "Boîte de vitesses : plus rien. ABS : C0045 présent",
    "La boîte de vitesses n'a plus aucun défaut, l'ABS garde C0045 présent.",
    "Plus rien côté boîte de vitesses, l'ABS garde C0045 présent.",
    "En la caja de cambios ya no sale nada, el ABS sigue con C0045 presente.",
    "Caja de cambios: ya sin averías. ABS: C0045 presente",
])
def test_what_is_no_longer_there_leaves_the_module_clean(text: str) -> None:
    [modules] = told(text)
    assert modules == {"transmission control": [], "anti-lock brakes": ["C0045"]}


def test_no_longer_answering_is_no_clean_memory() -> None:
    [modules] = told("La boîte de vitesses n'a plus de réponse, l'ABS a C0045 présent.")
    assert modules == {"transmission control": None, "anti-lock brakes": ["C0045"]}
    assert told("Boîte de vitesses : n/a\nABS : C0045") == [{"anti-lock brakes": ["C0045"]}]


@pytest.mark.parametrize("text", [
    "Le moteur avait P0606 mémorisé, et l'airbag ne répondait pas.",
    "El motor tenía P0606 guardado, y el airbag no contestaba.",
    "Der Motor hatte P0606 gespeichert, und der Airbag antwortete nicht.",
])
def test_past_tense(text: str) -> None:
    assert told(text) == [{"engine control": ["P0606"], "restraints": None}]


@pytest.mark.parametrize("text", [
    "Charger connected: gearbox no faults, ABS C0045.",
    "Put the charger on: gearbox no faults, ABS C0045.",
    "Ladegerät angeschlossen: Getriebe keine Fehler, ABS C0045.",
    "J'ai branché le chargeur : boîte de vitesses sans défaut, ABS C0045.",
    "He puesto el cargador: caja de cambios sin averías, ABS C0045.",
    "Conecté el cargador: caja de cambios sin averías, ABS C0045.",
])
def test_a_charger_that_was_connected_is_no_clean_module(text: str) -> None:
    assert told(text) == [{"transmission control": [], "anti-lock brakes": ["C0045"]}]


def test_a_charger_with_an_answer_is_a_module() -> None:
    assert told("No comms with charger, gearbox P0606.") == [
        {"battery charger": None, "transmission control": ["P0606"]}]


@pytest.mark.parametrize("deed", ["Borré todo y volví a leer", "Puse el cargador, borré todo y he vuelto a leer",
                                  "Borrado todo y releído otra vez"])
def test_read_again_in_spanish_opens_a_scan(deed: str) -> None:
    first, second = told(f"Motor P0606, ABS mudo. {deed} con 13,1 V: en el motor ya no sale nada, ABS C0045.")
    assert first == {"engine control": ["P0606"], "anti-lock brakes": None}
    assert second == {"engine control": [], "anti-lock brakes": ["C0045"]}
