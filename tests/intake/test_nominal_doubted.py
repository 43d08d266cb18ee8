"""The nominal voltage that a message doubts or denies is not the vehicle's; and a 24 V vehicle whose supply reads as
that of one battery is told so. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

import code_tables
from triage.intake.read import read_text

CODES = "\nECM: P0562 stored\nABS: no answer\n"
TOLD = "connect nothing of 24 V"


@pytest.mark.parametrize(("said", "nominal"), [
    ("minibus 24V?? no 12V, wont crank, battery 11.4 V", 12.0), ("van, not 24 V but 12 V system, battery 12.1 V", 12.0),
    ("not a 24 V system, battery 12.1 V", None), ("kein 24 V System, 12 V Fahrzeug", 12.0),
    ("minibus, 24 V, battery 24.9 V", 24.0),
])
def test_what_is_doubted_or_denied_is_not_the_vehicles(said: str, nominal: float | None) -> None:
    reading = read_text(said + CODES, code_tables.load())
    assert (reading.vehicle.nominal_volts if reading.vehicle else None) == nominal


@pytest.mark.parametrize(("volts", "warned"), [("12.6 V", True), ("24.9 V", False), ("7.5 V", False)])
def test_a_24_v_vehicle_that_reads_as_12_v(volts: str, warned: bool) -> None:
    notices = read_text(f"24 V vehicle, supply {volts}{CODES}", code_tables.load()).notices
    assert any(TOLD in notice.message for notice in notices) == warned


@pytest.mark.parametrize("text", [
    "24 V truck\nModule,Code,Supply\nECM,P0562,12.6\nABS,C0035,12.6\n",
    "24 V truck\nModule | Code | before clear 12.6 V | after clear 12.4 V\nECM | P0562 | stored | -\n",
    '24 V truck\n{"supply": 12.6, "modules": [{"name": "ECM", "codes": ["P0562"]}]}\n',
])
def test_a_supply_told_anywhere_costs_no_text(text: str) -> None:
    assert read_text(text, code_tables.load()).snapshots


@pytest.mark.parametrize(("head", "nominal", "volts"), [
    ("12v diesel panel van\nas found 10.2V", 12.0, 10.2), ("won't start. 24 V city bus\nas found 22.9 V", 24.0, 22.9),
    ("scan 1 with booster on 12V, 11.2v:", 12.0, 11.2), ("scan 1, jump pack connected to 12 V, 11.9 V", None, 11.9),
    ("12 V after charging the van", None, 12.0), ("as found 12 V, jump pack on", None, 12.0),
])
def test_what_a_vehicle_is_made_for_never_beats_what_was_read(head: str, nominal: float | None, volts: float) -> None:
    reading = read_text(head + CODES, code_tables.load())
    assert (reading.vehicle.nominal_volts if reading.vehicle else None, reading.snapshots[0].volts) == (nominal, volts)
