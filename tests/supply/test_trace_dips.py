"""Brief dips of a supply that charges, and a night's log with wake-ups of one rhythm; both common practice."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from typer.testing import CliRunner

from triage.cli import app
from triage.supply.finding import Finding
from triage.supply.findings import findings
from triage.supply.segments import segments
from triage.supply.trace import Trace, make_trace


def found_in(trace: Trace) -> list[Finding]:
    return findings(trace, segments(trace))


def started(dips: list[float], low: float = 10.4, lasts: float = 0.4) -> Trace:
    """Ten times a second: rest, a crank of a second, then 14.1 V with dips of ``lasts`` s at ``dips``."""
    seconds = np.arange(0.0, 131.0, 0.1)
    volts = np.where(seconds < 10, 12.4, np.where(seconds < 11, 9.9, 14.1))
    for dip in dips:
        volts[(seconds >= dip) & (seconds < dip + lasts)] = low
    return make_trace(seconds, volts + np.random.default_rng(3).normal(0.0, 0.02, len(seconds)))


@pytest.mark.parametrize("dips", [[20.0, 37.0, 54.0, 71.0, 88.0, 105.0, 122.0], [36.3, 67.1, 73.5, 79.4, 87.5, 121.3]])
def test_dips_below_the_battery_are_a_contact_regular_or_not(dips: list[float]) -> None:
    found = found_in(started(dips))
    kinds = [one.kind for one in found]
    assert kinds.count("dips") == 1
    assert "charging" in kinds
    assert not {"cycling", "sag"} & {*kinds}
    told = next(one for one in found if one.kind == "dips")
    assert told.figures["count"] == len(dips)
    assert "moved by hand" in found[-1].text


def test_one_dip_and_a_long_fall_are_none() -> None:
    assert "dips" not in [one.kind for one in found_in(started([50.0]))]
    assert "dips" not in [one.kind for one in found_in(started([30.0, 80.0], lasts=8.0))]


def slept(every: float, fall: float) -> Trace:
    """A reading a minute for 14 h that falls by ``fall`` V, with a wake-up of 4 min each ``every`` s (none: 0)."""
    seconds = np.arange(0.0, 14 * 3600.0, 60.0)
    volts = 12.62 - fall * seconds / seconds[-1] - (0.25 * (seconds % every < 240.0) if every else 0.0)
    return make_trace(seconds, volts + np.random.default_rng(5).normal(0.0, 0.005, len(seconds)))


@pytest.mark.parametrize(("every", "fall", "told"), [(1800.0, 1.2, True), (0.0, 1.2, False), (1800.0, 0.0, False)])
def test_a_night_with_wake_ups_is_told(every: float, fall: float, told: bool) -> None:
    found = found_in(slept(every, fall))
    texts = [one.text for one in found if one.kind == "falling rest"]
    assert any("wakes every 30 min for 4 min" in text for text in texts) is told
    assert ("find the module that wakes" in found[-1].text) is told
    assert not told or not [one for one in found if one.kind in ("load", "state of charge")]


def test_what_to_do_is_told_at_the_first_try_alone() -> None:
    seconds = np.arange(0.0, 60.0, 0.1)
    volts = np.full(len(seconds), 12.3)
    for at in (20.0, 32.0, 44.0):
        volts[(seconds >= at - 4) & (seconds < at)] = 11.6
        volts[(seconds >= at) & (seconds < at + 2.2)] = 6.5
        volts[seconds >= at + 2.2] = 11.6
    trace = make_trace(seconds, volts + np.random.default_rng(7).normal(0.0, 0.1, len(seconds)))
    tries = [one.text for one in found_in(trace) if one.kind == "crank"]
    assert ["battery flat or worn" in text for text in tries] == [True, *(False for _ in tries[1:])]
    assert len(tries) > 1
    assert "no start is seen" in tries[-1]


def spiked(low: float, times: int, level: float = 14.2, sigma: float = 0.05) -> Trace:
    """Ten times a second for 5 min: one level with single readings of ``low`` V."""
    rng = np.random.default_rng(11)
    seconds = np.arange(0.0, 300.0, 0.1)
    volts = level + rng.normal(0.0, sigma, len(seconds))
    volts[rng.choice(np.arange(100, 2900, 60), size=times, replace=False)] = low
    return make_trace(seconds, volts)


def test_single_readings_without_supply_while_it_charges() -> None:
    told = [one for one in found_in(spiked(3.1, 9)) if one.kind == "dips"]
    assert [one.figures["count"] for one in told] == [9]
    assert "9 times from 14.20 V, 0.1 s each, down to 3.10 V" in told[0].text
    # No load pulls a supply below what a starter does (common practice: 7 V and more for a moment).
    assert "or a load" not in told[0].text
    assert "or a load" in next(one.text for one in found_in(spiked(10.5, 4)) if one.kind == "dips")


def test_a_24_v_supply_that_breaks_off() -> None:
    assert any("down to 5.00 V" in one.text and "or a load" not in one.text
               for one in found_in(spiked(5.0, 6, level=28.1)) if one.kind == "dips")


@pytest.mark.parametrize("trace", [
    spiked(3.1, 1), spiked(13.6, 9), spiked(12.2, 9, level=12.6), spiked(14.2, 0, sigma=0.3),
])
def test_one_reading_noise_and_loads_are_no_dips(trace: Trace) -> None:
    assert "dips" not in [one.kind for one in found_in(trace)]


def screen(tmp_path: Path, volts: np.ndarray, interval: float) -> list[str]:
    (tmp_path / "log.csv").write_text("s,V\n" + "".join(
        f"{at * interval:.2f},{volt:.2f}\n" for at, volt in enumerate(volts)))
    return CliRunner().invoke(app, ["trace", str(tmp_path / "log.csv")]).output.splitlines()


def test_a_screen_lists_the_first_and_the_last_of_many_segments(tmp_path: Path) -> None:
    volts = np.tile(np.repeat([12.6, 9.9, 14.2], [100, 15, 200]), 14)
    lines = screen(tmp_path, volts, 0.1)
    count = int(lines[0].split(": ")[-1].split()[0])
    assert count > 24
    assert any(f"... {count - 24} more lines: --json lists all segments" in line for line in lines)
    table = lines[lines.index("  segments"):]
    assert sum(" s to " in line and " V" in line for line in table) == 24


def test_findings_come_before_segments_and_those_that_take_turns_are_one_line(tmp_path: Path) -> None:
    seconds = np.arange(0.0, 60.0, 0.02)
    volts = 13.9 + 0.35 * np.sign(np.sin(2.0 * np.pi * seconds / 1.3)) * (1.0 + 0.3 * np.sin(seconds))
    lines = screen(tmp_path, volts, 0.02)
    table = lines.index("  segments")
    assert any(line.startswith("  charging: swings between") for line in lines[:table])
    assert len([line for line in lines[table:] if " s to " in line]) <= 2
    assert any("in turns" in line for line in lines[table:])
