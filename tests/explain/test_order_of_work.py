"""The order of the steps and what a page may say: the battery before runs, the isolation before READY, a blown fuse, a
silent part on LIN, what follows from another fault. Common practice; all invented."""

from __future__ import annotations

from made_sessions import DRIVEN, FLAT, HELD, RUNS, Json, code, job, scan, snapshot, tables, van

from triage.assess import assess
from triage.model.assessment import Assessment, FaultLine

NOW = {"status": "current"}
LOW = {"engine control": ["P0562"], "body control": ["U3003", "B1234"], "anti-lock brakes": ["C0045"]}


def steps(page: Assessment) -> list[str]:
    return [check["do"] for check in page.next_checks]


def place(page: Assessment, words: str) -> int:
    return next(place for place, do in enumerate(steps(page)) if words in do)


def line_of(page: Assessment, text: str) -> FaultLine:
    groups = [*page.short_list, *page.unsettled, *page.set_aside]
    return next(line for group in groups for line in group.lines if line.verdict["code"] == text)


def test_a_clean_test_is_one_at_good_supply() -> None:
    weak = HELD | {"volts": 9.7, "lowest_volts": 9.5}
    page = assess(job(van("before-clear", LOW, **FLAT), van("after-clear", **weak), van("after-clear", **weak)),
                  tables())
    assert line_of(page, "B1234").clean is None
    page = assess(job(van("before-clear", LOW, **FLAT), van("after-clear", **weak), van("after-clear", **HELD)),
                  tables())
    assert "one clean test" in str(line_of(page, "B1234").clean)


def test_a_flat_battery_is_charged_and_tested_before_anybody_runs_on_it() -> None:
    page = assess(job(van("before-clear", LOW, **FLAT), van("after-clear", **HELD | {"outside_supply": "charger"})),
                  tables())
    assert place(page, "load-test") < place(page, "run the engine")
    run = page.next_checks[place(page, "run the engine")]
    assert str(run["gate"]).startswith("battery charged first")


def test_the_isolation_is_measured_before_ready_and_the_converter() -> None:
    holds = [scan("battery energy control", "P0AA6"), scan("DC/DC converter", "P0A08"), scan("body control", "U3003")]
    low = RUNS | {"engine": "ready", "volts": 11.9, "lowest_volts": 11.7}
    after = [scan("battery energy control"), scan("DC/DC converter", code("P0A08", **NOW)), scan("body control")]
    page = assess(job(snapshot("before-clear", *holds, **FLAT), snapshot("after-clear", *(
        scan(shot["module"]) for shot in holds), **HELD), snapshot("after-run", *after, **low),
        vehicle={"drive": "electric"}), tables())
    assert "isolation of the high-voltage system" in steps(page)[0]
    converter = page.next_checks[place(page, "converter does not charge")]
    assert str(converter["gate"]).startswith("isolation measured and found sound")


def test_what_a_refusing_module_calls_current_now_is_looked_for_early() -> None:
    def found(status: str) -> Assessment:
        shots = [snapshot("before-clear", scan("restraints", code("B0002", "13", status="stored")),
                          scan("engine control", "P0562"), scan("body control"), **FLAT),
                 snapshot("after-clear", scan("restraints", code("B0002", "13", status=status)), scan("engine control"),
                          scan("body control"), **HELD)]
        return assess(job(*shots, events=[{"what": "cleared", "module": "restraints", "answer": "refused"}]), tables())

    now, old = found("current"), found("stored")
    line = line_of(now, "B0002")
    assert line.verdict["decibans"] > line_of(old, "B0002").verdict["decibans"] + 6.0
    assert not any("says nothing of now" in why for why in line.why)
    assert any("says nothing of now" in why for why in line_of(old, "B0002").why)
    assert place(now, "tested by a qualified person") <= 1


