"""Totals that count the codes and the modules that hold them, and notes below the key of a module. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

SCAN = "Engine\n  P0562 stored\nABS\n  no codes"
READ = {"engine control": ["P0562 stored"], "anti-lock brakes": ["clean"]}


@pytest.mark.parametrize(
    "line",
    [
        "21 modules scanned, 8 faults in 4 of them",
        "21 Steuergeräte gelesen, 8 Fehler in 4 davon",
        "21 calculateurs lus, 8 défauts dans 4 d'entre eux",
        "21 unidades leídas, 8 averías en 4 de ellas",
        "Units: 21, with faults: 4, faults\n  total: 8",
        "Steuergeräte: 21, mit Fehlern: 4, Fehler\n  gesamt: 8",
        "Calculateurs : 21, avec défauts : 4, défauts au\n  total : 8",
        "Unidades: 21, con averías: 4, averías en\n  total: 8",
    ],
)
@pytest.mark.parametrize("above", [True, False])
def test_what_counts_the_codes_of_several_modules_names_none(line: str, above: bool) -> None:
    assert modules_of(f"{line}\n\n{SCAN}" if above else f"{SCAN}\n\n{line}") == READ


def test_a_name_below_a_count_is_still_one() -> None:
    assert modules_of("Units: 21, with faults: 4, faults\nABS: no codes\n")["anti-lock brakes"] == ["clean"]


@pytest.mark.parametrize("key", ["Address: SA 11", "Adresse: SA 0x0B", "Dirección: SA 11", "Adr.: src 11"])
def test_a_source_address_below_the_key_of_a_module_is_none(key: str) -> None:
    text = f"Module: Radio\n{key}\nDTC: B1031\n\nModule: ABS\nDTC: C0035\n"
    assert modules_of(text) == {"radio": ["B1031"], "anti-lock brakes": ["C0035"]}


@pytest.mark.parametrize(
    ("module", "code", "note"),
    [
        ("Unit", "DTC", "fuse F31 20A looked at"),
        ("Module", "Code", "van parked behind the hall"),
        ("Steuergerät", "Fehlercode", "Sicherung F31 20A geprüft"),
        ("Calculateur", "Défaut", "fusible F31 20A vérifié"),
        ("Unidad", "Código", "fusible F31 20A comprobado"),
    ],
)
def test_a_note_between_the_key_of_a_module_and_its_codes_names_none(module: str, code: str, note: str) -> None:
    text = f"{module}: Radio\n  {code}: B1031\n\n{module}: ABS\n{note}\n  {code}: C0035\n  {code}: C0040\n"
    assert modules_of(text) == {"radio": ["B1031"], "anti-lock brakes": ["C0035", "C0040"]}


def test_an_unlisted_name_below_the_codes_of_a_key_is_one() -> None:
    text = "Module: Radio\nCode: B1031\n\nGrain tank\nno answer\n"
    assert modules_of(text) == {"radio": ["B1031"], "grain tank": ["silent"]}


@pytest.mark.parametrize("marks", ["[]", "()", "<>"])
def test_an_address_within_the_brackets_of_a_name_is_left_out(marks: str) -> None:
    first, last = marks
    text = "".join(f"{first}{name} {first}0x7{at}1{last}{last} (1): {code} (stored)\n"
                   for at, (name, code) in enumerate(
        (("Control de nivel", "C1A10"), ("Body control", "U0121"))))
    assert modules_of(text) == {"suspension": ["C1A10 stored"], "body control": ["U0121 stored"]}


@pytest.mark.parametrize("link", ["plus", "sowie", "ademas"])
def test_a_word_that_adds_codes_is_no_name(link: str) -> None:
    text = (f"In the gateway I get U0151 stored; in the radio I get U0401 active now.\n"
            f"The park brake shows C1234 stored, {link} C1305 active, {link} U3006 stored.\n"
            f"The cluster shows U0001 active, {link} U0199 stored.\n")
    assert modules_of(text) == {
        "gateway": ["U0151 stored"], "radio": ["U0401 current"],
        "park brake": ["C1234 stored", "C1305 current", "U3006 stored"],
        "instrument cluster": ["U0001 current", "U0199 stored"]}
