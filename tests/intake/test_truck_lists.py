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
