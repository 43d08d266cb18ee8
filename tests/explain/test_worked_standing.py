"""Sensors of steering and brakes that no drive may settle are worked with the vehicle standing (common practice).

The vehicles are invented.
"""

from __future__ import annotations

from made_sessions import FLAT, HELD, RUNS, Json, job, scan, snapshot, tables

from triage.assess import assess
from triage.model.assessment import Assessment

DROVE: Json = {**RUNS, "drove": True, "ran_minutes": 25}
LOCKS, PEDAL = "work the steering from lock to lock", "press the brake pedal"


def page(module: str, *codes: Json | str, keeps_off: bool = True) -> Assessment:
    """Codes seen at a low supply alone, quiet in drives since; ``keeps_off``: a silent airbag keeps it off the road."""
    bags: Json = {"module": "restraints", "responds": False, "codes": []} if keeps_off else scan("restraints")
    shots = [snapshot(phase, scan(module, *(codes if phase == "before-clear" else ())), scan("engine control"), bags,
                      **supply)
             for phase, supply in (("before-clear", FLAT), ("after-clear", HELD), *[("after-run", DROVE)] * 2)]
    return assess(job(*shots), tables())


def worked(found: Assessment, words: str) -> list[str]:
    return [name.split()[-1] for check in found.next_checks if check["do"].startswith(words)
            for name in check["settles"]]


def test_steering_is_worked_from_lock_to_lock() -> None:
    code = {"code": "C0545", "text": "steering torque sensor", "status": "stored"}
    found = page("power steering", code)
    settled = [name for check in found.next_checks for name in check["settles"]]
    assert any(name.endswith("C0545") for name in settled)
    assert worked(found, LOCKS) == ["C0545"]


def test_a_pressure_is_held_against_the_pedal_and_a_wheel_speed_is_not() -> None:
    assert worked(page("brake system", "C0044"), PEDAL) == ["C0044"]
    assert not worked(page("brake system", "C0034"), PEDAL)


def test_what_another_step_settles_asks_for_no_second_one() -> None:
    found = page("brake system", "C0044", keeps_off=False)
    assert any(check["do"].startswith("drive 20") for check in found.next_checks)
    assert not worked(found, PEDAL)
