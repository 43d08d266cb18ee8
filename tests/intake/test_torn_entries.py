"""An entry whose line breaks off before the module, within a list of modules or behind a key. All invented."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import scans
from triage.intake.read import read_text

MODULES = " | ABS: C0035 stored; Radio: U0140 current"


@pytest.mark.parametrize(("lead", "stored", "active"), [
    ("set in:", "not active", "active"), ("logged by:", "historic", "present"), ("abgelegt in:", "inaktiv", "aktiv"),
    ("gemeldet von:", "sporadisch", "aktuell"), ("vu par :", "m\u00e9moris\u00e9", "pr\u00e9sent"),
    ("registrado en:", "pasivo", "activo"), ("visto por:", "memorizado", "presente"),
])
def test_the_module_below_what_leads_to_it(lead: str, stored: str, active: str) -> None:
    assert scans(f"C0035 Sensor - {lead}\nABS ({stored})\nU0140 Bus - {lead}\nRadio ({active})\n") == [MODULES]
    assert scans(f"C0035 Sensor - {lead} ABS ({stored})\nU0140 Bus - {lead}\n\nRadio ({active})\n") == [MODULES]


def test_what_begins_anew_below() -> None:
    assert scans("ABS: C0035 stored\nChecked in:\nRadio: U0140 active\n")[0].endswith(MODULES[1:])
    assert scans("ABS\n  C0035 stored in:\nRadio: no codes\n")[0].endswith("Radio: clean")


@pytest.mark.parametrize("mark", [" |", ";"])
def test_a_list_of_modules_that_goes_on(mark: str) -> None:
    text = (f"C0035{mark} ABS{mark} Sensor{mark} stored\nNo codes in: Radio{mark} Sunroof{mark}\nGateway{mark} "
            f"Seat heater\nNo answer from: Tacho\n")
    assert scans(text) == [
        " | ABS: C0035 stored; Radio: clean; Sunroof: clean; Gateway: clean; Seat heater: clean; Tacho: silent"]


@pytest.mark.parametrize("text", [
    "Unit: ABS, Code: C0035, Symptom byte:\n1C, Present: no, Text: sensor\nUnit: Radio, Code: U0140, Text:\n"
    "bus, Present: yes",
    "Modul: ABS, Code: C0035, Fehlerart: 1C, Text:\n  Sensor vorn, Vorhanden: nein\nCode: U0140, Modul: Radio, Text:\n"
    "  Bus, Vorhanden: ja",
    "Modul....: ABS\nCode 1....: C0035, Fehlerart....: 1C, Text....:\n  Sensor, Aktiv....: nein\nModul....: Radio\n"
    "Code 1....: U0140, Text....: Bus, Aktiv....: ja",
])
def test_the_value_below_its_key(text: str) -> None:
    assert scans(text) == [MODULES]
    abs_codes = read_text(text, load()).snapshots[0].modules[0].codes
    assert [code.failure_type for code in abs_codes] == ["1C"]
