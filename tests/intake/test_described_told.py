"""Descriptions before their codes: what they speak of is no module, and the name at the start of the line is."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of
from triage.intake.read import read_text

ENGINE = {"engine control": ["P0562 stored", "P2101 current"], "anti-lock brakes": ["U0100 stored"]}


@pytest.mark.parametrize("mark", [": ", " - ", " : "])
@pytest.mark.parametrize(("opening", "closing"), [(" (", ")"), (" [", "]"), (" - ", " -"), (" ", "")])
@pytest.mark.parametrize("joint", ["; ", " / ", ", "])
def test_a_part_in_a_description_is_no_module(mark: str, opening: str, closing: str, joint: str) -> None:
    text = (
        f"ENGINE{mark}System Voltage Low{opening}P0562{closing} stored{joint}"
        f"Throttle Actuator Range{opening}P2101{closing} current\n"
        f"BRAKE{mark}Lost Comm With ECM{opening}U0100{closing} stored\n"
    )
    assert modules_of(text) == ENGINE


def test_the_description_is_kept() -> None:
    found = read_text("ENGINE: Voltage low (P0562-16, stored); Fuel pump relay (P0627)", load()).snapshots[0].modules
    assert [(module.printed, [(code.text, code.failure_type, code.status) for code in module.codes])
            for module in found] == [
        ("ENGINE", [("Voltage low", "16", "stored"), ("Fuel pump relay", None, None)]),
    ]


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("ENGINE: Throttle Actuator Range (P2101) current", {"engine control": ["P2101 current"]}),
        (
            "Motor: Bordnetzspannung zu niedrig (P0562) gespeichert; Drosselklappe Bereich (P2101) aktuell",
            {"engine control": ["P0562 stored", "P2101 current"]},
        ),
        (
            "ENGINE: Voltage low (P0562) stored; ABS: Pump relay (C0265) current",
            {"engine control": ["P0562 stored"], "anti-lock brakes": ["C0265 current"]},
        ),
        (
            "Engine: no comms with gearbox (U0101) stored, fuel pump open (P0627)",
            {"engine control": ["U0101 stored", "P0627"]},
        ),
        (
            "BRAKE\n Steering angle sensor (C0051) stored\nENGINE\n Glow plug circuit (P0380) current\n",
            {"anti-lock brakes": ["C0051 stored"], "engine control": ["P0380 current"]},
        ),
    ],
)
def test_a_line_that_begins_with_a_module_tells_of_it(text: str, wanted: dict[str, list[str]]) -> None:
    assert modules_of(text) == wanted


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        (
            "ENGINE: low voltage (P0562) stored; ABS (C0265) current",
            {"engine control": ["P0562 stored"], "anti-lock brakes": ["C0265 current"]},
        ),
        (
            "ENGINE: low voltage (P0562) stored; ABS pump (C0265) current",
            {"engine control": ["P0562 stored"], "anti-lock brakes": ["C0265 current"]},
        ),
        (
            "ENGINE: low voltage (P0562) stored. The ABS has a pump fault (C0265) current",
            {"engine control": ["P0562 stored"], "anti-lock brakes": ["C0265 current"]},
        ),
        (
            "Engine: low voltage P0562, in the gearbox low ratio P0730",
            {"engine control": ["P0562"], "transmission control": ["P0730"]},
        ),
        ("ECM (P0562) stored; ABS (C0035) stored", {"engine control": ["P0562 stored"],
                                                     "anti-lock brakes": ["C0035 stored"]}),
        ("Airbag - driver side (B0001) current", {"restraints, driver": ["B0001 current"]}),
        ("Engine: stored fault code P0562", {"engine control": ["P0562 stored"]}),
    ],
)
def test_another_module_in_the_line_keeps_its_code(text: str, wanted: dict[str, list[str]]) -> None:
    assert modules_of(text) == wanted


def test_a_code_in_brackets_behind_a_part_is_no_number_of_the_part() -> None:
    assert modules_of("ABS: pump relay (C0265) current; short to ground (C0110) stored") == {
        "anti-lock brakes": ["C0265 current", "C0110 stored"],
    }
    assert modules_of("ABS: C0265\nsee relay C0110, connector (C2095)") == {"anti-lock brakes": ["C0265"]}


@pytest.mark.parametrize(
    ("line", "wanted"),
    [
        ("Engine: stored fault code P0562", {"engine control": ["P0562 stored"]}),
        ("Brakes: confirmed fault codes C0035, C0040", {"anti-lock brakes": ["C0035 confirmed", "C0040 confirmed"]}),
        ("BCM present faults B1000", {"body control": ["B1000 current"]}),
    ],
)
def test_a_status_stands_before_the_word_for_codes(line: str, wanted: dict[str, list[str]]) -> None:
    assert modules_of(line) == wanted


def test_a_word_for_control_unit_is_no_description() -> None:
    found = read_text("Brakes - System Controller - SPN 1056 FMI 4 active\n", load()).snapshots[0].modules
    assert [module.printed for module in found] == ["Brakes - System Controller"]
