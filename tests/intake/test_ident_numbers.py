"""Numbers of parts and programs in which a group looks like a code: none is read, unless the line says it is one. All
invented; wordings: common practice."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

RADIO, ABS = "radio", "anti-lock brakes"
NUMBERS = ["34-C0912-B", "34.C0912.B", "9K0-U0155-7", "BX-B1342-Y", "66 3120 B1342", "66 3120 B1342 C"]


@pytest.mark.parametrize("number", NUMBERS)
@pytest.mark.parametrize("key", [
    "Part number: ", "part no. ", "P/N ", "Teilenummer: ", "Teile-Nr. ", "Serial number ", "Référence ", "N° de pièce ",
    "Número de pieza: ", "SW part no ",
])
def test_a_line_of_such_a_number_below_a_name(key: str, number: str) -> None:
    text = f"Radio\n    {key}{number}\n    No codes\nABS\n    {key}{number}     Software: 0912.04\n    C0040 stored\n"
    assert modules_of(text) == {RADIO: ["clean"], ABS: ["C0040 stored"]}


@pytest.mark.parametrize("number", ["34-C0912-B", "34-55912-B"])
@pytest.mark.parametrize("form", ["{}, part no {}", "{} part no. {}", "{} (P/N {})", "{} {}", "{}   {}"])
def test_such_a_number_behind_a_name(form: str, number: str) -> None:
    text = f"Gateway\n  U0100 stored\n{form.format('Radio', number)}\n  B1000 stored\n{form.format('ABS', number)}\n" \
           "  no codes\n"
    assert modules_of(text) == {"gateway": ["U0100 stored"], RADIO: ["B1000 stored"], ABS: ["clean"]}


def test_other_numbers_beside_such_a_number() -> None:
    text = "ABS\n  C0040 left\nSW part no 66 3120 B1342   HW 66 3120 A   Depot code 00417\nRadio\n  no codes\n"
    assert modules_of(text) == {ABS: ["C0040"], RADIO: ["clean"]}


@pytest.mark.parametrize("line", [
    "ABS part no 3120: C0040 stored", "ABS SW 0912 C0040 stored", "ABS part no 3120 C0040 stored",
    "ABS: part number 34-55, code C0040 stored", "ABS-C0040 stored", "ABS: HW 0912 1103 C0040-16 stored",
    "ABS: part no 66 3120 C0040 U0100 stored", "ABS\n  cal 66 3120 C0040, U0100 stored",
])
def test_a_code_behind_such_a_number(line: str) -> None:
    assert "C0040" in " ".join(code for codes in modules_of(line).values() for code in codes)


def test_a_code_behind_the_number_of_its_line() -> None:
    text = "ABS\n03-C0040-16 stored\n04-U0100 stored\n05-U0121\n06-C0041-x"
    assert modules_of(text) == {ABS: ["C0040-16 stored", "U0100 stored", "U0121"]}
