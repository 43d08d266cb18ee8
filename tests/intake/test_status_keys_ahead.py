"""Blocks of keys in which the status of a code stands before it. All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of

KEYS = [("Module: ", "State 1: ", "Code 1: ", "Text 1: ", "State 2: ", "Code 2: ", "Text 2: "),
        ("Module = ", "State = ", "Fault code = ", "Meaning = ", "State = ", "Fault code = ", "Meaning = "),
        ("Control unit  : ", "Status  : ", "DTC  : ", "Text  : ", "Status  : ", "DTC  : ", "Text  : ")]


@pytest.mark.parametrize("keys", KEYS)
@pytest.mark.parametrize(("first", "second"), [("C0110", "C0031"), ("16155", "00707")])
def test_each_before_its_code(keys: tuple[str, ...], first: str, second: str) -> None:
    values = ("ABS", "historic", first, "pump stuck", "active", second, "sensor open")
    block = "\n".join(f"{key}{value}" for key, value in zip(keys, values, strict=True))
    assert modules_of(f"{block}\n\n{keys[0]}Radio\n{keys[1]}no codes\n") == {
        "anti-lock brakes": [f"{first} stored", f"{second} current"], "radio": ["clean"]}


@pytest.mark.parametrize("keys", KEYS)
def test_each_behind_its_code(keys: tuple[str, ...]) -> None:
    values = ("ABS", "C0110", "historic", "pump stuck", "C0031", "active", "sensor open")
    order = (0, 2, 1, 3, 5, 4, 6)
    block = "\n".join(f"{keys[at]}{value}" for at, value in zip(order, values, strict=True))
    assert modules_of(f"{block}\n") == {"anti-lock brakes": ["C0110 stored", "C0031 current"]}
