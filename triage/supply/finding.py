"""One finding about the supply, and what must be known to make one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal, NamedTuple

from triage.supply.limits import system_of

if TYPE_CHECKING:
    from triage.model.session import BatteryType
    from triage.model.snapshot import Engine
    from triage.model.verdict import SupplyPart, SupplyState

Figure = float | str | None
Feed = Literal["none", "connected", "unknown"]
_RUNS = ("running", "ready")


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing found.

    ``text`` stands alone and names its units; ``figures`` holds the same numbers by name (volts, seconds: the unit is
    the end of the name) with the place in the trace they come from; ``source`` cites the limits used. ``part`` and
    ``state`` say which part of the supply it settles, None where it settles none.
    """

    kind: str
    text: str
    figures: Mapping[str, Figure] = field(default_factory=dict)
    source: str = ""
    part: SupplyPart | None = None
    state: SupplyState | None = None


class OutsideSpan(NamedTuple):
    """From ``start_s`` to ``end_s`` (seconds of the trace; None: to its end) ``what`` fed the vehicle."""

    start_s: float
    end_s: float | None
    what: str = "outside supply"


class SupplyContext(NamedTuple):
    """What is known beside the voltages.

    ``outside``: when an outside supply was connected; empty: never; None: nobody said. ``rested_hours``: how long the
    vehicle stood locked before; ``charging_commanded``: whether the engine module sets the charging voltage, None:
    not known. ``engine`` holds for the whole trace where it is given; ``engine_at`` is what was known of it at single
    moments, as (seconds of the trace, engine).
    """

    nominal: float = 12.0
    battery: BatteryType = "unknown"
    outside: tuple[OutsideSpan, ...] | None = None
    temperature_c: float | None = None
    engine: Engine | None = None
    rested_hours: float | None = None
    charging_commanded: bool | None = None
    engine_at: tuple[tuple[float, Engine], ...] = ()

    @property
    def system(self) -> int:
        """12 or 24."""
        return system_of(self.nominal)

    @property
    def runs(self) -> tuple[tuple[float, float], ...]:
        """When the engine (an electric drive: READY) is known to run, as pairs of seconds of the trace."""
        if self.engine is not None:
            return ((float("-inf"), float("inf")),) if self.engine in _RUNS else ()
        return tuple((at, at) for at, engine in self.engine_at if engine in _RUNS)

    def engine_in(self, start_s: float, end_s: float) -> Engine | None:
        """What is known of the engine from ``start_s`` to ``end_s``: that it ran where it ran at any moment there.

        That it was off at one moment says nothing of the others.
        """
        if self.engine is not None:
            return self.engine
        return next((engine for at, engine in self.engine_at if engine in _RUNS and start_s <= at <= end_s), None)

    def feed(self, start_s: float, end_s: float) -> tuple[Feed, str]:
        """Whether an outside supply was connected at any time from ``start_s`` to ``end_s``, and which."""
        if self.outside is None:
            return "unknown", ""
        for span in self.outside:
            if span.start_s < end_s and (span.end_s is None or span.end_s > start_s):
                return "connected", span.what
        return "none", ""
