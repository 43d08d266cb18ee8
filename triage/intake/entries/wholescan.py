"""A line that tells when a scan was taken, its supply perhaps, and that it held no codes: "after clear 12.6 V none",
"after run (town, 10 km): none (14.2 V)". It is a scan of its own, of all modules that answered before."""

from __future__ import annotations

from collections.abc import Sequence

from triage.intake.entries import metarow
from triage.intake.lines.row import Row
from triage.intake.plain.patterns import lazily
from triage.intake.said import engine_state, phases, volts
from triage.intake.said.answeraround import Spoken
from triage.intake.said.answers import rest_of
from triage.intake.scan.context import Context

_NONE = lazily(
    r"(?:no (?:(?:fault|trouble|stored|active) )?(?:codes?|dtcs?|faults?)|none|clean|0 (?:codes|faults|dtcs)|"
    r"keine (?:fehler|codes)|kein(?:e|er)?|aucun(?: (?:defaut|code))?|rien|ningun[oa]?|sin (?:averias|codigos)|nada|"
    r"nothing)(?: (?:stored|found|present|in any module))?")
_BRACKETS = lazily(r"\([^()]{0,60}\)")
_LEFT = lazily(r"(?<![a-z])(?:v|volts?|battery|batt|supply|at|on|with|key|scan|[0-9.,:]+|km|min|mn|h)(?![a-z])")
_LONGEST = 120


def read(context: Context, row: Row, hits: Sequence[Spoken]) -> bool:
    """Begin such a scan; whether the row is one."""
    low = row.low
    hit = phases.find(low) if len(low) <= _LONGEST and len(hits) == 1 else None
    if hit is None or hits[0].answer != "clean" or _NONE.fullmatch(low[hits[0].start : hits[0].end]) is None:
        return False
    spans = [(hit.start, hit.end), (hits[0].start, hits[0].end), *engine_state.spans(low),
             *(place.span() for place in _BRACKETS.finditer(low)),
             *((volt.start, volt.end) for volt in volts.find(low))]
    rest = "".join(" " if any(start <= at < end for start, end in spans) else char for at, char in enumerate(low))
    if any(char.isalpha() for char in _LEFT.sub(" ", rest)):
        return False
    builder = context.builder
    if builder.snapshot.empty and len(builder.snapshots) == 1:
        return False
    metarow.read(context, row)
    context.close_module()
    context.under_heading = False
    context.saw_scan = True
    scan = builder.snapshot
    if scan.phase is not None and scan.empty:
        scan.rest_clean = row.line, row.start, row.start + len(row.text)
    return True


def says_when(low: str) -> bool:
    """Whether "all modules" stands beside no answer but in the phase of a scan: "all modules before clear"."""
    hit = phases.find(low)
    return hit is not None and rest_of(low[: hit.start] + low[hit.end :]) is None


__all__ = ["read", "says_when"]
