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


@pytest.mark.parametrize("text", [
    "ECU P0300\nEngine: no faults\nABS: C0031\n", "ECU: P0562\n", "ECU: C0040\nABS: no faults\n",
    "ECU P0300\nDDE: no faults\nABS: C0031\n",
])
def test_a_plain_ecu_stays_open_where_the_engine_is_named_or_nothing_is(text: str) -> None:
    assert "module not stated" in modules_of(text)


@pytest.mark.parametrize("text", [
    "ECU: ABS\nDTC: C0031\nECU: Airbag\nDTC: B0001\n", "ABS\nECU: C0031\nAirbag\nECU: B0001\n",
])
def test_ecu_as_a_key_names_no_engine(text: str) -> None:
    assert modules_of(text) == {"anti-lock brakes": ["C0031"], "restraints": ["B0001"]}


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
