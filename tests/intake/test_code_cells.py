"""The cell of a code gives no words to its description, whatever its column is called."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text


@pytest.mark.parametrize("head", ["Fehlerspeicher", "Befund", "Fault memory", "what it held"])
def test_a_code_is_no_part_of_its_text(head: str) -> None:
    rows = ("1;Motor;P0340;statisch;Nockenwellensensor", "2;Bremse;C0110;gesp.;Pumpe")
    text = "\n".join([f"Pos;Steuergeraet;{head};Status;Bemerkung", *rows])
    (scan,) = read_text(text, load()).snapshots
    assert [(code.code, code.text) for module in scan.modules for code in module.codes] == [
        ("P0340", "Nockenwellensensor"), ("C0110", "Pumpe")]


@pytest.mark.parametrize(("printed", "module"), [
    ("Motorstg", "engine control"), ("Getriebestg", "transmission control"), ("Airbagstg", "restraints")])
def test_a_control_unit_cut_short_at_the_end_of_a_compound(printed: str, module: str) -> None:
    # Common practice: "STG" is short for the German word for a control unit.
    (scan,) = read_text(f"{printed}: P0562 gespeichert\n", load()).snapshots
    assert [entry.module for entry in scan.modules] == [module]
