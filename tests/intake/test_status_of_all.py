"""A status at the end of a line that is said of all its codes, whatever stands between them. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of


@pytest.mark.parametrize("between", [
    "{}, {}, {}", "{} + {} + {}", "{} / {} / {}", "{}; {}; {}", "{} low supply; {} open circuit; {} no signal",
    "{} pump open, {} relay stuck, {} lost contact"])
@pytest.mark.parametrize("said", ["(all stored)", "[all stored]", "(alle gespeichert)", "(tous stored)", "- all stored",
                                  "(all history DTC)", "(both stored)"])
def test_of_all(between: str, said: str) -> None:
    """Other lines tell the status of each code in brackets of its own."""
    first = between.format("C0545", "C0044", "C0061")
    text = (f"ABS: {first} {said}\nRadio: B1341 (pending), B1342 (current), B1343\nCamera: B1344 (stored)\n")
    assert modules_of(text) == {
        "anti-lock brakes": ["C0545 stored", "C0044 stored", "C0061 stored"],
        "radio": ["B1341 pending", "B1342 current", "B1343"], "camera": ["B1344 stored"]}


def test_what_a_code_has_of_its_own_stays() -> None:
    text = "ABS: C0545 (current), C0044, C0061 (all stored)\nRadio: B1341 (pending), B1342 (stored)\n"
    assert modules_of(text)["anti-lock brakes"] == ["C0545 current", "C0044 stored", "C0061 stored"]


def test_a_name_with_its_address_before_codes_with_brackets() -> None:
    text = ("Passenger door (address 35) - B2208 [pending] + U3012 [stored]\n"
            "Blind spot module right (address 36) - U0151 [current] + U0184 [stored] + B1000 [confirmed]\n")
    assert modules_of(text) == {
        "door, passenger": ["B2208 pending", "U3012 stored"],
        "side obstacle, right": ["U0151 current", "U0184 stored", "B1000 confirmed"]}
