"""Brakes, steering, restraints and high voltage in doubt: what is looked for standing, and what is never run first."""

from __future__ import annotations

from made_sessions import DRIVEN, FLAT, HELD, RUNS, Json, code, job, scan, snapshot, tables, van

from triage.assess import assess
from triage.explain.fitness import LIVE, STAND_WORDS
from triage.model.assessment import Assessment
from triage.model.verdict import NextCheck

TORQUE = code("C0545", "29", status="stored")


def with_steering(phase: str, *codes: Json, responds: bool = True, **rest: object) -> Json:
    """A van that also has power steering."""
    shot = van(phase, {"engine control": ["P0562"]} if phase == "before-clear" else {}, **rest)
    shot["modules"].append(scan("power steering", *codes, **({} if responds else {"responds": False})))
    return shot


def wheel_that_flickers() -> Assessment:
    return assess(job(
        with_steering("before-clear", TORQUE, **FLAT), with_steering("after-clear", **HELD),
        with_steering("after-run", **DRIVEN), with_steering("after-run", TORQUE, **DRIVEN),
        with_steering("after-run", **DRIVEN), with_steering("after-run", **DRIVEN)), tables())


def steps(found: Assessment) -> list[str]:
    return [check["do"] for check in found.next_checks]


def step(found: Assessment, words: str) -> NextCheck:
    return next(check for check in found.next_checks if words in check["do"])


def test_what_came_back_at_a_good_supply_is_looked_for_and_not_driven() -> None:
    found = wheel_that_flickers()
    line, = [line for group in found.unsettled for line in group.lines if line.verdict["code"] == "C0545"]
    assert "unlikely" not in line.band
    assert any(reason.startswith("it went and came back") for reason in line.why)
    assert "power steering C0545-29" in step(found, "test the circuit of power steering C0545")["settles"]
    assert not any(do.startswith("drive") for do in steps(found))


def test_seen_before_the_clear_alone_it_is_driven_to_a_result() -> None:
    found = assess(job(
        with_steering("before-clear", TORQUE, **FLAT), with_steering("after-clear", **HELD),
        *(with_steering("after-run", **DRIVEN) for _ in range(4))), tables())
    assert not any("C0545" in do for do in steps(found))


def test_a_hard_pedal_is_tested_standing_and_first() -> None:
    wheel = code("C0036", "64", status="stored")
    shots = (van("before-clear", {"anti-lock brakes": [wheel]}, **FLAT), van("after-clear", **HELD))
    driven = assess(job(*shots), tables())
    assert any(do.startswith("drive") for do in steps(driven))
    found = assess(job(*shots, vehicle={"label": "a van", "complaint": "pedal rock hard since the morning, hissing"}),
                   tables())
    assert steps(found)[0].startswith(f"{STAND_WORDS}, test the brake")
    assert not any(do.startswith("drive") for do in steps(found))


def test_no_drive_is_enabled_before_a_contactor_that_sticks_is_proved() -> None:
    def car(phase: str, *codes: Json, **rest: object) -> Json:
        return snapshot(phase, scan("battery energy control", *codes), scan("drive motor A"),
                        scan("DC/DC converter A", *(["P0562"] if phase == "before-clear" else [])), **rest)

    stuck = code("P0AA4", status="current")
    found = assess(job(car("before-clear", stuck, "P0A0D", **FLAT), car("after-clear", stuck, **HELD)), tables())
    ready = step(found, "READY")
    assert LIVE in str(ready["gate"])
    settled = [check for check in found.next_checks if "battery energy control P0AA4" in check["settles"]]
    assert "qualified person only" in str(settled[0]["gate"])
    assert found.next_checks.index(settled[0]) < found.next_checks.index(ready)
    assert any("stays live" in caution or "may stay live" in caution for caution in found.cautions)


def test_a_silent_restraint_module_is_a_line_and_a_check_of_its_own() -> None:
    shots = (van("before-clear", {"engine control": ["P0562"]}, silent=["restraints"], **FLAT),
             van("after-clear", silent=["restraints"], **HELD), van("after-run", silent=["restraints"], **RUNS))
    found = assess(job(*shots, vehicle={"label": "a van", "complaint": "airbag lamp on"}), tables())
    root, = [root for root in found.short_list if root.safety == "restraints"]
    assert root.title.startswith("restraints is silent")
    assert str(found.complaint).endswith("restraints, which is silent")
    assert "feed, ground and network lines of restraints" in steps(found)[0]
    assert not any("proves nothing" in told or "not fitted" in told for told in found.stories)


def test_a_silent_radio_and_a_second_name_of_the_brakes_prove_nothing() -> None:
    def shot(phase: str, **rest: object) -> Json:
        made = van(phase, {"engine control": ["P0562"]} if phase == "before-clear" else {}, **rest)
        made["modules"] += [scan("radio", responds=False), scan("vehicle dynamics", responds=False)]
        return made

    found = assess(job(shot("before-clear", **FLAT), shot("after-run", **RUNS)), tables())
    assert not found.short_list
    assert any(told.startswith("radio and vehicle dynamics never answered: asleep, not fitted or without feed; no "
                               "module misses them") for told in found.stories)


