"""Where the printed words name another place or part than the tables, they are told first (common practice: the module
at hand is the maker's, and its number may mean another circuit than the standard's)."""

from __future__ import annotations

import pytest
from made_sessions import HELD, job, scan, snapshot, tables

from triage.assess import assess
from triage.explain.meaning import meaning
from triage.explain.printed_conflict import conflicts


@pytest.mark.parametrize(("code", "text"), [
    ("B0004", "Driver frontal stage 2"), ("B0004", "Fahrerairbag Stufe 2"), ("B0028", "airbag cortina derecha"),
    ("B0028", "airbag rideau droit"), ("B0020", "right side airbag"),
    ("U0121", "lost communication with trailer brakes"),
    ("U0121", "Kommunikation mit Anhänger gestört"), ("C0031", "right front wheel speed sensor"),
    ("C0031", "capteur de roue avant droite"), ("C0031", "sensor rueda trasera izquierda"),
    ("C0031", "rf wheel speed"), ("C0031", "Drehzahlfühler VR"), ("C0031", "capteur roue AVD"), ("C0031", "LR sensor"),
])
def test_the_printed_words_go_first(code: str, text: str) -> None:
    facts = tables().facts(code)
    told = meaning(facts, [text])
    assert told == f'"{text}" as printed; the standard list has {facts.title}: go by the maker\'s list'


@pytest.mark.parametrize(("code", "text"), [
    ("B0004", "Driver knee bag"), ("B0001", "driver front airbag stage 1"), ("B0020", "airbag latéral gauche"),
    ("U0121", "lost communication with ABS"), ("C0031", "Drehzahlfühler vorn links"),
    ("C0031", "wheel sensor LH front"), ("C0031", "LF wheel speed"), ("C0031", "Drehzahlfühler VL"),
    ("C0031", "wheel sensor"), ("P0504", "brake switch A/B left unplugged"),
])
def test_other_words_for_the_same_are_no_conflict(code: str, text: str) -> None:
    assert meaning(tables().facts(code), [text]) == tables().facts(code).title


def test_stages_count_only_in_restraints() -> None:
    assert conflicts("front airbag, stage 1", "front airbag stage 2", restraints=True)
    assert not conflicts("heater stage 1", "heater stage 2")


def test_the_check_names_what_was_printed() -> None:
    holds = scan("restraints", {"code": "B0004", "text": "Driver frontal stage 2", "status": "current"})
    made = job(*(snapshot(phase, holds, scan("engine control"), **HELD) for phase in ("before-clear", "after-clear")))
    checks = assess(made, tables()).next_checks
    assert any('"Driver frontal stage 2" as printed' in str(check["where"]) for check in checks)
