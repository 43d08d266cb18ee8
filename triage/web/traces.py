"""A voltage trace on a page: the curve drawn, its segments, its findings, and the supply it gives each scan."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from markupsafe import Markup

from triage.errors import StoreError
from triage.model.notices import Notice
from triage.reports.markup import element
from triage.store.rows import StoredSnapshot
from triage.store.rows import Trace as StoredTrace
from triage.supply.finding import Finding
from triage.supply.findings import findings
from triage.supply.moments import SupplyAt, at_times, context_for
from triage.supply.segments import Segment, segments
from triage.supply.trace import Trace
from triage.web.workbench import Workbench

#: Size of the drawing in its own units, its margins, and the columns the samples are gathered in.
WIDTH, HEIGHT, LEFT, BOTTOM, COLUMNS = 480.0, 210.0, 46.0, 26.0, 430
INK, GREY, HAIR = "#111111", "#555555", "#bbbbbb"


class Taken(NamedTuple):
    """What the trace says of one scan, V; ``same``: the scan has it already."""

    snapshot_id: int
    number: int
    phase: str
    volts: float
    lowest: float
    same: bool


class TraceShown(NamedTuple):
    """A trace as its page shows it. ``drawing`` None: it could not be read."""

    stored: StoredTrace
    notices: tuple[Notice, ...]
    drawing: Markup | None
    segments: tuple[Segment, ...]
    findings: tuple[Finding, ...]
    taken: tuple[Taken, ...]


def trace_shown(bench: Workbench, name: str, entry_id: int) -> TraceShown:
    """The trace of an entry of session ``name``. Raises StoreError if there is none such."""
    stored = next((trace for trace in bench.store.traces(name) if trace.entry_id == entry_id), None)
    if stored is None:
        raise StoreError(f"no such trace {entry_id} in session {name!r}")
    trace, notices = bench.trace(stored.text, stored.name)
    if trace is None:
        return TraceShown(stored, tuple(notices), None, (), (), ())
    session = bench.store.session_object(name)
    context = context_for(trace, session.vehicle, session.events or (), session.snapshots)
    parts = segments(trace, context.nominal, context.runs)
    scans = bench.store.snapshots(name)
    return TraceShown(stored, tuple(notices), draw(trace), tuple(parts), tuple(findings(trace, parts, context)),
                      tuple(_taken(trace, scans, context.nominal)))


def _taken(trace: Trace, scans: Sequence[StoredSnapshot], nominal: float) -> list[Taken]:
    """The supply at each scan whose time lies on the trace."""
    found: list[SupplyAt | None] = at_times(trace, [scan.now.at for scan in scans], nominal=nominal)
    return [
        Taken(scan.id, number, (scan.phase or "phase not known").replace("-", " "), round(at.volts, 2),
              round(at.lowest_volts, 2),
              (scan.now.volts, scan.now.lowest_volts) == (round(at.volts, 2), round(at.lowest_volts, 2)))
        for number, (scan, at) in enumerate(zip(scans, found, strict=True), start=1) if at is not None]


def draw(trace: Trace) -> Markup:
    """The curve as one SVG element; where samples are dense, lowest and highest of each column are drawn."""
    low, high = float(trace.volts.min()), float(trace.volts.max())
    bottom, top = (int(low // 2) * 2 - (2 if low < 0 else 0), int(high // 2) * 2 + 2)
    first, span = float(trace.seconds[0]), max(trace.duration, 1e-9)

    def x(seconds: float) -> float:
        return LEFT + (seconds - first) / span * (WIDTH - LEFT - 8.0)

    def y(volts: float) -> float:
        return 8.0 + (top - volts) / (top - bottom) * (HEIGHT - BOTTOM - 8.0)

    grid = []
    for level in range(bottom, top + 1, max(2, 2 * ((top - bottom) // 12))):
        grid.append(element("line", x1=LEFT, x2=WIDTH - 8.0, y1=y(level), y2=y(level), stroke=HAIR, stroke_width=0.6))
        grid.append(element("text", f"{level} V", x=LEFT - 6.0, y=y(level) + 3.5, text_anchor="end", fill=GREY))
    ends = [element("text", f"{first:g} s", x=LEFT, y=HEIGHT - 8.0, fill=GREY),
            element("text", f"{first + trace.duration:g} s", x=WIDTH - 8.0, y=HEIGHT - 8.0, text_anchor="end",
                    fill=GREY)]
    curve = " ".join(f"{x(seconds):.1f},{y(volts):.1f}" for seconds, volts in thinned(trace))
    words = f"{len(trace.volts)} readings over {trace.duration:g} s, from {low:.2f} V to {high:.2f} V"
    return Markup(element(
        "svg", element("title", words), element("rect", x=0.0, y=0.0, width=WIDTH, height=HEIGHT, fill="#ffffff"),
        element("g", grid, ends, font_size=13.0, font_family="Helvetica, Arial, 'Liberation Sans', sans-serif"),
        element("polyline", points=curve, fill="none", stroke=INK, stroke_width=1.2),
        viewBox=f"0 0 {WIDTH:g} {HEIGHT:g}", role="img", aria_label=words))


def thinned(trace: Trace) -> list[tuple[float, float]]:
    """At most four points a column (first, lowest, highest, last), so that no dip is lost."""
    count = len(trace.volts)
    step = max(1, count // COLUMNS)
    if step < 4:
        return [(float(s), float(v)) for s, v in zip(trace.seconds, trace.volts, strict=True)]
    points: list[tuple[float, float]] = []
    for start in range(0, count, step):
        part = trace.volts[start:start + step]
        places = sorted({0, int(part.argmin()), int(part.argmax()), len(part) - 1})
        points += [(float(trace.seconds[start + place]), float(part[place])) for place in places]
    return points
