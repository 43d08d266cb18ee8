"""What one measurement means: a meter reading, with where, when and under what it was taken.

Each function takes plain numbers and gives one finding. Where the conditions that a limit asks for are not given, the
finding says so and settles nothing.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Literal

from triage.supply.bands import charge_band, charging_band, charging_high, load_test_limit
from triage.supply.finding import Figure, Finding
from triage.supply.limits import cite, limit, system_of

if TYPE_CHECKING:
    from triage.model.session import BatteryType
    from triage.model.snapshot import OutsideSupply

Path = Literal["ground", "positive"]


def rested_voltage(volts: float, *, battery: BatteryType = "unknown", rested_hours: float | None = None,
                   temperature_c: float | None = None, nominal: float = 12.0) -> Finding:
    """A voltage at the battery with everything off. ``rested_hours``: since charge or use, modules asleep.

    Without six hours of rest there is no estimate of charge; a voltage at the flat level is told all the same, since
    surface charge only raises it.
    """
    system = system_of(nominal)
    figures: dict[str, Figure] = {"volts": round(volts, 3), "rested_hours": rested_hours,
                                  "temperature_c": temperature_c}
    least = limit("rest hours least")
    flat = limit("rested flat", system)
    if rested_hours is None or rested_hours < least:
        rest = "nobody said how long it rested" if rested_hours is None else f"{rested_hours:.3g} h of rest"
        text = f"{volts:.2f} V, {rest}: not rested, no estimate of charge (at least {least:.0f} h, modules asleep)"
        if volts <= flat:
            text += f"; at or below {flat:.1f} V it is discharged or loaded: charge it before judging anything"
        return Finding("state of charge", text, figures, cite("rest hours least", "rested flat", system=system),
                       "battery", "not tested")
    if battery == "lithium":
        return _lithium(volts, system, figures)
    band = charge_band(volts, battery, system, temperature_c)
    assert band is not None
    dead = limit("dead cell rested", system)
    kind = {"flooded": "flooded", "AGM": "AGM"}.get(battery, "lead acid of unknown type")
    text = (f"{volts:.2f} V after {rested_hours:.3g} h of rest, {kind}: {band.word} "
            f"({band.low:.0f} to {band.high:.0f} %)")
    if volts <= dead + 0.2:
        text += f"; near {dead:.1f} V: if it was charged before, a cell is dead"
    if system == 24:
        text += "; measure each battery of the pair, one bad hides in the sum"
    figures |= {"percent_low": round(band.low, 1), "percent_high": round(band.high, 1)}
    # Charge alone does not prove a battery: full and rested asks for the load test, flat asks for a charge.
    return Finding("state of charge", text, figures, band.source, "battery", "not tested")


def _lithium(volts: float, system: int, figures: Mapping[str, Figure]) -> Finding:
    """Lithium iron phosphate: charged, nearly empty, or no telling."""
    full, empty = limit("lithium rested charged", system), limit("lithium rested nearly empty", system)
    if volts >= full:
        word = "charged"
    elif volts <= empty:
        word = "nearly empty"
    else:
        word = "anywhere between: its voltage is too flat to tell, use its own monitor"
    source = cite("lithium rested charged", "lithium rested nearly empty", system=system)
    return Finding("state of charge", f"{volts:.2f} V rested, lithium iron phosphate: {word}", figures, source,
                   "battery", "not tested")


def load_test(volts: float, *, temperature_c: float | None = None, charge_percent: float | None = None,
              seconds: float = 15.0) -> Finding:
    """The voltage of one 12 V battery at the end of ``seconds`` at half its cold cranking current, which is what the
    limit holds for."""
    least = load_test_limit(temperature_c)
    figures = {"volts": round(volts, 3), "limit_volts": round(least, 2), "temperature_c": temperature_c,
               "charge_percent": charge_percent, "seconds": seconds}
    source = cite("load test lowest by temperature", "load test charge least")
    at = "20 degrees Celsius and above" if temperature_c is None else f"{temperature_c:.0f} degrees Celsius"
    text = (f"load test {volts:.2f} V, against {least:.2f} V at {at}, after {limit('load test seconds'):.0f} s at half "
            f"the cold cranking current")
    wanted = limit("load test charge least")
    cold = load_test_limit(-18.0)
    if charge_percent is not None and charge_percent < wanted:
        return Finding("load test", f"{text}: no verdict at {charge_percent:.0f} % charge, test from {wanted:.0f} % on",
                       figures, source, "battery", "not tested")
    if seconds < limit("load test seconds") - 1.0 and volts >= least:
        return Finding("load test", f"{text}: too short to pass, hold the load 15 s", figures, source, "battery",
                       "not tested")
    if temperature_c is None and cold <= volts < least:
        return Finding("load test", f"{text}: measure the battery's temperature, in the cold it may pass", figures,
                       source, "battery", "not tested")
    passed = volts >= least
    unsure = "" if charge_percent is not None or passed else f" (a fail counts from {wanted:.0f} % charge on)"
    state: Literal["proven", "failed"] = "proven" if passed else "failed"
    return Finding("load test", f"{text}: {'passes' if passed else 'fails'}{unsure}", figures, source, "battery", state)


def running_voltage(volts: float, *, outside: OutsideSupply | None = None, temperature_c: float | None = None,
                    commanded: bool | None = None, seconds_since_start: float | None = None,
                    nominal: float = 12.0, said: str | None = None, loaded: bool = False,
                    ready: bool = False) -> Finding:
    """A voltage with the engine running (an electric drive in READY).

    With an outside supply connected nothing is concluded. ``commanded``: the engine module sets the charging
    voltage; where it may, a low one is not a fault by itself, unless it was read with consumers on (``loaded``) or is a
    converter's (``ready``). ``said``: what stands before the verdict.
    """
    system = system_of(nominal)
    figures = {"volts": round(volts, 3), "temperature_c": temperature_c, "seconds_since_start": seconds_since_start}
    source = cite("charging lowest", "charging highest", "undercharge below", "not charging below", system=system)
    said = said or f"{volts:.2f} V with the engine running"
    wait = limit("charging judged after")
    if outside not in (None, "none", "unknown"):
        return Finding("charging", f"{said} and a {outside} connected: nothing is concluded about charging; take it "
                       "off and measure again", figures, source, "charging", "not tested")
    alone = outside == "none"
    band = charging_band(round(volts, 2), system, temperature_c)  # judged is what is printed
    early = seconds_since_start is not None and seconds_since_start < wait
    if early and band in ("not charging", "undercharge", "low"):
        return Finding("charging", f"{said}, {seconds_since_start:.0f} s after the start: too early, judge it after "
                       f"{wait:.0f} s", figures, cite("charging judged after"), "charging", "not tested")
    charged = limit("charged battery highest", system)
    given = (loaded or ready) and limit("not charging below", system) <= volts < charged
    kind, words, state = _charging_words(band, system, temperature_c, commanded,
                                         held=volts >= limit("commanded charging lowest", system))
    if given:
        why = "with consumers on" if loaded else "a converter that works holds more"
        kind, words, state = "undercharge", f"{why}, below the {charged:.1f} V of a charged battery: it does not " \
            "charge", "failed"
    if not alone:
        doubt = "nobody said whether an outside supply was connected"
        low = band == "not charging" or given
        words = f"{words}; {doubt}" + (", which could only raise it" if low else "")
        state = state if low or band in ("overcharge", "overvoltage") else "not tested"
    else:
        said += ", nothing connected"
    return Finding(kind, f"{said}: {words}", figures, source, "charging", state)


def _charging_words(band: str, system: int, temperature_c: float | None, commanded: bool | None, *,
                    held: bool) -> tuple[str, str, Literal["proven", "failed", "not tested"]]:
    """Kind, words and state for a charging band; ``held``: commanded charging may hold such a voltage on purpose."""
    low, high = limit("charging lowest", system), limit("charging highest warm", system)
    if band == "not charging":
        return "not charging", f"not charging (below {limit('not charging below', system):.1f} V)", "failed"
    if band in ("undercharge", "low"):
        least, most = limit("commanded charging rests from", system), limit("commanded charging rests to", system)
        caveat = (f"commanded charging may hold it at {least:.1f} to {most:.1f} V on purpose: load it with lamps and "
                  "blower and read the commanded value")
        name = "undercharge" if band == "undercharge" else "charging"
        if commanded is False or not held:
            words = f"below the {low:.1f} to {high:.1f} V of a conventional system"
            words += "" if held else f" and the {limit('commanded charging lowest', system):.1f} V of a commanded one"
            return name, words, "failed" if band == "undercharge" else "not tested"
        return name, f"below {low:.1f} V; {caveat}", "not tested"
    if band == "normal":
        return "charging", f"charging, within {low:.1f} to {high:.1f} V", "proven"
    if band == "high":
        most = charging_high(system, temperature_c)
        return "charging", f"charging, above {high:.1f} V but not above {most:.1f} V: watch it warm", "proven"
    if band == "overcharge":
        cold = limit("charging cold highest", system)
        doubt = "" if temperature_c is not None else f"; up to {cold:.1f} V is normal in the cold: take the temperature"
        return "overvoltage", f"overcharging (above {charging_high(system, temperature_c):.1f} V){doubt}", "failed"
    return "overvoltage", (f"overvoltage, above {limit('overvoltage above', system):.0f} V: no module is bound to work "
                           "there; stop the engine and take off any charger first"), "failed"


def ripple(volts_ac: float, *, nominal: float = 12.0) -> Finding:
    """The alternating voltage at the battery with the engine running and loaded, V AC as a true meter reads it."""
    system = system_of(nominal)
    suspect, bad = limit("ripple suspect", system), limit("ripple bad", system)
    word = "within limits" if volts_ac < suspect else "suspect" if volts_ac <= bad else "too much: test the rectifier"
    text = (f"ripple {volts_ac:.2f} V AC: {word} (suspect from {suspect:.1f} V AC, bad above {bad:.1f} V AC, as far "
            "as the texts agree on load, meter and place)")
    return Finding("ripple", text, {"volts_ac": round(volts_ac, 3), "suspect_volts_ac": suspect, "bad_volts_ac": bad},
                   cite("ripple suspect", "ripple bad", system=system), "charging",
                   "failed" if volts_ac > bad else None)


def programming_supply(volts: float, *, lowest: float | None = None, highest: float | None = None,
                       ripple_volts: float | None = None, supply: OutsideSupply | None = None,
                       nominal: float = 12.0) -> Finding:
    """The supply while a module is programmed: ``ripple_volts`` is peak to peak."""
    system = system_of(nominal)
    low, high = limit("programming lowest", system), limit("programming highest", system)
    least, most = volts if lowest is None else min(lowest, volts), volts if highest is None else max(highest, volts)
    wrong = []
    if least < low:
        wrong.append(f"down to {least:.2f} V")
    if most > high:
        wrong.append(f"up to {most:.2f} V")
    if ripple_volts is not None and ripple_volts > limit("programming ripple"):
        wrong.append(f"ripple {ripple_volts:.2f} V peak to peak against {limit('programming ripple'):.1f} V")
    text = f"supply at programming {volts:.2f} V: "
    text += f"{', '.join(wrong)}, not fit for programming" if wrong else "fit for programming"
    text += f" ({low:.1f} to {high:.1f} V and steady; the maker's own figure goes first)"
    if supply == "charger":
        text += "; a plain charger is no stable supply, its float phase lets the voltage fall"
    return Finding("programming supply", text, {
        "volts": round(volts, 3), "lowest_volts": round(least, 3), "highest_volts": round(most, 3),
        "ripple_volts": ripple_volts, "fit": "no" if wrong else "yes"},
        cite("programming lowest", "programming highest", "programming ripple", system=system))


def harness_drop(module_volts: float, connector_volts: float, *, module: str = "the module") -> Finding:
    """A module's own supply reading against the voltage at the diagnostic connector, taken together."""
    drop = connector_volts - module_volts
    most = limit("harness drop note")
    figures = {"module_volts": round(module_volts, 3), "connector_volts": round(connector_volts, 3),
               "drop_volts": round(drop, 3), "limit_volts": most}
    source = cite("harness drop note", "drop ground path")
    text = f"{module} reads {module_volts:.2f} V while the connector has {connector_volts:.2f} V"
    if module_volts < 1.0 and connector_volts > 6.0:
        return Finding("harness drop", f"{text}: near 0 V in a module that answers can't be its supply: that reading, "
                       "or the wire it senses, is wrong", figures, source)
    if drop > most:
        return Finding("harness drop", f"{text}: {drop:.2f} V are lost on its feed or ground (up to {most:.1f} V is "
                       "usual): measure both under load", figures, source, "cables and grounds", "failed")
    if drop < -most:
        return Finding("harness drop", f"{text}: {-drop:.2f} V more than the connector: the two were not read "
                       "together, or the connector's own ground or feed drops", figures, source)
    return Finding("harness drop", f"{text}: {drop:.2f} V on the way, as usual", figures, source)


