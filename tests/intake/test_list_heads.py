"""Answers that head a list of modules in their own line. Invented texts."""

from __future__ import annotations

import pytest

from tests.intake.reads import printed


@pytest.mark.parametrize("head", ["Answered, no DTCs: ", "Responding, no faults: ", "Answering and clean: ",
                                  "Communicating, no codes - "])
def test_an_answer_that_heads_a_list_is_no_module(head: str) -> None:
    assert printed(f"{head}Engine Control Module, Airbag\nNo response: ABS\n") == (
        "Engine Control Module: clean; Airbag: clean; ABS: silent")
    assert printed("Geantwortet, keine Fehler: Motor, ABS") == "Motor: clean; ABS: clean"
