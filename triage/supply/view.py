"""A trace as the rules look at it: segments, context, what was found so far."""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import groupby

import numpy as np
from numpy.typing import NDArray

from triage.supply.drives import may_be_commanded
from triage.supply.finding import Feed, Figure, Finding, SupplyContext
from triage.supply.limits import cite, limit
from triage.supply.segments import Segment
from triage.supply.trace import Trace


@dataclass(slots=True)
class View:
    """Everything a rule may look at; ``found`` grows as the rules run.

    ``covered``: where segments begin that a finding about their whole drive speaks for.
    """

    trace: Trace
    segments: tuple[Segment, ...]
    context: SupplyContext
    found: list[Finding] = field(default_factory=list)
    covered: set[float] = field(default_factory=set)

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

    def drives(self) -> list[tuple[Segment, ...]]:
        """The segments between one crank and the next, in order."""
        return [tuple(group) for cranked, group in groupby(self.segments, lambda part: part.kind == "crank")
                if not cranked]

    def started(self, segment: Segment) -> bool:
        """Whether the engine is known to run in ``segment``, or a crank is seen in the trace."""
        return self.context.engine_in(segment.start_s, segment.end_s) in ("running", "ready") or bool(self.of("crank"))

    def may_be_commanded(self, segment: Segment) -> bool:
        """Whether the levels of a cycling are held where commanded charging may hold them, and for long enough."""
        duty = segment.duty or 0.0
        held = (segment.period_s or 0.0) * min(duty, 1.0 - duty)
        return self.context.charging_commanded is not False and may_be_commanded(
            segment.low_volts or 0.0, segment.high_volts or 0.0, held, self.system)

    def taken_off_before(self, segment: Segment) -> bool:
        """Whether an outside supply was taken off before a segment, with no crank in between."""
        ends = [span.end_s for span in self.context.outside or () if span.end_s is not None
                and span.end_s <= segment.start_s + 2.0 * self.trace.interval]
        return bool(ends) and not any(ends[-1] <= crank.start_s <= segment.start_s for crank in self.of("crank"))

    def between(self, start_s: float, end_s: float) -> NDArray[np.float64]:
        """The samples from ``start_s`` to ``end_s``, one at least, volts."""
        first, last = (int(place) for place in np.searchsorted(self.trace.seconds, [start_s, end_s]))
        return self.trace.volts[first:max(last, first + 1)]

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
    return f"from {seconds_text(segment.start_s)} to {seconds_text(segment.end_s)} s"


def seconds_text(value: float) -> str:
    """Seconds with a digit where they are few, none where they are many."""
    text = f"{value:.0f}" if abs(value) >= 1000 else f"{value:.1f}"
    return text.removesuffix(".0")
