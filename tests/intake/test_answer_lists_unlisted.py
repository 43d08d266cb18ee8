"""Lists of modules that gave one answer, with names that no table holds, that sound like something else, or that words
for answers stand in; and labels that say such an answer twice."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of
from triage.intake.read import read_text

_LISTS = [
    ("No codes: hopper lift; I/O module 3; IPC", {"hopper lift", "I/O module 3", "instrument cluster"}),
    ("No codes: voltage stabiliser, body tilt, body tilt pump", {"voltage stabiliser", "body tilt", "body tilt pump"}),
    ("Ohne Fehler: Kippantrieb, E/A-Modul 2, Pritsche", {"Kippantrieb", "E/A-Modul 2", "Pritsche"}),
    ("Aucun défaut : stabilisateur de tension, treuil avant, module E/S 2",
     {"stabilisateur de tension", "treuil avant", "module E/S 2"}),
    ("Sin averías: estabilizador de tensión, cabrestante alto, módulo E/S 2",
     {"estabilizador de tensión", "cabrestante alto", "módulo E/S 2"}),
    ("No codes: radio, ABS, 230 V inverter", {"radio", "anti-lock brakes", "DC/AC converter A"}),
    ("Sans défaut : convertisseur 230 V, ABS", {"convertisseur 230 V", "anti-lock brakes"}),
    ("Passed, no codes: Passive entry", {"keyless entry"}),
    ("Passive entry: no codes", {"keyless entry"}),
    ("Generator (LIN): OK\nABS: OK", {"generator", "anti-lock brakes"}),
    ("Clean:\n    Phone holder\n    ABS\n    Body tilt\n", {"Phone holder", "anti-lock brakes", "Body tilt"}),
]


@pytest.mark.parametrize(("text", "clean"), _LISTS)
def test_clean_lists(text: str, clean: set[str]) -> None:
    assert modules_of(text) == {name: ["clean"] for name in clean}


@pytest.mark.parametrize(("text", "silent"), [
    ("No communication with: A/C; Axle end node rear; Axle end node front\nABS: U0100",
     {"air conditioning", "Axle end node rear", "Axle end node front"}),
    ("Keine Antwort: Spannungswandler, Wechselrichter 230 V, Kippantrieb\nABS: U0100",
     {"DC/DC converter", "Wechselrichter 230 V", "Kippantrieb"}),
    ("ECU did not respond:\n    Trailer\n    Radio\nABS: U0100", {"trailer", "radio"}),
    ("Did not answer:\n  - Phone holder\n  - Body tilt\nABS: U0100", {"Phone holder", "Body tilt"}),
    ("radio (0x45) - NO RESPONSE (TIMEOUT)\nABS: U0100", {"radio"}),
    ("Radio (45) - keine Antwort (Timeout)\nABS: U0100", {"radio"}),
    # What was found where there was no answer is no name.
    ("No answer: cable loose, plug corroded\nABS: U0100", set()),
    ("No response: customer rang, fuse looked at\nABS: U0100", set()),
    ("No response:\n  - phone the owner\nABS: U0100", set()),
    # Broken off, or not fitted, is no silence.
    ("Radio (65)   Abfrage abgebrochen\nABS: U0100", set()),
    ("Radio [13] -> lecture interrompue\nABS: U0100", set()),
    ("N/F (not fitted):\n  Radio\nABS: U0100", set()),
])
def test_silent_lists(text: str, silent: set[str]) -> None:
    read = modules_of(text)
    assert {name for name, held in read.items() if held == ["silent"]} == silent
    assert read["anti-lock brakes"] == ["U0100"]
    assert len(read) == len(silent) + 1


@pytest.mark.parametrize(("text", "held"), [
    ("No communication:\n- gateway\n- radio\nAFTER CLEAR - 2021-01-17 12:11\nABS\nU0164 active", ["U0164 current"]),
    ("Keine Antwort:\n- Gateway\n- Radio\nNach Löschen\nABS\nU0164 gespeichert", ["U0164 stored"]),
    ("Pas de réponse :\n- Passerelle\n- Radio\nAprès effacement\nABS\nU0164 mémorisé", ["U0164 stored"]),
    ("Sin respuesta:\n- Pasarela\n- Radio\nDespués de borrar\nABS\nU0164 guardado", ["U0164 stored"]),
])
def test_the_heading_of_the_next_scan_ends_a_list(text: str, held: list[str]) -> None:
    first, second = read_text(text, load()).snapshots
    assert [module.responds for module in first.modules] == [False, False]
    assert second.phase == "after-clear"
    assert [f"{code.code} {code.status}" for module in second.modules for code in module.codes] == held
