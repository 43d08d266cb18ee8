"""Invented voltage traces with known truth: starts, pulsing supplies, sags, and noise of many kinds.

All seeded. Voltages are those of a 12 V vehicle, times ``unit`` (2 for 24 V). The shapes are those the trade
describes: a crank dips for 50 to 300 ms and then turns over a plateau; a generator brings the voltage up within
seconds; a pulsing jump pack switches between the battery's level and its own.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from triage.supply.trace import Trace, make_trace

Array = NDArray[np.float64]
Shape = float | Callable[[Array], Array]


@dataclass
class Part:
    """One true segment: samples ``start`` to ``end`` (excluded); ``sharp``: its beginning is a step."""

    kind: str
    start: int
    end: int
    volts: float
    sharp: bool
    low: float = 0.0
    high: float = 0.0
    period_s: float = 0.0


@dataclass
class Made:
    """A signal put together part by part."""

    rate: float
    seed: int
    unit: float = 1.0
    parts: list[Part] = field(default_factory=list)
    clean: list[Array] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.rng = np.random.default_rng(self.seed)

    @property
    def count(self) -> int:
        """Samples so far."""
        return sum(len(values) for values in self.clean)

    def add(self, kind: str, seconds: float, shape: Shape, *, sharp: bool = True) -> Made:
        """Append a part: a level in volts, or a function of the seconds since the part's beginning."""
        count = max(1, round(seconds * self.rate))
        at = np.arange(count) / self.rate
        values = (shape(at) if callable(shape) else np.full(count, float(shape))) * self.unit
        start = self.count
        self.clean.append(np.asarray(values, dtype=np.float64))
        self.parts.append(Part(kind, start, start + count, float(np.median(values)), sharp))
        return self

    def pulses(self, cycles: int, period_s: float, low: float, high: float, duty: float, *, high_first: bool) -> Made:
        """Append a square wave of whole periods."""
        whole = round(period_s * self.rate)
        up = min(whole - 1, max(1, round(duty * whole)))
        place = np.arange(whole * cycles) % whole
        wave = np.where(place < up, high, low) if high_first else np.where(place < whole - up, low, high)
        self.add("cycling", len(wave) / self.rate, lambda _: wave)
        part = self.parts[-1]
        part.low, part.high, part.period_s = low * self.unit, high * self.unit, whole / self.rate
        return self

    def trace(self, noise: float = 0.02, digits: int = 3) -> Trace:
        """The trace with white noise of ``noise`` volts, rounded like a logger's."""
        clean = np.concatenate(self.clean)
        noisy = np.round(clean + self.rng.normal(0.0, noise * self.unit, len(clean)), digits)
        return make_trace(np.arange(len(clean)) / self.rate, noisy)


def crank(plateau: float, spike: float, ripple: float = 0.2, fade_s: float = 0.08, hz: float = 7.0) -> Shape:
    """A crank: a first spike that fades to a plateau with the ripple of the compressions."""
    def shape(at: Array) -> Array:
        return plateau + (spike - plateau) * np.exp(-at / fade_s) + ripple * np.sin(2 * np.pi * hz * at) * (at > 0.15)
    return shape


def rise(first: float, last: float, tau_s: float) -> Shape:
    """An exponential approach from ``first`` to ``last``."""
    return lambda at: last + (first - last) * np.exp(-at / tau_s)


def ramp(first: float, last: float, seconds: float) -> Shape:
    """A straight slope."""
    return lambda at: first + (last - first) * at / seconds


