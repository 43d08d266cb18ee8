"""Spaces in and around what is told of a code, and names that are words of another language. All invented; wordings:
common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of, scans, told
from triage.intake.read import read_text


@pytest.mark.parametrize("mark", ["0x", "0X", "0x ", "0X ", "", "$"])
def test_a_space_behind_the_mark_of_a_failure_type(mark: str) -> None:
    text = (f"Module: ICL  Faults: 1\n  dtc: B 1008  ftb :{mark}13  state : active\nABS C0035 ftb {mark}1A stored\n"
            f"ECM P0562 FT {mark}16 stored 3x\nBCM\nU0140 stored\nfailure type: {mark}00")
    assert modules_of(text) == {
        "instrument cluster": ["B1008-13 current"], "anti-lock brakes": ["C0035-1A stored"],
        "engine control": ["P0562-16 stored"], "body control": ["U0140-00 stored"]}


@pytest.mark.parametrize(("said", "read"), [
    ("n/a (no comm)", "silent"), ("no comm", "silent"), ("0", "clean"), ("none", "clean")])
def test_a_short_name_that_is_an_answer_elsewhere(said: str, read: str) -> None:
    text = f"Module: ICL  Faults: 0\nModule: HVAC  Faults: 0\nModule: RAS   Faults: {said}"
    assert modules_of(text) == {"instrument cluster": ["clean"], "climate control": ["clean"], "RAS": [read]}


def test_a_short_name_above_its_own_count() -> None:
    text = "Module: ECM\nStatus: no response\nModule: RAS\nFaults: 1\nCode: U0100\nModule: ABS\nFaults: RAS"
    assert modules_of(text) == {"engine control": ["silent"], "RAS": ["U0100"], "anti-lock brakes": ["clean"]}


@pytest.mark.parametrize("spaced", ["p0 2 3 8", "P 0 2 3 8", "P0 2 38", "P02 3 8"])
def test_digits_of_a_code_all_apart(spaced: str) -> None:
    assert modules_of(f"engine P0562 stored , {spaced} active\nabs clean\neps {spaced} stored") == {
        "engine control": ["P0562 stored", "P0238 current"], "anti-lock brakes": ["clean"],
        "power steering": ["P0238 stored"]}


@pytest.mark.parametrize("joint", [
    " stored and ", " stored, ", " stored ", " is stored and ", " (stored), ", " stored ; ", " stored and it has "])
def test_one_more_of_them_behind_the_status_of_the_first(joint: str) -> None:
    assert modules_of(f"cluster has U 0 1 4 0{joint}B 1 0 0 2 current\nabs no codes") == {
        "instrument cluster": ["U0140 stored", "B1002 current"], "anti-lock brakes": ["clean"]}


def test_pins_of_a_connector_are_no_code() -> None:
    assert modules_of("ECM P0562 stored\nC1 2 3 4 door plug") == {"engine control": ["P0562 stored"]}
    assert modules_of("ECM P 0 5 6 2 stored, pin B 1 2 3 4 loose") == {"engine control": ["P0562 stored"]}


@pytest.mark.parametrize(("said", "read"), [
    ("clean", "clean"), ("ok", "clean"), ("no codes", "clean"), ("no answer", "silent"), ("not responding", "silent")])
@pytest.mark.parametrize("gap", [" ", "  "])
def test_a_name_that_stands_before_a_code_elsewhere(said: str, read: str, gap: str) -> None:
    text = (f"before clear  11,5 v\nengine P0562 stored\nbox{gap}U0100 stored\nbag clean\ndash no answer\n--\n"
            f"after clear  12,9v\nengine P0238 active\nbox{gap}{said}\nbag B0001 - 13 active\ndash clean")
    assert scans(text) == [
        "before-clear 11.5 V | engine: P0562 stored; box: U0100 stored; bag: clean; dash: silent",
        f"after-clear 12.9 V | engine: P0238 current; box: {read}; bag: B0001 current; dash: clean"]


@pytest.mark.parametrize("line", ["all clean", "terminals clean", "box clean and dry", "still no answer"])
def test_words_before_an_answer_that_no_code_shows_to_be_names(line: str) -> None:
    text = f"engine P0562 stored\nabs clean\n{line}\nstill U0121 stored\nbox U0100 stored"
    assert {"all", "terminals", "box clean"}.isdisjoint(modules_of(text))
    assert modules_of(text)["box"] == ["U0100 stored"]


@pytest.mark.parametrize("name", ["drivers  dor", "drivers  door", "drivers dor"])
def test_a_name_with_a_slip_and_two_spaces_in_it(name: str) -> None:
    text = f"abs C0044-12 active\ndash U0155 stored\n{name} U0140 stored\nhvac clean"
    assert modules_of(text) == {"anti-lock brakes": ["C0044-12 current"], "instrument cluster": ["U0155 stored"],
                                "door, driver": ["U0140 stored"], "climate control": ["clean"]}


@pytest.mark.parametrize("code", ["b1OA2", "B1OA2", "b10A2"])
def test_a_capital_letter_beside_a_slip_in_a_code_of_a_small_letter(code: str) -> None:
    assert modules_of(f"abs clean\nbcm {code}-12 stored") == {
        "anti-lock brakes": ["clean"], "body control": ["B10A2-12 stored"]}


def test_such_a_code_without_a_failure_type_is_told_of() -> None:
    found = read_text("abs clean\nbcm b1OA2 stored", load())
    assert [notice.line for notice in found.notices if notice.severity == "warning"] == [2]


def test_a_description_glued_to_a_failure_type() -> None:
    text = "## Radio\nB1000-49Control board fault\nB100287Lost data from aerial\nB1003-11: aerial\npart no. C1-11Abc d"
    assert told(text) == " | radio: B1000-49, B1002-87, B1003-11"
