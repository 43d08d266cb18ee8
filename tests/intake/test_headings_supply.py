"""The voltage of a module between its name and its codes, beside the name, or below its answer.

All invented; wordings: common practice.
"""

from __future__ import annotations

import pytest
from reads import printed, scans

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


FORMS = [
    "{} ({} V): {}",
    "{} [{}V] - {}",
    "{} {} V: {}",
    "{} {} V {}",
    "{} @ {} V: {}",
    "{}, {} V: {}",
    "{}: {} V, {}",
    "{} - {} V - {}",
    "{} (supply {} V): {}",
    "{} (U={} V): {}",
    "{} ({} V) {}",
    "{} / {} V / {}",
    "{} (Spannung {} V): {}",
    "{} (tension {} V) : {}",
    "{} (voltaje {} V): {}",
]


@pytest.mark.parametrize("form", FORMS)
def test_a_voltage_behind_a_name_is_of_that_module(form: str) -> None:
    said = [
        ("Transmission", "11.6", "no codes"),
        ("ABS", "11.4", "C0800-16 stored, C0035-11 current"),
        ("Rear left door", "12.1", "U0100 Lost communication with ECM, stored"),
        ("Radio", "11.1", "no response"),
    ]
    text = "Scan 22/04/2024, battery 11.8 V\n" + "\n".join(form.format(*parts) for parts in said)
    assert printed(text) == (
        "11.8 V; Transmission 11.6 V: clean; ABS 11.4 V: C0800-16 C0035-11; Rear left door 12.1 V: U0100; "
        "Radio 11.1 V: silent"
    )


BESIDE = [
    ("Engine (11.7 V): P0562-16 stored\n", "Engine 11.7 V: P0562-16"),
    ("Zebra unit (11.4 V): C0800\nLane box (11.8 V): no codes\n", "Zebra unit 11.4 V: C0800; Lane box 11.8 V: clean"),
    ("Radio @ 11.1 V: silent\nZebra unit @ 11.4 V: C0800\n", "Radio 11.1 V: silent; Zebra unit 11.4 V: C0800"),
    (
        "ABS (11.4 V): C0800; ECM (11.8 V): P0562 stored; Radio (11.1 V): no answer\n",
        "ABS 11.4 V: C0800; ECM 11.8 V: P0562; Radio 11.1 V: silent",
    ),
    ("Airbag (11.2V), Radio (11.0V): no response\n", "Airbag 11.2 V: silent; Radio 11.0 V: silent"),
    ("Starter battery 12.4 V, P0562 in ECM, no codes in ABS\n", "12.4 V; ECM: P0562; ABS: clean"),
    ("BMS 12V: no codes\nABS 11.4 V: C0035\n", "BMS 12V: clean; ABS 11.4 V: C0035"),
    ("Scan 1 (11.2 V): ECM P0562, ABS no codes\n", "11.2 V; ECM: P0562; ABS: clean"),
    ("Engine running 14.2 V: no codes in ABS, P0562 in ECM\n", "14.2 V; ABS: clean; ECM: P0562"),
]


@pytest.mark.parametrize(("text", "read"), BESIDE)
def test_a_voltage_in_the_line_of_a_name(text: str, read: str) -> None:
    assert printed(text) == read


BELOW_AN_ANSWER = [
    (
        "Amplifier: OK\n  module voltage 11.3 V\nABS: no faults\n  module voltage 11.5 V\n",
        "Amplifier 11.3 V: clean; ABS 11.5 V: clean",
    ),
    ("Amplifier: OK\n  module voltage 11.3 V\nABS: no faults\n", "Amplifier 11.3 V: clean; ABS: clean"),
    (
        "Battery 12.0 V\nAmplifier: OK\n  supply 11.3 V\nABS: C0035 stored\n  supply 11.5 V\nRadio: silent\n  12.1 V\n",
        "12.0 V; Amplifier 11.3 V: clean; ABS 11.5 V: C0035; Radio 12.1 V: silent",
    ),
    (
        "ABS keine Fehler\nSpannung 11,5 V\nRadio antwortet nicht\nSpannung 11,1 V\nDach C0035\nSpannung 11,2 V\n",
        "ABS 11.5 V: clean; Radio 11.1 V: silent; Dach 11.2 V: C0035",
    ),
    ("ABS: OK\nRadio: OK\n  Battery 12.3 V\n", "12.3 V; ABS: clean; Radio: clean"),
    ("ABS, Radio: OK\n  module voltage 12.3 V\n", "12.3 V; ABS: clean; Radio: clean"),
]


@pytest.mark.parametrize(("text", "read"), BELOW_AN_ANSWER)
def test_a_voltage_below_an_answer(text: str, read: str) -> None:
    assert printed(text) == read


def test_a_voltage_above_a_marked_heading_is_of_the_scan_before_it() -> None:
    for mark in ("## After clear", "=== After clear ===", "[After clear]"):
        text = f"### Before clear\n\nABS: C0035\n\n*Battery: 10,90 V*\n{mark}\n\nABS: no codes\n"
        assert scans(text) == ["before-clear 10.9 V | ABS: C0035", "after-clear | ABS: clean"]


def test_the_supply_below_a_list_of_modules_is_that_of_all() -> None:
    assert printed("ABS: C0035\nECM: no codes\nmodule supply 12.4 V") == "12.4 V; ABS: C0035; ECM: clean"
    assert printed("ABS: C0035\nmodule supply 12.4 V") == "ABS 12.4 V: C0035"


def test_a_comma_parts_a_terminal_from_its_voltage() -> None:
    assert printed("KL30,9.1 V\nUnit,Fault code\nABS,C0035\n") == "9.1 V; ABS: C0035"
