"""What a trace leaves open: what nobody tested, and the one measurement that decides."""

from __future__ import annotations

from triage.supply.bands import load_test_end, load_test_limit
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
    """The one measurement that would decide most, by what was found: the worst finding has its own."""
    ways = (_too_high, _cuts_out, _at_generator, _contact, _crank, _ripple, _steps, _draw, _charging, _ready, _battery)
    return [next((found for way in ways if (found := way(view)) is not None), _asleep(view))]


def _alone(view: View) -> str:
    """How a measurement of the charging begins."""
    return "with nothing connected" if view.context.outside == () else "take off any outside supply"


def _of_charging(view: View, state: str) -> list[Finding]:
    """The findings in ``state`` about the charging."""
    return [found for found in view.found if found.part == "charging" and found.state == state]


def _too_high(view: View) -> Finding | None:
    """Overvoltage is the regulator, or a sense wire."""
    if not any(found.kind == "overvoltage" for found in _of_charging(view, "failed")):
        return None
    text = ("engine running, nothing connected: measure at the battery posts and at the generator; alike and still "
            "too high is the regulator; the engine runs no longer than the reading takes, and not beside a battery "
            "that is hot or smells")
    return _next(text, {"charging_volts": view.limit("charging lowest")}, view.cite("charging lowest"))


def _cuts_out(view: View) -> Finding | None:
    """Charging that cuts out: what opens, while it is moved."""
    if not any(found.kind == "cut-out" for found in view.found):
        return None
    drop = view.limit("drop positive path")
    text = (f"{_alone(view)}, engine running: read the generator's own output and the battery together, and the "
            "commanded value beside them, while its plug, harness and cable are moved: both fall is the generator, its "
            f"plug, control or belt; more than {drop:.1f} V between them is the cable")
    return _next(text, {"drop_volts": drop}, view.cite("drop positive path"))


def _at_generator(view: View) -> Finding | None:
    """No charging: the generator's output against the battery parts the generator from its cables."""
    failed = [found for found in _of_charging(view, "failed") if found.kind != "ripple"]
    proven = _of_charging(view, "proven")
    dead = [found for found in view.found if found.kind == "not charging"]
    if not dead and (not failed or proven):
        return None
    low, drop = view.limit("charging lowest"), view.limit("drop positive path")
    text = (f"{_alone(view)}, engine running: measure at the generator's output and from there to the battery's "
            f"positive post: below {low:.1f} V at the output is the generator, its belt or its control; above "
            f"{drop:.1f} V from output to post is the cable")
    if not any(found.state == "failed" for found in dead + failed):
        text += f"; {low:.1f} V and more on the battery posts says that it charges and the engine was off"
    return _next(text, {"charging_volts": low, "not_charging_volts": view.limit("not charging below"),
                        "drop_volts": drop, "wait_s": view.limit("charging judged after")},
                 view.cite("drop positive path", "charging lowest"))


def _contact(view: View) -> Finding | None:
    """A level no connected battery falls to: the posts while the leads are moved."""
    weak, charging = view.limit("crank plateau warm"), view.limit("undercharge below")
    if any(found.kind == "dips" for found in view.found):
        text = ("engine running, lamps and blower on: the drop from post to clamp, battery to body, engine and main "
                f"fuse while each is moved by hand: more than {view.limit('drop ground path'):.1f} V on a ground or "
                f"{view.limit('drop positive path'):.1f} V on the feed is the contact; the meter's leads on the posts "
                "themselves first")
        return _next(text, {}, view.cite("drop ground path", "drop positive path"))
    if not any(found.kind == "cycling" and float(found.figures["low_volts"] or weak) < weak
               and float(found.figures["high_volts"] or 0.0) >= charging
               and found.figures["outside_supply"] in ("none", "unknown") for found in view.found):
        return None
    text = ("the voltage on the battery posts while terminals, grounds and the meter's leads are moved by hand: "
            "steady there means that the contact is lost behind the posts")
    return _next(text, {"low_limit_volts": weak}, view.cite("crank plateau warm"))


def _crank(view: View) -> Finding | None:
    """A low crank plateau: the battery by its load test, the starter's cables by their drop."""
    low = [(found, float(limit)) for found in view.found if found.kind == "crank" and found.part == "battery"
           and (limit := found.figures.get("cold_limit_volts") or found.figures["limit_volts"])
           and found.figures["outside_supply"] in ("none", "unknown")]
    least = max((limit for found, limit in low if float(found.figures["plateau_volts"] or limit) < limit), default=None)
    if least is None:
        return None
    ground, positive = view.limit("drop ground path"), view.limit("drop positive path")
    text = (f"read on the battery posts while it cranks: below {least:.1f} V there is the battery or the starter: "
            f"{_load_test(view)}; more is a cable or ground: then measure the drop along each, {ground:.1f} V on the "
            f"ground path and {positive:.1f} V on the feed at most")
    return _next(text, {"crank_limit_volts": least}, view.cite(
        "crank plateau warm", "drop ground path", "drop positive path", "load test seconds"))


