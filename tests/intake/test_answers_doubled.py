"""Answers told twice, behind short rows of dots, in the place of a code, or as what did not come up."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of


@pytest.mark.parametrize("said", ["dead, no comms", "dead - no reply", "timeout, no response", "offline, no answer"])
def test_a_sure_answer_behind_a_doubtful_one_names_an_unknown_module(said: str) -> None:
    assert modules_of(f"PCM P0606\nZQXM {said}\n") == {"engine control": ["P0606"], "ZQXM": ["silent"]}


def test_short_rows_of_dots_lead_to_answers() -> None:
    text = "1. Engine ........ Passed\n2. Transmission .. Passed\n3. ABS ... Passed\n4. Airbag .. no response\n"
    assert modules_of(text) == {
        "engine control": ["clean"], "transmission control": ["clean"], "anti-lock brakes": ["clean"],
        "restraints": ["silent"],
    }


def test_short_rows_of_dots_in_german() -> None:
    text = "Motor .. i.O.\nGetriebe .. keine Antwort\nABS ... 2 Fehler\n C0031\n C0032\n"
    assert modules_of(text) == {
        "engine control": ["clean"], "transmission control": ["silent"], "anti-lock brakes": ["C0031", "C0032"],
    }


@pytest.mark.parametrize(("module", "code", "said", "none"), [
    ("ECU Name", "Fault Code", "Unable to read - no answer from ECU", "None"),
    ("Steuergerät", "Fehlercode", "nicht lesbar - keine Antwort", "keine"),
    ("Calculateur", "Code défaut", "lecture impossible - pas de réponse", "aucun"),
    ("Centralita", "Codigo", "no se puede leer, sin respuesta", "ninguno"),
])
def test_silence_in_the_place_of_a_code(module: str, code: str, said: str, none: str) -> None:
    text = f"{module} : ABS\n{code} : {none}\n{module} : Radio\n{code} : {said}\n"
    assert modules_of(text) == {"anti-lock brakes": ["clean"], "radio": ["silent"]}


def test_what_a_code_is_called_is_no_module() -> None:
    assert "DTC" not in modules_of("ECU: Radio\nDTC: cannot communicate with the gateway\nECU: ABS\nDTC: none\n")


@pytest.mark.parametrize("line", ["SAS          lost - no response to tester", "SAS - gone - no answer"])
def test_a_word_between_a_name_and_silence_is_no_module(line: str) -> None:
    text = f"{line}\nECM          no DTCs\n"
    assert modules_of(text) == {"steering angle sensor": ["silent"], "engine control": ["clean"]}


@pytest.mark.parametrize("line", [
    "Radio didn't come up on the scan, no reply", "Radio never showed up on the scan",
    "Das Radio taucht im Scan nicht auf", "La radio n'apparaît pas au scan", "La radio no aparece en el escaneo",
])
def test_what_did_not_come_up_is_silent(line: str) -> None:
    assert modules_of(f"{line}\nABS C0031\n") == {"radio": ["silent"], "anti-lock brakes": ["C0031"]}


@pytest.mark.parametrize("line", [
    "ECM: the fault did not show up on the scan", "ECM: P0562 didn't show up on the scan",
    "The ECM light does not show up on the scan",
])
def test_a_fault_that_did_not_come_up_makes_no_module_silent(line: str) -> None:
    assert modules_of(f"{line}\nABS: no codes\n").get("engine control") != ["silent"]


@pytest.mark.parametrize("line", ["Lights: no communication on bus", "Engine control unit didn't come up on the scan"])
def test_silence_on_the_bus_is_the_modules(line: str) -> None:
    assert list(modules_of(f"{line}\nABS C0031\n").values()) == [["silent"], ["C0031"]]