def test_a_pump_of_the_brakes_is_commanded_and_not_idled() -> None:
    pump = code("C0110", "71", status="stored")
    idles = (van("after-run", **RUNS | {"ran_minutes": 5, "drove": False}) for _ in range(4))
    found = assess(job(van("before-clear", {"anti-lock brakes": [pump]}, **FLAT), van("after-clear", **HELD), *idles),
                   tables())
    line, = [line for group in found.unsettled for line in group.lines if line.verdict["code"] == "C0110"]
    assert line.clean is None
    settles = [check["do"] for check in found.next_checks if "anti-lock brakes C0110-71" in check["settles"]]
    assert settles
    assert settles[0].startswith("work what the codes name")
    assert not any(do.startswith("run the engine") for do in settles)


def test_each_root_of_the_short_list_has_its_step() -> None:
    late = code("SPN 1056 FMI 9", status="current") | {"text": "trailer EBS"}
    dosing = code("SPN 3361 FMI 3", status="current")
    lorry = {"vehicle": {"label": "a lorry", "nominal_volts": 24}}

    def shot(phase: str, **rest: object) -> Json:
        return snapshot(phase, scan("engine control", dosing), scan("anti-lock brakes", late), scan("body control"),
                        **rest)

    found = assess(job(shot("before-clear", volts=21.0, engine="off"), shot("after-clear", volts=25.6, engine="off"),
                       shot("after-run", **RUNS | {"volts": 28.0, "lowest_volts": 24.8}), **lorry), tables())
    told = {name for check in found.next_checks for name in check["settles"]}
    assert {"engine control SPN 3361 FMI 3", "anti-lock brakes SPN 1056 FMI 9"} <= told
    assert "trailer socket" in step(found, "SPN 1056")["where"]


def test_a_module_with_a_bad_ground_is_one_root_with_what_hangs_on_it() -> None:
    own, valve = code("U3003", "16", status="current"), code("C0020", status="current")
    drop = {"name": "voltage drop ABS ground with the pump on", "value": 2.7, "unit": "V"}

    def shots(*readings: Json) -> list[Json]:
        names = {"anti-lock brakes": "ABS"}
        made = [van("before-clear", {"anti-lock brakes": [own, valve], "engine control": ["P0562"]}, **FLAT),
                van("after-clear", {"anti-lock brakes": [own]}, **HELD),
                van("after-run", {"anti-lock brakes": [own, valve]}, **RUNS)]
        for module in (module for shot in made for module in shot["modules"]):
            module["printed"] = names.get(module["module"], module["module"])
        made[-1]["readings"] = list(readings)
        return made

    apart = assess(job(*shots()), tables())
    assert any("circuit of ABS C0020" in do for do in steps(apart))
    found = assess(job(*shots(drop)), tables())
    root, = found.short_list
    assert root.title == "cables and grounds failed: ABS is fed badly"
    assert {line.verdict["code"] for line in root.lines} == {"U3003", "C0020"}
    assert not any("circuit of ABS C0020" in do for do in steps(found))
    assert step(found, "follow the drop")["do"].endswith("read again before ABS U3003-16, ABS C0020 are judged")
    assert "ABS ground" in step(found, "follow the drop")["where"]


def test_a_complaint_looks_first_at_an_open_code_of_what_it_names() -> None:
    wheel = code("C0036", "64", status="stored")
    shots = (van("before-clear", {"anti-lock brakes": [wheel], "engine control": ["P0562"]}, **FLAT),
             van("after-clear", **HELD))
    told = {said: str(assess(job(*shots, vehicle={"label": "a van", "complaint": said}), tables()).complaint)
            for said in ("ABS lamp on", "does not start")}
    assert told["ABS lamp on"].endswith("Look first at anti-lock brakes C0036, which is open")
    assert "C0036" not in told["does not start"]


def test_an_electric_vehicle_runs_no_engine() -> None:
    shots = [snapshot(phase, scan("drive motor A", *codes), scan("battery energy control"), **rest)
             for phase, codes, rest in (("before-clear", ["P1A17", "P0562"], FLAT), ("after-clear", [], HELD))]
    found = assess(job(*shots, vehicle={"label": "a van", "drive": "electric"}), tables())
    told = [*(proof.proves or "" for proof in found.verification), *(group.head for group in found.unsettled),
            *(reason for group in found.unsettled for line in group.lines for reason in line.why)]
    assert not any("engine" in words for words in told), told


def test_a_configuration_that_is_missing_comes_before_the_key_that_follows_from_it() -> None:
    asks = {"body control": [code("U2101", status="current")], "engine control": [code("P0513", status="current")]}
    found = assess(job(van("before-clear", asks, **FLAT), van("after-clear", asks, **HELD),
                       van("after-run", asks, **RUNS)), tables())
    key = next(entry for entry in found.verdict["faults"] if entry["code"] == "P0513")
    assert key["explained_by"] == "body control U2101"
    assert found.short_list[0].lines[0].verdict["code"] == "U2101"
