"""Segments of seeded signals against their known truth, and silence where nothing happens."""

from __future__ import annotations

import itertools
from collections import Counter

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from made_traces import Made, Part, crank, noises, pulsing_of, ramp, rise, sagging_of, start_of

from triage.supply.segments import Segment, guess_nominal, segments
from triage.supply.trace import Trace, make_trace

COUNT = 100


def kinds(found: list[Segment]) -> list[str]:
    """The kinds in order."""
    return [segment.kind for segment in found]


def match(part: Part, made: Made, found: list[Segment], trace: Trace) -> Segment | None:
    """The segment that covers most of a true part under its name."""
    first, last = trace.seconds[part.start], trace.seconds[min(part.end, len(trace.seconds) - 1)]
    best, most = None, 0.5
    for segment in found:
        both = min(last, segment.end_s) - max(first, segment.start_s)
        either = max(last, segment.end_s) - min(first, segment.start_s)
        if segment.kind == part.kind and both / either > most:
            best, most = segment, both / either
    return best


def score(made: Made, noise: float, tally: Counter[str]) -> None:
    """Counts how many true parts are found, with the right level (0.1 V, times 2 at 24 V) and edges (two samples)."""
    trace = made.trace(noise)
    found = segments(trace, 12 * made.unit)
    for number, part in enumerate(made.parts):
        tally[part.kind] += 1
        segment = match(part, made, found, trace)
        if segment is None:
            continue
        tally[f"{part.kind} found"] += 1
        level = abs(segment.volts - part.volts)
        if part.kind == "cycling":
            assert segment.low_volts is not None
            assert segment.high_volts is not None
            assert segment.period_s is not None
            level = max(abs(segment.low_volts - part.low), abs(segment.high_volts - part.high))
            tally["period"] += abs(segment.period_s - part.period_s) <= 2.01 / made.rate
        tally[f"{part.kind} level"] += level <= 0.1
        last = number + 1 == len(made.parts)
        sharp = part.sharp and (last or made.parts[number + 1].sharp)
        start = abs(segment.start_s - trace.seconds[part.start]) * made.rate
        end = abs(segment.end_s - trace.seconds[min(part.end, len(trace.seconds) - 1)]) * made.rate
        tally[f"{part.kind} sharp"] += sharp
        tally[f"{part.kind} edges"] += sharp and start <= 2.01 and end <= 2.01


def test_starts_are_found_with_their_levels_and_edges() -> None:
    tally: Counter[str] = Counter()
    for seed in range(COUNT):
        score(*start_of(seed), tally)
    for kind in ("rest", "key on", "crank", "charging", "load"):
        assert tally[f"{kind} found"] >= 0.99 * tally[kind], (kind, tally)
        assert tally[f"{kind} level"] >= 0.99 * tally[kind], (kind, tally)
        assert tally[f"{kind} edges"] >= 0.98 * tally[f"{kind} sharp"], (kind, tally)


def test_cycling_is_found_with_levels_period_and_edges() -> None:
    tally: Counter[str] = Counter()
    for seed in range(COUNT):
        score(*pulsing_of(seed), tally)
    assert tally["cycling found"] >= 0.99 * COUNT, tally
    assert tally["cycling level"] >= 0.99 * COUNT, tally
    assert tally["cycling edges"] >= 0.98 * COUNT, tally
    assert tally["period"] >= 0.99 * COUNT, tally
    assert tally["running found"] >= 0.99 * COUNT, tally


def test_sags_are_found() -> None:
    tally: Counter[str] = Counter()
    for seed in range(COUNT):
        score(*sagging_of(seed), tally)
    assert tally["sag found"] >= 0.99 * COUNT, tally
    assert tally["sag level"] >= 0.99 * COUNT, tally
    assert tally["sag edges"] >= 0.98 * COUNT, tally


def test_no_cycling_is_claimed_in_noise() -> None:
    claimed = Counter(name for seed in range(40) for name, trace in noises(seed)
                      if any(segment.kind == "cycling" for segment in segments(trace)))
    assert not claimed


@pytest.mark.parametrize("name", ["white", "uniform", "coarse digits"])
def test_plain_noise_is_one_segment(name: str) -> None:
    for seed in range(30):
        trace = dict(noises(seed))[name]
        assert len(segments(trace)) == 1


