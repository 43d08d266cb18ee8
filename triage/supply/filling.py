"""A trace fills in what the snapshots of a session do not say of their supply."""

from __future__ import annotations

from collections.abc import Sequence

from triage.model.notices import Notice
from triage.model.session import Session
from triage.model.snapshot import Reading, Snapshot
from triage.supply.finding import SupplyContext
from triage.supply.findings import findings
from triage.supply.limits import limit, system_of
from triage.supply.moments import SupplyAt, at_times, context_for, seconds_at
from triage.supply.segments import Segment, guess_nominal, segments
from triage.supply.trace import Trace

#: Findings about a level at which an engine ran.
_LEVELS = ("charging", "not charging", "undercharge", "overvoltage")


def with_trace(session: Session, trace: Trace) -> tuple[Session, list[Notice]]:
    """``session`` with supply and lowest supply from ``trace`` where its snapshots do not say them, and what was done.

    A snapshot needs a time that lies on the trace. What the scan says stays. A good-looking lowest proves nothing
    where the trace is too slow for a crank dip or does not reach back to the snapshot before: it is left unknown.
    """
    said = session.vehicle.nominal_volts if session.vehicle else None
    nominal = said if said is not None and said > 0 else guess_nominal(trace)
    moments = [snapshot.at for snapshot in session.snapshots]
    found = at_times(trace, moments, nominal=nominal)
    low = limit("OBD monitors may be off below", system_of(nominal))
    places = sorted(place for moment in moments if (place := seconds_at(trace, moment)) is not None)
    snapshots: list[Snapshot] = []
    notices: list[Notice] = []
    for number, (snapshot, at) in enumerate(zip(session.snapshots, found, strict=True), start=1):
        if at is None:
            if snapshot.volts is None or snapshot.lowest_volts is None:
                why = "it has no time" if snapshot.at is None else "its time is not on the trace"
                notices.append(Notice("note", f"snapshot {number}: no supply taken from the trace: {why}",
                                      trace.source))
            snapshots.append(snapshot)
            continue
        doubt = _doubt(trace, at, max((place for place in places if place < at.at_s), default=None), nominal)
        taken = {} if snapshot.volts is not None else {"volts": round(at.volts, 2)}
        if snapshot.lowest_volts is None and (doubt is None or at.lowest_volts < low):
            taken["lowest_volts"] = round(at.lowest_volts, 2)
        notices += _told(number, snapshot, at, taken, doubt, trace.source)
        snapshots.append(snapshot.model_copy(update=taken))
    filled = session.model_copy(update={"snapshots": snapshots})
    return _with_readings(filled, trace, nominal), notices


def _with_readings(session: Session, trace: Trace, nominal: float) -> Session:
    """``session`` with what the trace measured beside the snapshots, each at the first snapshot after it.

    Crank plateau, long rest, and a level that proves the charging or fails it: a trace that can't tell adds nothing.
    """
    context = context_for(trace, session.vehicle, session.events or (), session.snapshots)
    places = [(place, number) for number, snapshot in enumerate(session.snapshots)
              if (place := seconds_at(trace, snapshot.at)) is not None]
    if not places:
        return session
    added: dict[int, list[Reading]] = {}
    for end, reading in trace_readings(trace, segments(trace, nominal, context.runs), context):
        number = min((entry for entry in places if entry[0] >= end), default=max(places))[1]
        added.setdefault(number, []).append(reading)
    snapshots = [snapshot.model_copy(update={"readings": [*(snapshot.readings or []), *added[number]]})
                 if number in added else snapshot for number, snapshot in enumerate(session.snapshots)]
    return session.model_copy(update={"snapshots": snapshots})


def trace_readings(
    trace: Trace, parts: Sequence[Segment], context: SupplyContext,
) -> list[tuple[float, Reading]]:
    """What ``trace`` measures, as readings, each with the second at which it is known."""
    found: list[tuple[float, Reading]] = []
    for finding in findings(trace, parts, context):
        end = finding.figures.get("end_s")
        volts = finding.figures.get("to_volts", finding.figures.get("volts"))  # of a fall what it came to
        if not isinstance(end, float) or not isinstance(volts, float):
            continue
        feed = str(finding.figures.get("outside_supply") or context.feed(end - 1e-3, end)[0])
        known = {"none": "nothing connected", "unknown": "outside supply not noted"}.get(feed, f"{feed} connected")
        plateau, hours = finding.figures.get("plateau_volts"), finding.figures.get("rested_hours")
        if finding.kind == "crank" and isinstance(plateau, float) and known == "nothing connected":
            found.append((end, _reading("crank plateau on the log, nothing connected", plateau)))
        elif finding.kind == "state of charge" and isinstance(hours, float) and known == "nothing connected":
            found.append((end, _reading(f"rested voltage after {hours:.1f} h on the log", volts)))
        elif finding.part == "charging" and finding.kind in _LEVELS and finding.state in ("proven", "failed"):
            found.append((end, _reading(f"running voltage on the log, {known}", volts)))
    return found


def _reading(name: str, volts: float) -> Reading:
    return Reading(name=name, value=round(volts, 2), unit="V")


def _doubt(trace: Trace, at: SupplyAt, since: float | None, nominal: float) -> str | None:
    """Why the lowest reading may not be the lowest supply; None where it is."""
    fast = limit("trace interval for cranks", system_of(nominal))
    if at.interval_s > fast:
        return f"read every {at.interval_s:.3g} s, a crank dip can lie between two readings"
    if since is None:
        return "nobody knows what came before the trace"
    if since < float(trace.seconds[0]):
        return "the trace begins after the snapshot before"
    if any(begin < at.at_s and end > since for begin, end in trace.gaps):
        return "the trace has a gap there"
    return None


def _told(
    number: int, snapshot: Snapshot, at: SupplyAt, taken: dict[str, float], doubt: str | None, source: str | None,
) -> list[Notice]:
    """What was taken, and what was not."""
    told: list[Notice] = []
    words = {"volts": "supply", "lowest_volts": "lowest supply"}
    if taken:
        figures = " and ".join(f"{words[name]} {value:.2f} V" for name, value in taken.items())
        bound = f" ({doubt}: it may have been lower)" if doubt and "lowest_volts" in taken else ""
        told.append(Notice("note", f"snapshot {number}: {figures} taken from the trace at {at.at_s:.1f} s{bound}",
                           source))
    if snapshot.lowest_volts is None and "lowest_volts" not in taken:
        told.append(Notice("note", f"snapshot {number}: the trace shows no less than {at.lowest_volts:.2f} V, but "
                                   f"{doubt}: the lowest supply stays unknown", source))
    return told
