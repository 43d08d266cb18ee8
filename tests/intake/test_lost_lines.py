"""Lines that nobody understood: told where they stand, and no part of the code above.

What each text should read as is how a technician reads it; no standard says so.
"""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of
from triage.intake.read import read_text

ABS, ECM, TCM = "anti-lock brakes", "engine control", "transmission control"


@pytest.mark.parametrize("line", [
    "TCM P2Z 63 active", "TCM: gobble curr", "TCM: C12 stored", "TCM gobble curr",
    "the TCM has P07.30 stored", "Gizmo : P0X curr", "TCM - whatever - active",
    "B12 AC stored", "TCM P07300 gobble active", "brakes 0",
])
def test_a_line_of_another_module_gives_nothing_to_the_code_above(line: str) -> None:
    text = f"ECM P0562\n{line}\nABS C0035 stored"
    found = read_text(text, load())
    assert modules_of(text) == {ECM: ["P0562"], ABS: ["C0035 stored"]}
    assert [code.text for module in found.snapshots[0].modules for code in module.codes] == [None, None]
    assert [notice.line for notice in found.notices if notice.severity == "warning"] == [2]


def test_what_stands_below_such_a_line_is_not_of_the_module_above() -> None:
    assert modules_of("ECM: P0562\nTCM: P2Z 63 active\nP0730 stored")[ECM] == ["P0562"]
    below = modules_of("ECM: no codes\nTCM: gobble P2Z 63 active\n   P0730 stored")
    assert below == {ECM: ["clean"], TCM: ["P0730 stored"]}


def test_the_rest_is_not_said_of_a_module_that_was_not_understood() -> None:
    text = "Before clearing\nTCM: P0700\nECM: P0562\nAfter clearing\nTCM: P2Z 63 active\neverything else clean"
    after = read_text(text, load()).snapshots[1]
    assert [module.module for module in after.modules] == [ECM]


@pytest.mark.parametrize(("text", "told"), [
    ("ECM\n U0121 Lost communication with\n ABS control module stored\n P0562 low voltage stored",
     {ECM: ["U0121 stored", "P0562 stored"]}),
    ("ECM\n U0121 Lost communication with\n   ABS control module   stored\n P0562 low voltage   stored",
     {ECM: ["U0121 stored", "P0562 stored"]}),
    ("TCM\nP0700\nECM requested lamp\nstored\nU0121\nABS no signal\nactive", {TCM: ["P0700 stored", "U0121 current"]}),
    ("ECM P0700\nTCM requested lamp\nstored\nABS C0035\nleft front sensor\nstored",
     {ECM: ["P0700 stored"], ABS: ["C0035 stored"]}),
    ("ECM P0562 System voltage low, supply of the fuel pump and of the\nABS hydraulic unit interrupted, stored\n"
     "TCM P0700 active", {ECM: ["P0562 stored"], TCM: ["P0700 current"]}),
    ("ABS\nC0035 Sensor\ncircuit Condition: CONFIRMED\nC0040 Other sensor Condition: stored",
     {ABS: ["C0035 confirmed", "C0040 stored"]}),
])
def test_a_wrapped_description_goes_on(text: str, told: dict[str, list[str]]) -> None:
    assert modules_of(text) == told


@pytest.mark.parametrize("text", [
    "Engine: 2.0 l petrol, automatic\nECM: P0562 stored", "Transmission: manual\nECM: P0562 stored",
    "ECM: P0562 stored\nTCM P0700 did not return", "ECM: P0562 stored\nThe ABS was fine when I drove it in on Monday",
])
def test_what_is_no_line_of_a_scan_is_not_told(text: str) -> None:
    assert [notice.message for notice in read_text(text, load()).notices if notice.severity == "warning"] == []