def test_a_code_read_at_a_low_supply_alone_is_not_still_there() -> None:
    missed = {"engine control": ["P0562"], "anti-lock brakes": ["U0100"]}
    page = assess(job(van("before-clear", missed, **FLAT), van("after-clear", **HELD), van("after-run", **RUNS),
                      van("after-repair", missed, **FLAT),
                      events=[{"what": "cleared", "answer": "accepted"}]), tables())
    state = {line.code: line.state for line in page.verification}
    assert state["U0100"] == "not yet proven"


def test_a_blown_fuse_asks_why_it_blew() -> None:
    holds = [scan("engine control", "U0101"), scan("body control", "U0101"), scan("instrument cluster")]
    shots = [snapshot(phase, *holds, scan("transmission control", responds=False), **HELD)
             for phase in ("before-clear", "after-clear")]
    page = assess(job(*shots, events=[{"what": "other", "module": "transmission control", "note": "fuse F31 blown"}]),
                  tables())
    assert page.short_list[0].title.startswith("transmission control is silent and its fuse is blown (fuse F31 blown)")
    first = page.next_checks[0]
    assert "measure the circuit that it feeds to ground" in first["do"]
    assert "same rating" in first["do"]


def silent_sensor(*texts: str) -> Assessment:
    def shot(phase: str, **rest: Json) -> Json:
        modules = [scan(name, {"code": text, "status": "current", "text": said}) for name, text, said in zip(
            ("engine control", "body control"), ("U1C22", "B1C41"), texts, strict=True)]
        return snapshot(phase, *modules, scan("restraints"), scan("instrument cluster"), **rest)
    return assess(job(shot("before-clear", **HELD), shot("after-clear", **HELD), shot("after-run", **RUNS)), tables())


def test_two_codes_of_one_silent_sensor_are_one_root_and_one_step() -> None:
    page = silent_sensor("LIN communication rain sensor", "rain sensor no communication")
    assert len(page.short_list) == 1
    check, = [check for check in page.next_checks if "rain sensor" in check["do"]]
    assert "LIN wire of the rain sensor" in check["do"]
    assert "60 ohm" not in check["passes_if"]
    apart = silent_sensor("LIN communication rain sensor", "light sensor no communication")
    assert len(apart.short_list) == 2


def test_what_is_aimed_is_not_shaken() -> None:
    radar = {"code": "C1D77", "text": "front radar out of alignment"}
    shots = [snapshot(phase, scan("distance radar", *codes), scan("engine control"), **rest) for phase, codes, rest in (
        ("before-clear", [radar], HELD), ("after-clear", [radar], HELD), ("after-run", [radar], RUNS))]
    page = assess(job(*shots), tables())
    assert any(do.startswith("finish the programming or calibration") for do in steps(page))
    assert not any("circuit" in do for do in steps(page))


def test_a_speed_that_comes_from_the_brakes_waits_for_them() -> None:
    wheel, wrong = code("C0045", **NOW), code("U0415", **NOW)
    first = {"anti-lock brakes": [wheel], "engine control": [code("P0500", **NOW), wrong]}
    later = {"anti-lock brakes": [wheel], "engine control": [wrong]}
    page = assess(job(van("before-clear", first, **HELD), van("after-run", later, **DRIVEN)), tables())
    assert not any("P0500" in name for check in page.next_checks for name in check["settles"])
    group = next(group for group in page.unsettled if any(line.verdict["code"] == "P0500" for line in group.lines))
    assert group.head.startswith("mend anti-lock brakes C0045 first")


def test_a_scan_alone_says_nothing_of_a_supply_that_was_never_low() -> None:
    page = assess(job(van("before-clear", {"body control": ["B1234"]}, **HELD)), tables())
    assert not any("since the supply was low" in notice.message for notice in page.notices)


def test_a_supply_that_is_held_up_does_not_still_fail() -> None:
    page = assess(job(van("before-clear", LOW, **FLAT), van(None, LOW, **HELD | {"outside_supply": "charger"})),
                  tables())
    assert not any("still fails" in group.head for group in page.unsettled)
