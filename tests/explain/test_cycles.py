"""Driving cycles, warm-ups, trips and readiness against the regulations; the source stands by each check."""

from __future__ import annotations

import doctest
from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st
from made_sessions import tables

from triage.explain import cycles
from triage.explain.cycles import (
    CodeLife,
    Cycle,
    Figures,
    ReadinessLimit,
    Trip,
    after_clear,
    after_cycle,
    counts_trip,
    federal_inspection,
    figures_of,
    has_ratio,
    is_warm_up,
    just_cleared,
    meets_trip,
    readiness_limits,
    similar_conditions,
    unset_monitors,
    within,
)
from triage.model.snapshot import Completeness
from triage.units import fahrenheit_to_celsius

FIGURES = figures_of(tables())
FAIL, PASS, NO_RUN = Cycle(ran=True, failed=True), Cycle(ran=True), Cycle(ran=False)
WARM = Cycle(ran=True, warm_up=True)


def life(*passed: Cycle, start: CodeLife | None = None, trips: int | None = None, ratio: bool = True) -> CodeLife:
    """A code after these cycles."""
    now = start or CodeLife()
    for cycle in passed:
        now = after_cycle(now, cycle, FIGURES, trips=trips, ratio=ratio)
    return now


def test_the_tables_hold_the_figures_of_the_defaults() -> None:
    assert Figures() == FIGURES


def test_the_examples_hold() -> None:
    assert doctest.testmod(cycles).failed == 0


# --- the life of a code ----------------------------------------------------------------------------------------

def test_a_fault_not_seen_again_is_erased_at_the_end_of_the_next_cycle() -> None:
    # 13 CCR 1968.2 (2007 text) (d)(2.2.2).
    assert life(FAIL).pending
    after = life(FAIL, PASS)
    assert (after.pending, after.confirmed, after.lamp) == (False, False, False)


def test_a_fault_seen_in_two_cycles_is_confirmed_with_the_lamp() -> None:
    # 13 CCR 1968.2 (2007 text) (d)(2.2.2); 40 CFR 86.010-18 (b)(2)(ii).
    after = life(FAIL, FAIL)
    assert (after.confirmed, after.lamp) == (True, True)
    # Stored as permanent before the end of that ignition cycle: 40 CFR 86.010-18 (b)(2)(vi).
    assert after.permanent


def test_the_next_cycle_is_the_next_in_which_monitoring_occurs() -> None:
    # 13 CCR 1968.2 (2007 text) (d)(2.2.2).
    waiting = life(FAIL, NO_RUN)
    assert (waiting.pending, waiting.confirmed) == (True, False)
    assert life(FAIL, NO_RUN, FAIL).confirmed


def test_limp_home_lights_the_lamp_in_the_first_cycle() -> None:
    # 13 CCR 1968.2 (2007 text) (d)(2.2.3); 40 CFR 86.010-18 (b)(2)(v).
    assert life(FAIL, trips=1).lamp


def test_three_passing_cycles_put_the_lamp_out_and_keep_the_code() -> None:
    # 40 CFR 86.010-18 (b)(3)(i); 40 CFR 86.1806-05 (d)(1).
    assert life(FAIL, FAIL, PASS, PASS).lamp
    assert life(FAIL, FAIL, PASS, PASS, NO_RUN).lamp, "a cycle in which the monitor did not run does not count"
    after = life(FAIL, FAIL, PASS, NO_RUN, PASS, PASS)
    assert (after.lamp, after.confirmed) == (False, True)
    assert life(FAIL, FAIL, PASS, PASS, FAIL, PASS, PASS).lamp, "a failure starts the three anew"


def test_forty_warm_ups_without_the_fault_and_with_the_lamp_off() -> None:
    # 40 CFR 86.1806-05 (e)(3); 40 CFR 86.010-18 (b)(3)(ii).
    dark = life(FAIL, FAIL, WARM, WARM, WARM)
    assert dark.warm_ups == 0, "the lamp was on"
    assert not life(*[WARM] * 39, start=dark).may_be_erased(FIGURES)
    assert life(*[WARM] * 40, start=dark).may_be_erased(FIGURES)
    assert not life(*[WARM] * 39, FAIL, WARM, start=dark).may_be_erased(FIGURES)


def test_misfire_and_fuel_system_ask_for_similar_conditions() -> None:
    # 40 CFR 86.1806-05 (d)(1), 86.010-2: within 375 rpm and 20 percent of the load, same warm-up state.
    other = Cycle(ran=True, similar=False)
    assert life(FAIL, FAIL, other, other, other).lamp
    assert not life(FAIL, FAIL, PASS, other, PASS, PASS).lamp
    assert similar_conditions((2000, 50, True), (2375, 60, True), FIGURES)
    assert not similar_conditions((2000, 50, True), (2376, 50, True), FIGURES)
    assert not similar_conditions((2000, 50, True), (2000, 61, True), FIGURES)
    assert not similar_conditions((2000, 50, True), (2000, 50, False), FIGURES)


