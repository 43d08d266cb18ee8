"""What is there is looked at before it is cleared, and what came back is named. Common practice; invented sessions."""

from __future__ import annotations

from typing import Any

from made_sessions import code, job, tables, van

from triage.assess import assess
from triage.model.session import Session
from triage.reports.brief import brief

GOOD: dict[str, Any] = {"volts": 12.6, "outside_supply": "none", "engine": "off"}
NOW = {"anti-lock brakes": [code("C0037", "14", status="current")]}
RUN: dict[str, Any] = {"volts": 14.2, "engine": "running", "ran_minutes": 15, "outside_supply": "none"}


def steps(session: Session, text: str) -> list[str]:
    return [check["do"] for check in assess(session, tables()).verdict["next_checks"]
            if any(text in name for name in check["settles"])]


def test_what_is_current_at_a_good_supply_is_looked_at_and_not_cleared() -> None:
    first, *rest = steps(job(van("before-clear", NOW, **GOOD)), "C0037")
    assert first.startswith("test the circuit of")
    assert not any(step.startswith(("hold the supply, clear", "run the engine", "drive 20 minutes")) for step in rest)


def test_so_is_what_came_back_and_is_stored_at_last() -> None:
    held = {"engine control": [code("P2138", status="stored")]}
    session = job(van("before-clear", held, volts=10.8), van("after-run", {}, **RUN), van("after-run", held, **RUN))
    assert steps(session, "P2138")[0].startswith("test the circuit of")
    assert not any(step.startswith("hold the supply, clear") for step in steps(session, "P2138"))


def test_what_a_low_supply_may_have_set_is_cleared_first() -> None:
    low = job(van("before-clear", NOW, volts=9.4, outside_supply="none"))
    assert steps(low, "C0037")[0].startswith("hold the supply, clear")
    stored = job(van("before-clear", {"anti-lock brakes": [code("C0037", "14", status="stored")]}, **GOOD))
    assert any(step.startswith("hold the supply, clear") for step in steps(stored, "C0037"))


def test_a_supply_that_nobody_read_is_good_enough_where_nothing_speaks_of_a_low_one() -> None:
    assert not any(step.startswith("hold the supply, clear") for step in steps(job(van("before-clear", NOW)), "C0037"))
    low = {**NOW, "engine control": ["P0562"], "body control": ["U3003"]}
    assert any(step.startswith("hold the supply, clear") for step in steps(job(van("before-clear", low)), "C0037"))


def test_the_brief_names_what_came_back_however_unlikely_it_is_called() -> None:
    held = {"engine control": [code("P2138", status="stored"), code("P0562", status="stored")]}
    lone = {"engine control": [code("P2138", status="stored")]}
    back = brief(assess(job(van("before-clear", held, volts=10.8), van("after-clear", {}),
                            van("after-run", lone)), tables()))
    gone = brief(assess(job(van("before-clear", held, volts=10.8), van("after-clear", {}), van("after-run", {})),
                        tables()))
    assert "came back after the clear, still open: engine control P2138" in back
    assert len(back.splitlines()) == 5
    assert "P2138" not in gone.splitlines()[2]
