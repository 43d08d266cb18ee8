"""What is told of pointers, shared reasons, programming and a supply that failed, and which step goes first.

Invented vehicles; the rules are common practice: the module that is pointed at comes before the one that points, what
several signals share before each sensor, programming before judging, the record of a crash is never cleared.
"""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import DRIVEN, FLAT, HELD, RUNS, Json, job, scan, snapshot, tables, van

from triage.assess import assess
from triage.model.assessment import Assessment
from triage.reports.terminal import terminal

GOOD: Json = {"volts": 12.4, "engine": "off", "outside_supply": "none"}
NAMES = ("engine control", "transmission control", "anti-lock brakes", "body control", "instrument cluster")


def car(holds: dict[str, list[Any]], *, names: tuple[str, ...] = NAMES, silent: tuple[str, ...] = (),
        last: Json = RUNS, **rest: Any) -> Assessment:
    """One and the same reading before the clear, after it and after a run."""
    shots = [snapshot(phase, *[scan(name, *holds.get(name, []), responds=name not in silent) for name in names],
                      **state)
             for phase, state in (("before-clear", GOOD), ("after-clear", HELD), ("after-run", last))]
    return assess(job(*shots, **rest), tables())


def steps(found: Assessment) -> list[str]:
    return [check["do"] for check in found.next_checks]


def current(code: str, kind: str | None = None) -> Json:
    return {"code": code, "status": "current"} | ({"failure_type": kind} if kind else {})


# Who points at whom.

def test_an_empty_target_is_read_again_and_the_pointer_is_not_taken_apart() -> None:
    found = car({"engine control": [current("P0700")]})
    assert found.stories == [
        "engine control P0700 asks for the lamp, but its target transmission control shows nothing: read it again"]
    assert found.next_checks[0]["settles"] == ["engine control P0700"]
    assert found.next_checks[0]["minutes"] == 5.0
    assert not any("circuit of engine control P0700" in step for step in steps(found))


def test_invalid_data_from_a_module_without_a_code_is_a_finding_after_the_clear_only() -> None:
    noise = {"instrument cluster": ["U0415"]}
    assert car(noise).stories == [
        "instrument cluster U0415 says that data from anti-lock brakes is invalid, but anti-lock brakes shows nothing: "
        "read it again"]
    before = assess(job(van("before-clear", noise, **FLAT)), tables())
    assert not any("is invalid" in story for story in before.stories)


def test_a_target_nobody_scanned_is_to_be_read() -> None:
    found = car({"engine control": [current("P0700")]}, names=("engine control", "body control"))
    assert found.stories == ["engine control P0700 asks for the lamp on behalf of transmission control, which no scan "
                             "has read: read it"]
    assert steps(found)[0].startswith("read transmission control every list")


def test_a_pointer_by_its_text_asks_for_no_lamp() -> None:
    holds: dict[str, list[Any]] = {"body control": [current("60933") | {"text": "wipers off, see the ABS"}]}
    assert car(holds).stories == [
        "body control 60933 points at anti-lock brakes, which shows nothing: read it again"]
    assert car(holds, names=("body control",)).stories == [
        "body control 60933 points at anti-lock brakes, which no scan has read: read it"]


@pytest.mark.parametrize("holds", [
    {"engine control": ["P0700"], "transmission control": ["P0715"]},
    {"engine control": ["P0700"], "transmission control": ["U0415"], "anti-lock brakes": [current("C0035", "13")]}])
def test_a_target_with_a_reason_is_no_finding(holds: dict[str, list[Any]]) -> None:
    assert not any("shows nothing" in story for story in car(holds).stories)


def test_what_repeats_a_root_hangs_under_it_across_several_steps() -> None:
    found = car({"engine control": [current("P0700")], "transmission control": [current("U0415")],
                 "anti-lock brakes": [current("C0035", "13")]}, last=DRIVEN)
    root, = found.short_list
    assert root.lines[0].verdict["code"] == "C0035"
    assert "repeated by transmission control U0415, engine control P0700: these go with it" in root.why
    group, = found.unsettled
    assert group.head == "mend anti-lock brakes C0035 first, then clear and read again: these only repeat it"
    assert {line.verdict["code"] for line in group.lines} == {"U0415", "P0700"}
    assert not any("U0415" in step or "P0700" in step for step in steps(found))


# What several share.