def test_a_monitor_that_did_not_run_did_not_fail() -> None:
    with pytest.raises(ValueError, match="did not run"):
        Cycle(ran=False, failed=True)


# --- permanent codes -------------------------------------------------------------------------------------------

LIT = life(FAIL, FAIL)


def test_a_permanent_code_outlives_a_clear() -> None:
    # 40 CFR 86.010-18 (k)(4)(iv)(F): not by any command, nor by taking the power away.
    after = after_clear(LIT)
    assert (after.permanent, after.confirmed, after.pending, after.lamp) == (True, False, False, False)
    assert after_clear(CodeLife(pending=True)) == CodeLife()


def test_the_system_that_puts_the_lamp_out_erases_its_permanent_code() -> None:
    # 13 CCR 1968.2 (2007 text) (d)(2.5.1); 40 CFR 86.010-18 (b)(3)(iii)(A).
    assert life(PASS, PASS, start=LIT).permanent
    assert not life(PASS, PASS, PASS, start=LIT).permanent


def test_after_a_clear_a_monitor_with_a_ratio_needs_one_passing_cycle() -> None:
    # 13 CCR 1968.2 (2007 text) (d)(2.5.2)(A); 40 CFR 86.010-18 (b)(3)(iii)(B).
    cleared = after_clear(LIT)
    assert life(NO_RUN, start=cleared).permanent
    assert not life(NO_RUN, PASS, start=cleared).permanent
    assert life(FAIL, start=cleared).permanent


def test_after_a_clear_a_monitor_without_a_ratio_needs_a_pass_and_a_trip() -> None:
    # 40 CFR 86.010-18 (b)(3)(iii)(C): the two may fall in different cycles.
    cleared, trip = after_clear(LIT), Cycle(ran=False, trip=True)
    assert life(PASS, start=cleared, ratio=False).permanent
    assert life(trip, start=cleared, ratio=False).permanent
    assert not life(PASS, trip, start=cleared, ratio=False).permanent
    assert not life(Cycle(ran=True, trip=True), start=cleared, ratio=False).permanent
    assert life(PASS, FAIL, trip, start=cleared, ratio=False).permanent, "without a failure"


def test_circuits_and_misfire_have_no_ratio() -> None:
    # 40 CFR 86.1806-05 (e)(4): continuous monitors; sorted by monitor class here.
    assert has_ratio("drive cycle")
    assert has_ratio("cold soak")
    assert not has_ratio("key on")
    assert not has_ratio("running")


# --- the state machine, whatever the cycles --------------------------------------------------------------------

ANY = st.builds(lambda ran, failed, warm, trip: Cycle(ran, ran and failed, warm, trip=trip),
                st.booleans(), st.booleans(), st.booleans(), st.booleans())


@given(st.lists(st.sampled_from([PASS, NO_RUN, WARM]), max_size=12), st.lists(ANY.filter(lambda c: not c.failed),
                                                                              max_size=12))
def test_one_failing_cycle_never_confirms(before: list[Cycle], after: list[Cycle]) -> None:
    # 13 CCR 1968.2 (2007 text) (d)(2.2.2): only when seen again.
    now = life(*before, FAIL, *after)
    assert (now.confirmed, now.lamp, now.permanent) == (False, False, False)


@given(st.lists(ANY, max_size=40), st.booleans())
def test_states_that_can_not_be(passed: list[Cycle], ratio: bool) -> None:
    now = life(*passed, ratio=ratio)
    assert now.confirmed or not (now.lamp or now.permanent)
    assert not (now.lamp and now.may_be_erased(FIGURES))
    assert after_clear(now).permanent == now.permanent


def lamp_by_history(passed: Sequence[Cycle]) -> bool:
    """A second way to the lamp, from the whole history: two failures in a row, and no three passes in a row since."""
    results = "".join("F" if cycle.failed else "P" for cycle in passed if cycle.ran)
    last = results.rfind("FF")
    return last >= 0 and "PPP" not in results[last:]


@given(st.lists(ANY, max_size=40))
def test_the_lamp_agrees_with_the_whole_history(passed: list[Cycle]) -> None:
    assert life(*passed).lamp == lamp_by_history(passed)


# --- warm-ups and trips ----------------------------------------------------------------------------------------

@pytest.mark.parametrize(("start", "end", "counts"), [
    # A training text on readiness: at least 40 degF of rise and 160 degF reached.
    (60, 165, True), (130, 165, False), (60, 155, False),
])
def test_warm_up_cycles(start: float, end: float, counts: bool) -> None:
    assert is_warm_up(fahrenheit_to_celsius(start), fahrenheit_to_celsius(end), FIGURES) is counts


def test_a_diesel_is_warm_at_140_degrees_fahrenheit() -> None:
    # 13 CCR 1968.2(c), from memory.
    assert is_warm_up(10, fahrenheit_to_celsius(141), FIGURES, diesel=True)
    assert not is_warm_up(10, fahrenheit_to_celsius(141), FIGURES)


