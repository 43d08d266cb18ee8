"""Standing, lists and next checks: what the lead technician is told, and in which order."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from made_sessions import DRIVEN, FLAT, HELD, RUNS, Json, code, job, scan, snapshot, tables, van

from triage.assess import Worked, assess
from triage.explain.reasons import band, clean_bound
from triage.explain.standing import ASIDE, SHORT, UNSETTLED, standings
from triage.model.assessment import Assessment
from triage.reports.terminal import terminal


def page(*snapshots: Json, **rest: Any) -> Assessment:
    return assess(job(*snapshots, **rest), tables())


def stands(module: str, text: str, decibans: float, clean: float, causes: list[float] | None = None) -> int:
    """The standing of one fault with these figures."""
    work = Worked([job(van("before-clear", {module: [text]}, **FLAT))], tables())
    return int(standings(work.book, work.links, np.array([causes or [0.0, 0.0, 1.0, 0.0, 0.0]]), np.array([decibans]),
                         np.array([clean]), tables()).standing[0])


@pytest.mark.parametrize(("decibans", "standing"), [
    (12.8, SHORT), (40.0, SHORT), (12.7, UNSETTLED), (0.0, UNSETTLED), (-19.9, UNSETTLED), (-20.0, ASIDE)])
def test_the_thresholds_are_95_and_1_per_cent(decibans: float, standing: int) -> None:
    # +12.8 dB is 95 %, -20 dB is 1 % (Good's deciban).
    assert stands("body control", "B1234", decibans, 0.99) == standing


def test_nothing_is_set_aside_untested_but_echo_and_history() -> None:
    assert stands("body control", "B1234", -30, 0.0) == UNSETTLED
    assert stands("body control", "B1234", -30, 0.0, [0, 0, 0, 1, 0]) == ASIDE
    assert stands("engine control", "P0700", -30, 0.0, [0, 0, 0, 0, 1]) == ASIDE


@pytest.mark.parametrize(("module", "text"), [
    ("restraints", "B1234"), ("body control", "U0151"), ("anti-lock brakes", "U1000"), ("engine control", "P0A0D")])
@pytest.mark.parametrize("causes", [[0, 0, 1, 0, 0], [0, 0, 0, 1, 0], [0, 0, 0, 0, 1]])
def test_the_safety_floor_holds_for_every_cause(module: str, text: str, causes: list[float]) -> None:
    assert stands(module, text, -50, 0.5, causes) == UNSETTLED
    assert stands(module, text, -50, 0.99, causes) == ASIDE


def test_an_isolation_fault_is_never_set_aside_without_a_measurement() -> None:
    # UN R100 5.1.3 states isolation as a measured resistance; no scan shows one.
    assert stands("engine control", "P0AA6", -50, 0.99, [0, 0, 0, 1, 0]) == UNSETTLED


# How long clean is clean: the rule of three, 1 - 0.05^(1/n).

@pytest.mark.parametrize(("runs", "bound"), [(1, 0.95), (2, 0.78), (3, 0.63), (5, 0.45), (10, 0.26), (30, 0.095)])
def test_the_bound_after_clean_runs(runs: int, bound: float) -> None:
    assert clean_bound(runs) == pytest.approx(bound, abs=0.005)
    assert math.pow(1 - clean_bound(runs), runs) == pytest.approx(0.05)


def test_the_bound_is_printed_beside_did_not_return_and_nothing_prints_fixed() -> None:
    found = page(van("before-clear", {"body control": ["U0121"]}, **FLAT), van("after-clear", **HELD),
                 van("after-run", **DRIVEN))
    line = next(iter(found.unsettled or found.set_aside)).lines[0]
    assert line.clean is not None
    assert "2 clean tests" in line.clean
    assert "78 %" in line.clean
    assert "fixed" not in repr(found).lower().replace("fixed grid", "")


@pytest.mark.parametrize(("decibans", "words"), [
    (30, "all but certain"), (13, "very likely"), (6, "likely"), (0, "more likely than not"), (-3, "open"),
    (-10, "unlikely"), (-15, "very unlikely"), (-30, "all but ruled out")])
def test_words_before_decibans(decibans: float, words: str) -> None:
    assert band(decibans) == words


# Lists.

SILENT = [van(phase, {"instrument cluster": ["U0121"], "engine control": ["U0121", code("U0121", "87")]},
              silent=["anti-lock brakes"], **HELD) for phase in ("before-clear", "after-clear")]


def test_a_silent_module_is_one_root_with_all_its_reports() -> None:
    found = page(*SILENT)
    assert len(found.short_list) == 1
    root = found.short_list[0]
    assert "anti-lock brakes" in root.title
    assert {(line.verdict["module"], line.verdict["failure_type"]) for line in root.lines} == {
        ("instrument cluster", None), ("engine control", None), ("engine control", "87")}
    assert root.safety == "brakes"
    assert any("2 modules" in sentence for sentence in root.why)


@pytest.mark.parametrize(("module", "text", "safety"), [
    # The range of a maker's chassis code counts as brakes; the module that holds it knows better.
    ("power steering", "C1B05", "steering"), ("anti-lock brakes", "C1B05", "brakes"), ("telematics", "C1B05", "brakes"),
    # A code with a title says what it is about, wherever it stands.
    ("power steering", "C0035", "brakes"),
])
def test_the_module_tells_the_safety_class_of_a_code_without_a_title(module: str, text: str, safety: str) -> None:
    work = Worked([job(snapshot("before-clear", scan(module, text), **FLAT))], tables())
    assert work.standings.dangers == [safety]


def test_roots_stand_in_order_of_their_sums_and_the_count_closes() -> None:
    found = page(*SILENT)
    assert [root.decibans for root in found.short_list] == sorted(
        [root.decibans for root in found.short_list], reverse=True)
    assert found.count == "3 read = 3 on the short list + 0 unsettled + 0 set aside"


NOISY = {"engine control": ["P0562", "P0118", "P0700"], "restraints": ["B0001", "B1234"], "body control": ["U0121"],
         "transmission control": ["P0715"], "instrument cluster": ["U0100", "U0155"]}


def test_unsettled_groups_put_safety_first_and_name_each_fault_once() -> None:
    found = page(van("before-clear", NOISY, **FLAT), van("after-clear", {"restraints": ["B0001"]}, volts=12.6))
    assert found.unsettled
    places = [[(line.verdict["decibans"] < -12.8, line.safety is None) for line in group.lines]
              for group in found.unsettled]
    # What may well persist goes first, safety before the rest; behind it what hardly does, safety first again.
    assert all(group == sorted(group) for group in places)
    assert [group[0] for group in places] == sorted(group[0] for group in places)
    assert {True, False} == {hardly for group in places for hardly, _ in group}
    named = [(line.verdict["module"], line.verdict["code"]) for group in found.unsettled for line in group.lines]
    assert len(named) == len(set(named))


def test_a_fault_tells_its_marks_with_the_modules_own_volts() -> None:
    found = page(van("before-clear", {"body control": ["B1234"]}, **FLAT), van("after-clear", silent=["body control"],
                                                                             **HELD), van("after-run", **RUNS))
    line = next(line for group in found.unsettled for line in group.lines)
    assert [mark.sight for mark in line.marks] == ["seen", "not readable", "not seen"]
    assert [mark.volts for mark in line.marks] == [10.7, 12.6, 13.9]


def test_a_pointer_whose_target_shows_nothing_is_told() -> None:
    holds = {"engine control": ["P0700"]}
    found = page(van("before-clear", {}, **FLAT), van("after-clear", holds, **HELD), van("after-run", holds, **RUNS))
    line = next(line for group in found.unsettled for line in group.lines)
    assert line.why[0] == "transmission control, which it points at, shows nothing: read that again first"
    assert ("engine control P0700 asks for the lamp, but its target transmission control shows nothing: read it again"
            in found.stories)
    assert found.next_checks[0]["do"].startswith("read transmission control again, every list")


# Next checks.

def checks(found: Assessment) -> list[Any]:
    return list(found.next_checks)


@pytest.mark.parametrize("shots", [
    SILENT, [van("before-clear", NOISY, **FLAT)],
    [van("before-clear", NOISY, **FLAT), van("after-clear", NOISY, **HELD), van("after-run", NOISY, **RUNS)]],
    ids=["silent", "before", "all came back"])
def test_checks_are_ranked_by_what_they_settle_a_minute(shots: list[Json]) -> None:
    ranked = checks(page(*shots))
    assert ranked
    if len(shots) == 1:
        # Nothing was cleared: that goes before the runs that show what comes back.
        assert ranked.pop(0)["do"].startswith("hold the supply, clear")
    # Whatever it settles, a battery that was flat is charged and tested before anybody runs the vehicle on it.
    ranked = [check for check in ranked if "load-test" not in check["do"]]
    worth = [check["gain_bits"] / check["minutes"] for check in ranked]
    # A tenth of it is none: brakes, steering and restraints go first at a tie.
    assert all(first * 1.1 >= then for first, then in pairwise(worth))
    assert all(check["minutes"] > 0 and check["passes_if"] and check["where"] for check in ranked)
    assert not any("replace" in check["do"] for check in ranked)


def test_a_check_names_only_faults_of_the_session() -> None:
    found = page(van("before-clear", NOISY, **FLAT), van("after-clear", {"restraints": ["B0001"]}, **HELD))
    names = {f"{fault['module']} {fault['code']}" for fault in found.verdict["faults"]}
    assert all(set(check["settles"]) <= names for check in checks(found))


@pytest.mark.parametrize(("module", "text", "words"), [
    ("restraints", "B1234", "qualified person"), ("engine control", "P0AA6", "qualified person"),
    ("anti-lock brakes", "C0044", "secured")])
def test_a_check_at_a_safety_part_has_its_gate(module: str, text: str, words: str) -> None:
    holds = {module: [text]}
    found = page(van("before-clear", holds, **FLAT), van("after-clear", holds, **HELD), van("after-run", holds, **RUNS))
    near = [check for check in checks(found) if check["where"].startswith(module)]
    assert near
    assert all(check["gate"] and words in check["gate"] for check in near)


def test_driving_and_running_have_their_gates() -> None:
    found = page(van("before-clear", NOISY, **FLAT))
    for check in checks(found):
        if check["do"].startswith(("drive", "run the engine")):
            assert check["gate"]


def test_a_silent_restraint_module_is_checked_behind_its_gate() -> None:
    found = page(*[van(phase, {"body control": ["U0151"]}, silent=["restraints"], **HELD)
                   for phase in ("before-clear", "after-clear")])
    check = next(check for check in checks(found) if "restraints" in check["do"])
    assert check["gate"]
    assert "qualified person" in check["gate"]


def test_nobody_is_told_to_clear_while_a_crash_record_stands() -> None:
    holds: Json = {"restraints": [code("B0001", "68")], "engine control": ["P0118"]}
    for check in checks(page(van("before-clear", holds, **FLAT))):
        assert "clear all" not in check["do"] or check["gate"]


def test_a_crash_record_never_tells_that_a_clear_did_not_take() -> None:
    record = {"restraints": [code("B0001", "68"), code("B0002", "68"), code("B0003", "68")]}
    found = page(van("before-clear", record, **FLAT), van("after-clear", record, **HELD),
                 van("after-run", record, **RUNS))
    assert not any("did not take" in story for story in found.stories)


def test_cautions_follow_what_the_session_touches() -> None:
    words = " ".join(page(van("before-clear", {"restraints": ["B0001"]}, **FLAT)).cautions)
    assert "Restraints" in words
    assert "Jump starting" in words
    calm = " ".join(page(van("before-clear", {"body control": ["B1234"]}, volts=12.6, engine="off")).cautions)
    assert "Restraints" not in calm
    assert "Jump starting" not in calm


def test_a_frame_stored_on_the_road_long_before_is_a_reason_in_words() -> None:
    """Common practice: the odometer in a freeze frame tells an old code from one of this week's flat battery."""
    def frame(volts: float, km: int, speed: int) -> Json:
        return {"freeze_frame": {"volts": volts, "distance_km": km, "speed_kmh": speed, "engine_rpm": 0}}

    held: list[Any] = [{"code": "P0562"} | frame(9.1, 84213, 0), {"code": "U0121"} | frame(9.0, 84212, 0),
                       {"code": "P0101"} | frame(13.9, 81950, 62)]
    told = " ".join(terminal(page(van("before-clear", {"engine control": held}, **FLAT),
                                  van("after-clear", **HELD))).split())
    assert ("its freeze frame was stored at 62 km/h, 2263 km before the newest one: hardly by a low supply"
            in told)
    assert told.count("hardly by a low supply") == 1


