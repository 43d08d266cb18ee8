"""Tables with a scan in every column, or one that names the scan. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text

Told = list[tuple[str | None, list[tuple[str, bool | None, list[tuple[str, str | None]]]]]]


def told(text: str) -> Told:
    """By scan: phase, and module, answer, codes with their status."""
    return [(snapshot.phase, [(scan.module, scan.responds, [(code.code, code.status) for code in scan.codes])
                              for scan in snapshot.modules]) for snapshot in read_text(text, load()).snapshots]


@pytest.mark.parametrize("mark", [" | ", "\t", ";"])
def test_a_column_a_scan(mark: str) -> None:
    lines = (("Module", "Before clear", "After clear"), ("ECM", "P0562 active", "no codes"),
             ("ABS", "no response", "C0035 stored"), ("Radio", "-", "-"))
    assert told("\n".join(mark.join(line) for line in lines)) == [
        ("before-clear", [("engine control", True, [("P0562", "current")]), ("anti-lock brakes", False, []),
                          ("radio", True, [])]),
        ("after-clear", [("engine control", True, []), ("anti-lock brakes", True, [("C0035", "stored")]),
                         ("radio", True, [])])]


def test_a_code_a_row_and_its_status_in_each_scan() -> None:
    text = "Module;Code;Before;After\nECM;P0562;stored;-\nECM;P0118;stored;current\nABS;U0100;stored;-\n"
    assert told(text) == [
        ("before-clear", [("engine control", True, [("P0562", "stored"), ("P0118", "stored")]),
                          ("anti-lock brakes", True, [("U0100", "stored")])]),
        ("after-clear", [("engine control", True, [("P0118", "current")]), ("anti-lock brakes", True, [])])]


def test_a_column_that_names_the_scan_of_each_row() -> None:
    text = ("Scan\tUnit\tDTC\tState\npost-clear scan\tBrakes\tC0336\tactive\nafter road test\tBrakes\tnone\t\n"
            "after road test\tCamera 1\ttimed out\t\n")
    assert told(text) == [
        ("after-clear", [("anti-lock brakes", True, [("C0336", "current")])]),
        ("after-run", [("anti-lock brakes", True, []), ("camera 1", False, [])])]


def test_a_table_without_two_scans_stays_as_it_is() -> None:
    ((_, modules),) = told("Module | Code | After clear\nECM | P0562 | stored\n")
    assert modules == [("engine control", True, [("P0562", "stored")])]
