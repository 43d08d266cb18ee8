"""Makers' own numbers one after the other, each with its description in brackets; and other mends of single lines. All
invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of


@pytest.mark.parametrize("said", [
    "Telematics box came back with E3-717 (Signal out of range), E5-670 (Supply too low) and E4-520 (Bus error value).",
    "Found E3-717 (Signal out of range), E5-670 (Supply too low) and E4-520 (Bus error value) in the telematics box.",
    "In der Telematik gefunden E3-717 (Signal fehlt), E5-670 (Versorgung zu tief) und E4-520 (Leitungsunterbrechung).",
    "Telematics: E3-717 (Signal out of range), E5-670 (Supply too low), E4-520 (Bus error value)",
])
def test_a_verb_or_a_colon_before_numbers_in_a_row(said: str) -> None:
    found = modules_of(f"Hello,\nABS has U0100\n{said}\n")
    assert found["telematics"] == ["E3-717", "E5-670", "E4-520"]


def test_one_number_behind_a_verb_is_no_code() -> None:
    text = "ABS has U0100\nFound E3-717 (aerial behind dash) in the boot\n"
    assert modules_of(text) == {"anti-lock brakes": ["U0100"]}


def test_a_compound_for_a_description() -> None:
    text = "ABS: U0100\nSpannungswandler hat 01932 (Leitungsunterbrechung) und 03374 (Plausibilitätsfehler)\n"
    assert modules_of(text)["DC/DC converter"] == ["01932", "03374"]


@pytest.mark.parametrize("cells", ["{} | {} | @ {} | {}", "- {} | {} | {} | {}"])
def test_letters_of_a_key_in_the_last_cell(cells: str) -> None:
    rows = [cells.format("P0562 16", "Low supply", "Engine", "E"), cells.format("C0035", "Wheel left", "ABS", "P")]
    assert modules_of("\n".join([*rows, "", "Key: P = present; E = sporadic", ""])) == {
        "engine control": ["P0562-16 stored"], "anti-lock brakes": ["C0035 current"]}


@pytest.mark.parametrize("bullet", ["- ", "* ", "3) ", ""])
def test_a_sign_for_at_behind_descriptions(bullet: str) -> None:
    text = (f"{bullet}P0562  Terminal 30 input A  @ Engine  inactive\n"
            f"{bullet}C0035  Wheel sensor front left  @ ABS  active\n"
            f"{bullet}B1000  Radio module inside fault  @ Kestrel mast  inactive\n")
    assert modules_of(text) == {"engine control": ["P0562 stored"], "anti-lock brakes": ["C0035 current"],
                                "Kestrel mast": ["B1000 stored"]}


@pytest.mark.parametrize(("key", "now", "then", "pending"), [
    ("status", "ACTIVE", "STORED", "NOT CONFIRMED"), ("Zustand", "aktiv", "gespeichert", "nicht bestätigt"),
    ("état", "ACTIF", "MÉMORISÉ", "NON CONFIRMÉ"), ("estado", "ACTIVO", "ALMACENADO", "SIN CONFIRMAR")])
def test_a_key_for_the_status_before_the_words(key: str, now: str, then: str, pending: str) -> None:
    text = f"ABS\n  C0035: {key}: {now} Sensor 1\n  C0040: {key}: {then} Sensor 2\n  U0100: {key}: {pending} Bus\n"
    assert modules_of(text) == {"anti-lock brakes": ["C0035 current", "C0040 stored", "U0100 pending"]}


@pytest.mark.parametrize("heads", [
    ("Present faults", "PENDING", "Inactive faults"), ("Aktuelle Fehler", "Ausstehend", "Passiv"),
    ("Défauts présents", "EN ATTENTE", "Défauts mémorisés"), ("Presentes", "Pendiente", "Almacenado")])
def test_a_status_over_the_head_of_a_table(heads: tuple[str, str, str]) -> None:
    head = "ECU | ADDR | DTC | DESCRIPTION\n"
    text = (f"{heads[0]}\n{head}ABS | $72 | C0035 (12) | wheel\n\n{heads[1]}\n{head}Radio | $74 | B1000 (16) | set\n\n"
            f"{heads[2]}\n{head}Airbag | $7C | B0028 (18) | stage\n")
    assert modules_of(text) == {"anti-lock brakes": ["C0035-12 current"], "radio": ["B1000-16 pending"],
                                "restraints": ["B0028-18 stored"]}


@pytest.mark.parametrize(
    "line", ["No answer ..... : ABS, Radio", "No answer:\tABS, Radio", "Sin respuesta ...: ABS, Radio"])
def test_dots_or_a_tab_beside_a_colon(line: str) -> None:
    assert modules_of(f"Engine: P0562\n{line}\n") == {
        "engine control": ["P0562"], "anti-lock brakes": ["silent"], "radio": ["silent"]}
