"""Makers' own numbers in a list behind the name of their module, in one line, are codes as the standard ones beside
them are; the codes behind them are of that module, not of the one above. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

GATEWAY, RADIO, ABS = "gateway", "radio", "anti-lock brakes"


@pytest.mark.parametrize("form", [
    "Radio = 90C8 - aerial open - stored; B1318 29 - supply low - active; 20417 - clock lost - stored",
    "\u2022 Radio -> 90C8 - aerial open - not present now; B1318 29 - supply low - active now; 20417 - clock lost - "
    "in memory",
    "> 2. Radio: 90C8 aerial open (not present) / B1318 [29] supply low (present) / 20417 clock lost (not present)",
    "- Radio: 90C8 stored (aerial open); B1318-29 fault is active now (supply low); 20417 was active earlier, not now "
    "(clock lost)",
    "[Radio] 90C8 aerial open, stored / B1318-29 supply low, active / 20417 clock lost, stored",
    "Radio   90C8 aerial open (stored); B1318-29 supply low (active); 20417 clock lost (stored)",
])
def test_numbers_among_codes(form: str) -> None:
    text = f"Gateway: U0100 stored\n{form}\nABS: no codes\n"
    assert modules_of(text) == {
        GATEWAY: ["U0100 stored"], RADIO: ["90C8 stored", "B1318-29 current", "20417 stored"], ABS: ["clean"]}


@pytest.mark.parametrize("name", ["Radio", "XQZ"])
def test_numbers_alone(name: str) -> None:
    text = (f"> 1. Gateway = U0100 stored (engine lost)\n> 2. {name} = 48B240 active (aerial open); 9A24 inactive "
            "(clock lost)\n> 3. ABS = no codes\n")
    assert list(modules_of(text).values()) == [["U0100 stored"], ["48B240 current", "9A24 stored"], ["clean"]]


@pytest.mark.parametrize("line", [
    "Parts used: 90C8 - bolt; 20417 - nut", "Order: 20417 - stored on shelf; 30418 - to be fetched",
    "Odometer: 20417 km; 30418 km at the last service", "Radio: 2019 - installed; 2021 - repaired",
])
def test_other_numbers_in_lists(line: str) -> None:
    assert modules_of(f"Gateway: U0100 stored\nABS: no codes\n{line}\n") == {GATEWAY: ["U0100 stored"], ABS: ["clean"]}
