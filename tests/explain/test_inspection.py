"""An inspection that the complaint tells of: what it waits for stands before all else (40 CFR 86.010-18 (b)(3)(iii),
(k)(4)(i): a clear sets every monitor back, a permanent code goes by its own monitor)."""

from __future__ import annotations

import pytest
from made_sessions import HELD, RUNS, Json, code, job, scan, snapshot, tables

from triage.assess import assess
from triage.intake.said.complained import clauses
from triage.intake.said.readiness import told


def gate(complaint: str | None, readiness: Json | None) -> list[str]:
    read: Json = {"readiness": readiness} if readiness else {}
    permanent = scan("engine control", code("P0420", status="permanent"))
    return assess(job(
        snapshot("before-clear", scan("engine control", code("P0420", status="confirmed")), **HELD),
        snapshot("after-clear", permanent, **HELD), snapshot("after-run", permanent, **RUNS, **read),
        events=[{"what": "cleared", "answer": "accepted"}],
        vehicle={"complaint": complaint} if complaint else None), tables()).gates


def test_what_it_waits_for_comes_first() -> None:
    (one,) = gate("emission inspection on Thursday", {"misfire": "complete", "catalyst": "incomplete"})
    assert "do not clear once more; not complete yet: catalyst" in one
    assert "permanent P0420 goes when its own monitor has run and passed" in one


def test_readiness_that_nobody_read_is_asked_for() -> None:
    (one,) = gate("TÜV am Freitag", None)
    assert "nobody read the readiness" in one


@pytest.mark.parametrize("complaint", [None, "MIL on since Monday"])
def test_without_one_nothing_is_said_of_it(complaint: str | None) -> None:
    assert gate(complaint, {"catalyst": "incomplete"}) == []


@pytest.mark.parametrize(("line", "said"), [
    ("Van, petrol, emission inspection on Friday. Battery renewed", ["emission inspection on Friday"]),
    ("Transporter, TÜV am Montag", ["TÜV am Montag"]),
    ("Fourgon, contrôle technique jeudi", ["contrôle technique jeudi"]),
    ("Furgoneta, ITV el lunes", ["ITV el lunes"]), ("visual inspection in the workshop ok", []),
    ("inspection done", [])])
def test_an_inspection_that_waits_is_a_complaint(line: str, said: list[str]) -> None:
    assert clauses(line) == said


@pytest.mark.parametrize("line", [
    "readiness: catalyst not ready, heater not ready, rest ready", "bereitschaft: kat nicht bereit, tank nicht bereit",
    "readiness: fuel ready, o2 sensor not ready, heater not ready, egr n/a"])
def test_monitors_are_read_by_their_short_names(line: str) -> None:
    assert told(line)
