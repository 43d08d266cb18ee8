"""Entries that end with their status, broken into lines wherever the page was full."""

import pytest

from tests.intake.reads import modules_of

PAGES = """Scan report
Horn box
U0100 Lost communication with
engine control - see wiring
section {0}
B1A05 Horn relay coil, check the
supply of the control unit {0}

Page 1 of 2
Scan report
Brake control
U0146 Lost communication with
power steering control
Page 2 of 2
Scan report

{1}
C0035 Wheel sensor left, signal
{0}
Radio
no answer
Steering assist
C0545 Torque sensor signal
{0}
"""


@pytest.mark.parametrize(("status", "end", "last"), [
    ("Stored", "module (not present)", "stored"), ("(stored)", "module (present)", "current"),
    ("- not present", "module - stored", "stored")])
def test_a_wrapped_entry_ends_with_its_status_across_names_and_pages(status: str, end: str, last: str) -> None:
    assert modules_of(PAGES.format(status, end)) == {
        "Horn box": ["U0100 stored", "B1A05 stored"],
        "anti-lock brakes": [f"U0146 {last}", "C0035 stored"],
        "radio": ["silent"],
        "power steering": ["C0545 stored"],
    }


def test_statuses_that_head_codes_end_no_entry_above() -> None:
    text = "ABS\nStored\nC0035 Wheel sensor\nCurrent\nC0040 Wheel sensor\nRadio\nStored\nB1000 Tuner\n"
    assert modules_of(text) == {
        "anti-lock brakes": ["C0035 stored", "C0040 current"], "radio": ["B1000 stored"]}
