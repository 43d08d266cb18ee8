"""What the columns of one table tell: the supply, marks under words for statuses, letters and digits of a legend. All
invented; wordings: common practice."""

from __future__ import annotations

import pytest
from reads import printed

from code_tables import load
from triage.intake.read import read_text


@pytest.mark.parametrize("head", ["Supply V", "Batt V", "Volts", "U Batt", "Batt. V", "Ubatt (V)", "Battery volts",
                                  "KL30"])
@pytest.mark.parametrize("mark", [" | ", "\t", ";"])
def test_one_voltage_in_every_row_is_the_supply(head: str, mark: str) -> None:
    text = f"Module;Code;Text;{head}\nABS;C0031-16;Wheel speed;10.9\nTCM;P0562;Supply low;10.9\nBCM;no codes;;10.9"
    assert printed(text.replace(";", mark)) == "10.9 V; ABS: C0031-16; TCM: P0562; BCM: clean"
    (scan,) = read_text(text.replace(";", mark), load()).snapshots
    assert [code.text for module in scan.modules for code in module.codes] == ["Wheel speed", "Supply low"]


@pytest.mark.parametrize(("rows", "expected"), [
    # One module with several codes, and two modules.
    ("ABS;C0031;10.9\nABS;C0032;10.9", "10.9 V; ABS: C0031 C0032"),
    ("ABS;C0031;10.9\nTCM;P0562;10.9", "10.9 V; ABS: C0031; TCM: P0562"),
    # What differs is each module's own.
    ("ABS;C0031;10.9\nTCM;P0562;11.4", "ABS 10.9 V: C0031; TCM 11.4 V: P0562"),
    ("ABS;C0031;10.9", "ABS 10.9 V: C0031"),
    # A voltage of the whole scan stands above all.
    ("\nBattery 12.1 V\n\nABS;C0031;10.9\nTCM;P0562;10.9", "12.1 V; ABS 10.9 V: C0031; TCM 10.9 V: P0562"),
])
def test_whose_voltage_a_column_holds(rows: str, expected: str) -> None:
    assert printed(f"Module;Code;Supply V\n{rows}") == expected


@pytest.mark.parametrize("columns", ["Volts;km", "Volts;rpm"])
def test_a_voltage_stored_with_a_code_is_not_the_supply(columns: str) -> None:
    text = f"Module;Code;{columns}\nABS;C0031;10.9;12000\nABS;C0032;10.9;12000\n"
    assert read_text(text, load()).snapshots[0].volts is None


def test_the_column_of_a_heavy_vehicle() -> None:
    text = "Module;Code;Supply V\nABS;C0031;24.9\nTCM;P0562;24.9"
    reading = read_text(text, load())
    assert reading.snapshots[0].volts == 24.9
    assert reading.vehicle is not None
    assert reading.vehicle.nominal_volts == 24
    assert read_text(f"Vehicle 12 V\n{text}", load()).snapshots[0].volts is None