def test_cycling_is_never_called_charging() -> None:
    for seed in range(40):
        made, noise = pulsing_of(seed)
        assert "charging" not in kinds(segments(made.trace(noise), 12 * made.unit))


@pytest.mark.parametrize("high_first", [False, True])
def test_a_long_stay_at_one_of_the_levels_is_not_part_of_the_cycling(high_first: bool) -> None:
    made = Made(50, 8).add("rest", 30, 12.5).add("crank", 1.2, crank(9.8, 8.0)).add("charging", 90, 14.1)
    made.pulses(8, 6.0, 11.5, 14.1, 0.5, high_first=high_first).add("charging", 60, 14.1)
    found = segments(made.trace())
    assert kinds(found) == ["rest", "crank", "charging", "cycling", "charging"]
    start, end = made.parts[3].start / 50, made.parts[3].end / 50
    assert found[3].start_s == pytest.approx(start + 3.0 * high_first, abs=0.05)
    assert found[3].end_s == pytest.approx(end - 3.0 * (not high_first), abs=0.05)


@pytest.mark.parametrize("tau", [0.2, 0.5, 1.0])
def test_pulses_with_rounded_edges(tau: float) -> None:
    at = np.arange(0.0, 100.0, 0.05)
    wave = np.empty(len(at))
    level = 11.8
    for place, seconds in enumerate(at):
        level += ((14.1 if seconds % 10.0 < 5.0 else 11.4) - level) * (1.0 - np.exp(-0.05 / tau))
        wave[place] = level
    made = Made(20, 22).add("rest", 20, 11.8).add("cycling", 100, lambda _: wave).add("running", 40, 11.7)
    found = segments(made.trace())
    assert kinds(found) == ["rest", "cycling", "running"]
    assert found[1].start_s == pytest.approx(20.0, abs=0.11)
    assert found[1].low_volts == pytest.approx(11.4, abs=0.1)
    assert found[1].high_volts == pytest.approx(14.1, abs=0.1)
    assert found[1].period_s == pytest.approx(10.0, abs=0.1)


def test_a_flat_dip_and_back_is_a_consumer_and_no_crank() -> None:
    made = Made(20, 23).add("rest", 20, 12.4).add("sag", 4, 11.0).add("rest", 20, 12.35)
    assert kinds(segments(made.trace())) == ["rest", "sag", "rest"]


def test_edges_and_duty_of_a_square_wave() -> None:
    made = Made(10, 1).add("rest", 20, 11.9).pulses(6, 8.0, 11.4, 14.1, 0.25, high_first=True).add("rest", 20, 11.9)
    cycling = next(segment for segment in segments(made.trace(0.02)) if segment.kind == "cycling")
    assert cycling.duty == pytest.approx(0.25)
    assert cycling.edges is not None
    rises, falls = cycling.edges[0::2], cycling.edges[1::2]
    assert list(rises) == pytest.approx([20.0 + 8.0 * k for k in range(6)])
    assert list(falls) == pytest.approx([22.0 + 8.0 * k for k in range(6)])


def test_the_order_of_a_start() -> None:
    made = Made(100, 2).add("rest", 20, 12.5).add("key on", 8, 12.2).add("crank", 1.2, crank(9.9, 7.6))
    made.add("recovery", 6, rise(12.0, 14.2, 1.2)).add("charging", 60, 14.2)
    assert kinds(segments(made.trace())) == ["rest", "key on", "crank", "recovery", "charging"]


def test_the_first_spike_does_not_set_the_level_of_a_crank() -> None:
    made = Made(1000, 3).add("rest", 10, 12.5).add("crank", 1.5, crank(10.0, 6.5, fade_s=0.1)).add("charging", 20, 14.2)
    found = next(segment for segment in segments(made.trace()) if segment.kind == "crank")
    assert found.volts == pytest.approx(10.0, abs=0.1)


def test_edges_that_take_milliseconds_begin_where_the_level_is_left() -> None:
    # ISO 16750-2 (second-hand), crank timing: fall 5 ms, rise 50 ms.
    made = Made(1000, 21).add("rest", 10, 12.4).add("crank", 0.005, ramp(12.4, 9.6, 0.005)).add("crank", 1.0, 9.6)
    made.add("charging", 0.05, ramp(9.6, 14.0, 0.05)).add("charging", 20, 14.0)
    found = next(segment for segment in segments(made.trace(0.02)) if segment.kind == "crank")
    assert found.start_s == pytest.approx(10.0, abs=0.0021)
    assert found.end_s == pytest.approx(11.005, abs=0.0101)


