"""What was noted between two scans and the heading of the next: each keeps its own voltage, supply and day.

All invented; wordings: common practice.
"""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import Reading, read_text

FIRST = "Before clear 2026-04-07 08:00, key on engine off, 11.1 V\nEngine: P0110 stored\nABS: C0040 stored\n"
MODULES = "\nEngine: P0110 current\nABS: no codes\n"


def read(*between: str, vehicle: str = "12 V") -> Reading:
    """A first scan, what stands between, of which the last line heads the second scan."""
    lines = "\n".join(between)
    return read_text(f"Vehicle: box van, {vehicle}\n{FIRST}{lines}{MODULES}", load())


@pytest.mark.parametrize(("note", "head", "kept"), [
    ("Battery on charge all night, 13.0 V by breakfast", "After clear 2026-04-08 09:10, engine off, 12.7 V", 13.0),
    ("Battery on charge all night, 13.0 V by breakfast", "2026-04-08 09:10, key on engine off, 12.7 V", 13.0),
    ("Programmed the ABS with the supply at 13.6 V", "After clear 2026-04-07 09:10, 12.7 V", 13.6),
    ("Then on a donor vehicle, 14.3 V, started\nCleared 09:00", "After clear 2026-04-07 09:10, 12.7 V, nothing connected", 14.3),
    ("Danach Starthilfe 13,9 V, Motor gestartet\nFehler um 9:00 gelöscht", "Nach dem Löschen 07.04.2026 09:10, 12,7 V, nichts angeschlossen", 13.9),
])
def test_the_heading_of_a_scan_has_its_voltage(note: str, head: str, kept: float) -> None:
    second = read(note, head).snapshots[1]
    assert second.volts == 12.7
    assert [reading.value for reading in second.readings or ()] == [kept]
    if "nothing" in head or "nichts" in head:
        assert second.outside_supply == "none"


def test_without_a_voltage_of_its_own_a_scan_has_that_of_the_note() -> None:
    found = read("Battery on charge all night, 13.0 V by breakfast", "After clear 2026-04-08 09:10, engine off")
    assert [scan.volts for scan in found.snapshots] == [11.1, 13.0]


@pytest.mark.parametrize("note", [
    "Both charged. Front battery 12.8 V, rear battery 12.2 V",
    "Charged, battery A 12.8 V, battery B 12.2 V. Load test 19.9 V passed",
])
def test_one_battery_is_no_supply_of_two(note: str) -> None:
    text = FIRST.replace("11.1 V", "22.4 V")
    found = read_text(f"Vehicle: tractor 24 V\n{text}{note}\nAfter clear 2026-04-07 09:10, 25.1 V{MODULES}", load())
    assert [scan.volts for scan in found.snapshots] == [22.4, 25.1]
    halves = [reading.value for reading in found.snapshots[1].readings or () if reading.value < 20]
    assert halves == [12.8, 12.2]
