"""What the supply should be is no reading of it: "Specified: 12.3 V to 14.8 V"."""

from __future__ import annotations

import pytest

from tests.intake.reads import printed, told

_SCAN = "ABS: C0035 stored\n"


@pytest.mark.parametrize("line", [
    "Specified: 12.3 V to 14.8 V", "Spec: 12.3 - 14.8 V", "Specification 12.3 V", "Sollwert: 12,3 V",
    "Soll: 12,3 V bis 14,8 V", "Allowed: 12.3 V ... 14.8 V", "Consigne : 12,3 V à 14,8 V", "Valor especificado: 12.3 V",
    "Tolerance 12.3 V to 14.8 V",
    "Normal range: 12.3 to 14.8 V", "Zulässig: 12,3 V bis 14,8 V", "Required 12.3 V", "Limits: 12.3 V to 14.8 V",
])
def test_what_the_supply_should_be(line: str) -> None:
    want = "11.92 V | anti-lock brakes: C0035 stored"
    for text in (f"{_SCAN}Terminal 30: 11.92 V\n{line}\n", f"{_SCAN}- {line}\n- Terminal 30: 11.92 V\n",
                 f"{_SCAN}Battery 11.92 V ({line})\n"):
        assert told(text) == want
    assert told(f"{_SCAN}{line}\n") == " | anti-lock brakes: C0035 stored"


@pytest.mark.parametrize(("line", "want"), [
    ("Specified: 12.3 V to 14.8 V, battery: 11.4 V", "11.4 V"), ("Battery went from 12.3 V to 11.2 V", "12.3/11.2 V"),
    ("Target: 12.3 V  Battery: 11.4 V", "11.4 V"), ("Battery 11.4 V - 9.6 V cranking", "11.4/9.6 V"),
])
def test_what_was_measured_beside(line: str, want: str) -> None:
    assert told(f"{_SCAN}{line}\n") == f"{want} | anti-lock brakes: C0035 stored"


def test_a_line_of_what_should_be_is_no_module_of_a_list() -> None:
    text = "ABS: C0035\n### No answer\n- Radio\n\n### Measured\n- Terminal 30: 11.92 V\n- Specified: 12.3 V to 14.8 V\n"
    assert printed(text) == "11.92 V; ABS: C0035; Radio: silent"
