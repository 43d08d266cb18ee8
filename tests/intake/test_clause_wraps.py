"""Clauses of names, codes and statuses that were broken at a width or behind a mark, and letters before codes.

What each text should read as is how a technician reads it; no standard says so.
"""

from __future__ import annotations

import pytest

from tests.intake.reads import scans

PHRASES = {
    "en": ("before clearing: ABS = C0035 (stored);\nRadio = U0100 (active); Fan module =\n"
           "U0101 (pending); No codes: Airbag,\n"
           "Gateway; No answer: Sunroof."),
    "de": ("vor Löschen: ABS = C0035 (gespeichert);\nRadio = U0100 (aktiv); Lüfter =\n"
           "U0101 (ausstehend); Ohne Fehler: Airbag,\n"
           "Gateway; Keine Antwort: Schiebedach."),
    "fr": ("avant effacement: ABS = C0035 (mémorisé);\nRadio = U0100 (actif); Climatisation =\n"
           "U0101 (en attente); Sans défaut: Airbag,\n"
           "Gateway; Pas de réponse: Toit ouvrant."),
    "es": ("antes de borrar: ABS = C0035 (memorizado);\nRadio = U0100 (activo); Ventilador =\n"
           "U0101 (pendiente); Sin fallos: Airbag,\n"
           "Gateway; No responde: Techo solar."),
}


@pytest.mark.parametrize("language", PHRASES)
def test_a_paragraph_reads_as_its_lines_put_together(language: str) -> None:
    told = PHRASES[language]
    broken = told.replace("ABS = ", "ABS\n= ")
    assert scans(broken) == scans(told.replace("\n", " "))
    assert "ABS: C0035 stored; " in scans(broken)[0]


def test_short_lines_among_such_as_end_with_full_stops() -> None:
    text = ("after clear: ABS > C0035 /\nstored.\nFan\nmodule > no codes.\nRadio > U0100 / active.\nGateway\n> ok.\n"
            "Lowest:\n7.2 V.\nAirbag > no\nanswer.")
    assert scans(text) == [
        "after-clear 7.2 V | ABS: C0035 stored; Fan module: clean; Radio: U0100 current; Gateway: clean; "
        "Airbag: silent"]


@pytest.mark.parametrize("text", [
    "> ABS\n  C0035 (stored)\n> Radio\n  U0100 (active)\n> Gateway\n  no codes",
    "[ABS]\n  C0035\n[Radio]\n  U0100\n[Gateway]\n  no codes",
    "[stored]\nABS C0035\n[active]\nRadio U0100\nGateway: no codes",
])
def test_no_list_is_glued(text: str) -> None:
    (scan,) = scans(text)
    assert [part.split(":")[0] for part in scan.split("| ")[1].split("; ")] == ["ABS", "Radio", "Gateway"]


@pytest.mark.parametrize("text", [
    "(S = stored, A = active, P = pending)\nABS > [S] C0035 & [P] C0040\nRadio > [A] U0100",
    "(G = gespeichert, A = aktiv, P = ausstehend)\nABS > [G] C0035 & [P] C0040\nRadio > [A] U0100",
    "(M = mémorisé, A = actif, P = en attente)\nABS > [M] C0035 & [P] C0040\nRadio > [A] U0100",
    "(S = stored, A = active, P = pending)\nABS > C0035 [S] & C0040 [P]\nRadio > U0100 [A]",
])
def test_letters_before_and_behind_codes(text: str) -> None:
    assert scans(text) == [" | ABS: C0035 stored C0040 pending; Radio: U0100 current"]
