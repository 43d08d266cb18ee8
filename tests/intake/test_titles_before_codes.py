"""Descriptions before their codes below the names of modules, of which some are names of modules themselves. All
invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, printed

TITLES = ("Supply voltage low", "Lateral acceleration sensor", "Cruise switch signal", "Door contact open")
CODES = ("C0562", "C0061", "B10AC", "C1214")


@pytest.mark.parametrize("form", ["{} ({}) - stored", "{} [{}] stored", "* {} ({}), stored", "1. {} ({}) stored"])
@pytest.mark.parametrize("heads", [
    ("Parking brake", "Gateway"), ("**Parking brake**", "**Gateway**"), ("Parking brake (4 codes)", "Gateway (1 code)"),
    ("ECU: Parking brake", "ECU: Gateway"), ("--- Parking brake", "--- Gateway")])
@pytest.mark.parametrize("between", ["", "  Serial no. 0828098978\n", "  HW 18  SW 5474\n", "  Stored codes:\n"])
def test_names_among_them_are_no_modules(form: str, heads: tuple[str, str], between: str) -> None:
    lines = "".join(f"  {form.format(*pair)}\n" for pair in zip(TITLES, CODES, strict=True))
    text = f"{heads[0]}\n{between}{lines}\n{heads[1]}\n{between}  {form.format('Immobiliser system', 'B2799')}\n"
    assert modules_of(text) == {
        "park brake": [f"{code} stored" for code in CODES], "gateway": ["B2799 stored"]}


def test_below_a_name_that_nobody_knows() -> None:
    text = ("ECU ABS\n  Supply voltage low (C0562) - not present\n  Hall sensor stuck (C1214) - not present\n\n"
            "ECU BSML\n  Door contact open (C1277) - not present\n\n[ Address 39: roof box ]\n"
            "  Fan stage no signal (U2B4E) - not present\n")
    assert printed(text) == "ABS: C0562 C1214; BSML: C1277; Address 39: roof box: U2B4E"


@pytest.mark.parametrize("text", [
    "Gateway (U0100) stored\nRadio (B1000) stored\nABS (C0035) stored\n",
    "Full scan\nGateway (U0100) stored\nRadio (B1000) stored\nABS (C0035) stored\n",
    "Scan of all modules\nGateway module (U0100) stored\nRadio unit (B1000) stored\nABS (C0035) stored\n"])
def test_names_of_modules_stay_such_where_no_heading_stands_above(text: str) -> None:
    assert modules_of(text) == {
        "gateway": ["U0100 stored"], "radio": ["B1000 stored"], "anti-lock brakes": ["C0035 stored"]}


def test_a_short_form_is_no_description() -> None:
    text = "Gateway\n  Supply voltage low (U3003) stored\n  Bus off (U0073) stored\n  ABS (C0035) stored\n"
    assert "C0035 stored" not in modules_of(text)["gateway"]


def test_a_short_name_that_nobody_knows_below_one_that_is_silent() -> None:
    text = ("BCM\n  Medium speed bus (U0010) - stored\n  Control unit fault (B1000) - stored\nIBS\n  no answer\nGCU\n"
            "  EGR flow low (P0401) - stored\n  Injector circuit (P0201) - stored\nABS\n  no codes\n")
    assert printed(text) == "BCM: U0010 B1000; IBS: silent; GCU: P0401 P0201; ABS: clean"
