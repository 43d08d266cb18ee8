"""Failure types under their many names, in columns, behind codes and behind keys with leader dots."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

_NAMES = ("Subtype", "Sub-type", "FTB", "Fehlerart", "Unterart", "Untertyp", "Sous-type", "Subtipo", "Type de défaut",
          "Tipo de avería")


@pytest.mark.parametrize("name", _NAMES)
def test_a_failure_type_in_a_column_behind_a_code_and_behind_a_key(name: str) -> None:
    want = {"engine control": ["P0562-16 stored", "P2122-00 stored"]}
    assert modules_of(f"ECU;DTC;{name};State\nEngine;P0562;16;stored\nEngine;P2122;00;stored\n") == want
    assert modules_of(f"Engine P0562 {name} 16 stored\nEngine P2122 {name}: 00 stored\n") == want
    dotted = "".join(f"  Fault code ....... {code}   {name} ....... {kind}\n  State ............ stored\n"
                     for code, kind in (("P0562", "16"), ("P2122", "00")))
    assert modules_of(f"Engine\n{dotted}") == want
    assert modules_of(f"Engine\n{dotted.replace(f'   {name}', f'{chr(10)}  {name}')}") == want


def test_other_keys_with_leader_dots_in_one_line() -> None:
    text = ("ECU ........ Engine   Faults ........ 2\n  P0562 low\n  State ..... stored   Count ..... 3\n"
            "  P0300 misfire\nECU ........ ABS   Faults ........ 0\nECU ........ Radio   Status ........ no response\n")
    assert modules_of(text) == {"engine control": ["P0562 stored", "P0300"], "anti-lock brakes": ["clean"],
                                "radio": ["silent"]}


def test_dots_that_lead_from_no_key_part_nothing() -> None:
    assert modules_of("Engine ..... P0562 .... stored\nBrakes ..... no codes ..... ok\nAirbag ..... no response\n") == {
        "engine control": ["P0562 stored"], "anti-lock brakes": ["clean"], "restraints": ["silent"]}
    assert modules_of("Engine\n  P0562 Unterart 16 V\n  P0300 subtype 16.5 mm\n") == {
        "engine control": ["P0562", "P0300"]}
