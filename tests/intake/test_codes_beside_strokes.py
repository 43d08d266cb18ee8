"""Codes with a stroke between them, each with its letter or all with the first one's. All invented."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of
from triage.intake.read import read_text


@pytest.mark.parametrize(("line", "codes"), [
    ("P1610/0882", ["P1610", "P0882"]), ("P0171/0174/0300", ["P0171", "P0174", "P0300"]),
    ("P0171 / 0174", ["P0171", "P0174"]), ("P2018/2019", ["P2018", "P2019"]), ("P0171/2019", ["P0171"]),
    ("P0171/16", ["P0171-16"]), ("P0171/0174 km", ["P0171"]), ("U243E16/U2100", ["U243E-16", "U2100"]),
    ("U0100:87/U2100:16", ["U0100-87", "U2100-16"]), ("P0171/01.24", ["P0171"]),
    ("P O171/P2135", ["P0171", "P2135"]), ("C 0040/U 0420-29", ["C0040", "U0420-29"]),
    ("PO171/P0172/P0174", ["P0171", "P0172", "P0174"])])
def test_a_stroke(line: str, codes: list[str]) -> None:
    assert modules_of(f"ABS: {line}\nRadio: no codes\n")["anti-lock brakes"] == codes


def test_what_was_read_is_told() -> None:
    notices = read_text("ABS: P1610/0882\nRadio: no codes\n", load()).notices
    assert any("0882" in notice.message and notice.line == 1 for notice in notices)


def test_a_code_joined_with_its_type_is_no_connector() -> None:
    assert modules_of("The ABS shows C2E0115 (terminal 15 low), stored.\nRadio: connector C123 (terminal 4) loose\n"
                      "ECM: no codes")["anti-lock brakes"] == ["C2E01-15 stored"]
