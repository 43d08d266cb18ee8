"""The traces in fixtures/traces: as their stories make them, and read end to end."""

from __future__ import annotations

import pytest
from trace_fixtures import FIXTURES, FOLDER

from triage.supply.finding import OutsideSpan, SupplyContext
from triage.supply.findings import findings
from triage.supply.segments import segments
from triage.supply.trace import Trace, read_trace

KINDS = {
    "van_flat_battery.csv": ["rest", "key on", "crank", "recovery", "key on", "crank", "recovery", "key on"],
    "jump_pack_pulsing.csv": ["rest", "key on", "crank", "cycling", "running"],
    "charging_after_start.tsv": ["rest", "key on", "crank", "recovery", "charging", "load", "charging"],
    "slow_polling.csv": ["rest", "recovery", "charging"],
    "truck_24_volts.csv": ["rest", "key on", "crank", "recovery", "charging", "load", "charging"],
    "generator_fails.txt": ["rest", "crank", "charging", "sag", "running"],
}


def read(name: str) -> Trace:
    """The fixture's trace."""
    trace, _ = read_trace((FOLDER / name).read_text(encoding="utf-8"), source=name)
    assert trace is not None
    return trace


def test_every_file_has_its_story() -> None:
    assert sorted(path.name for path in FOLDER.iterdir()) == sorted(FIXTURES) == sorted(KINDS)


@pytest.mark.parametrize("name", FIXTURES)
def test_the_file_is_what_its_story_makes(name: str) -> None:
    assert (FOLDER / name).read_text(encoding="utf-8") == FIXTURES[name]()


@pytest.mark.parametrize("name", KINDS)
def test_the_segments_tell_the_story(name: str) -> None:
    assert [segment.kind for segment in segments(read(name), None)] == KINDS[name]


def test_the_flat_battery() -> None:
    trace = read("van_flat_battery.csv")
    told = findings(trace, segments(trace), SupplyContext(outside=(), temperature_c=20.0))
    assert [finding.state for finding in told if finding.kind == "crank"] == ["failed", "failed"]
    assert any("at or below 11.9 V" in finding.text for finding in told)
    assert "load-test" in told[-1].text


def test_the_jump_pack() -> None:
    trace = read("jump_pack_pulsing.csv")
    assert trace.clock == 8 * 3600.0
    told = findings(trace, segments(trace), SupplyContext(outside=(OutsideSpan(5.0, 199.5, "jump pack"),)))
    kinds = {finding.kind: finding for finding in told}
    assert "pulses" in kinds["cycling"].text
    assert kinds["not charging"].state == "failed"
    assert "charging" not in kinds


def test_the_truck() -> None:
    trace = read("truck_24_volts.csv")
    told = findings(trace, segments(trace, 24), SupplyContext(24.0, outside=(), temperature_c=-8.0))
    kinds = {finding.kind: finding for finding in told}
    assert "above the 19.2 V" in kinds["crank"].text  # twice the 9.6 V of one battery
    assert kinds["charging"].state == "proven"