def test_three_signals_that_read_high_at_once_share_a_ground() -> None:
    found = car({"engine control": [current("P0118"), current("P0113"), current("P0108")]})
    root, = found.short_list
    assert root.title == ("engine control: P0118, P0113 and P0108 read wrong the same way at once: a ground, reference "
                          "voltage or feed they share")
    assert len(root.lines) == 3
    assert found.next_checks[0]["do"].startswith("check at engine control before any sensor")
    assert not any(step.startswith("test the circuit of engine control P0118") for step in steps(found))


@pytest.mark.parametrize("codes", [("P0118", "P0113"), ("P0118", "P0113", "P0107"), ("P0118", "P0302", "P0420")])
def test_two_of_a_kind_or_mixed_ones_stay_apart(codes: tuple[str, ...]) -> None:
    found = car({"engine control": [current(code) for code in codes]})
    assert all(len(root.lines) == 1 for root in found.short_list)
    assert not any("before any sensor" in step for step in steps(found))


def test_a_reference_voltage_comes_before_the_sensor_that_hangs_on_it() -> None:
    found = car({"engine control": [current("P0122"), current("P0642")]})
    assert found.short_list[0].title == ("engine control: P0642 first: the sensors of P0122 hang on that reference "
                                         "voltage or its ground")


def explained(found: Assessment) -> dict[str, str | None]:
    return {fault["code"]: fault["explained_by"] for fault in found.verdict["faults"]}


def test_the_sensor_is_explained_by_the_reference_voltage_it_hangs_on() -> None:
    """Low at the reference, the sensors it feeds read low; a thermistor hangs on a resistor in the module (common
    practice), so its code is a fault of its own."""
    found = car({"engine control": [current("P0122"), current("P0642"), current("P0117"), current("P0108")]})
    assert explained(found) == {"P0122": "engine control P0642", "P0642": None, "P0117": None, "P0108": None}


def test_a_sensor_that_had_its_say_without_the_reference_is_a_fault_of_its_own() -> None:
    shots = [snapshot(phase, scan("engine control", *codes), **state) for phase, codes, state in (
        ("before-clear", ["P0122", "P0642"], GOOD), ("after-clear", [current("P0642")], HELD),
        ("after-run", [current("P0122")], RUNS))]
    assert explained(assess(job(*shots), tables()))["P0122"] is None


def test_a_module_that_alone_misses_others_is_told_once() -> None:
    found = car({"body control": [current("U0100"), current("U0121")]})
    root, = found.short_list
    assert [line.verdict["code"] for line in root.lines] == ["U0100", "U0121"]
    assert root.title == ("body control: U0100 and U0121 report modules that answer and that nobody else misses: check "
                          "its own network lines and ground first")
    assert explained(found) == {"U0100": None, "U0121": "body control U0100"}


def test_two_modules_that_miss_the_same_one_tell_of_that_one() -> None:
    found = car({"body control": [current("U0121")], "instrument cluster": [current("U0121")]})
    assert {fault["explained_by"] for fault in found.verdict["faults"]} == {"anti-lock brakes"}


def test_several_procedures_of_one_module_are_one_visit() -> None:
    found = car({"body control": [current("B1A54", "54"), current("B1A55", "55")]})
    root, = found.short_list
    assert root.title == ("body control: B1A54 and B1A55 ask for one visit: program and calibrate it before they are "
                          "judged")
    assert root.needs == "procedure"


def test_two_silent_modules_share_a_check_before_each() -> None:
    lost = {name: ["U0121", "U0140"] for name in ("engine control", "instrument cluster", "transmission control")}
    found = car(lost, silent=("anti-lock brakes", "body control"))
    assert any(story.startswith("anti-lock brakes and body control are silent together") for story in found.stories)
    first = found.next_checks[0]
    assert first["do"].startswith("check what anti-lock brakes and body control share before each of them")
    assert set(first["settles"]) == {f"{name} {code}" for name in lost for code in lost[name]}
    assert first["gate"] is not None


def test_a_silent_module_is_looked_at_in_words() -> None:
    found = car({name: ["U0140"] for name in ("engine control", "instrument cluster")}, silent=("body control",),
                vehicle={"complaint": "wipers dead"})
    assert found.complaint == "wipers dead. Look first at body control, which is silent"


# Work comes first.

def replaced(*more: Json, **rest: Any) -> Assessment:
    names = ("engine control", "anti-lock brakes", "body control")
    holds = {"anti-lock brakes": [current("C0051", "54"), "B1A23"], "engine control": ["P0118"]}
    shots = [snapshot("before-clear", *[scan(name) for name in names], **GOOD),
             *[snapshot("after-repair", *[scan(name, *holds.get(name, [])) for name in names], **state)
               for state in (HELD, RUNS)]]
    return assess(job(*shots, events=[{"what": "replaced", "module": "anti-lock brakes"}, *more], **rest), tables())


