"""The resistance of a bus that is named by the pins of the diagnostic connector alone, or by what ends it: pins 6 and
14 are the lines of the CAN bus (SAE J1962). All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text

_SCAN = "before clear 12.4 V, engine off\nABS: no answer\nBCM: U0121\nECM: U0121\n"


def _readings(line: str) -> list[tuple[str, float, str | None]]:
    (scan,) = read_text(_SCAN + line, load()).snapshots
    assert [module.printed for module in scan.modules] == ["ABS", "BCM", "ECM"]
    return [(reading.name, reading.value, reading.unit) for reading in scan.readings or []]


@pytest.mark.parametrize(("line", "ohms"), [
    ("OBD socket pins 6 to 14: 118 ohm", 118.0), ("121 ohm between pin 6 and 14, battery off", 121.0),
    ("bus resistance 118 ohm", 118.0), ("termination 61 ohm", 61.0), ("Pin 6-14: 60 ohm", 60.0),
    ("OBD-Dose Pin 6 gegen 14: 118 Ohm", 118.0), ("Abschlusswiderstand 118 Ohm", 118.0),
    ("résistance du bus 118 ohms", 118.0), ("resistencia del bus 118 ohm", 118.0),
])
def test_a_bus_by_its_pins_or_its_ends(line: str, ohms: float) -> None:
    assert _readings(line) == [("CAN H to L", ohms, "ohm")]


def test_what_stands_beside_it_is_read_too() -> None:
    assert _readings("OBD socket pins 6 to 14: 118 ohm. CAN high to ground 2.4 V") == [
        ("CAN H to L", 118.0, "ohm"), ("CAN H to ground", 2.4, "V")]


@pytest.mark.parametrize("line", ["ABS pump pins 6 to 14: 2 ohm", "fuse 6 to 14 checked", "6-14 A: relay 80 ohm"])
def test_pins_of_another_connector_are_no_bus(line: str) -> None:
    assert ("CAN H to L", 2.0, "ohm") not in _readings(line)
    assert not any(name == "CAN H to L" for name, _, _ in _readings(line))
