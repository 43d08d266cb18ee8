"""Two hexadecimal digits behind codes: failure types or status bytes, by all of a text together. Texts invented;
failure types: SAE J2012-DA; the bits of a status byte: ISO 14229-1, annex D."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import Reading, read_text


def _held(reading: Reading) -> list[str]:
    return [f"{code.code}{f'-{code.failure_type}' if code.failure_type else ''}"
            f"{f' {code.status_byte:02X}' if code.status_byte is not None else ''}"
            for module in reading.snapshots[0].modules for code in module.codes]


@pytest.mark.parametrize(("text", "held"), [
    ("ABS\nC0051:13 steering angle sensor (08)\nC0040 wheel speed circuit  (2F)\nC0110 pump motor (28)\nECM\n"
     "P0171 (28)\nP0562 (2F)", ["C0051-13 08", "C0040 2F", "C0110 28", "P0171 28", "P0562 2F"]),
    ("ABS\nC0045 RR wheel speed circuit (2F)\nIC\nU0121 (28)", ["C0045 2F", "U0121 28"]),
    ("ECM: P0171 [28], P0562 [2C]", ["P0171 28", "P0562 2C"]),
    ("ECM\nP0171 (2Ch)\nP0562 (AFh)", ["P0171 2C", "P0562 AF"]),
    ("ECM\nP0171 28\nP0562 2F\nP0340 50", ["P0171 28", "P0562 2F", "P0340 50"]),
    ("ECM\nP0171  Fuel trim  2C\nP0562  System voltage low  28", ["P0171 2C", "P0562 28"]),
    ("ECM\nP0562-16 (28)\nP0563-17 (2F)", ["P0562-16 28", "P0563-17 2F"]),
])
def test_values_that_are_status_bytes_are_so_behind_every_code(text: str, held: list[str]) -> None:
    reading = read_text(text, load())
    assert _held(reading) == held
    assert not reading.notices


@pytest.mark.parametrize(("text", "held"), [
    ("ECM\nP0562 (16)\nP0563 (17)\nU0100 (87)", ["P0562-16", "P0563-17", "U0100-87"]),
    ("ABS\nC0040 (2F)\nC0035 (11)\nC0045 (62)", ["C0040-2F", "C0035-11", "C0045-62"]),
    ("Code (FTB in brackets)\nECM\nP0171 (28)\nP0562 (2F)", ["P0171-28", "P0562-2F"]),
    ("ECM\nP0171-28\nP0562-2F", ["P0171-28", "P0562-2F"]),
])
def test_values_that_are_failure_types_stay_so(text: str, held: list[str]) -> None:
    reading = read_text(text, load())
    assert _held(reading) == held
    assert not reading.notices


@pytest.mark.parametrize("text", ["ECM\nP0171 (28)", "ECM\nP0171 (2C)\nP0562 (16)"])
def test_what_may_be_either_is_told(text: str) -> None:
    reading = read_text(text, load())
    assert all(code.failure_type for module in reading.snapshots[0].modules for code in module.codes)
    assert [notice.severity for notice in reading.notices] == ["note"]
    assert "status byte" in reading.notices[0].message


def test_the_text_between_a_code_and_its_status_byte_is_kept() -> None:
    text = "ABS\nC0045 RR wheel speed circuit (2F)\nC0040 RF wheel speed circuit  (2F)\nC0110 [28] pump motor"
    codes = read_text(text, load()).snapshots[0].modules[0].codes
    assert [code.text for code in codes] == ["RR wheel speed circuit", "RF wheel speed circuit", "pump motor"]


def test_how_often_a_fault_was_set_is_no_status_byte() -> None:
    text = "ECM\nP0171 Fuel trim (08)\nP0562 System voltage low (24)"
    codes = read_text(text, load()).snapshots[0].modules[0].codes
    assert [(code.count, code.status_byte) for code in codes] == [(8, None), (24, None)]
