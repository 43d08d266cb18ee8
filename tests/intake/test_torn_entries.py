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


@pytest.mark.parametrize("text", [
    "ABS has C0035 (stored); Radio has\nU0140 (active); no codes in Gateway,\nSunroof and Mirror; no answer\n"
    "from the Tacho.",
    "ABS has C0035 (stored); Radio has U0140 (active); Gateway,\nSunroof and Mirror are clean; no answer\nfrom the "
    "Tacho.",
    "ABS meldet C0035 (gespeichert); Radio meldet U0140 (aktiv); keine Fehler in Gateway,\nSunroof und Mirror; keine "
    "Antwort\nvon Tacho.",
    "ABS: C0035 (memorisé); Radio: U0140 (actif); aucun défaut dans Gateway,\nSunroof et Mirror; pas de réponse\n"
    "de Tacho.",
    "ABS: C0035 (memorizado); Radio: U0140 (activo); sin averías en Gateway,\nSunroof y Mirror; sin respuesta\n"
    "de Tacho.",
])
def test_a_list_in_a_sentence_that_goes_on(text: str) -> None:
    found = scans(text)[0]
    assert sorted(found.removeprefix(" | ").split("; ")) == [
        "ABS: C0035 stored", "Gateway: clean", "Mirror: clean", "Radio: U0140 current", "Sunroof: clean",
        "Tacho: silent"]


def test_names_that_begin_a_sentence_of_their_own() -> None:
    text = "ABS has C0035 (stored); Radio has U0140 (active); no codes in Gateway,\nTacho has B1318 (stored)."
    assert scans(text) == [
        " | ABS: C0035 stored; Radio: U0140 current; Gateway: clean; Tacho: B1318 stored"]


def test_items_of_a_list_with_blank_lines_between() -> None:
    text = ("Sent: 2024-05-09 08:55\n\nPresent now\n\n* Crane remote - P0670\n\n\nNo codes\n\n* Quux stabilizer\n\n"
            "* Radio\n\nDid not answer\n\n* Quuz horn\n\n* ABS\n")
    assert scans(text)[0].endswith("Quux stabilizer: clean; Radio: clean; Quuz horn: silent; ABS: silent")
