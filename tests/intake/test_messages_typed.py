"""Messages as people type them: greetings, sentences that a mail wrapped, lists of codes with their module behind.

All invented; wordings: common practice.
"""

from __future__ import annotations

import textwrap

import pytest

from tests.intake.reads import modules_of, told

ABS, ECM, DASH, RADIO, BCM = "anti-lock brakes", "engine control", "instrument cluster", "radio", "body control"


@pytest.mark.parametrize("lead", ["Dear colleagues,\n\n", "Second key is with it.\n", "Thanks again!\n"])
def test_what_is_said_above_the_codes_is_no_module(lead: str) -> None:
    assert modules_of(f"{lead}got P0122-00 (pedal circuit low) stored, not current from the engine ecu\nradio ok") == {
        ECM: ["P0122-00 stored"], RADIO: ["clean"]}


@pytest.mark.parametrize("lead", ["", "> "])
def test_sentences_that_were_wrapped_within_a_description(lead: str) -> None:
    said = ("12.8v batt. Bcm: B1BA0 FTB 01 (hall sensor low) confirmed, B1318 FTB 81 (lamp circuit open) active, "
            "B2477 FTB 55 (not configured) pending. Then the dash with U0293 FTB 49 (lost communication with it), "
            "B17CF FTB 81 (miror heater not adapted) in history, U1113 FTB 08 active. Abs gave me C23C1 FTB 81, and "
            "C1A67 FTB 49, both not active. Radio all good.")
    assert modules_of("".join(f"{lead}{line}\n" for line in textwrap.wrap(said, 66))) == {
        BCM: ["B1BA0-01 confirmed", "B1318-81 current", "B2477-55 pending"],
        DASH: ["U0293-49", "B17CF-81 stored", "U1113-08 current"],
        ABS: ["C23C1-81 stored", "C1A67-49 stored"], RADIO: ["clean"]}


def test_dots_part_sentences() -> None:
    assert modules_of("no faults in dash ... engine came up with P0122 not active ... abs gave me C0035 active") == {
        DASH: ["clean"], ECM: ["P0122 stored"], ABS: ["C0035 current"]}


@pytest.mark.parametrize(("text", "want"), [
    ("Cuadro muestra B2477 pendiente, y U0418 memorizado. U0111 confirmado, y B1057 pendiente en Caja de distribución.",
     {DASH: ["B2477 pending", "U0418 stored"], "power distribution": ["U0111 confirmed", "B1057 pending"]}),
    ("Radio - confirmed B1576. Abs - stored C0035.", {RADIO: ["B1576 confirmed"], ABS: ["C0035 stored"]}),
    ("U0121, C1B00, both as current in the abs, dash has stored U3006",
     {ABS: ["U0121 current", "C1B00 current"], DASH: ["U3006 stored"]}),
    ("U0121, C1B00, both (history) in the abs. Dash: U3006 active.",
     {ABS: ["U0121 stored", "C1B00 stored"], DASH: ["U3006 current"]}),
    ("C0545 memorizado en Radio", {RADIO: ["C0545 stored"]}), ("C0545 mémorisé dans radio", {RADIO: ["C0545 stored"]}),
])
def test_the_module_and_the_status_of_a_list(text: str, want: dict[str, list[str]]) -> None:
    assert modules_of(text) == want


def test_a_voltage_dictated_in_digits_before_a_comma() -> None:
    assert told("VOLTAGE ON THE BATTERY 13 POINT 5, ABS C0035") == " 13.5 V | anti-lock brakes: C0035".strip()
