"""Absence counts as far as the fault could show: readiness, triggers, and an overvoltage that was read."""

from __future__ import annotations

from made_sessions import DRIVEN, FLAT, HELD, RUNS, Json, code, job, tables, van

from triage.assess import verdicts
from triage.model.session import Session


def decibans(session: Session, text: str) -> float:
    return next(fault["decibans"] for fault in verdicts([session], tables())[0]["faults"] if fault["code"] == text)


def leak(state: str | None) -> float:
    readiness: Json = {"readiness": {"evaporative system": state}} if state else {}
    shots = (van("before-clear", {"engine control": ["P0455", "P0562"]}, **FLAT), van("after-clear", **HELD),
             van("after-run", **DRIVEN, **readiness))
    return decibans(job(*shots), "P0455")


def test_a_monitor_that_is_not_complete_tells_nothing_and_one_that_is_tells_much() -> None:
    assert leak("complete") < leak(None) - 5 < leak("incomplete")
    before = decibans(job(van("before-clear", {"engine control": ["P0455", "P0562"]}, **FLAT)), "P0455")
    assert abs(leak("incomplete") - before) < 4


def test_two_quiet_drives_leave_a_return_at_a_good_supply_in_question() -> None:
    held: Json = {"anti-lock brakes": [code("C0036", "29", status="stored")]}
    shots = [van("before-clear", held | {"engine control": ["P0562"]}, **FLAT), van("after-clear", **HELD),
             van("after-run", **DRIVEN), van("after-run", held, **DRIVEN)]
    once = decibans(job(*shots), "C0036")
    quiet = decibans(job(*shots, van("after-run", **DRIVEN), van("after-run", **DRIVEN)), "C0036")
    assert once > 3
    assert -10 < quiet < once


def test_an_overvoltage_that_was_read_sets_its_code() -> None:
    def found(volts: float) -> float:
        held: Json = {"engine control": [code("P0563", status="current")]}
        return decibans(job(van("before-clear", held, **FLAT), van("after-clear", **HELD),
                            van("after-run", held, **RUNS | {"volts": volts})), "P0563")

    assert found(16.6) < -5 < 5 < found(14.1)


def test_a_wheel_speed_sensor_has_no_zero_and_the_booster_is_of_the_brakes() -> None:
    assert tables().facts("C0034", "28").needs == "repair"
    assert tables().facts("C0051", "28").needs == "procedure"
    assert {tables().facts(text, None).safety for text in ("P0504", "P0557", "P0571")} == {"brakes"}


def test_a_permanent_code_whose_monitor_has_run_passed_it() -> None:
    def found(text: str, **readiness: str) -> float:
        held: Json = {"engine control": [code(text, status="confirmed")]}
        kept: Json = {"engine control": [code(text, status="permanent")]}
        said: Json = {"readiness": {name.replace("_", " "): state for name, state in readiness.items()}}
        return decibans(job(van("before-clear", held, **FLAT), van("after-clear", **HELD),
                            van("after-run", kept, **DRIVEN, **(said if readiness else {}))), text)

    assert found("P0135", oxygen_sensor_heater="complete") < found("P0135") - 4
    assert found("P0135", oxygen_sensor_heater="incomplete") >= found("P0135") - 0.1
    assert found("P0135", oxygen_sensor="complete") == found("P0135"), "the heater has a monitor of its own"
    assert found("P0420", all_monitors="complete") < found("P0420") - 4
    assert found("P0420", all_monitors="complete", catalyst="incomplete") >= found("P0420") - 0.1


def test_minutes_beyond_all_measure_are_weighed_as_a_long_run() -> None:
    shots = [van("before-clear", {"engine control": ["P0118"]}, **FLAT), van("after-clear", **HELD)]
    far, year = (decibans(job(*shots, van("after-run", **DRIVEN | {"ran_minutes": minutes})), "P0118")
                 for minutes in (1.7e308, 525_600.0))
    assert far == year


def test_a_count_beyond_all_measure_is_weighed_as_a_large_one() -> None:
    far, many = (decibans(job(van("before-clear", {"engine control": [code("P0118", count=count)]}, **FLAT),
                              van("after-clear", **HELD)), "P0118") for count in (10**30, 2**31 - 1))
    assert far == many
