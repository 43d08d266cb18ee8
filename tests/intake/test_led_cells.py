"""Cells that begin with a word for "in" before the name of the module. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

READ = {"anti-lock brakes": ["C0545 current"], "immobiliser": ["P0532 stored"], "radio": ["B1257 stored"]}


@pytest.mark.parametrize("text", [
    "Active:\nC0545 | at ABS | torque sensor\nStored:\nP0532 | at immobiliser | pressure\n"
    "B1257 | at radio | aerial\n",
    "Aktiv:\nC0545 | bei ABS | Momentsensor\nGespeichert:\nP0532 | bei Wegfahrsperre | Druck\n"
    "B1257 | bei Radio | Antenne\n",
    "Présents:\nC0545 | dans ABS | couple\nMémorisés:\nP0532 | dans l'antidémarrage | pression\n"
    "B1257 | dans autoradio | antenne\n",
    "Activos:\nC0545 | en ABS | par\nMemorizados:\nP0532 | en inmovilizador | presión\nB1257 | en radio | antena\n",
])
def test_the_word_is_no_part_of_the_name(text: str) -> None:
    assert modules_of(text) == READ


def test_groups_of_parameters_stand_before_it_as_well() -> None:
    text = ("SPN 521 FMI 4 | en Grúa pluma | pedal\nSPN 639 FMI 9 | en ABS | red\n"
            "SPN 521 FMI 3 | en Grúa pluma | freno\nSPN 100 FMI 1 | en radio | aceite\n")
    found = modules_of(text)
    assert found["anti-lock brakes"] == ["SPN 639 FMI 9"]
    assert len(found["boom"]) == 2


def test_a_status_that_begins_so_stays_one() -> None:
    text = "C0545 | ABS | en mémoire\nP0532 | antidémarrage | en mémoire\nB1257 | autoradio | en cours\n"
    assert modules_of(text) == {"anti-lock brakes": ["C0545 stored"], "immobiliser": ["P0532 stored"],
                                "radio": ["B1257 current"]}
