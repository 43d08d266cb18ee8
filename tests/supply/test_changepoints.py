"""Change points against a second method: plain dynamic programming, and the library ruptures where it is installed."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from triage.supply.changepoints import PENALTY, SLOPE_PENALTY, Fit, best_changes, changes_of, noise_of, proposals

Array = NDArray[np.float64]


def steps(seed: int, noise: float = 0.05) -> tuple[Array, list[int]]:
    """A signal of levels with known changes."""
    rng = np.random.default_rng(seed)
    lengths = rng.integers(12, 80, int(rng.integers(2, 7)))
    levels = np.cumsum(rng.choice([-1, 1], len(lengths)) * rng.uniform(0.4, 2.5, len(lengths))) + 12.0
    values = np.repeat(levels, lengths) + rng.normal(0.0, noise, int(lengths.sum()))
    return values, np.cumsum(lengths)[:-1].tolist()


@pytest.mark.parametrize("seed", range(40))
def test_known_steps_are_found_to_the_sample(seed: int) -> None:
    values, truth = steps(seed)
    assert changes_of(values) == truth


@pytest.mark.parametrize("seed", range(6))
def test_agrees_with_ruptures(seed: int) -> None:
    rpt = pytest.importorskip("ruptures")
    values, _ = steps(seed)
    noise = max(noise_of(values), 0.02)
    penalty = PENALTY * noise * noise * math.log(len(values))
    other = rpt.Pelt(model="l2", min_size=1, jump=1).fit(values).predict(pen=penalty)
    assert changes_of(values) == other[:-1]


def brute_force(values: Array, noise: float) -> float:
    """The least penalised cost over every partition, by plain dynamic programming with numpy's own fits."""
    count = len(values)
    penalty = PENALTY * noise * noise * math.log(max(count, 3))

    def cost(start: int, end: int) -> float:
        part = values[start:end]
        level = float(((part - part.mean()) ** 2).sum())
        if len(part) < 4:
            return level
        at = np.arange(len(part), dtype=np.float64)
        slope = float(((part - np.polyval(np.polyfit(at, part, 1), at)) ** 2).sum())
        return min(level, slope + SLOPE_PENALTY * penalty)

    best = [-penalty] + [math.inf] * count
    for end in range(1, count + 1):
        best[end] = min(best[start] + cost(start, end) + penalty for start in range(end))
    return best[count]


def cost_of(values: Array, changes: list[int], noise: float) -> float:
    """The penalised cost of one partition."""
    penalty = PENALTY * noise * noise * math.log(max(len(values), 3))
    fit = Fit(values)
    edges = [0, *changes, len(values)]
    parts = sum(float(fit.cost(np.array([start]), end, SLOPE_PENALTY * penalty)[0]) for start, end in pairwise(edges))
    return parts + penalty * len(changes)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.floats(9.0, 15.0), min_size=2, max_size=24), st.floats(0.02, 0.3))
def test_nothing_is_better_than_the_changes_found(values: list[float], noise: float) -> None:
    signal = np.array(values)
    places = proposals(signal, noise, 0.06)
    found = best_changes(signal, places, noise)
    assert found == sorted(set(found))
    assert cost_of(signal, found, noise) == pytest.approx(brute_force(signal, noise), abs=1e-6)


def test_proposals_of_a_long_signal_hold_every_true_change() -> None:
    values, truth = steps(3)
    longer = np.repeat(values, 8) + np.random.default_rng(0).normal(0.0, 0.03, 8 * len(values))
    places = set(proposals(longer, noise_of(longer), 0.06).tolist())
    assert len(longer) > 300
    assert {8 * change for change in truth} <= places


def test_a_slope_is_one_piece() -> None:
    rng = np.random.default_rng(5)
    values = np.concatenate([np.full(100, 12.5), np.linspace(12.5, 11.0, 200), np.full(100, 11.0)])
    found = changes_of(values + rng.normal(0.0, 0.02, 400))
    assert len(found) == 2
    assert found == pytest.approx([100, 300], abs=8)


@pytest.mark.parametrize("size", [0, 1, 2, 3])
def test_short_signals_have_no_change(size: int) -> None:
    assert changes_of(np.full(size, 12.0)) == []


def test_white_noise_has_no_change() -> None:
    assert sum(len(changes_of(np.random.default_rng(seed).normal(12.4, 0.1, 2000))) for seed in range(20)) == 0


def test_noise_is_measured_beside_steps() -> None:
    values, _ = steps(1, noise=0.05)
    assert noise_of(values) == pytest.approx(0.05, rel=0.25)
