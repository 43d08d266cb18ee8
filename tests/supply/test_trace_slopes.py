"""Traces that fall at rest, lose contact, crank low or charge at two levels: what is told, and what decides.

Common practice: surface charge is gone after some six hours of rest, and a battery with a sound key-off draw then loses
hundredths of a volt a day; a battery that is connected never leaves a charging level for a few volts; a plateau below
9.6 V with a full battery is measured again on the posts.
"""

from __future__ import annotations

import numpy as np
import pytest
from made_traces import Made, crank

from triage.supply.finding import Finding, SupplyContext
from triage.supply.findings import findings
from triage.supply.segments import segments
from triage.supply.trace import Trace, make_trace

ALONE = SupplyContext(outside=())


def found_in(trace: Trace, context: SupplyContext | None = None) -> dict[str, Finding]:
    """The findings by kind, the first of each."""
    result: dict[str, Finding] = {}
    for finding in findings(trace, segments(trace), context or SupplyContext()):
        result.setdefault(finding.kind, finding)
    return result


def night(start: float, end: float, hours: float = 12.0) -> Trace:
    """A reading a minute, straight from ``start`` to ``end`` volts, 5 mV of noise."""
    seconds = np.arange(0.0, hours * 3600.0, 60.0)
    volts = np.linspace(start, end, len(seconds)) + np.random.default_rng(4).normal(0.0, 0.005, len(seconds))
    return make_trace(seconds, volts)


def test_a_night_that_falls_is_a_draw_and_no_charge() -> None:
    found = found_in(night(12.7, 11.6))
    falling = found["falling rest"]
    assert "state of charge" not in found
    assert falling.figures["high_volts"] == pytest.approx(12.12, abs=0.05)
    assert falling.figures["low_volts"] == pytest.approx(11.63, abs=0.05)
    assert falling.part == "key-off draw"
    assert "key-off draw" in found["decides"].text


@pytest.mark.parametrize(("start", "end", "hours"), [(12.62, 12.60, 12.0), (12.9, 12.4, 5.0)])
def test_a_steady_night_and_a_fading_surface_charge_are_no_draw(start: float, end: float, hours: float) -> None:
    found = found_in(night(start, end, hours))
    assert "falling rest" not in found
    assert "state of charge" in found


def test_hours_of_rest_before_the_log_count() -> None:
    assert "falling rest" in found_in(night(12.4, 12.0, 4.0), SupplyContext(rested_hours=8.0))


@pytest.mark.parametrize(("low", "told"), [(6.0, True), (11.4, False)])
def test_a_charging_level_left_for_a_few_volts_is_a_lost_contact(low: float, told: bool) -> None:
    trace = Made(10, 3).pulses(12, 10.0, low, 14.2, 0.9, high_first=True).trace()
    found = found_in(trace, ALONE)
    assert ("loose" in found["cycling"].text) is told
    assert ("moved by hand" in found["decides"].text) is told
    assert found["cycling"].state == ("not tested" if told else "failed")


def test_a_low_crank_is_measured_again_on_the_posts() -> None:
    made = Made(100, 9).add("rest", 20, 12.6).add("key on", 6, 12.3).add("crank", 1.5, crank(7.2, 6.5))
    found = found_in(made.add("charging", 60, 14.1).trace())
    assert "battery posts while it cranks" in found["decides"].text


def test_two_charging_levels_that_mean_two_things_are_both_told() -> None:
    made = Made(10, 9).add("key on", 6, 12.3).add("crank", 1.0, crank(10.2, 9.4)).add("charging", 60, 14.4)
    trace = made.add("sag", 60, 12.7).add("charging", 60, 14.92).trace()
    told = [f.text for f in findings(trace, segments(trace), ALONE) if f.kind == "charging"]
    assert len(told) == 2
    assert "within" in told[0]
    assert "watch it warm" in told[1]


def test_below_what_commanded_charging_holds_is_no_charging() -> None:
    made = Made(10, 9).add("key on", 6, 12.3).add("crank", 1.0, crank(10.2, 9.4))
    low: dict[str, Finding] = found_in(made.add("running", 90, 12.1).trace(), ALONE)
    assert "of a commanded one" in low["undercharge"].text
    assert "take off" not in low["decides"].text


def test_a_run_that_falls_on_is_not_commanded() -> None:
    """Common practice: commanded charging holds a level; a battery that feeds all by itself sinks."""
    told = {}
    for slope in (-0.001, 0.0):
        seconds = np.arange(0.0, 600.0, 2.0)
        volts = np.where(seconds < 20, 12.63, np.where(seconds < 24, 10.2, 12.75 + slope * (seconds - 24)))
        trace = make_trace(seconds, np.round(volts, 2))
        told[slope] = next(one for one in findings(trace, segments(trace), SupplyContext(engine_at=((100.0, "running"),)))
                           if one.part == "charging" and one.kind in ("charging", "undercharge"))
    assert told[-0.001].state == "failed" and "falling from 12." in told[-0.001].text
    assert told[0.0].state == "not tested" and "falling" not in told[0.0].text
