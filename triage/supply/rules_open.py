"""What a trace leaves open: what nobody tested, and the one measurement that decides."""

from __future__ import annotations

from triage.supply.finding import Finding
from triage.supply.view import View


def untested_rule(view: View) -> list[Finding]:
    """The parts of the supply that this trace does not test, in one finding."""
    states = {finding.part: finding.state for finding in view.found if finding.state in ("proven", "failed")}
    open_parts = []
    if "battery" not in states:
        open_parts.append("battery under load (rested voltage and load test)")
    if "charging" not in states:
        open_parts.append("charging with nothing connected")
    if view.trace.interval > view.limit("trace interval for ripple"):
        open_parts.append("ripple (read too slowly)")
    open_parts += ["key-off draw", "voltage drop on cables and grounds"]
    if view.system == 24:
        open_parts.append("each battery of the pair alone")
    return [Finding("not tested", "not tested by this trace: " + ", ".join(open_parts), {"count": len(open_parts)},
                    view.cite("key-off draw", "drop ground path"))]


def decides_rule(view: View) -> list[Finding]:
    """The one measurement that would decide most, by what stands worst."""
    charging = {finding.state for finding in view.found if finding.part == "charging"}
    battery = {finding.state for finding in view.found if finding.part == "battery"}
    low, high = view.limit("charging lowest"), view.limit("charging highest warm")
    dead, wait = view.limit("not charging below"), view.limit("charging judged after")
    volts = {"charging_volts": low, "not_charging_volts": dead, "wait_s": wait}
    if "failed" in charging and "proven" not in charging:
        over = any(f.kind == "overvoltage" for f in view.found if f.state == "failed")
        text = "engine running, nothing connected: " + (
            "measure at the battery posts and at the generator; alike and still too high is the regulator" if over else
            f"measure from the generator's output to the battery's positive post; above "
            f"{view.limit('drop positive path'):.1f} V is the cable, less is the generator or its control")
        return [_next(text, volts, view.cite("drop positive path", "charging lowest"))]
    weak = view.limit("crank plateau warm")
    if any(f.kind == "cycling" and float(f.figures["low_volts"] or weak) < weak
           and f.figures["outside_supply"] in ("none", "unknown") for f in view.found):
        text = ("the voltage on the battery posts while terminals, grounds and the meter's leads are moved by hand: "
                "steady there means that the contact is lost behind the posts")
        return [_next(text, {"low_limit_volts": weak}, view.cite("crank plateau warm"))]
    if any(f.kind == "crank" and float(f.figures["plateau_volts"] or weak) < weak and f.part == "battery"
           and f.figures.get("limit_volts") for f in view.found) and view.context.temperature_c is None:
        text = (f"read on the battery posts while it cranks: below {weak:.1f} V there is the battery or the starter, "
                f"more is a cable or ground: then measure the drop along each, {view.limit('drop ground path'):.1f} V "
                f"on the ground path and {view.limit('drop positive path'):.1f} V on the feed at most")
        return [_next(text, {"crank_limit_volts": weak}, view.cite("crank plateau warm", "drop ground path",
                                                                  "drop positive path"))]
    if any(f.kind == "falling rest" for f in view.found):
        text = (f"key-off draw, {view.limit('modules asleep to'):.0f} min after locking: more than "
                f"{view.limit('key-off draw'):.0f} mA is a draw to be found branch by branch; with less, load-test the "
                "battery once it is charged")
        return [_next(text, {}, view.cite("key-off draw"))]
    if view.of("cycling", "charging", "running") and "proven" not in charging:
        off = "with nothing connected, " if view.context.outside == () else "take off any outside supply, "
        text = (f"{off}run the engine (an electric drive: READY) for {wait:.0f} s and more, and measure at the "
                f"battery: {low:.1f} to {high:.1f} V is charging, below {dead:.1f} V is not")
        return [_next(text, volts, view.cite("charging lowest", "not charging below", "charging judged after"))]
    if "proven" not in battery:
        pair = " each battery of the pair alone" if view.system == 24 else " the battery"
        text = (f"charge{pair} fully, let it rest, then load-test it: half the cold cranking current for 15 s, at "
                f"least {view.limit('load test lowest by temperature') * 12 / view.system:.1f} V at 20 degrees Celsius")
        return [_next(text, {}, view.cite("load test seconds", "rest hours least"))]
    text = (f"key-off draw, {view.limit('modules asleep to'):.0f} min after locking: "
            f"{view.limit('key-off draw'):.0f} mA and less passes")
    return [_next(text, {}, view.cite("key-off draw"))]


def _next(text: str, figures: dict[str, float], source: str) -> Finding:
    """The measurement that decides, as a finding."""
    return Finding("decides", f"the one measurement that decides: {text}", dict(figures), source)
