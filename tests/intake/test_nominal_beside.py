"""What a vehicle or a battery is made for is no reading, wherever it stands beside one.

Nobody measures a whole 12 or 24 V at "12 V posts", and a battery of 12 V that was renewed tells nothing of its charge
(common practice).
"""

from __future__ import annotations

import pytest

import code_tables
from triage.intake.read import read_text

BELOW = "\nEngine control: P0118 stored\nABS: no codes\n"


@pytest.mark.parametrize(("line", "volts"), [
    ("before clear, multimeter at 12 V posts 8.2 V", 8.2), ("before clear, 8.2 V on the 12 V posts", 8.2),
    ("vor dem Löschen, Multimeter an 12-V-Polen 8,2 V", 8.2),
    ("avant effacement, multimètre aux bornes 12 V 8,2 V", 8.2),
    ("antes de borrar, multímetro en bornes de 12 V 8,2 V", 8.2),
    ("before clear, 12.7 V\nBattery 12 V replaced yesterday", 12.7),
    ("avant effacement, 12,7 V\nBatterie 12 V remplacée hier", 12.7),
    ("antes de borrar, 12,7 V\nBatería 12 V sustituida ayer", 12.7),
    ("vor dem Löschen, 12,7 V\nBatterie 12 V gestern ersetzt", 12.7),
    ("before clear, 11.9 V and falling 0.1 V per minute", 11.9), ("before clear, 11.9 V, loses 0.2 V/h", 11.9),
    # Read, if roughly.
    ("before clear, battery 12 V", 12.0), ("before clear 12 V", 12.0),
    ("before clear, supply 12 V at the battery", 12.0),
])
def test_the_supply_is_what_was_read(line: str, volts: float) -> None:
    found = read_text(line + BELOW, code_tables.load())
    shot, = found.snapshots
    assert (shot.volts, shot.lowest_volts) == (volts, None)
    assert not any("can't be the supply" in notice.message for notice in found.notices)


@pytest.mark.parametrize(("head", "nominal"), [
    ("Gritter, municipal, 24 V. Lamp on in the wet.", 24.0), ("Sweeper. Warning lamp on, 12 V good.", 12.0),
    ("Kehrmaschine, 24 V. Lampe an.", 24.0),
])
def test_a_head_tells_what_the_vehicle_is_made_for(head: str, nominal: float) -> None:
    read = round(0.95 * nominal, 1)
    for supply in (f" {read} V", ""):
        found = read_text(f"{head}\nbefore clear 2026-05-13 10:00{supply}{BELOW}", code_tables.load())
        shot, = found.snapshots
        assert shot.volts == (read if supply else None)
        assert not shot.readings
        assert found.vehicle is not None
        assert found.vehicle.nominal_volts == nominal


def test_the_battery_of_a_vehicle_with_two_says_nothing_of_its_supply() -> None:
    shot, = read_text("12 V battery replaced, truck\nbefore clear 24.8 V" + BELOW, code_tables.load()).snapshots
    assert shot.volts == 24.8


@pytest.mark.parametrize("line", [
    "before clear, the 12 V does not charge, 11.6 V", "vor dem Löschen, die 12 V lädt nicht, 11,6 V",
    "avant effacement, la 12 V ne charge pas, 11,6 V", "antes de borrar, no carga la 12 V, 11,6 V"])
def test_which_supply_is_meant_is_no_reading(line: str) -> None:
    shot = read_text(line + BELOW, code_tables.load()).snapshots[0]
    assert (shot.volts, shot.lowest_volts) == (11.6, None)
