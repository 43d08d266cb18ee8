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


@pytest.mark.parametrize("arrow", ["->", "=>", "\u2192"])
def test_unknown_names_before_an_arrow(arrow: str) -> None:
    lines = ("Radio {} 20417 aerial signal missing / 20418 speaker left open", "ABS {} no codes",
             "Seat {} 30912 heater circuit open", "EPS {} 41220 torque signal lost",
             "Crane slew unit {} 51833 Data link timeout / 20419 Frame counter wrong on engine bus",
             "Hoist unit {} 60211 winch pressure low", "Gateway {} 70115 clock signal missing / U0100")
    text = "".join(f"\u2022 {line.format(arrow)}\n" for line in lines)
    assert list(modules_of(text).values()) == [
        ["20417", "20418"], ["clean"], ["30912"], ["41220"], ["51833", "20419"], ["60211"], ["70115", "U0100"]]


def test_a_status_called_a_code() -> None:
    rows = ("20417\tRadio\tAerial open\tStored\n", "20418\tRadio\tSpeaker open\tPending code\n",
            "30912\tSeat\tHeater open\tConfirmed code\n")
    assert modules_of("".join(rows)) == {
        RADIO: ["20417 stored", "20418 pending"], "seat": ["30912 confirmed"]}


@pytest.mark.parametrize("line", [
    "Got {} (aerial signal missing) failing right now in the radio. ABS is clean.",
    "The radio shows B1318-29 and {} (aerial signal missing), both failing right now. ABS is clean.",
    "Reading the radio: {} (aerial signal missing) is active. ABS is clean.",
])
@pytest.mark.parametrize("number", ["20417", "T41N"])
def test_status_behind_a_bracket_in_a_sentence(line: str, number: str) -> None:
    read = modules_of(line.format(number))
    assert read[RADIO][-1] == f"{number} current"
    assert read[ABS] == ["clean"]
    assert all(code.endswith("current") for code in read[RADIO])


def test_among_makers_own_numbers_an_open_relay_is_no_measurement() -> None:
    text = ("Airbag (SRS)\n    TE557 - supply voltage too low\n    FE845 - lamp output open\n"
            "    HB144 - relay feed open\nRadio - no codes\n")
    assert modules_of(text) == {"restraints": ["TE557", "FE845", "HB144"], "radio": ["clean"]}
