"""Keys in any order, dittos, counts before codes, and lists of units of which a sentence says that they are clean."""

from __future__ import annotations

import pytest

from tests.intake.reads import scans


@pytest.mark.parametrize(("text", "expected"), [
    ("Text: Lost contact with radio\nCode: U0184-16\nUnit: Cluster\nText: Supply voltage\nCode: P0562\nUnit: Engine\n"
     "Result: no response\nUnit: ABS", " | Cluster: U0184; Engine: P0562; ABS: silent"),
    ("State = active\nECU = ABS\nCode = C0035\n---\nState = stored\nECU = ABS\nCode = C0040\n---\nState = stored\n"
     "ECU = Radio\nCode = U0184", " | ABS: C0035 current C0040 stored; Radio: U0184 stored"),
    ("SPN: 168\nFMI: 4\nState: active\nController: Engine\n\nSPN: 639\nFMI: 12\nState: inactive\nController: Gearbox",
     " | Engine: SPN 168 FMI 4 current; Gearbox: SPN 639 FMI 12 stored"),
    ("Status: aktiv\nCode: C0035\nText: Keine Botschaft vom\n      Radio\nSteuergerät: ABS\n\nErgebnis: keine Fehler\n"
     "Steuergerät: Klima", " | ABS: C0035 current; Klima: clean"),
    ("Module: ABS\nStatus: stored\nCode: C0035\n\nModule: Engine\nResult: no codes",
     " | ABS: C0035 stored; Engine: clean"),
])
def test_keys_in_any_order(text: str, expected: str) -> None:
    assert scans(text) == [expected]


@pytest.mark.parametrize("text", [
    'ECU;DTC;State\nABS;C0035;stored\n";C0040;"\nTCM;P0700;active\n";U0100;"',
    "Module          Code     Status\nABS             C0035    stored\n  do.           C0040      do.\n"
    "TCM             P0700    active\n  do.           U0100      do.",
    "ABS - C0035 - stored\n \" - C0040 - \"\nTCM - P0700 - active\n \" - U0100 - \"",
    "| ABS | C0035 | stored |\n|  \u3003  | C0040 |   \u3003   |\n"
    "| TCM | P0700 | active |\n|  \u3003  | U0100 |   \u3003   |",
])
def test_dittos(text: str) -> None:
    assert scans(text) == [" | ABS: C0035 stored C0040 stored; TCM: P0700 current U0100 current"]


def test_an_empty_cell_in_quotation_marks_is_no_ditto() -> None:
    text = '"Unit","Code","State"\n"ABS","C0035","stored"\n"ABS","C0040",""\n"TCM","P0700","active"'
    assert scans(text) == [" | ABS: C0035 stored C0040; TCM: P0700 current"]


def test_counts_before_codes() -> None:
    text = "ABS\n01  95x  C0035  Wheel (stored)\n02  7x  C0040  Wheel (active)\nTCM\n1) 12 x P0700  Gearbox (stored)"
    assert scans(text) == [
        " | ABS: C0035 stored C0040 current; TCM: P0700 stored"]


@pytest.mark.parametrize(("text", "expected"), [
    ("Modules scanned: ABS, TCM, Radio, EPS\n\nABS C0035 active\nThe others are clean.",
     " | ABS: C0035 current; TCM: clean; Radio: clean; EPS: clean"),
    ("Abgefragt: Motor, Getriebe, Bremse, Airbag.\nAlle ohne Fehler, ausgenommen:\nBremse: C0035\n"
     "Airbag: keine Antwort",
     " | Motor: clean; Getriebe: clean; Bremse: C0035; Airbag: silent"),
    ("Units on this vehicle:\n1. ABS\n2. TCM\n3. Radio\n\nEverything clean except for the following units\nABS: C0035",
     " | TCM: clean; Radio: clean; ABS: C0035"),
    ("Read: ABS, TCM, Radio, EPS\n\nNo faults except ABS (C0035, stored) and EPS (no answer).",
     " | TCM: clean; Radio: clean; ABS: C0035 stored; EPS: silent"),
    ("Fitted: ABS, TCM, Radio\nNot fitted: Airbag\n\nABS: C0035\nTCM: no answer\nRemaining units: no codes",
     " | ABS: C0035; TCM: silent; Radio: clean"),
])
def test_units_that_are_clean_but_some(text: str, expected: str) -> None:
    assert scans(text) == [expected]
