"""Blank lines between a code and what is said of it. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from tests.intake.reads import told


@pytest.mark.parametrize(("text", "expected"), [
    ("Module: Instrument cluster\nCode: U0101\n\nText: Lost communication with TCM\nStatus: confirmed",
     "instrument cluster: U0101 confirmed"),
    ("[Gateway]\ndtc1=U0100\ntext1=Lost\nstatus1=stored\ndtc2=U0121\ntext2=Lost ABS\n\nstatus2=present\ndtc3=U0422\n"
     "text3=Invalid\nstatus3=pending", "gateway: U0100 stored, U0121 current, U0422 pending"),
    ("Gateway\nCode: U0100\nStatus: stored\nCode: U0121\n\nStatus: current\nCode: U0422\nStatus: pending",
     "gateway: U0100 stored, U0121 current, U0422 pending"),
    ("ECU: ABS\nDTC: C0031\n\n\nFTB: 16\nStatus: active\n\nDTC: C0034\n\nFTB: 12\nState: stored",
     "anti-lock brakes: C0031-16 current, C0034-12 stored"),
    ("Steuergerät: Kombiinstrument\nFehlercode: U0101\n\nBeschreibung: Keine Kommunikation\nStatus: bestätigt\n\n"
     "Steuergerät: ABS\nErgebnis: keine Antwort", "instrument cluster: U0101 confirmed; anti-lock brakes: silent"),
    ("Module.....: Gateway\nCode.......: U0100\n\nStatus.....: stored", "gateway: U0100 stored"),
    ("ABS\n  C0031 Wheel speed\n\n  Status: current\n  C0034 Wheel speed right\n  Status: stored",
     "anti-lock brakes: C0031 current, C0034 stored"),
])
def test_what_stands_behind_a_code_and_a_blank_line_is_said_of_it(text: str, expected: str) -> None:
    assert told(text) == f" | {expected}"


@pytest.mark.parametrize(("text", "expected"), [
    # What is said stands before the codes of this text.
    ("Module: Gateway\nStatus: stored\nText: Lost\nCode: U0100\n\nStatus: current\nText: Lost ABS\nCode: U0121",
     "gateway: U0100 stored, U0121 current"),
    ("Gateway\nStatus: stored\nCode: U0100\n\nStatus: current\nCode: U0121", "gateway: U0100 stored, U0121 current"),
    # Another module, another code, a remark, the vehicle.
    ("Module: Gateway\nCode: U0100\n\nModule: ABS\nStatus: no response", "gateway: U0100; anti-lock brakes: silent"),
    ("[Gateway]\ndtc1=U0100\n\nstatus2=present\ndtc2=U0121", "gateway: U0100, U0121 current"),
    ("Module: Gateway\nCode: U0100\n\nNote: customer waiting\nMileage: 123456 km", "gateway: U0100"),
    ("Module: Gateway\nCode: U0100\n\nStatus: closed", "gateway: U0100"),
])
def test_what_is_said_of_something_else(text: str, expected: str) -> None:
    assert told(text) == f" | {expected}"
