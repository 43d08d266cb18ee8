"""A code with a list of modules, each with a status of its own. Invented texts; wordings: common practice."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

_LISTS = [
    ("U0100: TCM (stored), BCM (active), EPS (pending)",
     {"transmission control": ["U0100 stored"], "body control": ["U0100 current"],
      "power steering": ["U0100 pending"]}),
    ("U0100: Transfer case (stored), Driver seat module (active), BCM (pending)",
     {"transfer case": ["U0100 stored"], "seat, driver": ["U0100 current"], "body control": ["U0100 pending"]}),
    ("U3003: Surveillance pression pneus (actif), Calculateur airbag (mémorisé)",
     {"tyre pressure": ["U3003 current"], "restraints": ["U3003 stored"]}),
    ("P0562 - ECM stored, BCM active and EPS pending",
     {"engine control": ["P0562 stored"], "body control": ["P0562 current"], "power steering": ["P0562 pending"]}),
    ("U0100, U0101-31: TCM [stored], BCM: active",
     {"transmission control": ["U0100 stored", "U0101-31 stored"],
      "body control": ["U0100 current", "U0101-31 current"]}),
    ("U0100-87: TCM (stored) BCM (active) EPS (pending)",
     {"transmission control": ["U0100-87 stored"], "body control": ["U0100-87 current"],
      "power steering": ["U0100-87 pending"]}),
    ("U0140: TCM (transmission) (stored), BCM, EPS (pending)",
     {"transmission control": ["U0140 stored"], "body control": ["U0140"], "power steering": ["U0140 pending"]}),
    ("U0100 | TCM (stored), BCM (active)\nU0101 | EPS (stored)",
     {"transmission control": ["U0100 stored"], "body control": ["U0100 current"], "power steering": ["U0101 stored"]}),
]


@pytest.mark.parametrize(("text", "want"), _LISTS)
def test_each_module_of_a_code_has_its_own_status(text: str, want: dict[str, list[str]]) -> None:
    assert modules_of(text) == want


def test_a_module_that_nobody_knows_is_one_of_the_list() -> None:
    assert modules_of("U0100: TCM (stored), Winch (active)") == {
        "transmission control": ["U0100 stored"], "Winch": ["U0100 current"]}


_NO_LISTS = [
    ("P0300: misfire (stored), cylinder 1 (active)", {"module not stated"}),
    ("ABS\nU0100: lost comms ECM (stored), TCM (active)", {"anti-lock brakes"}),
    ("ABS: C0031 (stored), C0040 (active)", {"anti-lock brakes"}),
    ("U0100 (stored): TCM, BCM\nU0101: TCM, BCM (active)", {"transmission control", "body control"}),
]


@pytest.mark.parametrize(("text", "want"), _NO_LISTS)
def test_descriptions_with_a_status_in_brackets_name_no_module(text: str, want: set[str]) -> None:
    assert set(modules_of(text)) == want
