"""A voltage trace: what a logger wrote, as seconds and volts.

Text in any of the usual forms is taken: comma, semicolon, tab, bar or blanks between the columns, point or comma for
decimals, seconds, milliseconds, clock times or dates, a heading in any language, more columns than needed. Nothing
typed raises; what had to be guessed or left out becomes a notice.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import UTC, datetime, timedelta

import numpy as np
from numpy.typing import NDArray

from triage.model.notices import Notice
from triage.supply.layout import Layout, find_layout
from triage.supply.rows import Rows, read_rows

Array = NDArray[np.float64]
#: A reading outside this range is the logger's, not the vehicle's (volts; -14 V is a reversed 12 V battery).
_LOWEST, _HIGHEST = -30.0, 100.0
#: No clock shows more, in any unit (nanoseconds since 1970 are 1.8e18), and sums of as many rows can hold.
_LATEST = 1e30
_HEAD = 65536
#: A silence is a gap where it lasts five sampling intervals and at least a quarter of a second.
_GAP_STEPS, _GAP_SECONDS = 5.0, 0.25


@dataclass(frozen=True, slots=True, eq=False)
class Trace:
    """A voltage trace.

    ``seconds``: shape (n,), float64, rising, as the log counts them or from its first sample where it writes clock
    times. ``volts``: shape (n,), float64. ``start``: the moment at which ``seconds`` is 0, None if no date is known.
    ``clock``: the time of day there in seconds after midnight, None if unknown. ``gaps``: spans without a sample, as
    pairs of seconds. ``interval``: the usual time between two samples, in seconds (median).
    """

    seconds: Array
    volts: Array
    start: datetime | None = None
    gaps: tuple[tuple[float, float], ...] = ()
    clock: float | None = None
    source: str | None = None
    interval: float = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "interval", usual_interval(self.seconds))

    @property
    def duration(self) -> float:
        """Seconds from the first sample to the last."""
        return float(self.seconds[-1] - self.seconds[0]) if len(self.seconds) else 0.0


def usual_interval(seconds: Array) -> float:
    """The median time between samples; 0.0 for fewer than two. Long traces are sampled for it."""
    if len(seconds) < 2:
        return 0.0
    if len(seconds) > 200_000:
        middle = len(seconds) // 2
        parts = (seconds[:50_000], seconds[middle:middle + 50_000], seconds[-50_000:])
        return float(np.median(np.concatenate([np.diff(part) for part in parts])))
    return float(np.median(np.diff(seconds)))


def make_trace(seconds: Array, volts: Array, *, start: datetime | None = None, clock: float | None = None,
               source: str | None = None) -> Trace:
    """A trace from two arrays of one length, ``seconds`` rising; finds the gaps. Raises ValueError otherwise."""
    seconds, volts = np.asarray(seconds, dtype=np.float64), np.asarray(volts, dtype=np.float64)
    if seconds.ndim != 1 or seconds.shape != volts.shape:
        raise ValueError(f"seconds and volts must be of one length, seen {seconds.shape} and {volts.shape}")
    steps = np.diff(seconds)
    if len(steps) and not bool(np.all(steps >= 0)):
        raise ValueError("seconds must not fall")
    limit = max(_GAP_STEPS * usual_interval(seconds), _GAP_SECONDS)
    gaps = tuple((float(seconds[k]), float(seconds[k + 1])) for k in np.flatnonzero(steps > limit))
    return Trace(seconds, volts, start, gaps, clock, source)


def read_trace(text: str, *, source: str | None = None) -> tuple[Trace | None, list[Notice]]:
    """The trace in ``text`` and the notices about it; None (with a warning that says why) where there is none.

    Time and memory grow in proportion to the text. ``source`` names the file in the notices.
    """
    text = text.removeprefix("\ufeff")
    if "\r" in text[:_HEAD] and "\n" not in text[:_HEAD]:
        text = text.replace("\r", "\n")
    if not text or text.isspace():
        return None, [Notice("warning", "the trace is empty; expected rows of time and volts", source)]
    layout = find_layout(text)
    if layout is None:
        seen = next((line.strip() for line in text[:_HEAD].splitlines() if line.strip()), "blank lines")
        return None, [Notice(
            "warning", f"no voltages found, seen {seen[:40]!r} first; expected rows of time and volts, for example "
            "'12.5,12.43'", source)]
    rows = read_rows(text, layout, source)
    notices = _layout_notices(layout, source) + rows.notices
    trace = _finish(rows, layout, source, notices)
    return trace, notices


def _layout_notices(layout: Layout, source: str | None) -> list[Notice]:
    """What had to be guessed about the columns."""
    notices = []
    name = f" ({layout.names[layout.volts]})" if layout.names and layout.names[layout.volts] else ""
    for doubt in layout.doubt:
        if doubt.startswith("which"):
            notices.append(Notice("note", f"not clear {doubt}; column {layout.volts + 1}{name} is taken", source))
        else:
            notices.append(Notice("note", f"not clear: {doubt}; the day is taken to come first", source))
    if layout.kind == "none":
        notices.append(Notice("warning", "no column of times; the readings are taken as one a second", source))
    return notices


def _finish(rows: Rows, layout: Layout, source: str | None, notices: list[Notice]) -> Trace | None:
    """Units, order, doubles and readings no vehicle gives; then the trace."""
    rows = replace(rows, seconds=np.where(np.abs(rows.seconds) <= _LATEST, rows.seconds, np.nan))
    seconds, volts = rows.seconds, rows.volts
    if layout.volt_scale != 1.0:
        volts = volts * layout.volt_scale
    elif _in_millivolts(volts):
        volts = volts * 1e-3
        notices.append(Notice("note", "the voltages are taken as millivolts", source))
    sound = np.isfinite(seconds)
    sound &= (volts >= _LOWEST) & (volts <= _HIGHEST)
    if not bool(sound.all()):
        _note_unsound(rows, volts, sound, source, notices)
        seconds, volts = seconds[sound], volts[sound]
    if len(volts) < 2:
        notices.append(Notice("warning", f"{len(volts)} usable readings; a trace needs two and more", source))
        return None
    if layout.kind == "number":
        scale = _scale(seconds, layout, source, notices)
        seconds = seconds if scale == 1.0 else seconds * scale
    elif layout.kind == "clock" and layout.date is None:
        seconds = _past_midnight(seconds)
    origin = 0.0
    if layout.kind in ("clock", "stamp") or (layout.kind == "number" and seconds[0] > 3e8):
        origin = float(seconds[0])
    seconds, volts = _in_order(seconds - origin if origin else seconds, volts, source, notices)
    # Sums of large times are rounded, by more than a short step.
    seconds = np.maximum.accumulate(_spread_doubles(seconds, source, notices))
    if seconds[-1] <= seconds[0]:
        notices.append(Notice("warning", "all readings bear the same time; the time must advance", source))
        return None
    start, clock = _origin(layout, origin, float(seconds[0]))
    trace = make_trace(seconds, volts, start=start, clock=clock, source=source)
    if trace.gaps:
        longest = max(b - a for a, b in trace.gaps)
        notices.append(Notice("note", f"{len(trace.gaps)} gap{'s' * (len(trace.gaps) > 1)} without readings, the "
                              f"longest {longest:.4g} s; nothing is concluded about them", source))
    return trace


def _in_millivolts(volts: Array) -> bool:
    """Whether the middle of the readings could only be a supply in millivolts."""
    some = volts[::max(1, len(volts) // 20_000)]
    some = some[np.isfinite(some)]
    return bool(len(some)) and 4000.0 < float(np.median(some)) < 36000.0


def _note_unsound(rows: Rows, volts: Array, sound: NDArray[np.bool_], source: str | None,
                  notices: list[Notice]) -> None:
    """One notice for rows without a value, one for values out of range."""
    missing = int(np.isnan(volts).sum() + (~np.isfinite(rows.seconds) & ~np.isnan(volts)).sum())
    wild = np.flatnonzero(~sound & np.isfinite(volts) & np.isfinite(rows.seconds))
    if missing:
        rows_out = f"{missing} rows hold" if missing > 1 else "1 row holds"
        notices.append(Notice("note", f"{rows_out} no time or no voltage; left out", source))
    if len(wild):
        many = f"{len(wild)} readings" if len(wild) > 1 else "1 reading"
        notices.append(Notice("warning", f"{many} outside {_LOWEST:g} to {_HIGHEST:g} V left out, the first "
                              f"{volts[wild[0]]:.4g} V", source))


def _scale(seconds: Array, layout: Layout, source: str | None, notices: list[Notice]) -> float:
    """Seconds in one unit of a numeric time column; guessed where the heading doesn't say."""
    if layout.time_scale != 1.0 or layout.unit_known:
        return layout.time_scale
    first, steps = float(seconds[0]), np.abs(np.diff(seconds[:10_000]))
    step = float(np.median(steps)) if len(steps) else 0.0
    if first > 3e14:
        return 1e-6
    if first > 3e11:
        return 1e-3
    whole = bool(np.all(seconds[:10_000] == np.floor(seconds[:10_000])))
    span = float(seconds[-1] - seconds[0])
    if first < 3e8 and whole and ((step >= 50 and step % 60 != 0) or (span > 2 * 86400 and step < 60)):
        notices.append(Notice("note", f"the times rise by {step:g} a reading and are taken as milliseconds", source))
        return 1e-3
    return 1.0


