"""A scan read at a good voltage and measured once more under load: the later one decides (common practice)."""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import FLAT, job, scan, snapshot, tables

from triage.assess import verdicts
from triage.model.session import Event


@pytest.mark.parametrize(("volts", "later", "state"), [
    (13.9, 11.6, "failed"), (13.8, 12.6, "not tested"), (12.4, 14.1, "proven"), (13.9, 14.1, "proven"),
    (12.4, 11.6, "failed")])
def test_the_measurement_under_load_decides(volts: float, later: float, state: str) -> None:
    alone = {"engine": "running", "outside_supply": "none", "volts": volts, "ran_minutes": 10}
    reading = {"name": "voltage running, after 20 min with headlights", "value": later, "unit": "V"}
    made = job(snapshot("before-clear", scan("engine control", "P0562"), **FLAT),
               snapshot("after-run", scan("engine control"), **alone, readings=[reading]))
    charging = next(row for row in verdicts([made], tables())[0]["supply"] if row["part"] == "charging")
    assert charging["state"] == state
    assert f"{later:.1f} V" in charging["why"] or later > volts


@pytest.mark.parametrize(("rest", "events", "state"), [
    ({"drove": True}, [], "proven"), ({}, [("outside supply on", None), ("outside supply off", None)], "proven"),
    ({"first": "charger"}, [("outside supply on", None), ("outside supply off", None)], "not tested"),
    ({}, [("outside supply on", None)], "not tested"), ({}, [], "not tested"),
    ({"drove": True, "outside_supply": "jump pack"}, [], "not tested"),
    ({}, [("outside supply off", None), ("outside supply on", None)], "not tested")])
def test_nothing_is_connected_on_the_road_or_once_it_was_taken_off(
    rest: dict[str, Any], events: list[tuple[Any, None]], state: str,
) -> None:
    before = FLAT | {"outside_supply": rest.get("first", "none")}
    rest = {key: value for key, value in rest.items() if key != "first"}
    made = job(snapshot("before-clear", scan("engine control", "P0562"), **before),
               snapshot("after-run", scan("engine control"), volts=14.3, engine="running", ran_minutes=40, **rest))
    made = made.model_copy(update={"events": [Event(what=what) for what, _ in events]})
    charging = next(row for row in verdicts([made], tables())[0]["supply"] if row["part"] == "charging")
    assert charging["state"] == state
