"""Tables that say the time and the voltage of the scan in every row. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text

Told = list[tuple[str | None, str | None, float | None, list[str]]]


def told(text: str) -> Told:
    """By scan: phase, time, volts, and each module with its codes."""
    return [(scan.phase, scan.at.isoformat() if scan.at else None, scan.volts,
             [" ".join([module.printed or "", *(code.code for code in module.codes)]) for module in scan.modules])
            for scan in read_text(text, load()).snapshots]


ROWS = [("2025-01-09", "08:10", "before clear", "11.1", "ECM", "P0562", ""),
        ("2025-01-09", "08:10", "before clear", "11.1", "ABS", "U0100", ""),
        ("2025-01-09", "08:55", "after clear", "12.9", "ECM", "", "clean"),
        ("2025-01-09", "08:55", "after clear", "12.9", "ABS", "", "clean")]
HEAD = ("date", "time", "phase", "volts", "module", "code", "status")
FIRST, SECOND = ("before-clear", "2025-01-09T08:10:00", 11.1), ("after-clear", "2025-01-09T08:55:00", 12.9)


@pytest.mark.parametrize("mark", [",", ";", "\t", " | "])
def test_date_and_time_in_columns_of_their_own(mark: str) -> None:
    assert told("\n".join(mark.join(row) for row in (HEAD, *ROWS))) == [
        (*FIRST, ["ECM P0562", "ABS U0100"]), (*SECOND, ["ECM", "ABS"])]
    # Few rows tell it as well where each scan has a time of its own.
    assert told("\n".join(mark.join(row) for row in (HEAD, ROWS[0], ROWS[2]))) == [
        (*FIRST, ["ECM P0562"]), (*SECOND, ["ECM"])]
    # Rows that take turns.
    assert told("\n".join(mark.join(row) for row in (HEAD, ROWS[0], ROWS[2], ROWS[1], ROWS[3]))) == [
        (*FIRST, ["ECM P0562", "ABS U0100"]), (*SECOND, ["ECM", "ABS"])]


@pytest.mark.parametrize(("columns", "expected"), [
    ((0, 1, 3, 4, 5, 6), [(None, *FIRST[1:]), (None, *SECOND[1:])]),
    ((1, 0, 4, 5, 6), [(None, FIRST[1], None), (None, SECOND[1], None)]),
    ((1, 4, 5, 6), [(None, None, None), (None, None, None)]),
    ((1, 3, 4, 5, 6), [(None, None, 11.1), (None, None, 12.9)]),
    ((2, 4, 3, 5, 6), [("before-clear", None, 11.1), ("after-clear", None, 12.9)]),
])
def test_scans_told_apart_by_the_time_in_each_row(columns: tuple[int, ...], expected: Told) -> None:
    text = "\n".join(",".join(row[at] for at in columns) for row in (HEAD, *ROWS))
    assert [scan[:3] for scan in told(text)] == expected
    assert [scan[3] for scan in told(text)] == [["ECM P0562", "ABS U0100"], ["ECM", "ABS"]]


@pytest.mark.parametrize("text", [
    # When each fault occurred, and what the module had then.
    "module,code,date,time,status\nECM,P0562,2025-01-09,08:10,stored\nECM,P0118,2025-01-08,18:11,stored\n"
    "ABS,U0100,2025-01-07,07:45,stored",
    "module,code,date,volts\nECM,P0562,2025-01-09,9.4\nABS,U0100,2025-01-08,10.1",
    "module,code,volts,rpm,km\nECM,P0562,9.4,800,12000\nECM,P0118,9.4,800,12000\nABS,U0100,9.4,800,12000",
    "module,code,status,volts\nECM,P0562,stored,11.4\nABS,U0100,stored,12.4\nBCM,,none,11.4",
])
def test_what_was_stored_with_the_faults_is_not_of_the_scan(text: str) -> None:
    ((_, at, volts, _),) = told(text)
    assert (at, volts) == (None, None)
