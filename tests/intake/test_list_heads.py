"""Heads of lists: of modules by what these answered, of codes by their status. Invented texts."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, printed
from triage.intake.said.listheads import status_of_head


@pytest.mark.parametrize("head", ["Answered, no DTCs: ", "Responding, no faults: ", "Answering and clean: ",
                                  "Communicating, no codes - "])
def test_an_answer_that_heads_a_list_is_no_module(head: str) -> None:
    assert printed(f"{head}Engine Control Module, Airbag\nNo response: ABS\n") == (
        "Engine Control Module: clean; Airbag: clean; ABS: silent")
    assert printed("Geantwortet, keine Fehler: Motor, ABS") == "Motor: clean; ABS: clean"


@pytest.mark.parametrize(("head", "status"), [
    ("actuels :", "current"), ("actuelles :", "current"), ("actueels :", "current"), ("dféauts actuels :", "current"),
    ("cnfirmés :", "confirmed"), ("erreurs mémorisées :", "stored"), ("pannes fugitives :", "stored"),
    ("défauts non présents :", "stored"), ("codes inactives :", "stored"), ("Fehhler aktuell:", "current"),
    ("Gespeicherte:", "stored"), ("Fehlereinträge nicht vorhandene:", "stored"), ("Störungen vorhanden:", "current"),
    ("códigos de avería almacenados:", "stored"), ("averías no activas:", "stored"), ("presentes:", "current"),
    ("pendinetes:", "pending"), ("storeed faults:", "stored"), ("present errors:", "current"),
    ("previously active entries:", "stored"), ("-- currnet codes --", "current"),
])
def test_a_head_in_any_form_or_with_a_slip_names_the_status(head: str, status: str) -> None:
    read = {"restraints": [f"B0012 {status}", f"B1000 {status}"], "telematics": [f"U0140 {status}"]}
    assert modules_of(f"SRS - Airbag\n  {head}\n  B0012: Circuit 2\n  B1000: Circuit 3\n"
                      f"TCU2 - Telematics\n  {head}\n  U0140: Circuit 4\n") == read


@pytest.mark.parametrize("name", ["Passat", "Speicherofen", "Aktor", "Motive", "Coder", "Presse", "Fehler im Motor"])
def test_what_is_near_a_status_and_none_is_no_head(name: str) -> None:
    assert status_of_head(name.lower(), True) == (None, False)


@pytest.mark.parametrize("head", [
    "Sin comunicación con (2):", "Sin contacto con:", "Pas de communication avec (2) :", "Pas de contact avec :",
    "Sin contacto con los módulos siguientes:", "Pas de communication avec les calculateurs suivants :",
    "Keine Kommunikation mit folgenden Steuergeräten:", "Sin respuesta de los siguientes módulos:",
    "No communication with the following modules:", "Keine Antwort von folgenden Modulen:"])
def test_a_head_that_ends_in_a_small_word_or_the_following_modules(head: str) -> None:
    text = f"ABS: C0040 stored\nSRS: no codes\n{head}\n  - Crane Slewing\n  - Radio\n"
    assert modules_of(text) == {
        "anti-lock brakes": ["C0040 stored"], "restraints": ["clean"], "Crane Slewing": ["silent"],
        "radio": ["silent"]}


def test_a_name_that_ends_in_a_small_word_keeps_it() -> None:
    assert printed("Air Con no response\nRear Zorg con: no response\nABS: no codes\n") == (
        "Air Con: silent; Rear Zorg con: silent; ABS: clean")
