"""A line "NAME: codes" opens its module, whatever in it can't be read (common practice: half a code was noted, or the
failure mode was left out)."""

from __future__ import annotations

import pytest

import code_tables
from triage.intake.read import Reading, read_text

TABLES = code_tables.load()


def codes(reading: Reading) -> dict[str | None, list[tuple[str, str | None]]]:
    return {
        module.printed: [(code.code, code.status) for code in module.codes]
        for snapshot in reading.snapshots
        for module in snapshot.modules
    }


@pytest.mark.parametrize("lead", ["SPN 1045", "SPN 1045?", "SPN 1045? unread", "SPN: 4335 unreadable"])
def test_parameter_without_failure_mode_leaves_the_others_with_their_module(lead: str) -> None:
    said = f"24 V truck\nSA 03 Transmission: SPN 639 FMI 9 inactive\nSA 11 Brakes: {lead} ; SPN 1836 FMI 5 active\n"
    reading = read_text(said, TABLES)
    assert codes(reading) == {
        "Transmission": [("SPN 639 FMI 9", "stored")],
        "Brakes": [("SPN 1836 FMI 5", "current")],
    }
    assert any("FMI" in notice.message and notice.severity == "warning" for notice in reading.notices)


def test_parameter_without_failure_mode_behind_a_code_is_told() -> None:
    reading = read_text("Transmission: SPN 639 FMI 9 inactive\nBrakes: SPN 1836 FMI 5 active; SPN 1045\n", TABLES)
    assert codes(reading)["Brakes"] == [("SPN 1836 FMI 5", "current")]
    assert any("SPN 1045" in notice.message for notice in reading.notices)


@pytest.mark.parametrize("lead", ["P12??", "C12 torn off", "(smudged)", "one I could not read", "unleserlich"])
def test_what_is_not_read_in_front_of_a_code_is_told(lead: str) -> None:
    reading = read_text(f"Transmission: P0700\nABS: {lead}, C1234 active\n", TABLES)
    assert codes(reading) == {"Transmission": [("P0700", None)], "ABS": [("C1234", "current")]}
    assert any("not read" in notice.message for notice in reading.notices)


@pytest.mark.parametrize("above", ["Transmission: P0700", "Transmission\nP0700"])
def test_codes_below_a_line_that_is_not_read_are_not_of_the_module_above(above: str) -> None:
    reading = read_text(f"{above}\nABS: P12??\nC1234 active\n", TABLES)
    assert codes(reading) == {"Transmission": [("P0700", None)], "ABS": [("C1234", "current")]}


def test_below_an_unknown_name_no_module_is_open() -> None:
    reading = read_text("Transmission: P0700\nQvx box: P12??\nC1234 active\n", TABLES)
    assert codes(reading)["Transmission"] == [("P0700", None)]