def test_a_module_is_programmed_before_it_is_judged() -> None:
    found = replaced()
    check = next(check for check in found.next_checks if check["do"].startswith("program anti-lock brakes before"))
    assert set(check["settles"]) == {"anti-lock brakes C0051-54", "anti-lock brakes B1A23"}
    for other in found.next_checks:
        if other is not check:
            assert not any(name.startswith("anti-lock brakes") for name in other["settles"]), other["do"]


@pytest.mark.parametrize("done", [
    {"what": "programmed", "module": "anti-lock brakes"}, {"what": "programmed", "module": "ABS unit, new"},
    {"what": "paired"}])
def test_what_was_programmed_is_not_programmed_again(done: Json) -> None:
    assert not any(step.startswith("program ") for step in steps(replaced(done)))


@pytest.mark.parametrize("done", [
    {"what": "programmed", "module": "body control"},
    {"what": "programmed", "module": "anti-lock brakes", "answer": "refused"}])
def test_another_module_or_a_refusal_counts_for_nothing(done: Json) -> None:
    assert any(step.startswith("program anti-lock brakes") for step in steps(replaced(done)))


def test_a_likely_fault_that_asks_for_learning_is_not_read_once_more() -> None:
    learn = {"body control": [{"code": "B1A05", "text": "Window not learned"}]}
    found = assess(job(van("before-clear", learn, **FLAT), van("after-clear", learn, **HELD)), tables())
    settled = [check["do"] for check in found.next_checks if "body control B1A05" in check["settles"]]
    assert settled == ["finish the programming or calibration that body control B1A05 asks for"]


def test_a_crash_record_is_settled_by_no_step() -> None:
    names = ("restraints", "engine control", "body control")
    record = {"restraints": [{"code": "B0001", "failure_type": "68", "status": "stored"}]}
    shots = [snapshot(phase, *[scan(name, *record.get(name, [])) for name in names], **state)
             for phase, state in (("before-clear", FLAT), ("after-clear", HELD))]
    found = assess(job(*shots), tables())
    heads = {line.verdict["code"]: group.head for group in found.unsettled for line in group.lines}
    assert heads.get("B0001", "stored crash record").startswith("stored crash record")
    assert not any(step.startswith("hold the supply, clear all modules") for step in steps(found))


# What nobody is sent to do.

def test_nobody_drives_with_brakes_or_steering_more_likely_faulty_than_not() -> None:
    found = car({"anti-lock brakes": ["C0035"], "engine control": ["P0420"]})
    brakes = next(line.verdict for group in found.unsettled for line in group.lines if line.safety == "brakes")
    assert 0.0 < brakes["decibans"] < 12.8, "likely, and not on the short list"
    assert not any(step.startswith("drive") for step in steps(found))
    assert any(step.startswith("drive") for step in steps(car({"engine control": ["P0420"]})))


def test_nobody_drives_while_the_steering_is_starved() -> None:
    def shot(phase: str, eps: float, state: Json) -> Json:
        return snapshot(phase, scan("power steering", "U3003", volts=eps), *[scan(name) for name in NAMES],
                        scan("engine control", "P0420"), **state)
    found = assess(job(shot("before-clear", 10.2, GOOD), shot("after-clear", 10.4, HELD),
                       shot("after-run", 11.0, RUNS)), tables())
    assert any("power steering reads" in entry["why"] for entry in found.verdict["supply"])
    assert not any(step.startswith("drive") for step in steps(found))
    assert "measure feed and ground of power steering under load" in steps(found)


@pytest.mark.parametrize("code", ["C0045", "P0102"])
def test_an_unlikely_fault_is_read_again_and_not_taken_apart(code: str) -> None:
    module = "anti-lock brakes" if code.startswith("C") else "engine control"
    found = assess(job(van("before-clear", {module: [code]}, **FLAT), van("after-clear", **HELD),
                       van("after-run", **RUNS)), tables())
    assert not any(code in step for step in steps(found))


def test_no_connector_is_blamed_for_a_misfire() -> None:
    found = car({"engine control": [current("P0302")]})
    assert any(step == "find the cause of engine control P0302 by the maker's test for it" for step in steps(found))


