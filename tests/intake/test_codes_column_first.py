"""Tables whose first column holds the codes, and the answers of modules that hold none. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

ROWS = [
    ("Code,Unit,Status", "P0715,Gearbox,stored", "no answer,Brakes,", "C0545,Steering,active", "no codes,Gateway,"),
    ("Code;Modul;Status", "P0715;Getriebe;gespeichert", "keine Antwort;Bremse;", "C0545;Lenkung;aktiv",
     "i.O.;Gateway;"),
    ("Code,Calculateur,Statut", "P0715,Boîte de vitesses,mémorisé", "pas de réponse,Freins,", "C0545,Direction,présent",
     "aucun défaut,Passerelle,"),
    ("Código,Módulo,Estado", "P0715,Cambio,memorizado", "no responde,Frenos,", "C0545,Dirección,presente",
     "sin códigos,Pasarela,"),
]
READ = {"transmission control": ["P0715 stored"], "anti-lock brakes": ["silent"], "power steering": ["C0545 current"],
        "gateway": ["clean"]}


@pytest.mark.parametrize("rows", ROWS)
def test_an_empty_last_cell_does_not_go_on_in_the_next_row(rows: tuple[str, ...]) -> None:
    head, first, silent, second, clean = rows
    assert modules_of("\n".join((head, first, silent, second, clean))) == READ
    assert modules_of("\n".join((head, silent, first, clean, second))) == READ


def test_a_sentence_goes_on_behind_its_commas() -> None:
    text = "No codes in gearbox, steering,\nbrakes, radio, and gateway.\nP0562 in the engine.\n"
    assert set(modules_of(text)) == {
        "transmission control", "power steering", "anti-lock brakes", "radio", "gateway", "engine control"}
