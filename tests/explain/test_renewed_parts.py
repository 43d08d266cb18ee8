"""A part that was just replaced is watched at work, not tested again, and a wheel sensor is proved on the road.

Common practice; the vehicles are invented.
"""

from __future__ import annotations

import pytest
from made_sessions import FLAT, HELD, RUNS, Json, job, scan, snapshot, tables

from triage.assess import assess
from triage.model.assessment import Assessment

COOLANT, WHEEL = "P0118", {"code": "C0034", "failure_type": "12"}


def page(module: str, code: Json | str, note: str | None, *, back: bool = False) -> Assessment:
    """Seen before and after the clear, gone (or ``back``) in the run after ``note`` was replaced."""
    shots = [snapshot("before-clear", scan(module, code, "P0562"), scan("body control"), **FLAT),
             snapshot("after-clear", scan(module, code), scan("body control"), **HELD),
             snapshot("after-run", scan(module, *([code] if back else [])), scan("body control"), **RUNS)]
    events = [{"what": "replaced", "note": note}] if note is not None else []
    return assess(job(*shots, events=events), tables())


def steps(found: Assessment, code: str) -> list[str]:
    return [check["do"] for check in found.next_checks if code in check["do"]]


def test_a_renewed_sensor_is_watched() -> None:
    proof, *watched = steps(page("engine control", COOLANT, "coolant sensor"), COOLANT)
    assert proof.startswith("prove engine control P0118 after the repair: key off")
    assert watched == ["watch the live value of what was replaced for engine control P0118 from a cold start until it "
                       "is warm, connector and wiring moved meanwhile"]


@pytest.mark.parametrize("note", [None, "boost sensor", "battery", "sensor", "fuse 7"])
def test_another_part_says_nothing_of_it(note: str | None) -> None:
    assert not any(step.startswith("watch") for step in steps(page("engine control", COOLANT, note), COOLANT))


def test_a_code_that_is_back_is_looked_for() -> None:
    found = steps(page("engine control", COOLANT, "coolant sensor", back=True), COOLANT)
    assert found
    assert not any(step.startswith("watch") for step in found)


def test_its_module_is_the_old_one_and_other_faults_of_it_are_not_mended() -> None:
    with_part, without = (
        {fault["code"]: fault["decibans"] for fault in page("engine control", COOLANT, note).verdict["faults"]}
        for note in ("coolant sensor", None))
    assert with_part["P0118"] < without["P0118"] - 5.0
    assert with_part["P0562"] == pytest.approx(without["P0562"], abs=1.5)
    assert not any("program" in gate for gate in page("engine control", COOLANT, "coolant sensor").gates)


def test_a_wheel_sensor_is_proved_on_the_road() -> None:
    note = "right front wheel speed sensor"
    found = page("anti-lock brakes", WHEEL, note)
    (proof,) = [line for line in found.verification if line.code == "C0034-12"]
    assert "drive above 40 km/h" in str(proof.proves)
    # Nobody takes apart what was just mended, and nobody is sent onto the road before the standing test.
    (step,) = [check for check in found.next_checks if "C0034" in check["do"]]
    assert step["do"].startswith("prove anti-lock brakes C0034-12 after the repair: ")
    assert step["do"].index("at a standstill") < step["do"].index("drive above 40 km/h")
    assert "walking pace first" in str(step["gate"])
    sums = [next(fault["decibans"] for fault in page("anti-lock brakes", WHEEL, part).verdict["faults"]
                 if fault["code"] == "C0034") for part in (note, None)]
    assert sums[0] > sums[1] - 1.0
