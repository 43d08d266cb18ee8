"""A plain "ECU" beside named modules, and words of a part between a module and its code."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of
from triage.intake.read import read_text


@pytest.mark.parametrize("line", [
    "ECU: P0622 current", "ecu has P0622 current", "The ECU shows P0622 current", "ECU   P0622   current",
])
@pytest.mark.parametrize("text", ["{}\nABS: C0031\n", "ABS: C0031\n{}\n"])
def test_a_plain_ecu_beside_named_modules_is_the_engines(line: str, text: str) -> None:
    assert modules_of(text.format(line)) == {"engine control": ["P0622 current"], "anti-lock brakes": ["C0031"]}
    printed = {module.printed for module in read_text(text.format(line), load()).snapshots[0].modules}
    assert printed in ({"ECU", "ABS"}, {"ecu", "ABS"})


@pytest.mark.parametrize(("said", "read"), [("no codes", "clean"), ("no response", "silent")])
def test_the_answer_of_a_plain_ecu(said: str, read: str) -> None:
    assert modules_of(f"ECU: {said}\nABS: C0031\n") == {"engine control": [read], "anti-lock brakes": ["C0031"]}


@pytest.mark.parametrize(("text", "read"), [
    ("ECU P0300\nEngine: no faults\nABS: C0031\n",
     {"ECU": ["P0300"], "engine control": ["clean"], "anti-lock brakes": ["C0031"]}),
    ("ECU P0300\nDDE: no faults\nABS: C0031\n",
     {"ECU": ["P0300"], "engine control": ["clean"], "anti-lock brakes": ["C0031"]}),
    ("ECU: P0562\n", {"ECU": ["P0562"]}),
    ("ECU: C0040\nABS: no faults\n", {"ECU": ["C0040"], "anti-lock brakes": ["clean"]}),
])
def test_a_plain_ecu_is_kept_as_printed_where_the_engine_is_named_or_nothing_is(
    text: str, read: dict[str, list[str]]
) -> None:
    assert modules_of(text) == read
    assert any("ECU: no module of this name is known" in notice.message for notice in read_text(text, load()).notices)


@pytest.mark.parametrize("text", [
    "ECU: ABS\nDTC: C0031\nECU: Airbag\nDTC: B0001\n", "ABS\nECU: C0031\nAirbag\nECU: B0001\n",
    "ABS\n  C0031 ECU internal fault\nAirbag\n  B0001 no communication with ECU\n",
    "ECU 3: ABS\nCode 1: C0031\nECU 5: Airbag\nCode 1: B0001\n",
    "Module | ECU | DTC\nABS | ECU 1 | C0031\nAirbag | ECU 2 | B0001\n",
])
def test_ecu_as_a_key_or_in_a_description_names_no_engine(text: str) -> None:
    assert modules_of(text) == {"anti-lock brakes": ["C0031"], "restraints": ["B0001"]}


@pytest.mark.parametrize("text", [
    "Airbag\n  No response from ECU\nABS\n  C0031\n", "Airbag\n  ECU does not respond\nABS\n  C0031\n",
    "Airbag: no answer from ECU. ABS has C0031.\n", "Module: Airbag\nECU: no response\nModule: ABS\nDTC: C0031\n",
    "Airbag - ECU did not identify itself\nABS - C0031\n",
])
def test_the_ecu_that_did_not_answer_is_the_one_named_before(text: str) -> None:
    assert modules_of(text) == {"restraints": ["silent"], "anti-lock brakes": ["C0031"]}


@pytest.mark.parametrize("text", [
    "### ABS\n\n- `C0031`\n\n### ECU\n\n- `P0685`\n", "[ABS]\nC0031  Wheel speed\n[ECU]\nP0685  Relay\n",
    "ABS\n  C0031\n\nGW - no codes\n\nECU\n  P0685  Power relay\n",
    "ABS\n  Part no. 4K0 907\n  C0031\nECU\n  Part no. 4K0 908\n  P0685\n",
    "abs    1 fault\n   c0031   wheel speed   current\n\necu    1 fault\n   p0685   power relay   current\n",
    "ABS (1)\n  C0031\nECU (1)\n  P0685\n", "ABS ........ 1\n  C0031\nECU ........ 1\n  P0685\n",
    "Unit: ABS\nDTC: C0031\n\nUnit: ECU\nDTC: P0685\n", "ECU: ABS\nDTC: C0031\n\nECU: ECU\nDTC: P0685\n",
    "ECU;Code;Text\nABS;C0031-16;Yaw rate\nECU;P0685-08;Relay\n",
    "Engine: 2.0 l petrol, automatic\n\nSystem;Code;Text\nABS;C0031-16;Yaw rate\nECU;P0685-08;Relay\n",
    "ABS has C0031. In the ECU I get P0685.\n", "The ABS shows C0031, the ECU has P0685 stored.\n",
    "C0031 (stored) - ABS\nP0685 (stored) - ECU\n", "C0031 in ABS, stored\nP0685 in ECU, stored\n",
    "C0031: ABS (stored)\nP0685: ECU (stored)\n", "ABS: C0031\nECU fault codes: P0685\n",
])
def test_a_plain_ecu_in_the_place_of_a_module_holds_its_codes(text: str) -> None:
    found = modules_of(text)
    assert {name: [code[:5] for code in held] for name, held in found.items() if held != ["clean"]} == {
        "anti-lock brakes": ["C0031"], "engine control": ["P0685"],
    }


@pytest.mark.parametrize("text", [
    "No answer from ECU and ABS. BCM has B1318.\n", "No answer:\nABS\nECU\n\nBCM: B1318\n",
    "Nothing\nat all from ABS and ECU - no comms. In the\nBCM I get B1318.\n",
    "ECU - no response\nABS - dead\nBCM B1318\n",
    "Could not reach ECU or ABS. BCM: B1318\n", "BCM has B1318. No reply from ABS. No reply from ECU.\n",
    "No communication with: ECU\nNo communication with: ABS\nBCM: B1318\n",
])
def test_a_plain_ecu_among_those_that_did_not_answer(text: str) -> None:
    assert modules_of(text) == {"engine control": ["silent"], "anti-lock brakes": ["silent"], "body control": ["B1318"]}


@pytest.mark.parametrize("part", [
    "wheel speed front left", "left front sensor", "wheel speed sensor, rear right", "Raddrehzahlsensor vorne links",
    "capteur de roue avant gauche", "sensor rueda delantera izquierda",
])
def test_a_part_between_a_module_and_its_code(part: str) -> None:
    assert modules_of(f"ABS {part} C0035 failure type 5A, active\nECM P0562\n") == {
        "anti-lock brakes": ["C0035-5A current"], "engine control": ["P0562"],
    }


def test_the_part_is_kept_as_the_codes_text() -> None:
    module = read_text("ABS wheel speed front left C0035\nABS wheel speed FR C0040", load()).snapshots[0].modules[0]
    assert [code.text for code in module.codes] == ["wheel speed front left", "wheel speed FR"]


@pytest.mark.parametrize(("name", "module"), [
    ("Door rear left", "door, rear left"), ("Seat heater", "seat heating"),
])
def test_other_names_stay_whole(name: str, module: str) -> None:
    assert modules_of(f"{name} B1000 stored\nECM P0562\n") == {module: ["B1000 stored"], "engine control": ["P0562"]}


@pytest.mark.parametrize("lead", ["• ", "  - ", ""])
def test_a_plain_ecu_before_a_number_among_names_before_theirs(lead: str) -> None:
    text = f"{lead}SRS - B2960 Key code\n{lead}ECU - 935C28 Window motor\n{lead}ABS - C0035 Wheel speed\n"
    assert modules_of(text) == {"restraints": ["B2960"], "engine control": ["935C28"], "anti-lock brakes": ["C0035"]}


@pytest.mark.parametrize("said", [
    "could not reach the awning motor, radio did not answer", "the awning motor would not talk, nor did the radio",
])
def test_the_motor_of_a_part_without_a_listed_name_is_not_the_engine(said: str) -> None:
    found = read_text(f"Cluster: P0562 stored\n{said}\n", load()).snapshots[0].modules
    assert "engine control" not in [module.module for module in found]