def _load_test(view: View) -> str:
    """The load test of the battery, at its temperature where that is known."""
    celsius = view.context.temperature_c
    least, at = load_test_limit(celsius), 20.0 if celsius is None else min(celsius, 20.0)
    pair = "each battery of the pair alone" if view.system == 24 else "the battery"
    end = load_test_end()
    at_words = f"{at:.0f} degrees Celsius" if at >= end else f"{end:.0f} degrees Celsius, where the table ends"
    return (f"charge {pair} fully, let it rest, then load-test it: half the cold cranking current for 15 s, at least "
            f"{least:.1f} V at {at_words}")


def _ripple(view: View) -> Finding | None:
    """Ripple: AC volts under load, then the diodes."""
    suspect, bad = view.limit("ripple suspect"), view.limit("ripple bad")
    if not any(found.kind == "ripple" and float(found.figures["volts_ac"] or 0.0) >= suspect for found in view.found):
        return None
    text = (f"{_alone(view)}, engine at about 1500 revolutions a minute, blower and high beam on: AC volts between the "
            f"battery posts: above {bad:.1f} V AC test the generator's diodes (diode test, or its current on a "
            f"scope: one pulse in the row is missing), below {suspect:.1f} V AC they are sound")
    return _next(text, {"suspect_volts_ac": suspect, "bad_volts_ac": bad}, view.cite("ripple suspect", "ripple bad"))


def _steps(view: View) -> Finding | None:
    """Charging in long steps: what was asked for beside what came."""
    if not any("steps" in found.figures for found in view.found) or _of_charging(view, "proven"):
        return None
    low = view.limit("charging lowest")
    text = (f"{_alone(view)}, engine running: read the commanded charging voltage (or current) beside the voltage at "
            f"the battery, lamps and blower on: alike is charging as told; {low:.1f} V and more asked for and not "
            "there is the generator or its cables")
    return _next(text, {"charging_volts": low}, view.cite("commanded charging rests to", "charging lowest"))


def _draw(view: View) -> Finding | None:
    """A rest that falls: the key-off draw."""
    falls = next((found for found in view.found if found.kind == "falling rest"), None)
    if falls is None:
        return None
    if "wakes_every_s" in falls.figures:
        text = ("the key-off current for an hour and more, vehicle locked: above "
                f"{view.limit('key-off draw'):.0f} mA on average, find the module that wakes: the drop "
                "across each fuse through one of the wake-ups, then what wakes it")
        return _next(text, {}, view.cite("key-off draw"))
    text = (f"key-off draw, {view.limit('modules asleep to'):.0f} min after locking: more than "
            f"{view.limit('key-off draw'):.0f} mA is a draw to be found branch by branch; with less, load-test the "
            "battery once it is charged")
    return _next(text, {}, view.cite("key-off draw"))


def _charging(view: View) -> Finding | None:
    """Charging that nothing proves or fails."""
    if not view.of("cycling", "charging", "running") or _of_charging(view, "proven"):
        return None
    low, high = view.limit("charging lowest"), view.limit("charging highest warm")
    dead, wait = view.limit("not charging below"), view.limit("charging judged after")
    text = (f"{_alone(view)}, run the engine (an electric drive: READY) for {wait:.0f} s and more, and measure at the "
            f"battery: {low:.1f} to {high:.1f} V is charging, below {dead:.1f} V is not")
    return _next(text, {"charging_volts": low, "not_charging_volts": dead, "wait_s": wait},
                 view.cite("charging lowest", "not charging below", "charging judged after"))


def _ready(view: View) -> Finding | None:
    """A load that draws the battery down for minutes without a start in sight: an electric drive is never cranked."""
    loads = view.of("key on", "load", "sag")
    lasts = sum(part.end_s - part.start_s for part in loads)
    known = any(view.context.engine_in(part.start_s, part.end_s) is not None for part in loads)
    if known or view.of("crank", "charging", "running", "cycling") or lasts < view.limit("charging judged after") * 4:
        return None
    low, charged = view.limit("charging lowest"), view.limit("charged battery highest")
    text = (f"say whether the drive was READY or the engine ran: if so, nothing charged the battery (more than "
            f"{charged:.1f} V, mostly {low:.1f} V and more, is what a converter holds): its fuse, cable and output "
            f"come first; if only the key was on, {_load_test(view)}")
    return _next(text, {"charging_volts": low}, view.cite("charged battery highest", "charging lowest"))


def _battery(view: View) -> Finding | None:
    """A battery that nothing proves."""
    if any(found.part == "battery" and found.state == "proven" for found in view.found):
        return None
    return _next(_load_test(view), {}, view.cite("load test seconds", "rest hours least"))


def _asleep(view: View) -> Finding:
    """With battery and charging proven, the draw is left."""
    text = (f"key-off draw, {view.limit('modules asleep to'):.0f} min after locking: "
            f"{view.limit('key-off draw'):.0f} mA and less passes")
    return _next(text, {}, view.cite("key-off draw"))


def _next(text: str, figures: dict[str, float], source: str) -> Finding:
    """The measurement that decides, as a finding."""
    return Finding("decides", f"the one measurement that decides: {text}", dict(figures), source)
