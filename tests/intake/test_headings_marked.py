"""Texts whose headings all have a number, an address or a count: the rest of a wrapped description, which may be the
name of a module, heads nothing there."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

_READ = [
    # Numbered.
    ("1. Radio\nB1325 stored\n2. Side radar left\nU0010 - stored - Medium speed\nCAN communication bus\n"
     "C110A - active - Pump voltage\ntoo low\n3. Side radar right\nU0121 - active - Lost contact with\nABS\n"
     "U0140 - stored - Lost contact with\nbody control",
     {"radio": ["B1325 stored"], "side obstacle, left": ["U0010 stored", "C110A current"],
      "side obstacle, right": ["U0121 current", "U0140 stored"]}),
    # An address behind the name.
    ("Bremsen (0A)\nB1325 gespeichert Versorgung\ndes Geräts zu niedrig\nInstrumente (88)\n"
     "U0415 gespeichert Unplausible\nDaten vom ABS Häufigkeit 4\nP0560 aktiv Bordnetzspannung\nfehlerhaft\n"
     "Radio (56)\nU0100 aktiv Keine Kommunikation mit\nMotorsteuergerät",
     {"anti-lock brakes": ["B1325 stored"], "instrument cluster": ["U0415 stored", "P0560 current"],
      "radio": ["U0100 current"]}),
    ("Freins (0A)\nU0131 actif Perte de contact avec\ndirection\nU0140 actif Perte de contact avec\nl'habitacle\n"
     "Radio (88)\nU0415 actif Données du\nABS\nP0560 actif Tension\nAirbag (12)\nU0100 actif Perte du\nmoteur",
     {"anti-lock brakes": ["U0131 current", "U0140 current"], "radio": ["U0415 current", "P0560 current"],
      "restraints": ["U0100 current"]}),
    # A heading is one, whatever description was open above it.
    ("hub (06)\nU0212 [64]  Lost communication with\nsteering column [in\nmemory]  count 2\n"
     "eps (03)\nU0184 [1C]  Lost contact with radio\n[active]  count 40\nabs (04)   no codes",
     {"hub": ["U0212-64 stored"], "power steering": ["U0184-1C current"], "anti-lock brakes": ["clean"]}),
    # The number of its codes.
    ("Sunroof - 2 faults\nU0131 active Lost contact with steering\ncolumn\nU0140 active Supply too low\n"
     "Wipers - 1 fault\nU0155 active Lost contact with\ncluster\nRadio - 1 fault\nU0100 active Lost contact",
     {"radio": ["U0100 current"], "sunroof": ["U0131 current", "U0140 current"], "wiper": ["U0155 current"]}),
    # One heading more without a mark, behind a gap: not all have one.
    ("Bremsen (0A)\nB1325 aktiv\nInstrumente (88)\nU0415 aktiv\nRadio (56)\nU0100 aktiv\n\nMotor\nP0560 aktiv",
     {"anti-lock brakes": ["B1325 current"], "instrument cluster": ["U0415 current"], "radio": ["U0100 current"],
      "engine control": ["P0560 current"]}),
    # Two marked headings tell nothing of the others.
    ("ABS (0A)\nC0035 active\nEPS (12)\nU0415 active\nRadio\nU0100 active",
     {"anti-lock brakes": ["C0035 current"], "power steering": ["U0415 current"], "radio": ["U0100 current"]}),
]


@pytest.mark.parametrize(("text", "held"), _READ)
def test_wrapped_below_marked_headings(text: str, held: dict[str, list[str]]) -> None:
    assert modules_of(text) == held


def test_answer_within_a_description() -> None:
    """Names and answers in a wrapped description tell of no module."""
    text = ("1 Schalter\nU0401 [aktiv] - Daten vom Motor\n2 Bremsen\nU1F4C [aktiv] - LIN-Teilnehmer\n"
            "Batteriesensor Timeout\n3 Radio - Meldet sich nicht\n4 Airbag\nU0100 [aktiv] - Daten vom Motor fehlen")
    read = modules_of(text)
    assert "battery monitor" not in read
    assert read["radio"] == ["silent"]
