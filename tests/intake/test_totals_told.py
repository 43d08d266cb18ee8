"""Lines that count the modules of a scan: no label in them names one. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, told

SCAN = "Engine\n  P0562 stored\nABS\n  no codes"
READ = {"engine control": ["P0562 stored"], "anti-lock brakes": ["clean"]}


@pytest.mark.parametrize(
    "line",
    [
        "Control units: 20   Codes: 15   No answer: 3",
        "Modules: 14   DTCs: 9   Silent: 2",
        "Modules scanned 14, with faults 5, not responding 2",
        "Total 14 | OK 9 | fault 3 | no response 2",
        "14 modules, 9 codes, 2 silent",
        "Responding: 12 Not responding: 2 Codes: 7",
        "Result: 14 modules scanned, 9 OK, 3 with faults, 2 no response",
        "12/14 modules answered, 9 codes",
        "Silent modules: 2\nDTCs: 9",
        "Modules scanned: 14\nModules with faults: 3\nModules OK: 9\nNot responding: 2",
        "Steuergeräte: 12, Fehler: 4, keine Antwort: 1",
        "Module: 14   Fehler: 9   Keine Antwort: 2",
        "Gesamt 12 / i.O. 8 / Fehler 3 / keine Antwort 1",
        "Calculateurs 12 - sans défaut 8 - avec défaut 3 - muets 1",
        "Calculateurs interrogés : 14, défauts : 9, sans réponse : 2",
        "Centralitas: 12; averías: 4; sin respuesta: 1",
        "Unidades: 14   Averías: 9   Sin respuesta: 2",
    ],
)
@pytest.mark.parametrize("place", ["above", "below", "apart"])
def test_counts_of_all_modules_name_none(line: str, place: str) -> None:
    text = {"above": f"{line}\n{SCAN}", "below": f"{SCAN}\n{line}", "apart": f"{SCAN}\n\n{line}"}[place]
    assert modules_of(text) == READ


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # Heading, supply and codes beside such counts are read as ever.
        ("After clear: 14 modules, 9 codes, 2 silent\nECM: P0562", "after-clear | engine control: P0562"),
        ("14 modules scanned, 9 codes, 2 silent, battery 11.9 V\nECM: P0562", "11.9 V | engine control: P0562"),
        ("Module | Code | Status\nECM | P0562 | stored\nABS | C0035 | stored\nTotal | 2 |",
         " | engine control: P0562 stored; anti-lock brakes: C0035 stored"),
        # A module's own counts.
        ("ECM: 2\nP0562\nP0563\nTCM: 0\nABS: 1\nC0035",
         " | engine control: P0562, P0563; transmission control: clean; anti-lock brakes: C0035"),
        ("After clear\nAll 14 modules: no codes", "after-clear | "),
        # Counted, and named.
        ("Engine: P0562 stored\nModules: 14 Codes: 9 Silent: 2 (ABS, Radio)",
         " | engine control: P0562 stored; anti-lock brakes: silent; radio: silent"),
        ("Engine: P0562 stored\n14 modules scanned, 2 not responding: ABS, Radio",
         " | engine control: P0562 stored; anti-lock brakes: silent; radio: silent"),
        ("Engine: P0562 stored\n\n2 modules did not respond:\nABS\nRadio",
         " | engine control: P0562 stored; anti-lock brakes: silent; radio: silent"),
        ("Motor: P0562 gespeichert\nKeine Antwort: 2\n- ABS\n- Radio",
         " | engine control: P0562 stored; anti-lock brakes: silent; radio: silent"),
        # A name that heads an answer further right ends the list above it.
        ("Engine\n  P0562 stored\nNo response: 2\n- ABS\n- Radio\nBody\n  no codes",
         " | engine control: P0562 stored; anti-lock brakes: silent; radio: silent; body control: clean"),
    ],
)
def test_what_stands_beside_the_counts(text: str, expected: str) -> None:
    assert told(text) == expected


@pytest.mark.parametrize("total", ["Total: 0 DTC", "Total: 0 faults / 7", "Summe: 0 Fehler / 6", "Total : 0 défaut(s)"])
def test_a_sum_of_no_codes_is_no_module_without_any(total: str) -> None:
    assert told(f"ECM - fault memory empty\nABS - no response\n{total}") == (
        " | engine control: clean; anti-lock brakes: silent")
    assert told(f"ECM: clean\n{total}\n") == " | engine control: clean"
