"""A code with a hyphen in brackets, names and codes between semicolons, and a voltage left of a freeze frame.

All texts are invented.
"""

from __future__ import annotations

import pytest
from reads import modules_of

from code_tables import load
from triage.intake.codes.found import find
from triage.intake.read import read_text


@pytest.mark.parametrize("text", ["wiring fault (p-1290) - stored", "Leitung [u-0155]", "defective (b 0012) stored"])
def test_a_code_in_brackets_may_have_a_mark_behind_its_letter(text: str) -> None:
    assert len(find(text).codes) == 1


@pytest.mark.parametrize("text", ["see the manual (p.1290)", "see (p. 2104)"])
def test_a_page_in_brackets_is_no_code(text: str) -> None:
    assert not find(text).codes


def test_names_between_semicolons_are_several_modules() -> None:
    found = modules_of("BCM U1724\nNo faults: ACM; PBM; XYZ\n")
    assert found == {"body control": ["U1724"], "restraints": ["clean"], "park brake": ["clean"], "XYZ": ["clean"]}


@pytest.mark.parametrize(("last", "volts"), [("battery reads 11.5 volts", 11.5), ("        supply 11.5 volts", None)])
def test_a_voltage_left_of_the_codes_is_not_of_a_freeze_frame(last: str, volts: float | None) -> None:
    text = f"Parking brake\n   U2101 stored\n        Freeze frame:\n        Coolant: 24 \u00b0C\n{last}"
    assert read_text(text, load()).snapshots[0].volts == volts


@pytest.mark.parametrize("page", ["", "Page 4 of 4\n"])
def test_a_voltage_as_far_left_as_the_code_of_a_freeze_frame_set_in(page: str) -> None:
    text = (f"ABS: no codes\nPage 3 of 4\nParking brake\nU2101 stored\nFreeze frame:\n  Speed: 12 km/h\n"
            f"  Supply: 11.9 V\n{page}Voltage of the battery: 13.1 V\n")
    (scan,) = read_text(text, load()).snapshots
    assert scan.volts == 13.1
    assert scan.modules[1].codes[0].freeze_frame.volts == 11.9


@pytest.mark.parametrize("mark", [": ", " = ", " -> ", " | "])
def test_descriptions_of_a_list_of_one_module_name_no_other(mark: str) -> None:
    text = f"Wiper{mark}U0121 lost contact with ABS; B1305 sunload sensor left; U0100 no engine control module\n"
    assert modules_of(f"Radio{mark}no codes\n{text}") == {"radio": ["clean"], "wiper": ["U0121", "B1305", "U0100"]}


def test_a_module_behind_the_last_semicolon_is_told() -> None:
    text = "Brakes: C0035 stored; U0100 lost engine (stored); radio no answer\n"
    assert modules_of(text) == {"anti-lock brakes": ["C0035 stored", "U0100 stored"], "radio": ["silent"]}


def test_a_number_of_several_levels_is_no_part_of_a_name() -> None:
    text = "2.1 Brakes\n  No codes\n3.2 Power steering\n  C1604 stored\n3.3 Airbag\n  no answer\nSupply: not read\n"
    scan = read_text(text, load()).snapshots[0]
    assert modules_of(text) == {
        "anti-lock brakes": ["clean"], "power steering": ["C1604 stored"], "restraints": ["silent"]}
    assert scan.volts is None


@pytest.mark.parametrize("head", ["Service 03, confirmed codes", "Mode $03: confirmed DTCs"])
def test_the_service_before_the_status_of_a_list_says_nothing_more(head: str) -> None:
    text = f"{head}\n  P0562  ECM  low\n  U0073  ABS  bus off\nService 07, pending codes\n  P0563  ECM  high\n"
    assert modules_of(text)["engine control"] == ["P0562 confirmed", "P0563 pending"]


def test_a_sentence_that_explains_a_sign_names_no_module() -> None:
    text = "All were asked. A dash means that it answered and had nothing.\nECM P0562\nTCM -\n"
    assert modules_of(text) == {"engine control": ["P0562"], "transmission control": ["clean"]}
    assert modules_of("The dash is silent.\nECM P0562\n")["instrument cluster"] == ["silent"]


@pytest.mark.parametrize("text", [
    "Neither P0300 nor P0420 has come back, so that repair is done.", "Weder P0300 noch P0420 kamen wieder."])
def test_codes_of_which_neither_came_back_are_not_held(text: str) -> None:
    assert modules_of(f"Engine: P0562 stored\nABS: no answer\n{text}\n") == {
        "engine control": ["P0562 stored"], "anti-lock brakes": ["silent"]}


@pytest.mark.parametrize("key", ["Faults.:", "Faults:", "Faults....:"])
def test_a_count_behind_a_name_is_no_part_of_it_however_its_key_is_filled(key: str) -> None:
    text = f"Unit.......: Engine        {key} 1\n   > P0335 no signal\nUnit.......: Dash          {key} 0\n"
    assert modules_of(text) == {"engine control": ["P0335"], "instrument cluster": ["clean"]}
