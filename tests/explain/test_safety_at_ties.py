"""What is near enough the same doubt a minute is told safety first; a contactor is tried in READY before the road.

Common practice; the vehicles are invented.
"""

from __future__ import annotations

from made_sessions import FLAT, HELD, Json, job, scan, snapshot, tables

from triage.assess import assess
from triage.explain.order import in_order
from triage.model.verdict import NextCheck
from triage.reports.brief import brief


def step(do: str, gain: float, *settles: str) -> NextCheck:
    return {"do": do, "where": "", "minutes": 30.0, "passes_if": "", "settles": list(settles), "gain_bits": gain,
            "gate": None}


def told(*steps: NextCheck) -> list[str]:
    return [check["do"] for check in in_order([], steps, [], never_cleared=False, safe={"brakes C0031"})]


def test_a_tenth_of_a_bit_does_not_put_brakes_last() -> None:
    glow, relay = step("glow plug", 1.34, "engine P0671"), step("glow relay", 1.30, "engine P0380")
    assert told(glow, relay, step("wheel", 1.28, "brakes C0031")) == ["wheel", "glow plug", "glow relay"]
    assert told(glow, step("wheel", 0.9, "brakes C0031")) == ["glow plug", "wheel"]
    # What settles no code is measured for all of them.
    assert told(step("drop", 1.34), step("wheel", 1.28, "brakes C0031")) == ["drop", "wheel"]


def electric(*codes: str) -> list[NextCheck]:
    modules = [scan("battery energy control", *codes), scan("brake system", "C0031")]
    clean = [scan("battery energy control"), scan("brake system")]
    ran: Json = {**HELD, "engine": "ready", "ran_minutes": 20, "outside_supply": "none", "volts": 14.4}
    shots = [snapshot("before-clear", *modules, **FLAT), snapshot("after-clear", *clean, **HELD),
             snapshot("after-run", *clean, **ran)]
    return assess(job(*shots, vehicle={"drive": "electric"}), tables()).next_checks


def test_a_contactor_is_tried_standing_before_the_road() -> None:
    steps = electric("P0AA1", "P0A0D")
    ready, road = (next(place for place, check in enumerate(steps) if check["do"].startswith(words))
                   for words in ("switch the drive to READY", "drive 20 minutes"))
    assert ready < road
    assert all("stuck closed" in str(steps[place]["gate"]) for place in (ready, road))
    assert not any("stuck closed" in str(check["gate"]) for check in electric("P0A0D"))


def test_an_empty_list_tells_what_leads() -> None:
    shots = [snapshot("before-clear", scan("engine control", "P0643", "P0108"), scan("body control"), **FLAT),
             snapshot("after-clear", scan("engine control", "P0643", "P0108"), scan("body control"), **HELD)]
    found = assess(job(*shots), tables())
    assert not found.short_list
    assert "Short list: nothing is established; likelier than not: engine control P0643" in brief(found)
    none = assess(job(snapshot("after-clear", scan("engine control"), **HELD)), tables())
    assert "Short list: nothing is established\n" in brief(none)


def test_data_it_can_not_use_asks_for_no_lamp() -> None:
    code = {"code": "U0428", "status": "current"}
    shots = [snapshot(phase, scan("anti-lock brakes", code), scan("engine control"), **HELD)
             for phase in ("before-clear", "after-clear")]
    found = assess(job(*shots), tables())
    lines = [line for group in (*found.unsettled, *found.set_aside) for line in group.lines]
    assert any("reports data of another module that it can't use" in why for line in lines for why in line.why)
    assert not any("asks for the lamp" in why for line in lines for why in line.why)


def test_one_clean_test_says_little() -> None:
    clean = [snapshot("after-clear", scan("engine control"), scan("body control"), **HELD)] * 2
    for count, little in ((1, True), (2, False)):
        found = assess(job(snapshot("before-clear", scan("engine control", "U0140"), scan("body control"), **FLAT),
                           *clean[:count]), tables())
        (line,) = [line for line in found.verification if line.code == "U0140"]
        assert ("one clean test says little" in line.why) is little


def test_the_circuit_of_what_is_established_goes_before_that_of_a_doubt() -> None:
    doubt, sure = step("test the circuit of body", 1.55, "body U1200"), step("test the pedal", 1.27, "engine P2138")
    brakes = step("test the circuit of brakes", 1.6, "brakes C0031")
    drop, shared = step("drop", 1.4), step("test the circuit of both", 1.5, "body U1200", "engine P2138")

    def found(*steps: NextCheck) -> list[str]:
        return [check["do"] for check in in_order([], steps, [], never_cleared=False, safe={"brakes C0031"},
                                                  listed={"engine P2138"})]

    assert found(doubt, sure) == ["test the pedal", "test the circuit of body"]
    assert found(doubt, brakes, drop, sure) == [
        "test the circuit of brakes", "drop", "test the pedal", "test the circuit of body"]
    assert found(shared, sure) == ["test the circuit of both", "test the pedal"]
