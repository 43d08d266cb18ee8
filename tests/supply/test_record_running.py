"""A scan read at a good voltage and measured once more under load: the later one decides (common practice)."""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import FLAT, job, scan, snapshot, tables

from triage.assess import verdicts
from triage.model.session import Event


@pytest.mark.parametrize(("volts", "later", "state"), [
    (13.9, 11.6, "failed"), (13.8, 12.6, "failed"), (13.8, 13.0, "not tested"),
    (12.4, 14.1, "proven"), (13.9, 14.1, "proven"),
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


@pytest.mark.parametrize(("outside", "events", "state"), [
    (["donor vehicle", "none"], [], "proven"), (["donor vehicle", "none"], ["outside supply on"], "proven"),
    # Connected again, nobody said that it was taken off, or the flat vehicle was started by nobody knows what.
    (["donor vehicle", "none"], ["outside supply on", "outside supply on"], "not tested"),
    (["none", "donor vehicle"], [], "not tested"), (["none", "none"], [], "not tested")])
def test_what_an_earlier_scan_had_connected_was_taken_off(outside: list[str], events: list[Any], state: str) -> None:
    """"Donor connected", "donor off", "ran 8 min, 14.2 V": the last is the vehicle's own charging."""
    shots = [snapshot(phase, scan("engine control"), **FLAT | {"outside_supply": kind})
             for phase, kind in zip(("before-clear", "after-clear"), outside, strict=True)]
    made = job(*shots, snapshot("after-run", scan("engine control"), volts=14.2, ran_minutes=8))
    made = made.model_copy(update={"events": [Event(what=what) for what in events]})
    charging = next(row for row in verdicts([made], tables())[0]["supply"] if row["part"] == "charging")
    assert charging["state"] == state


@pytest.mark.parametrize(("shots", "state"), [
    # Below what commanded charging goes down to (12.2 V), or with no more than the battery had standing.
    ([("off", 12.7), ("running", 12.1)], "failed"), ([("off", 12.6), ("running", 12.6)], "failed"),
    # Falling while it runs, where a command holds a level or raises it.
    ([("off", 12.3), ("running", 12.7), ("running", 12.4)], "failed"),
    # A level above the standing one that is held, and a full battery rested after it was charged, may be commanded.
    ([("off", 12.3), ("running", 12.7), ("running", 12.7)], "not tested"),
    ([("off", 12.3), ("running", 14.2), ("running", 12.7)], "not tested"),
    ([("off", 12.9), ("running", 12.9)], "not tested"), ([("off", 12.7), ("running", 14.2)], "proven")])
@pytest.mark.parametrize("times", [1.0, 2.0])
def test_a_voltage_between_is_judged_by_rest_and_by_its_trend(
    shots: list[tuple[str, float]], state: str, times: float,
) -> None:
    """Common practice: what lies no higher than at rest, or falls on, is a battery that feeds the vehicle alone."""
    made = job(*(snapshot("after-clear", scan("engine control"), volts=volts * times, engine=engine,
                          outside_supply="none") for engine, volts in shots),
               vehicle={"nominal_volts": 12.0 * times})
    charging = next(row for row in verdicts([made], tables())[0]["supply"] if row["part"] == "charging")
    assert charging["state"] == state


def test_an_unnoted_supply_could_only_raise_what_is_too_low() -> None:
    made = job(snapshot("after-clear", scan("engine control"), volts=12.6, engine="off"),
               snapshot("after-run", scan("engine control"), volts=12.4, engine="running"))
    charging = next(row for row in verdicts([made], tables())[0]["supply"] if row["part"] == "charging")
    assert charging["state"] == "failed"
    assert "could only raise it" in charging["why"]


def test_a_second_meter_takes_no_verdict_away() -> None:
    """12.2 V running, no more than at rest: it does not charge; another meter that reads 12.0 V beside it decides
    nothing more (common practice)."""
    rest = snapshot("after-clear", scan("engine control"), volts=12.6, engine="off", outside_supply="none")
    for readings in ([], [{"name": "voltage running, tester shows", "value": 12.0, "unit": "V"}]):
        # Nobody says once more that nothing is connected: the charger was taken off before.
        run = snapshot("after-run", scan("engine control"), volts=12.2, engine="running", ran_minutes=20,
                       readings=readings)
        made = job(snapshot("before-clear", scan("engine control", "P0562"), volts=11.7, engine="off"), rest, run)
        made = made.model_copy(update={"events": [Event(what="outside supply on"), Event(what="outside supply off")]})
        charging = next(row for row in verdicts([made], tables())[0]["supply"] if row["part"] == "charging")
        assert charging["state"] == "failed"


def test_what_would_prove_the_charging_is_told_with_its_condition() -> None:
    run = snapshot("after-run", scan("engine control"), volts=13.9, engine="running", ran_minutes=20)
    made = job(snapshot("before-clear", scan("engine control", "P0562"), **FLAT), run)
    charging = next(row for row in verdicts([made], tables())[0]["supply"] if row["part"] == "charging")
    assert charging["state"] == "not tested"
    assert "or more with nothing connected proves it" in charging["why"]
