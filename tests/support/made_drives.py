"""Invented voltage traces of whole drives: a generator that dies, one that is commanded, an engine that is stopped.

All seeded, 12 V times ``unit``. Loads switch in all of them, at their own step, period and share of time.
"""

from __future__ import annotations

import numpy as np
from made_traces import Array, Made, crank, ramp


def _loads(rng: np.random.Generator, at: Array) -> Array:
    """A consumer that switches, evenly or at random: volts it takes at each of the seconds ``at``."""
    step, period, share = rng.uniform(0.15, 1.0), rng.uniform(20, 200), rng.uniform(0.2, 0.7)
    if rng.integers(2):
        on = ((at + rng.uniform(0, period)) % period) < share * period
    else:
        edges = np.cumsum(rng.exponential(period / 2, size=int(at[-1] / period * 4) + 10))
        on = np.searchsorted(edges, at) % 2 == 1
    return np.asarray(step * on)


def _begun(seed: int, rng: np.random.Generator, rates: list[float]) -> Made:
    """A trace with or without a start in it."""
    made = Made(float(rng.choice(rates)), seed, float(rng.choice([1, 1, 2])))
    if rng.integers(2):
        made.add("rest", 60, rng.uniform(12.2, 12.7)).add("crank", 2, crank(rng.uniform(9.8, 10.4), 8.5, 0.1))
    return made


def failing_of(seed: int) -> tuple[Made, float, int]:
    """A generator that dies under switching loads; the noise to use, and the sample at which it dies."""
    rng = np.random.default_rng(50_000 + seed)
    made = _begun(seed, rng, [1, 2, 10, 50])
    level = rng.uniform(13.7, 14.6)
    made.add("charging", rng.uniform(200, 900), level)
    place = made.count
    first, last, fall = rng.uniform(12.1, 12.7), rng.uniform(10.6, 11.7), float(rng.choice([0, 20, 90]))
    if fall:
        made.add("sag", fall, ramp(level, first, fall))
    seconds, bend = rng.uniform(900, 2400), float(rng.choice([1.0, 1.5]))
    made.add("running", seconds, lambda at: first - (first - last) * (at / seconds) ** bend - _loads(rng, at))
    return made, float(rng.choice([0.01, 0.02, 0.05])), place


def stopped_of(seed: int) -> tuple[Made, float]:
    """An engine that is stopped after a drive: surface charge fades, a lamp or a lock takes some tenths of a volt."""
    rng = np.random.default_rng(60_000 + seed)
    made = Made(float(rng.choice([0.1, 1, 2, 10])), seed, float(rng.choice([1, 1, 2])))
    made.add("charging", rng.uniform(200, 900), rng.uniform(13.7, 14.6))
    first, last, tau, seconds = (rng.uniform(12.8, 13.0), rng.uniform(12.4, 12.7), rng.uniform(60, 1200),
                                 rng.uniform(300, 3600))
    lamps = [(rng.uniform(0, seconds), rng.uniform(5, 60), rng.uniform(0.1, 0.5)) for _ in range(rng.integers(0, 4))]
    made.add("rest", seconds, lambda at: last + (first - last) * np.exp(-at / tau) - sum(
        volts * ((at > begin) & (at < begin + held)) for begin, held, volts in lamps))
    return made, float(rng.choice([0.01, 0.02, 0.05]))


def commanded_of(seed: int) -> tuple[Made, float]:
    """A generator that is told to stop and to go for half a minute to minutes; the noise to use."""
    rng = np.random.default_rng(70_000 + seed)
    made = _begun(seed, rng, [0.5, 1, 2, 10, 50])
    top = rng.uniform(14.0, 14.85)
    for _ in range(int(rng.integers(3, 10))):
        made.add("charging", rng.uniform(30, 300), top + rng.uniform(-0.1, 0.1))
        if rng.integers(3) == 0:
            made.add("charging", rng.uniform(30, 200), rng.uniform(13.3, 13.6))
        made.add("running", rng.uniform(30, 200), rng.uniform(12.4, 12.95))
    if rng.integers(2):
        made.add("charging", 60, top)
    return made, float(rng.choice([0.01, 0.02, 0.04]))


def rippling_of(seed: int) -> Made:
    """Ripple of 80 to 400 Hz on a charging level, read 1 to 50 times a second."""
    rng = np.random.default_rng(80_000 + seed)
    made = Made(float(rng.choice([1, 2, 5, 10, 20, 50])), seed, float(rng.choice([1, 1, 2])))
    if rng.integers(2):
        made.add("rest", 60, 12.5).add("crank", 2, 10.2)
    hertz, size, wander = rng.uniform(80, 400), rng.uniform(0.3, 0.7), float(rng.choice([0, 0.002, 0.02]))
    count = round(300 * made.rate)
    speed = np.cumsum(rng.normal(0, 1, count))
    phase = 2 * np.pi * np.cumsum(hertz * (1 + wander * speed / np.abs(speed).max())) / made.rate
    wave = (np.sin(phase), 2 * np.abs(np.sin(phase / 2)) - 1)[int(rng.integers(2))]
    return made.add("charging", 300, lambda _: 14.1 + size * wave)