def _past_midnight(seconds: Array) -> Array:
    """Clock times made to run on past midnight."""
    turns = np.diff(seconds, prepend=seconds[:1]) < -43200.0
    return seconds + 86400.0 * np.cumsum(turns) if bool(turns.any()) else seconds


def _in_order(seconds: Array, volts: Array, source: str | None, notices: list[Notice]) -> tuple[Array, Array]:
    """Rising times: recordings behind one another are laid end to end, single strays sorted in."""
    if bool((seconds[1:] >= seconds[:-1]).all()):
        return seconds, volts
    steps = np.diff(seconds)
    back = np.flatnonzero(steps < 0)
    usual = float(np.median(steps[steps > 0])) if bool((steps > 0).any()) else 1.0
    if len(back) <= max(5, len(seconds) // 1000) and all(-steps[k] > 20 * usual for k in back):
        shift = np.zeros_like(seconds)
        for k in back:
            shift[k + 1:] += -steps[k] + 100 * usual
        notices.append(Notice("warning", f"the times start anew {len(back)} times: the recordings are laid end to end, "
                              "the time between them is not known", source))
        return seconds + shift, volts
    order = np.argsort(seconds, kind="stable")
    notices.append(Notice("note", f"the times run backwards in {len(back)} places; the readings are sorted", source))
    return seconds[order], volts[order]


def _spread_doubles(seconds: Array, source: str | None, notices: list[Notice]) -> Array:
    """Readings that share one time (a clock without fractions) spread evenly up to the next time."""
    same = seconds[1:] == seconds[:-1]
    if not bool(same.any()):
        return seconds
    first = np.flatnonzero(np.concatenate(([True], ~same)))
    counts = np.diff(np.append(first, len(seconds)))
    starts = seconds[first]
    widths = np.diff(starts)
    widths = np.append(widths, np.median(widths) if len(widths) else 0.0)
    # A jump longer than the usual step is a gap, over which nothing is spread.
    widths = np.minimum(widths, np.median(widths))
    place = np.arange(len(seconds)) - np.repeat(first, counts)
    notices.append(Notice("note", f"{int(same.sum())} readings share the time of the one before; they are spread "
                          "evenly up to the next time", source))
    return np.asarray(np.repeat(starts, counts) + np.repeat(widths / counts, counts) * place)


def _origin(layout: Layout, origin: float, first: float) -> tuple[datetime | None, float | None]:
    """The moment and the time of day at which the trace's seconds are 0."""
    start, clock = layout.start, None
    if layout.kind == "number" and origin:
        start = _later(datetime(1970, 1, 1, tzinfo=UTC), origin)
    elif layout.kind == "number" and start is not None and first:
        start = _later(start, -first)
    elif layout.kind == "clock":
        clock = origin % 86400.0
        if start is not None:  # a date above the data, the clock in the rows
            start = _later(start.replace(hour=0, minute=0, second=0, microsecond=0), clock)
    if start is not None:
        clock = start.hour * 3600.0 + start.minute * 60.0 + start.second + start.microsecond / 1e6
    return start, clock


def _later(moment: datetime, seconds: float) -> datetime | None:
    """``moment`` plus ``seconds``; None beyond the years that a date can hold."""
    try:
        return moment + timedelta(seconds=seconds)
    except OverflowError:
        return None
