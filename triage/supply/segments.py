"""The segments of a voltage trace: rest, key on, crank, recovery, charging, sag, load, running, cycling.

>>> import numpy as np
>>> from triage.supply.trace import make_trace
>>> volts = np.repeat([12.5, 12.2, 9.8, 14.1], [100, 50, 10, 200])
>>> trace = make_trace(np.arange(360) / 10, volts)
>>> [(s.kind, s.start_s, s.volts) for s in segments(trace)]
[('rest', 0.0, 12.5), ('key on', 10.0, 12.2), ('crank', 15.0, 9.8), ('charging', 16.0, 14.1)]
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from triage.supply.cranks import Crank, find_cranks
from triage.supply.cycling import Cycle, find_cycles
from triage.supply.drives import by_drive
from triage.supply.labels import Around, Kind, Named, name_all
from triage.supply.limits import limit, system_of
from triage.supply.pieces import Piece, Signal, drop_strays, make_piece, pieces_of, signal_of
from triage.supply.stretches import stretches_of
from triage.supply.trace import Trace
from triage.supply.waves import without_waves


class Segment(NamedTuple):
    """A stretch of a trace under one name.

    ``start_s``, ``end_s``: seconds of its first sample and of the next segment's first (of the last sample, at the
    end). ``volts``: median. For ``cycling`` only: the two levels in volts, the period in seconds, the share of time
    at the high level, and the times of the edges in seconds; None otherwise.
    """

    kind: Kind
    start_s: float
    end_s: float
    volts: float
    low_volts: float | None = None
    high_volts: float | None = None
    period_s: float | None = None
    duty: float | None = None
    edges: tuple[float, ...] | None = None


def guess_nominal(trace: Trace) -> float:
    """12.0 or 24.0, by the median voltage of the trace."""
    middle = float(np.median(trace.volts)) if len(trace.volts) else 12.0
    return 24.0 if middle >= limit("24 V system from") else 12.0


def segments(trace: Trace, nominal: float | None = 12.0,
             runs: Sequence[tuple[float, float]] = ()) -> list[Segment]:
    """The segments of ``trace`` in order, without overlap. ``nominal``: 12 or 24 V; None guesses it from the trace.

    ``runs``: from when to when the engine is known to run, in seconds of the trace: nothing is called a rest there.
    A trace with fewer than two samples has none. Segments end at a long gap and begin anew behind it.
    """
    if len(trace.volts) < 2:
        return []
    system = system_of(guess_nominal(trace) if nominal is None else nominal)
    signal = signal_of(trace, system)
    pieces = pieces_of(signal)
    cycles = find_cycles(pieces, signal)
    named: list[Named] = []
    around = Around()
    place = 0
    for cycle in [*cycles, None]:
        end = cycle.start if cycle is not None else len(trace.volts)
        still = without_waves(_cut(pieces, place, end, signal), signal)
        named += _between(drop_strays(still, signal), around, signal)
        if cycle is not None:
            named.append(Named("cycling", cycle.start, cycle.end, cycle.high))
            around.has_charged = False
            around.after_crank = False
            if around.state == "off" and cycle.high >= signal.limit("undercharge below"):
                around.state, around.has_charged = "started", True
            place = cycle.end
    measured = {cycle.start: cycle for cycle in cycles}
    named = by_drive(named, measured, signal, runs)
    return [segment for row in _tidy(named, signal) for segment in _segments(row, measured.get(row.start), signal)]


def _cut(pieces: list[Piece], start: int, end: int, signal: Signal) -> list[Piece]:
    """The pieces between two samples; those that reach beyond are cut and measured anew."""
    result = []
    for piece in pieces:
        if piece.end <= start or piece.start >= end:
            continue
        if piece.start < start or piece.end > end:
            piece = make_piece(signal, max(piece.start, start), min(piece.end, end))
        result.append(piece)
    return result


def _between(pieces: list[Piece], around: Around, signal: Signal) -> list[Named]:
    """Names for the pieces between two cyclings: cranks first, then what lies around them."""
    cranks: list[Crank | None] = [*find_cranks(pieces, signal, running=around.state == "started")]
    named: list[Named] = []
    first = 0
    for crank in [*cranks, None]:
        last = crank.first if crank is not None else len(pieces)
        around.before_crank = crank is not None
        named += name_all(stretches_of(pieces[first:last], signal), around, signal)
        if crank is not None:
            named.append(Named("crank", pieces[crank.first].start, pieces[crank.last].end, crank.plateau))
            around.state, around.after_crank, around.has_charged = "started", True, False
            before = pieces[crank.first - 1].last if crank.first else None
            around.failed_try = before if crank.plateau < signal.limit("crank hardly turns below") else None
            first = crank.last + 1
    return named


def _tidy(named: list[Named], signal: Signal) -> list[Named]:
    """Neighbours of one name and level as one."""
    step = signal.limit("load step least")
    result: list[Named] = []
    for row in named:
        if row.end <= row.start:
            continue
        last = result[-1] if result else None
        if last is not None and last.kind == "rest" and _stands_on(last, row, signal):
            last.level = row.level if row.end - row.start > last.end - last.start else last.level
            last.end = row.end
            continue
        if last is not None and last.kind == row.kind and row.kind not in ("crank", "cycling") and (
                row.kind == "recovery" or abs(last.level - row.level) < step):
            last.end = row.end
            continue
        result.append(row)
    return result


def _stands_on(last: Named, row: Named, signal: Signal) -> bool:
    """Whether a level only goes on with the rest before it: one more level of a long rest, or the last reading of a
    trace, which is no stretch of its own."""
    longest = 3600.0 * signal.limit("key on longest")
    if row.kind == "rest":
        return max(signal.span(last.start, last.end), signal.span(row.start, row.end)) > longest
    alone = row.end - row.start == 1 and row.end == len(signal.volts)
    return alone and row.kind in ("key on", "load") and signal.span(last.start, last.end) > longest


def _segments(row: Named, cycle: Cycle | None, signal: Signal) -> list[Segment]:
    """A named stretch as a segment, or several where a long gap parts it."""
    if row.kind == "cycling" and cycle is not None:
        return [Segment("cycling", signal.time(row.start), signal.time(row.end), _median(signal, row.start, row.end),
                        cycle.low, cycle.high, cycle.period, cycle.duty,
                        tuple(signal.time(edge) for edge in cycle.edges))]
    result = []
    for start, end, stop in _parts(row, signal):
        result.append(Segment(row.kind, signal.time(start), stop, _median(signal, start, end)))
    return result


def _parts(row: Named, signal: Signal) -> list[tuple[int, int, float]]:
    """Samples from, to and end in seconds of the parts that gaps longer than the rest of the stretch leave."""
    seconds = signal.trace.seconds
    parts: list[tuple[int, int, float]] = []
    start = row.start
    for begin, end in signal.trace.gaps:
        cut = int(np.searchsorted(seconds, end))
        if not start < cut < row.end:
            # A gap at the very end of a stretch belongs to nobody.
            if cut == row.end and start < cut:
                parts.append((start, cut, begin))
                return parts
            continue
        shorter = min(begin - signal.time(start), signal.time(row.end) - end)
        if end - begin > max(shorter, 10.0 * signal.trace.interval):
            parts.append((start, cut, begin))
            start = cut
    parts.append((start, row.end, signal.time(row.end)))
    return parts


def _median(signal: Signal, start: int, end: int) -> float:
    """The median of samples ``start`` to ``end``; of at most half a million of them, evenly taken."""
    values = signal.volts[start:end]
    return float(np.median(values[::max(1, len(values) // 500_000)]))
