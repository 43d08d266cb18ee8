"""What kind of vehicle a text tells of: an electric one has no engine to run."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.text import read_text

SCAN = "\nbefore clear 12.1 V\nABS C0040 stored\nEPS no codes\n"


def _drive(line: str) -> str | None:
    vehicle = read_text(line + SCAN, load()).vehicle
    return vehicle.drive if vehicle else None


@pytest.mark.parametrize("line", [
    "Electric delivery van, battery flat every other day.", "Battery electric tipper van, 12 V battery flat",
    "Scan made with the charger on. Electric sweeper with EPS.", "Electric ambulance. Warning after a kerb.",
    "E-Transporter, Zustelldienst, springt nicht an", "Elektro-Kehrmaschine, Lenkung schwer",
    "Elektrischer Kastenwagen, 12-V-Batterie leer", "Kastenwagen (Elektro), Batterie leer",
    "Fourgon électrique de livraison. Témoin direction.", "Camion à ordures électrique, témoin freins",
    "Furgoneta de reparto eléctrica, batería descargada", "Barredora eléctrica, dirección dura",
    "Vehicle: panel van 35, electric, 2022", "Fahrzeug: Transporter, elektrisch", "Antrieb: elektrisch",
])
def test_an_electric_vehicle_is_told_in_four_languages(line: str) -> None:
    assert _drive(line) == "electric"


@pytest.mark.parametrize("line", [
    "Van, electric tail lift dead.", "Delivery van, jumped from an electric van.", "Starthilfe von einem Elektroauto.",
    "Plug-in hybrid electric bus, no start.", "Camion, hayon électrique bloqué", "Furgón, elevalunas eléctrico no sube",
    "Transporter, elektrische Heckklappe ohne Funktion", "Vehicle: truck, electric windows, 2012",
    "Vehicle electrics dead.", "Diesel van with an electric seat.",
])
def test_a_part_or_another_vehicle_that_is_electric_says_nothing_of_this_one(line: str) -> None:
    assert _drive(line) != "electric"


def test_a_diesel_stays_one() -> None:
    assert _drive("Vehicle: van, diesel, electric windows") == "diesel"
