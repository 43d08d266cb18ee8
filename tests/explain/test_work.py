"""Work done: gates before any conclusion, and codes that came with the work. Common practice unless said."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from made_sessions import FLAT, HELD, RUNS, Json, code, job, session_jobs, tables, van

from triage.assess import assess
from triage.explain.work import crash_record
from triage.model.session import session_from

REPLACED: Json = {"what": "replaced", "module": "transmission control", "part": "new"}
PROGRAMMED: Json = {"what": "programmed", "module": "transmission control", "answer": "accepted"}
DAY = "2025-02-03T"


def gates(*events: Json, before: Json | None = None, after: Json | None = None, **held: Any) -> list[str]:
    """The gates of a van that was worked on between two scans."""
    session = job(van("before-clear", before, **FLAT), van("after-repair", after, **HELD | held), events=list(events))
    return assess(session, tables()).gates


def came(*snapshots: Json, events: list[Json]) -> list[str]:
    """The codes that came with the work."""
    return assess(job(*snapshots, events=events), tables()).after_work


# --- replaced, programmed --------------------------------------------------------------------------------------

def test_a_replaced_module_is_programmed_before_it_is_judged() -> None:
    (gate,) = gates(REPLACED)
    assert gate.startswith("transmission control was replaced and no programming is on record")
    assert "program it before judging it" in gate


def test_what_the_module_says_itself_is_named() -> None:
    # SAE J2012DA (second-hand): failure types 51 to 57 are programming; 55 is not configured.
    (gate,) = gates(REPLACED, after={"transmission control": [code("P0602"), code("B1A01", "55")]})
    assert "(it says so itself: P0602, B1A01-55)" in gate


def test_what_others_say_of_configuration_may_only_follow_from_a_module_not_set_up() -> None:
    asks = {"transmission control": [code("P0602")], "engine control": [code("P0630", status="current")],
            "instrument cluster": [code("B1A01", "55")]}
    session = job(van("before-clear", asks, **FLAT), van("after-repair", asks, **HELD), events=[REPLACED])
    found = assess(session, tables())
    assert found.gates[1].startswith("engine control P0630, instrument cluster B1A01-55 may only follow from "
                                     "transmission control")
    program = next(check for check in found.next_checks if check["do"].startswith("program transmission control"))
    assert "engine control P0630" in program["settles"]
    assert not any(check["do"].startswith("finish the programming") for check in found.next_checks)


def test_replaced_and_programmed_at_a_held_supply_is_no_gate() -> None:
    session = job(van("before-clear", **FLAT), van("after-clear", **HELD | {"volts": 13.4}),
                  van("after-repair", **HELD | {"volts": 13.4}), events=[REPLACED, PROGRAMMED])
    assert assess(session, tables()).gates == []


def test_the_order_of_the_events_counts() -> None:
    found = gates(PROGRAMMED | {"note": "13.4 V"}, REPLACED)
    assert len(found) == 1
    assert "no programming is on record" in found[0]


def test_times_go_before_the_order_of_writing() -> None:
    late, early = f"{DAY}10:00:00+01:00", f"{DAY}09:00:00+01:00"
    assert gates(PROGRAMMED | {"note": "13.4 V", "at": late}, REPLACED | {"at": early}) == []


def test_names_are_matched_as_people_write_them() -> None:
    assert "transmission control was replaced" in gates(REPLACED | {"module": "TCM"})[0]


@pytest.mark.parametrize("event", [
    {"what": "replaced", "module": "transmission control", "note": "speed sensor"},
    {"what": "replaced", "module": "speed sensor"}, {"what": "replaced", "note": "fuse 12"},
])
def test_a_part_is_no_module(event: Json) -> None:
    assert gates(event) == []


@pytest.mark.parametrize(("volts", "words"), [
    # Common practice: 12.6 to 14.5 V, the maker's own figure first.
    (11.9, "programmed at only 11.9 V (read after the repair; 12.6 to 14.5 V"), (15.2, "programmed at 15.2 V"),
])
def test_programmed_outside_the_band(volts: float, words: str) -> None:
    session = job(van("before-clear", **HELD | {"volts": 13.0}), van("after-repair", **HELD | {"volts": volts}),
                  events=[PROGRAMMED])
    (gate,) = assess(session, tables()).gates
    assert words in gate


def test_programmed_on_a_flat_battery() -> None:
    (gate,) = gates(PROGRAMMED)
    assert "programmed at only 10.7 V (read before the clear; 12.6 to 14.5 V" in gate
    assert "stabilised supply" in gate


def test_programmed_at_a_supply_nobody_read() -> None:
    session = job(van("before-clear"), van("after-repair", **RUNS), events=[PROGRAMMED])
    (gate,) = assess(session, tables()).gates
    assert "a supply that is not on record" in gate, "a scan with the engine running tells nothing of it"


def test_a_supply_switched_on_in_between_is_not_the_supply_before() -> None:
    session = job(van("before-clear", **FLAT), van("after-repair", **HELD | {"volts": 13.2}), events=[
        {"what": "outside supply on", "note": "supply for programming"}, PROGRAMMED])
    assert assess(session, tables()).gates == []


def test_the_supply_as_noted_or_read_goes_first() -> None:
    assert gates(PROGRAMMED | {"note": "held at 13,4 V"}) == []
    assert "only 12.1 V (as noted" in gates(PROGRAMMED | {"note": "held at 12.1 V"})[0]
    reading = {"readings": [{"name": "supply while programming", "value": 13.5, "unit": "V"}]}
    assert gates(PROGRAMMED, **reading) == []


def test_only_the_last_programming_counts() -> None:
    assert gates(PROGRAMMED | {"note": "11.8 V"}, PROGRAMMED | {"note": "13.4 V"}) == []


def test_refused_programming_is_done_again() -> None:
    found = gates(REPLACED, PROGRAMMED | {"answer": "refused", "note": "13.4 V"})
    assert any("refused or broke off at 13.4 V" in gate for gate in found)
    assert any("no programming is on record" in gate for gate in found)


def test_a_24_volt_system_has_its_own_band() -> None:
    # Twice the 12 V figures: 25.2 to 29.0 V.
    session = job(van("before-clear", volts=24.0, engine="off"), van("after-repair", volts=24.4, engine="off"),
                  events=[PROGRAMMED], vehicle={"nominal_volts": 24})
    (gate,) = assess(session, tables()).gates
    assert "only 24.0 V (read before the clear; 25.2 to 29.0 V" in gate


# --- used parts and the battery --------------------------------------------------------------------------------

def test_a_used_part_may_bring_another_vehicle_with_it() -> None:
    used = {"what": "replaced", "module": "restraints", "part": "used"}
    record = code("B1A00") | {"text": "Crash data stored"}
    far = code("B0001") | {"freeze_frame": {"distance_km": 143000}}
    near = code("P0118") | {"freeze_frame": {"distance_km": 84000}}
    found = gates(used, {"what": "programmed", "module": "restraints", "note": "13.3 V"}, before={
        "engine control": [near]}, after={"restraints": [record, far, code("U3002")]})
    (gate,) = found
    assert "codes, VIN and crash record may be another vehicle's" in gate
    assert "crash record B1A00" in gate
    assert "VIN code U3002" in gate
    assert "a freeze frame at 143000 km where other modules stand at 84000 km" in gate
    assert "don't clear it while a crash record stands" in gate


def test_a_new_part_brings_nothing() -> None:
    assert not any("used part" in gate for gate in gates(REPLACED))


def test_a_disconnected_battery_loses_learned_values_and_readiness() -> None:
    # 40 CFR 86.010-18 (k)(4)(i): readiness goes with the memory.
    (gate,) = gates({"what": "battery disconnected"})
    assert "learned values are lost and readiness is erased; relearn them" in gate
    (done,) = gates({"what": "battery disconnected"}, {"what": "calibrated", "module": "power steering"})
    assert "relearn them" not in done
    (new,) = gates({"what": "replaced", "note": "12 V battery"})
    assert new.startswith("the battery was replaced: unless the supply was held meanwhile")
    # Common practice where the charging follows the state of charge.
    assert "the new one is registered" in new
    assert "registered" not in gate


@pytest.mark.parametrize(("title", "text", "record"), [
    ("maker-defined body code", "Crash event stored", True), ("left front crash sensor", "Crash sensor LF", False),
    ("driver front airbag, stage 1", "Deployment commanded", True), ("maker-defined", "Crashdaten gespeichert", True),
])
def test_crash_records(title: str, text: str, record: bool) -> None:
    from dataclasses import replace

    assert crash_record(replace(tables().facts("B1A00"), title=title), [text]) is record


# --- codes that came with the work -----------------------------------------------------------------------------

NEW = {"anti-lock brakes": ["C0035"]}
OLD = {"engine control": ["P0118"]}


def test_a_code_that_appeared_after_work_stands_in_its_own_list() -> None:
    found = came(van("before-clear", OLD, **FLAT), van("after-repair", OLD | NEW, **HELD), events=[REPLACED])
    assert len(found) == 1
    assert found[0].startswith("anti-lock brakes C0035: ")
    assert found[0].endswith("first seen after the repair at 12.6 V")


@pytest.mark.parametrize("event", [
    {"what": "battery disconnected"}, {"what": "actuator test", "module": "anti-lock brakes"},
    {"what": "other", "note": "unplugged the tracker"}, PROGRAMMED,
])
def test_other_work_counts_too(event: Json) -> None:
    times = [f"{DAY}{hour:02d}:00:00+01:00" for hour in (8, 9, 10)]
    found = came(van("before-clear", OLD, at=times[0], **FLAT), van("after-clear", OLD | NEW, at=times[2], **HELD),
                 events=[event | {"at": times[1]}])
    assert len(found) == 1


def test_without_work_nothing_came_with_it() -> None:
    assert came(van("before-clear", OLD, **FLAT), van("after-clear", OLD | NEW, **HELD), events=[]) == []


def test_a_module_not_read_before_can_have_held_it_all_along() -> None:
    assert came(van("before-clear", OLD, silent=["anti-lock brakes"], **FLAT), van("after-repair", NEW, **HELD),
                events=[REPLACED]) == []


def timed(*, clear: str | None, key: str | None, at: str) -> list[str]:
    """A code that came with the work at nine, then perhaps a clear and a key cycle, and a last scan."""
    events = [REPLACED | {"at": f"{DAY}09:00:00+01:00"}]
    events += [{"what": "cleared", "answer": "accepted", "at": f"{DAY}{clear}:00+01:00"}] if clear else []
    events += [{"what": "key cycle", "at": f"{DAY}{key}:00+01:00"}] if key else []
    return came(van("before-clear", OLD, at=f"{DAY}08:00:00+01:00", **FLAT),
                van("after-repair", NEW, at=f"{DAY}10:00:00+01:00", **HELD),
                van("after-repair", NEW, at=f"{DAY}{at}:00+01:00", **HELD), events=events)


def test_it_leaves_the_list_once_cleared_and_read_after_a_key_cycle() -> None:
    assert timed(clear="11:00", key="11:05", at="12:00") == []
    assert len(timed(clear="11:00", key=None, at="12:00")) == 1, "no key cycle"
    assert len(timed(clear=None, key="11:05", at="12:00")) == 1, "not cleared"
    assert len(timed(clear="11:10", key="11:05", at="12:00")) == 1, "the key cycle came before the clear"
    assert len(timed(clear="12:30", key="12:35", at="12:00")) == 1, "not read since"


@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
@given(session_jobs())
def test_every_session_is_told_in_whole_lines(made: Json) -> None:
    found = assess(session_from(made), tables())
    for told in (*found.gates, *found.after_work):
        assert told
        assert "\n" not in told
        assert "fixed" not in told
    assert len(set(found.gates)) == len(found.gates)
