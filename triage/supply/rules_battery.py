"""Rules about the battery's side of a trace: rest, cranks, sags, the lowest reading, how often was read."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from triage.supply.bands import load_test_end, load_test_limit
from triage.supply.finding import Finding
from triage.supply.measurements import rested_voltage
from triage.supply.rules_dips import night
from triage.supply.segments import Segment
from triage.supply.view import View, span_figures, when

if TYPE_CHECKING:
    from triage.model.verdict import SupplyState

#: The crank limit holds warm; below this the voltage under the starter is lower in a sound battery too (Celsius).
_WARM = 15.0
#: A fall at rest is told over this long at least, s.
_FALLING_LEAST = 7200.0


def rest_rule(view: View) -> list[Finding]:
    """State of charge, from the first rest alone and only where it is one."""
    rests = view.of("rest")
    if not rests:
        return []
    rest = rests[0]
    context = view.context
    feed, what = view.feed(rest)
    if feed == "connected":
        return [Finding("state of charge", f"{rest.volts:.2f} V {when(rest)} with a {what} connected: no estimate of "
                        "charge", span_figures(rest), view.cite("rest hours least"), "battery", "not tested")]
    falling = night(view) or _falling(view)
    if falling is not None:
        return [falling]
    hours = context.rested_hours
    stood = (rest.end_s - rest.start_s) / 3600.0
    if stood >= view.limit("rest hours least"):
        hours = max(hours or 0.0, stood)
    found = rested_voltage(rest.volts, battery=context.battery, rested_hours=hours,
                           temperature_c=context.temperature_c, nominal=context.nominal)
    figures = span_figures(rest) | dict(found.figures)
    return [Finding(found.kind, found.text, figures, found.source, found.part, found.state)]


def _falling(view: View) -> Finding | None:
    """A rest whose voltage goes on falling once surface charge is gone: something draws, and no charge is estimated.

    Looked at is what lies more than ``rest hours least`` behind the beginning of the first rest, and lasts 2 h at
    least: its first and last tenth are compared.
    """
    rest = view.of("rest")[0]
    seconds = view.trace.seconds
    begin = rest.start_s + 3600.0 * max(0.0, view.limit("rest hours least") - (view.context.rested_hours or 0.0))
    if rest.end_s - begin < _FALLING_LEAST:
        return None
    first, last = (int(place) for place in np.searchsorted(seconds, [begin, rest.end_s]))
    values = view.trace.volts[first:last + 1]
    tenth = max(1, len(values) // 10)
    high, low = float(np.median(values[:tenth])), float(np.median(values[-tenth:]))
    if high - low < view.limit("falling rest least"):
        return None
    hours = (rest.end_s - begin) / 3600.0
    return Finding(
        "falling rest", f"at rest and falling: {high:.2f} V to {low:.2f} V in the last {hours:.1f} h, long after "
        "surface charge is gone: something draws from the battery, or it loses its charge by itself; no estimate of "
        "charge from a falling voltage", span_figures(rest, high_volts=round(high, 3), low_volts=round(low, 3),
                                                      hours=round(hours, 2)),
        view.cite("rest hours least", "falling rest least"), "key-off draw", "not tested")


_ADVICE = (": battery flat or worn, cables, or starter; read on the battery posts while it cranks: more there is a "
           "cable or ground, as little is the battery or the starter")


def crank_rule(view: View) -> list[Finding]:
    """Each crank by its plateau."""
    found = [_crank(view, number) for number in range(len(view.of("crank")))]
    # What the first one tells to do need not be said of each.
    return [replace(one, text=one.text.replace(_ADVICE, "", 1)) if at and _ADVICE in found[at - 1].text else one
            for at, one in enumerate(found)]


def _crank(view: View, number: int) -> Finding:
    """One crank: plateau behind the first spike against the warm limit."""
    crank = view.of("crank")[number]
    values = view.values(crank)
    interval = view.trace.interval
    span = crank.end_s - crank.start_s
    skip = min(round(view.limit("crank spike longest") / interval) if interval > 0 else 0, int(0.3 * len(values)))
    plateau = float(np.median(values[skip:]))
    lowest = float(values.min())
    limit = view.limit("crank plateau warm")
    feed, what = view.feed(crank)
    figures = span_figures(crank, plateau_volts=round(plateau, 3), lowest_volts=round(lowest, 3),
                           limit_volts=limit, readings=len(values), outside_supply=what or feed)
    source = view.cite("crank plateau warm", "crank spike longest")
    text = f"crank {when(crank)} ({span:.2g} s): plateau {plateau:.2f} V"
    text += f", first dip to {lowest:.2f} V" if interval <= view.limit("trace interval for cranks") else \
        f", lowest reading {lowest:.2f} V (read every {interval:.2g} s: the first dip is not seen)"
    if feed == "connected":
        return Finding("crank", f"{text}; a {what} was connected: it says nothing about the battery", figures, source,
                       "battery", "not tested")
    behind = _no_start(view, crank)
    celsius = view.context.temperature_c
    under = float(np.count_nonzero(values < limit)) * interval
    if abs(plateau - limit) <= view.limit("crank plateau margin") and under > 0.0:
        text += (f", at the {limit:.1f} V of a warm engine and {under:.2g} s below it: neither passed nor failed: "
                 f"load-test the battery, measure the drop on the cables under the starter{behind}")
        return Finding("crank", text, figures, view.cite("crank plateau warm", "crank plateau margin"), "battery",
                       "not tested")
    if plateau >= limit:
        return Finding("crank", f"{text}, above the {limit:.1f} V of a warm engine: battery and cables bear the "
                       f"starter{behind}", figures, source)
    if celsius is not None and celsius < _WARM:
        words, state, figure = _cold(view, plateau, celsius)
        text += f", below {limit:.1f} V, but that limit holds warm: {words}{behind}"
        return Finding("crank", text, figures | figure, view.cite(
            "crank plateau warm", "crank spike longest", "load test lowest by temperature", "CCA lowest volts"),
            "battery", state)
    text += f", below {limit:.1f} V{_ADVICE}{behind}"
    return Finding("crank", text, figures, source, "battery", "failed" if celsius is not None else "not tested")


def _cold(view: View, plateau: float, celsius: float) -> tuple[str, SupplyState, dict[str, float]]:
    """What a crank plateau below the warm limit says in the cold: words, state, figures.

    The load test's table holds for half the cold cranking current, which a cold starter may exceed: below its figure
    a plateau is weak and no proof. What a battery must hold at its full cold cranking current, it must hold always.
    """
    pair = view.system / 12.0
    end, least, ever = load_test_end(), load_test_limit(celsius) * pair, view.limit("CCA lowest volts")
    at = f"at {celsius:.0f} degrees Celsius"
    figures = {"temperature_c": celsius, "cold_limit_volts": round(least, 2), "lowest_limit_volts": ever}
    if celsius < end:
        borne = "above that" if plateau >= least else "below that, which proves nothing"
        return (f"{at} there is none, the load test's table ends at {end:.0f} degrees with {least:.1f} V (this is "
                f"{borne}); colder, the maker's figure counts: load-test it", "not tested", figures)
    words = f"{at} a battery at half its cold cranking current holds {least:.1f} V by the load test's table"
    if plateau < ever:
        return (f"{words}. It is below {ever:.1f} V as well, what a charged battery still holds at its full cold "
                "cranking current at -18 degrees: battery flat or worn, cables, or starter", "failed", figures)
    if plateau >= least:
        return f"{words}; no fault is seen, load-test it", "not tested", figures
    return (f"{words}; it cranked below that: battery weak, cables, or a starter that takes more: load-test it",
            "not tested", figures)


def _no_start(view: View, crank: Segment) -> str:
    """That no start is seen behind the last of the cranks, where the trace goes on."""
    after = [segment for segment in view.segments if segment.start_s >= crank.end_s - 1e-6]
    started = any(segment.kind in ("crank", "running", "charging", "cycling") for segment in after)
    if started or not after or view.context.engine_in(crank.end_s, after[-1].end_s) in ("running", "ready"):
        return ""
    tries = len(view.of("crank"))
    return "; no start is seen after it" if tries == 1 else f"; no start is seen after {tries} tries"


def sag_rule(view: View) -> list[Finding]:
    """Sags and load steps: how far, how long."""
    found = []
    for segment in (one for one in view.of("sag") if one.start_s not in view.covered):
        lowest = float(view.values(segment).min())
        found.append(Finding("sag", f"sag {when(segment)} to {segment.volts:.2f} V, lowest {lowest:.2f} V",
                             span_figures(segment, lowest_volts=round(lowest, 3)), view.cite("sag drop least")))
    loads = [segment for segment in view.of("load") if segment.start_s not in view.covered]
    if loads:
        deepest = min(loads, key=lambda segment: segment.volts)
        many = f"{len(loads)} load steps, the deepest" if len(loads) > 1 else "load step"
        found.append(Finding("load", f"{many} {when(deepest)} to {deepest.volts:.2f} V",
                             span_figures(deepest, count=len(loads)), view.cite("load step least")))
    return found


def low_rule(view: View) -> list[Finding]:
    """How long the supply was too low for modules to be trusted, over the whole trace."""
    volts, seconds = view.trace.volts, view.trace.seconds
    lowest = float(volts.min())
    monitors, network = view.limit("OBD monitors may be off below"), view.limit("network window lowest from")
    if lowest >= monitors:
        return []
    steps = np.minimum(np.diff(seconds, append=seconds[-1] + view.trace.interval), 5.0 * view.trace.interval)
    below, silent = float(steps[volts < monitors].sum()), float(steps[volts < network].sum())
    at = float(seconds[int(volts.argmin())])
    text = (f"lowest reading {lowest:.2f} V at {at:.4g} s; {below:.3g} s below {monitors:.1f} V "
            "(emission monitors may be off)")
    if silent:
        text += f", {silent:.3g} s below {network:.1f} V (lost-communication codes set there are doubtful)"
    return [Finding("low supply", text, {
        "lowest_volts": round(lowest, 3), "at_s": round(at, 4), "monitor_limit_volts": monitors,
        "below_monitor_limit_s": round(below, 3), "network_limit_volts": network,
        "below_network_limit_s": round(silent, 3)},
        view.cite("OBD monitors may be off below", "network window lowest from"))]


def _unseen(view: View, lowest: float) -> str:
    """What readings this far apart can miss, in words."""
    spike, share = view.limit("crank spike shortest"), view.limit("crank dips missed by slow polling")
    if view.trace.interval <= view.limit("crank spike longest"):
        return (f"a crank's first dip ({spike:.2f} s and more) can fall between two readings, so it may have been "
                f"deeper than the lowest reading of {lowest:.2f} V")
    text = (f"whole cranks can fall between two readings ({share:.0f} % of the starts in one log left no trace), so "
            f"the lowest reading of {lowest:.2f} V proves nothing about cranking")
    started = bool(view.of("charging", "running")) and not view.of("crank")
    return f"{text}; no start is seen in it" if started else text


def sampling_rule(view: View) -> list[Finding]:
    """What slow reading and gaps leave unseen."""
    interval = view.trace.interval
    found = []
    fast = view.limit("trace interval for cranks")
    if interval > fast:
        lowest = float(view.trace.volts.min())
        found.append(Finding(
            "sampling", f"read every {interval:.3g} s: {_unseen(view, lowest)}",
            {"interval_s": round(interval, 4), "needed_interval_s": fast, "lowest_volts": round(lowest, 3)},
            view.cite("crank dips missed by slow polling", "crank spike shortest")))
    if view.trace.gaps:
        longest = max(end - start for start, end in view.trace.gaps)
        total = sum(end - start for start, end in view.trace.gaps)
        count = len(view.trace.gaps)
        many = f"{count} gaps, {total:.4g} s in all, the longest" if count > 1 else "a gap of"
        found.append(Finding("gaps", f"{many} {longest:.4g} s without readings: nothing is known of it",
                             {"count": count, "total_s": round(total, 3), "longest_s": round(longest, 3)}))
    return found
