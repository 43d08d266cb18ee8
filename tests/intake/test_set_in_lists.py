"""Lists of modules with their codes set in below them: numbers before the names, addresses behind them, heads of lists
by status with the status once more in brackets. All invented; layout: common practice."""

from __future__ import annotations

import pytest

from tests.intake.reads import told


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # A full line above a heading that stands further left than the codes does not go on in it.
        ("1.Rain sensor\n\tp2263  Turbo boost system performance  stored\n2.Electronic stability program\n"
         "\tu0300  Internal software incompatibility  active\n3.Safety restraints\n"
         "\tb0051  Deployment commanded, crash data stored in unit  pending",
         " | rain sensor: P2263 stored; vehicle dynamics: U0300 current; restraints: B0051 pending"),
        ("Rain sensor\n\tp2263  Turbo boost system performance  stored\nTrailer thing\n"
         "\tu0300  Internal software incompatibility  active", " | rain sensor: P2263 stored; Trailer thing: "
         "U0300 current"),
        # Addresses behind names, a number that is part of one.
        ("Rain sensor @ 04\n  B1342 (active)\n360 camera module @ $19\n  B1271 (stored)\nSeat heater @ 0x2B: no codes",
         " | rain sensor: B1342 current; surround view: B1271 stored; seat heating: clean"),
        # The names are listed or alike, and what is set in below them tells of their parts.
        ("Rain sensor -\n\tno faults\nEPS control unit -\n\tC0500 Steering torque sensor internal fault\n"
         "\tC0545 Steering torque input sensor signal implausible\nRear left door -\n\tB1015 Lock motor circuit open",
         " | rain sensor: clean; power steering: C0500, C0545; door, rear left: B1015"),
    ],
)
def test_codes_set_in_below_their_module(text: str, expected: str) -> None:
    assert told(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("GATEWAY: 2 DTCs\n  Present faults:\n    B1676 00\n  Stored DTCs (not present):\n    U0131 87\n"
         "RAIN SENSOR: 1 DTC\n  Stored DTCs (not present)\n    B1479 12",
         " | gateway: B1676-00 current, U0131-87 stored; rain sensor: B1479-12 stored"),
        ("[Confirmed]\nRain sensor:\n -> u300316\n\n[Stored DTCs (not present)]\nRain sensor:\n -> u012187\n"
         "Seat heater:\n -> b1b0713", " | rain sensor: U3003-16 confirmed, U0121-87 stored; seat heating: "
         "B1B07-13 stored"),
        # What a description ends in is no status below the head of a list, nor is its head that of the module above.
        ("Confirmed:\nRain sensor\n P0D57  Charger input current fault\n B1000 Defective\nActive:\nSeat heater\n"
         " B1111 open", " | rain sensor: P0D57 confirmed, B1000 confirmed; seat heating: B1111 current"),
    ],
)
def test_lists_by_status(text: str, expected: str) -> None:
    assert told(text) == expected
