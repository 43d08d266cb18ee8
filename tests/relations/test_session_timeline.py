"""What was done between the snapshots: clears by phase and by event, work, another module in the place."""

from __future__ import annotations

from typing import Any

import pytest
from made_sessions import FLAT, HELD, RUNS, Json, job, snapshot, tables, van

from triage.assess import Worked, verdicts
from triage.model.casebook import Timeline

HOLDS = {"engine control": ["P0118", "B1234", "P0715"], "body control": ["U1000"]}


def worked(*snapshots: Json, **rest: Any) -> Worked:
    return Worked([job(*snapshots, **rest)], tables())


def clears(line: Timeline, work: Worked, module: str) -> list[float]:
    return [float(chance) for chance in line.clear[work.book.module_name.index(module)]]


@pytest.mark.parametrize(("phases", "expected"), [
    (["before-clear", "after-clear", "after-run"], [0, 1, 0]),
    (["before-clear", "after-run"], [0, 1]),          # a run after the clear, no scan between
    (["after-clear", "after-run"], [1, 0]),           # the clear came before the first scan
    (["before-clear", "after-clear", "after-run", "after-clear"], [0, 1, 0, 1]),  # cleared again
    ([None, "after-clear"], [0, 1]),
    ([None, None], [0, 0]),
    (["before-clear", "before-clear"], [0, 0]),
])
def test_clears_by_phase(phases: list[str | None], expected: list[float]) -> None:
    work = worked(*[van(phase, HOLDS) for phase in phases])
    assert clears(work.line, work, "engine control") == expected


def test_a_new_start_has_its_own_clear() -> None:
    work = worked(*[van(phase, HOLDS) for phase in ("before-clear", "after-clear", "before-clear", "after-clear")])
    assert clears(work.line, work, "engine control")[-1] == 1


def test_a_refused_clear_is_no_clear() -> None:
    # ISO 14229-1: a negative answer (conditions, security) leaves the list as it is.
    work = worked(van("before-clear", HOLDS), van("after-clear", HOLDS),
                  events=[{"what": "cleared", "module": "engine control", "answer": "refused"}])
    assert clears(work.line, work, "engine control")[1] < 0.05
    assert clears(work.line, work, "body control")[1] == 1


def test_a_code_that_stayed_through_a_refused_clear_has_not_come_back() -> None:
    def row(answer: str) -> float:
        session = job(van("before-clear", HOLDS, **FLAT), van("after-clear", HOLDS, **HELD),
                      events=[{"what": "cleared", "module": "body control", "answer": answer}])
        entry = next(f for f in verdicts([session], tables(), ledger=True)[0]["faults"] if f["code"] == "U1000")
        return entry["ledger"][-1]["decibans"]
    assert row("refused") < 2 < row("accepted")


def test_one_code_alone_never_proves_that_a_clear_did_not_take_but_a_whole_list_tells() -> None:
    work = worked(van("before-clear", HOLDS, **FLAT), van("after-clear", HOLDS, **HELD))
    by_code = dict(zip(work.book.code, work.evidence.weighed.refused.tolist(), strict=True))
    assert by_code["U1000"] < 0.1
    assert min(by_code[text] for text in HOLDS["engine control"]) > 0.3


def test_an_event_with_a_time_stands_between_the_snapshots_by_their_times() -> None:
    shots = [van("before-clear", HOLDS, at="2025-03-03T08:00:00+00:00"),
             van("after-run", HOLDS, at="2025-03-03T09:00:00+00:00"),
             van("after-run", HOLDS, at="2025-03-03T10:00:00+00:00")]
    event = {"what": "cleared", "answer": "accepted", "at": "2025-03-03T10:30:00+01:00"}
    work = worked(*shots, events=[event])
    assert clears(work.line, work, "engine control")[2] == 1


def test_snapshots_out_of_order_are_taken_by_their_times_with_a_notice() -> None:
    shots = [van("before-clear", HOLDS, at="2025-03-03T08:00:00+00:00", volts=10.0),
             van("after-clear", at="2025-03-03T09:00:00+00:00", volts=12.6)]
    right, wrong = worked(*shots), worked(*reversed(shots))
    assert wrong.book.volts.tolist() == right.book.volts.tolist()
    assert any("order" in notice.message for notice in wrong.book.notices[0])


