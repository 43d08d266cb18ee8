"""Nobody is sent onto the road while brakes, steering, restraints or the gateway do not answer (common practice).

The vehicles are invented.
"""

from __future__ import annotations

import pytest
from made_sessions import FLAT, HELD, Json, job, scan, snapshot, tables

from triage.assess import assess

DRIVE = "drive 20 minutes"


def silent(module: str) -> Json:
    return {"module": module, "responds": False, "codes": []}


def drives(*shots: tuple[str, list[Json]]) -> bool:
    """Whether a drive is among the steps, for a code that wants one."""
    made = [snapshot(phase, scan("engine control", "P0420"), scan("body control"), *more,
                     **(FLAT if phase == "before-clear" else HELD)) for phase, more in shots]
    return any(check["do"].startswith(DRIVE) for check in assess(job(*made), tables()).next_checks)


@pytest.mark.parametrize("module", ["anti-lock brakes", "power steering", "restraints", "gateway"])
def test_a_silent_module_of_safety_keeps_it_off_the_road(module: str) -> None:
    assert not drives(("before-clear", [silent(module)]))
    assert not drives(("before-clear", [scan(module)]), ("after-clear", [silent(module)]))
    assert drives(("before-clear", [scan(module)]))


def test_what_answers_again_or_is_of_comfort_does_not() -> None:
    assert drives(("before-clear", [silent("anti-lock brakes")]), ("after-clear", [scan("anti-lock brakes")]))
    assert drives(("before-clear", [silent("radio")]))


def test_a_second_name_for_work_that_another_one_does_may_not_be_fitted() -> None:
    assert drives(("before-clear", [scan("anti-lock brakes"), silent("vehicle dynamics")]))
    assert drives(("before-clear", [silent("trailer brakes")]))
