"""What is said of modules and codes in a roundabout way. Invented texts; wordings: common practice."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans

ABS, ECM, DASH, RADIO, BCM = "anti-lock brakes", "engine control", "instrument cluster", "radio", "body control"


@pytest.mark.parametrize(("text", "told"), [
    ("BCM: neither B1001 nor B1002 is active.", {BCM: ["B1001 stored", "B1002 stored"]}),
    ("Hi, neither P0300 nor P0420 is active in the engine. ABS ok.", {ECM: ["P0300 stored", "P0420 stored"],
                                                                      ABS: ["clean"]}),
    ("Weder P0300 noch P0420 ist aktiv im Motor.", {ECM: ["P0300 stored", "P0420 stored"]}),
    ("dash has U0121 and neither P0300 nor P0420 is present in the engine",
     {DASH: ["U0121"], ECM: ["P0300 stored", "P0420 stored"]}),
])
def test_a_code_that_neither_is_active_is_stored(text: str, told: dict[str, list[str]]) -> None:
    assert modules_of(text) == told


@pytest.mark.parametrize("said", [
    "thinks the abs is missing (U0121)", "can't see the abs (U0121)", "lost the abs - U0121",
    "says the abs is gone: U0121"])
def test_the_code_is_of_the_module_that_thinks_so(said: str) -> None:
    assert modules_of(f"dash {said}, engine has P0300") == {DASH: ["U0121"], ECM: ["P0300"]}


@pytest.mark.parametrize("said", [
    "isn't happy, C0035", "is not happy with C0035", "is unhappy: C0035", "isnt happy; C0035", "is playing up - C0035"])
def test_how_a_module_is_stands_before_its_code(said: str) -> None:
    assert modules_of(f"The ABS {said}, radio clean") == {ABS: ["C0035"], RADIO: ["clean"]}


@pytest.mark.parametrize("said", ["everything \u2013 engine,", "all of them: the engine,", "several modules (engine,"])
def test_a_code_in_everything_is_of_all_that_are_named(said: str) -> None:
    assert modules_of(f"P0562 in {said} abs, radio") == {ECM: ["P0562"], ABS: ["P0562"], RADIO: ["P0562"]}


def test_a_status_told_afterwards() -> None:
    assert modules_of("ABS C0035 active\ndash U0100\nthats activ too, radio ok") == {
        ABS: ["C0035 current"], DASH: ["U0100 current"], RADIO: ["clean"]}


def test_cleared_and_scanned_with_slips() -> None:
    assert scans("engine P0300, abs C0035. then cleard it and scaned again. engine clean, abs C0035 back") == [
        "before-clear | engine: P0300; abs: C0035", "after-clear | engine: clean; abs: C0035"]


@pytest.mark.parametrize("said", ["[sleeping]", "asleep", "(asleep)"])
def test_a_module_that_sleeps_does_not_answer(said: str) -> None:
    assert modules_of(f"ABS: C0035 active\nRadio: {said}\n") == {ABS: ["C0035 current"], RADIO: ["silent"]}


@pytest.mark.parametrize("said", [
    "state: passed since, kept in memory", "(passed since)", "kept in memory", "status: still in memory"])
def test_a_code_that_passed_since_is_stored(said: str) -> None:
    assert modules_of(f"ABS: C0035, {said}\nRadio: no codes") == {ABS: ["C0035 stored"], RADIO: ["clean"]}


@pytest.mark.parametrize("key", ["Supply", "Battery", "Voltage", "Date"])
def test_what_is_no_module_is_not_clean(key: str) -> None:
    assert modules_of(f"{key}: none\nABS: C0035") == {ABS: ["C0035"]}


@pytest.mark.parametrize(("text", "told"), [
    ("Got P0562 (ECM) and C0035 (ABS)", {ECM: ["P0562"], ABS: ["C0035"]}),
    ("Found P0562 (engine), C0035 (abs), B1301 (radio).", {ECM: ["P0562"], ABS: ["C0035"], RADIO: ["B1301"]}),
    ("radio has U0121 (abs) and U0155 (dash)", {RADIO: ["U0121", "U0155"]}),
])
def test_the_module_in_the_bracket_of_each_code(text: str, told: dict[str, list[str]]) -> None:
    assert modules_of(text) == told


def test_no_codes_of_a_module() -> None:
    assert modules_of("no ABS faults, radio U0100") == {ABS: ["clean"], RADIO: ["U0100"]}


def test_silent_with_a_slip() -> None:
    assert modules_of("radio stays slent, ABS C0035") == {RADIO: ["silent"], ABS: ["C0035"]}


def test_a_side_before_its_name_is_not_of_the_name_before_it() -> None:
    assert modules_of("no faults in dash, front radar, left blind spot; the ABS has C0035") == {
        DASH: ["clean"], "front distance sensor": ["clean"], "side obstacle, left": ["clean"], ABS: ["C0035"]}
