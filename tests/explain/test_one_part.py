"""What several circuits share comes before each of them, and before anything is only run again.

Common practice: driver airbag, horn and the switches of the wheel run through one spiral cable; sensors hang on the
reference voltage of their module; two terminators of 120 ohm close one network, whatever failure mode of SAE J1939 each
module reports it with. The vehicles are invented.
"""

from __future__ import annotations

from typing import Any

from made_sessions import FLAT, HELD, Json, job, scan, snapshot, tables

from triage.assess import assess
from triage.model.assessment import Assessment

GOOD: Json = {"volts": 12.5, "engine": "off", "outside_supply": "none"}


def page(holds: dict[str, list[Any]], *, first: Json = GOOD, after: dict[str, list[Any]] | None = None) -> Assessment:
    shots = [snapshot(phase, *[scan(name, *codes) for name, codes in held.items()], **state)
             for phase, state, held in (("before-clear", first, holds), ("after-clear", HELD, after or holds))]
    return assess(job(*shots, events=[{"what": "cleared", "answer": "accepted"}]), tables())


def now(code: str, kind: str | None = None, text: str | None = None) -> Json:
    return {"code": code, "status": "current", "failure_type": kind, "text": text}


WHEEL = {"restraints": [now("B0001", "1B"), now("B0002", "1B")],
         "body control": [now("B1A40", "13", "Steering wheel switch, right, open"), now("B2950", None, "Horn circuit")]}


def test_the_spiral_cable_comes_before_what_runs_through_it() -> None:
    found = page(WHEEL)
    (root,) = found.short_list
    assert "the spiral cable of the steering wheel" in root.title
    assert root.safety == "restraints"
    check = found.next_checks[0]
    assert check["do"].startswith("have the spiral cable of the steering wheel tested by a qualified person")
    assert len(check["settles"]) == 4
    assert "no ordinary ohmmeter" in str(check["gate"])
    assert not any(check["do"].startswith("test the circuit") for check in found.next_checks)


def test_other_restraints_and_the_steering_angle_do_not_run_through_it() -> None:
    found = page({"restraints": [now("B0001", "1B"), now("B0010", "1B")], "steering angle sensor": [now("C0051")]})
    assert not any("spiral cable" in root.title for root in found.short_list)
    assert len(found.short_list) == 3


def test_a_reference_voltage_comes_first_though_nothing_is_established_yet() -> None:
    sensors = ["P0641", "P0107", "P0192", "P2122"]
    found = page({"engine control": [*sensors, "P0340", "P0562"], "body control": []}, first=FLAT,
                 after={"engine control": sensors, "body control": []})
    check = found.next_checks[0]
    assert check["do"].startswith("check at engine control before any sensor: P0641 first")
    assert "unplug them one by one" in check["do"]
    assert check["settles"] == [f"engine control {code}" for code in sensors]
    assert not any(step["do"].startswith("test the circuit") for step in found.next_checks)


def test_one_network_is_measured_once() -> None:
    found = page({"engine control": [now("SPN 639 FMI 9")], "transmission control": [now("SPN 639 FMI 19")]})
    assert [check["do"] for check in found.next_checks if "measure the network" in check["do"]] == [
        "measure the network that engine control SPN 639 FMI 9 reports: both wires, splices and terminators"]
    assert len(found.short_list) == 1
    assert not any(check["do"].startswith(("run the engine", "drive")) for check in found.next_checks)


def test_what_is_established_comes_before_a_run() -> None:
    found = page({"anti-lock brakes": [now("C0035")], "engine control": ["P0171"]}, first=FLAT,
                 after={"anti-lock brakes": [now("C0035")], "engine control": []})
    steps = [check["do"] for check in found.next_checks]
    run = next(place for place, step in enumerate(steps) if step.startswith("run the engine"))
    assert any("anti-lock brakes C0035" in step for step in steps[:run])


def test_what_came_back_in_the_last_run_is_not_run_again() -> None:
    ran: Json = {"volts": 14.1, "engine": "running", "outside_supply": "none", "ran_minutes": 25}
    held, clean = scan("engine control", "P0335"), scan("engine control")
    found = assess(job(snapshot("before-clear", held, scan("body control"), **GOOD),
                       snapshot("after-clear", clean, scan("body control"), **HELD),
                       snapshot("after-run", held, scan("body control"), **ran)), tables())
    steps = [check["do"] for check in found.next_checks if "engine control P0335" in check["settles"]]
    assert steps
    assert not any(step.startswith(("run the engine", "drive")) for step in steps)