def voltage_drop(volts: float, path: Path, *, under_load: bool = True, where: str = "") -> Finding:
    """A voltage drop along the ``ground`` or the whole ``positive`` path, measured with current flowing."""
    most = limit("drop ground path" if path == "ground" else "drop positive path")
    place = f"{path} path{' ' + where if where else ''}"
    figures = {"drop_volts": round(volts, 3), "limit_volts": most, "path": path, "where": where or None}
    source = cite("drop ground path" if path == "ground" else "drop positive path")
    if not under_load:
        return Finding("voltage drop", f"{abs(volts):.2f} V on the {place} without load: proves nothing, measure it "
                       "with current flowing", figures, source, "cables and grounds", "not tested")
    passed = abs(volts) <= most
    text = f"{abs(volts):.2f} V on the {place} under load against {most:.1f} V: {'passes' if passed else 'too much'}"
    return Finding("voltage drop", text, figures, source, "cables and grounds", "proven" if passed else "failed")


def key_off_draw(milliamps: float, *, minutes: float | None = None, asleep: bool = False) -> Finding:
    """The current from the battery with the key off, ``minutes`` after locking. ``asleep``: said to be of modules
    asleep."""
    most, earliest = limit("key-off draw"), limit("modules asleep from")
    latest = limit("modules asleep to")
    figures = {"milliamps": round(milliamps, 2), "limit_milliamps": most, "minutes": minutes}
    source = cite("key-off draw", "modules asleep from")
    when = "" if minutes is None else f" {minutes:.0f} min after locking"
    text = f"key-off draw {milliamps:.0f} mA{when} against {most:.0f} mA"
    if milliamps <= most:
        return Finding("key-off draw", f"{text}: passes", figures, source, "key-off draw", "proven")
    if not asleep and (minutes is None or minutes < earliest):
        return Finding("key-off draw", f"{text}: too early, modules need {earliest:.0f} to {latest:.0f} min to fall "
                       "asleep", figures, source, "key-off draw", "not tested")
    if minutes is not None and minutes < latest:
        return Finding("key-off draw", f"{text}: too much so far, but some modules need {latest:.0f} min: read it "
                       "again then", figures, source, "key-off draw", "not tested")
    return Finding("key-off draw", f"{text}: too much, find which fuse carries it", figures, source, "key-off draw",
                   "failed")


