"""A code that is said not to be there is none of the scan. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text


def _held(text: str) -> dict[str, list[str]]:
    (scan,) = read_text(text, load()).snapshots
    return {module.module: [code.code for code in module.codes] for module in scan.modules}


@pytest.mark.parametrize("said", [
    "... not there, ABS ok", "not there", "not there, ok", "- not found", ": not seen", "not listed", "gone",
    "nicht da", "nicht gefunden", "pas là", "no está",
])
def test_a_code_that_is_not_there_is_none_of_the_list(said: str) -> None:
    assert _held(f"ABS\nC0051 {said}\nU0401 invalid data received\nBCM\nU0100 stored") == {
        "anti-lock brakes": ["U0401"], "body control": ["U0100"]}


def test_what_else_its_line_tells_of_another_module_is_kept() -> None:
    assert _held("ABS\nC0051 not there, radio ok\nBCM: U0100 stored")["radio"] == []


@pytest.mark.parametrize("said", ["not present", "not there now", "not found in the wiring diagram"])
def test_a_code_that_is_only_stored_is_one(said: str) -> None:
    assert _held(f"ABS\nC0051 {said}\nU0401 active") == {"anti-lock brakes": ["C0051", "U0401"]}
