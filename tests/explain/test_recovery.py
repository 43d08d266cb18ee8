"""A programming that broke off is finished before anything else. Rules of the trade: common practice."""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import FLAT, HELD, code, job, scan, snapshot, tables

from triage.assess import assess, verdicts

FIRST = "finish the programming of transmission control"
ABORTED = {"what": "programmed", "module": "transmission control", "answer": "refused", "at": "2026-04-07T09:30:00Z"}


def steps(held: tuple[str, str], *events: dict[str, Any]) -> list[dict[str, Any]]:
    entry = code(held[0], status=held[1])
    shots = [snapshot("before-clear", scan("transmission control", entry), scan("anti-lock brakes", "U0101"), **FLAT),
             snapshot("after-clear", scan("transmission control", entry), scan("anti-lock brakes"), **HELD)]
    made = job(*shots, events=[*events, {"what": "cleared", "answer": "accepted"}])
    return list(verdicts([made], tables())[0]["next_checks"])


@pytest.mark.parametrize(("held", "events"), [
    (("P0602", "current"), ()), (("P0602", "current"), (ABORTED,)), (("P0715", "stored"), (ABORTED,)),
])
def test_it_goes_first_and_nothing_is_cleared_or_run_before(held: tuple[str, str], events: tuple[Any, ...]) -> None:
    found = steps(held, *events)
    assert found[0]["do"].startswith(FIRST)
    later = [step for step in found[1:] if step["do"].startswith(("run the engine", "hold the supply, clear", "drive"))]
    assert later
    assert all("programming of transmission control finished first" in step["gate"] for step in later)


@pytest.mark.parametrize("events", [
    (), ({**ABORTED, "answer": "accepted"},), (ABORTED, {**ABORTED, "answer": None, "at": "2026-04-07T10:30:00Z"}),
])
def test_one_that_ended_well_asks_for_nothing(events: tuple[Any, ...]) -> None:
    assert not any(step["do"].startswith(FIRST) for step in steps(("P0715", "stored"), *events))


@pytest.mark.parametrize(("day", "told"), [
    ("2026-03-02T10:30:00Z", "only 10.7 V"), ("2026-03-02T00:00:00Z", "only 10.7 V"),
    ("2026-02-20T00:00:00Z", "not on record"), ("2025-11-04T15:00:00Z", "not on record"),
])
def test_the_battery_of_another_day_tells_nothing_of_a_programming(day: str, told: str) -> None:
    event = {"what": "programmed", "module": "anti-lock brakes", "at": day}
    shots = [snapshot("before-clear", scan("anti-lock brakes", "C0040"), volts=10.7, engine="off",
                      at="2026-03-02T09:00:00Z")]
    (gate,) = assess(job(*shots, events=[event]), tables()).gates
    assert told in gate


@pytest.mark.parametrize(("events", "told"), [((ABORTED,), True), ((), False)])
def test_one_that_is_silent_since_is_told_by_its_programming(events: tuple[Any, ...], told: bool) -> None:
    silent = {"module": "transmission control", "responds": False, "codes": []}
    others = [scan(name, "U0101") for name in ("engine control", "instrument cluster")]
    found = assess(job(snapshot("before-clear", silent, *others, **FLAT),
                       snapshot("after-clear", silent, *others, **HELD),
                       events=[*events, {"what": "cleared", "answer": "accepted"}]), tables())
    assert ("its programming was refused or broke off: finish that" in found.short_list[0].title) is told
