"""A step stands for what the steps before it leave in doubt: a run does not test once more what a clear has tested.

Order of work: common practice. All invented.
"""

from __future__ import annotations

from typing import Any

from made_sessions import FLAT, HELD, RUNS, Json, job, tables, van

from triage.assess import assess
from triage.model.verdict import NextCheck

CLEAR, RUN, DRIVE, WORK = "hold the supply, clear", "run the engine", "drive 20 minutes", "work what the codes name"
ALONE: Json = HELD | {"outside_supply": "none"}


def checks(before: dict[str, list[Any]], *after: Json, **rest: Any) -> dict[str, NextCheck]:
    """The steps that only read again, by how they begin."""
    made = job(van("before-clear", before, **FLAT), *after, **rest)
    told = assess(made, tables()).next_checks
    return {words: check for words in (CLEAR, RUN, DRIVE, WORK) for check in told if check["do"].startswith(words)}


def test_a_run_that_tells_of_the_charging_too_leaves_nothing_to_a_second_clear() -> None:
    # Gone after one clear, tested with the key on alone: the run reads it again on its way.
    told = checks({"body control": ["B1342"], "engine control": ["P0118"]}, van("after-clear", **ALONE))
    assert RUN in told
    assert CLEAR not in told


def test_without_a_clear_it_comes_first_and_the_run_for_what_wants_one() -> None:
    told = checks({"engine control": ["P0118", "P0171"]})
    assert "engine control P0118" in told[CLEAR]["settles"]
    assert "engine control P0171" in told[RUN]["settles"]
    assert "engine control P0118" not in told[RUN]["settles"]


def test_what_adds_next_to_nothing_is_no_line_but_for_a_safety_class() -> None:
    def told(module: str, code: str) -> dict[str, NextCheck]:
        return checks({module: [code]}, van("after-clear", **ALONE), van("after-run", **RUNS), van("after-run", **RUNS))

    assert not told("body control", "B1342")
    safety = told("restraints", "B1325")
    assert len(safety) == 1
    assert next(iter(safety.values()))["gain_bits"] < 0.2


def test_the_loss_of_a_module_that_stays_silent_is_asked_at_that_module_alone() -> None:
    lost = {"engine control": ["U0140"], "instrument cluster": ["U0140"]}
    held = van("after-clear", {"instrument cluster": ["U0140"]}, silent=["body control"], **ALONE)
    told = checks(lost, held)
    assert not any("U0140" in name for check in told.values() for name in check["settles"])