def start_of(seed: int) -> tuple[Made, float]:
    """An engine start that charges, with load steps; and the noise to use."""
    rng = np.random.default_rng(10_000 + seed)
    rate, unit = float(rng.choice([5, 10, 20, 50, 100, 1000])), float(rng.choice([1, 1, 2]))
    made = Made(rate, seed, unit)
    rest = rng.uniform(12.0, 12.8)
    key = rest - rng.uniform(0.2, 0.5)
    plateau = min(rng.uniform(8.5, 10.6), key - 1.2)
    charging = rng.uniform(13.8, 14.6)
    made.add("rest", rng.uniform(10, 30), rest).add("key on", rng.uniform(3, 12), key)
    made.add("crank", max(rng.uniform(0.6, 2.5), 4 / rate), crank(plateau, plateau - rng.uniform(0.5, 2.5)))
    if rng.integers(2):
        tau = rng.uniform(0.4, 1.5)
        made.add("recovery", 5 * tau, rise(rng.uniform(11.8, 12.3), charging, tau))
        made.add("charging", rng.uniform(20, 60), charging, sharp=False)
    else:
        made.add("charging", rng.uniform(20, 60), charging)
    for _ in range(int(rng.integers(0, 3))):
        made.add("load", rng.uniform(4, 15), charging - rng.uniform(0.3, 0.7))
        made.add("charging", rng.uniform(10, 20), charging)
    return made, float(rng.choice([0.01, 0.02, 0.04]))


def pulsing_of(seed: int) -> tuple[Made, float]:
    """A pulsing outside supply between rest and what follows; and the noise to use."""
    rng = np.random.default_rng(20_000 + seed)
    rate, unit = float(rng.choice([2, 5, 10, 50, 200])), float(rng.choice([1, 1, 2]))
    made = Made(rate, seed, unit)
    low, high = rng.uniform(11.0, 12.0), rng.uniform(13.4, 14.7)
    made.add("rest", rng.uniform(10, 40), low + rng.uniform(0.3, 0.8))
    made.pulses(int(rng.integers(3, 15)), max(rng.uniform(1, 15), 10 / rate), low, high, rng.uniform(0.25, 0.75),
                high_first=bool(rng.integers(2)))
    made.add("running", rng.uniform(15, 40), low - rng.uniform(0.3, 0.4))
    return made, float(rng.choice([0.01, 0.02, 0.04]))


def sagging_of(seed: int) -> tuple[Made, float]:
    """A charging level that breaks down for some seconds and comes back; and the noise to use."""
    rng = np.random.default_rng(30_000 + seed)
    made = Made(float(rng.choice([5, 20, 100])), seed)
    charging = rng.uniform(13.8, 14.5)
    made.add("charging", rng.uniform(10, 20), charging).add("sag", rng.uniform(2, 20), rng.uniform(10.2, 12.3))
    made.add("charging", rng.uniform(10, 20), charging)
    return made, float(rng.choice([0.01, 0.02, 0.04]))


def noises(seed: int) -> Iterator[tuple[str, Trace]]:
    """Traces in which nothing happens but noise, by name."""
    rng = np.random.default_rng(40_000 + seed)
    rate, count = float(rng.choice([1, 5, 20, 200])), int(rng.choice([300, 1500]))
    base, size = float(rng.choice([11.5, 12.4, 12.9, 14.1])), float(rng.uniform(0.02, 0.5))
    at = np.arange(count) / rate
    walk = np.cumsum(rng.normal(0.0, 0.05 * size, count))
    signals = {
        "white": rng.normal(0.0, size, count),
        "uniform": rng.uniform(-size, size, count),
        "walk": walk,
        "stray readings": rng.normal(0.0, 0.02, count) + (rng.random(count) < 0.01) * rng.normal(0.0, 2.0, count),
        "sine": size * np.sin(2 * np.pi * at * rng.uniform(0.05, rate / 2)) + rng.normal(0.0, 0.02, count),
        "saw": 2 * size * ((at * rng.uniform(0.05, rate / 4)) % 1.0) + rng.normal(0.0, 0.02, count),
        "coarse digits": np.round(rng.normal(0.0, 0.2, count) / 0.25) * 0.25,
        "heavy tails": 0.1 * rng.standard_t(2, count),
    }
    for name, signal in signals.items():
        yield name, make_trace(at, base + signal)


def as_csv(trace: Trace, separator: str = ",", decimal: str = ".", head: str = "time,volts", digits: int = 3) -> str:
    """The trace as text."""
    places = 0 if trace.interval >= 1 else 3
    pairs = zip(trace.seconds.tolist(), trace.volts.tolist(), strict=True)
    rows = (f"{at:.{places}f}{separator}{volts:.{digits}f}" for at, volts in pairs)
    body = "\n".join(row if decimal == "." else row.replace(".", ",") for row in rows)
    return f"{head}\n{body}\n" if head else f"{body}\n"
