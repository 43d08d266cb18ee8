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


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # One alone, over its codes or its answer.
        ("DTC no.   Details   State\n76  Rain sensor\n  B1111 Circuit open (stored)\n  U0140 Lost (active)",
         " | rain sensor: B1111 stored, U0140 current"),
        ("DTC no.   Details   State\n76  Rain sensor\n  no codes", " | rain sensor: clean"),
        # Its place behind the name, and no count.
        ("Rain sensor (1)\nB1111 open\nB2222 short\nSeat heater (2)\nB3333 open\nPage 1 of 2\n"
         "Seat heater (continued)\nB1444 open\nOverhead console (3)\n no codes",
         " | rain sensor: B1111, B2222; seat heating: B3333, B1444; roof console: clean"),
        # Where the codes of a row do not stand below their heads, nothing stands below them.
        ("Code   Fault text   Condition\n1. Rain sensor\n  b1111 [stored]  Circuit of the sensor open\n"
         "2. Central electronics\n  b2222 [active]  Circuit open\n3. Seat heater\n  no codes",
         " | rain sensor: B1111 stored; body control: B2222 current; seat heating: clean"),
    ],
)
def test_other_places_of_numbers(text: str, expected: str) -> None:
    assert told(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Rain sensor\n  U0131  Lost communication with power\n    steering - missing message\n  B1111  open",
         " | rain sensor: U0131, B1111"),
        ("Rain sensor\n  B1111 open\nClean: All wheel drive (AWD), Seat heater",
         " | rain sensor: B1111; all-wheel drive: clean; seat heating: clean"),
        ("Rain sensor\n  B1111 open\nNo codes:\n- Seat heater\nBattery U = 13.7 V",
         "13.7 V | rain sensor: B1111; seat heating: clean"),
        ("Regensensor\n  B1111 offen\nOhne Fehler: Sitzheizung, Heizung und Klima",
         " | rain sensor: B1111; seat heating: clean; climate control: clean"),
        ("Vehicle: pickup 5.0 4x4   ign on, battery 12.5V\nRain sensor\n  B1111 open", "12.5 V | rain sensor: B1111"),
    ],
)
def test_lines_beside_the_codes(text: str, expected: str) -> None:
    assert told(text) == expected