@pytest.mark.parametrize("complaint", ["won't start", "doesn't start in the morning", "wont start", "just clicks",
                                       "springt nicht an", "ne démarre pas", "no arranca",
                                       "interior light on", "lights left on over night"])
def test_a_vehicle_that_does_not_start_is_answered_with_the_low_supply_first(complaint: str) -> None:
    came_back: list[Any] = [{"code": "P0118", "status": "current"}]
    found = page(van("before-clear", {"engine control": ["P0562", *came_back]}, **FLAT),
                 van("after-clear", {"engine control": came_back}, **HELD), vehicle={"complaint": complaint})
    assert found.complaint == f"{complaint}. Look first at the low supply"


def test_the_printed_words_stand_beside_a_title_that_an_unlisted_module_may_not_mean() -> None:
    def title(module: str, text: str) -> str:
        found = page(snapshot("before-clear", scan(module, {"code": "P2213", "text": text}), **FLAT))
        return next(line.title for group in found.unsettled for line in group.lines)
    assert title("Cooling box", "compressor stalled").endswith(', but "compressor stalled" as printed')
    assert title("Cooling box", "NOx sensor line") == title("engine control", "compressor stalled")


def test_the_printed_words_of_a_crash_record_stand_beside_a_title_of_another_kind() -> None:
    # Makers differ in what they give B0051 to (common practice).
    held = {"restraints": [{"code": "B0051", "text": "deployment commanded"}]}
    found = page(van("before-clear", held, **FLAT), van("after-clear", held, **HELD))
    line, = [line for group in found.unsettled for line in group.lines]
    assert line.title.endswith('but "deployment commanded" as printed')
    assert found.unsettled[0].head.startswith("stored crash record")
