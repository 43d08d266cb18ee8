"""The five parts of the supply from what was measured, with the figures in the reason.

Limits: common practice of the trade (rested charge, load test at half the cold cranking current, 0.2 V on a ground and
0.5 V on the positive path, 50 mA once the modules sleep), as ``limits.csv`` cites them.
"""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import FLAT, HELD, RUNS, Json, job, scan, snapshot, tables, van

from triage.assess import verdicts
from triage.model.session import Event
from triage.model.snapshot import Reading
from triage.supply.named import measured


def reading(name: str, value: float, unit: str | None = "V", module: str | None = None) -> Json:
    return {"name": name, "value": value, "unit": unit, "module": module}


def supply(*readings: Json, shots: list[Json] | None = None, **rest: Any) -> dict[str, tuple[str, str]]:
    shots = shots or [van("before-clear", {"engine control": ["P0562"], "body control": ["U3003"]}, **FLAT),
                      van("after-clear", readings=list(readings), **HELD)]
    return {part["part"]: (part["state"], part["why"]) for part in verdicts([job(*shots, **rest)], tables())[0][
        "supply"]}


@pytest.mark.parametrize(("name", "value", "unit", "part", "state", "figure"), [
    ("load test", 10.1, "V", "battery", "proven", "10.10 V, against 9.60 V at"),
    ("load test at half CCA", 9.2, "V", "battery", "not tested", "in the cold it may pass"),
    ("load test", 8.1, "V", "battery", "failed", "8.10 V, against 9.60 V at"),
    ("rested voltage after 8 h", 12.65, "V", "battery", "not tested", "12.65 V after 8 h of rest"),
    ("rested voltage after 2 h", 12.65, "V", "battery", "not tested", "not rested, no estimate of charge"),
    ("Ruhespannung", 11.8, "V", "battery", "not tested", "flat"),
    ("cranking voltage", 8.9, "V", "battery", "not tested", "8.9 V while cranking, below 9.6 V"),
    ("crank plateau", 10.2, "V", "battery", "not tested", "above the 9.6 V of a warm engine"),
    ("charging voltage, nothing connected", 14.2, "V", "charging", "proven", "14.2 V, nothing connected: charging"),
    ("charging voltage, nothing connected", 11.6, "V", "charging", "failed", "not charging (below 12.0 V)"),
    ("charging voltage, jump pack connected", 14.2, "V", "charging", "not tested", "nothing is concluded"),
    ("ripple at the battery", 0.9, "V AC", "charging", "failed", "0.90 V AC: too much"),
    ("key-off draw after 60 min", 0.31, "A", "key-off draw", "failed", "310 mA 60 min after locking against 50 mA"),
    ("key-off draw after 5 min", 310, "mA", "key-off draw", "not tested", "too early"),
    ("parasitic draw", 32, "mA", "key-off draw", "proven", "32 mA against 50 mA"),
    ("voltage drop, engine ground", 0.45, "V", "cables and grounds", "failed", "0.45 V on the ground path under load"),
    ("voltage drop positive cable", 620, "mV", "cables and grounds", "failed", "0.62 V on the positive path"),
    ("ground drop", -0.1, "V", "cables and grounds", "not tested", "nobody measured the positive path"),
    ("voltage drop ground, no load", 0.1, "V", "cables and grounds", "not tested", "without load: proves nothing"),
    ("voltage drop", 0.15, "V", "cables and grounds", "proven", "passes on either path"),
    ("voltage drop", 0.35, "V", "cables and grounds", "not tested", "say which it was"),
    ("voltage drop", 0.9, "V", "cables and grounds", "failed", "too much for either path"),
])
def test_a_measurement_settles_its_part(
    name: str, value: float, unit: str, part: str, state: str, figure: str,
) -> None:
    found = supply(reading(name, value, unit))
    assert found[part][0] == state, found[part]
    assert figure in found[part][1]


@pytest.mark.parametrize(("name", "unit", "module"), [
    ("hybrid pack voltage at rest", "V", None), ("cell voltage drop", "V", None),
    ("target charging voltage", "V", None),
    ("crank request", None, None), ("hours at rest", "h", None), ("charging voltage", "V", "engine control"),
    ("coolant temperature", "°C", None), ("generator command", "%", None)])
def test_what_is_of_something_else_is_left_alone(name: str, unit: str | None, module: str | None) -> None:
    assert measured(Reading(name=name, value=1.0 if unit is None else 12.0, unit=unit, module=module)) is None


def test_both_paths_prove_the_cables() -> None:
    found = supply(reading("voltage drop ground", 0.08), reading("voltage drop positive", 0.3))
    assert found["cables and grounds"][0] == "proven"
    assert "0.08 V on the ground path" in found["cables and grounds"][1]
    assert "0.30 V on the positive path" in found["cables and grounds"][1]


def test_one_bad_drop_is_not_hidden_by_a_good_one_after_it() -> None:
    found = supply(reading("voltage drop engine ground", 0.45), reading("voltage drop body ground", 0.05))
    assert found["cables and grounds"][0] == "failed"


def test_the_same_place_measured_again_counts() -> None:
    found = supply(reading("voltage drop engine ground", 0.45), reading("voltage drop engine ground", 0.05))
    assert found["cables and grounds"][0] == "not tested"
    assert "0.45" not in found["cables and grounds"][1]


def test_a_battery_measured_at_rest_is_no_longer_found_discharged() -> None:
    assert supply()["battery"][1].startswith("discharged, 10.7 V with the engine off")
    later = supply(reading("rested voltage after 9 h", 12.7))["battery"]
    assert later[0] == "not tested"
    assert later[1].startswith("12.70 V after 9 h of rest")


