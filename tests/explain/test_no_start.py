"""A run is no first step at a vehicle whose engine does not start."""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import HELD, RUNS, job, tables, van

from triage.assess import verdicts

HOLDS: dict[str, list[Any]] = {"engine control": ["P0335", "P0171", "P0420"]}


def gates(complaint: str | None, *last: dict[str, Any]) -> list[str]:
    session = job(van("before-clear", HOLDS, **HELD), van("after-clear", {"engine control": ["P0335"]}, **HELD), *last,
                  vehicle={"complaint": complaint})
    return [check["gate"] or "" for check in verdicts([session], tables())[0]["next_checks"]
            if check["do"].startswith(("run the engine", "drive"))]


@pytest.mark.parametrize("complaint", [
    "won't crank", "wont start", "engine does not start", "no crank", "no-start", "springt nicht an",
    "ne d\u00e9marre pas"])
def test_what_does_not_start_is_looked_for_before_a_run(complaint: str) -> None:
    # Common practice.
    found = gates(complaint)
    assert found
    assert all(gate.startswith("once it starts: the complaint says that it does not") for gate in found)


@pytest.mark.parametrize("complaint", [None, "lamps on", "starts badly when hot", "no notes"])
def test_any_other_complaint_changes_nothing(complaint: str | None) -> None:
    assert not any("once it starts" in gate for gate in gates(complaint))


def test_an_engine_that_ran_since_has_started() -> None:
    assert not any("once it starts" in gate for gate in gates("won't start", van("after-run", {}, **RUNS)))
