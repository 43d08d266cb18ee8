"""A key-off draw in pulses is judged by its mean (50 mA: limits.csv). All invented."""

from __future__ import annotations

import pytest
from made_sessions import FLAT, job, tables, van

from triage.assess import assess
from triage.model.session import session_from
from triage.supply.wakes import woken


def draw(name: str, value: float, unit: str = "A", rest: float = 20.0) -> tuple[str, str] | None:
    readings = [{"name": "key-off draw after 40 min", "value": rest, "unit": "mA"},
                {"name": name, "value": value, "unit": unit}]
    return woken(session_from({"job": "j", "snapshots": [
        {"phase": "before-clear", "modules": [], "readings": readings}]}))


@pytest.mark.parametrize(("name", "value", "mean"), [
    # (3000 mA x 1 min + 20 mA x 5 min) / 6 min = 516.7 mA
    ("key-off draw jumps every 6 minutes for 1 minute", 3.0, 517),
    # (1200 mA x 30 s + 20 mA x 870 s) / 900 s = 59.3 mA
    ("Ruhestrom alle 15 min für 30 s", 1.2, 59)])
def test_the_mean_decides(name: str, value: float, mean: int) -> None:
    state, why = draw(name, value) or ("", "")
    assert state == "failed"
    assert f"{mean} mA on average against 50 mA: a module that wakes" in why


def test_a_short_wake_up_now_and_then_passes() -> None:
    assert (draw("key-off draw every 60 min for 20 s", 1.0) or ("", ""))[0] == "proven"


def test_without_a_length_it_stays_open() -> None:
    assert (draw("key-off draw rises every 10 min", 4.0) or ("", ""))[0] == "not tested"


def test_nothing_is_said_of_a_steady_draw() -> None:
    assert draw("key-off draw after 60 min", 0.3) is None


def test_the_module_that_wakes_is_looked_for() -> None:
    shot = van("before-clear", {"engine control": ["P0562"]}, **FLAT) | {"readings": [
        {"name": "key-off draw every 8 min for 1 min", "value": 4.0, "unit": "A"}]}
    assert assess(job(shot), tables()).next_checks[0]["do"].startswith("find the module that wakes")
