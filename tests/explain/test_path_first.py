"""A path that was measured bad comes before the modules it may starve, and before a start through it (common practice).

The vehicles are invented.
"""

from __future__ import annotations

from made_sessions import FLAT, HELD, Json, job, scan, snapshot, tables

from triage.assess import assess
from triage.model.verdict import NextCheck

DROP: Json = {"name": "voltage drop ground stud left inner wing", "value": 5.2, "unit": "V"}
GOOD: Json = {**DROP, "value": 0.05}
SILENT: Json = {"module": "anti-lock brakes", "responds": False, "codes": []}


def steps(reading: Json, *, silent: bool = True) -> list[NextCheck]:
    """The steps of two scans, the reading made after the last."""
    missed = ["U0121"] if silent else []
    modules = [scan("engine control", *missed, "P0171"), scan("instrument cluster", *missed),
               SILENT if silent else scan("anti-lock brakes")]
    shots = [snapshot("before-clear", *modules, **FLAT), snapshot("after-clear", *modules, **HELD, readings=[reading])]
    return assess(job(*shots), tables()).next_checks


def test_the_failed_path_comes_first() -> None:
    found = steps(DROP)
    assert found[0]["do"].startswith("follow the drop")
    assert found[0]["do"].endswith("then ask anti-lock brakes again")
    suspected = next(check for check in found if check["do"].startswith("check feed"))
    assert suspected["where"].startswith("once the path that failed is mended and it stays silent")


def test_a_sound_path_holds_nothing_back() -> None:
    found = steps(GOOD)
    assert not any(check["do"].startswith("follow the drop") for check in found)
    assert next(check for check in found if check["do"].startswith("check feed"))["where"].startswith("connector")


def test_nobody_starts_through_it() -> None:
    for reading, held in ((DROP, True), (GOOD, False)):
        starts = [str(check["gate"]) for check in steps(reading, silent=False)
                  if check["do"].startswith(("run the engine", "drive 20"))]
        assert starts
        assert all(("the path that failed mended first" in gate) is held for gate in starts)
