"""Headings with an address, or a place in the list, before the name, below the heads of the columns of codes. All
invented; layout: common practice of printed reports."""

from __future__ import annotations

import pytest

from tests.intake.reads import told


@pytest.mark.parametrize("head", ["", "DTC no.   Details\n", "Code   Description   Type\n", "FAULT   FAULT TEXT\n"])
@pytest.mark.parametrize(
    ("first", "second", "third"),
    [
        ("1  Rain sensor   2 codes", "2  Seat heater   1 DTC found", "3  Overhead console   no codes"),
        ("2  Rain sensor   2 codes", "5  Seat heater   1 code", "7  Overhead console   memory clear"),
        ("3C  Rain sensor", "$1A  Seat heater", "0x41  Overhead console   no codes"),
        ("[08] Rain sensor", "[2F] Seat heater", "[31] Overhead console   no codes"),
    ],
)
def test_numbered_headings_below_the_heads_of_columns(head: str, first: str, second: str, third: str) -> None:
    text = (f"Garage report\n{head}{first}\nB1111 Circuit open (stored)\nU0140 Lost communication (active)\n"
            f"{second}\nB2222 Element open (stored)\n{third}")
    assert told(text) == (" | rain sensor: B1111 stored, U0140 current; seat heating: B2222 stored; "
                          "roof console: clean")


def test_rows_of_the_table_below_headings() -> None:
    text = ("Code     Description                    Status\n01  Rain sensor   2 codes\n"
            "B1111    Circuit open                   stored\nU0140    Lost communication             active\n"
            "02  Seat heater   1 code\nB2222    Element open                   active\n03  Overhead console   no codes")
    assert told(text) == (" | rain sensor: B1111 stored, U0140 current; seat heating: B2222 current; "
                          "roof console: clean")


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # One that nobody knows has a number as the others have, and goes on without it behind a page.
        ("3C  Rain sensor\n B1111 open\n33  QXV\n B1000 broken\nPage 1 of 2\nQXV (continued)\n B2222 short\n"
         "41  Overhead console\n no codes", " | rain sensor: B1111; QXV: B1000, B2222; roof console: clean"),
        # A voltage that begins a name is none.
        ("01  Rain sensor\n B1111 open\n12 V converter\n no codes\n02  Overhead console\n no codes",
         " | rain sensor: B1111; DC/DC converter: clean; roof console: clean"),
    ],
)
def test_names_that_nobody_knows(text: str, expected: str) -> None:
    assert told(text) == expected


def test_a_table_with_the_numbers_of_modules() -> None:
    text = "No   Module        Result\n01   Rain sensor   no codes\n02   Seat heater   silent\n03   Roof console   OK"
    assert told(text) == " | rain sensor: clean; seat heating: silent; roof console: clean"
