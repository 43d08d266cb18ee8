"""What a trace says about battery, charging and the supply, and what it does not say.

The rules stand in one list, each a function of one :class:`View`. With an outside supply connected none of them
concludes anything about charging; what nobody measured is told as not tested; the last finding names the one
measurement that would decide.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from typing_extensions import TypedDict

from triage.supply.finding import Figure, Finding, SupplyContext
from triage.supply.rules_battery import crank_rule, low_rule, rest_rule, sag_rule, sampling_rule
from triage.supply.rules_charging import charging_rule, cycling_rule, overvoltage_rule, ripple_rule
from triage.supply.rules_cutout import cut_out_rule
from triage.supply.rules_dips import dips_rule
from triage.supply.rules_open import decides_rule, untested_rule
from triage.supply.rules_parked import parked_rule
from triage.supply.segments import Segment
from triage.supply.trace import Trace
from triage.supply.view import View

#: The rules in the order in which their findings are told; the last two look at what the others found.
RULES: tuple[Callable[[View], list[Finding]], ...] = (
    rest_rule, crank_rule, parked_rule, charging_rule, cycling_rule, overvoltage_rule, ripple_rule, cut_out_rule,
    dips_rule, sag_rule, low_rule, sampling_rule, untested_rule, decides_rule,
)


class SegmentJson(TypedDict, total=False):
    """A segment in printed JSON; the last three keys on cycling only."""

    kind: str
    start_s: float
    end_s: float
    volts: float
    low_volts: float
    high_volts: float
    period_s: float


class FindingJson(TypedDict):
    """A finding in printed JSON."""

    kind: str
    text: str
    figures: dict[str, Figure]
    source: str


class TraceJson(TypedDict):
    """What ``triage trace --json`` prints."""

    segments: list[SegmentJson]
    findings: list[FindingJson]


def findings(trace: Trace, segments: Sequence[Segment], context: SupplyContext | None = None) -> list[Finding]:
    """The findings about ``trace``, whose ``segments`` are those of :func:`triage.supply.segments.segments`."""
    if not segments:
        return []
    view = View(trace, tuple(segments), context or SupplyContext())
    for rule in RULES:
        view.found.extend(rule(view))
    return view.found


def to_json(segments: Sequence[Segment], found: Sequence[Finding]) -> TraceJson:
    """Segments and findings as the JSON contract has them; volts and seconds rounded to the millivolt and 0.1 ms."""
    told: list[FindingJson] = [{"kind": finding.kind, "text": finding.text, "figures": dict(finding.figures),
                                "source": finding.source} for finding in found]
    return {"segments": [_segment_json(segment) for segment in segments], "findings": told}


def _segment_json(segment: Segment) -> SegmentJson:
    """One segment."""
    entry: SegmentJson = {"kind": segment.kind, "start_s": round(segment.start_s, 4),
                          "end_s": round(segment.end_s, 4), "volts": round(segment.volts, 3)}
    if segment.low_volts is not None and segment.high_volts is not None and segment.period_s is not None:
        entry["low_volts"] = round(segment.low_volts, 3)
        entry["high_volts"] = round(segment.high_volts, 3)
        entry["period_s"] = round(segment.period_s, 4)
    return entry
