"""Codes that somebody takes back in the same breath stay where they were said, with a warning. Invented texts."""

from __future__ import annotations

import pytest

from code_tables import load
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
