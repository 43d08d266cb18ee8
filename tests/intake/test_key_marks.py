"""Blocks of keys and values with other marks than a colon, and what their keys lead to. All invented; layout: common
practice of printed reports and of exports."""

from __future__ import annotations

import pytest

from tests.intake.reads import modules_of, scans, told

BLOCKS = """
{module}Rain sensor
{address}2A
{code}B1111
{status}active

{address}2D
{module}Seat heater
{answer}no response

{module}Overhead console
{answer}no codes
"""


@pytest.mark.parametrize("keys", [
    ("System", "Address", "Trouble code", "Status", "Outcome"), ("ECU", "ID", "Fault", "State", "Scan result"),
    ("Unit", "Addr", "DTC", "Condition", "Result"),
])
@pytest.mark.parametrize("mark", [" ", " ..... ", ": ", " -> ", " => ", "=", " : "])
def test_marks_between_keys_and_values(keys: tuple[str, ...], mark: str) -> None:
    text = BLOCKS.format(**{name: key + mark for name, key in
                            zip(("module", "address", "code", "status", "answer"), keys, strict=True)})
    assert told(text) == " | rain sensor: B1111 current; seat heating: silent; roof console: clean"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # A key for what a module answered leads to its codes as well, or to their number.
        ("ECU           : Rain sensor\nID            : 1\nScan result   : b1111 (stored); u0151 (active)\n---\n"
         "ID            : 2\nECU           : Seat heater\nScan result   : u0140 (active)",
         " | rain sensor: B1111 stored, U0151 current; seat heating: U0140 current"),
        ("Unit=Rain sensor\nAddress=1\nOutcome=1 code\nFault code=B1111\nStatus=active\n\nUnit=Seat heater\nAddress=2\n"
         "Outcome=0 DTCs", " | rain sensor: B1111 current; seat heating: clean"),
        # One for the kind of a fault to its status, or to an answer.
        ("System=Rain sensor\nFault code=B1111\nType=stored\n\nSystem=Seat heater\nType=0 faults\n\n"
         "System=Overhead console\nType=Could not be reached",
         " | rain sensor: B1111 stored; seat heating: clean; roof console: silent"),
        # Lines that only begin with such words are no keys.
        ("Rain sensor\nB1111 open\nSystem voltage low\n\nSeat heater\nno codes", " | rain sensor: B1111; "
         "seat heating: clean"),
    ],
)
def test_what_keys_lead_to(text: str, expected: str) -> None:
    assert told(text) == expected


@pytest.mark.parametrize(("first", "second"), [
    ("# Scan 1", "# Scan no. 2"), ("[Session 1]", "[Session 2 - 11.10.2022 11:51]"),
    ("*** Read-out 1 ***", "*** Read-out 2 ***"), ("Read-out 1:", "Read-out 2:"), ("=== scan 1 ===", "=== scan 2 ==="),
])
def test_decorated_heads_of_scans(first: str, second: str) -> None:
    text = (f"{first}\nRain sensor\n B1111 stored\nSeat heater: no codes\n\n"
            f"{second}\nRain sensor: no codes\nSeat heater\n B2222 open")
    assert scans(text) == [" | Rain sensor: B1111 stored; Seat heater: clean",
                           " | Rain sensor: clean; Seat heater: B2222"]


def test_a_column_of_sessions() -> None:
    text = ("Session;ECU;Code;Reply;Supply (V)\nScan 1;Rain sensor;B1111;;12.5\nScan 1;Seat heater;;no codes;12.5\n"
            "Scan no. 2 - 11.10.2022 11:51;Rain sensor;;no codes;13.3\n"
            "Scan no. 2 - 11.10.2022 11:51;Seat heater;B2222;;13.3")
    assert scans(text) == ["12.5 V | Rain sensor: B1111; Seat heater: clean",
                           "13.3 V | Rain sensor: clean; Seat heater: B2222"]


@pytest.mark.parametrize(("before", "behind"), [("**", "**:"), ("**", ":**"), ("__", "__ =")])
def test_keys_in_bold_beside_each_other(before: str, behind: str) -> None:
    text = "\n---\n".join(
        "; ".join(f"{before}{key}{behind} {value}" for key, value in told)
        for told in ([("Control unit", "cluster"), ("DTC", "no entries in fault memory")],
                     [("Control unit", "ABS"), ("Result", "2 faults"), ("DTC 1", "U0100 | pending"),
                      ("DTC 2", "C0044")],
                     [("Control unit", "BCM"), ("DTC", "no reply from unit")]))
    assert modules_of(text) == {"instrument cluster": ["clean"], "anti-lock brakes": ["U0100 pending", "C0044"],
                                "body control": ["silent"]}