def test_the_cold_lowers_the_limit_of_the_load_test() -> None:
    # Common practice: 8.5 V at -18 degrees Celsius, 9.6 V at 20 and above.
    assert supply(reading("battery temperature", -18, "°C"), reading("load test", 8.7))["battery"][0] == "proven"
    assert supply(reading("battery temperature", 21, "°C"), reading("load test", 8.7))["battery"][0] == "failed"


@pytest.mark.parametrize(("first", "second", "state"), [
    (13.1, 11.3, "failed"), (12.6, 12.5, "not tested"), (12.6, 12.3, "not tested")])
def test_one_bad_battery_of_a_pair_hides_in_the_sum(first: float, second: float, state: str) -> None:
    shots = [snapshot("before-clear", scan("engine control"), volts=24.4, engine="off", outside_supply="none",
                      readings=[reading("battery 1", first), reading("battery 2", second)])]
    found = supply(shots=shots, vehicle={"nominal_volts": 24})["battery"]
    assert found[0] == state
    assert f"pair {first:.2f} V and {second:.2f} V" in found[1]


@pytest.mark.parametrize(("name", "state"), [("battery {} stood overnight", "failed"), ("battery {}", "not tested")])
def test_an_uneven_pair_fails_only_rested(name: str, state: str) -> None:
    """Common practice: a surface charge of an engine that was only switched off makes a few tenths of a volt."""
    shots = [snapshot("before-clear", scan("engine control"), volts=24.9, engine="off", outside_supply="none",
                      readings=[reading(name.format(1), 12.6), reading(name.format(2), 12.3)])]
    found = supply(shots=shots, vehicle={"nominal_volts": 24})["battery"]
    assert found[0] == state
    assert ("uneven" in found[1]) is (state == "not tested")


def modules(eps: float, *others: float | None) -> Json:
    names = ("body control", "anti-lock brakes", "restraints")
    return snapshot("after-clear", scan("power steering", volts=eps), *[
        scan(name, **({} if volts is None else {"volts": volts})) for name, volts in zip(names, others, strict=True)],
        **HELD)


@pytest.mark.parametrize(("shots", "state"), [
    ([modules(11.0, 12.5, 12.4, None)], "failed"),              # its peers read what the connector has
    ([modules(11.0, None, None, None)], "not tested"),          # the two may not have been read together
    ([modules(11.0, None, None, None)] * 2, "failed"),          # twice
    ([modules(11.0, 11.1, 11.0, 11.2)], "not tested"),          # all of them: the supply moved meanwhile
    ([modules(12.3, 12.5, 12.4, None)], "not tested")])         # up to 0.5 V is usual
def test_a_module_fed_worse_than_its_peers(shots: list[Json], state: str) -> None:
    found = supply(shots=shots)["cables and grounds"]
    assert found[0] == state
    assert ("power steering reads 11.00 V while the connector has 12.60 V" in found[1]) == (
        shots[0]["modules"][0]["volts"] == 11.0 and shots[0]["modules"][1].get("volts") != 11.1)


def test_ripple_fails_a_charging_that_is_high_enough() -> None:
    shots = [van("before-clear", **FLAT), van("after-run", readings=[reading("ripple", 0.8, "V AC")], **RUNS)]
    state, why = supply(shots=shots)["charging"]
    assert state == "failed"
    assert "0.80 V AC" in why
    assert "13.9 V running, nothing connected" in why


def test_a_good_level_read_later_goes_before_an_earlier_bad_measurement() -> None:
    shots = [van("before-clear", readings=[reading("running voltage, nothing connected", 11.5)], **FLAT),
             van("after-run", **RUNS)]
    assert supply(shots=shots)["charging"] == ("proven", "13.9 V running, nothing connected")


@pytest.mark.parametrize(("notes", "state", "words"), [
    (["battery load test failed, 210 of 640 cca"], "failed", "210 of 640"),
    (["battery load test failed, 210 of 640 cca", "new battery fitted"], "not tested", "the new one was not tested"),
    (["new battery fitted", "battery test: failed, replace"], "failed", "failed"),
    (["battery load test failed", "new battery fitted", "battery tested good, 680 of 700 cca"], "proven", "680 of 700"),
])
def test_a_battery_that_was_replaced_is_not_judged_by_the_old_one(notes: list[str], state: str, words: str) -> None:
    made = job(snapshot("before-clear", scan("engine control", "P0562"), volts=11.0, engine="off",
                        outside_supply="none"))
    events = [Event(what="other", note=note) for note in notes]
    battery = next(row for row in verdicts([made.model_copy(update={"events": events})], tables())[0]["supply"]
                   if row["part"] == "battery")
    assert battery["state"] == state
    assert words in battery["why"]


def test_good_at_one_consumer_is_not_good_everywhere() -> None:
    """Common practice: a drop says of the path between its two probes, and of no other."""
    one = reading("tail lamp ground drop with lamp on", 0.05)
    lamp = supply(one, reading("voltage drop B+ to fuse box, lamps on", 0.12))["cables and grounds"]
    assert lamp[0] == "not tested"
    assert "nobody measured the ground path from the battery" in lamp[1]
    assert "tail lamp ground drop" in lamp[1]
    both = supply(one, reading("voltage drop B+ to fuse box, lamps on", 0.12),
                  reading("voltage drop battery minus to body", 0.06))["cables and grounds"]
    assert both[0] == "proven"
