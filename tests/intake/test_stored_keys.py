"""Keys below codes that tell what was stored with them name no module and begin no scan; a date alone that stands again
above the same modules does. All texts are invented; what is stored beside a code: common practice."""

from __future__ import annotations

import pytest
from reads import modules_of

from code_tables import load
from triage.intake.read import read_text

ABS, ECM, TCM = "anti-lock brakes", "engine control", "transmission control"
TWO = {ABS: ["C0035", "C0040"], ECM: ["P0120"]}


@pytest.mark.parametrize("key", ["Starts since", "Engine load", "Time stamp", "Event seen", "Cold starts"])
@pytest.mark.parametrize("mark", [": ", " = "])
@pytest.mark.parametrize("values", [("4", "19"), ("27.2 %", "9 %"), ("2022-01-25 08:52", "2021-07-18 17:00")])
def test_in_a_list_below_a_heading(key: str, mark: str, values: tuple[str, str]) -> None:
    one, two = (f"{key}{mark}{value}" for value in values)
    text = f"ABS\nC0035 open circuit\n{one}\nC0040 valve stuck\n{two}\nEngine control\nP0120 pedal signal\n{one}\n"
    assert [modules_of(text), len(read_text(text, load()).snapshots)] == [TWO, 1]


@pytest.mark.parametrize("key", ["Time stamp", "Event time", "First logged"])
def test_a_time_between_the_keys_of_two_codes(key: str) -> None:
    text = (f"ECU: ABS\nCode: C0035\nText: open\n{key}: 2022-01-25 08:52\nCode: C0040\nText: stuck\n\n"
            "ECU: Engine control\nCode: P0120\nText: pedal\n")
    assert [modules_of(text), len(read_text(text, load()).snapshots)] == [TWO, 1]


def test_across_a_page_break() -> None:
    text = ("Scan report\nABS\nC0035 open circuit - stored\nPage 1 of 2\n\nScan report\nStarts since: 4\n"
            "C0040 valve stuck - stored\nStarts since: 9\nEngine control\nP0120 pedal - stored\nPage 2 of 2\n")
    assert modules_of(text) == {ABS: ["C0035 stored", "C0040 stored"], ECM: ["P0120 stored"]}


def test_a_module_with_the_number_of_its_codes_is_none() -> None:
    text = ("ABS: 1\n  C0035 open circuit\nGrain dryer: 2\n  B2140 motor open circuit\n  B2141 motor stuck\n"
            "Engine control: 1\n  P0120 signal high\n")
    assert modules_of(text) == {ABS: ["C0035"], "Grain dryer": ["B2140", "B2141"], ECM: ["P0120"]}


def test_a_date_alone_above_the_first_module_again_heads_another_scan() -> None:
    text = ("4 Mar 2024\nSupply: 11.3 V\nRoad sander\nB2140 motor open - stored\nABS\nC0035 open - current\n"
            "4 Mar 2024\nSupply: 12.6 V\nRoad sander: no codes\nABS\nC0035 open - current\n")
    scans = read_text(text, load()).snapshots
    assert [scan.volts for scan in scans] == [11.3, 12.6]
    assert [[(module.printed, len(module.codes)) for module in scan.modules] for scan in scans] == [
        [("Road sander", 1), ("ABS", 1)], [("Road sander", 0), ("ABS", 1)]]
