"""Codes that somebody takes back in the same breath stay where they were said, with a warning. Invented texts."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of
from triage.intake.read import read_text

TAKEN_BACK = [
    "ABS/ESP - u0121... no wait thats the gearbox one",
    "ABS C0035, no sorry that was the airbag",
    "ABS: C0035... nein, das ist vom Airbag",
    "ABS : C0035... non pardon c'est l'airbag",
    "ABS: C0035... no, perdón, ese es del airbag",
]


@pytest.mark.parametrize("text", TAKEN_BACK)
def test_a_correction_is_warned_of(text: str) -> None:
    reading = read_text(text, load())
    assert [len(module.codes) for module in reading.snapshots[0].modules] == [1]
    assert any(notice.severity == "warning" and "correction" in notice.message for notice in reading.notices)


@pytest.mark.parametrize("text", ["ABS C0035, no response from the airbag", "ABS: U0121 no comms, wait for parts"])
def test_nothing_else_is_taken_for_one(text: str) -> None:
    assert not any("correction" in notice.message for notice in read_text(text, load()).notices)


@pytest.mark.parametrize(("line", "kept"), [
    ("ABS C0035? no sorry C0036 stored", "C0036 stored"), ("ABS C0035, no wait C0036", "C0036"),
    ("ABS C0035?? no: C0036-16 current", "C0036-16 current"), ("ABS SPN 1068? no: SPN 789 FMI 4", "SPN 789 FMI 4"),
    ("ABS has C0035, sorry I meant C0036", "C0036"),
    ("ABS C0035-1A wheel sensor?? no sorry 16 above  current", "C0035-16 current"),
])
def test_a_code_that_another_is_put_in_the_place_of_is_none(line: str, kept: str) -> None:
    assert modules_of(line) == {"anti-lock brakes": [kept]}
    notices = read_text(line, load()).notices
    assert [notice.severity for notice in notices] == ["note"]
    assert "taken back" in notices[0].message
