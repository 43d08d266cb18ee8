"""Cells of printed tables that were wrapped each for itself, also over the end of a page.

What each text should read as is how a technician reads it; no standard says so.
"""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

ABS, BCM, SRS = "anti-lock brakes", "body control", "restraints"


@pytest.mark.parametrize(("head", "first", "rest", "status"), [
    ("Status", "not yet", "confirmed", "pending"), ("State", "formerly", "active", "stored"),
    ("Zustand", "noch nicht", "bestätigt", "pending"), ("Status", "nicht mehr", "aktiv", "stored"),
    ("Statut", "pas encore", "confirmé", "pending"), ("État", "n'est plus", "présent", "stored"),
    ("Estado", "aún no", "confirmado", "pending"), ("Estado", "ya no", "presente", "stored"),
])
@pytest.mark.parametrize("last", [True, False])
def test_a_status_in_two_lines(head: str, first: str, rest: str, status: str, last: bool) -> None:
    def line(code: str, text: str, state: str) -> str:
        return (f"{code:<9}{text:<22}{state}" if last else f"{code:<9}{state:<14}{text}").rstrip()

    text = "\n".join([
        line("DTC", "Text", head), "ABS", line("C0035", "Wheel sensor left,", first), line("", "open circuit", rest),
        line("C0040", "Wheel sensor right", "active"), "BCM", line("B1318", "Supply low", first), line("", "", rest),
    ])
    assert modules_of(text) == {ABS: [f"C0035 {status}", "C0040 current"], BCM: [f"B1318 {status}"]}


def test_over_the_end_of_a_page() -> None:
    text = ("Unit    Code    Text            Status\n"
            "ABS     C0035   Wheel sensor    no longer\n"
            "Page 1 of 2\n\nHealth report\n"
            "Unit    Code    Text            Status\n"
            "                                present\n"
            "        C0040   Wheel sensor,   not yet\n"
            "                right           confirmed\n"
            "Airbag          optional unit not\n"
            "Page 2 of 2\nHealth report\n"
            "                fitted\n"
            "BCM             no faults\n")
    assert modules_of(text) == {ABS: ["C0035 stored", "C0040 pending"], BCM: ["clean"]}


def test_a_row_of_its_own_is_no_rest() -> None:
    text = ("Code    Text            Status\n"
            "ABS\n"
            "C0035   Wheel sensor    not\n"
            "C0040   Wheel sensor    confirmed\n"
            "BCM\n"
            "B1318   Supply          confirmed\n")
    assert modules_of(text)[ABS] == ["C0035", "C0040 confirmed"]


def test_headings_between_the_rows_stay_whole() -> None:
    text = ("Code   Text             Status\n"
            "Door rear left\n"
            "B1318  Supply           not yet\n"
            "                        confirmed\n"
            "Body control unit\n"
            "B1317  Supply           active\n")
    assert modules_of(text) == {"door, rear left": ["B1318 pending"], BCM: ["B1317 current"]}
