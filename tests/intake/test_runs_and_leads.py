"""A run told by its distance, and leads that are off again, as people say it. All invented; wordings: common
practice."""

from __future__ import annotations

import pytest

from code_tables import load
from triage.intake.read import read_text
from triage.intake.said import conditions
from triage.intake.said.outside import outside_supply
from triage.model.snapshot import Snapshot

_BEFORE = "before clear 10.9 V, jump pack on\nEngine: P0562 stored\nABS: C0034-13 active\n"


def _last(line: str) -> Snapshot:
    return read_text(f"{_BEFORE}{line}\nEngine: none\nABS: none\n", load()).snapshots[-1]


@pytest.mark.parametrize("line", [
    "run 15 km dry road, 14.3 V", "ran it 15 km, 14.3 V", "ran 10 miles, 14.2 V", "did 12 km, 14.1 V",
    "15 km gelaufen, 14,2 V", "10 km Runde, 14,2 V", "tourné 15 km, 14,2 V", "hecho 15 km, 14,2 V",
    "recorridos 10 km, 14,2 V", "10 km parcourus, 14,2 V",
])
def test_a_run_told_by_its_distance(line: str) -> None:
    scan = _last(f"cleared, accepted. {line}")
    assert (scan.phase, scan.drove) == ("after-run", True)


def test_scans_after_such_runs_are_after_a_run() -> None:
    text = (f"{_BEFORE}cleared, ok\nafter clear 12.6 V\nEngine: none\nABS: none\nrun 15 km, 14.3 V\nEngine: none\n"
            "ABS: none\nhosed the wheel arch, run 3 km, 14.3 V\nEngine: none\nABS: C0034-13 current\n")
    scans = read_text(text, load()).snapshots
    assert [scan.phase for scan in scans] == ["before-clear", "after-clear", "after-run", "after-run"]


@pytest.mark.parametrize("low", ["has run 120000 km", "to run 15 km", "runs rough since 300 km", "did not run 15 km",
                                 "ran 15 km ago"])
def test_what_counts_or_is_still_to_be_run_is_no_run(low: str) -> None:
    assert not conditions.find(low).drove


@pytest.mark.parametrize("line", [
    "pulled the pack, 12.6 V", "leads off, 13.9 V", "took the leads off, 13.9 V", "Kabel ab, 13,9 V",
    "pince retirée, 13,9 V", "pinces retirées, 13,9 V", "pinzas quitadas, 13,9 V", "quité el arrancador, 13,9 V",
    "Starthilfekabel dran, läuft. 13,9 V, Kabel ab",
])
def test_what_was_taken_off_feeds_nothing(line: str) -> None:
    assert _last(line).outside_supply == "none"


@pytest.mark.parametrize(("low", "supply"), [
    ("spark plug leads off", None), ("pulled the battery pack", None), ("kabel ab werk", None),
    ("leads on", "donor vehicle"),
    ("jump leads on, engine off", "donor vehicle"),
])
def test_other_leads_and_leads_that_are_on(low: str, supply: str | None) -> None:
    assert outside_supply(low) == supply
