"""The supply in the heads and feet of pages, beside a distance, and in rows of tables of modules."""

from __future__ import annotations

import pytest

from tests.intake.reads import printed, told

_SCAN = "Engine\n  P0562 stored\n"


@pytest.mark.parametrize("line", [
    "VIN: 0XXYY00Z0AA123456   Miles: 23,004   Voltage: 12.4 V", "Miles: 23,004   Voltage: 12.4 V",
    "Odometer 23.004, battery 12.4", "Hours: 3.5   Voltage: 12.4", "km-Stand: 23.004   Spannung: 12,4 V",
    "Scan type: complete | Battery support unit: none | DLC voltage: 12.4",
    "Tool: X12   Charger: none   Battery: 12.4 V",
    "Vehicle voltage 12.4 V VIN: 0XXYY00Z0AA123456", "Battery during scan 12.4v   VIN: 0XXYY00Z0AA123456",
    "Scan type: complete    Battery support unit: none    DLC voltage: 12.4",
])
def test_the_supply_in_the_head_of_a_page(line: str) -> None:
    assert printed(f"{line}\n\n{_SCAN}") == "12.4 V; Engine: P0562"
    assert printed(f"{_SCAN}\n{line}\n") == "12.4 V; Engine: P0562"


def test_a_head_that_recurs_in_part() -> None:
    table = "Control Unit          DTC        Description           Status\n"
    rows = ("Engine                P0562      Low system voltage    History\n"
            "Radar                 C1AA2      Radar blocked         Active\n",
            "Shift By Wire         P1B6F      Low supply            History\n"
            "Telematics            -          No codes              -\n")
    pages = [f"PRE-SCAN REPORT                        {at}/2\nShop: Harbour Street, tel. 555-0188\n{head}{table}{row}"
             for at, row, head in zip((1, 2), rows, ("VIN: 0XXYY00Z0AA123456  Miles: 23,004  Voltage: 12.4 V\n\n", ""),
                                      strict=True)]
    assert printed("".join(pages)) == "12.4 V; Engine: P0562; Radar: C1AA2; Shift By Wire: P1B6F; Telematics: clean"


@pytest.mark.parametrize("row", ["Battery voltage at scan,11.05,,",
                                 "Supply,11.05,,", "Voltage,11.05 V,,", "UBAT,,11.05 V,"])
def test_a_row_of_a_table_that_tells_the_supply(row: str) -> None:
    text = f"ECU,DTC,State,Text\nEngine,P0562,stored,low\nAirbag,no codes,,\n{row}\n"
    assert printed(text) == "11.05 V; Engine: P0562; Airbag: clean"
    assert printed(text.replace(",", ";").replace(".", ",")) == "11.05 V; Engine: P0562; Airbag: clean"


def test_a_row_of_a_module_with_a_number_or_an_answer_is_no_supply() -> None:
    text = "ECU;Faults;State\nEngine;2;\nBattery sensor;12.1;\nVoltage stabiliser;no codes;\n"
    assert printed(text) == "Engine: clean; Voltage stabiliser: clean"


@pytest.mark.parametrize("line", ["Battery support unit: none", "Charger: none", "External power supply: none",
                                  "Stützgerät: keines", "Chargeur : aucun"])
def test_no_support_is_no_module_without_codes(line: str) -> None:
    assert told(f"{line}\n{_SCAN}") == " | engine control: P0562 stored"


def test_the_answer_of_a_module_beside_its_voltage_and_values_of_a_code_stay_where_they_are() -> None:
    text = "ABS: no codes | Voltage: 12.1 V\nEngine: no codes | Voltage: 12.4 V\n"
    assert printed(text) == "ABS: clean; Engine: clean"
    assert printed("Engine\n  P0562\n  State: stored   Voltage: 11.2 V\n") == "Engine 11.2 V: P0562"
    assert told("Battery charger: no codes\nRadio: no codes\n") == " | battery charger: clean; radio: clean"
