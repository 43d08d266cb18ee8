"""The voltage of a module between its name and its codes, beside the name, or below its answer.

All invented; wordings: common practice.
"""

from __future__ import annotations

import pytest
from reads import printed

BELOW = [
    (
        """\
Sunroof
  no codes

Zebra unit
  module voltage 13.6 V
  C0800 stored
""",
        "Sunroof: clean; Zebra unit 13.6 V: C0800",
    ),
    (
        """\
ABS
  C0800 stored

Lane box
  Supply 11.4 V
  no response
""",
        "ABS: C0800; Lane box 11.4 V: silent",
    ),
    (
        """\
Antiblockiersystem
  C0800 gespeichert
Lenkzeug
  Modulspannung: 11,4 V
  antwortet nicht
""",
        "Antiblockiersystem: C0800; Lenkzeug 11.4 V: silent",
    ),
    (
        """\
ABS
  C0800 mémorisé
  Perte de communication

Module colonne
  Tension du module : 11,4 V
  pas de réponse
""",
        "ABS: C0800; Module colonne 11.4 V: silent",
    ),
    (
        """\
ABS
  C0800
Pantalla HUD
  Tensión 11,6 V
  B1000
""",
        "ABS: C0800; Pantalla HUD 11.6 V: B1000",
    ),
    (
        """\
Sunroof
no codes
Zebra unit
module voltage 13.6 V
C0800 stored
""",
        "Sunroof: clean; Zebra unit 13.6 V: C0800",
    ),
    (
        """\
ABS
Spannung am Modul 11,4 V
C0800
SRS
HW 04 SW 1103
11.2 V
B1000
EPS
unit voltage: 11.0 V
C0545
""",
        "ABS 11.4 V: C0800; SRS 11.2 V: B1000; EPS 11.0 V: C0545",
    ),
]


@pytest.mark.parametrize(("text", "read"), BELOW)
def test_a_voltage_below_a_name_leaves_it_its_codes(text: str, read: str) -> None:
    assert printed(text) == read


def test_what_was_noted_above_the_supply_of_the_vehicle_is_no_module() -> None:
    text = "Scan 1\nCustomer says slow crank\nBattery 11.2 V\nP0562 stored\nP0300 stored\n"
    assert printed(text) == "11.2 V; None: P0562 P0300"
