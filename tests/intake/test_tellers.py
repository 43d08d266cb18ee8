"""What a driver or customer tells is the complaint, whatever else a line names. Invented; wordings: common practice."""

from __future__ import annotations

import pytest

import code_tables
from triage.intake.read import read_text

_LIST = "Before clear 12.1 V engine off\nABS: C0037 active\nEngine: no faults\n"


@pytest.mark.parametrize(("line", "complaint"), [
    ("Driver: half the dash dead, retarder does not work.", "half the dash dead, retarder does not work"),
    ("Coach, diesel. Driver: wipers stop when the doors open", "wipers stop when the doors open"),
    ("Fahrer meldet: Radio geht nicht", "Radio geht nicht"),
    ("Kunde: Lenkung schwer am Morgen", "Lenkung schwer am Morgen"),
    ("Conducteur : autoradio muet", "autoradio muet"), ("Conductor: luz de marcha atrás no funciona",
                                                       "luz de marcha atrás no funciona"),
    ("Compl.: rear camera dead, beacon off", "rear camera dead, beacon off")])
def test_it_is_the_complaint_and_no_module(line: str, complaint: str) -> None:
    read = read_text(f"{line}\n{_LIST}", code_tables.load())
    assert read.vehicle is not None
    assert read.vehicle.complaint == complaint
    assert [[module.printed for module in shot.modules] for shot in read.snapshots] == [["ABS", "Engine"]]


@pytest.mark.parametrize("line", [
    "Driver: J. Miller", "Kunde: Stadtwerke Nord", "Customer: Hill Farm Ltd", "Client : SARL Pré"])
def test_a_name_is_none(line: str) -> None:
    read = read_text(f"{line}\n{_LIST}", code_tables.load())
    assert read.vehicle is None or read.vehicle.complaint is None


def test_a_module_called_so_answers_as_before() -> None:
    read = read_text(f"{_LIST}Driver door: B1A22 stored\nDriver: no codes\n", code_tables.load())
    assert [module.printed for module in read.snapshots[0].modules] == ["ABS", "Engine", "Driver door", "Driver"]


@pytest.mark.parametrize(("line", "complaint"), [
    ("Delivery van, lights left on since Friday. Driver says: wipers stopped by themselves",
     "lights left on since Friday, wipers stopped by themselves"),
    ("Electric van. 12 V flat after ten days parked. Driver: heater fan dead",
     "flat after ten days parked, heater fan dead")])
def test_a_flat_battery_told_before_is_kept_with_it(line: str, complaint: str) -> None:
    read = read_text(f"{line}\n{_LIST}", code_tables.load())
    assert read.vehicle is not None
    assert read.vehicle.complaint == complaint
