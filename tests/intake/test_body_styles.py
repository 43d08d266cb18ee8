"""What a vehicle is called by its body in the first line, in four languages: its label, and no module. All invented."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text


@pytest.mark.parametrize(("line", "label", "drive"), [
    ("Supermini, diesel, stood three days", "Supermini", "diesel"), ("Family estate petrol", "Family estate", "petrol"),
    ("Petrol hatch, due for inspection", "Petrol hatch", "petrol"), ("Work van diesel, 2014", "Work van", "diesel"),
    ("Berline diesel, voyant batterie allumé", "Berline", "diesel"), ("Monovolumen, gasolina", "Monovolumen", "petrol"),
    ("People carrier, diesel, flat battery", "People carrier", "diesel"),
])
def test_a_body_style_is_the_vehicle(line: str, label: str, drive: str) -> None:
    reading = read_text(f"{line}\nbefore clear 11.2 V\nECM P0562\nABS none\n", load())
    assert reading.vehicle is not None
    assert (reading.vehicle.label, reading.vehicle.drive) == (label, drive)
    assert [module.printed for module in reading.snapshots[0].modules] == ["ECM", "ABS"]


def test_a_hatch_with_an_answer_is_a_module() -> None:
    reading = read_text("before clear 11.2 V\nHatch, no codes\nECM P0562\n", load())
    assert [module.printed for module in reading.snapshots[0].modules] == ["Hatch", "ECM"]
