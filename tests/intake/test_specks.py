"""Specks that a scanner read off the paper beside the print part nothing; marks that may say something stay. All
invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import scans
from triage.intake.plain.characters import lines
from triage.intake.tidying.specks import left_out


@pytest.mark.parametrize("told", [
    "Radio:\n  U0140 Lost bus - stored ~\n'\n  B1318 Low supply - active\nABS: C0035 - active .\n`\nSunroof: ok\n",
    "~ Radio:\n  U0140 Lost bus - stored\n  B1318 Low supply -\n.\nactive '\nABS: C0035 - active\n. Sunroof: ok\n",
    "Radio:\n  U0140 Lost bus - stored\n'\n  B1318 Low supply - active\n. ABS: C0035 - active\n~\nSunroof: ok \u00b7\n",
])
def test_specks(told: str) -> None:
    assert scans(told) == [" | Radio: U0140 stored B1318 current; ABS: C0035 current; Sunroof: clean"]


def test_specks_in_lists_of_answers() -> None:
    text = ("U3003 | Tacho | Low supply | stored\n~\nNo faults in:\n  Radio\n.\n  Sunroof '\n~   Gateway\n"
            "No answer from:\n  ABS\n")
    assert scans(text) == [" | Tacho: U3003 stored; Radio: clean; Sunroof: clean; Gateway: clean; ABS: silent"]


def test_marks_that_say_something() -> None:
    # A key to the marks, one mark alone, and amounts that are about so.
    found = lines("ABS\n  C0035 ~\n  C0040 .\n\n~ = stored\n. = active\n")
    assert left_out(found) is found
    assert scans("~ ABS: C0035 stored\n~ Radio: no codes\n") == [" | ABS: C0035 stored; Radio: clean"]
    assert scans("~ 11.4 V\nABS: C0035 stored '\n.\nRadio: no codes\n")[0].startswith("11.4")
