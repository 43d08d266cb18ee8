"""A voltage belongs to the place named beside it: what a module shows of its own supply, or a meter at the connector of
one consumer, is not what the vehicle is fed with, whatever runs (common practice)."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text

LISTS = "Power steering: no codes\nBody control: no codes\n"


@pytest.mark.parametrize(("line", "module", "value"), [
    ("Engine running, supply at the radio plug 9.8 V", None, 9.8),
    ("Engine running 10 min 14.2 V at the battery; power steering live data supply 10.6 V", "power steering", 10.6),
    ("Power steering measured value supply voltage 10.6 V", "power steering", 10.6),
    ("Motor läuft, Versorgung am Stecker Radio 9,8 V", "radio", 9.8),
    ("Moteur tournant, alimentation au connecteur autoradio 9,8 V", "radio", 9.8),
    ("Motor en marcha, alimentación en el conector de la radio 9,8 V", "radio", 9.8),
    ("tail lamp left feed at the connector 9.8 V with lamp on", None, 9.8),
    ("left gate actuator plug: 9.8 V commanded, right 12.1 V commanded", None, 9.8)])
def test_a_place_is_kept_with_its_voltage(line: str, module: str | None, value: float) -> None:
    found = read_text(f"after clear, engine running, nothing connected, 14.2 V\n{LISTS}{line}\n", load())
    readings = [reading for shot in found.snapshots for reading in shot.readings or ()]
    assert value in [reading.value for reading in readings]
    assert next(reading.module for reading in readings if reading.value == value) == module
    assert not any(reading.name.startswith("voltage running") for reading in readings)
    assert value not in [shot.volts for shot in found.snapshots]
    assert not any("no measurement was read" in notice.message for notice in found.notices)


@pytest.mark.parametrize("line", [
    "supply at the socket 11.7 volts", "Spannung am Stecker 11.7 V", "11.7 V at the diagnostic plug",
    "engine off, 11.7 V at the battery connector"])
def test_the_vehicles_own_socket_tells_its_supply(line: str) -> None:
    found = read_text(f"before clear\n{line}\n{LISTS}", load())
    assert [shot.volts for shot in found.snapshots] == [11.7]
