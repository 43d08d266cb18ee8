"""A line that says the status of all codes of a scan at once. All invented; wordings: common practice."""

from __future__ import annotations

import pytest

from code_tables import load
from tests.intake.reads import modules_of
from triage.intake.plain.characters import low
from triage.intake.read import read_text
from triage.intake.said import ofall


def statuses(text: str) -> list[set[str | None]]:
    """The statuses of each scan."""
    return [{code.status for scan in snapshot.modules for code in scan.codes}
            for snapshot in read_text(text, load()).snapshots]


SAID = [
    ("Note: all codes in this scan are stored, none active", "stored"),
    ("(every fault below is present now)", "current"),
    ("Everything in this list is intermittent, nothing present at the moment", "stored"),
    ("All faults listed here are pending unless marked otherwise", "pending"),
    ("Remark: all of these are confirmed", "confirmed"), ("All DTCs active at the time of the scan.", "current"),
    ("Hinweis: Alle Einträge sind nur gespeichert, keiner aktiv", "stored"),
    ("Tous les défauts ci-dessous sont mémorisés, aucun présent", "stored"),
    ("Todas las averías de esta lectura están activas", "current"),
]


@pytest.mark.parametrize(("said", "status"), SAID)
@pytest.mark.parametrize("rows", ["ABS\n  C0035\n  U0100\nECM\n  P0562\n", "ABS;C0035;Wheel sensor\nECM;P0562;Supply\n",
                                  "C0035 | ABS\nP0562 | ECM\n", "| Module | DTC |\n|---|---|\n| ABS | C0035 |\n"])
def test_it_is_that_of_every_code_of_its_scan(said: str, status: str, rows: str) -> None:
    assert statuses(f"Before clear\n{said}\n{rows}\nAfter clear\n{rows}") == [{status}, {None}]
    assert statuses(f"Before clear\n{rows}\nAfter clear\n{said}\n{rows}") == [{None}, {status}]


def test_it_may_stand_behind_the_phase() -> None:
    text = "{}: all codes in this scan are {}\nABS: C0035\nECM: P0562\n"
    assert statuses(text.format("Before clear", "active") + "\n" + text.format("After 5 km", "stored")) == [
        {"current"}, {"stored"}]


def test_a_status_beside_a_code_says_more() -> None:
    assert modules_of("All codes are stored unless noted\n\nABS: C0035\nECM: P0562 (active)\nECM: P0606\n") == {
        "anti-lock brakes": ["C0035 stored"], "engine control": ["P0562 current", "P0606 stored"]}


def test_below_a_module_it_is_of_that_alone() -> None:
    found = modules_of("ECM\n  P0562\n  P0606\n  all pending\nABS\n  C0035\n")
    assert found["anti-lock brakes"] == ["C0035"]


def test_of_the_scan_it_may_stand_last() -> None:
    assert statuses("ABS: C0035\nECM: P0562\n\nAll codes in this scan are pending") == [{"pending"}]


@pytest.mark.parametrize("said", ["All systems active", "all doors present", "Everything is fine",
                                  "every module present", "all codes in this scan are stored, some active",
                                  "All of them were cleared"])
def test_other_words_for_all_say_no_status(said: str) -> None:
    assert ofall.told(low(said)) is None


@pytest.mark.parametrize("head", ["Full scan no. 2", "Complete scan 2:", "Quick read-out 2"])
def test_a_kind_of_scan_before_its_number(head: str) -> None:
    assert statuses(f"Scan 1\nABS: C0035 stored\n\n{head}\nABS: C0035 active\nECM: P0562 active\n") == [
        {"stored"}, {"current"}]
