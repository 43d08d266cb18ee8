"""A key for the module behind its code, and a column of names behind a sign for "at". All invented."""

from __future__ import annotations

import pytest

from tests.intake.reads import printed, told


@pytest.mark.parametrize("key", ["Module", "Unit", "System"])
def test_a_key_between_the_code_and_the_status(key: str) -> None:
    text = (f"B100014 {key}: Radio (RAD) no longer present aerial open\nC003511 {key}: ABS awaiting confirmation\n"
            f"U0100 {key}: Gauge cluster live\nU0101 no message {key}: Gauge cluster stored")
    assert told(text) == (" | radio: B1000-14 stored; anti-lock brakes: C0035-11 pending; "
                          "instrument cluster: U0100 current, U0101 stored")


def test_a_name_that_nobody_knows_ends_before_its_status() -> None:
    text = "B1000 [14] Modul: Quarz Regler nicht vorhanden Leitung offen\nC0035 [11] Modul: Bremse aktuell Sensor"
    assert told(text) == " | Quarz Regler: B1000-14 stored; anti-lock brakes: C0035-11 current"


def test_a_key_among_other_marks_is_read_as_before() -> None:
    text = "B1000 - aerial - Unit: Radio - (not present)\nC0035 - wheel sensor - Unit: ABS - (is present)"
    assert told(text) == " | radio: B1000 stored; anti-lock brakes: C0035 current"


@pytest.mark.parametrize("gap", ["   ", "\t"])
def test_a_column_of_names_behind_a_sign(gap: str) -> None:
    text = (f"C0035{gap}wheel speed sensor left front open{gap}@ Brake electronics [ABS]\n"
            f"B1000{gap}aerial{gap}@ Radio [RAD]")
    assert told(text) == " | anti-lock brakes: C0035; radio: B1000"


def test_a_name_in_braces_with_its_abbreviation_behind_a_dash() -> None:
    text = "C0110-01 {Control de estabilidad - ESP} bomba\nB1000-14 {Radio} antena"
    assert printed(text) == "Control de estabilidad - ESP: C0110-01; Radio: B1000-14"
