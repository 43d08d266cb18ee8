"""Several keys with their values in one line, a single space between a value and the next key. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of


@pytest.mark.parametrize("form", [
    "Code: {}  Title: Pedal sensor circuit  State: {}", "Code: {} Title: Pedal sensor circuit State: {}",
    "Fault code: {} Description: circuit open Status: {}", "DTC: {}, Text: Hall sensor stuck Status:{}",
    "1. Code:{} Text: relay open State: {}"])
def test_each_value_ends_at_the_next_key(form: str) -> None:
    text = f"Radio\n{form.format('B1341', 'past')}\n{form.format('B1342', 'confirmed')}\nABS\nno codes\n"
    assert modules_of(text) == {"radio": ["B1341 stored", "B1342 confirmed"], "anti-lock brakes": ["clean"]}


def test_a_word_of_a_description_before_a_colon_is_no_key() -> None:
    text = "Radio\nCode: B1341 Text: lost contact with module: cluster State: stored\nABS\nno codes\n"
    assert modules_of(text) == {"radio": ["B1341 stored"], "anti-lock brakes": ["clean"]}


def test_numbered_codes_of_a_line_keep_their_statuses() -> None:
    text = ("ECU=4WD; fault=U0110; fault state=PASSIVE; text=lost drive\n\n"
            "ECU=Crane box; fault 1=U0122; fault state=pending; fault 2=P0403; fault state=stored")
    assert modules_of(text) == {"all-wheel drive": ["U0110 stored"],
                                "Crane box": ["U0122 pending", "P0403 stored"]}
    before = "Unit: ABS; State: stored; DTC: C0035; State: active; DTC: C0036\nUnit: ECM; State: stored; DTC: P0562"
    assert modules_of(before) == {"anti-lock brakes": ["C0035 stored", "C0036 current"],
                                  "engine control": ["P0562 stored"]}


@pytest.mark.parametrize("colon", [": ", " : ", "="])
@pytest.mark.parametrize(("form", "yes", "no"), [
    ("Code{}{}, Active{}{}", "yes", "no"), ("Code{}{}, Description{c}relay open, Present{}{}", "yes", "no"),
    ("Code{}{}, Text{c}Pumpe, Aktiv{}{}", "ja", "nein"), ("Code{}{}, Libell\u00e9{c}pompe, Actif{}{}", "oui", "non"),
    ("C\u00f3digo{}{}, Texto{c}bomba, Activo{}{}", "s\u00ed", "no")])
def test_a_key_that_asks_after_the_status(colon: str, form: str, yes: str, no: str) -> None:
    lines = [form.format(colon, code, colon, said, c=colon) for code, said in (("C0035", yes), ("C0040", no))]
    text = f"Module{colon}ABS\n" + "\n".join(lines) + f"\nModule{colon}Radio\n{lines[1].replace('C0040', 'B1318')}\n"
    assert modules_of(text) == {"anti-lock brakes": ["C0035 current", "C0040 stored"], "radio": ["B1318 stored"]}
