"""The supply voltage with other words, other figures and other batteries beside it. All invented; wordings: common
practice."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of, printed
from triage.intake.read import read_text

Told = tuple[float | None, float | None, str | None]


def told(line: str) -> Told:
    """Volts, lowest volts and outside supply of a scan with a line above its code."""
    (scan,) = read_text(f"{line}\nECM P0562 stored", load()).snapshots
    return scan.volts, scan.lowest_volts, scan.outside_supply


@pytest.mark.parametrize("line", [
    "Scan today 11.8V", "today 11.8V", "this morning 11.8 V", "scan monday 11,8 v", "heute 11,8 V", "oggi 11,8 V",
    "pickup 3.2 , batt11.8v", "bat11.8", "battery11.8V", "accuspanning 11,8 V", "accu 11,8", "tensione batteria 11,8 V",
    "boordspanning: 11,8 V", "after repair (new ground strap)   voltage 11.8    10:40",
    "after repair (new ground strap) 11.8 V    10:40", "after repair new ground strap   voltage 11.8",
])
def test_a_word_or_a_time_beside_the_voltage(line: str) -> None:
    assert told(line)[0] == 11.8


@pytest.mark.parametrize("line", [
    "fuel pump today 11.8 V", "Left sensor 11.8V", "combat12.1", "part no. batt1234", "ref voltage    4.98 V",
    "ref   voltage 4.98 V", "pedal supply (black wire) voltage 4.9 V", "before clear   ref   voltage 4.9 V",
])
def test_a_voltage_of_something_else(line: str) -> None:
    assert told(line)[0] is None


@pytest.mark.parametrize(("line", "expected"), [
    # The round figure tells which supply it is.
    ("24 V? no, 12 V machine. Batt 12.2 V.", (12.2, None, None)),
    ("12V digger. Batt 12.2 V.", (12.2, None, None)),
    ("it's a 24 V one, batts 23.1", (23.1, None, None)),
    ("Batt 12 V", (12.0, None, None)),
    ("12 V measured at the battery", (12.0, None, None)),
    # What it was, and what it is now.
    ("electric car, 12V was 10.6, now on support 13.5V", (13.5, 10.6, "charger")),
    ("battery was 10.6 V, now 13.5 V on charger", (13.5, 10.6, "charger")),
    ("now 13.5 V on charger, was 10.6 V", (13.5, 10.6, "charger")),
    ("Batterie war 10,6 V, jetzt 12,4 V", (12.4, 10.6, None)),
    ("Battery was 11.8 V", (11.8, None, None)),
    ("Battery was 11.7 volts before I put the charger on and 13.5 after.", (13.5, 11.7, "charger")),
    ("customer on support call", (None, None, None)),
    # The battery that feeds the vehicle, and a second one.
    ("Ambulance, aux batt 9.8V main batt 11.9 V", (11.9, None, None)),
    ("main batt 11.9 V aux batt 9.8V", (11.9, None, None)),
    ("Leisure battery 12.6 V\nStarter battery 11.1 V", (11.1, None, None)),
    ("Starter battery: 11.1 V\nLeisure battery: 12.6 V", (11.1, None, None)),
    ("leisure batt 12.6, batt 11.2", (11.2, None, None)),
    ("battery 11.9 V (main), 12.6 V (leisure)", (11.9, None, None)),
    ("Zusatzbatterie 9,8 V, Starterbatterie 11,9 V", (11.9, None, None)),
    ("Batterie secondaire 9,8 V, batterie principale 11,9 V", (11.9, None, None)),
    # The only one there is.
    ("aux battery 11.4 V", (11.4, None, None)),
    ("12 V auxiliary battery 11.4 V", (11.4, None, None)),
    ("Aux battery 11.4 V\nBattery 12.6 V with charger", (11.4, None, "charger")),
])
def test_the_figure_that_is_the_supply(line: str, expected: Told) -> None:
    assert told(line) == expected


@pytest.mark.parametrize("blanks", ["\n", "\n\n"])
def test_a_voltage_behind_what_was_stored_with_the_last_code(blanks: str) -> None:
    text = f"ABS\n   * C0110 - pump - stored\n        Freeze frame:\n        Odometer: 14009 km\n{blanks}"
    assert printed(f"{text}Vehicle voltage: 12.27 V\n") == "12.27 V; ABS: C0110"
    assert printed(f"{text}        Module voltage: 11.2 V\n") == "ABS: C0110"


@pytest.mark.parametrize("said", ["supply_mv: 11800", "battery mV = 11800", '"supply_mv": 11800,', "supply mv: 11800"])
def test_a_supply_whose_key_says_millivolts(said: str) -> None:
    assert printed(f"{said}\nABS: C0035\n") == "11.8 V; ABS: C0035"
    assert printed(f"{said.replace('supply', 'sensor').replace('battery', 'sensor')}\nABS: C0035\n") == "ABS: C0035"


def test_a_name_that_ends_with_the_voltage_of_its_kind() -> None:
    for mark in (">", "-", "->", "="):
        text = f"BMS 12V {mark} no comm\nTCU {mark} C0031 (wheel speed)"
        assert modules_of(text) == {"battery monitor": ["silent"], "transmission control": ["C0031"]}
    assert modules_of("[BMS 12V] (1 DTC)\n  U0100 lost\n[TCU] (1 DTC)\n  C0031 speed") == {
        "battery monitor": ["U0100"], "transmission control": ["C0031"]}
