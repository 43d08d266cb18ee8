"""A code's printed text may name the lost module otherwise than the scan does: the one it can only mean is meant."""

from __future__ import annotations

from typing import Any

from made_sessions import FLAT, HELD, job, scan, snapshot, tables

from triage.assess import assess

REPORT = {"code": "U1120", "text": "lost comms rear module", "status": "current"}


def page(*others: dict[str, Any]) -> list[str]:
    shots = [snapshot(phase, scan("engine control"), scan("body control", REPORT), *others, **supply)
             for phase, supply in (("before-clear", FLAT), ("after-clear", HELD))]
    return [root.title for root in assess(job(*shots), tables()).short_list]


def silent(name: str, printed: str | None = None) -> dict[str, Any]:
    return {"module": name, "printed": printed, "codes": [], "responds": False}


def test_the_silent_module_is_the_root_and_not_the_one_that_complains() -> None:
    assert page(silent("power distribution, rear", "rear fuse box module"))[0].startswith(
        "rear fuse box module is silent")
    assert page(silent("rear load unit"))[0].startswith("rear load unit is silent")


def test_of_two_that_it_can_mean_none_is_taken() -> None:
    assert page(silent("power distribution, rear"), silent("camera, rear"))[0].startswith("body control U1120")
