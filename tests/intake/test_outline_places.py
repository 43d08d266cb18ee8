"""Outlines whose lines bear their place: numbers of several levels, letters and Roman numbers below numbers."""

from __future__ import annotations

import pytest
from reads import modules_of

TEXTS: list[tuple[str, dict[str, list[str]]]] = [
    (
        "1  air suspension\n  1.1  no trouble codes\n2  transfer case\n  2.1  P0335 crank sensor\n"
        "    2.1.1  Status: active\n3  front radar\n  3.1  no answer",
        {"suspension": ["clean"], "transfer case": ["P0335 current"], "front distance sensor": ["silent"]},
    ),
    (
        # No line is set in.
        "1 Body bus\n1.1 ABS\n1.1.1 C0035 sensor (stored)\n1.1.2 04907 no basic setting (active)\n1.2 Radio\n"
        "1.2.1 0 codes\n12.1 V at rest",
        {"anti-lock brakes": ["C0035 stored", "04907 current"], "radio": ["clean"]},
    ),
    (
        "2. Réseau habitacle\n   a) radio\n      (i) U0073 bus A arrêté\n         - État: mémorisé\n"
        "      (ii) 04907 réglage de base absent\n         - État: non confirmé\n   b) airbag: aucun défaut",
        {"radio": ["U0073 stored", "04907 pending"], "restraints": ["clean"]},
    ),
    (
        "7) Motorsteuergerät\n  a) P0562 Spannung (gespeichert)\n  b) P0563 Spannung (aktiv)\n8) Klimaanlage\n"
        "  a) keine Fehler",
        {"engine control": ["P0562 stored", "P0563 current"], "climate control": ["clean"]},
    ),
    (
        # Sections without anything below them stand between the others.
        "1. Lift gadget\n  1.1 C0035 low\n2. Radio\n  no faults\n3. Seat gadget\n  3.1 U0100 lost\n  3.2 U0121 lost\n"
        "4. Airbag\n  no answer",
        {"Lift gadget": ["C0035"], "radio": ["clean"], "Seat gadget": ["U0100", "U0121"], "restraints": ["silent"]},
    ),
]


@pytest.mark.parametrize(("text", "modules"), TEXTS)
def test_places(text: str, modules: dict[str, list[str]]) -> None:
    assert modules_of(text) == modules


def test_heads_of_lists_by_status() -> None:
    text = ("Failing now [1] ---\n  gateway: C0035 [54] wheel sensor\n\nConfirmed faults [1] ---\n"
            "  radio: U3006 [08] feed\n\nNot confirmed yet [1] ---\n  ABS: U0131 [87] lost steering\n\n"
            "Nicht aktive Fehler [1] ---\n  ABS: C0040 [11] pump")
    assert modules_of(text) == {"gateway": ["C0035-54 current"], "radio": ["U3006-08 confirmed"],
                                "anti-lock brakes": ["U0131-87 pending", "C0040-11 stored"]}
