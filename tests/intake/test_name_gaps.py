"""Names with two spaces inside them. Invented texts."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, printed

_SPACED = [
    ("Transmisssion  Control Module;P0882-11 (active), P0562-16 (stored)",
     "Transmisssion Control Module: P0882-11 P0562-16"),
    ("Engne  control unit - P0562 stored", "Engne control unit: P0562"),
    ("P0562: Engine  control module (stored)", "Engine control module: P0562"),
    ("u0164-54 in Multimedia  unit, fault present", "Multimedia unit: U0164-54"),
    ("U0415-17  in Headlamp control, past", "Headlamp control: U0415-17"),
    ("U0415-17  in Headlamp control, past\nP0562-16  in Engine control, present\nU0100  in  ABS, present",
     "Headlamp control: U0415-17; Engine control: P0562-16; ABS: U0100"),
    ("no codes in: instrument cluster,abs  control module", "instrument cluster: clean; abs control module: clean"),
    ("Body  control module: no codes\nRadio: no codes\n", "Body control module: clean; Radio: clean"),
    ("B1318:13  Present now  Radio  Aerial amplifier open\nU3003:16  Passive  Air bag  Battery voltage too low\n"
     "U3006:16  Present now  Air bag  Control module input power\nC0035:01  Passive  ABS  Speed sensor left\n",
     "Radio: B1318-13; Air bag: U3003-16 U3006-16; ABS: C0035-01"),
    ("Seat  P0562  stored\nDoor  U0100  active\n", "Seat: P0562; Door: U0100"),
]


@pytest.mark.parametrize(("text", "read"), _SPACED)
def test_two_spaces_inside_a_name_are_a_slip(text: str, read: str) -> None:
    assert printed(text) == read


def test_a_status_behind_a_name_with_such_a_slip_is_read() -> None:
    assert modules_of("U0415-17  in Headlamp  control, past") == {"headlamp": ["U0415-17 stored"]}
