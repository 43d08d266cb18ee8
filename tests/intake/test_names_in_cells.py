"""Names in brackets at the end of the text of their codes, in cells. All invented; layout: common practice of lists
sorted by code."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of


@pytest.mark.parametrize("mark", ["; ", " | ", "\t"])
def test_each_code_with_its_module_behind_its_text(mark: str) -> None:
    rows = [
        ("C1A10 (54)", "Actuator left, not calibrated (Parking aid)", "history"),
        ("B1325 (1C)", "Control unit voltage low (Door module front left)", "active now"),
        ("49C4BB", "Load shedding (Solar charger)", "inactive, x4"),
        ("U0146 (00)", "Communication with gateway A lost (Parking aid)", "pending"),
        ("P0562", "Supply low (main relay) (Engine (ECM))", "confirmed"),
        ("4CB969", "Starter voltage drop (Door module front left) x23", ""),
    ]
    text = "".join(mark.join(filter(None, row)) + "\n" for row in rows) + "\nRadio: no answer\n"
    assert modules_of(text) == {
        "parking assist": ["C1A10-54 stored", "U0146-00 pending"],
        "door, front left": ["B1325-1C current", "4CB969"], "Solar charger": ["49C4BB stored"],
        "engine control": ["P0562 confirmed"], "radio": ["silent"]}


def test_some_lines_whose_delimiters_were_lost() -> None:
    text = ("481B71  Load shedding (Engine ECU)  history\nU0452 - Invalid data (Engine ECU) - history\n"
            "P0562; System voltage low (Engine ECU); Confirmed\n4C3CA5; Starter drop (Gateway); failing now\n"
            "C2201; Cluster fault (Power steering); pending\nU0001, Bus (Gateway), Confirmed\n"
            "U0121; Lost comms with ABS (Power steering); history\n")
    assert modules_of(text) == {
        "engine control": ["481B71 stored", "U0452 stored", "P0562 confirmed"],
        "gateway": ["4C3CA5 current", "U0001 confirmed"], "power steering": ["C2201 pending", "U0121 stored"]}


def test_brackets_below_the_name_of_a_module_hold_none() -> None:
    text = ("ABS\nC0035; Sensor left (front axle); stored\nC0040; Sensor right (front axle); stored\n"
            "C0045; Pump (relay); active\nRadio\nB1000; Speaker (rear); stored\n")
    assert modules_of(text) == {"anti-lock brakes": ["C0035 stored", "C0040 stored", "C0045 current"],
                                "radio": ["B1000 stored"]}


def test_names_that_have_brackets_of_their_own() -> None:
    text = ("Fault code;Unit;Text;Status\nU0140;ECM (Engine);Lost communication;current\n"
            "U0101;ECM (Engine);Lost gearbox;stored\nC0110;ABS (Brakes);Pump;stored\n")
    assert modules_of(text) == {
        "engine control": ["U0140 current", "U0101 stored"], "anti-lock brakes": ["C0110 stored"]}
    text = "".join(f"U0{number} / stored / Drive inverter (INV) / lost\n" for number in (100, 101, 121))
    assert list(modules_of(text + "C0110 / stored / ABS / pump\n")) == ["drive motor A", "anti-lock brakes"]
