"""A trace as a picture: the curve, its segments above it, what was connected below it, the snapshots across it.

Ink on white, told apart by line, hatching and words alone, so that it prints and copies in black and white. Drawn with
matplotlib, which is an extra: only this module asks for it.
"""

from __future__ import annotations

import math
import warnings
from collections.abc import Sequence
from io import BytesIO
from typing import TYPE_CHECKING, Any, Literal, NamedTuple

import numpy as np

from triage.errors import InputError
from triage.supply.finding import SupplyContext
from triage.supply.limits import limit
from triage.supply.segments import Segment
from triage.supply.trace import Array, Trace

if TYPE_CHECKING:
    from matplotlib.axes import Axes

Form = Literal["svg", "png"]
#: Columns that the samples are gathered in; of each the first, lowest, highest and last are drawn, so no dip is lost.
COLUMNS = 2000
#: Width and height in inches: the text column of an A4 sheet on its side.
SIZE = (10.6, 4.9)
INK, GREY, HAIR, BAND = "#000000", "#4d4d4d", "#bfbfbf", "#e6e6e6"
#: A segment wider than this share of the picture for each letter of its name has the name written along it.
_LETTER = 0.0088
#: A segment narrower than this share of the picture has no room for a name at all; a crank is named all the same.
_LEAST = 0.011
#: A gap longer than this share of the picture is told in words.
_GAP = 0.03
#: Letters of one line below the picture.
_LINE = 150
_SAVED: dict[Form, dict[str, Any]] = {
    "svg": {"metadata": {"Date": None}}, "png": {"dpi": 150, "metadata": {"Software": None}}}


class Mark(NamedTuple):
    """A snapshot on the trace: its place in seconds, its number, and what stands beside its line."""

    at_s: float
    number: str
    words: str


