"""Dashes where other modules of a list have their codes. All invented; wordings: common practice."""

from __future__ import annotations

import pytest
from reads import scans

from code_tables import load
from triage.intake.read import read_text


@pytest.mark.parametrize("line", ["{name}: {said}", "{name}   {said}", "{name} {said}", "{name} = {said}",
                                  "{name} -> {said}", "{name} | {said}", "| {name} | {said} |", "{name} || {said}",
                                  "{name} ..... {said}"])
@pytest.mark.parametrize("dash", ["-", "--", "----", "\u2013"])
def test_a_dash_in_the_place_of_codes(line: str, dash: str) -> None:
    told = (("ECM", "P0562"), ("ABS", dash), ("BCM", "B1234 U0140"), ("SRS", dash))
    assert scans("\n".join(line.format(name=name, said=said) for name, said in told)) == [
        " | ECM: P0562; ABS: clean; BCM: B1234 U0140; SRS: clean"]


@pytest.mark.parametrize(("text", "expected"), [
    ("ECM   P0562   stored\nABS   -       -\nBCM   B1234   stored", "ECM: P0562 stored; ABS: clean; BCM: B1234 stored"),
    ("ECM || P0562 : 16 || 0x2F\nRCM || -- || --\nIPC || U0155 : 00 || 0x08", "ECM: P0562; RCM: clean; IPC: U0155"),
    ("ECM;P0562;stored\nABS;-;-\nBCM;B1234;current", "ECM: P0562 stored; ABS: clean; BCM: B1234 current"),
    ("Engine:\nP0562 -> stored\nBrakes:\nC0265 -> stored\nAirbag: -",
     "Engine: P0562 stored; Brakes: C0265 stored; Airbag: clean"),
    ("ECM: P0562\nABS: -\nSRS: no response", "ECM: P0562; ABS: clean; SRS: silent"),
])
def test_a_dash_beside_other_columns(text: str, expected: str) -> None:
    assert scans(text) == [f" | {expected}"]


def test_dashes_in_scans_side_by_side() -> None:
    text = ("Before:                       After:\nEngine P0562                  Engine P0340\n"
            "Brakes -                      Brakes -")
    assert scans(text) == ["before-clear | Engine: P0562; Brakes: clean", "after-clear | Engine: P0340; Brakes: clean"]


@pytest.mark.parametrize(("text", "expected"), [
    # The text has words for no codes: the dash says something else.
    ("ECM: P0562\nABS: -\nBCM: no codes", "ECM: P0562; BCM: clean"),
    # No other line holds a code in that place.
    ("ABS: -\nBCM: no response\nSRS P0562", "BCM: silent; SRS: P0562"),
    # The mark before a value that nobody wrote.
    ("ECM - P0562\nABS -\nBCM - B1234", "ECM: P0562; BCM: B1234"),
    # Rules below headings.
    ("ECM ----\nP0562\nABS ----\nC0035\nSRS ----", "ECM: P0562; ABS: C0035"),
    ("ECM P0562\nABS ----\nC0035\nSRS ----", "ECM: P0562; ABS: C0035"),
])
def test_a_dash_that_may_be_something_else(text: str, expected: str) -> None:
    assert scans(text) == [f" | {expected}"]
    name = "SRS" if "SRS ----" in text else "ABS"
    assert any(name in notice.message for notice in read_text(text, load()).notices)


def test_a_dash_beside_what_is_no_module() -> None:
    assert scans("Engine: P0562\nGearbox: -\nOdometer: -\nNote: -") == [" | Engine: P0562; Gearbox: clean"]