def battery_pair(
    first: float, second: float, *, rested: bool = False, still: bool = False, running: bool = False,
) -> Finding:
    """Both batteries of a 24 V pair, each measured alone (volts): one that is bad hides in a good sum. ``still``: the
    engine was off and nothing connected, ``rested``: for so long that no surface charge was left."""
    apart = abs(first - second)
    most, low = limit("pair difference", 24), min(first, second)
    figures = {"first_volts": round(first, 3), "second_volts": round(second, 3), "sum_volts": round(first + second, 3),
               "difference_volts": round(apart, 3), "limit_volts": most}
    source = cite("pair difference", system=24) + "; " + cite("dead cell rested")
    text = f"pair {first:.2f} V and {second:.2f} V ({first + second:.2f} V in all), {apart:.2f} V apart"
    if running:
        return _pair_charged(first, second, f"{text} with the engine running", figures, source)
    if low <= limit("dead cell rested") + 0.2:
        which = "first" if first < second else "second"
        return Finding("battery pair", f"{text}: the {which} is down to {low:.2f} V, discharged or a cell dead; charge "
                       "and load-test each alone", figures, source, "battery", "failed")
    if apart > most:
        if not rested and not (still and apart > limit("pair difference unrested", 24)):
            return Finding("battery pair", f"{text}, more than {most:.1f} V: uneven, but nobody said that they had "
                           "rested: charge both, let them rest and load-test each alone", figures, source, "battery",
                           "not tested")
        return Finding("battery pair", f"{text}, more than {most:.1f} V: charge and load-test each alone", figures,
                       source, "battery", "failed")
    return Finding("battery pair", f"{text}: alike; load-test each alone to prove them", figures, source, "battery",
                   "not tested")


def _pair_charged(first: float, second: float, text: str, figures: Mapping[str, Figure], source: str) -> Finding:
    """The pair while it is charged: the one in series that takes too little leaves too much to the other."""
    most, low, high = limit("pair difference", 24), limit("undercharge below"), limit("overcharge above")
    if abs(first - second) <= most:
        return Finding("battery pair", f"{text}: alike; load-test each alone to prove them", figures, source, "battery",
                       "not tested")
    text += f", more than {most:.1f} V"
    weak, strong = ("first", "second") if first < second else ("second", "first")
    if min(first, second) >= low and max(first, second) <= high:
        return Finding("battery pair", f"{text}: charge and load-test each alone", figures, source, "battery",
                       "not tested")
    source += "; " + cite("undercharge below", "overcharge above")
    text += f": the {weak} ({min(first, second):.1f} V) is failing"
    if max(first, second) > high:
        text += f", the {strong} is overcharged (above {high:.1f} V) and gases: keep sparks away, renew both"
    return Finding("battery pair", f"{text}; load-test each alone", figures, source, "battery", "failed")
