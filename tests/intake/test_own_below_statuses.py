"""Makers' own numbers in lists that a status heads, with the module behind the description, known or not."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of


@pytest.mark.parametrize(("text", "held"), [
    ("STORED:\nE11C | Signal missing | gwm\n99A9 |  Supply too low | loader scale unit\nCURRENT:\n"
     "E9E5 | Not plausible | gwm\n2F51 | Short to ground | loader scale unit",
     {"gateway": ["E11C stored", "E9E5 current"], "loader scale unit": ["99A9 stored", "2F51 current"]}),
    ("Gespeichert:\nE11C | Signal fehlt | Gateway\n99A9 | Spannung | Feststellbremse",
     {"gateway": ["E11C stored"], "park brake": ["99A9 stored"]}),
    ("En mémoire :\nE11C | Signal manquant | Passerelle\n99A9 | Tension | Frein de parking",
     {"gateway": ["E11C stored"], "park brake": ["99A9 stored"]}),
    ("Fallos activos:\n5FA6, Circuito abierto, [Pasarela]\nAC02, Fuera de rango, [Freno de mano]",
     {"gateway": ["5FA6 current"], "park brake": ["AC02 current"]}),
])
def test_lists_below_a_status(text: str, held: dict[str, list[str]]) -> None:
    assert modules_of(text) == held


@pytest.mark.parametrize("text", [
    "ABS: U0100\n\nCurrent values:\n1234 | engine speed | rpm\n4711 | intake | hPa",
    "ABS: U0100\n\nStored:\n3512 | distance at fault | km\n4711 | hours at fault | h",
])
def test_values_below_a_heading_are_none(text: str) -> None:
    assert modules_of(text) == {"anti-lock brakes": ["U0100"]}
