"""A scan that is told by its number right before its first module (invented; common practice)."""

from __future__ import annotations

import pytest

from tests.intake.reads import scans

FIRST = "before clear, 12.0 V\nECM: P0562\nMotor: P0118\nMoteur: P0118\nABS: C0044\ncleared. 12.5 V\n"


@pytest.mark.parametrize(("line", "printed"), [
    ("2nd scan ECM: P0571 current", "ECM"), ("second scan ECM P0571 current", "ECM"),
    ("scan 2 ECM: P0571 current", "ECM"),
    ("2. Scan Motor: P0571 aktiv", "Motor"), ("Zweite Auslesung Motor: P0571 aktiv", "Motor"),
    ("2e lecture Moteur : P0571 présent", "Moteur"), ("2a lectura ECM: P0571 presente", "ECM")])
def test_the_number_of_a_scan_is_no_part_of_a_name(line: str, printed: str) -> None:
    assert scans(f"{FIRST}{line}\nABS ok\n")[-1] == f"after-clear 12.5 V | {printed}: P0571 current; ABS: clean"


def test_a_scan_tool_is_none() -> None:
    assert "2nd scan tool" in scans(f"{FIRST}2nd scan tool ECM: P0571\nABS ok\n")[-1]
