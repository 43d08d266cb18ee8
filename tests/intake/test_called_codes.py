"""Makers' own numbers that sentences call codes, and the status that is said of several so called. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of


@pytest.mark.parametrize(("text", "found"), [
    ("ABS: code 18493 (Valve open) and code 01036 (Supply low) both inactive.", ["18493 stored", "01036 stored"]),
    ("ABS has code TL0323 (bus timeout, drive) and code TL3232 (supply low) active.",
     ["TL0323 current", "TL3232 current"]),
    ("ABS hat Code 18012 (Zeit abgelaufen) und Code 00528 (Spule offen) nicht mehr vorhanden.",
     ["18012 stored", "00528 stored"]),
    ("ABS donne code E5DF8 (bobine coup\u00e9e), code A73FE (surcharge) et code A910C (tension basse) actif.",
     ["E5DF8 current", "A73FE current", "A910C current"]),
    ("ABS tiene c\u00f3digo A810B (bus parado) y c\u00f3digo D610E (bobina abierta) guardado.",
     ["A810B stored", "D610E stored"])])
def test_called_codes(text: str, found: list[str]) -> None:
    assert modules_of(f"{text} Radio has B1000 stored.\n") == {"anti-lock brakes": found, "radio": ["B1000 stored"]}


def test_a_code_of_another_kind() -> None:
    assert modules_of("ABS: U0100 (no data) and key code 20417 (spare key)\n") == {"anti-lock brakes": ["U0100"]}
