"""The record of a crash is an event of the past: no low supply writes one, no run settles it (common practice)."""

from __future__ import annotations

import pytest
from made_sessions import FLAT, HELD, RUNS, job, scan, snapshot, tables

from triage.assess import assess
from triage.model.crash import tells_crash
from triage.reports.view import view

RECORD = {"code": "B1193", "text": "Crash event stored, deployment record", "status": "permanent"}
FAULT = {"code": "B0028", "status": "current"}


def test_it_is_told_as_a_record_and_no_step_waits_for_it() -> None:
    holds = scan("restraints", RECORD, FAULT)
    made = job(*(snapshot(phase, holds, scan("body control"), scan("engine control"), **supply) for phase, supply in (
        ("before-clear", FLAT), ("after-clear", HELD), ("after-run", RUNS))))
    page = assess(made, tables())
    line = next(line for group in page.unsettled for line in group.lines if line.verdict["code"] == "B1193")
    assert line.record
    assert "a record of an event, not weighed as a fault: no low supply writes one" in line.why
    assert not any("dip" in reason for reason in line.why)
    assert not any("B1193" in fault for check in page.next_checks for fault in check["settles"])
    shown = [found.sure for group in view(page).unsettled for found in group.lines if found.code == "B1193"]
    assert shown[0].startswith("stored record of a crash; as a fault of its own")


@pytest.mark.parametrize("text", [
    "crash data locked", "collision recorded", "impact event stored", "deployment commanded",
    "Aufpralldaten gespeichert", "Crash-Ereignis", "Kollision erkannt", "Auslösung aufgezeichnet",
    "enregistrement de choc, verrouillé", "données de collision", "choc mémorisé", "déclenchement airbag enregistré",
    "datos de choque bloqueados", "registro de colisión", "impacto detectado", "disparo de airbag registrado",
])
def test_it_is_known_by_its_words_in_four_languages(text: str) -> None:
    assert tells_crash(text)
    holds = scan("restraints", {"code": "B1A52", "text": text, "status": "current"})
    page = assess(job(snapshot("before-clear", holds, scan("engine control"), volts=12.6)), tables())
    assert any("Crashed vehicle" in caution for caution in page.cautions)
    assert not any("B1A52 tested" in check["do"] for check in page.next_checks)


@pytest.mark.parametrize("text", [
    "crash sensor stored", "Crashsensor gespeichert", "Aufprallsensor erkannt", "capteur de choc mémorisé",
    "sensor de impacto memorizado", "sensor de choque, datos inválidos", "crash data line, short to ground",
    "collision warning stored", "no crash data stored", "aucun choc mémorisé", "sin datos de choque",
])
def test_a_part_that_feels_a_crash_and_a_denied_one_are_no_record(text: str) -> None:
    assert not tells_crash(text)
