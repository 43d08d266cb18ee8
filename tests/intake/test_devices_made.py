"""Devices called after what they make or drive are modules in a sentence; who drives or makes is none."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of


@pytest.mark.parametrize(("text", "held"), [
    ("ABS has U0100 (present). Coffee maker has U0121 (present now). Ice machine shows U0140.",
     {"anti-lock brakes": ["U0100 current"], "Coffee maker": ["U0121 current"], "Ice machine": ["U0140"]}),
    ("ABS has U0100. Belt driver no faults. Radio has U0140.",
     {"anti-lock brakes": ["U0100"], "belt pretensioner, driver": ["clean"], "radio": ["U0140"]}),
    ("In ABS I read DF711 (present). In Ice freezer I read DF712 (stored). ABS clean.",
     {"anti-lock brakes": ["DF711 current"], "Ice freezer": ["DF712 stored"]}),
    # Alone it is the vehicle, or somebody.
    ("The machine has U0100. ABS has C0035.", {"module not stated": ["U0100"], "anti-lock brakes": ["C0035"]}),
    ("ABS has U0100. Truck driver no faults. Radio has U0140.", {"anti-lock brakes": ["U0100"], "radio": ["U0140"]}),
])
def test_devices_called_after_what_they_do(text: str, held: dict[str, list[str]]) -> None:
    assert modules_of(text) == held
