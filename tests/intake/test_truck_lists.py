"""Lists of a truck named by the message of SAE J1939-73 that holds them.

Source: SAE J1939-73, DM1 active and DM2 previously active trouble codes; wordings from memory.
"""

from __future__ import annotations

import pytest
from pastes import tables

from triage.intake.read import read_text

Told = dict[str, list[tuple[str, str | None]]]


def read(text: str) -> Told:
    """The codes of each module of the one scan of a text, with their status."""
    (snapshot,) = read_text(text, tables()).snapshots
    return {module.printed or "": [(code.code, code.status) for code in module.codes] for module in snapshot.modules}


ACTIVE, PREVIOUS = ("SPN 110 FMI 3", "current"), ("SPN 100 FMI 4", "stored")


@pytest.mark.parametrize(
    ("one", "two"),
    [
        ("DM1:", "DM2:"),
        ("Active (DM1):", "Previously active (DM2):"),
        ("DM1 active faults", "DM2 previously active"),
        ("DM1 - active", "DM2 - inactive"),
        ("[DM1] Active DTCs", "[DM2] Previously active DTCs"),
        ("DM1 aktive Fehler", "DM2 vorher aktive Fehler"),
        ("Défauts actifs (DM1)", "Défauts auparavant actifs (DM2)"),
    ],
)
def test_a_message_heads_a_list_of_the_module_above(one: str, two: str) -> None:
    text = f"ECM\n {one}\n  SPN 110 FMI 3  Coolant\n {two}\n  SPN 100 FMI 4  Oil\n\nTCM\n {two}\n  SPN 100 FMI 4\n"
    assert read(text) == {"ECM": [ACTIVE, PREVIOUS], "TCM": [PREVIOUS]}


@pytest.mark.parametrize(
    "text",
    [
        "ECM DM1: SPN 110 FMI 3\nECM DM2: SPN 100 FMI 4\n",
        "ECM\nDM1: SPN 110 FMI 3\nDM2: SPN 100 FMI 4\n",
        "Module;SPN;FMI;Status\nECM;110;3;active (DM1)\nECM;100;4;DM2\n",
        "DM1 active DTCs\nECM: SPN 110 FMI 3\n\nDM2 previously active DTCs\nECM: SPN 100 FMI 4\n",
        "ECM: SPN 110 FMI 3, active (DM1); SPN 100 FMI 4, previously active (DM2)\n",
    ],
)
def test_a_message_tells_the_status_in_other_places(text: str) -> None:
    assert read(text) == {"ECM": [ACTIVE, PREVIOUS]}


def test_empty_messages_are_answers() -> None:
    text = "ECM\nDM1: none\nDM2: SPN 100 FMI 4\nTCM\nDM1: none\nDM2: none\nEBS\nDM1 active\n none\nDM2\n none\n"
    assert read(text) == {"ECM": [PREVIOUS], "TCM": [], "EBS": []}


@pytest.mark.parametrize("line", ["EBS: SPN 639 FMI 9 DM1 message missing", "EBS: SPN 639 FMI 9, DM19 not sent"])
def test_a_message_told_of_is_no_list(line: str) -> None:
    assert read(line)["EBS"] == [("SPN 639 FMI 9", None)]


@pytest.mark.parametrize(
    "text",
    [
        "Module\tSPN/FMI\tDescription\tStatus\nSA 0 Engine\t110/3\tCoolant\tactive\nSA 11 Brakes\t\t\tno codes\n",
        "Module;SPN-FMI;Status\nEngine;110-3;active\nBrakes;none;\n",
        "Module   SPN / FMI   Status\nEngine   110 / 3     active\nBrakes   -           no codes\n",
        "Module;DTC (SPN/FMI);Status\nEngine;110/3;active\nBrakes;;no codes\n",
        "| Module | SPN.FMI | OC | Status |\n|--|--|--|--|\n| Engine | 110.3 | 3 | active |\n| Brakes | none | | |\n",
    ],
)
def test_a_column_may_hold_both_numbers(text: str) -> None:
    assert read(text) == {"Engine": [ACTIVE], "Brakes": []}


@pytest.mark.parametrize(
    "named", ["{} (SA 39)", "{} [source address 39]", "SA 39 {}", "{} - SA 39", "{}, address 0x27", "SA27h {}"]
)
def test_titles_below_a_name_with_its_address_name_no_module(named: str) -> None:
    text = (
        f"{named.format('VCU')}\n  SPN 4335 FMI 9 - Dosing air assist pressure - stored\n"
        "  SPN 1761 FMI 14 - Reductant tank level - active\n\n"
        f"{named.format('EBS')}\n  SPN 190 FMI 1 - Engine speed - active\n"
    )
    (snapshot,) = read_text(text, tables()).snapshots
    assert [(module.module, len(module.codes)) for module in snapshot.modules] == [
        ("hybrid powertrain", 2), ("anti-lock brakes", 1)]


def test_an_address_is_no_number_of_the_module() -> None:
    (snapshot,) = read_text("Motorregelung (SA 0): kein Fehler\nEBS (SA 11): kein Fehler\n", tables()).snapshots
    assert [module.module for module in snapshot.modules] == ["engine control", "anti-lock brakes"]


@pytest.mark.parametrize("name", ["Calculateur véhicule", "Unidad de vehículo", "Vehicle electronics"])
def test_a_module_of_the_vehicle_is_no_title(name: str) -> None:
    text = f"ABS (0x720)\n - SPN 110 FMI 3, active\n{name} (0x724)\n - U0073, stored\n"
    (_, other) = read(text).values()
    assert other == [("U0073", "stored")]


def test_the_title_of_a_scan_of_the_vehicle_stays_one() -> None:
    assert read("Vehicle scan\nABS\n - C0035, stored\nVehicle report\nECM: P0300, stored\n") == {
        "ABS": [("C0035", "stored")], "ECM": [("P0300", "stored")]}


@pytest.mark.parametrize("form", ["SPN-168 FMI-4", "SPN-168/FMI-4", "SPN - 168, FMI - 4"])
def test_dashes_before_the_numbers(form: str) -> None:
    assert read(f"Retarder\n{form} Supply low - stored\n") == {"Retarder": [("SPN 168 FMI 4", "stored")]}
