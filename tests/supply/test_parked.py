"""Levels that come and go: top-ups of a parked vehicle, a charging level that swings, one that falls after charging.

Common practice: the converter of a parked electric drive, or a maintenance charger, tops the 12 V battery up for
minutes every hour or two; hazard lights flash every 0.5 to 1 s. All logs invented.
"""

from __future__ import annotations

import numpy as np
import pytest

from triage.supply.finding import Finding, OutsideSpan, SupplyContext
from triage.supply.findings import findings
from triage.supply.segments import segments
from triage.supply.trace import Trace, make_trace


def found_in(trace: Trace, context: SupplyContext | None = None) -> list[Finding]:
    return findings(trace, segments(trace), context or SupplyContext())


def kept(up: float, down: float, *, times: int = 4, high: float = 14.3, low: float = 12.6) -> Trace:
    """A reading every 10 s: ``up`` minutes at ``high``, ``down`` minutes at ``low`` volts, over and over."""
    one = [high] * round(up * 6) + [low] * round(down * 6)
    volts = np.array([low] * round(down * 6) + one * times) + np.random.default_rng(3).normal(0.0, 0.01, (
        times + 1) * round(down * 6) + times * round(up * 6))
    return make_trace(np.arange(len(volts)) * 10.0, volts)


def test_top_ups_of_a_parked_vehicle_are_no_commanded_charging() -> None:
    told = found_in(kept(12, 90))
    (top,) = [one for one in told if one.kind == "topped up"]
    assert "about 12 min at 14.30 V every 102 min, 12.60 V between" in top.text
    assert top.state == "not tested"
    assert not any("commanded" in one.text for one in told)


def test_a_charger_that_is_connected_is_named() -> None:
    context = SupplyContext(outside=(OutsideSpan(0.0, None, "charger"),))
    (top,) = [one for one in found_in(kept(12, 90), context) if one.kind == "topped up"]
    assert "the charger that is connected keeps it charged" in top.text


@pytest.mark.parametrize("trace", [kept(3, 4), kept(60, 30), kept(12, 90, low=13.3)])
def test_shorter_steps_longer_charging_and_a_higher_level_are_none(trace: Trace) -> None:
    assert "topped up" not in [one.kind for one in found_in(trace)]


def swinging(period: float, swing: float = 0.35, seconds: float = 60.0) -> Trace:
    at = np.arange(0.0, seconds, 0.02)
    wave = np.sign(np.sin(2.0 * np.pi * at / period)) * (1.0 + 0.3 * np.sin(at))
    return make_trace(at, 13.9 + swing * wave + np.random.default_rng(1).normal(0.0, 0.03, len(at)))


def test_a_charging_level_that_swings_is_no_steady_charging() -> None:
    told = found_in(swinging(0.7))
    (one,) = [found for found in told if found.text.startswith("swings between")]
    assert one.state == "not tested"
    assert "hazard lights" in one.text
    assert not any("charging, within" in found.text or "load steps" in found.text for found in told)


@pytest.mark.parametrize("trace", [swinging(0.7, swing=0.02), swinging(14.0)])
def test_a_steady_level_and_slow_loads_do_not_swing(trace: Trace) -> None:
    assert not any(found.text.startswith("swings between") for found in found_in(trace))


@pytest.mark.parametrize(("plateau", "told"), [(9.62, "at the 9.6 V"), (9.9, "above the 9.6 V"), (9.2, "below 9.6 V")])
def test_a_crank_at_its_limit_neither_passes_nor_fails(plateau: float, told: str) -> None:
    volts = np.concatenate([np.full(100, 12.5), plateau + 0.06 * np.sin(np.arange(20)), np.full(300, 14.1)])
    trace = make_trace(np.arange(len(volts)) * 0.1, volts)
    (one,) = [found for found in found_in(trace) if found.kind == "crank"]
    assert told in one.text
    assert (one.state == "not tested" and "neither passed nor failed" in one.text) is (told == "at the 9.6 V")


@pytest.mark.parametrize(("last", "told"), [(12.5, True), (12.9, False)])
def test_a_level_that_falls_after_charging_is_asked_about(last: float, told: bool) -> None:
    volts = np.concatenate([np.full(200, 14.1), np.linspace(12.95, last, 350)])
    trace = make_trace(np.arange(len(volts)) * 1.0, volts)
    asked = [one for one in found_in(trace) if "nobody said which, and that decides" in one.text]
    assert bool(asked) is told
