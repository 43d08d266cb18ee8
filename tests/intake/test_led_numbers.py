"""Makers' own numbers behind a word for a code, below their module: with how often they were seen, with what sounds
like a test of the current at rest, with a status that begins with "in". All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

RADIO = "radio"


@pytest.mark.parametrize(("line", "expected"), [
    ("DTC 20417 3x: Aerial feed open (not confirmed)", "20417 pending"),
    ("DTC 20417 12 x: Aerial feed open (stored)", "20417 stored"),
    ("Fehler 20417 3x: Antenne unterbrochen (liegt an)", "20417 current"),
    ("D\u00e9faut 20417 3x: antenne coup\u00e9e (m\u00e9moris\u00e9)", "20417 stored"),
    ("Aver\u00eda 20417 3x: antena abierta (presente)", "20417 current"),
    ("Fault 5206: Quiescent current step, wrong value (stored)", "5206 stored"),
    ("DTC 0x52B6: Ruhestrom Abschaltstufe (gespeichert)", "0x52B6 stored"),
    ("Code B7C3 - in history - Aerial of the rear lamp", "B7C3 stored"),
    ("Code B7C3 - in memory - Aerial of the ABS", "B7C3 stored"),
])
def test_below_a_module(line: str, expected: str) -> None:
    assert modules_of(f"Radio\n {line}\n\nABS\n no codes\n") == {RADIO: [expected], "anti-lock brakes": ["clean"]}


@pytest.mark.parametrize("line", [
    "Fault 5206 in the ABS", "Code 5206 3xy", "Quiescent current test\n after 20 min 0.05 A",
])
def test_of_other_things(line: str) -> None:
    assert "radio" not in modules_of(f"Radio\n {line}\n\nABS\n no codes\n")


def test_the_numbers_of_entries_before_such_numbers() -> None:
    text = ("Radio\n  1 U0140 | stored: Body lost\n  2 20417 | present: Aerial open\n\nGearbox\n"
            "  1 31822 | not present: Valve open\n  2 31823 | present: Valve stuck\nABS >> no codes\n")
    assert list(modules_of(text).values()) == [
        ["U0140 stored", "20417 current"], ["31822 stored", "31823 current"], ["clean"]]


def test_numbers_before_such_numbers_that_do_not_run_on_are_addresses() -> None:
    rows = ("Addr | Code | Text | State\n03 | 31822 | Valve open | stored\n17 | 20417 | Aerial open | stored\n")
    assert [code for codes in modules_of(rows).values() for code in codes] == ["31822 stored", "20417 stored"]
