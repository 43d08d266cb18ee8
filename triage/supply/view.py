"""A trace as the rules look at it: segments, context, what was found so far."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from triage.supply.finding import Feed, Figure, Finding, SupplyContext
from triage.supply.limits import cite, limit
from triage.supply.segments import Segment
from triage.supply.trace import Trace


@dataclass(slots=True)
class View:
    """Everything a rule may look at; ``found`` grows as the rules run."""

    trace: Trace
    segments: tuple[Segment, ...]
    context: SupplyContext
    found: list[Finding] = field(default_factory=list)

    @property
    def system(self) -> int:
        """12 or 24."""
        return self.context.system

    def limit(self, key: str) -> float:
        """The figure ``key`` for this system."""
        return limit(key, self.system)

    def cite(self, *keys: str) -> str:
        """The sources of ``keys``."""
        return cite(*keys, system=self.system)

    def of(self, *kinds: str) -> list[Segment]:
        """The segments of these kinds, in order."""
        return [segment for segment in self.segments if segment.kind in kinds]

    def values(self, segment: Segment) -> NDArray[np.float64]:
        """The samples of a segment, volts."""
        first = int(np.searchsorted(self.trace.seconds, segment.start_s))
        last = int(np.searchsorted(self.trace.seconds, segment.end_s))
        if segment is self.segments[-1]:
            last = len(self.trace.volts)
        return self.trace.volts[first:max(last, first + 1)]

    def feed(self, segment: Segment) -> tuple[Feed, str]:
        """Whether and which outside supply fed the vehicle during a segment."""
        return self.context.feed(segment.start_s, segment.end_s)

    def after_start(self, segment: Segment) -> float | None:
        """Seconds from the last crank before ``segment`` to the segment's end; None without a crank before."""
        ends = [crank.end_s for crank in self.of("crank") if crank.end_s <= segment.start_s + 1e-6]
        return segment.end_s - ends[-1] if ends else None


def span_figures(segment: Segment, **more: Figure) -> dict[str, Figure]:
    """The figures every finding about a segment bears: where it lies and its median."""
    return {"start_s": round(segment.start_s, 4), "end_s": round(segment.end_s, 4),
            "volts": round(segment.volts, 3), **more}


def when(segment: Segment) -> str:
    """The place of a segment in words.

    >>> when(Segment("rest", 0.0, 90.5, 12.5))
    'from 0 to 90.5 s'
    """
    return f"from {_seconds(segment.start_s)} to {_seconds(segment.end_s)} s"


def _seconds(value: float) -> str:
    """Seconds with a digit where they are few, none where they are many."""
    text = f"{value:.0f}" if abs(value) >= 1000 else f"{value:.1f}"
    return text.removesuffix(".0")
