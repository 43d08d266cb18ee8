"""The traces in fixtures/traces, each made from its story: a delivery van whose lights stayed on, and a truck.

``python tests/support/trace_fixtures.py`` writes them anew; a test holds the files against this module.
"""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path

import numpy as np
from made_traces import Made, crank, ramp, rise

FOLDER = Path(__file__).parents[2] / "fixtures" / "traces"


def van_flat_battery() -> str:
    """Flat after a cold week with the lights on: two tries to start, neither of them starts."""
    made = Made(25, 101).add("rest", 20, 11.75).add("key on", 6, 11.4)
    made.add("crank", 2.0, crank(7.3, 5.9, 0.25)).add("recovery", 12, rise(10.6, 11.4, 2.5))
    made.add("crank", 1.6, crank(6.9, 5.6, 0.25)).add("recovery", 20, rise(10.4, 11.3, 2.5))
    trace = made.trace(0.02, 2)
    return "time_s,battery_V\n" + "".join(f"{at:.2f},{volts:.2f}\n" for at, volts in zip(
        trace.seconds.tolist(), trace.volts.tolist(), strict=True))


def jump_pack_pulsing() -> str:
    """A jump pack that cuts in and out on a running engine; taken off at 08:03:20, the engine runs on flat."""
    made = Made(10, 102).add("rest", 20, 11.7).add("key on", 8, 11.5).add("crank", 1.5, crank(9.8, 8.2, 0.15))
    made.pulses(17, 10.0, 11.45, 14.05, 0.6, high_first=True).add("running", 80, 11.72)
    trace = made.trace(0.02, 2)
    begin = datetime(2025, 3, 3, 8, 0, 0)
    rows = ["Uhrzeit;Bordspannung"]
    for at, volts in zip(trace.seconds.tolist(), trace.volts.tolist(), strict=True):
        moment = begin + timedelta(seconds=at)
        rows.append(f"{moment:%H:%M:%S},{moment.microsecond // 100_000};{volts:.2f}".replace(".", ","))
    return "\n".join(rows) + "\n"


def charging_after_start() -> str:
    """A good start on a new battery, nothing connected: charging within seconds, rear window heater on and off."""
    made = Made(20, 103).add("rest", 30, 12.62).add("key on", 6, 12.25).add("crank", 0.9, crank(10.3, 8.1))
    made.add("recovery", 5, rise(12.2, 14.25, 1.0)).add("charging", 60, 14.25).add("load", 25, 13.85)
    made.add("charging", 40, 14.25)
    trace = made.trace(0.015, 3)
    begin = datetime(2025, 3, 3, 14, 30, 0)
    rows = ["timestamp\tvolts"]
    rows += [f"{(begin + timedelta(seconds=at)).isoformat(timespec='milliseconds')}\t{volts:.3f}"
             for at, volts in zip(trace.seconds.tolist(), trace.volts.tolist(), strict=True)]
    return "\n".join(rows) + "\n"


def slow_polling() -> str:
    """A live value read every two seconds or so with a pause: the start falls between two readings."""
    rng = np.random.default_rng(104)
    at = np.cumsum(rng.uniform(1.9, 2.1, 260))
    at[140:] += 45.0
    volts = np.where(at < 120.0, 12.35, np.minimum(13.9, 13.2 + (at - 120.0) * 0.08)) + rng.normal(0.0, 0.03, 260)
    rows = ["time;coolant;module voltage;battery voltage"]
    rows += [f"{seconds:.1f};{20 + place // 8};{value - 0.25:.1f};{value:.1f}"
             for place, (seconds, value) in enumerate(zip(at.tolist(), volts.tolist(), strict=True))]
    return "\n".join(rows) + "\n"


def truck_24_volts() -> str:
    """A 24 V truck on a cold morning: long crank, charging, tail lift on and off. Milliseconds and millivolts."""
    made = Made(50, 105, 2.0).add("rest", 10, 12.4).add("key on", 5, 12.05)
    made.add("crank", 3.0, crank(9.9, 8.6, 0.1, hz=4.0)).add("recovery", 4, ramp(11.8, 14.0, 4))
    made.add("charging", 25, 14.0).add("load", 8, 13.5).add("charging", 15, 14.0)
    trace = made.trace(0.01, 3)
    return "ms,mV\n" + "".join(f"{at * 1000:.0f},{volts * 1000:.0f}\n" for at, volts in zip(
        trace.seconds.tolist(), trace.volts.tolist(), strict=True))


def generator_fails() -> str:
    """A van that charges, then sinks slowly under lamps and blower once its generator stops."""
    made = Made(2, 106).add("rest", 30, 12.5).add("crank", 1.5, crank(9.9, 8.4, 0.0)).add("charging", 120, 14.1)
    made.add("sag", 300, ramp(12.6, 11.5, 300)).add("running", 60, 11.5)
    trace = made.trace(0.02, 2)
    return "seconds volts\n" + "".join(f"{at:.1f} {volts:.2f}\n" for at, volts in zip(
        trace.seconds.tolist(), trace.volts.tolist(), strict=True))


FIXTURES = {
    "van_flat_battery.csv": van_flat_battery, "jump_pack_pulsing.csv": jump_pack_pulsing,
    "charging_after_start.tsv": charging_after_start, "slow_polling.csv": slow_polling,
    "truck_24_volts.csv": truck_24_volts, "generator_fails.txt": generator_fails,
}

if __name__ == "__main__":
    FOLDER.mkdir(parents=True, exist_ok=True)
    for name, make in FIXTURES.items():
        (FOLDER / name).write_text(make(), encoding="utf-8")
