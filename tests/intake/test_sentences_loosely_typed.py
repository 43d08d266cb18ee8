"""Sentences typed or dictated in haste: tight commas, wrapped lines, slips, what is not fitted. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

ABS, ECM, SRS, RADIO, DASH = "anti-lock brakes", "engine control", "restraints", "radio", "instrument cluster"


@pytest.mark.parametrize(("text", "told"), [
    ("ABS has C0035-12,skipped the radio, no faults in airbag,engine and dash, couldn't get into the gateway",
     {ABS: ["C0035-12"], SRS: ["clean"], ECM: ["clean"], DASH: ["clean"], "gateway": ["silent"]}),
    ("ECM,ABS and SRS all good", {ECM: ["clean"], ABS: ["clean"], SRS: ["clean"]}),
    ("BATTERY 12.4 V. ECM,ABS AND SRS ALL GOOD", {ECM: ["clean"], ABS: ["clean"], SRS: ["clean"]}),
    ("ABS has C0035 stored,not current, and C0040 active,and C0045 as current",
     {ABS: ["C0035 stored", "C0040 current", "C0045 current"]}),
])
def test_a_comma_without_a_space_parts_what_is_told(text: str, told: dict[str, list[str]]) -> None:
    assert modules_of(text) == told


def test_cells_between_commas_stay_cells() -> None:
    text = "Module,Code,Text,Status\nABS,C0035,Sensor, no signal,stored\nECM,P0562,Voltage, is low,active\n"
    assert modules_of(text) == {ABS: ["C0035 stored"], ECM: ["P0562 current"]}


@pytest.mark.parametrize("text", [
    "no radio fitted on this one, ABS has C0035", "ABS has C0035, there is no radio on this van",
    "ABS C0035, kein Radio verbaut", "ABS has C0035. No radio fitted."])
def test_a_module_that_is_not_fitted_has_no_answer(text: str) -> None:
    assert modules_of(text) == {ABS: ["C0035"]}


@pytest.mark.parametrize("word", ["nthing", "nothhing", "nohting"])
def test_nothing_with_a_slip_before_a_name(word: str) -> None:
    assert modules_of(f"ABS has C0035. {word} in the radio. Engine clean.") == {
        ABS: ["C0035"], RADIO: ["clean"], ECM: ["clean"]}


def test_a_status_with_a_slip_behind_as() -> None:
    assert modules_of("ABS has C0035-16 as a peranent code, and C0040 as curent") == {
        ABS: ["C0035-16 permanent", "C0040 current"]}


def test_a_verb_leads_to_the_codes_in_the_next_line() -> None:
    text = ("battery is twelve point four, the engine ecu shows\nP0562-87 permanent, nothing in the airbag, radio\n"
            "not fitted, no faults in the dash\nNeeded by Friday.\n")
    assert modules_of(text) == {ECM: ["P0562-87 permanent"], SRS: ["clean"], DASH: ["clean"]}


def test_one_more_code_in_the_next_line() -> None:
    text = ("BATTERY AT 12.4, RADIO B1301-16 CONFIRMED, DASH B2660-17\n"
            "& B2660-13 CURRENT, ABS C0035 (HISTORY), AND C0040\n")
    assert modules_of(text)[DASH] == ["B2660-17 current", "B2660-13 current"]


@pytest.mark.parametrize(("text", "told"), [
    ("ABS gave me C0035-68 stored, not current, C0040-87 (pump, relay) as current. Radio clean.",
     {ABS: ["C0035-68 stored", "C0040-87 current"], RADIO: ["clean"]}),
    ("ABS gave me C0035 stored, not current, C0040, and C0045 active. Radio clean.",
     {ABS: ["C0035 stored", "C0040 current", "C0045 current"], RADIO: ["clean"]}),
    ("ABS gave me C0035 stored, not current, C0040. Radio clean.",
     {ABS: ["C0035 stored", "C0040"], RADIO: ["clean"]}),
    ("ABS: C0035 as current; then the dash with active B1325; radio clean.",
     {ABS: ["C0035 current"], DASH: ["B1325 current"], RADIO: ["clean"]}),
])
def test_a_status_is_of_the_code_beside_it(text: str, told: dict[str, list[str]]) -> None:
    assert modules_of(text) == told


def test_a_status_opens_what_is_told_behind_ok() -> None:
    assert modules_of("ok so engine stored P0703, and P0443\nABS clean") == {
        ECM: ["P0703 stored", "P0443 stored"], ABS: ["clean"]}