def test_a_replaced_module_starts_anew_and_may_bring_another_vehicles_codes() -> None:
    # Common practice: a used module's first scan is before-clear.
    def history(events: list[Json]) -> float:
        session = job(van("before-clear", {"body control": ["U1000"]}, **FLAT), van("after-clear", **HELD),
                      van("after-repair", {"engine control": ["P1234"]}, **RUNS), events=events)
        return next(f for f in verdicts([session], tables())[0]["faults"] if f["code"] == "P1234")["causes"]["history"]
    used = [{"what": "replaced", "module": "engine control", "part": "used"}]
    assert history(used) > history([]) + 0.2


def test_programming_asks_for_a_clear_of_its_module_alone() -> None:
    # 40 CFR 86.010-18 (k)(4)(viii)(B): programming erases diagnostic data.
    work = worked(van("before-clear", HOLDS), van("before-clear", HOLDS),
                  events=[{"what": "programmed", "module": "engine control"}])
    assert clears(work.line, work, "engine control")[1] >= 0.5
    assert clears(work.line, work, "body control")[1] == 0


def test_an_events_module_may_be_any_name_a_person_would_write() -> None:
    work = worked(van("before-clear", HOLDS), van("after-clear", HOLDS),
                  events=[{"what": "cleared", "module": "ECM", "answer": "refused"}])
    assert clears(work.line, work, "engine control")[1] < 0.05


def test_an_event_about_an_unknown_module_is_told() -> None:
    work = worked(van("before-clear", HOLDS), events=[{"what": "replaced", "module": "trailer brake"}])
    assert any("trailer brake" in notice.message for notice in work.book.notices[0])


def test_a_second_clear_that_is_refused_does_not_undo_the_first() -> None:
    answers = [{"what": "cleared", "answer": answer} for answer in ("accepted", "refused")]
    work = worked(van("before-clear", HOLDS), van("after-clear", HOLDS), events=answers)
    assert clears(work.line, work, "engine control")[1] > 0.9


@pytest.mark.parametrize(("counters", "refuted"), [
    ({"warm_ups": 40}, True), ({"warm_ups": 255}, True), ({"warm_ups": 0, "minutes": 5}, False), ({}, False),
    ({"minutes": 65535}, True), ({"distance_km": 900}, True)])
def test_counters_since_the_clear_refute_it_or_not(counters: Json, refuted: bool) -> None:
    # SAE J1979: warm-ups, distance and time since codes were cleared start again at zero.
    work = worked(van("before-clear", HOLDS), van("after-clear", HOLDS, since_clear=counters))
    assert (clears(work.line, work, "engine control")[1] < 0.5) is refuted
    assert bool([n for n in work.book.notices[0] if n.severity == "warning"]) is refuted
    assert clears(work.line, work, "body control")[1] == 1


@pytest.mark.parametrize(("nominal", "volts", "scale"), [
    (None, 12.6, 1), (None, 25.2, 2), (24, 25.2, 2), (24, 9.0, 2), (12, 14.0, 1), (None, None, 1), (0, 12.0, 1)])
def test_the_nominal_supply(nominal: float | None, volts: float | None, scale: float) -> None:
    work = worked(snapshot("before-clear", volts=volts), vehicle={"nominal_volts": nominal})
    assert work.line.scale.tolist() == [scale]


def test_codes_that_are_back_after_an_accepted_clear_have_come_back() -> None:
    # ISO 14229-1: a positive answer means that the module took the clear.
    work = worked(van("before-clear", HOLDS, **FLAT), van("after-clear", HOLDS, **HELD),
                  events=[{"what": "cleared", "module": name, "answer": "accepted"} for name in HOLDS])
    assert work.evidence.weighed.refused.max() < 0.2


def test_what_is_said_of_the_whole_vehicle_is_no_answer_of_each_module() -> None:
    # Common practice: a broadcast clear is "done" though a module of many kept its list.
    def refused(*events: Json) -> float:
        work = worked(van("before-clear", HOLDS, **FLAT), van("after-clear", HOLDS, **HELD), events=list(events))
        return float(work.evidence.weighed.refused[work.book.code.index(HOLDS["engine control"][0])])

    whole, own = {"what": "cleared", "answer": "accepted"}, {
        "what": "cleared", "module": "engine control", "answer": "accepted"}
    assert refused(own) < refused(whole) < refused()


@pytest.mark.parametrize("turned", [False, True])
def test_a_modules_own_refusal_beats_what_is_said_of_the_whole_vehicle(turned: bool) -> None:
    answers = [{"what": "cleared", "answer": "accepted"},
               {"what": "cleared", "module": "engine control", "answer": "refused"}]
    work = worked(van("before-clear", HOLDS), van("after-clear", HOLDS), events=answers[::-1] if turned else answers)
    assert clears(work.line, work, "engine control")[1] < 0.05
    assert clears(work.line, work, "body control")[1] > 0.9
