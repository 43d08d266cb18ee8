"""Statuses that tell of two times or of a test, and those in a line of their own below the module of a code.

What each text should read as is how a technician reads it; no standard says so.
"""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans

ABS, ECM = "anti-lock brakes", "engine control"


@pytest.mark.parametrize(("said", "status"), [
    ("happened earlier, now OK", "stored"), ("was present, passing now", "stored"), ("seen before but fine now", "stored"),
    ("früher aufgetreten, jetzt i.O.", "stored"), ("war aktiv, inzwischen weg", "stored"),
    ("était actif, correct maintenant", "stored"), ("estuvo activo, ahora correcto", "stored"),
    ("not passing", "current"), ("currently not passing", "current"), ("test not passed", "current"),
    ("Prüfung nicht bestanden", "current"), ("test non réussi", "current"), ("prueba no superada", "current"),
    ("passing now", "stored"), ("active now", "current"),
])
@pytest.mark.parametrize("form", ["ABS\n  C0035 sensor ({0})", "ABS | C0035 | {0}\nABS | C0040 | {0}"])
def test_what_was_and_what_is(said: str, status: str, form: str) -> None:
    assert modules_of(form.format(said))[ABS][0] == f"C0035 {status}"


def test_a_description_that_passes_nothing_on_is_no_status() -> None:
    assert modules_of("ABS: C0035 gateway not passing wheel data") == {ABS: ["C0035"]}


@pytest.mark.parametrize(("lead", "key"), [
    ("in module", "Fault status: "), ("in the ECU", "State = "), ("im Steuergerät", "Status: "), ("in", "Status: "),
    ("reported by", ""),
])
def test_the_status_in_a_line_below_the_module_of_its_code(lead: str, key: str) -> None:
    text = (f"- P0101 Air mass\n    {lead} engine\n    {key}stored\n- C0051 Angle\n    {lead} brakes\n    {key}active\n"
            f"- C0040 Wheel\n    {lead} brakes\n    {key}pending\n")
    assert modules_of(text) == {ECM: ["P0101 stored"], ABS: ["C0051 current", "C0040 pending"]}


def test_a_status_below_a_code_that_nobody_knows_is_not_that_of_the_next() -> None:
    text = ("?? lost counter\n    Module: engine\n    Status: active\nC0051  Angle\n    Module: brakes\n    Status: stored\n"
            "C0040  Wheel\n    Module: brakes\n    Status: pending\n")
    assert modules_of(text)[ABS] == ["C0051 stored", "C0040 pending"]


@pytest.mark.parametrize("text", [
    "Radio\n  K4F27 aerial open - stored\n  H1B09 clock lost - active\n",
    "Radio: K4F27 aerial open (stored); H1B09 clock lost (active)\nABS: no codes\n",
])
def test_numbers_in_which_letters_and_digits_take_turns(text: str) -> None:
    assert scans(text)[0].startswith(" | Radio: K4F27 stored H1B09 current")


@pytest.mark.parametrize("text", ["ABS: no codes\nConnector H4R02 cleaned.\n", "Post code K1A27\nABS: no codes\n"])
def test_other_numbers_of_that_form_are_none(text: str) -> None:
    assert modules_of(text) == {ABS: ["clean"]}
