"""Scans that dates head in running text, and lists of modules that full stops or semicolons part.

What each text should read as is how a technician reads it; no standard says so.
"""

from __future__ import annotations

import pytest

from tests.intake.reads import printed, scans


@pytest.mark.parametrize("text", [
    "2024-03-08 scan:ABS has C0035. Radio has U0100.\n2024-03-09 scan:ABS is clean. Radio is silent.",
    "08.03.2024 - ABS C0035, Radio U0100\n09.03.2024 - ABS i.O.\nRadio keine Antwort",
    "08/03/2024 : ABS a C0035. Radio a U0100.\n09/03/2024 : ABS sans défaut\nRadio muet",
    "08.03.2024: ABS tiene C0035. Radio tiene U0100.\n09.03.2024: ABS limpio\nRadio no contesta",
])
def test_a_date_each(text: str) -> None:
    assert scans(text) == [" | ABS: C0035; Radio: U0100", " | ABS: clean; Radio: silent"]


def test_no_log_is_parted() -> None:
    log = "08.03.2024: ABS C0035\n09.03.2024: Radio U0100\n10.03.2024: Airbag B0028"
    assert len(scans(log)) == 1


@pytest.mark.parametrize("text", [
    "Seat U1000 = stored; Steering U0401 = pending; Radio no codes; KL30 9.4 V.",
    "Seat U1000. Steering U0401. Radio no codes. 9.4 V key on.",
    "Sitz U1000; Lenkung U0401; Radio ohne Fehler; Kl. 30 9,4 V",
    "Siège U1000; Direction U0401; Radio sans défaut; batterie 9,4 V",
    "Asiento U1000; Dirección U0401; Radio sin códigos; batería 9,4 V",
])
def test_the_supply_among_modules(text: str) -> None:
    told = printed(text)
    assert told.startswith("9.4 V; ")
    assert [part.split(": ")[1] for part in told.split("; ")[1:]] == ["U1000", "U0401", "clean"]


def test_the_list_of_an_answer_among_modules() -> None:
    told = printed("ABS C0035. Seat U1000. SCCM P0562. No codes: Radio / Airbag. No answer: Gateway.")
    assert told == "ABS: C0035; Seat: U1000; SCCM: P0562; Radio: clean; Airbag: clean; Gateway: silent"


def test_a_run_told_in_brackets_leads_its_scan() -> None:
    assert scans("After run (9 km): Front camera U0415 stored. Seat heater 1 U0155. No codes: ABS / Radio.") == [
        "after-run | Front camera: U0415 stored; Seat heater 1: U0155; ABS: clean; Radio: clean"]


@pytest.mark.parametrize(("lead", "no_answer"), [
    ("pre-scan // ", "no comms"), ("vor Löschen: ", "keine Antwort"), ("avant effacement // ", "pas de réponse"),
    ("antes de borrar: ", "no responde"),
])
def test_strokes_part_modules_behind_the_scan(lead: str, no_answer: str) -> None:
    told = printed(f"{lead}ABS = C0035 + C0040 // Winch ctrl = U0121 // Gateway = ok // Radio = {no_answer} // 11.8 V")
    assert told == "11.8 V; ABS: C0035 C0040; Winch ctrl: U0121; Gateway: clean; Radio: silent"