FULL = Trip(620, 310, 35, fahrenheit_to_celsius(50), 1000 * 0.3048)


def test_a_legally_counted_trip() -> None:
    # 40 CFR 86.010-18 (d)(4)(ii): 600 s, 300 s at 25 mph, 30 s of idle, at 20 degF and more, below 8000 ft.
    assert counts_trip(FULL, FIGURES) is True
    for short in (Trip(599, 310, 35, 10, 300), Trip(620, 299, 35, 10, 300), Trip(620, 310, 29, 10, 300)):
        assert counts_trip(short, FIGURES) is False
    assert counts_trip(Trip(620, 310, 35, 10, 2500), FIGURES) is False
    assert counts_trip(Trip(620, 310, 35), FIGURES) is None, "nobody said how cold and how high"


def test_a_cold_trip_counts_for_permanent_codes_alone() -> None:
    # 40 CFR 86.010-18 (b)(3)(iii)(C): the limits of temperature and altitude do not count there.
    cold = Trip(620, 310, 35, fahrenheit_to_celsius(10), 1000 * 0.3048)
    assert counts_trip(cold, FIGURES) is False
    assert meets_trip(cold, FIGURES)


# --- readiness -------------------------------------------------------------------------------------------------

def limit(year: int, drive: str, rule: str) -> ReadinessLimit:
    """The limit of ``rule``."""
    return next(entry for entry in readiness_limits(year, drive, tables()) if entry.rule == rule)


@pytest.mark.parametrize(("year", "unset", "outcome"), [
    # 40 CFR 85.2222 (c)(2): two or fewer until 2000, no more than one from 2001 on.
    (1999, 2, "pass"), (2000, 3, "not ready"), (2005, 2, "not ready"), (2001, 1, "pass"),
])
def test_federal_readiness(year: int, unset: int, outcome: str) -> None:
    assert federal_inspection(limit(year, "petrol", "federal"), unset, codes=0, lamp_commanded=False)[0] == outcome


def test_federal_lamp() -> None:
    # 40 CFR 85.2222 (d)(2): stored codes pass while the lamp is not commanded on; (c)(2), (d) and 85.2207 the rest.
    rule = limit(2005, "petrol", "federal")
    assert federal_inspection(rule, 0, codes=2, lamp_commanded=False)[0] == "pass"
    assert federal_inspection(rule, 0, codes=2, lamp_commanded=True)[0] == "fail"
    assert federal_inspection(rule, 2, codes=1, lamp_commanded=True)[0] == "fail", "on with a code: fails anyway"
    assert federal_inspection(rule, 0, codes=0, lamp_commanded=True, lamp_lit=False)[0] == "fail"
    assert federal_inspection(rule, 0, codes=0, lamp_commanded=False, lamp_at_key_on=False)[0] == "fail"
    assert federal_inspection(rule, 0, codes=0, lamp_commanded=False, connector=False)[0] == "fail"


EVAP, CATALYST, FILTER, NMHC = "evaporative system", "catalyst", "particulate filter", "NMHC catalyst"


@pytest.mark.parametrize(("year", "drive", "unset", "passes"), [
    # California readiness guidance (second-hand).
    (2005, "petrol", [EVAP], True), (2005, "petrol", [CATALYST], False), (2005, "hybrid", [EVAP, CATALYST], False),
    (1998, "petrol", [CATALYST], True), (1999, "petrol", [EVAP, CATALYST], False), (2000, "petrol", [CATALYST], False),
    (2003, "diesel", [], True), (2003, "diesel", [FILTER], False),
    (2010, "diesel", [FILTER, NMHC], True), (2010, "diesel", ["EGR"], False),
])
def test_california_readiness(year: int, drive: str, unset: list[str], passes: bool) -> None:
    assert within(unset, limit(year, drive, "California")) is passes


def test_where_no_rule_applies() -> None:
    # 40 CFR 85.2222 (c)(2) begins with model year 1996; an electric drive has no such monitors (common practice).
    assert readiness_limits(1995, "petrol", tables()) == []
    assert readiness_limits(2020, "electric", tables()) == []
    assert [entry.rule for entry in readiness_limits(2020, None, tables())] == ["federal"]


def test_the_just_cleared_pattern() -> None:
    # SAE J1979 (second-hand): data 00 07 E5 E5 is lamp off, no code, five monitors fitted and none complete.
    readiness: dict[str, Completeness] = dict.fromkeys(
        ("catalyst", "evaporative system", "oxygen sensor", "oxygen sensor heater", "EGR"), "incomplete")
    unset = unset_monitors(readiness | {"misfire": "complete", "secondary air": "not fitted"})
    assert len(unset) == 5
    assert just_cleared(unset, 0, tables())
    assert just_cleared(unset, 0, tables(), warm_ups=2, distance=12.0)
    assert not just_cleared(unset, 0, tables(), warm_ups=30)
    assert not just_cleared(unset, 0, tables(), distance=900.0)
    assert not just_cleared(unset, 1, tables())
    assert not just_cleared(["EGR"], 0, tables())
