"""The condition a complaint names stands in the steps: a test without the trigger says little (common practice)."""

from __future__ import annotations

import pytest
from made_sessions import DRIVEN, FLAT, HELD, RUNS, job, scan, snapshot, tables

from triage.assess import assess
from triage.model.session import Session, Vehicle
from triage.model.triggers import trigger_of


@pytest.mark.parametrize(("said", "name"), [
    ("loses power in heavy rain, fine the day after", "wet"), ("brake lamp on when it is wet", "wet"),
    ("Ausfall bei Regen", "wet"), ("panne sous la pluie", "wet"), ("lamp on when turning left", "steering"),
    ("cuts out over speed humps", "bumps"), ("Ruckeln bei K\u00e4lte", "cold"), ("stalls when warm", "heat"),
    ("cluster goes dark with the headlights on", "load"), ("misfires on cold starts, then in rain too", "cold"),
    ("ESP lamp above 40 km/h", "speed"), ("vibrates over 60mph", "speed"), ("Warnleuchte ab 80 km/h", "speed"),
])
def test_what_a_complaint_says_of_the_condition(said: str, name: str) -> None:
    found = trigger_of(said)
    assert found is not None
    assert found.name == name


@pytest.mark.parametrize("said", [
    None, "", "battery flat after a cold week, lights left on", "does not start", "stood in the cold for a month",
    "charge warning lamp on", "above 40 bar", "left the wet weather gear in it"])
def test_other_complaints_name_none(said: str | None) -> None:
    assert trigger_of(said) is None


def came_and_went(complaint: str | None) -> Session:
    holds, clean = scan("engine control", "P0102"), scan("engine control")
    made = job(snapshot("before-clear", holds, **FLAT), snapshot("after-clear", clean, **HELD),
               snapshot("after-run", clean, **DRIVEN), snapshot("after-run", holds, **RUNS))
    return made.model_copy(update={"vehicle": Vehicle(complaint=complaint)})


def steps(complaint: str | None) -> list[str]:
    return [check["do"] for check in assess(came_and_went(complaint), tables()).next_checks]


def test_the_circuit_is_tested_under_its_trigger() -> None:
    told = steps("loses power in heavy rain")
    assert any(step.startswith("test the circuit of engine control P0102 with water sprayed on") for step in told)
    assert not any("sprayed" in step for step in steps(None))


def test_the_road_test_meets_the_trigger() -> None:
    assert any("in rain or on a wet road, as the complaint says, then read" in step
               for step in steps("loses power in heavy rain") if step.startswith("drive"))
    assert any("above 40 km/h, where the law allows, as the complaint says, then read" in step
               for step in steps("engine lamp above 40 km/h") if step.startswith("drive"))


def test_nobody_sprays_high_voltage() -> None:
    holds, clean = scan("battery energy control", "P0A0D"), scan("battery energy control")
    made = job(snapshot("before-clear", holds, **FLAT), snapshot("after-clear", clean, **HELD),
               snapshot("after-run", holds, **RUNS)).model_copy(update={"vehicle": Vehicle(complaint="warns in rain")})
    assert not any("water" in check["do"] for check in assess(made, tables()).next_checks)