def test_two_failed_tries_are_two_cranks_and_no_cycling() -> None:
    made = Made(20, 4).add("rest", 15, 11.9).add("key on", 5, 11.6)
    for _ in range(3):
        made.add("crank", 2, crank(7.4, 6.0)).add("recovery", 12, rise(11.0, 11.6, 2.0))
    found = kinds(segments(made.trace()))
    assert found.count("crank") == 3
    assert "cycling" not in found
    assert "charging" not in found


def test_a_running_engine_that_does_not_charge() -> None:
    made = Made(20, 5).add("rest", 15, 12.0).add("crank", 1.5, crank(9.3, 7.5)).add("running", 60, 11.8)
    assert kinds(segments(made.trace()))[-1] == "running"


def test_after_the_engine_is_switched_off_the_level_is_rest() -> None:
    made = Made(10, 6).add("rest", 15, 12.5).add("crank", 1, crank(9.9, 8.0)).add("charging", 60, 14.2)
    made.add("rest", 60, 12.8)
    assert kinds(segments(made.trace()))[-1] == "rest"


def test_a_slow_fall_is_a_sag_and_starts_where_it_turns() -> None:
    made = Made(10, 7).add("charging", 20, 14.2).add("sag", 60, ramp(14.2, 11.2, 60)).add("running", 20, 11.2)
    found = segments(made.trace(0.02))
    assert kinds(found) == ["charging", "sag", "running"]
    assert found[1].start_s == pytest.approx(20.0, abs=0.5)
    assert found[1].end_s == pytest.approx(80.0, abs=0.5)


def test_a_crank_read_once_a_second_is_still_a_crank() -> None:
    volts = [12.4] * 20 + [12.1] * 6 + [9.4] + [13.8] + [14.1] * 40
    found = segments(make_trace(np.arange(len(volts), dtype=float), np.array(volts)))
    assert "crank" in kinds(found)


def test_stray_readings_are_no_segments() -> None:
    volts = np.full(600, 12.5)
    volts[[100, 300]] = [0.0, 25.0]
    assert kinds(segments(make_trace(np.arange(600) / 10, volts))) == ["rest"]


def test_24_volts_are_twice_12() -> None:
    one, _ = start_of(11)
    trace = one.trace(0.01)
    twice = make_trace(trace.seconds, 2.0 * trace.volts / one.unit)
    single = make_trace(trace.seconds, trace.volts / one.unit)
    low, high = segments(single, 12), segments(twice, 24)
    assert kinds(low) == kinds(high)
    assert [s.volts * 2 for s in low] == pytest.approx([s.volts for s in high], abs=0.01)
    assert (guess_nominal(single), guess_nominal(twice)) == (12.0, 24.0)
    assert segments(twice, None) == high


def test_a_long_gap_parts_a_segment_and_a_short_one_does_not() -> None:
    at = np.arange(600) / 10.0
    volts = np.full(600, 12.5)
    long = make_trace(np.where(at >= 30, at + 500.0, at), volts)
    short = make_trace(np.where(at >= 30, at + 5.0, at), volts)
    assert [(s.start_s, s.end_s) for s in segments(long)] == [(0.0, 29.9), (530.0, 559.9)]
    assert len(segments(short)) == 1


@pytest.mark.parametrize("count", [0, 1])
def test_a_trace_without_two_samples_has_no_segments(count: int) -> None:
    assert segments(Trace(np.zeros(count), np.full(count, 12.0))) == []


@settings(max_examples=60, deadline=None)
@given(st.lists(st.floats(-5.0, 60.0), min_size=2, max_size=200), st.sampled_from([0.001, 0.1, 5.0]),
       st.sampled_from([12, 24, None]))
def test_segments_cover_any_signal_without_overlap(volts: list[float], step: float, nominal: int | None) -> None:
    trace = make_trace(np.arange(len(volts)) * step, np.array(volts))
    found = segments(trace, nominal)
    assert found[0].start_s == trace.seconds[0]
    assert found[-1].end_s == trace.seconds[-1]
    for left, right in itertools.pairwise(found):
        assert left.start_s < left.end_s == right.start_s
    for segment in found:
        assert min(volts) - 1e-9 <= segment.volts <= max(volts) + 1e-9
        assert (segment.kind == "cycling") == (segment.period_s is not None)