def test_the_isolation_is_measured_before_the_drive_is_switched_on() -> None:
    names = ("battery energy control", "hybrid powertrain", "body control")
    held = {"battery energy control": ["P0AA6"], "body control": ["B1244"]}
    shots = [snapshot("before-clear", *[scan(name, *held.get(name, [])) for name in names], **FLAT),
             snapshot("after-clear", *[scan(name, *held.get(name, [])[1:]) for name in names], **HELD)]
    found = assess(job(*shots, vehicle={"drive": "electric"}), tables())
    told = steps(found)
    measuring = next(place for place, step in enumerate(told) if step.startswith("have the isolation"))
    gated = [place for place, check in enumerate(found.next_checks) if "isolation measured" in (check["gate"] or "")]
    assert all(place > measuring for place in gated)
    assert "engine off" not in " ".join(check["where"] for check in found.next_checks)


# A part of the supply that failed has a step of its own.

@pytest.mark.parametrize(("name", "value", "unit", "step"), [
    ("load test", 8.0, "V", "charge the battery that failed fully"),
    ("key-off draw after 60 min", 400, "mA", "find the circuit that draws with the key off"),
    ("voltage drop engine ground", 0.9, "V", "follow the drop joint by joint"),
    ("ripple", 0.9, "V AC", "measure the ripple again")])
def test_what_failed_is_followed_up(name: str, value: float, unit: str, step: str) -> None:
    reading = {"name": name, "value": value, "unit": unit}
    found = assess(job(van("before-clear", {"engine control": ["P0562"]}, **FLAT),
                       van("after-run", readings=[reading], **RUNS)), tables())
    assert any(told.startswith(step) for told in steps(found)), steps(found)
    assert found.short_list[0].title.endswith(" failed")
    assert f"{value:.2f}" in terminal(found) or f"{value:g}" in terminal(found)


# What goes before what.

CHARGED = "battery charged first, so that the engine starts by itself; parking brake on"


def test_without_a_clear_nobody_is_sent_on_a_run_first() -> None:
    """Common practice: stored codes stay until they are cleared, so a run before it shows nothing new."""
    once = assess(job(van("before-clear", {"engine control": ["P0562", "P0118"], "anti-lock brakes": ["C0035"]},
                          **FLAT)), tables())
    assert steps(once)[0].startswith("hold the supply, clear")
    run = next(check for check in once.next_checks if check["do"].startswith("run the engine"))
    assert (run["gate"] or "").startswith(CHARGED)


def test_a_clear_that_settles_nothing_itself_is_the_gate_of_the_run() -> None:
    once = assess(job(van("before-clear", {"engine control": ["P0171"]}, **FLAT)), tables())
    assert not any(step.startswith("hold the supply, clear") for step in steps(once))
    first = next(check for check in once.next_checks if check["do"].startswith(("run the engine", "drive 20")))
    assert (first["gate"] or "").startswith("the codes cleared first, the supply held; ")


def test_after_a_clear_the_run_is_ranked_by_what_it_settles() -> None:
    found = car({"engine control": [{"code": "P0171", "status": "pending"}]}, last=HELD)
    assert steps(found)[0].startswith(("run the engine", "drive 20"))
    assert not any("battery charged first" in (check["gate"] or "") for check in found.next_checks)


def test_a_module_that_asks_on_its_own_behalf_sends_nobody_anywhere() -> None:
    """P0700 asks for the lamp on behalf of the transmission: in the transmission's own list that is no way further."""
    found = car({"transmission control": [current("P0700")]})
    assert not any("on behalf of" in story for story in found.stories)
    assert any("on behalf of" in story for story in
               car({"engine control": [current("P0700")]}, names=("engine control", "body control")).stories)


def test_the_report_of_a_silent_module_is_settled_at_that_module() -> None:
    """Common practice: the module that does not answer comes before a run that only brings its reports back."""
    state: Json = {"engine": "off", "outside_supply": "jump pack"}
    names = ("engine control", "anti-lock brakes", "instrument cluster", "steering angle sensor")
    holds = {"anti-lock brakes": [current("U0126")], "instrument cluster": [current("U0126")],
             "engine control": [current("P0335")]}
    shots = [snapshot(phase, *[scan(name, *holds.get(name, []), responds=name != names[-1]) for name in names], **state)
             for phase in ("before-clear", "after-clear")]
    found = assess(job(*shots), tables())
    at = {line.verdict["code"]: group.head for group in found.unsettled for line in group.lines}
    assert at["U0126"].startswith("check feed, ground and network lines of steering angle sensor")
    assert not at["P0335"].startswith("check feed")
