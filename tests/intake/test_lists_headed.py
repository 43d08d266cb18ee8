"""Lists under a heading that says what all of them did: "### Controllers without faults", then their names."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

_FAULTS = "#### Engine\n1. `P0562` - low - **confirmed**\n\n"


@pytest.mark.parametrize("clean", ["Controllers without faults", "Modules with no codes", "Steuergeräte ohne Fehler"])
@pytest.mark.parametrize("silent", ["Controllers that did not answer", "No response", "Modules without communication"])
@pytest.mark.parametrize("mark", ["### ", "", "**"])
def test_names_below_a_heading_of_several(clean: str, silent: str, mark: str) -> None:
    text = (f"{_FAULTS}{mark}{clean}{mark.strip(' #')}\n- Airbag\n- Steering column\n\n"
            f"{mark}{silent}{mark.strip(' #')}\n- Front radar\n- Tailgate\n")
    assert modules_of(text) == {"engine control": ["P0562 confirmed"], "restraints": ["clean"],
                                "steering column": ["clean"], "front distance sensor": ["silent"],
                                "power tailgate": ["silent"]}
    assert modules_of(text.replace("\n\n", "\n")) == modules_of(text)


def test_modules_that_are_not_fitted_are_no_answer_of_theirs() -> None:
    assert modules_of(f"{_FAULTS}### Systems not fitted\n- Sunroof\n- Tailgate\n### Silent\n- Radio\n") == {
        "engine control": ["P0562 confirmed"], "radio": ["silent"]}


def test_a_heading_ends_the_list_above() -> None:
    assert modules_of("### No answer\n- Radio\n- Tailgate\n\n### Airbag\n- B0001 stored\n\n### ABS\n- no codes\n") == {
        "radio": ["silent"], "power tailgate": ["silent"], "restraints": ["B0001 stored"],
        "anti-lock brakes": ["clean"]}
    assert modules_of("Modules without faults\nRadio\nModules with faults\nABS\nC0035 stored\n") == {
        "radio": ["clean"], "anti-lock brakes": ["C0035 stored"]}


def test_an_answer_of_one_module_above_the_mark_of_the_next() -> None:
    assert modules_of("Engine\nno codes\n- ABS\nC0035\n") == {"engine control": ["clean"],
                                                               "anti-lock brakes": ["C0035"]}
    assert modules_of("- Engine\nno codes\n- ABS\nno codes\n") == {"engine control": ["clean"],
                                                                 "anti-lock brakes": ["clean"]}
    assert modules_of("Gateway\n  No communication with modules\nABS\n  no codes\n") == {
        "gateway": ["silent"], "anti-lock brakes": ["clean"]}
