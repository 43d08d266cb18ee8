"""Chargers that are modules of the vehicle, columns of makers' own numbers under "no." and joined in a cell."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of
from triage.intake.read import read_text

ABS = "anti-lock brakes"


@pytest.mark.parametrize("name", [
    "Chargeur batterie auxiliaire", "Ladeger\u00e4t Zusatzbatterie", "Cargador de bater\u00eda auxiliar",
])
def test_a_charger_that_heads_codes_feeds_nothing(name: str) -> None:
    text = f"ABS:\n  C0035 wheel\n\nRadio: no codes\n\n{name}:\n  B1004 lamp\n  B1005 lamp\n"
    assert modules_of(text) == {ABS: ["C0035"], "radio": ["clean"], name: ["B1004", "B1005"]}
    assert read_text(text, load()).snapshots[0].outside_supply in (None, "unknown")


@pytest.mark.parametrize("said", ["Ladeger\u00e4t angeschlossen", "Battery charger connected", "Chargeur branch\u00e9"])
def test_one_that_is_connected_is_outside_supply(said: str) -> None:
    scan = read_text(f"ABS:\n  C0035 wheel\n\n{said}:\n  B1004 lamp\n", load()).snapshots[0]
    assert scan.outside_supply == "charger"


@pytest.mark.parametrize("head", [
    "N\u00b0 d\u00e9faut", "N\u00b0 de code", "N\u00ba aver\u00eda", "N\u00famero de aver\u00eda", "Code-Nr.",
    "Fault no.",
])
def test_a_column_of_numbers(head: str) -> None:
    text = f"Module;{head};Text\nABS;95C3A0;wheel\nRadio;F3FCC5;lamp\nRadio;00532;plug\n"
    assert modules_of(text) == {ABS: ["95C3A0"], "radio": ["F3FCC5", "00532"]}


def test_numbers_joined_in_a_cell_each_with_its_status() -> None:
    text = ("Module;Result;DTCs\nABS;2 faults;DF347 wheel lost (not present) + DF073 clock not set (active)\n"
            "Radio;clean;\n")
    assert modules_of(text) == {ABS: ["DF347 stored", "DF073 current"], "radio": ["clean"]}