def thinned(trace: Trace, columns: int = COLUMNS) -> tuple[Array, Array]:
    """Seconds and volts to draw: at most four samples a column, and a break (NaN) at each gap."""
    count = len(trace.volts)
    step = max(1, count // columns)
    seconds, volts = trace.seconds, trace.volts
    if step >= 4:
        whole = count // step * step
        rows = volts[:whole].reshape(-1, step)
        start = np.arange(0, whole, step)
        kept = np.sort(np.stack([start, start + rows.argmin(axis=1), start + rows.argmax(axis=1), start + step - 1],
                                axis=1), axis=1).ravel()
        kept = np.unique(np.concatenate([kept, np.arange(whole, count)]))
        seconds, volts = seconds[kept], volts[kept]
    breaks = [begin for begin, _ in trace.gaps]
    places = np.searchsorted(seconds, breaks, side="right")
    return np.insert(seconds, places, breaks), np.insert(volts, places, np.nan)


def draw(trace: Trace, segments: Sequence[Segment], context: SupplyContext, marks: Sequence[Mark] = (), *,
         form: Form = "svg", title: str = "") -> bytes:
    """The picture as the bytes of an SVG or PNG file. Raises InputError where matplotlib is not installed."""
    try:
        import matplotlib as mpl
        from matplotlib.figure import Figure
    except ImportError:
        raise InputError("pictures need matplotlib: pip install 'lowvolt-triage[picture]'") from None

    # No formulas are read into a vehicle's name; text stays text, so that an SVG can be searched.
    style: dict[Any, Any] = {
        "svg.fonttype": "none", "text.parse_math": False, "svg.hashsalt": "trace", "hatch.linewidth": 0.6,
        "axes.linewidth": 0.8, "font.size": 9.5, "text.color": INK, "axes.labelcolor": INK, "xtick.color": INK,
        "ytick.color": INK, "font.family": ["DejaVu Sans"]}
    with mpl.rc_context(style), warnings.catch_warnings():
        warnings.filterwarnings("ignore", message="Glyph")  # a name in a script that the type lacks shows boxes
        # Margins in inches: nothing is measured, so that the same log gives the same file.
        wide, tall = SIZE
        legend = _legend(marks)
        below = 0.55 + (0.16 * (legend.count("\n") + 2) if legend else 0.0)
        figure = Figure(figsize=(wide, tall))
        names, axes, feeds = figure.subplots(3, 1, sharex=True, height_ratios=[1.35, 9.0, 0.6], gridspec_kw={
            "left": 0.62 / wide, "right": 1.0 - 0.12 / wide, "top": 1.0 - (0.36 if title else 0.08) / tall,
            "bottom": below / tall, "hspace": 0.06})
        if title:
            figure.text(0.12 / wide, 1.0 - 0.08 / tall, title, ha="left", va="top", fontsize=11.5, fontweight="bold")
        _curve(axes, trace, context, any(segment.kind == "crank" for segment in segments))
        _names(names, trace, segments)
        _snapshots(axes, marks)
        _feeds(feeds, trace, context)
        _time(feeds, trace, legend)
        kept = BytesIO()
        figure.savefig(kept, format=form, facecolor="white", **_SAVED[form])
    return kept.getvalue()


def _curve(axes: Axes, trace: Trace, context: SupplyContext, cranked: bool) -> None:
    """The voltage, and the levels it is held against."""
    from matplotlib.ticker import MaxNLocator

    seconds, volts = thinned(trace)
    axes.plot(seconds, volts, color=INK, linewidth=0.9, solid_joinstyle="round")
    low, high = float(trace.volts.min()), float(trace.volts.max())
    levels = [("charging from", limit("charging lowest", context.system))]
    if cranked:
        levels.append(("crank plateau, warm, from", limit("crank plateau warm", context.system)))
    low, high = min([low, *(level for _, level in levels)]), max([high, *(level for _, level in levels)])
    air = max(0.06 * (high - low), 0.15)
    axes.set_ylim(low - air, high + 2.2 * air)
    axes.set_xlim(float(trace.seconds[0]), float(trace.seconds[-1]))
    axes.yaxis.set_major_locator(MaxNLocator(8, steps=[1, 2, 5, 10]))
    axes.grid(axis="y", color=HAIR, linewidth=0.5)
    axes.set_axisbelow(True)
    for words, level in levels:
        axes.axhline(level, color=GREY, linewidth=0.9, linestyle=(0, (1, 2)))
        axes.annotate(f"{words} {level:.1f} V", (1.0, level), xycoords=("axes fraction", "data"), xytext=(-4, 2),
                      textcoords="offset points", ha="right", va="bottom", fontsize=8, color=GREY,
                      bbox={"facecolor": "white", "edgecolor": "none", "pad": 0.5})
    for begin, end in trace.gaps:
        if end - begin > _GAP * trace.duration:
            axes.annotate("no readings", ((begin + end) / 2.0, 0.5), xycoords=("data", "axes fraction"), ha="center",
                          va="center", rotation=90, fontsize=8, color=GREY)
    axes.set_ylabel("supply, V")
    axes.spines[["top", "right", "bottom"]].set_visible(False)
    axes.tick_params(bottom=False)


def _names(axes: Axes, trace: Trace, segments: Sequence[Segment]) -> None:
    """The segments as a row of boxes, every other one grey, with name and median; narrow ones are named upright."""
    span = max(trace.duration, 1e-9)
    axes.set_ylim(0.0, 1.0)
    for place, segment in enumerate(segments):
        width = segment.end_s - segment.start_s
        axes.axvspan(segment.start_s, segment.end_s, facecolor=BAND if place % 2 else "white", edgecolor=GREY,
                     linewidth=0.5)
        share = width / span
        volts = f"{segment.volts:.2f} V"
        if segment.low_volts is not None and segment.high_volts is not None:
            volts = f"{segment.low_volts:.2f} / {segment.high_volts:.2f} V"
        middle = segment.start_s + width / 2.0
        if share >= _LETTER * max(len(segment.kind), len(volts)):
            axes.text(middle, 0.5, f"{segment.kind}\n{volts}", ha="center", va="center", fontsize=8.5)
        elif share >= _LEAST or segment.kind == "crank":
            axes.text(middle, 0.5, segment.kind, ha="center", va="center", fontsize=7.2, rotation=90,
                      bbox={"facecolor": BAND if place % 2 else "white", "edgecolor": "none", "pad": 0.4})
    axes.axis("off")


def _snapshots(axes: Axes, marks: Sequence[Mark]) -> None:
    """A dashed line a snapshot, its number in a ring on top."""
    for mark in marks:
        axes.axvline(mark.at_s, color=INK, linewidth=1.0, linestyle=(0, (5, 3)))
        axes.annotate(mark.number, (mark.at_s, 1.0), xycoords=("data", "axes fraction"), xytext=(0, -8),
                      textcoords="offset points", ha="center", va="center", fontsize=8.5, fontweight="bold",
                      bbox={"boxstyle": "circle,pad=0.25", "facecolor": "white", "edgecolor": INK}, zorder=5)


def _legend(marks: Sequence[Mark]) -> str:
    """What the numbers in the rings stand for, in lines of a length that fits below the picture."""
    lines = [""]
    for mark in marks:
        words = f"{mark.number}  {mark.words}"
        if lines[-1] and len(lines[-1]) + len(words) > _LINE:
            lines.append("")
        lines[-1] += f"{'      ' if lines[-1] else ''}{words}"
    return "\n".join(lines) if marks else ""


def _feeds(axes: Axes, trace: Trace, context: SupplyContext) -> None:
    """When an outside supply fed the vehicle: a hatched bar, or words where none did or nobody said."""
    first, last = float(trace.seconds[0]), float(trace.seconds[-1])
    axes.set_ylim(0.0, 1.0)
    axes.set_yticks([])
    axes.spines[["top", "left", "right"]].set_visible(False)
    if not context.outside:
        words = "nothing connected" if context.outside is not None else "nobody said what was connected"
        axes.text((first + last) / 2.0, 0.5, words, ha="center", va="center", fontsize=8, color=GREY)
        return
    for span in context.outside:
        start, end = max(span.start_s, first), last if span.end_s is None else min(span.end_s, last)
        if end <= start:
            continue
        axes.axvspan(start, end, facecolor="white", edgecolor=GREY, hatch="////", linewidth=0.8)
        axes.text((start + end) / 2.0, 0.5, f"{span.what} connected", ha="center", va="center", fontsize=8,
                  bbox={"facecolor": "white", "edgecolor": "none", "pad": 1.0})


def _time(axes: Axes, trace: Trace, legend: str) -> None:
    """The time of day where the log knows it, else seconds, minutes or hours; below it what the marks stand for."""
    from matplotlib.ticker import FuncFormatter, MaxNLocator, MultipleLocator

    below = f"\n\n{legend}" if legend else ""
    if trace.clock is not None:
        steps = (1, 2, 5, 10, 20, 30, 60, 120, 300, 600, 1200, 1800, 3600, 7200, 10800, 21600, 43200, 86400)
        step = next((step for step in steps if trace.duration / step <= 9.0), 86400 * math.ceil(
            trace.duration / 86400 / 9))
        clock = trace.clock
        axes.xaxis.set_major_locator(MultipleLocator(step, offset=-(clock % step)))
        axes.xaxis.set_major_formatter(FuncFormatter(lambda value, _: _clock(clock + value, step)))
        axes.set_xlabel(f"time of day{below}")
        return
    unit, name = (1.0, "s") if trace.duration <= 900 else (60.0, "min") if trace.duration <= 14400 else (3600.0, "h")
    axes.xaxis.set_major_locator(MaxNLocator(10, steps=[1, 2, 5, 10]) if unit == 1.0 else MultipleLocator(
        unit * max(1, math.ceil(trace.duration / unit / 10))))
    axes.xaxis.set_major_formatter(FuncFormatter(lambda value, _: f"{value / unit:g}"))
    axes.set_xlabel(f"time on the log, {name}{below}")


def _clock(seconds: float, step: float) -> str:
    """A time of day, with seconds where the ticks stand closer than a minute."""
    whole = round(seconds) % 86400
    text = f"{whole // 3600:02d}:{whole // 60 % 60:02d}"
    return text if step >= 60 else f"{text}:{whole % 60:02d}"


__all__ = ["Form", "Mark", "draw", "thinned"]
