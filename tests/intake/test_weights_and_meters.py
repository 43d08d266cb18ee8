"""What a vehicle weighs, a complaint of cranking and the meter in the hand are no supply, lowest or module."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text


@pytest.mark.parametrize("line", [
    "Horsebox lorry, 7.5 t, parked since the show: wont crank", "Lorry 7.5 tonnes, won't crank", "Van, 3.5 t, no crank",
    "Lorry, 7.5 t, does not crank"])
def test_a_weight_is_no_supply(line: str) -> None:
    (scan,) = read_text(f"{line}\nECM P0562 stored", load()).snapshots
    assert (scan.volts, scan.lowest_volts) == (None, None)


def test_cranking_itself_still_tells_the_lowest() -> None:
    (scan,) = read_text("Battery 11.4 V, 9.2 V cranking\nECM P0562 stored", load()).snapshots
    assert (scan.volts, scan.lowest_volts) == (11.4, 9.2)


def test_the_meter_that_was_read_is_not_what_was_cleared() -> None:
    read = read_text("same lorry, cleared the lot, booster pack on, 12.7 on the meter\nECM P0562 stored", load())
    assert [(event.what, event.module) for event in read.events] == [("outside supply on", None), ("cleared", None)]
    assert (read.snapshots[0].phase, read.snapshots[0].volts) == ("after-clear", 12.7)


def test_a_cleared_module_is_still_told() -> None:
    read = read_text("cleared the ABS\nABS no codes", load())
    assert [(event.what, event.module) for event in read.events] == [("cleared", "anti-lock brakes")]


def test_held_is_stored_in_a_place_of_its_own_alone() -> None:
    (scan,) = read_text("[BRK]   U0100 lost eng ......... held\n[ECM]   P2119 throttle held open\n", load()).snapshots
    assert [(code.code, code.status) for module in scan.modules for code in module.codes] == [
        ("U0100", "stored"), ("P2119", None)]
